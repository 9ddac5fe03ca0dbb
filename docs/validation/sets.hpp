// The published data sets and what the library makes of them.
#pragma once

#include <cmath>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "activity_models.hpp"
#include "csv.hpp"
#include "honey.hpp"
#include "judge.hpp"

namespace validation {

using sirop_test::csv_row;
using sirop_test::honey;
using sirop_test::read_csv;

inline const char* const recalled = " (recalled)";
inline const std::string crc = "CRC Handbook, 102nd ed. (2021)";

/// Half of the last printed digit of a freezing point, 0.01 K, as water activity.
inline constexpr double freezing_rounding = 0.5 * 0.01 * 0.0097;

inline std::string at_percent(const csv_row& row) {
    return row.text("mass_percent") + " %";
}

/// Tang, Tridico & Fung (1997), as recalled: water activity of sodium chloride, 26.4 to 45 mass %, 25 C.
inline double tang_activity(double w) {
    return 1.0 + w * (-6.366e-3 + w * (8.624e-5 + w * (-1.158e-5 + w * 1.518e-7)));
}

/// Genotelle (1978), as printed in tests/data/viscosity_sucrose.csv: viscosity in Pa s.
inline double genotelle_pa_s(double mass_percent, double celsius) {
    const double x = mass_percent / (1900.0 - 18.0 * mass_percent);
    const double f = (30.0 - celsius) / (91.0 + celsius);
    return 1.0e-3 * std::pow(10.0, 22.46 * x - 0.114 + f * (1.1 + 43.1 * std::pow(x, 1.25)));
}

/// Rows of the viscosity tables that are known to be wrong in the source: 60 % at 15 C, about 11 % out of line.
inline bool out_of_line(const csv_row& row) {
    return row.number("mass_percent") == 60.0 && row.number("T_C") == 15.0;
}

/// Sugars for which the CRC table gives freezing points; maltose above 20 % apart.
inline data_set freezing_activities(component solute, std::string name, double aim, std::string group,
                                    double from_percent, double to_percent) {
    data_set set{std::move(name), crc, "aw", 5, {aim > 0.0 ? "rms" : "", aim}, std::move(group)};
    for (const char* file : {"water_activity_from_freezing_points.csv", "fructose_lactose_20C.csv"})
        for (const csv_row& row : read_csv(file).rows) {
            const double w = row.number("mass_percent");
            if (row.text("solute") != data_of(solute).name || !row.has("Tf_C") || w < from_percent ||
                w > to_percent)
                continue;
            set.add_activity(solution(solute, w), row.number("Tf_C"), row.number("aw_at_Tf"), freezing_rounding,
                             at_percent(row));
        }
    return set;
}

/// Water that 100 g of dry solids hold, against a published number known to a rounding.
inline void add_water(data_set& set, const mixture& dry, double aw, double celsius, double published,
                      double rounding, std::string where) {
    const estimate e = estimate_of(
        three_curves.map([&](curve side) { return water_held(dry, std::log(aw), kelvin(celsius), side); }),
        grade::fine);
    set.add(e.value - published, 100.0 * 100.0 / (100.0 + published), std::move(where), {e, published, rounding});
}

/// Sloan & Labuza: grams of water per 100 g of dry solids at four activities.
inline data_set sorption(std::string_view solids, std::string name, std::string group) {
    data_set set{std::move(name), "Sloan & Labuza (1975), read off curves to ±2 g", "g per 100 g dry", 1, {},
                 std::move(group)};
    for (const csv_row& row : read_csv("sorption_amorphous_sugars.csv").rows) {
        if (row.text("solids") != solids) continue;
        mixture dry = corn_syrup(100.0);
        if (solids == "sucrose") dry = solution(component::sucrose, 100.0);
        for (const char* column : {"0.60", "0.70", "0.80", "0.90"})
            add_water(set, dry, std::stod(column), 25.0, row.number(std::string("aw_") + column), 2.0,
                      std::string("aw ") + column);
    }
    return set;
}

inline data_sets validations() {
    data_sets all;
    all.push_back(freezing_activities(component::sucrose, "sucrose at its freezing points, 0.5–42 %", 2.0e-4,
                                      "sucrose", 0.0, 100.0));
    all.push_back(freezing_activities(component::glucose, "glucose at its freezing points, 0.5–30 %", 3.0e-4,
                                      "glucose", 0.0, 100.0));
    all.push_back(freezing_activities(component::maltose, "maltose at its freezing points, 0.5–20 %", 5.0e-4,
                                      "maltose", 0.0, 20.0));
    all.push_back(freezing_activities(component::maltose, "the same, 22 % and more (doubtful in the source)", 0.0,
                                      "", 20.5, 100.0));
    all.push_back(freezing_activities(component::lactose, "lactose at its freezing points, 1–8 %", 1.0e-4,
                                      "lactose", 0.0, 100.0));
    auto& isopiestic =
        new_set(all, "sucrose at 25 °C, 0.1–6 mol/kg", std::string("Robinson & Stokes (1961)") + recalled, "aw", 5,
                {"worst", 1.2e-3}, "sucrose");
    for (const csv_row& row : read_csv("sucrose_water_activity_25C.csv").rows)
        isopiestic.add_activity(solution(component::sucrose, row.number("mass_percent")), 25.0,
                                row.number("aw_1961"), 0.5e-5, at_percent(row));
    all.push_back(sorption("sucrose", "sucrose, amorphous, room temperature", "sucrose, read off curves"));
    all.push_back(sorption("corn syrup", "42 DE corn syrup, amorphous, room temperature", "corn syrup, sorption"));
    auto& honeys = new_set(all, "honey, average of 490, 25 °C",
                           std::string("White et al. (1962); aw by the line of Chirife et al. (2006)") + recalled,
                           "aw", 3, {}, "honey");
    honeys.add_activity(honey(), 25.0, 0.262 + 0.0179 * honey().water(), 0.0, "17.2 % water");
    auto& greek =
        new_set(all, "Greek honeys, driest and wettest of 33, 25 °C",
                "Lazaridou et al. (2004), ends of two ranges; laboratories differ by ±0.03", "aw", 3, {}, "honey");
    for (const auto& point : sirop_test::greek_honey_activities())
        greek.add_activity(honey(point.percent), 25.0, point.value, sirop_test::honey_laboratories_differ,
                           text("%g %% water", point.percent));
    for (const csv_row& row : read_csv("glass_sorption_lactose_maltodextrin.csv").rows) {
        if (row.text("quantity").rfind("water content", 0) != 0) continue;
        const bool is_lactose = row.text("solutes").rfind("lactose", 0) == 0;
        auto& one = is_lactose ? new_set(all, "lactose, amorphous, aw 0.37, 24 °C", "Roos (2002)",
                                         "g per 100 g dry", 1, {}, "lactose, sorption")
                               : new_set(all, "maltodextrin (taken as DE 10), a glass, aw 0.33, 24 °C",
                                         "Lievonen et al. (1998); DE not stated", "g per 100 g dry", 1, {},
                                         "maltodextrin, sorption");
        mixture dry = solution(component::lactose, 100.0);
        if (!is_lactose) dry.grams = starch_syrup_solids(10.0);
        add_water(one, dry, is_lactose ? 0.37 : 0.33, 24.0, row.number("value"), 0.05,
                  is_lactose ? "aw 0.37" : "aw 0.33");
    }
    auto& milk = new_set(all, "milk concentrate at the boil (taken as skim milk, 1 atm), 16–73 %",
                         "Hui, Encyclopedia of Food Science and Technology; rounded to 0.5–1 K", "K", 2, {},
                         "milk concentrate");
    for (const auto& point : sirop_test::milk_elevations()) {
        const estimate boils = boiling_celsius(sirop_test::skim_milk(point.percent), atmosphere);
        const double base = water_boils_celsius(atmosphere);
        const estimate e = between(boils.value - base, boils.low - base, boils.high - base);
        milk.add(e.value - point.value, point.percent, text("%g %%", point.percent), {e, point.value, 0.5});
    }

    auto& thin = new_set(all, "density of sucrose to 60 %, 20 °C", crc, "kg/m³", 2, {"worst", 0.3});
    auto& thick = new_set(all, "density of sucrose at 80 %, 20 °C", crc, "kg/m³", 2, {"worst", 0.6});
    auto& index = new_set(all, "refractive index of sucrose, 20 °C (printed to 1e-4)", crc, "nD", 6);
    auto& viscosity = new_set(all, "viscosity of sucrose, 20 °C", crc, "%", 1, {}, "viscosity, sucrose");
    for (const csv_row& row : read_csv("concentrative_properties_20C.csv").rows) {
        const double w = row.number("mass_percent");
        if (row.text("solute") != "sucrose") continue;
        const mixture m = solution(component::sucrose, w);
        const std::string where = at_percent(row);
        index.add(refractive_index(m, 20.0) - row.number("nD"), w, where);
        (w < 70.0 ? thin : thick)
            .add(1000.0 * (syrup_density(m, 20.0) - row.number("density_g_per_cm3")), w, where);
        if (row.has("viscosity_mPa_s") && w != 32.0)
            viscosity.add_viscosity(m, 20.0, 1.0e-3 * row.number("viscosity_mPa_s"));
    }
    for (const component sugar : {component::fructose, component::lactose}) {
        const std::string name(data_of(sugar).name);
        auto& set = new_set(all, "viscosity of " + name + ", 20 °C", crc, "%", 1, {}, "viscosity, " + name);
        for (const csv_row& row : read_csv("fructose_lactose_20C.csv").rows)
            if (row.text("solute") == name)
                set.add_viscosity(solution(sugar, row.number("mass_percent")), 20.0,
                                  1.0e-3 * row.number("viscosity_mPa_s"));
    }
    auto& air =
        new_set(all, "viscosity of sucrose in air of 30–75 % humidity, 21.5 °C (activity and viscosity as a pair)",
                "fit to droplets (reference not at hand), scatter ±0.5 to 1", "log10 Pa s", 2, {"worst", 0.5},
                "sucrose in humid air");
    for (const csv_row& row : read_csv("viscosity_sucrose_humidity.csv").rows) {
        const double printed = row.number("log10_Pa_s"), humidity = row.number("RH_percent");
        const estimate e = sirop_test::log10_viscosity_in_air(0.01 * humidity, 21.5);
        air.add(e.value - printed, 85.0, text("%g %%", humidity), {e, printed, 0.5});
    }
    auto& crystals = new_set(all, "crystals in molasses, relative viscosity",
                             "Rouillard & Koenig (year not at hand)", "%", 1, {}, "viscosity, crystals");
    for (const csv_row& row : read_csv("crystal_suspension_viscosity.csv").rows) {
        const double share = row.number("crystal_volume_fraction"), printed = row.number("relative_viscosity");
        const double log10 = sirop_test::crystals_ln(share) / std::log(10.0);
        crystals.add(
            100.0 * (std::pow(10.0, log10) / printed - 1.0), 85.0, text("%g of the volume", share),
            {between(log10, 0.5 * log10, 1.5 * log10), std::log10(printed), 0.0, judged::scale::log_viscosity});
    }
    auto& moisture = new_set(all, "refractive index of honey, 13–21 % water, 20 °C",
                             std::string("Wedmore (1955), the equation of the moisture tables") + recalled, "nD",
                             6, {"worst", 1.2e-3});
    for (double water = 13.0; water <= 21.0; water += 1.0)
        moisture.add(refractive_index(honey(water), 20.0) - sirop_test::wedmore_index(water), 100.0 - water,
                     text("%g %% water", water));
    auto& glass = new_set(all, "glass transition of dry sugars",
                          "Orford et al. (1990); Finegold et al. (1989); Truong et al. (2004)", "°C", 1, {},
                          "glass transition");
    const auto add_glass = [](data_set& set, const mixture& m, double printed, const std::string& where) {
        const estimate e = glass_transition(m);
        set.add(e.value - printed, 100.0 * m.syrup_solids(), where, {e, printed, 0.0});
    };
    for (const csv_row& row : read_csv("glass_transition.csv").rows) {
        const std::string substance = row.text("substance");
        const std::string name = substance.substr(0, substance.find(' '));
        const auto sugar = find_component(name);
        if (!sugar || *sugar == component::water || row.text("basis").rfind("published", 0) != 0) continue;
        add_glass(glass, solution(*sugar, 100.0), row.number("Tg_C"), name);
    }
    auto& moist =
        new_set(all, "glass transition of moist maltodextrin (taken as DE 10), lactose, honeys",
                "Lievonen et al. (1998); Roos (2002); Lazaridou et al. (2004)", "°C", 1, {}, "glass transition");
    for (const csv_row& row : read_csv("glass_transition_wet.csv").rows) {
        const std::string name = row.text("substance");
        mixture m = name == "lactose" ? solution(component::lactose, 100.0) : honey();
        if (name == "maltodextrin") m.grams = starch_syrup_solids(10.0);
        add_glass(moist, m.with_water(0.01 * row.number("grams_water_per_100_g_dry") * m.dissolved()),
                  row.number("Tg_C"), name);
    }
    auto& heat = new_set(all, "latent heat of water, 0.01–180 °C", "IAPWS-IF97, regions 1 and 2", "kJ/kg", 3);
    for (const csv_row& row : read_csv("water_saturation.csv").rows)
        heat.add(1.0e-3 * formula::latent_heat(kelvin(row.number("T_C"))) - row.number("latent_heat_kJ_per_kg"),
                 0.0, row.text("T_C") + " °C");
    return all;
}

inline data_sets regressions() {
    data_sets all;
    auto& salt = new_set(all, "salt at 25 °C, 0.1–6 mol/kg (the equation was fitted to such tables)",
                         std::string("Robinson & Stokes, Electrolyte Solutions") + recalled, "osmotic coefficient",
                         4, {"worst", 0.005}, "salt (regression)");
    for (const csv_row& row : read_csv("sodium_chloride_activity_25C.csv").rows) {
        const double m = row.number("m_mol_per_kg"), printed = row.number("phi_book");
        const double per_phi = -2.0e-3 * formula::water_molar_mass * m;
        mixture brine;
        brine[component::salt] = m * 58.443;
        brine[component::water] = 1000.0;
        const estimate e = water_activity(brine, 25.0);
        salt.add(std::log(e.value) / per_phi - printed, 100.0 * brine.syrup_solids(),
                 row.text("m_mol_per_kg") + " mol/kg",
                 {e, std::exp(per_phi * printed), 0.0, judged::scale::activity});
    }
    auto& brine =
        new_set(all, "salt beyond 6 mol/kg, 25 °C (our fit to it)",
                std::string("Tang, Tridico & Fung (1997)") + recalled, "aw", 4, {}, "salt, strong (regression)");
    for (double w = 27.0; w <= 45.0; w += 2.0)
        brine.add_activity(solution(component::salt, w), 25.0, tang_activity(w), 0.0, text("%g %%", w));
    all.push_back(freezing_activities(component::fructose, "fructose at its freezing points, 0.5–28 % (our fit)",
                                      2.0e-4, "fructose (regression)", 0.0, 100.0));
    auto& glycerol = new_set(all, "glycerol, 10–90 %, 25 and 100 °C (another model's values)",
                             "model of Zhang, Grace & Sun (2022)", "aw", 4, {}, "glycerol (another model)");
    for (const csv_row& row : read_csv("glycerol_activity.csv").rows)
        for (const auto& [column, t] : {std::pair{"aw_25C", 25.0}, std::pair{"aw_100C", 100.0}})
            glycerol.add_activity(solution(component::glycerol, row.number("mass_percent")), t, row.number(column),
                                  0.5e-4, at_percent(row) + text(", %g °C", t));
    auto& rise = new_set(all, "boiling-point elevation of sucrose, 2–97 %",
                         "values of the equation, Starzak & Peacock (1997)", "K", 4);
    for (const csv_row& row : read_csv("sucrose_boiling_point_models.csv").rows)
        if (const double w = row.number("mass_percent"); w <= 97.0)
            rise.add(boiling_celsius(solution(component::sucrose, w), atmosphere).value -
                         water_boils_celsius(atmosphere) - row.number("starzak_peacock_K"),
                     w, at_percent(row));

    auto& icumsa =
        new_set(all, "density of sucrose, 10–90 %, 20 °C", "ICUMSA SPS-4 (1994), check values", "kg/m³", 3);
    for (const auto& [w, printed] : sirop_test::icumsa_densities)
        icumsa.add(formula::sucrose_density(0.01 * w, 20.0) - printed, w, text("%g %%", w));
    auto& scale = new_set(all, "refractive index of sucrose, 0–85 %, 20 °C (our fit)", "ICUMSA scale (1974)", "nD",
                          7, {"worst", 1.0e-5});
    auto& back = new_set(all, "the same read backwards: Brix from the index", "ICUMSA scale (1974)", "% solids", 4,
                         {"worst", 0.01});
    auto& beyond = new_set(all, "refractive index of sucrose, 86–95 % (unofficial)",
                           "extension of the ICUMSA scale", "nD", 6);
    for (const csv_row& row : read_csv("refractive_index_20C.csv").rows) {
        const double brix = row.number("brix"), printed = row.number("nD20");
        const std::string where = row.text("brix") + " %";
        (brix < 85.5 ? scale : beyond).add(formula::sucrose_refractive_index(0.01 * brix) - printed, brix, where);
        if (brix > 0.5 && brix < 85.5) back.add(detail::brix_of_index(printed) - brix, brix, where);
    }
    auto& warm =
        new_set(all, "temperature correction of a refractometer, 12 and 15 °C (one constant chosen on it)",
                "OIV-MA-AS2-02, Table I", "% solids", 3, {"worst", 0.03});
    for (const auto& table = read_csv("brix_temperature_correction.csv"); const csv_row& row : table.rows)
        for (const std::string& column : table.columns)
            if (column[0] == 'b')
                warm.add(
                    temperature_correction(std::stod(column.substr(1)), row.number("T_C")) - row.number(column),
                    std::stod(column.substr(1)), column.substr(1) + " %, " + row.text("T_C") + " °C");

    auto& cold = new_set(all, "viscosity of sucrose, 20, 40 and 60 %, 10–80 °C (our fit)",
                         "International Critical Tables (1918 data)", "%", 1, {"rms", 5.0, 11.0},
                         "viscosity, sucrose (regression)");
    auto& ends =
        new_set(all, "the same, 0, 5 and 85–100 °C", cold.source, "%", 1, {}, "viscosity, sucrose (regression)");
    for (const csv_row& row : read_csv("viscosity_sucrose.csv").rows) {
        if (out_of_line(row)) continue;
        const double w = row.number("mass_percent"), t = row.number("T_C");
        (t >= 10.0 && t <= 80.0 ? cold : ends)
            .add_viscosity(solution(component::sucrose, w), t, 1.0e-3 * row.number("viscosity_mPa_s"));
    }
    auto& genotelle =
        new_set(all, "viscosity of sucrose, 65, 70 and 75 %, 10–80 °C (our fit)", "equation of Genotelle (1978)",
                "%", 1, {"rms", 5.0, 11.0}, "viscosity, sucrose (regression)");
    for (double w = 65.0; w <= 75.0; w += 5.0)
        for (double t = 10.0; t <= 80.0; t += 10.0)
            genotelle.add_viscosity(solution(component::sucrose, w), t, genotelle_pa_s(w, t));
    auto& glucose = new_set(all, "viscosity of glucose to 60 %, 20 °C (our fit)", crc, "%", 1, {"worst", 6.0},
                            "viscosity, glucose (regression)");
    for (const csv_row& row : read_csv("concentrative_properties_20C.csv").rows)
        if (row.text("solute") == "glucose")
            glucose.add_viscosity(solution(component::glucose, row.number("mass_percent")), 20.0,
                                  1.0e-3 * row.number("viscosity_mPa_s"));
    auto& hot =
        new_set(all, "viscosity of glucose, 50 and 60 % at 45 and 50 °C (our fit), and two thin ones at 35 °C",
                "Telis et al. (2007), second hand", "%", 1, {}, "viscosity, hot glucose (regression)");
    for (const csv_row& row : read_csv("viscosity_glucose_hot.csv").rows)
        hot.add_viscosity(solution(component::glucose, row.number("mass_percent")), row.number("T_C"),
                          1.0e-3 * row.number("viscosity_mPa_s"));
    auto& corn = new_set(all, "viscosity of a 77 % corn syrup, 25–45 °C (its mean fitted)",
                         "a published fit, 15603 t^-2.44; reference not at hand", "%", 1, {},
                         "viscosity, corn syrup (regression)");
    for (double t = 25.0; t <= 45.0; t += 5.0)
        corn.add_viscosity(corn_syrup(77.0), t, 15603.0 * std::pow(t, -2.44));
    const auto own_ratios = [&](component sugar, const char* file, const char* density_column,
                                double to_kg_per_m3) {
        const std::string name(data_of(sugar).name);
        auto& density =
            new_set(all, "density of " + name + ", 20 °C (our fit)", crc, "kg/m³", 2, {"worst", to_kg_per_m3});
        auto& index =
            new_set(all, "refractive index of " + name + ", 20 °C (our fit)", crc, "nD", 6, {"worst", 3.0e-4});
        for (const csv_row& row : read_csv(file).rows) {
            if (row.text("solute") != name) continue;
            const double w = row.number("mass_percent");
            const mixture m = solution(sugar, w);
            density.add(1000.0 * (syrup_density(m, 20.0) - row.number(density_column)), w, at_percent(row));
            index.add(refractive_index(m, 20.0) - row.number("nD"), w, at_percent(row));
        }
    };
    own_ratios(component::glucose, "concentrative_properties_20C.csv", "density_g_per_cm3", 0.6);
    own_ratios(component::fructose, "fructose_lactose_20C.csv", "density_g_cm3", 0.5);
    own_ratios(component::lactose, "fructose_lactose_20C.csv", "density_g_cm3", 0.7);

    auto& sucrose = new_set(all, "saturation of sucrose, 0–100 °C",
                            "values of the polynomial, Bubník & Kadlec (1995)", "% solids", 3);
    for (const csv_row& row : read_csv("solubility_sucrose.csv").rows)
        if (row.has("modern"))
            sucrose.add(100.0 * formula::sucrose_solubility(row.number("T_C")) - row.number("modern"), 0.0,
                        row.text("T_C") + " °C");
    for (const bool is_lactose : {true, false}) {
        auto& set = new_set(
            all,
            is_lactose ? "saturation of lactose, 0–89 °C (our fit)" : "saturation of glucose, 0–90 °C (our fit)",
            is_lactose ? "Hudson, reprinted by Lowe (1937)"
                       : "Jackson & Silsbee (1922), Young (1957) (recalled) and weak sources",
            "% solids", 2);
        for (const csv_row& row : read_csv("solubility_other_sugars.csv").rows) {
            if (row.text("sugar") != (is_lactose ? "lactose" : "glucose")) continue;
            const double t = row.number("T_C");
            set.add(100.0 * (is_lactose ? formula::lactose_solubility(t) : glucose_solubility(t)) -
                        row.number("mass_percent"),
                    0.0, row.text("T_C") + " °C");
        }
    }
    auto& pressure =
        new_set(all, "saturation pressure of water, 0.01–180 °C", "IAPWS-IF97, another program's values", "Pa", 3);
    for (const csv_row& row : read_csv("water_saturation.csv").rows)
        pressure.add(formula::saturation_pressure(kelvin(row.number("T_C"))) - row.number("psat_Pa"), 0.0,
                     row.text("T_C") + " °C");
    auto& air = new_set(all, "pressure of the standard atmosphere, −500–5000 m",
                        "ISO 2533:1975, constants recalled", "hPa", 4);
    for (const csv_row& row : read_csv("standard_atmosphere.csv").rows)
        air.add(0.01 * formula::standard_pressure(row.number("H_m")) - row.number("p_hPa"), 0.0,
                row.text("H_m") + " m");
    return all;
}

}  // namespace validation
