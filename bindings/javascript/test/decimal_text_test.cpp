// The number texts of the WebAssembly build are those of the standard library, character by character, and are
// read as it reads them, bit by bit.
#include "../src/decimal_text.hpp"

#include <cmath>
#include <cstdio>
#include <random>
#include <sstream>
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

/// Reads a text as std::strtod does, up to the same character.
void compare_reading(const std::string& text) {
    const char* end = nullptr;
    char* their_end = nullptr;
    const double ours = sirop_wasm::read_number(text.c_str(), &end);
    const double theirs = std::strtod(text.c_str(), &their_end);
    if (ours == theirs && std::signbit(ours) == std::signbit(theirs) && end == their_end) return;
    if (++failures <= 10) std::printf("%s: %a, not %a\n", text.c_str(), ours, theirs);
}

std::string printed(const char* format, long double x) {
    std::array<char, 1600> text;
    std::snprintf(text.data(), text.size(), format, x);
    return text.data();
}

}  // namespace

int main() {
    std::mt19937_64 random(1912);
    long compared = 0;
    const auto both = [&](double x) {
        compare(x, -1);
        if (std::isfinite(x)) {
            compare_reading(printed("%.17Lg", x));
            compare_reading(printed("%.15Lg", x));
            compare_reading(printed("%.30Le", x));
            // half way to the next number, exactly, and a little beside it
            const double next = std::nextafter(x, HUGE_VAL);
            const long double half_way = (static_cast<long double>(x) + static_cast<long double>(next)) / 2;
            auto text = printed("%.800Le", half_way);
            compare_reading(text);
            text[text.find('e') - 1] = '1';
            compare_reading(text);
            compared += 5;
        }
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
    for (int i = 0; i < 10000; ++i) {
        const std::uint64_t bits = random();
        double x = 0.0;
        std::memcpy(&x, &bits, sizeof x);
        if (!std::isnan(x)) both(x);
        const double y = kitchen(random);
        both(y);
        both(std::round(y * 100.0) / 100.0);
    }
    std::istringstream texts(R"(
        0 -0 0.0 -0.000e5 1e400 -1e400 1e-400 1e99999999999 1e-99999999999 0e999999999
        0.00000000000000000000000000000000000000000000000000000000000000000000000001e80 4.9e-324 2.4e-324
        2.5e-324 1.7976931348623157e308 1.7976931348623158e308 1.7976931348623159e308 9007199254740993
        9007199254740992.9999999999999999999999999999 123456789012345678901234567890 2.2250738585072011e-308
        2.2250738585072012e-308 12.5E+1 12.5e-1, 7] 1.5e})");
    for (std::string text; texts >> text;) compare_reading(text);
    compare_reading("0.1 ");
    compare_reading("0." + std::string(2000, '0') + "1e2000");
    compare_reading("0." + std::string(1000000, '0') + "1e1000001");
    compare_reading("1" + std::string(1000000, '0') + "e-1000000");
    compare_reading(std::string(400, '9') + "e-390");
    compare_reading("1" + std::string(400, '0') + "1e-395");
    // a buffer that is too small
    char small[3];
    if (sirop_wasm::write_fixed(small, small + 3, 12.5, 1).ec != std::errc::value_too_large) ++failures;
    if (sirop_wasm::write_shortest(small, small + 3, 12.5).ec != std::errc::value_too_large) ++failures;
    std::printf("%ld texts compared, %d differ\n", compared, failures);
    return failures == 0 && compared > 100000 ? 0 : 1;
}
