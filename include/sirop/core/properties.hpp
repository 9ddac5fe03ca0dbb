// Properties of a mixture: glass transition, volume, refraction, viscosity of the syrup, heat, saturation.
#pragma once

#include "../formula/density.hpp"
#include "../formula/glass.hpp"
#include "../formula/heat.hpp"
#include "../formula/refraction.hpp"
#include "../formula/solubility.hpp"
#include "mixture.hpp"

namespace sirop::core {

/// Glass transition of the syrup phase, C.  Gordon-Taylor for each sugar with water, and for the mixture
/// Tg = sum (w/k) Tg / sum (w/k), exact for each binary.  Salt, minerals and solids do not count.
/// Uncertain by 5 K (definitions differ between sources).  NaN without a syrup phase.
inline double glass_celsius(const mixture& m) {
    double weight = 0.0, sum = 0.0;
    for (const auto& c : components) {
        if (c.where != phase::solvent && c.where != phase::dissolved) continue;
        if (std::isnan(c.glass_celsius)) continue;
        const double share = m[c.id] / c.glass_constant;
        weight += share;
        sum += share * c.glass_celsius;
    }
    return sum / weight;
}
inline constexpr double glass_error_kelvin = 5.0;

/// Volume, cm3, of the syrup phase at a temperature in C: that of a sucrose syrup of equal solids, each solute's
/// share of the solids' volume scaled by its own ratio (additive volumes).  Above 100 C the slope at 100 C goes
/// on.
inline double syrup_volume(const mixture& m, double celsius) {
    const double t = std::fmin(std::fmax(celsius, 0.0), 100.0);
    double ratio = 0.0, solids = 0.0;
    for (const auto& c : components)
        if (c.where == phase::dissolved) {
            solids += m[c.id];
            ratio += m[c.id] * c.volume_ratio;
        }
    const double mass = solids + m.water();
    const auto volume_at = [&](double tc) {
        const double water = m.water() / formula::water_density(tc);
        if (!(solids > 0.0)) return 1000.0 * water;
        const double sucrose_syrup = mass / formula::sucrose_density(solids / mass, tc);
        return 1000.0 * (water + (sucrose_syrup - water) * ratio / solids);
    };
    if (celsius == t) return volume_at(t);
    const double slope = t > 50.0 ? volume_at(100.0) - volume_at(99.0) : volume_at(1.0) - volume_at(0.0);
    return volume_at(t) + slope * (celsius - t);
}

/// Density, g/cm3, of a linear law of Choi & Okos (kg/m3, C).
constexpr double linear_density(double at_zero, double slope, double celsius) {
    return 1.0e-3 * (at_zero + slope * celsius);
}

/// Volumes, cm3, of what is not syrup, by the densities of Choi & Okos (as in formula/heat.hpp); sugar crystals
/// 1.587 g/cm3 (common practice, no source).
inline double fat_volume(const mixture& m, double celsius) {
    return m.fat() / linear_density(925.59, -0.41757, celsius);
}
inline double protein_volume(const mixture& m, double celsius) {
    return m[component::protein] / linear_density(1329.9, -0.5184, celsius);
}
inline double starch_volume(const mixture& m, double celsius) {
    return m[component::starch] / linear_density(1599.1, -0.31046, celsius);
}
inline double particle_volume(const mixture& m, double celsius) {
    return (m[component::fibre] + m[component::cocoa_solids]) / linear_density(1311.5, -0.36589, celsius) +
           m.crystals() / 1.587 + m.ice / linear_density(916.89, -0.13071, celsius);
}

/// Volume, cm3, of everything, by additive volumes.
inline double volume(const mixture& m, double celsius) {
    return syrup_volume(m, celsius) + fat_volume(m, celsius) + protein_volume(m, celsius) +
           starch_volume(m, celsius) + particle_volume(m, celsius);
}

/// What a refractometer reads on the syrup phase at 20 C, % sucrose: Lorentz-Lorenz refraction of the solids taken
/// as that of sucrose at equal solids, in the mixture's own volume.  NaN where the reading would pass
/// 95 %, the end of the scale; a syrup of much salt comes there at half the solids.
inline double brix_of_syrup(const mixture& m) {
    const double w = m.syrup_solids();
    if (!(w <= 0.95)) return not_a_number;
    const double mass = m.dissolved() + m.water();
    if (!(mass > 0.0)) return not_a_number;
    const auto refraction_at = [](double s) {
        return formula::lorentz_lorenz(formula::sucrose_refractive_index(s));
    };
    // Refraction per volume of this syrup, from the specific refraction of a sucrose syrup of equal solids.
    const double specific = refraction_at(w) * 1000.0 / formula::sucrose_density(w, 20.0);
    const double read = specific * mass / syrup_volume(m, 20.0);
    const double s = solve_monotone([&](double x) { return refraction_at(x) - read; }, w, 0.0, 0.97);
    return 100.0 * s;
}

/// Mass fraction of monosaccharides among the dissolved solids (polyols and acid count with them).
inline double monosaccharide_share(const mixture& m) {
    const double solids = m.dissolved();
    if (!(solids > 0.0)) return 0.0;
    return (m[component::glucose] + m[component::fructose] + m[component::galactose] + m[component::acid] +
            m[component::sorbitol] + m[component::glycerol]) /
           solids;
}

/// log10 of the viscosity of the syrup phase, Pa s, at a temperature in C, its glass transition shifted by an
/// error.
inline double syrup_log10_viscosity(const mixture& m, double celsius, double glass_shift_kelvin = 0.0) {
    return formula::syrup_log10_viscosity(celsius + formula::zero_celsius,
                                          glass_celsius(m) + glass_shift_kelvin + formula::zero_celsius,
                                          m.dissolved() > 0.0 ? m.syrup_solids() : 0.0, monosaccharide_share(m));
}

/// Enthalpy of the mixture above that of itself at 0 C, J (Choi & Okos, dissolved sugar as a liquid; published
/// equations for syrups spread by 0.4 kJ/(kg K)).  Heats of solution and of melting are left out.
inline double enthalpy_joule(const mixture& m, double celsius) {
    double total = 0.0;
    const auto add = [&](double grams, const formula::heat_capacity_law& law) {
        total += 1.0e-3 * grams * formula::specific_enthalpy(celsius, law);
    };
    for (const auto& c : components) switch (c.heat) {
            case heat_class::water:
                add(m[c.id], formula::heat_water);
                break;
            case heat_class::carbohydrate:
                add(m[c.id],
                    c.where == phase::dissolved ? formula::heat_dissolved_sugar : formula::heat_carbohydrate);
                break;
            case heat_class::protein:
                add(m[c.id], formula::heat_protein);
                break;
            case heat_class::fat:
                add(m[c.id], formula::heat_fat);
                break;
            case heat_class::fibre:
                add(m[c.id], formula::heat_fibre);
                break;
            case heat_class::ash:
                add(m[c.id], formula::heat_ash);
                break;
        }
    add(m.crystals(), formula::heat_carbohydrate);
    return total;
}

/// Supersaturation of sucrose or lactose: its grams per gram of water over those of its own saturated solution.
/// Simple rule: the other sugars are left out of account.  Sucrose 0..100 C, lactose 0..89 C; NaN outside.
inline double sucrose_supersaturation(const mixture& m, double celsius) {
    if (!(celsius >= 0.0 && celsius <= 100.0)) return not_a_number;
    const double s = formula::sucrose_solubility(celsius);
    return m[component::sucrose] / m.water() / (s / (1.0 - s));
}
inline double lactose_supersaturation(const mixture& m, double celsius) {
    if (!(celsius >= 0.0 && celsius <= 89.0)) return not_a_number;
    const double s = formula::lactose_solubility(celsius);
    return m[component::lactose] / m.water() / (s / (1.0 - s));
}

}  // namespace sirop::core
