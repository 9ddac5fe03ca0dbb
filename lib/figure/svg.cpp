#include "figure/svg.hpp"

#include <algorithm>
#include <cmath>

#include "sirop/base/text.hpp"

namespace sirop::figure {
namespace {

/// A text as XML 1.0: markup escaped, what XML forbids replaced by a blank, cut to a width.
std::string escaped(std::string_view text, double most_characters = any_width) {
    std::string out;
    double width = 0.0;
    for (std::size_t i = 0, next = 0; i < text.size(); i = next) {
        next = i + 1;
        while (next < text.size() && (static_cast<unsigned char>(text[next]) & 0xC0U) == 0x80U) ++next;
        const auto character = text.substr(i, next - i);
        width += width_in_characters(character);
        if (width > most_characters) return out + "…";
        const bool forbidden = static_cast<unsigned char>(character[0]) < 0x20U || character == "\x7F" ||
                               character == "\xEF\xBF\xBE" || character == "\xEF\xBF\xBF";
        out += forbidden           ? std::string_view(" ")
               : character == "&"  ? "&amp;"
               : character == "<"  ? "&lt;"
               : character == ">"  ? "&gt;"
               : character == "\"" ? "&quot;"
                                   : character;
    }
    return out;
}

std::string titled(std::string_view tip) {
    return tip.empty() ? std::string() : "<title>" + escaped(tip) + "</title>";
}

std::string number(double value) {
    auto text = core::fixed(value, 1);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    return text;
}

}  // namespace

double axis::clamped(double value) const {
    return at(std::clamp(value, low, high));
}

double tick_step(double span, double most) {
    for (double decade = 0.01;; decade *= 10.0)
        for (const double round : {1.0, 2.0, 5.0})
            if (span / (round * decade) <= most) return round * decade;
}

double width_in_characters(std::string_view text) {
    double n = 0.0;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        const bool broad = byte >= 0xE1U || std::string_view("MWmw%@").find(c) != std::string_view::npos;
        n += (byte & 0xC0U) == 0x80U ? 0.0 : broad ? 2.0 : c >= 'A' && c <= 'Z' ? 1.4 : 1.0;
    }
    return n;
}

void page::line(point a, point b, std::string_view style) {
    add("line", {{"x1", a.x}, {"y1", a.y}, {"x2", b.x}, {"y2", b.y}}, style);
}

void page::box(point a, point b, std::string_view style, std::string_view tip) {
    add("rect",
        {{"x", std::min(a.x, b.x)},
         {"y", std::min(a.y, b.y)},
         {"width", std::fabs(b.x - a.x)},
         {"height", std::fabs(b.y - a.y)}},
        style, titled(tip));
}

void page::dot(point a, double radius, std::string_view style, std::string_view tip) {
    add("circle", {{"cx", a.x}, {"cy", a.y}, {"r", radius}}, style, titled(tip));
}

void page::polyline(const line_of_points& points, std::string_view style) {
    if (points.size() > 1) add("polyline", {}, style, {}, points);
}

void page::polygon(const line_of_points& points, std::string_view style) {
    if (points.size() > 2) add("polygon", {}, style, {}, points);
}

void page::text(point a, std::string_view words, std::string_view style, double most_characters) {
    add("text", {{"x", a.x}, {"y", a.y}}, style, escaped(words, most_characters));
}

void page::upright(point a, std::string_view words, std::string_view style) {
    const auto turn = "transform=\"rotate(-90 " + number(a.x) + " " + number(a.y) + ")\" ";
    add("text", {{"x", a.x}, {"y", a.y}}, turn + std::string(style), escaped(words));
}

std::string page::file(std::string_view title, std::string_view description) const {
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + number(sheet_width_) + "mm\" height=\"" +
           number(sheet_height_) + "mm\" viewBox=\"0 0 " + number(width_) + " " + number(height_) +
           "\" role=\"img\" font-family=\"sans-serif\" font-size=\"13\">\n<title>" + escaped(title, 200) +
           "</title>\n<desc>" + escaped(description) +
           "</desc>\n<defs><pattern id=\"hatch\" width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\" "
           "patternTransform=\"rotate(45)\"><line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"5\" stroke=\"#000\" "
           "stroke-width=\"0.9\"/></pattern></defs>\n"
           "<rect x=\"0\" y=\"0\" width=\"" +
           number(width_) + "\" height=\"" + number(height_) + "\" fill=\"#fff\"/>\n" + body_ + "</svg>\n";
}

void page::add(std::string_view element, std::initializer_list<attribute> attributes, std::string_view style,
               const std::string& content, const line_of_points& points) {
    body_.append("<").append(element);
    for (const auto& a : attributes) body_.append(" ").append(a.name) += "=\"" + number(a.value) + "\"";
    if (!points.empty()) {
        const char* before = " points=\"";
        for (const auto& p : points) {
            body_.append(before).append(number(p.x)).append(",").append(number(p.y));
            before = " ";
        }
        body_ += '"';
    }
    if (!style.empty()) body_.append(" ").append(style);
    content.empty() ? body_.append("/>\n") : body_.append(">" + content + "</").append(element).append(">\n");
}

}  // namespace sirop::figure
