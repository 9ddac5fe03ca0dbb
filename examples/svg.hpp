// A small drawing: SVG in black and white, text as text, every coordinate finite and on the page.
#pragma once

#include <algorithm>
#include <cmath>
#include <sirop/base/text.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace svg {

struct point {
    double x = 0.0, y = 0.0;
};
using line_of_points = std::vector<point>;

/// Where the values from low to high lie on the page: from one coordinate to another.
struct axis {
    double low, high, from, to;
    double at(double value) const { return from + (to - from) * (value - low) / (high - low); }
    double clamped(double value) const { return at(std::clamp(value, low, high)); }
    bool holds(double value) const { return value >= low && value <= high; }
    /// The roundest step that gives at most so many ticks.
    static double step(double span, double most) {
        double decade = 0.01;
        for (;; decade *= 10.0)
            for (const double round : {1.0, 2.0, 5.0})
                if (span / (round * decade) <= most) return round * decade;
    }
};

/// Characters of a UTF-8 text as wide as most are; the broad ones, and those of East Asia and beyond, count twice.
inline double width_in_characters(std::string_view text) {
    double n = 0.0;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        const bool broad = byte >= 0xE1U || std::string_view("MWmw%@").find(c) != std::string_view::npos;
        n += (byte & 0xC0U) == 0x80U ? 0.0 : broad ? 2.0 : c >= 'A' && c <= 'Z' ? 1.4 : 1.0;
    }
    return n;
}

/// Text of a stranger as XML 1.0: markup escaped, what XML forbids replaced by a blank, cut to a width.
inline std::string escaped(std::string_view text, double most_characters = 1.0e9) {
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

/// The page.  Attributes are written as given, text is escaped.
class page {
  public:
    page(double width, double height) : width_(width), height_(height) {}

    void line(point a, point b, std::string_view style) {
        add("line", {{"x1", a.x}, {"y1", a.y}, {"x2", b.x}, {"y2", b.y}}, style);
    }
    void box(point a, point b, std::string_view style, const std::string& tip = {}) {
        add("rect",
            {{"x", std::min(a.x, b.x)},
             {"y", std::min(a.y, b.y)},
             {"width", std::fabs(b.x - a.x)},
             {"height", std::fabs(b.y - a.y)}},
            style, tip.empty() ? "" : "<title>" + escaped(tip) + "</title>");
    }
    void dot(point a, double radius, std::string_view style, const std::string& tip = {}) {
        add("circle", {{"cx", a.x}, {"cy", a.y}, {"r", radius}}, style,
            tip.empty() ? "" : "<title>" + escaped(tip) + "</title>");
    }
    void polyline(const line_of_points& points, std::string_view style) {
        if (points.size() > 1) add("polyline", {}, style, {}, points);
    }
    void polygon(const line_of_points& points, std::string_view style) {
        if (points.size() > 2) add("polygon", {}, style, {}, points);
    }
    void text(point a, std::string_view words, std::string_view style = "", double most_characters = 1.0e9) {
        add("text", {{"x", a.x}, {"y", a.y}}, style, escaped(words, most_characters));
    }
    /// Reading upwards.
    void upright(point a, std::string_view words, std::string_view style = "") {
        const auto turn = "transform=\"rotate(-90 " + number(a.x) + " " + number(a.y) + ")\" ";
        add("text", {{"x", a.x}, {"y", a.y}}, turn + std::string(style), escaped(words));
    }

    /// The whole file; the page is an A4 sheet's width, lying.
    std::string file(std::string_view title, std::string_view description) const {
        return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"297mm\" height=\"210mm\" viewBox=\"0 0 " +
               number(width_) + " " + number(height_) +
               "\" role=\"img\" font-family=\"sans-serif\" font-size=\"13\">\n<title>" + escaped(title, 200) +
               "</title>\n<desc>" + escaped(description) +
               "</desc>\n<defs><pattern id=\"hatch\" width=\"5\" height=\"5\" patternUnits=\"userSpaceOnUse\" "
               "patternTransform=\"rotate(45)\"><line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"5\" stroke=\"#000\" "
               "stroke-width=\"0.9\"/></pattern></defs>\n"
               "<rect x=\"0\" y=\"0\" width=\"" +
               number(width_) + "\" height=\"" + number(height_) + "\" fill=\"#fff\"/>\n" + body_ + "</svg>\n";
    }

  private:
    struct attribute {
        const char* name;
        double value;
    };
    static std::string number(double value) {
        auto text = sirop::core::fixed(value, 1);
        if (text.ends_with(".0")) text.resize(text.size() - 2);
        return text;
    }
    void add(std::string_view element, std::initializer_list<attribute> attributes, std::string_view style,
             const std::string& content = {}, const line_of_points& points = {}) {
        body_.append("<").append(element);
        for (const auto& a : attributes) body_.append(" ").append(a.name) += "=\"" + number(a.value) + "\"";
        if (!points.empty()) body_ += " points=\"";
        for (const auto& p : points) body_ += (&p == &points[0] ? "" : " ") + number(p.x) + "," + number(p.y);
        if (!points.empty()) body_ += "\"";
        if (!style.empty()) body_.append(" ").append(style);
        content.empty() ? body_.append("/>\n") : body_.append(">" + content + "</").append(element).append(">\n");
    }
    double width_, height_;
    std::string body_;
};

/// A frame with two axes.  It remembers what is drawn with it, so that labels find a free place.
class panel {
  public:
    panel(page& on, axis x, axis y) : page_(on), x_(x), y_(y) {}
    const axis& x() const { return x_; }
    const axis& y() const { return y_; }
    point at(double x, double y) const { return {x_.clamped(x), y_.clamped(y)}; }

    /// The parts of a curve in values that lie in the frame.
    void curve(const line_of_points& values, std::string_view style) {
        line_of_points part;
        const auto end = [&] { page_.polyline(part, style), part.clear(); };
        for (std::size_t i = 1; i < values.size(); ++i) {
            double from = 0.0, to = 1.0;  // the share of the segment that is inside
            const auto &a = values[i - 1], &b = values[i];
            cut(a.x, b.x - a.x, x_, from, to);
            cut(a.y, b.y - a.y, y_, from, to);
            if (!(from < to)) {
                end();
                continue;
            }
            const auto on = [&](double share) { return at(a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)); };
            if (from > 0.0) end();
            if (part.empty()) part.push_back(on(from));
            keep_free(part.back(), on(to));
            part.push_back(on(to));
            if (to < 1.0) end();
        }
        end();
    }
    /// What lies between two curves, hatched.
    void band(const line_of_points& low, const line_of_points& high) {
        line_of_points around;
        for (const auto& v : low) around.push_back(at(v.x, v.y));
        for (auto v = high.rbegin(); v != high.rend(); ++v) around.push_back(at(v->x, v->y));
        page_.polygon(around, "fill=\"url(#hatch)\" stroke=\"#000\" stroke-width=\"0.4\"");
        for (const auto& edge : {low, high})
            for (std::size_t i = 1; i < edge.size(); ++i)
                keep_free(at(edge[i - 1].x, edge[i - 1].y), at(edge[i].x, edge[i].y));
    }
    /// No label on this line of the page.
    void keep_free(point a, point b) {
        const double pieces = std::ceil(std::hypot(b.x - a.x, b.y - a.y) / 4.0);
        for (double i = 0.0; i <= pieces; ++i)
            taken_.push_back(
                {a.x + (b.x - a.x) * i / std::fmax(pieces, 1.0), a.y + (b.y - a.y) * i / std::fmax(pieces, 1.0)});
    }
    /// A boxed label at the nearest free place, and a thin line from it to its point.
    void label(point to, const std::vector<std::string>& lines) {
        double width = 0.0;
        for (const auto& words : lines) width = std::fmax(width, 7.1 * width_in_characters(words) + 14.0);
        const double height = 17.0 * static_cast<double>(lines.size()) + 8.0;
        double least = 1.0e9;
        point best{x_.from, y_.to};
        for (double left = x_.from + 6.0; left + width < x_.to - 5.0; left += 4.0)
            for (double top = y_.to + 6.0; top + height < y_.from - 5.0; top += 4.0) {
                const auto near = nearest(to, {left, top}, width, height);
                double cost = std::fabs(std::hypot(near.x - to.x, near.y - to.y) - 24.0);
                for (const auto& p : taken_)
                    if (p.x > left - 6.0 && p.x < left + width + 6.0 && p.y > top - 6.0 &&
                        p.y < top + height + 6.0)
                        cost += 30.0;
                for (const auto& l : labels_)  // nor may its line cross another label
                    for (double share = 0.0; share <= 1.0; share += 0.02) {
                        const double x = to.x + share * (near.x - to.x), y = to.y + share * (near.y - to.y);
                        if (x > l.x.from && x < l.x.to && y > l.y.from && y < l.y.to) cost += 100.0;
                    }
                if (cost < least) least = cost, best = {left, top};
            }
        const point end{best.x + width, best.y + height};
        page_.line(to, nearest(to, best, width, height), "stroke=\"#000\" stroke-width=\"0.8\"");
        page_.box(best, end, "fill=\"#fff\" stroke=\"#000\" stroke-width=\"0.8\"");
        for (std::size_t i = 0; i < lines.size(); ++i)
            page_.text({best.x + 7.0, best.y + 16.0 + 17.0 * static_cast<double>(i)}, lines[i]);
        for (double y = best.y; y <= end.y; y += 4.0) keep_free({best.x, y}, {end.x, y});
        keep_free(to, nearest(to, best, width, height));
        labels_.push_back({{0.0, 1.0, best.x, end.x}, {0.0, 1.0, best.y, end.y}});
    }

  private:
    /// Narrows the share of a segment to what lies between the ends of an axis; nothing is left of not a number.
    static void cut(double from_value, double change, const axis& a, double& from, double& to) {
        if (!std::isfinite(from_value) || !std::isfinite(change)) {
            to = -1.0;
        } else if (change == 0.0) {
            if (!a.holds(from_value)) to = -1.0;
        } else {
            const double one = (a.low - from_value) / change, other = (a.high - from_value) / change;
            from = std::fmax(from, std::fmin(one, other));
            to = std::fmin(to, std::fmax(one, other));
        }
    }
    static point nearest(point to, point corner, double width, double height) {
        return {std::clamp(to.x, corner.x, corner.x + width), std::clamp(to.y, corner.y, corner.y + height)};
    }
    page& page_;
    axis x_, y_;
    line_of_points taken_;
    struct place {
        axis x, y;
    };
    std::vector<place> labels_;
};

}  // namespace svg
