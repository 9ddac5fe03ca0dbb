// Numbers as text, independent of any locale.
#pragma once

#include <array>
#include <charconv>
#include <cmath>
#include <string>
#include <system_error>

#include "../formula/no_fast_math.hpp"

namespace sirop::core {

/// A number with a fixed count of decimals; "-0" is written as "0".
inline std::string fixed(double x, int decimals) {
    if (std::isnan(x)) return "not a number";
    if (std::isinf(x)) return x > 0.0 ? "infinity" : "-infinity";
    std::array<char, 400> buffer;
    const auto end =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), x, std::chars_format::fixed, decimals);
    std::string text(buffer.data(), end.ptr);
    if (text.find_first_not_of("-0.") == std::string::npos && text[0] == '-') text.erase(0, 1);
    return text;
}

/// The shortest text that reads back as the same number.
inline std::string shortest(double x) {
    if (!std::isfinite(x)) return fixed(x, 0);
    std::array<char, 64> buffer;
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), x);
    return std::string(buffer.data(), end.ptr);
}

constexpr double celsius_to_fahrenheit(double c) {
    return c * 1.8 + 32.0;
}
constexpr double fahrenheit_to_celsius(double f) {
    return (f - 32.0) / 1.8;
}

/// "112.5 C (234.5 F)" with degree signs.
inline std::string both_scales(double celsius, int decimals = 1) {
    return fixed(celsius, decimals) + " °C (" + fixed(celsius_to_fahrenheit(celsius), decimals) + " °F)";
}

}  // namespace sirop::core
