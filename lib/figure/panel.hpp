// A frame with two axes.  It remembers what is drawn with it, so that labels find a free place.
#pragma once

#include "figure/svg.hpp"

namespace sirop::figure {

class panel {
  public:
    panel(page& on, axis x, axis y) : page_(on), x_(x), y_(y) {}
    const axis& x() const { return x_; }
    const axis& y() const { return y_; }
    /// A point in values on the page, inside the frame.
    point at(point value) const { return {x_.clamped(value.x), y_.clamped(value.y)}; }

    /// The parts of a curve in values that lie in the frame.
    void curve(const line_of_points& values, std::string_view style);
    /// What lies between two curves, hatched.
    void band(const line_of_points& low, const line_of_points& high);
    /// A line of the page, which no label may cover.
    void line(point a, point b, std::string_view style);
    void keep_free(point a, point b);
    /// A boxed label at the nearest free place, and a thin line from it to its point.
    void label(point to, const std::vector<std::string>& lines);
    /// A tick of the upright axis and, if it has words, its number.
    void tick(double value, std::string_view words);

  private:
    struct place {
        axis x, y;
    };
    double cost(point to, point corner, point size) const;
    page& page_;
    axis x_, y_;
    line_of_points taken_;
    std::vector<place> labels_;
};

}  // namespace sirop::figure
