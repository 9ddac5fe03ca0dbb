// Names and titles are plain text on one line: what may not stand in them, and how it is shown.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "outcome.hpp"

namespace sirop::core {

/// A code point and its length in UTF-8; a byte that belongs to none stands alone, above all code points.
struct character {
    char32_t code;
    std::size_t bytes;
};

/// The first character of a text that is not empty.
constexpr character first_character(std::string_view text) {
    constexpr char32_t least[] = {0, 0, 0x80, 0x800, 0x10000};  // by length: less is a longer form than needed
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const character stray{0x110000U + byte(0), 1};
    if (byte(0) < 0x80U) return {byte(0), 1};
    const std::size_t bytes = byte(0) < 0xE0U ? 2 : byte(0) < 0xF0U ? 3 : 4;
    if (byte(0) < 0xC2U || byte(0) > 0xF4U || bytes > text.size()) return stray;
    char32_t code = byte(0) & (0x7FU >> bytes);
    for (std::size_t i = 1; i < bytes; ++i) {
        if ((byte(i) & 0xC0U) != 0x80U) return stray;
        code = code << 6U | (byte(i) & 0x3FU);
    }
    const bool surrogate = code >= 0xD800U && code < 0xE000U;
    return code < least[bytes] || surrogate || code > 0x10FFFFU ? stray : character{code, bytes};
}

/// Why a character may not stand in a name; empty if it may.
constexpr std::string_view unfit(char32_t c) {
    if (c < 0x20U || (c >= 0x7FU && c < 0xA0U)) return "a control character";
    if (c == 0x2028U || c == 0x2029U) return "the end of a line";
    if (c == 0x61CU || c == 0x200EU || c == 0x200FU || (c >= 0x202AU && c < 0x202FU) ||
        (c >= 0x2066U && c < 0x206AU))
        return "a mark of the direction of text";
    if (c == 0xFEFFU) return "a byte-order mark";
    if (c > 0x10FFFFU) return "which is not UTF-8";
    return {};
}

namespace detail {

inline std::string hexadecimal(char32_t x, std::size_t digits) {
    std::string text(digits, '0');
    for (; digits > 0; x >>= 4U) text[--digits] = "0123456789ABCDEF"[x & 0xFU];
    return text;
}

}  // namespace detail

/// A text of anybody as plain text: what may not stand in a name as \u000A or, if it is not UTF-8, as \xFF; cut
/// between characters.
inline std::string escaped(std::string_view text, std::size_t most_bytes = std::string::npos) {
    std::string out;
    while (!text.empty()) {
        const auto [code, bytes] = first_character(text);
        const bool byte = code > 0x10FFFFU;
        const auto shown = unfit(code).empty()
                               ? std::string(text.substr(0, bytes))
                               : std::string(byte ? "\\x" : "\\u").append(detail::hexadecimal(code, byte ? 2 : 4));
        if (out.size() + shown.size() > most_bytes) return out + "...";
        out += shown;
        text.remove_prefix(bytes);
    }
    return out;
}

/// The first character of a name or title that may not stand in it, as a refusal with its place.
inline std::optional<refusal> find_text_fault(const std::string& place, std::string_view text) {
    for (auto rest = text; !rest.empty();) {
        const auto [code, bytes] = first_character(rest);
        if (const auto why = unfit(code); !why.empty())
            return refusal{place, std::string(1, '"')
                                      .append(escaped(text, 60))
                                      .append("\" holds ")
                                      .append(code > 0x10FFFFU ? "the byte 0x" : "U+")
                                      .append(detail::hexadecimal(code, code > 0x10FFFFU ? 2 : 4))
                                      .append(", ")
                                      .append(why)
                                      .append("; names are plain text on one line")};
        rest.remove_prefix(bytes);
    }
    return std::nullopt;
}

}  // namespace sirop::core
