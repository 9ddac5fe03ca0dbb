// The README's example: an invented caramel sauce, in C++.
#include <sirop/sirop.hpp>

#include <cstdio>

int main() {
    // [readme]
    using namespace sirop;
    const auto sauce = batch("Caramel sauce (invented)")
                           .pan("white sugar", grams(250))
                           .pan("glucose syrup 42 DE", grams(100))
                           .pan("heavy cream 36 %", grams(300))
                           .off_heat("butter, unsalted", grams(40))
                           .cook_to(celsius(107))
                           .kitchen(pressure_at(metres(350)))
                           .serve_at(celsius(18));
    const auto answer = predict(sauce);
    if (!answer) return std::puts((answer.why.place + ": " + answer.why.reason).c_str()), 2;
    for (const auto& caution : answer->cautions()) std::printf("- %s\n", caution.c_str());
    const auto water = answer->water();
    std::printf("%.1f %% water (%.1f to %.1f), %s; the table says %s\n", 100 * water.value.value,
                100 * water.low.value, 100 * water.high.value, answer->set().c_str(),
                answer->stage_by_temperature().c_str());
    // [readme]
    if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0) return 0;
    std::fputs("standard output: cannot be written\n", stderr);
    return 3;
}
