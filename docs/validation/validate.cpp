// Compares the library with published data and writes the report (markdown, to standard output) and the series of
// the figures (CSV, into the folder named as the first argument).  docs/validation/make.sh compiles and runs it.
#include <exception>
#include <fstream>
#include <stdexcept>

#include "judge.hpp"
#include "prose.hpp"
#include "sets.hpp"

namespace {

using namespace validation;
using std::exp;
using std::log;

double log_activity_sucrose_uniquac(double w, double t) {
    return formula::uniquac_ln_activity(mole_fraction_at(w, 342.297), t, formula::uniquac_sucrose);
}
double log_activity_glucose_norrish(double w) {
    return formula::norrish_ln_activity(mole_fraction_at(w, 180.156), -2.25);
}
double elevation_uniquac(double w) {
    const double base = water_boils_celsius(atmosphere);
    return bisect(
        [&](double rise) {
            const double t = kelvin(base + rise);
            return log_activity_sucrose_uniquac(w, t) - log(atmosphere / formula::saturation_pressure(t));
        },
        0.0, 200.0);
}
std::string range(const estimate& e, int places) {
    return text("%.*f (%.*f–%.*f)", places, e.value, places, e.low, places, e.high);
}
/// A second model's number, marked where the interval does not hold it.
std::string beside(double value, const estimate& e, int places) {
    const double rounding = 1.0e-6 * std::fabs(value);  // the interval's edge may be this very model, solved
    const bool outside = value < e.low - rounding || value > e.high + rounding;
    return text("%.*f%s", places, value, outside ? " **outside**" : "");
}

// ---- model against model ----

void print_models() {
    std::puts(
        "### Sucrose alone: three sources, and a fourth at the boil\n\n"
        "| solids | aw at 25 °C, library (interval) | UNIQUAC | droplets | boils above water by, K, library "
        "(interval) | UNIQUAC | technical sugar |\n|---|---|---|---|---|---|---|");
    const auto published = [](const std::vector<sirop_test::published_at>& list, double w, const estimate& e,
                              int places) {
        for (const auto& point : list)
            if (point.percent == w) return beside(point.value, e, places);
        return std::string("–");
    };
    const auto droplets = sirop_test::droplet_activities(), technical = sirop_test::technical_elevations();
    const double base = water_boils_celsius(atmosphere);
    for (const double w : {50.0, 60.0, 70.0, 75.0, 80.0, 85.0, 90.0, 92.0, 95.0, 97.0}) {
        const mixture m = solution(component::sucrose, w);
        const estimate aw = water_activity(m, 25.0), boils = boiling_celsius(m, atmosphere);
        const estimate rise = between(boils.value - base, boils.low - base, boils.high - base);
        std::printf("| %.0f %% | %s | %s | %s | %s | %s | %s |\n", w, range(aw, 3).c_str(),
                    beside(exp(log_activity_sucrose_uniquac(w, 298.15)), aw, 3).c_str(),
                    published(droplets, w, aw, 3).c_str(), range(rise, 1).c_str(),
                    beside(elevation_uniquac(w), rise, 1).c_str(), published(technical, w, rise, 1).c_str());
    }
    std::puts(
        "\n### Glucose alone at 25 °C: two models\n\n| solids | aw, library (interval) | Norrish "
        "|\n|---|---|---|");
    for (const double w : {50.0, 60.0, 70.0, 75.0, 80.0, 85.0, 90.0, 95.0, 97.0}) {
        const estimate aw = water_activity(solution(component::glucose, w), 25.0);
        std::printf("| %.0f %% | %s | %s |\n", w, range(aw, 3).c_str(),
                    beside(exp(log_activity_glucose_norrish(w)), aw, 3).c_str());
    }
    std::puts(
        "\n### Sucrose and glucose 1:1 at 25 °C: two mixing rules\n\n"
        "| solids | aw, additive rule, library (interval) | Ross product rule |\n|---|---|---|");
    for (const double w : {50.0, 60.0, 70.0, 80.0, 85.0, 90.0, 95.0}) {
        mixture both = solution(component::sucrose, w), sucrose = both, glucose = both;
        both[component::sucrose] = both[component::glucose] = sucrose[component::sucrose] = 0.5 * w;
        glucose[component::sucrose] = 0.0;
        glucose[component::glucose] = 0.5 * w;
        const estimate aw = water_activity(both, 25.0);
        std::printf(
            "| %.0f %% | %s | %s |\n", w, range(aw, 3).c_str(),
            beside(water_activity(sucrose, 25.0).value * water_activity(glucose, 25.0).value, aw, 3).c_str());
    }
    data_set ternary{"", "", "", 4, {}, ""};
    sirop_test::compare_ternary_uniquac(
        [&](double off, double w, double celsius) { ternary.add(off, w, text("%g %%, %g °C", w, celsius)); });
    std::printf(
        "\nThe ternary modified UNIQUAC of Peres & Macedo (energies between the sugars zero; recalled) against "
        "the "
        "additive rule on the same two binaries, %zu points, 60 to 95 %%, 25 to 120 °C, sucrose and glucose 1:3, "
        "1:1 "
        "and 3:1: aw bias %s, rms %s, worst %s (%s).\n",
        ternary.points.size(), fixed(ternary.bias(), 5).c_str(), fixed(ternary.rms(), 5).c_str(),
        fixed(ternary.worst().off, 5).c_str(), ternary.worst().where.c_str());
    std::puts(
        "\n![Boiling-point elevation of sucrose](validation/rise.svg)\n\n"
        "![Water activity at 25 °C](validation/activity.svg)\n\n### Solubility of sucrose: the old scale\n");
    data_set old{"", "", "", 2, {}, ""};
    for (const csv_row& row : read_csv("solubility_sucrose.csv").rows)
        if (row.has("herzfeld"))
            old.add(100.0 * formula::sucrose_solubility(row.number("T_C")) - row.number("herzfeld"), 0.0,
                    row.text("T_C") + " °C");
    std::printf(
        "The library's polynomial (Bubník & Kadlec 1995) against the older scale of Herzfeld, %zu points, 0 to "
        "100 °C: bias %s, rms %s, worst %s %% solids (%s).\n\n",
        old.points.size(), fixed(old.bias(), 2).c_str(), fixed(old.rms(), 2).c_str(),
        fixed(old.worst().off, 2).c_str(), old.worst().where.c_str());
}

// ---- saturation from the isotherm ----

/// ln of the activity of dissolved sucrose, 0 at x -> 0 for ln x: Gibbs-Duhem on ln gamma_w = A (1 + a x + b x2)
/// x2, d ln gamma_s = -(1 - x)/x d ln gamma_w, integrated from 0 to x by Simpson's rule on the formula itself.
double log_activity_of_dissolved_sucrose(double w, double t) {
    const double x = mole_fraction_at(w, 342.297);
    const auto log_gamma_water = [t](double y) {
        return formula::starzak_peacock_ln_activity(y, t) - std::log1p(-y);
    };
    const auto integrand = [&](double y) {
        const double h = 1.0e-4 * y;
        return -(1.0 - y) / y * (log_gamma_water(y + h) - log_gamma_water(y - h)) / (2.0 * h);
    };
    constexpr int steps = 400;
    const double least = 1.0e-6 * x, step = (x - least) / steps;
    double sum = integrand(least) + integrand(x);
    for (int i = 1; i < steps; ++i) sum += (i % 2 ? 4.0 : 2.0) * integrand(least + i * step);
    return log(x) + sum * step / 3.0;
}

double published_saturation(double celsius) {
    return 100.0 * formula::sucrose_solubility(celsius);
}
double crystal_log_activity(double celsius) {
    return log_activity_of_dissolved_sucrose(published_saturation(celsius), kelvin(celsius));
}

void print_saturation() {
    const double anchor = crystal_log_activity(25.0), t0 = 298.15;
    const auto implied_heat = [](double celsius) {
        return formula::gas_constant *
               (crystal_log_activity(celsius - 5.0) - crystal_log_activity(celsius + 5.0)) /
               (1.0 / kelvin(celsius + 5.0) - 1.0 / kelvin(celsius - 5.0));
    };
    constexpr double heat = 5950.0, heat_capacity = 208.0;
    const std::array<std::function<double(double)>, 3> laws = {
        [=](double) { return anchor; },
        [=](double t) { return anchor + heat / formula::gas_constant * (1 / t0 - 1 / t); },
        [=](double t) {
            return anchor + (heat - heat_capacity * t0) / formula::gas_constant * (1.0 / t0 - 1.0 / t) +
                   heat_capacity / formula::gas_constant * log(t / t0);
        }};
    std::puts(before_saturation);
    std::array<double, 3> worst{}, worst_kelvin{};
    for (double celsius = 0.0; celsius <= 90.0; celsius += 5.0) {
        const double t = kelvin(celsius), published = published_saturation(celsius);
        const double slope = (published_saturation(celsius + 0.5) - published_saturation(celsius - 0.5)) / 1.0;
        std::string cells;
        for (std::size_t i = 0; i < laws.size(); ++i) {
            const double target = laws[i](t);
            const double derived =
                bisect([&](double w) { return log_activity_of_dissolved_sucrose(w, t) - target; }, 1.0, 97.0);
            const double off = derived - published;
            worst[i] = std::max(worst[i], std::fabs(off));
            worst_kelvin[i] = std::max(worst_kelvin[i], std::fabs(off / slope));
            cells += " " + with_sign(off, 2) + " (" + with_sign(-off / slope, 1) + ") |";
        }
        if (std::fmod(celsius, 10.0) == 0.0 || celsius == 25.0)
            std::printf("| %.0f | %.2f | %s |%s\n", celsius, published,
                        with_sign(crystal_log_activity(celsius) - anchor, 3).c_str(), cells.c_str());
    }
    std::printf(
        "\nK in brackets: by how much the derived saturation is reached at another temperature than the published "
        "one "
        "(a plus: too warm). Worst from 0 to 90 °C: A %.2f %% solids (%.1f K), B %.2f (%.1f K), C %.2f (%.1f K). "
        "The "
        "heat of solution at infinite dilution that would make the published curve and the isotherm agree is %.1f "
        "kJ/mol at 5 °C, %.1f at 25 °C, %.1f at 50 °C and %.1f at 85 °C; calorimetry has 5.95 at 25 °C.\n\n",
        worst[0], worst_kelvin[0], worst[1], worst_kelvin[1], worst[2], worst_kelvin[2],
        1.0e-3 * implied_heat(5.0), 1.0e-3 * implied_heat(25.0), 1.0e-3 * implied_heat(50.0),
        1.0e-3 * implied_heat(85.0));
}

// ---- calibration ----

struct group {
    std::string name;
    std::vector<const data_set*> sets{};
};

std::vector<group> groups_of(const data_sets& validated, const data_sets& regressed) {
    std::vector<group> groups = {{"water activity, all of the validation"},
                                 {"the same and the water content (sorption curves)"}};
    for (const auto* list : {&validated, &regressed})
        for (const data_set& d : *list) {
            if (d.group.empty()) continue;
            if (list == &validated) {
                const bool is_activity =
                    !d.points[0].interval.empty() && d.points[0].interval[0].on == judged::scale::activity;
                if (is_activity) groups[0].sets.push_back(&d);
                if (is_activity || d.group.find("sorption") != std::string::npos) groups[1].sets.push_back(&d);
            }
            auto at =
                std::find_if(groups.begin(), groups.end(), [&](const group& g) { return g.name == d.group; });
            if (at == groups.end()) at = groups.insert(groups.end(), {d.group});
            at->sets.push_back(&d);
        }
    return groups;
}

void print_calibration(const std::vector<group>& groups, const std::string& folder) {
    std::puts(
        "| quantity | solids | points | inside | digits fine enough | stated width over needed width | error "
        "stated | error needed for nine in ten | verdict |\n|---|---|---:|---:|---:|---:|---:|---:|---|");
    std::ofstream csv(folder + "/share.csv");
    int row = 0;
    for (const group& g : groups) {
        for (std::size_t regime = 0; regime < 3; ++regime) {
            const calibration c(judged_in(g.sets, regime));
            if (c.points == 0) continue;
            const bool has_error = c.sharp > 0 && std::isfinite(c.needed);
            const bool is_viscosity = g.name.rfind("viscosity", 0) == 0;
            const auto error = [&](double r) { return is_viscosity ? fixed(100.0 * r, 0) + " %" : fixed(r, 3); };
            std::printf("| %s | %s | %zu | %zu, %s | %zu | %s | %s | %s | %s |\n", g.name.c_str(),
                        regime_names[regime], c.points, c.inside, text("%.0f %%", 100.0 * c.share()).c_str(),
                        c.sharp, c.width().c_str(),
                        has_error ? (error(c.stated_low) + "–" + error(c.stated_high)).c_str() : "–",
                        has_error ? error(c.needed).c_str() : "–", c.verdict().c_str());
            csv << row++ << ",\"" << g.name << "\"," << regime << ','
                << text("%.1f,%zu", 100.0 * c.share(), c.points) << '\n';
        }
    }
    std::puts("");
}

// ---- marks ----

void print_marks() {
    std::puts("| mark | library (interval) | stated elsewhere | holds |\n|---|---|---|---|");
    const auto line = [](const char* what, const mixture& m, double celsius, double low, double high,
                         const char* from) {
        const estimate e = log10_viscosity(m, celsius);
        const double value = std::pow(10.0, e.value);
        std::printf("| %s | %.1f Pa s (%.1f–%.1f) | %s | %s |\n", what, value, std::pow(10.0, e.low),
                    std::pow(10.0, e.high), from, value >= low && value <= high ? "yes" : "**no**");
    };
    line("honey (average of 490), 20 °C", honey(), 20.0, 5.0, 40.0,
         "10 to 20 Pa s (common practice, no source); the limit here is 5 to 40");
    line("42 DE corn syrup of 77 %, 25 °C", corn_syrup(77.0), 25.0, 3.0, 12.0,
         "6.1 Pa s by a published fit (reference not at hand); the limit here is 3 to 12");
    double worst = 0.0;
    for (double w = 5.0; w < 99.0; w += 1.0)
        for (const component c : {component::sucrose, component::glucose, component::fructose}) {
            const mixture m = solution(c, w);
            worst = std::max(worst, std::fabs(syrup_log10_viscosity(m, glass_celsius(m)) - 12.0));
        }
    std::printf(
        "| viscosity at the glass transition, three sugars, 5 to 98 %% | 10^12 Pa s, off by %s 10^-9 decades "
        "| 10^12 Pa s by definition | %s |\n\n",
        worst < 1.0e-9 ? "less than" : "more than", worst < 1.0e-9 ? "yes" : "**no**");
}

// ---- series for the figures ----

void write_series(const std::string& folder, const data_sets& validated) {
    const double base = water_boils_celsius(atmosphere);
    std::ofstream rise(folder + "/rise.csv"), aw(folder + "/activity.csv"), measured(folder + "/isopiestic.csv");
    for (double w = 40.0; w <= 97.01; w += 0.5) {
        const estimate e = boiling_celsius(solution(component::sucrose, w), atmosphere);
        rise << w << ',' << e.value - base << ',' << e.low - base << ',' << e.high - base << ','
             << elevation_uniquac(w) << '\n';
        const estimate s = water_activity(solution(component::sucrose, w), 25.0);
        const estimate g = water_activity(solution(component::glucose, w), 25.0);
        aw << w << ',' << s.value << ',' << s.low << ',' << s.high << ','
           << exp(log_activity_sucrose_uniquac(w, 298.15)) << ',' << g.value << ',' << g.low << ',' << g.high
           << ',' << exp(log_activity_glucose_norrish(w)) << '\n';
    }
    for (const csv_row& row : read_csv("sucrose_water_activity_25C.csv").rows)
        measured << row.text("mass_percent") << ',' << row.text("aw_1961") << '\n';
    std::ofstream freezing(folder + "/freezing.csv");
    for (std::size_t i = 0; i < 4; ++i) {
        for (const point& p : validated[i].points) freezing << p.solids << ',' << 1.0e4 * p.off << '\n';
        freezing << "\n\n";
    }
    std::ofstream tables(folder + "/viscosity_tables.csv"), curves(folder + "/viscosity_curves.csv"),
        solids(folder + "/viscosity_solids.csv"), handbook(folder + "/viscosity_handbook.csv");
    for (const csv_row& row : read_csv("viscosity_sucrose.csv").rows)
        tables << row.text("T_C") << ',' << 1.0e-3 * row.number("viscosity_mPa_s") << ','
               << row.text("mass_percent") << '\n';
    for (double t = 10.0; t <= 80.0; t += 10.0)
        for (const double w : {70.0, 75.0}) tables << t << ',' << genotelle_pa_s(w, t) << ',' << w << '\n';
    for (double t = 0.0; t <= 100.0; t += 5.0) {
        curves << t;
        for (const double w : {20.0, 40.0, 60.0, 70.0, 75.0})
            curves << ',' << std::pow(10.0, log10_viscosity(solution(component::sucrose, w), t).value);
        curves << '\n';
    }
    for (double w = 0.5; w <= 99.51; w += w < 80.0 ? 2.0 : 1.0) {
        const estimate e = log10_viscosity(solution(component::sucrose, w), 20.0);
        solids << w << ',' << e.value << ',' << e.low << ',' << e.high << '\n';
    }
    for (const csv_row& row : read_csv("concentrative_properties_20C.csv").rows)
        if (row.text("solute") == "sucrose" && row.has("viscosity_mPa_s"))
            handbook << row.text("mass_percent") << ',' << std::log10(1.0e-3 * row.number("viscosity_mPa_s"))
                     << '\n';
}

int report(const std::string& folder) {
    if (!std::ofstream(folder + "/share.csv")) throw std::runtime_error("cannot write into " + folder);
    const auto validated = validations(), regressed = regressions();
    const auto groups = groups_of(validated, regressed);
    std::puts(introduction);
    std::puts("## 1. Validation: published values the model was not fitted to\n");
    print_sets(validated);
    std::puts(after_validation);
    std::puts("## 2. Regression: the model's own source, or data its constants were fitted to\n");
    print_sets(regressed);
    std::puts(after_regression);
    std::puts("## 3. Do the intervals hold nine in ten?\n");
    std::puts(before_calibration);
    print_calibration(groups, folder);
    std::puts("![Share inside the interval](validation/share.svg)\n");
    std::puts("## 4. Single marks\n");
    print_marks();
    std::puts("## 5. Model against model\n");
    std::puts(before_models);
    print_models();
    std::puts("## 6. Saturation of sucrose derived from its isotherm\n");
    print_saturation();
    std::puts("## 7. What remains open\n");
    std::puts(open_questions);
    write_series(folder, validated);
    return 0;
}

}  // namespace

int main(int argc, char** argv) try {
    if (argc != 2) {
        std::fputs("usage: validate FOLDER_FOR_CSV\n", stderr);
        return 2;
    }
    return report(argv[1]);
} catch (const std::exception& problem) {
    std::fprintf(stderr, "validate: %s\n", problem.what());
    return 1;
}
