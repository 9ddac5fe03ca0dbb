// Everything that sirop knows of a syrup at a temperature; or, with --list, what can be asked, in which range, how
// well.
#include <sirop/questions/catalogue.hpp>

#include "kitchen_options.hpp"

using namespace sirop;

namespace {

std::string range_of(const core::property& p) {
    if (p.celsius_low == p.celsius_high) return "any";
    return fmt::format("{:g} to {:g}", p.celsius_low, p.celsius_high);
}

/// The table of docs/ranges.md.
std::string catalogue() {
    kitchen::answer out;
    out.print(
        "# Ranges and accuracies\n\n"
        "Made by `describe_syrup --list` from the library's catalogue. Outside the range of temperature a "
        "property is\n"
        "not computed (NaN, null); above the fitted solids of the syrup phase, or outside the fitted "
        "temperatures, it\n"
        "is computed and flagged as extrapolated. Every answer carries its own low and high.\n\n"
        "| property | unit | answers, °C | fitted, °C | fitted to, % solids | uncertainty | source |\n"
        "|---|---|---|---|---|---|---|\n");
    for (const auto& p : core::catalogue)
        out.print("| `{}` | {} | {} | {} | {:g} | {} | {} |\n", p.name, p.unit, range_of(p),
                  p.celsius_low == p.celsius_high
                      ? "any"
                      : fmt::format("{:g} to {:g}", p.fitted_celsius_low, p.fitted_celsius_high),
                  p.fitted_solids_percent, p.uncertainty, p.source);
    return out.text;
}

}  // namespace

int main(int argc, char** argv) {
    CLI::App app{"Every property of a syrup at a temperature.", "describe_syrup"};
    std::vector<std::string> parts;
    double celsius = 20.0, reading = 0.0;
    bool list = false;
    app.add_option("parts", parts, "name=grams of ingredients or components, such as \"glucose syrup 42 DE=60\"");
    app.add_option("--celsius", celsius, "The temperature")
        ->check(kitchen::within(-30.0, 170.0))
        ->capture_default_str();
    auto* read = app.add_option("--reads-brix", reading,
                                "A refractometer that does not correct for temperature reads "
                                "this on it: sets the water")
                     ->check(kitchen::within(0.0, 95.0));
    app.add_flag("--list", list, "The table of properties, ranges, sources and accuracies");
    const kitchen::options where(app);
    app.footer(kitchen::cautions());
    if (const int status = kitchen::parse(app, argc, argv); status >= 0) return status;
    if (list) return kitchen::print(catalogue());
    if (parts.empty()) return kitchen::refused("parts: at least one name=grams is needed, or --list");

    core::mixture syrup;
    for (const auto& part : parts)
        if (const auto why = kitchen::add_part(syrup, part); !why.empty()) return kitchen::refused(why);
    if (!(syrup.total() > 0.0)) return kitchen::refused("parts: 0 g in all; more than 0 is accepted");
    kitchen::answer out;
    out.print("{}\n", kitchen::cautions());
    if (read->count() > 0) {
        const double water = core::water_from_reading(syrup, reading, celsius);
        if (!std::isfinite(water))
            return kitchen::refused(
                fmt::format("--reads-brix: no water content of this syrup reads {} at {} °C", reading, celsius));
        syrup[core::component::water] = water;
        out.print("A reading of {} at {} °C means {:.1f} g of water in {:.1f} g, {:.1f} % of the whole.\n\n",
                  reading, core::fixed(celsius, 1), water, syrup.total(), core::percent(water, syrup.total()));
    }
    out.print("At {} and {:.0f} hPa\n\n", core::both_scales(celsius), in_hectopascals(where.pressure()));
    out.print("{:<36}{:>12}  {:<26}{}\n", "property", "value", "range", "");
    for (const auto& p : core::catalogue) {
        const auto e = core::evaluate(p, syrup, celsius, in_pascals(where.pressure()));
        if (!e.computed())
            out.print("{:<36}{:>12}\n", p.name, "-");
        else
            out.print("{:<36}{:>12.5g}  {:<26}{}\n", p.name, e.value,
                      fmt::format("{:.5g} to {:.5g}", e.low, e.high),
                      e.status == core::grade::extrapolated ? "extrapolated" : "");
    }
    out.print("\n\"-\" cannot be given here; describe_syrup --list says in which range it can.\n");
    return kitchen::print(out.text);
}
