// What pages say: words for numbers, lines of text.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "sirop/base/text.hpp"
#include "sirop/texture/consistency.hpp"

namespace sirop::lib {

/// The number whose logarithm was estimated.
inline core::estimate power(const core::estimate& log10) {
    return {std::pow(10.0, log10.value), std::pow(10.0, log10.low), std::pow(10.0, log10.high), log10.status};
}

inline std::string word_of(double log10) {
    return std::string(core::word_for(std::pow(10.0, log10)).word);
}
inline std::string word_at(const core::estimate& log10) {
    return log10.computed() ? word_of(log10.value) : std::string();
}

inline constexpr std::size_t page_width = 80, label_width = 22;

/// Characters, not bytes, of UTF-8.
inline std::size_t width_of(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

/// The bytes of a text's first characters.
inline std::size_t bytes_of(std::string_view text, std::size_t characters) {
    std::size_t at = 0;
    for (; at < text.size(); ++at)
        if ((static_cast<unsigned char>(text[at]) & 0xC0U) != 0x80U && characters-- == 0) break;
    return at;
}

/// A label, then a text wrapped into the column beside it.
[[gnu::noinline]] inline void row(std::string& out, std::string_view label, std::string_view text,
                                  std::size_t indent = label_width, std::size_t width = page_width) {
    out += label;
    std::size_t column = width_of(label);
    if (column < indent) {
        out.append(indent - column, ' ');
        column = indent;
    } else if (column > 0) {  // a long label pushes its text on
        out += ' ';
        ++column;
    }
    bool first = true;
    while (!text.empty()) {
        auto to = std::min(text.find(' '), text.size());
        // a number and its unit are not parted
        for (const std::string_view unit : {" °C", " °F", " g ", " g;", " %"})
            if (text.substr(to, unit.size()) == unit) to = std::min(text.find(' ', to + 1), text.size());
        to = std::min(to, bytes_of(text, width - indent));  // a word longer than the column is cut
        const auto word = text.substr(0, to);
        if (column > indent && column + (first ? 0 : 1) + width_of(word) > width) {
            if (first) out.pop_back();  // the blank after a long label
            out.append(1, '\n').append(indent, ' ');
            column = indent;
        } else if (!first) {
            out += ' ';
            ++column;
        }
        out += word;
        column += width_of(word);
        text.remove_prefix(to);
        if (text.starts_with(' ')) text.remove_prefix(1);
        first = false;
    }
    out += '\n';
}

[[gnu::noinline]] inline void heading(std::string& out, const std::string& text) {
    out += "\n" + text + "\n";
}

[[gnu::noinline]] inline std::string with_range(const core::estimate& e, int decimals, const char* unit) {
    return core::fixed(e.value, decimals) + unit + " (" + core::fixed(e.low, decimals) + " to " +
           core::fixed(e.high, decimals) + ")";
}

/// A viscosity in round numbers: two figures, a power of ten where it is large.
[[gnu::noinline]] inline std::string round_viscosity(double log10) {
    if (log10 >= 12.0) return "over 10^12";
    const double x = std::pow(10.0, log10);
    if (log10 < 1.0) return core::fixed(x, log10 < -1.0 ? 3 : (log10 < 0.0 ? 2 : 1));
    if (log10 < 4.0) {
        const double step = std::pow(10.0, std::floor(log10) - 1.0);
        return core::fixed(std::round(x / step) * step, 0);
    }
    return "10^" + core::fixed(log10, 0);
}

/// What to watch stands first: nobody reads an instruction before its caution.
inline void say_cautions(std::string& out, const std::vector<std::string>& cautions) {
    heading(out, "WHAT TO WATCH");
    for (const auto& caution : cautions) row(out, "  -", caution, 4);
}

/// A title, underlined.
inline std::string title_line(const std::string& title) {
    return title + "\n" + std::string(std::min(width_of(title), page_width), '=') + "\n";
}

}  // namespace sirop::lib
