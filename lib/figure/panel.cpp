#include "figure/panel.hpp"

#include <algorithm>
#include <cmath>

namespace sirop::figure {
namespace {

point along(point a, point b, double share) {
    return {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

double distance(point a, point b) {
    return std::hypot(b.x - a.x, b.y - a.y);
}

/// The point of a box nearest to another.
point nearest(point to, point corner, point size) {
    return {std::clamp(to.x, corner.x, corner.x + size.x), std::clamp(to.y, corner.y, corner.y + size.y)};
}

/// Narrows the share of a segment to what lies between the ends of an axis; nothing is left of not a number.
void cut(double from_value, double change, const axis& a, double& from, double& to) {
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

}  // namespace

void panel::curve(const line_of_points& values, std::string_view style) {
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
        if (from > 0.0) end();
        if (part.empty()) part.push_back(at(along(a, b, from)));
        keep_free(part.back(), at(along(a, b, to)));
        part.push_back(at(along(a, b, to)));
        if (to < 1.0) end();
    }
    end();
}

void panel::band(const line_of_points& low, const line_of_points& high) {
    line_of_points around;
    for (const auto& v : low) around.push_back(at(v));
    for (auto v = high.rbegin(); v != high.rend(); ++v) around.push_back(at(*v));
    page_.polygon(around, hatched);
    for (const auto* side : {&low, &high})
        for (std::size_t i = 1; i < side->size(); ++i) keep_free(at((*side)[i - 1]), at((*side)[i]));
}

void panel::line(point a, point b, std::string_view style) {
    page_.line(a, b, style);
    keep_free(a, b);
}

void panel::keep_free(point a, point b) {
    const double pieces = std::ceil(distance(a, b) / 4.0);
    for (double i = 0.0; i <= pieces; ++i)
        taken_.push_back(
            {a.x + (b.x - a.x) * i / std::fmax(pieces, 1.0), a.y + (b.y - a.y) * i / std::fmax(pieces, 1.0)});
}

/// Of a label at a corner: far from its point, over something drawn, or its line across another label.
double panel::cost(point to, point corner, point size) const {
    const auto near = nearest(to, corner, size);
    double sum = std::fabs(distance(near, to) - 24.0);
    for (const auto& p : taken_)
        if (p.x > corner.x - 6.0 && p.x < corner.x + size.x + 6.0 && p.y > corner.y - 6.0 &&
            p.y < corner.y + size.y + 6.0)
            sum += 30.0;
    for (const auto& l : labels_)
        for (double share = 0.0; share <= 1.0; share += 0.02) {
            const auto p = along(to, near, share);
            if (p.x > l.x.from && p.x < l.x.to && p.y > l.y.from && p.y < l.y.to) sum += 100.0;
        }
    return sum;
}

void panel::label(point to, const std::vector<std::string>& lines) {
    point size{0.0, 17.0 * static_cast<double>(lines.size()) + 8.0};
    for (const auto& words : lines) size.x = std::fmax(size.x, 7.1 * width_in_characters(words) + 14.0);
    double least = 1.0e9;
    point best{x_.from, y_.to};
    for (double left = x_.from + 6.0; left + size.x < x_.to - 5.0; left += 4.0)
        for (double top = y_.to + 6.0; top + size.y < y_.from - 5.0; top += 4.0)
            if (const double here = cost(to, {left, top}, size); here < least) least = here, best = {left, top};
    const point end{best.x + size.x, best.y + size.y}, near = nearest(to, best, size);
    page_.line(to, near, thin);
    page_.box(best, end, boxed);
    for (std::size_t i = 0; i < lines.size(); ++i)
        page_.text({best.x + 7.0, best.y + 16.0 + 17.0 * static_cast<double>(i)}, lines[i]);
    for (double y = best.y; y <= end.y; y += 4.0) keep_free({best.x, y}, {end.x, y});
    keep_free(to, near);
    labels_.push_back({{0.0, 1.0, best.x, end.x}, {0.0, 1.0, best.y, end.y}});
}

void panel::tick(double value, std::string_view words) {
    page_.line({x_.from, y_.at(value)}, {x_.from - 6.0, y_.at(value)}, thin);
    if (!words.empty()) page_.text({x_.from - 10.0, y_.at(value) + 4.5}, words, to_the_left);
}

}  // namespace sirop::figure
