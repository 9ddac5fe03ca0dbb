// What draw_batch draws: numbers of one batch along its cook, and the two panels that show them.
#pragma once

#include <fmt/format.h>

#include <sirop/sirop.hpp>

#include "svg.hpp"

namespace figure {

using namespace sirop;
using svg::line_of_points;

inline constexpr const char* thin = "stroke=\"#000\" stroke-width=\"0.8\"";
inline constexpr const char* frame = "fill=\"none\" stroke=\"#000\" stroke-width=\"1.2\"";
inline constexpr const char* solid = "fill=\"none\" stroke=\"#000\" stroke-width=\"2.4\"";
inline constexpr const char* dashed =
    "fill=\"none\" stroke=\"#000\" stroke-width=\"1.4\" stroke-dasharray=\"7 4\"";
inline constexpr const char* dash_dot =
    "fill=\"none\" stroke=\"#000\" stroke-width=\"1.6\" stroke-dasharray=\"9 3 1.5 3\"";
inline constexpr const char* guide = "stroke=\"#000\" stroke-width=\"0.8\" stroke-dasharray=\"1.5 3\"";
inline constexpr const char* grey = "fill=\"#e2e2e2\"";
inline constexpr const char* path = "fill=\"none\" stroke=\"#000\" stroke-width=\"4.5\"";
inline constexpr const char* centred = "text-anchor=\"middle\"";
inline constexpr const char* to_the_left = "text-anchor=\"end\"";

/// Where a stage lies on the cook's thermometer, C: the table's plain sugar here, and this batch as stiff.
struct stage_window {
    int number;  ///< of the row in its table, from 1
    std::string_view name;
    double plain[2], mine[2];  ///< empty where the first is not below the second
};

/// Everything that is drawn.  Temperatures are those on the cook's thermometer.
struct numbers {
    core::batch batch;
    core::prediction at_target;
    std::string table;
    double starts_celsius, last_celsius;
    line_of_points water, water_low, water_high, plain_water, firmness, firmness_low, firmness_high, poured;
    std::vector<stage_window> stages;
};

inline std::vector<stage_window> stage_windows(const core::batch& b, const core::mixture& pan,
                                               const core::stage_table& table) {
    const double error = b.thermometer_error_kelvin, pa = b.pressure_pa;
    const double last = core::highest_answer_celsius(pan, pa);
    const double last_plain = core::highest_answer_celsius(core::plain_syrup(0.5), pa);
    const double stiffest =
        core::log10_firmness(pan.with_water(pan.dissolved() * (1.0 / core::last_syrup_solids - 1.0)),
                             core::cold_water_celsius)
            .value;
    std::vector<stage_window> windows;
    double before = 0.0;  // points of a table reach a little way, but not into each other
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const auto& row = table.rows[i];
        const double reach = row.low_celsius == row.high_celsius ? core::stage_point_reach_celsius : 0.0;
        const double gap =
            i + 1 < table.rows.size() ? 0.5 * (table.rows[i + 1].low_celsius - row.high_celsius) : 99.0;
        const double sea_level[] = {std::fmax(row.low_celsius - reach, before),
                                    row.high_celsius + std::fmin(reach, gap)};
        before = sea_level[1];
        stage_window w{static_cast<int>(i) + 1, row.name, {}, {}};
        for (int side = 0; side < 2; ++side) {
            const double t = sea_level[side];
            const double plain = core::carried_celsius(t, formula::standard_atmosphere, pa);
            const double mine = core::celsius_for_consistency(pan, t, pa);
            const double stiff = core::firmness_of_plain(t);
            const bool too_thin = std::isfinite(stiff) ? stiff < stiffest : t < 110.0;
            w.plain[side] = error + (std::isfinite(plain) ? std::fmin(plain, last_plain)
                                     : t < 110.0          ? 0.0
                                                          : last_plain);
            w.mine[side] = error + (std::isfinite(mine) ? std::fmin(mine, last) : too_thin ? 0.0 : last);
        }
        windows.push_back(w);
    }
    return windows;
}

/// The temperatures that both panels show: from the start of the boil to some way past the target.
inline svg::axis temperatures(double starts, double target, double last) {
    const double low = std::floor(starts) - 1.0;
    const double beyond = target + std::fmax(8.0, 0.5 * (target - starts));
    const double high = std::ceil(std::fmin(beyond, std::fmax(last, target) + 1.0));
    return {low, std::fmax(high, low + 8.0), 0.0, 1.0};
}

/// Asks the library all along the cook; the reason of a refusal if the batch has no answer.
inline core::outcome<numbers> numbers_of(const core::batch& b, const core::stage_table& table) {
    const auto at_target = core::predict(b, table);
    if (!at_target) return at_target.why;
    const auto& cooked = at_target->cooked;
    const double error = b.thermometer_error_kelvin;
    numbers n{b,
              *at_target,
              std::string(table.name),
              cooked.starts_to_boil_celsius + error,
              cooked.highest_celsius + error,
              {},
              {},
              {},
              {},
              {},
              {},
              {},
              {},
              {}};
    n.stages = stage_windows(b, at_target->pan, table);
    const auto shown = temperatures(n.starts_celsius, b.thermometer_celsius, n.last_celsius);
    // 1e-7 inside, so that rounding at either end does not refuse it
    const double from = n.starts_celsius + 1.0e-7, to = std::fmin(n.last_celsius - 1.0e-7, shown.high);
    std::vector<double> readings{b.thermometer_celsius};
    for (int i = 0; i <= 120; ++i) readings.push_back(from + (to - from) * i / 120.0);
    std::sort(readings.begin(), readings.end());
    for (const double t : readings) {
        core::batch other = b;
        other.thermometer_celsius = t;
        const auto p = core::predict(other, table);
        if (!p) continue;
        const auto& w = p->cooked.water_percent;
        const auto& f = p->set.log10_firmness;
        n.water.push_back({t, w.value}), n.water_low.push_back({t, w.low}), n.water_high.push_back({t, w.high});
        if (f.computed()) {
            n.firmness.push_back({t, f.value});
            n.firmness_low.push_back({t, f.low}), n.firmness_high.push_back({t, f.high});
        }
        if (!std::isfinite(b.pour_celsius)) continue;
        const auto& finished = p->finished.contents;
        const auto poured =
            core::firmness_at({finished, finished, finished}, b.pour_celsius, core::history::warming);
        if (poured.computed()) n.poured.push_back({t, poured.value});
    }
    for (double t = cooked.water_boils_celsius + 0.05; t < 200.0; t += 0.25) {
        const auto plain = core::plain_syrup_boiling(t, b.pressure_pa);
        if (plain.water() > 0.0) n.plain_water.push_back({t + error, core::percent(plain.water(), plain.total())});
    }
    return n;
}

/// A power of ten as people write it: "0.1", "100", "10⁵".
inline std::string power_of_ten(int exponent) {
    if (exponent >= -3 && exponent <= 3) return core::shortest(std::pow(10.0, exponent));
    std::string text = exponent < 0 ? "10⁻" : "10";
    constexpr const char* digits[] = {"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
    for (const char c : std::to_string(std::abs(exponent))) text += digits[c - '0'];
    return text;
}

/// A firmness of which two digits mean something at most.
inline std::string about_pa_s(double log10) {
    if (log10 > 12.0) return "over " + power_of_ten(12) + " Pa s";
    int decade = static_cast<int>(std::floor(log10));
    const double places = log10 >= 4.0 ? 1.0 : 10.0;  // one digit or two
    double digits = std::round(places * std::pow(10.0, log10 - decade));
    if (digits >= 10.0 * places) digits /= 10.0, ++decade;
    if (log10 >= 4.0) return "about " + core::fixed(digits, 0) + "·" + power_of_ten(decade) + " Pa s";
    return "about " + core::fixed(digits * std::pow(10.0, decade - 1), std::max(0, 1 - decade)) + " Pa s";
}

inline std::string degrees(double celsius) {
    return core::shortest(std::round(10.0 * celsius) / 10.0) + " °C";
}

/// One line: what is in the pan, and the kitchen.
inline std::string kitchen_line(const numbers& n) {
    const auto& b = n.batch;
    std::string line = fmt::format("{} g in the pan", core::fixed(n.at_target.pan_grams, 0));
    if (n.at_target.off_heat_grams > 0.0)
        line += fmt::format(", {} g added off the heat", core::fixed(n.at_target.off_heat_grams, 0));
    line += fmt::format("; {} hPa, water boils at {}", core::fixed(0.01 * b.pressure_pa, 0),
                        degrees(n.at_target.cooked.water_boils_celsius));
    const double error = b.thermometer_error_kelvin;
    if (error != 0.0)
        line += fmt::format("; your thermometer reads {} too {}", degrees(std::fabs(error)),
                            error > 0.0 ? "high" : "low");
    if (b.thermometer_within_kelvin != 0.0)
        line += fmt::format("; your thermometer is right within {}", degrees(b.thermometer_within_kelvin));
    return line;
}

inline svg::axis temperatures(const numbers& n, double left, double right) {
    const auto shown = temperatures(n.starts_celsius, n.batch.thermometer_celsius, n.last_celsius);
    return {shown.low, shown.high, left, right};
}

/// Ticks in °C below the frame, in °F above it.
inline void temperature_ticks(svg::page& page, const svg::axis& x, double top, double bottom, const char* what) {
    const double step = svg::axis::step(x.high - x.low, 9.0);
    for (double t = std::ceil(x.low / step) * step; t <= x.high; t += step) {
        page.line({x.at(t), bottom}, {x.at(t), bottom + 6.0}, thin);
        page.text({x.at(t), bottom + 21.0}, core::shortest(t), centred);
    }
    const double low = core::celsius_to_fahrenheit(x.low), high = core::celsius_to_fahrenheit(x.high);
    const double wide = svg::axis::step(high - low, 9.0);
    for (double f = std::ceil(low / wide) * wide; f <= high; f += wide) {
        const double at = x.at(core::fahrenheit_to_celsius(f));
        page.line({at, top}, {at, top - 6.0}, thin);
        page.text({at, top - 10.0}, core::shortest(f), centred);
    }
    page.text({x.from - 12.0, top - 10.0}, "°F", to_the_left);
    page.text({0.5 * (x.from + x.to), bottom + 42.0}, what, centred);
}

/// Bars of the stages, black and white in turn as on the scale of a map, with their numbers.
inline void stage_bars(svg::page& page, const svg::axis& x, double top, const std::vector<stage_window>& stages,
                       const double (stage_window::*side)[2], const std::string& what) {
    constexpr double height = 15.0;
    for (const auto& s : stages) {
        const double *window = s.*side, a = x.clamped(window[0]), b = x.clamped(window[1]);
        if (b - a < 0.5) continue;
        const bool black = s.number % 2 == 0;
        page.box({a, top}, {b, top + height},
                 std::string(black ? "fill=\"#000\"" : "fill=\"#fff\"") + " stroke=\"#000\" stroke-width=\"1\"",
                 what + std::string(s.name) +
                     fmt::format(": {} to {} °C", core::fixed(window[0], 1), core::fixed(window[1], 1)));
        if (b - a < (s.number > 9 ? 18.0 : 10.0)) continue;
        page.text({0.5 * (a + b), top + 12.0}, std::to_string(s.number),
                  std::string(centred) + " font-size=\"12\"" + (black ? " fill=\"#fff\"" : ""));
    }
}

/// Names of the stages, upright over their bars, moved apart where they would touch.
inline void stage_names(svg::page& page, const svg::axis& x, double bottom,
                        const std::vector<stage_window>& stages) {
    constexpr double apart = 15.0;
    std::vector<std::pair<double, std::string>> names;  // the middle of the bar
    for (const auto& s : stages) {
        const double a = x.clamped(s.mine[0]), b = x.clamped(s.mine[1]);
        if (b - a >= 0.5) names.push_back({0.5 * (a + b), std::to_string(s.number) + " " + std::string(s.name)});
    }
    std::vector<double> at;
    for (const auto& [middle, name] : names)
        at.push_back(std::fmax(middle, at.empty() ? x.from + 10.0 : at.back() + apart));
    double right = x.to - 6.0;
    for (auto place = at.rbegin(); place != at.rend(); right = *place++ - apart) *place = std::fmin(*place, right);
    for (std::size_t i = 0; i < names.size(); ++i) {
        page.line({names[i].first, bottom}, {at[i], bottom - 10.0}, thin);
        page.upright({at[i] + 4.5, bottom - 14.0}, names[i].second);
    }
}

/// The cook's path: thick, with an arrow half way.
inline void cooks_path(svg::page& page, svg::panel& panel, line_of_points values, double to_celsius) {
    std::erase_if(values, [&](const auto& v) { return v.x > to_celsius; });
    panel.curve(values, path);
    double length = 0.0, half = 0.0;
    std::vector<double> pieces{0.0};
    for (std::size_t i = 1; i < values.size(); ++i) {
        const auto a = panel.at(values[i - 1].x, values[i - 1].y), b = panel.at(values[i].x, values[i].y);
        pieces.push_back(length += std::hypot(b.x - a.x, b.y - a.y));
    }
    for (std::size_t i = 1; i < values.size() && length > 30.0; ++i) {
        if (pieces[i] < 0.5 * length) continue;
        const auto a = panel.at(values[i - 1].x, values[i - 1].y), b = panel.at(values[i].x, values[i].y);
        half = std::hypot(b.x - a.x, b.y - a.y);
        const double u = (b.x - a.x) / half, v = (b.y - a.y) / half;
        const auto around = [&](double ahead, double aside) {
            return svg::point{b.x + ahead * u - aside * v, b.y + ahead * v + aside * u};
        };
        page.polygon({around(16.0, 0.0), around(-10.0, 8.0), around(-4.0, 0.0), around(-10.0, -8.0)},
                     "fill=\"#000\"");
        break;
    }
}

/// Left: water left in the pan.
inline void draw_water(svg::page& page, const numbers& n, double left, double right, double top, double bottom) {
    const auto x = temperatures(n, left, right);
    double longest = 6.0;
    for (const auto& s : n.stages)
        if (x.clamped(s.mine[1]) - x.clamped(s.mine[0]) >= 0.5)
            longest = std::fmax(longest, svg::width_in_characters(s.name));
    const double names_to = top + 15.0 + 7.8 * (longest + 3.0) + 18.0, plot_top = names_to + 15.0;
    const auto start = n.water.front();
    const double most = 10.0 * std::ceil((start.y + 4.0) / 10.0);
    svg::panel panel(page, x, {0.0, most, bottom, plot_top});

    for (const auto& s : n.stages) {
        const double a = x.clamped(s.mine[0]), b = x.clamped(s.mine[1]);
        if (b - a < 0.5) continue;
        if (s.number % 2 == 0) page.box({a, plot_top}, {b, bottom}, grey);
        for (const double edge : {a, b})
            page.line({edge, plot_top}, {edge, bottom}, "stroke=\"#999\" stroke-width=\"0.6\"");
    }
    stage_bars(page, x, top, n.stages, &stage_window::plain, "plain sugar, ");
    stage_bars(page, x, names_to, n.stages, &stage_window::mine, "this batch, ");
    stage_names(page, x, names_to, n.stages);
    page.text({left - 8.0, top + 12.0}, "plain sugar", to_the_left);
    page.text({left - 8.0, names_to + 12.0}, "this batch", to_the_left);

    panel.band(n.water_low, n.water_high);
    panel.curve(n.plain_water, dashed);
    panel.curve(n.water, solid);
    const double target = n.batch.thermometer_celsius, water = n.at_target.cooked.water_percent.value;
    const auto dot = panel.at(target, water), open = panel.at(start.x, start.y);
    page.line({dot.x, bottom}, dot, guide), panel.keep_free({dot.x, bottom}, dot);
    page.line({left, dot.y}, dot, guide), panel.keep_free({left, dot.y}, dot);
    cooks_path(page, panel, n.water, target);
    page.dot(open, 5.5, "fill=\"#fff\" stroke=\"#000\" stroke-width=\"2\"");
    page.dot(dot, 7.0, "fill=\"#000\"", "target");
    const auto point = [](double celsius, double percent) {
        return fmt::format("{} °C, {} % water", core::fixed(celsius, 1), core::fixed(percent, 1));
    };
    std::vector<std::string> words{point(target, water), core::fixed(core::celsius_to_fahrenheit(target), 1) +
                                                             " °F, " + n.at_target.stage.by_consistency};
    if (const auto second = words[1].find(" and "); second != std::string::npos) {
        words.push_back(words[1].substr(second + 1));
        words[1].resize(second);
    }
    panel.label(open, {point(start.x, start.y), "starts to boil"});
    panel.label(dot, words);

    const double step = svg::axis::step(most, 9.0);
    for (double y = 0.0; y <= most; y += step) {
        page.line({left, panel.y().at(y)}, {left - 6.0, panel.y().at(y)}, thin);
        if (y == most) break;  // its place is that of "this batch"
        page.text({left - 10.0, panel.y().at(y) + 4.5}, core::shortest(y), to_the_left);
    }
    page.upright({left - 48.0, 0.5 * (plot_top + bottom)}, "water left in the pan, % by mass", centred);
    page.box({left, top}, {right, bottom}, frame);
    page.line({left, plot_top}, {right, plot_top}, thin);
    temperature_ticks(page, x, top, bottom, "temperature on your thermometer, °C");
}

/// Right: the set when it is served, and where it shall pour.
inline void draw_set(svg::page& page, const numbers& n, double left, double right, double top, double bottom) {
    const auto x = temperatures(n, left, right);
    double low = 14.0, high = -3.0;
    for (const auto* line : {&n.firmness_low, &n.firmness_high, &n.poured})
        for (const auto& v : *line)
            if (x.holds(v.x)) low = std::fmin(low, std::floor(v.y)), high = std::fmax(high, std::ceil(v.y));
    low = std::clamp(low, -3.0, 8.0), high = std::clamp(high, low + 1.0, 14.0);
    for (bool down = false; high - low < 6.0; down = !down) down&& low > -3.0 ? --low : ++high;
    svg::panel panel(page, x, {low, high, bottom, top});

    for (std::size_t i = 0; i < core::set_words.size(); ++i) {
        const auto& word = core::set_words[i];
        const double from = panel.y().clamped(i == 0 ? low : std::log10(word.from_pa_s));
        const double to = panel.y().clamped(
            i + 1 < core::set_words.size() ? std::log10(core::set_words[i + 1].from_pa_s) : high);
        if (from - to < 0.5) continue;
        if (i % 2 == 0) page.box({left, from}, {right, to}, grey);
        page.line({left, to}, {right + 6.0, to}, "stroke=\"#999\" stroke-width=\"0.6\"");
        if (from - to > 13.0) page.text({right + 8.0, 0.5 * (from + to) + 4.5}, word.word);
    }
    panel.band(n.firmness_low, n.firmness_high);
    panel.curve(n.firmness, solid);
    panel.curve(n.poured, dash_dot);
    const double target = n.batch.thermometer_celsius;
    const auto& f = n.at_target.set.log10_firmness;
    const double limit = panel.y().clamped(std::log10(core::pouring_pa_s));
    if (!n.poured.empty() && panel.y().holds(std::log10(core::pouring_pa_s)))
        page.line({left, limit}, {right, limit}, guide), panel.keep_free({left, limit}, {right, limit});
    page.line({x.at(target), bottom}, panel.at(target, f.low), guide);
    if (f.computed()) {
        const auto dot = panel.at(target, f.value), thinner = panel.at(target, f.low),
                   thicker = panel.at(target, f.high);
        page.line(thinner, thicker, "stroke=\"#000\" stroke-width=\"3\"");
        for (const double end : {f.low, f.high})
            if (const auto cap = panel.at(target, end); panel.y().holds(end))
                page.line({cap.x - 6.0, cap.y}, {cap.x + 6.0, cap.y}, "stroke=\"#000\" stroke-width=\"2\"");
        if (panel.y().holds(f.value))
            page.dot(dot, 7.0, "fill=\"#000\"", "target");
        else  // a glass beyond the frame
            page.polygon({dot, {dot.x - 8.0, dot.y + 18.0}, {dot.x + 8.0, dot.y + 18.0}}, "fill=\"#000\"");
        panel.keep_free({dot.x, bottom}, thicker);
        panel.label({dot.x, dot.y + (panel.y().holds(f.value) ? 0.0 : 12.0)},
                    {fmt::format("{} °C: {}", core::fixed(target, 1), n.at_target.set.word), about_pa_s(f.value)});
    }
    const double step = high - low > 11.0 ? 2.0 : 1.0;
    for (double y = std::ceil(low / step) * step; y <= high; y += step) {
        page.line({left, panel.y().at(y)}, {left - 6.0, panel.y().at(y)}, thin);
        page.text({left - 10.0, panel.y().at(y) + 4.5}, power_of_ten(static_cast<int>(y)), to_the_left);
    }
    page.upright({left - 52.0, 0.5 * (top + bottom)}, "firmness, Pa s (viscosity + 5 s × modulus)", centred);
    page.box({left, top}, {right, bottom}, frame);
    temperature_ticks(page, x, top, bottom, "end of the cook on your thermometer, °C");
}

}  // namespace figure
