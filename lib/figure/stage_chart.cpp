#include "figure/stage_chart.hpp"

#include <algorithm>

#include "figure/batch_figure.hpp"
#include "sirop/cooking/advice.hpp"
#include "sirop/sirop.h"

namespace sirop::figure {

std::vector<chart_row> chart_rows(const core::stage_table& table, double pressure_pa) {
    constexpr double sea_level = formula::standard_atmosphere;
    const auto water = [&](double celsius) {
        const auto syrup = core::plain_syrup_boiling(celsius, sea_level);
        return core::percent(syrup.water(), syrup.total());
    };
    std::vector<chart_row> rows;
    for (const auto& row : table.rows) {
        const bool colour = core::is_colour(table, row);  // at any pressure the same, and of no water
        const auto here = [&](double celsius) {
            return colour ? core::not_a_number : core::carried_celsius(celsius, sea_level, pressure_pa);
        };
        const double low = here(row.low_celsius), high = here(row.high_celsius);
        const bool known = std::isfinite(low) && std::isfinite(high);
        const auto other = row.other_language.empty() ? std::string_view("-") : row.other_language;
        const bool english = table.language == "en";
        rows.push_back({english ? row.name : other, english ? other : row.name, known ? low : row.low_celsius,
                        known ? high : row.high_celsius, known ? water(row.low_celsius) : core::not_a_number,
                        known ? water(row.high_celsius) : core::not_a_number, known});
    }
    return rows;
}

std::string span_of(double low, double high, int decimals) {
    const auto a = core::fixed(low, decimals), b = core::fixed(high, decimals);
    return a == b ? a : a + " - " + b;
}

std::string stage_chart_page(const core::stage_table& table, double pressure_pa) {
    const auto rows = chart_rows(table, pressure_pa);
    page on(1188.0, 840.0);
    const auto boils = core::both_scales(core::water_boils_celsius(pressure_pa));
    const std::string title = "Stages of plain sugar where water boils at " + boils;
    on.text({40.0, 52.0}, title, "font-size=\"26\" font-weight=\"bold\"");
    on.text({40.0, 80.0}, core::burn_caution);
    on.text({40.0, 98.0}, core::steam_caution);

    const area a{460.0, 800.0, 142.0, 730.0};
    double low = rows.front().low_celsius, high = low;
    for (const auto& row : rows) low = std::min(low, row.low_celsius), high = std::max(high, row.high_celsius);
    const axis x{low - 3.0, high + 3.0, a.left, a.right};
    constexpr double low_heading = 126.0;
    for (const auto& [at, words] :
         {std::pair{40.0, "stage"}, {264.0, "French"}, {826.0, "°C"}, {940.0, "°F"}, {1052.0, "water left, %"}})
        on.text({at, low_heading}, words, "font-weight=\"bold\"");
    draw_temperatures(on, x, a, "temperature on a thermometer that reads right, °C");
    on.box({a.left, a.top}, {a.right, a.bottom}, frame);
    const double step = (a.bottom - a.top) / static_cast<double>(rows.size());
    constexpr const char* large = "font-size=\"17\"";
    bool beyond = false;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const auto& row = rows[i];
        const double y = a.top + step * (static_cast<double>(i) + 0.5);
        const double from = x.at(row.low_celsius), to = x.at(row.high_celsius);
        on.text({40.0, y + 6.0}, row.english, "font-size=\"17\" font-weight=\"bold\"", 20.0);
        on.text({264.0, y + 6.0}, row.french, large, 20.0);
        on.box({std::min(from, 0.5 * (from + to) - 2.0), y - 0.3 * step},
               {std::max(to, 0.5 * (from + to) + 2.0), y + 0.3 * step}, row.known ? black : hatched);
        on.text({826.0, y + 6.0}, span_of(row.low_celsius, row.high_celsius, 0), large);
        on.text({940.0, y + 6.0},
                span_of(core::celsius_to_fahrenheit(row.low_celsius),
                        core::celsius_to_fahrenheit(row.high_celsius), 0),
                large);
        on.text({1052.0, y + 6.0},
                row.known ? span_of(row.water_percent_at_low, row.water_percent_at_high, 1) : "by colour", large);
        if (i > 0) on.line({40.0, y - 0.5 * step}, {1148.0, y - 0.5 * step}, edge);
        beyond = beyond || !row.known;
    }
    on.text({40.0, 792.0}, std::string("Plain sugar and water only: glucose syrup, honey, milk and fat move each "
                                       "stage. Published tables differ by 1 "
                                       "to 3 °C.") +
                               (beyond ? " Hatched: told by colour, not by water." : ""));
    on.text({40.0, 812.0}, "Table \"" + std::string(table.name) + "\", " + std::string(table.source) +
                               ", carried to " + core::fixed(0.01 * pressure_pa, 0) + " hPa. sirop " +
                               sirop_version());
    return on.file(title, "Temperatures of the stages of sugar cooking in this kitchen.");
}

}  // namespace sirop::figure
