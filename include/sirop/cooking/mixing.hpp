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
    const double last =
        solids > 0.0 ? best_boiling_celsius(pan.with_water(solids * (1.0 - last_syrup_solids) / last_syrup_solids),
                                            pressure_pa)
                     : not_a_number;
    return std::isfinite(last) ? last : max_model_celsius;
}

/// What is added off the heat, together.
template <class Scalar>
struct additions_of {
    mixture_of<Scalar> contents;
    Scalar heat_joule{};  ///< above that at 0 C

    void add(const mixture_of<Scalar>& m, double celsius) {
        contents += m;
        heat_joule += enthalpy_joule(m, Scalar(celsius));
    }
};
inline additions_of<double> additions(const std::vector<ingredient_line>& lines) {
    additions_of<double> all;
    for (const auto& line : lines) all.add(off_the_heat(line), line.celsius);
    return all;
}

template <class Scalar>
struct mixed_of {
    mixture_of<Scalar> contents;
    Scalar celsius{not_a_number};
    Scalar flashed_grams{};
};
using mixed = mixed_of<double>;

/// Hot mixture and additions, mixed without loss of heat: the common temperature; sugar that arrived dry dissolves
/// up to its saturation there; and what boils off if the mix is above its boiling point (heat balance; the heats
/// of solution and of mixing are left out).
template <class Scalar>
mixed_of<Scalar> mix(const mixture_of<Scalar>& hot, const Scalar& hot_celsius, const additions_of<Scalar>& added,
                     const Scalar& pressure_pa) {
    mixed_of<Scalar> result{hot, hot_celsius};
    if (is_nothing(added.contents.total())) return result;
    Scalar heat = enthalpy_joule(hot, hot_celsius) + added.heat_joule;
    result.contents += added.contents;
    mixture_of<Scalar>& m = result.contents;
    result.celsius = solve_monotone([&](Scalar t) -> Scalar { return enthalpy_joule(m, t) - heat; }, hot_celsius,
                                    Scalar(-40.0), Scalar(260.0));
    const Scalar undissolved = enthalpy_joule(m, result.celsius);
    for (const auto& c : components) {
        if (c.solubility == solubility_law::none) continue;
        const Scalar saturated = saturated_share(c.solubility, result.celsius);
        const Scalar room = m.water() * saturated / (1.0 - saturated) - m[c.id];
        Scalar& crystals = m.crystals(c.id);
        const Scalar goes = smaller(crystals, larger(room, Scalar(0.0)));
        m[c.id] += goes;
        crystals -= goes;
    }
    heat += enthalpy_joule(m, result.celsius) - undissolved;  // sugar in solution is counted as a liquid

    // It boils up if at this temperature it holds less water than it has.
    const Scalar water_boils = water_boils_celsius(pressure_pa);
    if (!(m.water() > 0.0) || result.celsius <= water_boils) return result;
    const Scalar ln_aw = ln_activity_at_boil(result.celsius, pressure_pa);
    if (ln_aw < 0.0 && water_held(m, ln_aw, Scalar(result.celsius + formula::zero_celsius)) >= m.water())
        return result;
    const Scalar boils = best_boiling_celsius(m, pressure_pa);
    if (!(result.celsius > boils)) return result;
    if (boils <= water_boils) {  // free water boils off at its own boiling point
        const Scalar latent = 1.0e-3 * formula::latent_heat(Scalar(boils + formula::zero_celsius));
        result.flashed_grams = smaller(m.water(), Scalar((heat - enthalpy_joule(m, boils)) / latent));
        m[component::water] -= result.flashed_grams;
        result.celsius = boils;
        return result;
    }
    // Above its boiling point: what is left boils at the temperature at which the heat is spent.
    const auto left_at = [&](const Scalar& t) -> Scalar {
        return smaller(m.water(),
                       water_held(m, ln_activity_at_boil(t, pressure_pa), Scalar(t + formula::zero_celsius)));
    };
    const auto excess = [&](Scalar t) -> Scalar {
        const Scalar left = left_at(t);
        const Scalar steam = 1.0e-3 * (formula::specific_enthalpy(t, formula::heat_water) +
                                       formula::latent_heat(Scalar(t + formula::zero_celsius)));
        return enthalpy_joule(m.with_water(left), t) + (m.water() - left) * steam - heat;
    };
    result.celsius = solve_monotone(excess, boils, boils, result.celsius);
    const Scalar left = left_at(result.celsius);
    result.flashed_grams = m.water() - left;
    m[component::water] = left;
    return result;
}
inline mixed mix(const mixture& hot, double hot_celsius, const std::vector<ingredient_line>& lines,
                 double pressure_pa) {
    return mix(hot, hot_celsius, additions(lines), pressure_pa);
}

/// The finished batch, by its best estimate alone: a pan boiled down at a real temperature in C, the additions
/// mixed in.  Without water where the pan does not boil there yet, or not at all.
template <class Scalar>
mixed_of<Scalar> finished_at(const mixture_of<Scalar>& pan, const Scalar& celsius,
                             const additions_of<Scalar>& added, const Scalar& pressure_pa) {
    const Scalar ln_aw = ln_activity_at_boil(celsius, pressure_pa);
    if (!(ln_aw < 0.0 && celsius <= max_model_celsius)) return {};
    const Scalar held = water_held(pan, ln_aw, Scalar(celsius + formula::zero_celsius));
    if (!(held <= pan.water() * (1.0 + 1.0e-12))) return {};
    return mix(pan.with_water(smaller(held, pan.water())), celsius, added, pressure_pa);
}
inline mixed finished_at(const batch& b, const mixture& pan, double celsius) {
    return finished_at(pan, celsius, additions(b.off_heat), b.pressure_pa);
}

}  // namespace sirop::core
