#include "figure/batch_figure.hpp"

#include <algorithm>
#include <cmath>

#include "sirop/cooking/advice.hpp"
#include "sirop/sirop.h"

namespace sirop::figure {
namespace {

/// One line: what is in the pan, and the kitchen.
std::string kitchen_line(const batch_curves& c) {
    const auto& b = c.batch;
    const double error = b.thermometer_error_kelvin, off_heat = c.at_target.off_heat_grams;
    std::string line = core::fixed(c.at_target.pan_grams, 0) + " g in the pan";
    if (off_heat > 0.0) line += ", " + core::fixed(off_heat, 0) + " g added off the heat";
    line += "; " + core::fixed(0.01 * b.pressure_pa, 0) + " hPa, water boils at " +
            degrees(c.at_target.cooked.water_boils_celsius);
    if (error != 0.0)
        line += "; your thermometer reads " + degrees(std::fabs(error)) + " too " + (error > 0.0 ? "high" : "low");
    if (b.thermometer_within_kelvin != 0.0)
        line += "; your thermometer is right within " + degrees(b.thermometer_within_kelvin);
    return line;
}

std::string drawn(const batch_curves& c) {
    constexpr area left{92.0, 582.0, 178.0, 670.0}, right{672.0, 1092.0, 178.0, 670.0};
    constexpr const char* heading = "font-size=\"16\" font-weight=\"bold\"";
    page on(1188.0, 840.0);
    const std::string title = c.batch.title.empty() ? "A batch without a title" : c.batch.title;
    const auto served = degrees(c.batch.serve_celsius);
    on.text({40.0, 48.0}, title, "font-size=\"22\" font-weight=\"bold\"", 84.0);
    on.text({40.0, 70.0}, core::burn_caution);
    on.text({40.0, 88.0}, core::steam_caution);
    on.text({40.0, 112.0}, kitchen_line(c));
    on.text({left.left, 142.0}, "Water left, and the stages", heading);
    on.text({right.left, 142.0}, "Set at " + served, heading);
    draw_water(on, c, left);
    draw_set(on, c, right);
    draw_legend(on, c, left.left, right.left, 738.0);
    on.line({40.0, 804.0}, {1148.0, 804.0}, thin);
    on.text(
        {40.0, 822.0},
        std::string("Ranges are the models' own; ingredients and weighing add to them.") +
            (c.at_target.status == core::grade::fine ? "" : "  Here a model is used outside its fitted range.") +
            "  sirop " + sirop_version());
    return on.file(title, "Cooked to " + degrees(c.target_celsius()) +
                              " on the thermometer: " + core::fixed(c.at_target.cooked.water_percent.value, 1) +
                              " % water left, " + c.at_target.stage.by_consistency + "; " + c.at_target.set.word +
                              " when it is served at " + served + ".");
}

}  // namespace

core::outcome<std::string> figure_of(const core::batch& b, const core::stage_table& table) {
    const auto curves = curves_of(b, table);
    if (!curves) return curves.why;
    return drawn(*curves);
}

void draw_legend(page& on, const batch_curves& c, double left, double right, double top) {
    const double second = left + 172.0;
    const auto sample = [&](double x, double y, const char* style, const std::string& words) {
        on.polyline({{x, y}, {x + 44.0, y}}, style);
        on.text({x + 54.0, y + 4.5}, words);
    };
    const auto with_range = [&](double x, double y, const std::string& words) {
        on.box({x, y - 8.0}, {x + 44.0, y + 8.0}, hatched);
        sample(x, y, solid, words);
    };
    sample(left, top, path, "the cook's path");
    on.dot({left + 44.0, top}, 6.0, black);
    with_range(second, top, "this batch, and its range");
    sample(left, top + 26.0, dashed, "plain sugar");
    for (const double bars : {top + 26.0, top + 46.0}) {
        on.box({second, bars - 6.0}, {second + 22.0, bars + 6.0}, frame);
        on.box({second + 22.0, bars - 6.0}, {second + 44.0, bars + 6.0}, black);
    }
    on.text({second + 54.0, top + 30.5}, "top bars: table \"" + c.table + "\", plain sugar here");
    on.text({second + 54.0, top + 50.5}, "lower bars: this batch, as stiff in cold water");
    with_range(right, top, "when it is served at " + degrees(c.batch.serve_celsius) + ", and its range");
    if (std::isnan(c.batch.pour_celsius)) return;
    sample(right, top + 26.0, dash_dot, "warmed to " + degrees(c.batch.pour_celsius) + ", where it shall pour");
    sample(right, top + 46.0, guide, "10 Pa s: up to there it pours from a jug");
}

void draw_temperatures(page& on, const axis& x, const area& a, std::string_view what) {
    const double step = tick_step(x.high - x.low, 9.0);
    for (double t = std::ceil(x.low / step) * step; t <= x.high; t += step) {
        on.line({x.at(t), a.bottom}, {x.at(t), a.bottom + 6.0}, thin);
        on.text({x.at(t), a.bottom + 21.0}, core::shortest(t), centred);
    }
    const double low = core::celsius_to_fahrenheit(x.low), high = core::celsius_to_fahrenheit(x.high);
    const double wide = tick_step(high - low, 9.0);
    for (double f = std::ceil(low / wide) * wide; f <= high; f += wide) {
        const double at = x.at(core::fahrenheit_to_celsius(f));
        on.line({at, a.top}, {at, a.top - 6.0}, thin);
        on.text({at, a.top - 10.0}, core::shortest(f), centred);
    }
    on.text({x.from - 12.0, a.top - 10.0}, "°F", to_the_left);
    on.text({0.5 * (x.from + x.to), a.bottom + 42.0}, what, centred);
}

std::string degrees(double celsius) {
    return core::shortest(std::round(10.0 * celsius) / 10.0) + " °C";
}

std::string power_of_ten(int exponent) {
    if (exponent >= -3 && exponent <= 3) return core::shortest(std::pow(10.0, exponent));
    std::string text = exponent < 0 ? "10⁻" : "10";
    constexpr const char* digits[] = {"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
    for (const char c : std::to_string(std::abs(exponent))) text += digits[c - '0'];
    return text;
}

std::string about_pa_s(double log10) {
    if (log10 > 12.0) return "over " + power_of_ten(12) + " Pa s";
    int decade = static_cast<int>(std::floor(log10));
    const double places = log10 >= 4.0 ? 1.0 : 10.0;  // one digit or two
    double digits = std::round(places * std::pow(10.0, log10 - decade));
    if (digits >= 10.0 * places) digits /= 10.0, ++decade;
    if (log10 >= 4.0) return "about " + core::fixed(digits, 0) + "·" + power_of_ten(decade) + " Pa s";
    return "about " + core::fixed(digits * std::pow(10.0, decade - 1), std::max(0, 1 - decade)) + " Pa s";
}

}  // namespace sirop::figure
