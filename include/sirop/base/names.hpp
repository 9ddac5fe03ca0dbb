// Comparing the names of ingredients and stage tables: exact but for ASCII case and outer blanks.
#pragma once

#include <cstddef>
#include <string_view>

#include "../formula/no_fast_math.hpp"

namespace sirop::core {

/// The name without the blanks (space, tab, line ends) around it.
constexpr std::string_view without_outer_blanks(std::string_view name) {
    constexpr std::string_view blanks = " \t\n\v\f\r";
    const std::size_t first = name.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return name.substr(first, name.find_last_not_of(blanks) - first + 1);
}

/// A to Z become a to z; every other byte, so also every accented letter, stays as it is.
constexpr char ascii_lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

constexpr bool same_name(std::string_view a, std::string_view b) {
    a = without_outer_blanks(a);
    b = without_outer_blanks(b);
    if (a.size() != b.size()) return false;
    for (std::size_t i = 0; i < a.size(); ++i)
        if (ascii_lower(a[i]) != ascii_lower(b[i])) return false;
    return true;
}

}  // namespace sirop::core
