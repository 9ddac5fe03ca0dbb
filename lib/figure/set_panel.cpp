#include <algorithm>
#include <cmath>

#include "figure/batch_figure.hpp"
#include "figure/panel.hpp"

namespace sirop::figure {
namespace {

/// The decades of firmness that are shown: what is drawn, and six at least.
void choose_decades(const batch_curves& c, const axis& x, double& low, double& high) {
    low = 14.0, high = -3.0;
    for (const auto* line : {&c.firmness.low, &c.firmness.high, &c.poured_firmness})
        for (const auto& v : *line)
            if (x.holds(v.x)) low = std::fmin(low, std::floor(v.y)), high = std::fmax(high, std::ceil(v.y));
    low = std::clamp(low, -3.0, 8.0), high = std::clamp(high, low + 1.0, 14.0);
    for (bool down = false; high - low < 6.0; down = !down) {
        if (down && low > -3.0)
            --low;
        else
            ++high;
    }
}

/// The words of the set, each over its decades.
void draw_words(page& on, const axis& y, const area& a) {
    for (std::size_t i = 0; i < core::set_words.size(); ++i) {
        const auto& word = core::set_words[i];
        const double from = y.clamped(i == 0 ? y.low : std::log10(word.from_pa_s));
        const double to =
            y.clamped(i + 1 < core::set_words.size() ? std::log10(core::set_words[i + 1].from_pa_s) : y.high);
        if (from - to < 0.5) continue;
        if (i % 2 == 0) on.box({a.left, from}, {a.right, to}, grey);
        on.line({a.left, to}, {a.right + 6.0, to}, edge);
        if (from - to > 13.0) on.text({a.right + 8.0, 0.5 * (from + to) + 4.5}, word.word);
    }
}

/// The set of the target, with its interval and its label.
void draw_target(page& on, panel& in, const batch_curves& c, const area& a) {
    const auto& f = c.at_target.set.log10_firmness;
    const double target = c.target_celsius();
    const auto dot = in.at({target, f.value}), thinner = in.at({target, f.low}), thicker = in.at({target, f.high});
    const bool inside = in.y().holds(f.value);
    on.line(thinner, thicker, "stroke=\"#000\" stroke-width=\"3\"");
    for (const double end : {f.low, f.high})
        if (const auto cap = in.at({target, end}); in.y().holds(end))
            on.line({cap.x - 6.0, cap.y}, {cap.x + 6.0, cap.y}, "stroke=\"#000\" stroke-width=\"2\"");
    if (inside)
        on.dot(dot, 7.0, black, "target");
    else  // a glass beyond the frame
        on.polygon({dot, {dot.x - 8.0, dot.y + 18.0}, {dot.x + 8.0, dot.y + 18.0}}, black);
    in.keep_free({dot.x, a.bottom}, thicker);
    in.label({dot.x, dot.y + (inside ? 0.0 : 12.0)},
             {core::fixed(target, 1) + " °C: " + c.at_target.set.word, about_pa_s(f.value)});
}

}  // namespace

void draw_set(page& on, const batch_curves& c, const area& a) {
    const auto x = c.temperatures(a.left, a.right);
    axis y{0.0, 0.0, a.bottom, a.top};
    choose_decades(c, x, y.low, y.high);
    panel in(on, x, y);
    draw_words(on, y, a);
    in.band(c.firmness.low, c.firmness.high);
    in.curve(c.firmness.value, solid);
    in.curve(c.poured_firmness, dash_dot);
    if (const double limit = std::log10(core::pouring_pa_s); !c.poured_firmness.empty() && y.holds(limit))
        in.line({a.left, y.at(limit)}, {a.right, y.at(limit)}, guide);
    const auto& f = c.at_target.set.log10_firmness;
    on.line({x.at(c.target_celsius()), a.bottom}, in.at({c.target_celsius(), f.low}), guide);
    if (f.computed()) draw_target(on, in, c, a);
    const double step = y.high - y.low > 11.0 ? 2.0 : 1.0;
    for (double decade = std::ceil(y.low / step) * step; decade <= y.high; decade += step)
        in.tick(decade, power_of_ten(static_cast<int>(decade)));
    on.upright({a.left - 52.0, 0.5 * (a.top + a.bottom)}, "firmness, Pa s (viscosity + 5 s × modulus)", centred);
    on.box({a.left, a.top}, {a.right, a.bottom}, frame);
    draw_temperatures(on, x, a, "end of the cook on your thermometer, °C");
}

}  // namespace sirop::figure
