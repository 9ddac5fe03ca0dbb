// The sugar-cooking stages in this kitchen: a published table, corrected for the pressure.
#include "kitchen_options.hpp"

using namespace sirop;

namespace {

std::string span_of(double low, double high, int decimals) {
    const auto a = core::fixed(low, decimals), b = core::fixed(high, decimals);
    return a == b ? a : a + " - " + b;
}

std::string tables() {
    kitchen::answer out;
    for (const auto& table : core::stage_tables) out.print("{:<14}{}\n", table.name, table.source);
    return out.text;
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App app{"The sugar-cooking stages at an altitude or a pressure, in °C and °F.", "stage_chart"};
    std::string name = "us 2004";
    bool list = false;
    app.add_option("--table", name, "Which published table")->capture_default_str();
    app.add_flag("--list", list, "List the tables");
    const kitchen::options where(app);
    app.footer(kitchen::cautions);
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;
    if (list) return kitchen::print(tables());

    const auto* table = core::find_stage_table(name);
    if (table == nullptr)
        return kitchen::refused("table: \"" + name + "\" is unknown; --list names the accepted ones");
    const double pa = in_pascals(where.pressure());
    kitchen::answer out;
    out.print("Stages of plain sugar syrup, table \"{}\" ({})\n", table->name, table->source);
    out.print("at {:.0f} hPa, where water boils at {}\n\n", 0.01 * pa,
              core::both_scales(core::water_boils_celsius(pa)));
    constexpr const char* line = "{:<28}{:<24}{:<16}{:<13}{}\n";
    out.print(line, "English", "French", "°C", "°F", "water left in plain syrup, %");
    bool beyond = false;
    for (const auto& row : table->rows) {
        const bool colour = core::is_colour(*table, row);  // at any pressure the same, and of no water
        const auto here = [&](double celsius) {
            return colour ? core::not_a_number : core::carried_celsius(celsius, formula::standard_atmosphere, pa);
        };
        const double low = here(row.low_celsius), high = here(row.high_celsius);
        const bool known = std::isfinite(low) && std::isfinite(high);
        beyond = beyond || !known;
        const double t0 = known ? low : row.low_celsius, t1 = known ? high : row.high_celsius;
        const auto water = [&](double celsius) {
            const auto syrup = core::plain_syrup_boiling(celsius, formula::standard_atmosphere);
            return core::percent(syrup.water(), syrup.total());
        };
        const bool english = table->language == "en";
        const auto other = row.other_language.empty() ? std::string_view("-") : row.other_language;
        out.print(line, english ? row.name : other, english ? other : row.name,
                  span_of(t0, t1, 1) + (known ? "" : " *"),
                  span_of(core::celsius_to_fahrenheit(t0), core::celsius_to_fahrenheit(t1), 0),
                  known ? span_of(water(row.low_celsius), water(row.high_celsius), 1) : "-");
    }
    if (beyond)
        out.print(
            "\n* Beyond 99.5 % solids: the table's own temperature at sea level, not corrected. Such stages are "
            "told\n"
            "  by colour, not by water.\n");
    out.print(
        "\nThese are stages of plain sugar. With glucose syrup, honey, milk or fat in the pan each comes at "
        "another\n"
        "temperature: check_syrup and predict_set say which. Published tables differ by 1 to 3 °C.\n\n{}",
        kitchen::cautions);
    return kitchen::print(out.text);
}
