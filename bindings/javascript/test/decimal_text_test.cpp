// The number texts of the WebAssembly build are those of the standard library, character by character.
#include "../src/decimal_text.hpp"

#include <cmath>
#include <cstdio>
#include <random>
#include <string>

namespace {

int failures = 0;

void compare(double x, int decimals) {
    std::array<char, 1600> a, b;
    char* const end_a = a.data() + a.size();
    char* const end_b = b.data() + b.size();
    const auto ours = decimals < 0 ? sirop_wasm::write_shortest(a.data(), end_a, x)
                                   : sirop_wasm::write_fixed(a.data(), end_a, x, decimals);
    const auto theirs = decimals < 0 ? std::to_chars(b.data(), end_b, x)
                                     : std::to_chars(b.data(), end_b, x, std::chars_format::fixed, decimals);
    const std::string our_text(a.data(), ours.ptr), their_text(b.data(), theirs.ptr);
    if (our_text == their_text && ours.ec == theirs.ec) return;
    if (++failures <= 10)
        std::printf("%a, %d decimals: %s, not %s\n", x, decimals, our_text.c_str(), their_text.c_str());
}

}  // namespace

int main() {
    std::mt19937_64 random(1912);
    long compared = 0;
    const auto both = [&](double x) {
        compare(x, -1);
        for (const int decimals : {0, 1, 2, 3, 7}) compare(x, decimals);
        compared += 6;
    };
    // the ends of the range, powers of two and of ten with their neighbours, ties, zero
    for (int power = -1074; power < 1024; ++power) {
        const double x = std::ldexp(1.0, power);
        for (const double y : {x, std::nextafter(x, 0.0), std::nextafter(x, HUGE_VAL), 3.0 * x, -x}) both(y);
    }
    for (int power = -320; power < 308; ++power) {
        const double x = std::pow(10.0, power);
        for (const double y : {x, std::nextafter(x, 0.0), 5.0 * x}) both(y);
    }
    for (double x = -3.0; x < 300.0; x += 0.0625) both(x);
    for (const double x : {0.0, -0.0, HUGE_VAL, -HUGE_VAL, std::nan("")}) both(x);
    // any bits, and numbers of the size of kitchen figures
    std::uniform_real_distribution<double> kitchen(-50.0, 1100.0);
    for (int i = 0; i < 30000; ++i) {
        const std::uint64_t bits = random();
        double x = 0.0;
        std::memcpy(&x, &bits, sizeof x);
        if (!std::isnan(x)) both(x);
        const double y = kitchen(random);
        both(y);
        both(std::round(y * 100.0) / 100.0);
    }
    // a buffer that is too small
    char small[3];
    if (sirop_wasm::write_fixed(small, small + 3, 12.5, 1).ec != std::errc::value_too_large) ++failures;
    if (sirop_wasm::write_shortest(small, small + 3, 12.5).ec != std::errc::value_too_large) ++failures;
    std::printf("%ld texts compared, %d differ\n", compared, failures);
    return failures == 0 && compared > 100000 ? 0 : 1;
}
