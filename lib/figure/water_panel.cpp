#include <algorithm>
#include <cmath>

#include "figure/batch_figure.hpp"
#include "figure/panel.hpp"

namespace sirop::figure {
namespace {

constexpr double bar_height = 15.0;
using row_of_bars = window stage_window::*;

/// The ends of a stage on the page; nothing to see if they are the same.
window on_page(const axis& x, const window& w) {
    return {x.clamped(w.from), x.clamped(w.to)};
}
bool seen(const window& w) {
    return w.to - w.from >= 0.5;
}

/// Bars of the stages, black and white in turn as on the scale of a map, with their numbers.
void draw_bars(page& on, const axis& x, double top, const std::vector<stage_window>& stages, row_of_bars row,
               const std::string& what) {
    for (const auto& s : stages) {
        const auto [a, b] = on_page(x, s.*row);
        if (!seen({a, b})) continue;
        const bool dark = s.number % 2 == 0;
        on.box({a, top}, {b, top + bar_height},
               std::string(dark ? black : "fill=\"#fff\"") + " stroke=\"#000\" stroke-width=\"1\"",
               what + std::string(s.name) + ": " + core::fixed((s.*row).from, 1) + " to " +
                   core::fixed((s.*row).to, 1) + " °C");
        if (b - a < (s.number > 9 ? 18.0 : 10.0)) continue;
        on.text({0.5 * (a + b), top + 12.0}, std::to_string(s.number),
                std::string(centred) + " font-size=\"12\"" + (dark ? " fill=\"#fff\"" : ""));
    }
}

/// Names of the stages, upright over their bars, moved apart where they would touch.
void draw_names(page& on, const axis& x, double bottom, const std::vector<stage_window>& stages) {
    constexpr double apart = 15.0;
    std::vector<std::pair<double, std::string>> names;  // the middle of the bar
    std::vector<double> at;
    for (const auto& s : stages) {
        const auto bar = on_page(x, s.mine);
        if (!seen(bar)) continue;
        names.emplace_back(0.5 * (bar.from + bar.to), std::to_string(s.number) + " " + std::string(s.name));
        at.push_back(std::fmax(names.back().first, at.empty() ? x.from + 10.0 : at.back() + apart));
    }
    double right = x.to - 6.0;
    for (auto place = at.rbegin(); place != at.rend(); right = *place++ - apart) *place = std::fmin(*place, right);
    for (std::size_t i = 0; i < names.size(); ++i) {
        on.line({names[i].first, bottom}, {at[i], bottom - 10.0}, thin);
        on.upright({at[i] + 4.5, bottom - 14.0}, names[i].second);
    }
}

/// The cook's path: thick, with an arrow half way.
void draw_path(page& on, panel& in, line_of_points values, double to_celsius) {
    std::erase_if(values, [&](const auto& v) { return v.x > to_celsius; });
    in.curve(values, path);
    std::vector<double> length{0.0};  // up to each point
    for (std::size_t i = 1; i < values.size(); ++i) {
        const auto a = in.at(values[i - 1]), b = in.at(values[i]);
        length.push_back(length.back() + std::hypot(b.x - a.x, b.y - a.y));
    }
    if (length.back() <= 30.0) return;
    const auto half = std::find_if(length.begin() + 1, length.end(),
                                   [&](double so_far) { return so_far >= 0.5 * length.back(); });
    const auto i = static_cast<std::size_t>(half - length.begin());
    const auto a = in.at(values[i - 1]), b = in.at(values[i]);
    const double piece = std::hypot(b.x - a.x, b.y - a.y), u = (b.x - a.x) / piece, v = (b.y - a.y) / piece;
    const auto around = [&](double ahead, double aside) {
        return point{b.x + ahead * u - aside * v, b.y + ahead * v + aside * u};
    };
    on.polygon({around(16.0, 0.0), around(-10.0, 8.0), around(-4.0, 0.0), around(-10.0, -8.0)}, black);
}

std::string words_of(const point& v) {
    return core::fixed(v.x, 1) + " °C, " + core::fixed(v.y, 1) + " % water";
}

}  // namespace

void draw_water(page& on, const batch_curves& c, const area& a) {
    const auto x = c.temperatures(a.left, a.right);
    double longest = 6.0;
    for (const auto& s : c.stages)
        if (seen(on_page(x, s.mine))) longest = std::fmax(longest, width_in_characters(s.name));
    const double names_to = a.top + bar_height + 7.8 * (longest + 3.0) + 18.0, plot_top = names_to + bar_height;
    const auto start = c.water_percent.value.front();
    const point target{c.target_celsius(), c.at_target.cooked.water_percent.value};
    const double most = 10.0 * std::ceil((start.y + 4.0) / 10.0);
    panel in(on, x, {0.0, most, a.bottom, plot_top});

    for (const auto& s : c.stages) {
        const auto bar = on_page(x, s.mine);
        if (!seen(bar)) continue;
        if (s.number % 2 == 0) on.box({bar.from, plot_top}, {bar.to, a.bottom}, grey);
        for (const double at : {bar.from, bar.to}) on.line({at, plot_top}, {at, a.bottom}, edge);
    }
    draw_bars(on, x, a.top, c.stages, &stage_window::plain, "plain sugar, ");
    draw_bars(on, x, names_to, c.stages, &stage_window::mine, "this batch, ");
    draw_names(on, x, names_to, c.stages);
    on.text({a.left - 8.0, a.top + 12.0}, "plain sugar", to_the_left);
    on.text({a.left - 8.0, names_to + 12.0}, "this batch", to_the_left);

    in.band(c.water_percent.low, c.water_percent.high);
    in.curve(c.plain_water_percent, dashed);
    in.curve(c.water_percent.value, solid);
    const auto dot = in.at(target), open = in.at(start);
    in.line({dot.x, a.bottom}, dot, guide);
    in.line({a.left, dot.y}, dot, guide);
    draw_path(on, in, c.water_percent.value, target.x);
    on.dot(open, 5.5, "fill=\"#fff\" stroke=\"#000\" stroke-width=\"2\"");
    on.dot(dot, 7.0, black, "target");
    std::vector<std::string> words{words_of(target), core::fixed(core::celsius_to_fahrenheit(target.x), 1) +
                                                         " °F, " + c.at_target.stage.by_consistency};
    if (const auto second = words[1].find(" and "); second != std::string::npos) {
        words.push_back(words[1].substr(second + 1));
        words[1].resize(second);
    }
    in.label(open, {words_of(start), "starts to boil"});
    in.label(dot, words);

    const double step = tick_step(most, 9.0);
    for (double y = 0.0; y <= most; y += step)
        in.tick(y, y == most ? "" : core::shortest(y));  // there stands "this batch"
    on.upright({a.left - 48.0, 0.5 * (plot_top + a.bottom)}, "water left in the pan, % by mass", centred);
    on.box({a.left, a.top}, {a.right, a.bottom}, frame);
    on.line({a.left, plot_top}, {a.right, plot_top}, thin);
    draw_temperatures(on, x, a, "temperature on your thermometer, °C");
}

}  // namespace sirop::figure
