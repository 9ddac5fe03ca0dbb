// Boiling down, and mixing in off the heat: the contents of the pan, by the best estimate alone.
#pragma once

#include <cmath>
#include <vector>

#include "../solution/properties.hpp"
#include "../texture/stage_equivalent.hpp"
#include "batch.hpp"

namespace sirop::core {

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

    // It boils up if at this temperature it holds less water than it has.
    if (!(m.water() > 0.0) || result.celsius <= water_boils_celsius(pressure_pa)) return result;
    const double ln_aw = ln_activity_at_boil(result.celsius, pressure_pa);
    if (ln_aw < 0.0 && water_held(m, ln_aw, result.celsius + formula::zero_celsius) >= m.water()) return result;
    const double boils = detail::boiling_celsius(m, pressure_pa, curve::best);
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

/// The finished batch, by its best estimate alone: a pan boiled down at a real temperature in C, the additions
/// mixed in.  Without water where the pan does not boil there yet, or not at all.
inline mixed finished_at(const batch& b, const mixture& pan, double celsius) {
    const double ln_aw = ln_activity_at_boil(celsius, b.pressure_pa);
    const double held = ln_aw < 0.0 && celsius <= max_model_celsius
                            ? water_held(pan, ln_aw, celsius + formula::zero_celsius)
                            : not_a_number;
    if (!(held <= pan.water() * (1.0 + 1.0e-12))) return {};
    return mix(pan.with_water(std::fmin(held, pan.water())), celsius, b.off_heat, b.pressure_pa);
}

}  // namespace sirop::core
