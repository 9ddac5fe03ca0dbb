// This syrup beside plain sugar: for each stage of a published table, where this syrup reaches that consistency.
#include "kitchen_options.hpp"

using namespace sirop;

namespace {

/// Degrees of a point or a range, in both scales.
std::string degrees(double low, double high) {
    if (!std::isfinite(low) || !std::isfinite(high)) return "-";
    if (high - low < 0.05) return fmt::format("{:.1f} °C  {:.0f} °F", low, core::celsius_to_fahrenheit(low));
    return fmt::format("{:.1f}-{:.1f} °C  {:.0f}-{:.0f} °F", low, high, core::celsius_to_fahrenheit(low),
                       core::celsius_to_fahrenheit(high));
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App app{"A syrup beside plain sugar, against a stage table.", "check_syrup"};
    std::vector<std::string> parts;
    std::string name = "us 2004";
    double solids = 0.0, boils = 0.0;
    app.add_option("parts", parts, "name=grams of ingredients or components, such as \"glucose syrup 42 DE=60\"")
        ->required();
    auto* by_solids =
        app.add_option("--solids-percent", solids, "Water is set to give the syrup phase these solids")
            ->check(kitchen::within(1.0, 99.5));
    app.add_option("--boils-celsius", boils, "Water is set to let it boil at this temperature")
        ->check(kitchen::within(60.0, 250.0))
        ->excludes(by_solids);
    app.add_option("--table", name, "Which published table; stage_chart --list")->capture_default_str();
    const kitchen::options where(app);
    app.footer(kitchen::cautions());
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;

    core::mixture syrup;
    for (const auto& part : parts)
        if (const auto why = kitchen::add_part(syrup, part); !why.empty()) return kitchen::refused(why);
    const auto* table = core::find_stage_table(name);
    if (table == nullptr) return kitchen::unknown_table(name);
    if (!(syrup.dissolved() > 0.0))
        return kitchen::refused("parts: nothing that dissolves; at least one sugar or syrup is needed");

    const double pa = in_pascals(where.pressure());
    if (app.count("--solids-percent") > 0) syrup[component::water] = syrup.dissolved() * (100.0 / solids - 1.0);
    if (app.count("--boils-celsius") > 0) {
        const double last = core::highest_answer_celsius(syrup, pa);
        const auto water = core::water_at_boil(syrup, boils, pa);
        if (!water.computed() || boils > last)
            return kitchen::refused(
                fmt::format("--boils-celsius: {} is outside {:.2f} to {:.1f} °C for this syrup here", boils,
                            core::water_boils_celsius(pa), last));
        syrup[component::water] = water.value;
    }
    const auto boils_at = core::boiling_celsius(syrup, pa);
    if (!boils_at.computed() || syrup.syrup_solids() > core::last_syrup_solids + 1e-12)
        return kitchen::refused("parts: too dry to boil within the model; add water or give --solids-percent");

    kitchen::answer out;
    out.print("{}\n", kitchen::cautions());
    out.print("This syrup: {:.1f} % solids in its syrup phase, {:.1f} % water in all\n",
              100.0 * syrup.syrup_solids(), core::percent(syrup.water(), syrup.total()));
    out.print("  boils at {} ({:.1f} to {:.1f} °C) at {:.0f} hPa\n", core::both_scales(boils_at.value),
              boils_at.low, boils_at.high, 0.01 * pa);
    if (boils_at.status != core::grade::fine) out.print("  (extrapolated: outside the range of a model)\n");
    const auto activity = core::water_activity(syrup, 20.0);
    out.print("  water activity at 20 °C {:.2f} ({:.2f} to {:.2f})\n", activity.value, activity.low,
              activity.high);
    const auto brix = core::brix_of_syrup(syrup);
    if (std::isfinite(brix)) out.print("  a refractometer reads {:.1f} Brix at 20 °C\n", brix);
    const auto flow = core::log10_firmness(syrup, 20.0);
    out.print("  at 20 °C: {}\n", core::word_for(std::pow(10.0, flow.value)).word);

    out.print("\nTable \"{}\" at {:.0f} hPa, and where this syrup is as stiff in cold water\n\n", table->name,
              0.01 * pa);
    out.print("{:<28}{:<30}{:<30}{}\n", "stage", "plain sugar", "this syrup", "its water, %");
    for (const auto& row : table->rows) {
        double plain[2], mine[2], water[2];
        for (int i = 0; i < 2; ++i) {
            const double sea_level = i == 0 ? row.low_celsius : row.high_celsius;
            const auto like = core::plain_syrup_boiling(sea_level, formula::standard_atmosphere);
            plain[i] = core::carried_celsius(sea_level, formula::standard_atmosphere, pa);
            const double held = like.water() > 0.0
                                    ? core::water_of_consistency(syrup, core::log10_firmness(like, 20.0).value)
                                    : core::not_a_number;
            const auto same = syrup.with_water(held);
            mine[i] = std::isfinite(held) ? core::boiling_celsius(same, pa).value : core::not_a_number;
            water[i] = core::percent(same.water(), same.total());
        }
        const bool known = std::isfinite(plain[0]) && std::isfinite(plain[1]);
        const bool reached = std::isfinite(mine[0]) && std::isfinite(mine[1]);
        out.print("{:<28}{:<30}{:<30}{}\n", row.name,
                  known ? degrees(plain[0], plain[1]) : degrees(row.low_celsius, row.high_celsius) + " *",
                  reached ? degrees(mine[0], mine[1]) : "-",
                  !reached                     ? "-"
                  : water[0] - water[1] < 0.05 ? fmt::format("{:.1f}", water[0])
                                               : fmt::format("{:.1f} - {:.1f}", water[0], water[1]));
    }
    out.print(
        "\n* beyond the model: the table's own temperature at sea level.  - no water content gives this.\n"
        "Consistency is uncertain by a factor of 3 and more, a stage by some 2 °C.\n");
    return kitchen::print(out.text);
}
