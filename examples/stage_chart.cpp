// The sugar-cooking stages in this kitchen: a published table, corrected for the pressure.
#include "figure/stage_chart.hpp"
#include "figure.hpp"

using namespace sirop;

namespace {

std::string tables() {
    kitchen::answer out;
    for (const auto& table : core::stage_tables) out.print("{:<14}{}\n", table.name, table.source);
    return out.text;
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App app{"The sugar-cooking stages at an altitude or a pressure, in °C and °F.", "stage_chart"};
    std::string name = "us 2004", svg;
    bool list = false;
    app.add_option("--table", name, "Which published table")->capture_default_str();
    app.add_flag("--list", list, "List the tables");
    app.add_option("--svg", svg, "Write a chart for the wall to this SVG file, or - for standard output");
    const kitchen::options where(app);
    app.footer(kitchen::cautions());
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;
    if (list) return kitchen::print(tables());

    const auto* table = core::find_stage_table(name);
    if (table == nullptr) return kitchen::unknown_table(name);
    const double pa = in_pascals(where.pressure());
    if (!svg.empty()) return kitchen::put_figure(svg, figure::stage_chart_page(*table, pa));
    kitchen::answer out;
    out.print("{}\n", kitchen::cautions());
    out.print("Stages of plain sugar syrup, table \"{}\" ({})\n", table->name, table->source);
    out.print("at {:.0f} hPa, where water boils at {}\n\n", 0.01 * pa,
              core::both_scales(core::water_boils_celsius(pa)));
    constexpr const char* line = "{:<28}{:<24}{:<16}{:<13}{}\n";
    out.print(line, "English", "French", "°C", "°F", "water left in plain syrup, %");
    bool beyond = false;
    for (const auto& row : figure::chart_rows(*table, pa)) {
        beyond = beyond || !row.known;
        out.print(line, row.english, row.french,
                  figure::span_of(row.low_celsius, row.high_celsius, 1) + (row.known ? "" : " *"),
                  figure::span_of(core::celsius_to_fahrenheit(row.low_celsius),
                                  core::celsius_to_fahrenheit(row.high_celsius), 0),
                  row.known ? figure::span_of(row.water_percent_at_low, row.water_percent_at_high, 1) : "-");
    }
    if (beyond)
        out.print(
            "\n* Beyond 99.5 % solids: the table's own temperature at sea level, not corrected. Such stages are "
            "told\n"
            "  by colour, not by water.\n");
    out.print(
        "\nThese are stages of plain sugar. With glucose syrup, honey, milk or fat in the pan each comes at "
        "another\n"
        "temperature: check_syrup and predict_set say which. Published tables differ by 1 to 3 °C.\n");
    return kitchen::print(out.text);
}
