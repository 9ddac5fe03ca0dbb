// What no name may hold, listed apart from the library, and what a message may hold.
#pragma once

#include <gtest/gtest.h>

#include <set>
#include <string>

namespace test {

inline std::string utf8(char32_t c) {
    const auto byte = [](char32_t x) { return static_cast<char>(static_cast<unsigned char>(x)); };
    const auto more = [&](unsigned shift) { return byte(0x80U | ((c >> shift) & 0x3FU)); };
    if (c < 0x80U) return {byte(c)};
    if (c < 0x800U) return {byte(0xC0U | c >> 6U), more(0)};
    if (c < 0x10000U) return {byte(0xE0U | c >> 12U), more(6), more(0)};
    return {byte(0xF0U | c >> 18U), more(12), more(6), more(0)};
}

/// A text with a character in it.
inline std::string around(std::string before, char32_t c, const char* after) {
    return before.append(utf8(c)).append(after);
}

/// C0, DEL, C1, line ends and marks of direction of Unicode, the byte-order mark.
inline const std::set<char32_t>& unfit_code_points() {
    static const std::set<char32_t> all = [] {
        std::set<char32_t> set = {0x7F,   0x61C,  0x200E, 0x200F, 0x2028, 0x2029, 0x202A, 0x202B,
                                  0x202C, 0x202D, 0x202E, 0x2066, 0x2067, 0x2068, 0x2069, 0xFEFF};
        for (char32_t c = 0; c < 0x20; ++c) set.insert({c, c + 0x80});
        return set;
    }();
    return all;
}

/// "U+000A"; four digits.
inline std::string code_point_name(char32_t c) {
    char name[16];
    std::snprintf(name, sizeof name, "U+%04X", static_cast<unsigned>(c));
    return name;
}

inline void expect_clean(const std::string& message) {
    for (const char32_t c : unfit_code_points())
        ASSERT_EQ(message.find(utf8(c)), std::string::npos) << code_point_name(c) << " in: " << message;
}

}  // namespace test
