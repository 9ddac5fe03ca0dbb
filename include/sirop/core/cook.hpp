// Boil down, add off the heat, cool: from a batch to the prediction.
#pragma once

#include <cmath>
#include <string>

#include "batch.hpp"
#include "consistency.hpp"
#include "stages.hpp"

namespace sirop::core {

struct cooked_state {
    double celsius = not_a_number;              ///< real temperature at which the cook ends
    double thermometer_celsius = not_a_number;  ///< what the cook's thermometer shows then
    double pressure_pa = not_a_number;
    double water_boils_celsius = not_a_number;
    double water_activity = not_a_number;  ///< fixed by temperature and pressure
    double starts_to_boil_celsius = not_a_number;
    double highest_celsius = not_a_number;  ///< the end of the model for this pan
    estimate water_percent, solids_percent, grams, water_boiled_off_grams;
    mixture contents;
};

struct finished_state {
    estimate grams, water_percent, fat_percent, water_flashed_grams, water_activity_at_serving,
        syrup_solids_percent, brix_of_syrup_phase, glass_transition_celsius, freezing_celsius, millilitres;
    double mixed_celsius = not_a_number;  ///< where the additions bring the batch
    double sucrose_supersaturation = not_a_number, lactose_supersaturation = not_a_number;  ///< at serving
    double undissolved_sugar_grams = 0.0;
    mixture contents;
    mixture at_serving;  ///< with the ice that has formed
};

struct stage_answer {
    std::string table;
    std::string by_temperature;  ///< the table, read at this pressure
    std::string by_consistency;  ///< the plain syrup that is as stiff as what is in the pan
    double sea_level_celsius = not_a_number;
    double plain_syrup_celsius = not_a_number;  ///< where plain syrup at sea level has this consistency
    std::string finished_by_consistency;        ///< the same after the additions
};

struct set_answer {
    double celsius = not_a_number;
    estimate log10_viscosity;  ///< Pa s
    std::string word, word_if_thinner, word_if_thicker;
};

struct prediction {
    std::string title;
    mixture pan;
    double pan_grams = 0.0, off_heat_grams = 0.0;
    double thermometer_within_kelvin = 0.0;
    cooked_state cooked;
    finished_state finished;
    stage_answer stage;
    set_answer set;
    grade status = grade::fine;  ///< the worst of water, activity and viscosity
    std::vector<std::string> cautions, notes;
};

/// The hottest that a pan can be answered for, C: 99.5 % solids of the syrup phase, or max_model_celsius.
inline double highest_answer_celsius(const mixture& pan, double pressure_pa) {
    const double solids = pan.dissolved();
    const double last = solids > 0.0 ? detail::boiling_celsius(
                                           pan.with_water(solids * (1.0 - last_syrup_solids) / last_syrup_solids),
                                           pressure_pa, curve::best)
                                     : not_a_number;
    return std::isfinite(last) ? last : max_model_celsius;
}

struct mixed {
    mixture contents;
    double celsius = not_a_number;
    double flashed_grams = 0.0;
};

/// Hot mixture and additions, mixed without loss of heat: the common temperature; sugar that arrived dry dissolves
/// up to its saturation there; and what boils off if the mix is above its boiling point (heat balance; the heats
/// of solution and of mixing are left out).
inline mixed mix(const mixture& hot, double hot_celsius, const std::vector<ingredient_line>& additions,
                 double pressure_pa) {
    mixed result{hot, hot_celsius, 0.0};
    double added = 0.0;
    double heat = enthalpy_joule(hot, hot_celsius);
    for (const auto& line : additions) {
        const mixture m = off_the_heat(line);
        result.contents += m;
        heat += enthalpy_joule(m, line.celsius);
        added += line.grams;
    }
    if (!(added > 0.0)) return result;
    mixture& m = result.contents;
    const auto settle = [&](double target) {
        return solve_monotone([&](double t) { return enthalpy_joule(m, t) - target; }, hot_celsius, -40.0, 260.0);
    };
    result.celsius = settle(heat);
    const double undissolved = enthalpy_joule(m, result.celsius);

    // Dissolve up to saturation; beyond the solubility laws' ranges, as at their ends.
    const auto dissolve = [&](component sugar, double& crystals, double saturation) {
        const double room = m.water() * saturation / (1.0 - saturation) - m[sugar];
        const double goes = std::fmin(crystals, std::fmax(room, 0.0));
        m[sugar] += goes;
        crystals -= goes;
    };
    dissolve(component::sucrose, m.sucrose_crystals,
             formula::sucrose_solubility(std::fmin(std::fmax(result.celsius, 0.0), 100.0)));
    dissolve(component::lactose, m.lactose_crystals,
             formula::lactose_solubility(std::fmin(std::fmax(result.celsius, 0.0), 89.0)));

    heat += enthalpy_joule(m, result.celsius) - undissolved;  // sugar in solution is counted as a liquid

    const double boils = m.water() > 0.0 ? detail::boiling_celsius(m, pressure_pa, curve::best) : not_a_number;
    if (!(result.celsius > boils)) return result;
    if (boils <= water_boils_celsius(pressure_pa)) {  // free water boils off at its own boiling point
        const double latent = 1.0e-3 * formula::latent_heat(boils + formula::zero_celsius);
        result.flashed_grams = std::fmin(m.water(), (heat - enthalpy_joule(m, boils)) / latent);
        m[component::water] -= result.flashed_grams;
        result.celsius = boils;
        return result;
    }
    // Above its boiling point: what is left boils at the temperature at which the heat is spent.
    const auto left_at = [&](double t) {
        return std::fmin(m.water(), water_held(m, ln_activity_at_boil(t, pressure_pa), t + formula::zero_celsius));
    };
    const double t = solve_monotone(
        [&](double c) {
            const double gone = m.water() - left_at(c);
            const double steam = 1.0e-3 * (formula::specific_enthalpy(c, formula::heat_water) +
                                           formula::latent_heat(c + formula::zero_celsius));
            return enthalpy_joule(m.with_water(m.water() - gone), c) + gone * steam - heat;
        },
        boils, boils, result.celsius);
    const double left = left_at(t);
    result.flashed_grams = m.water() - left;
    m[component::water] = left;
    result.celsius = t;
    return result;
}

/// Mass percent of a part.
inline double percent(double part, double whole) {
    return 100.0 * part / whole;
}

namespace detail {

/// The stage whose plain syrup has a viscosity in the cold-water test, and where that syrup boils at sea level.
inline std::string stage_of_consistency(const mixture& contents, const stage_table& table, double& plain_celsius) {
    const auto drop = log10_viscosity(at_temperature(contents, cold_water_celsius), cold_water_celsius);
    plain_celsius = not_a_number;
    if (!drop.computed()) return {};
    const double solids = plain_solids_of_consistency(drop.value);
    if (std::isfinite(solids) && solids > 0.0) {
        plain_celsius = boiling_celsius(plain_syrup(solids), formula::standard_atmosphere).value;
        return stage_name(table, plain_celsius);
    }
    if (drop.value < 0.0) return "below " + std::string(table.rows.front().name);
    // Stiffer than the driest plain syrup of the model: beyond the last stage that the model reaches.
    const double last = boiling_celsius(plain_syrup(last_syrup_solids), formula::standard_atmosphere).value;
    const stage_row* reached = &table.rows.front();
    for (const auto& row : table.rows)
        if (row.low_celsius <= last) reached = &row;
    return "above " + std::string(reached->name);
}

}  // namespace detail

/// The main job.  Refused: a fault in the numbers; a target at which the pan would hold more water than it has (it
/// does not boil yet), or drier than the model goes.
inline outcome<prediction> predict(const batch& b, const stage_table& table) {
    if (auto fault = find_fault(b)) return *fault;
    prediction p;
    p.title = b.title;
    p.pan = in_the_pan(b.pan);
    p.pan_grams = p.pan.total();
    for (const auto& line : b.off_heat) p.off_heat_grams += line.grams;
    p.notes = b.notes;
    p.thermometer_within_kelvin = b.thermometer_within_kelvin;

    auto& c = p.cooked;
    c.pressure_pa = b.pressure_pa;
    c.water_boils_celsius = water_boils_celsius(b.pressure_pa);
    c.thermometer_celsius = b.thermometer_celsius;
    c.celsius = b.thermometer_celsius - b.thermometer_error_kelvin;
    const std::string target =
        both_scales(c.thermometer_celsius) +
        (b.thermometer_error_kelvin != 0.0 ? ", really " + both_scales(c.celsius) + "," : "");

    if (!(p.pan.water() > 0.0))
        return refusal{"pan",
                       "holds no water, so it cannot be boiled down; add water or a syrup (dry-melted sugar is "
                       "outside the model)"};
    if (!(p.pan.dissolved() > 0.0))
        return refusal{"pan",
                       "holds nothing dissolved, so its boiling point is that of water; add sugar or a syrup"};
    c.highest_celsius = highest_answer_celsius(p.pan, b.pressure_pa);
    c.starts_to_boil_celsius = detail::boiling_celsius(p.pan, b.pressure_pa, curve::best);
    // On the cook's thermometer, which is what the cook can act on.
    // Rounded to the safe side in each scale, so that the temperature named is accepted.
    const auto shown = [&](double real, double (*round)(double)) {
        const double reading = real + b.thermometer_error_kelvin;
        return fixed(round(reading * 10.0) / 10.0, 1) + " °C (" +
               fixed(round(celsius_to_fahrenheit(reading) * 10.0) / 10.0, 1) + " °F)";
    };
    if (!std::isfinite(c.starts_to_boil_celsius) || c.starts_to_boil_celsius > c.highest_celsius)
        return refusal{"pan", "is drier than the model goes (99.5 % solids of the syrup phase); add water"};
    if (!(c.celsius <= c.highest_celsius))
        return refusal{b.target_place, target +
                                           " is beyond the model (99.5 % solids of the syrup phase); the highest "
                                           "temperature that it can answer here is " +
                                           shown(c.highest_celsius, [](double x) { return std::floor(x); })};
    if (c.celsius < c.starts_to_boil_celsius)
        return refusal{b.target_place, target +
                                           " is not reached by boiling: the pan would hold more water than it "
                                           "has; it starts to boil at " +
                                           shown(c.starts_to_boil_celsius, [](double x) { return std::ceil(x); })};

    const double ln_aw = ln_activity_at_boil(c.celsius, b.pressure_pa);
    c.water_activity = std::exp(ln_aw);
    auto held = water_at_boil(p.pan, c.celsius, b.pressure_pa);
    if (b.thermometer_within_kelvin > 0.0) {
        // the model's uncertainty and the thermometer's are independent; at or below boiling water all the water
        // is left
        const double hot = water_at_boil(p.pan, c.celsius + b.thermometer_within_kelvin, b.pressure_pa).value;
        const double cool = water_at_boil(p.pan, c.celsius - b.thermometer_within_kelvin, b.pressure_pa).value;
        held.low = held.value - std::hypot(held.value - held.low, held.value - (std::isfinite(hot) ? hot : 0.0));
        held.high = held.value +
                    std::hypot(held.high - held.value,
                               std::fmin(std::isfinite(cool) ? cool : p.pan.water(), p.pan.water()) - held.value);
        held.low = std::fmax(held.low, 0.0);
    }
    const double water[3] = {std::fmin(held.value, p.pan.water()), std::fmin(held.low, p.pan.water()),
                             std::fmin(held.high, p.pan.water())};
    mixture cooked[3];
    for (int i = 0; i < 3; ++i) cooked[i] = p.pan.with_water(water[i]);
    c.contents = cooked[0];
    const auto of_cooked = [&](auto&& f, grade status) {
        return between(f(cooked[0]), f(cooked[1]), f(cooked[2]), status);
    };
    c.grams = of_cooked([](const mixture& m) { return m.total(); }, held.status);
    c.water_percent = of_cooked([](const mixture& m) { return percent(m.water(), m.total()); }, held.status);
    c.solids_percent =
        of_cooked([](const mixture& m) { return 100.0 - percent(m.water(), m.total()); }, held.status);
    c.water_boiled_off_grams = of_cooked([&](const mixture& m) { return p.pan.water() - m.water(); }, held.status);

    auto& f = p.finished;
    mixed done[3];
    mixture cold[3];
    for (int i = 0; i < 3; ++i) {
        done[i] = mix(cooked[i], c.celsius, b.off_heat, b.pressure_pa);
        cold[i] = at_temperature(done[i].contents, b.serve_celsius);
    }
    f.contents = done[0].contents;
    f.at_serving = cold[0];
    f.mixed_celsius = done[0].celsius;
    f.undissolved_sugar_grams = f.contents.crystals();
    const auto of_done = [&](auto&& g, grade status = grade::fine) {
        return between(g(done[0].contents), g(done[1].contents), g(done[2].contents), worst(status, held.status));
    };
    f.grams = of_done([](const mixture& m) { return m.total(); });
    f.water_percent = of_done([](const mixture& m) { return percent(m.water(), m.total()); });
    f.fat_percent = of_done([](const mixture& m) { return percent(m.fat(), m.total()); });
    f.water_flashed_grams =
        between(done[0].flashed_grams, done[1].flashed_grams, done[2].flashed_grams, held.status);
    f.syrup_solids_percent = of_done([](const mixture& m) { return 100.0 * m.syrup_solids(); });
    f.brix_of_syrup_phase =  // a side beyond the scale reaches to its end
        detail::to_the_end(brix_of_syrup(done[0].contents), brix_of_syrup(done[1].contents),
                           brix_of_syrup(done[2].contents), 100.0 * last_refraction_solids, held.status);
    f.millilitres = of_done([&](const mixture& m) { return volume(m, b.serve_celsius); });
    const auto glass = of_done([](const mixture& m) { return glass_celsius(m); });
    f.glass_transition_celsius = {glass.value, glass.low - glass_error_kelvin, glass.high + glass_error_kelvin,
                                  glass.status};
    const auto activity = [&](const mixture& m) {
        // with ice in it, the batch has the activity of ice
        if (m.ice > 0.0)
            return exactly(std::exp(formula::ice_ln_activity(b.serve_celsius + formula::zero_celsius)));
        return water_activity(m, b.serve_celsius);
    };
    f.water_activity_at_serving = activity(cold[0]);
    for (int i = 1; i < 3; ++i) {
        const auto side = activity(cold[i]);
        auto& aw = f.water_activity_at_serving;
        if (!side.computed() || !aw.computed()) continue;
        aw.low = std::fmin(aw.low, side.value);
        aw.high = std::fmax(aw.high, side.value);
        aw.status = worst(aw.status, held.status);
    }
    f.freezing_celsius = freezing_celsius(f.contents);
    for (int i = 1; i < 3 && f.freezing_celsius.computed(); ++i) {
        const auto side = freezing_celsius(done[i].contents);
        f.freezing_celsius.low =
            std::fmin(f.freezing_celsius.low, side.computed() ? side.low : min_freezing_celsius);
        if (side.computed()) f.freezing_celsius.high = std::fmax(f.freezing_celsius.high, side.high);
    }
    f.sucrose_supersaturation = sucrose_supersaturation(f.contents, std::fmax(b.serve_celsius, 0.0));
    f.lactose_supersaturation = lactose_supersaturation(f.contents, std::fmax(b.serve_celsius, 0.0));

    auto& s = p.stage;
    s.table = std::string(table.name);
    s.sea_level_celsius = carried_celsius(c.celsius, b.pressure_pa, formula::standard_atmosphere);
    // Past 99.5 % solids of plain syrup the chart tells colours, not water: read it as it stands.
    s.by_temperature = stage_name(table, std::isfinite(s.sea_level_celsius) ? s.sea_level_celsius : c.celsius);
    s.by_consistency = detail::stage_of_consistency(c.contents, table, s.plain_syrup_celsius);
    double ignored = 0.0;
    s.finished_by_consistency = detail::stage_of_consistency(f.contents, table, ignored);

    auto& set = p.set;
    set.celsius = b.serve_celsius;
    set.log10_viscosity = log10_viscosity(cold[0], b.serve_celsius);
    if (set.log10_viscosity.computed()) {
        auto& v = set.log10_viscosity;
        double down = v.value - v.low, up = v.high - v.value;
        for (int i = 1; i < 3; ++i) {
            const double other = log10_viscosity(cold[i], b.serve_celsius).value - v.value;
            if (other > 0.0) up = std::hypot(up, other);
            if (other < 0.0) down = std::hypot(down, other);
        }
        v.low = v.value - down;
        v.high = v.value + up;
        v.status = worst(v.status, held.status);
        set.word = std::string(word_for(std::pow(10.0, v.value)).word);
        set.word_if_thinner = std::string(word_for(std::pow(10.0, v.low)).word);
        set.word_if_thicker = std::string(word_for(std::pow(10.0, v.high)).word);
    }
    for (const auto& e : {held, f.water_activity_at_serving, set.log10_viscosity})
        p.status = worst(p.status, e.status);
    return p;
}

}  // namespace sirop::core
