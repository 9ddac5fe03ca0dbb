#include "figure/timeline.hpp"

#include <algorithm>
#include <cmath>

#include "figure/batch_figure.hpp"
#include "figure/panel.hpp"
#include "sirop/base/text.hpp"
#include "sirop/cooking/advice.hpp"

namespace sirop::figure {
namespace {

constexpr area frame_of{92.0, 1092.0, 132.0, 610.0};

axis axis_of(const line_of_points& values, double least, double from, double to) {
    double low = HUGE_VAL, high = -HUGE_VAL;
    for (const auto& v : values) low = std::fmin(low, v.y), high = std::fmax(high, v.y);
    const double step = tick_step(std::fmax(high - low, least), 8.0);
    low = std::floor(low / step) * step;
    return {low, std::fmax(std::ceil(high / step) * step, low + step), from, to};
}

template <class Draw>
void each_tick(const axis& a, double most, const Draw& draw) {
    const double step = tick_step(a.high - a.low, most);
    for (double v = std::ceil(a.low / step) * step; v <= a.high + 1.0e-9 * step; v += step) draw(v);
}

}  // namespace

std::string figure_of(const timeline& t) {
    page on(1188.0, 840.0);
    const area& a = frame_of;
    const double minutes = t.celsius.empty() ? 1.0 : std::fmax(t.celsius.back().x, 0.1);
    const axis x{0.0, minutes, a.left, a.right};
    const axis hot = axis_of(t.celsius, 20.0, a.bottom, a.top),
               wet = axis_of(t.water_percent, 5.0, a.bottom, a.top);
    on.text({40.0, 48.0}, t.title.empty() ? "A batch without a title" : t.title,
            "font-size=\"22\" font-weight=\"bold\"", 84.0);
    on.text({40.0, 72.0}, core::burn_caution);
    on.text({40.0, 90.0}, core::steam_caution);
    on.text({40.0, 114.0}, "The cook over time: temperature (thick) and water left (dashed)");

    panel in(on, x, hot), water(on, x, wet);
    in.curve(t.celsius, solid);
    water.curve(t.water_percent, dashed);
    each_tick(hot, 8.0, [&](double v) { in.tick(v, core::shortest(v)); });
    each_tick(wet, 8.0, [&](double v) {
        on.line({a.right, wet.at(v)}, {a.right + 6.0, wet.at(v)}, thin);
        on.text({a.right + 10.0, wet.at(v) + 4.5}, core::shortest(v));
    });
    each_tick(x, 12.0, [&](double v) {
        on.line({x.at(v), a.bottom}, {x.at(v), a.bottom + 6.0}, thin);
        on.text({x.at(v), a.bottom + 22.0}, core::shortest(v), centred);
    });
    on.box({a.left, a.top}, {a.right, a.bottom}, frame);
    on.upright({a.left - 52.0, 0.5 * (a.top + a.bottom)}, "temperature, °C", centred);
    on.upright({a.right + 56.0, 0.5 * (a.top + a.bottom)}, "water left, %", centred);
    on.text({0.5 * (a.left + a.right), a.bottom + 44.0}, "minutes", centred);

    // The steps, numbered on the curve and told below, in two columns.
    double line = a.bottom + 70.0;
    for (std::size_t i = 0; i < t.steps.size(); ++i) {
        const auto& step = t.steps[i];
        const point at = in.at({step.ends_minutes, step.celsius});
        on.line({at.x, a.top}, {at.x, a.bottom}, guide);
        on.dot(at, 5.0, black, step.says);
        on.text({at.x - 4.0, a.top + 16.0}, std::to_string(i + 1), to_the_left);
        if (i >= 10) continue;  // what has no place is on the curve all the same
        on.text({i % 2 == 0 ? 40.0 : 600.0, line}, std::to_string(i + 1) + "  " + step.says, "", 70.0);
        if (i % 2 == 1) line += 20.0;
    }
    on.line({40.0, 786.0}, {1148.0, 786.0}, thin);
    on.text({40.0, 806.0}, "Times rest on the hob's efficiency: time one pan of water to know yours.");
    return on.file(t.title, "Temperature and water left over " + core::fixed(minutes, 0) + " minutes.");
}

}  // namespace sirop::figure
