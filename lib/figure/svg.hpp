// A small drawing: SVG in black and white, text as text, every coordinate finite and on the page.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace sirop::figure {

struct point {
    double x = 0.0, y = 0.0;
};
using line_of_points = std::vector<point>;

/// Styles: attributes as they stand in the file.
inline constexpr const char* thin = "stroke=\"#000\" stroke-width=\"0.8\"";
inline constexpr const char* guide = "stroke=\"#000\" stroke-width=\"0.8\" stroke-dasharray=\"1.5 3\"";
inline constexpr const char* edge = "stroke=\"#999\" stroke-width=\"0.6\"";
inline constexpr const char* frame = "fill=\"none\" stroke=\"#000\" stroke-width=\"1.2\"";
inline constexpr const char* boxed = "fill=\"#fff\" stroke=\"#000\" stroke-width=\"0.8\"";
inline constexpr const char* solid = "fill=\"none\" stroke=\"#000\" stroke-width=\"2.4\"";
inline constexpr const char* path = "fill=\"none\" stroke=\"#000\" stroke-width=\"4.5\"";
inline constexpr const char* dashed =
    "fill=\"none\" stroke=\"#000\" stroke-width=\"1.4\" stroke-dasharray=\"7 4\"";
inline constexpr const char* dash_dot =
    "fill=\"none\" stroke=\"#000\" stroke-width=\"1.6\" stroke-dasharray=\"9 3 1.5 3\"";
inline constexpr const char* hatched = "fill=\"url(#hatch)\" stroke=\"#000\" stroke-width=\"0.4\"";
inline constexpr const char* black = "fill=\"#000\"";
inline constexpr const char* grey = "fill=\"#e2e2e2\"";
inline constexpr const char* centred = "text-anchor=\"middle\"";
inline constexpr const char* to_the_left = "text-anchor=\"end\"";

inline constexpr double any_width = 1.0e9;

/// Where the values from low to high lie on the page: from one coordinate to another.
struct axis {
    double low, high, from, to;
    double at(double value) const { return from + (to - from) * (value - low) / (high - low); }
    double clamped(double value) const;
    bool holds(double value) const { return value >= low && value <= high; }
};

/// The roundest step that gives at most so many ticks.
double tick_step(double span, double most);

/// Characters of a UTF-8 text as wide as most are; the broad ones, and those of East Asia and beyond, count twice.
double width_in_characters(std::string_view text);

/// The page.  Styles are written as given, text is escaped.
class page {
  public:
    /// So many units wide and high; printed on an A4 sheet lying, or on another in mm.
    page(double width, double height, double sheet_width = 297.0, double sheet_height = 210.0)
        : width_(width), height_(height), sheet_width_(sheet_width), sheet_height_(sheet_height) {}

    void line(point a, point b, std::string_view style);
    void box(point a, point b, std::string_view style, std::string_view tip = {});
    void dot(point a, double radius, std::string_view style, std::string_view tip = {});
    void polyline(const line_of_points& points, std::string_view style);
    void polygon(const line_of_points& points, std::string_view style);
    void text(point a, std::string_view words, std::string_view style = "", double most_characters = any_width);
    /// Reading upwards.
    void upright(point a, std::string_view words, std::string_view style = "");

    /// The whole file.
    std::string file(std::string_view title, std::string_view description) const;

  private:
    struct attribute {
        const char* name;
        double value;
    };
    void add(std::string_view element, std::initializer_list<attribute> attributes, std::string_view style,
             const std::string& content = {}, const line_of_points& points = {});
    double width_, height_, sheet_width_, sheet_height_;
    std::string body_;
};

}  // namespace sirop::figure
