#include "figure/card_page.hpp"

#include "figure/svg.hpp"
#include "report/page.hpp"
#include "sirop/sirop.h"

namespace sirop::figure {
namespace {

constexpr double a5_width = 148.0, a5_height = 210.0;  // mm
constexpr double width = 560.0, height = width * a5_height / a5_width, margin = 32.0;
constexpr double name_at = 118.0, text_at = 142.0, step = 18.0;
constexpr const char* bold = "font-weight=\"bold\"";

/// A text in lines of so many characters, one below the other; the place of the next line.
double wrapped(page& on, point at, const std::string& text, std::size_t characters, std::string_view style = "",
               double spacing = step) {
    std::string lines;
    lib::row(lines, "", text, 0, characters);
    for (std::size_t from = 0, to = 0; (to = lines.find('\n', from)) != std::string::npos; from = to + 1) {
        on.text(at, lines.substr(from, to - from), style);
        at.y += spacing;
    }
    return at.y;
}

/// Draws it from the top; how far down it comes.
double draw(page& on, const lib::card& c) {
    double y = wrapped(on, {margin, 44.0}, c.title, 40, "font-size=\"20\" font-weight=\"bold\"", 25.0);
    const double top = y - 12.0;
    y += 6.0;
    for (const auto& caution : c.cautions) y = wrapped(on, {margin + 10.0, y}, caution, 66, bold);
    on.box({margin, top}, {width - margin, y - 8.0}, frame);
    y += 2.0;
    for (const auto& a : c.amounts) {
        if (!a.where.empty()) {
            on.text({margin, y += 8.0 + step / 2.0}, a.where, bold);
            y += step;
        }
        on.text({name_at - 10.0, y}, a.grams, to_the_left);
        y = wrapped(on, {name_at, y}, a.name, 56);
    }
    on.box({margin, y - 4.0}, {width - margin, y + 62.0}, solid);
    on.text({margin + 10.0, y + 15.0}, c.stop.label + " on this thermometer", bold);
    on.text({0.5 * width, y + 51.0}, c.stop.text, "text-anchor=\"middle\" font-size=\"36\" font-weight=\"bold\"");
    y += 86.0;
    for (const auto& line : c.lines) {
        on.text({margin, y}, line.label, bold);
        y = wrapped(on, {text_at, y}, line.text, 56) + 3.0;
    }
    on.text({margin, y + 6.0},
            std::string("From a model, not from a test of this batch. sirop ") + sirop_version(),
            "font-size=\"10\"");
    return y + 6.0 + margin;
}

}  // namespace

std::string card_page(const lib::card& c) {
    page first(width, height, a5_width, a5_height);
    const double scale = std::fmax(1.0, draw(first, c) / height);  // a long card is printed smaller
    page on(width * scale, height * scale, a5_width, a5_height);
    draw(on, c);
    return on.file(c.title, c.cautions.front() + " Stop at " + c.stop.text + ".");
}

}  // namespace sirop::figure
