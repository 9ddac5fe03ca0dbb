// Properties of a mixture: glass transition, volume, refraction, viscosity of the syrup, heat, ice.
#pragma once

#include "../formula/density.hpp"
#include "../formula/glass.hpp"
#include "../formula/heat.hpp"
#include "../formula/refraction.hpp"
#include "mixture.hpp"
#include "saturation.hpp"

namespace sirop::core {

/// Glass transition of the syrup phase, C.  Gordon-Taylor for each sugar with water, and for the mixture
/// Tg = sum (w/k) Tg / sum (w/k), exact for each binary.  Salt, minerals and solids do not count.  NaN without a
/// syrup phase.
template <class Scalar>
Scalar glass_celsius(const mixture_of<Scalar>& m) {
    Scalar weight{}, sum{};
    for (std::size_t i = 0; i < component_count; ++i) {
        const auto& c = columns_of<constant_of<Scalar>>[i];
        const Scalar share = m.grams[i] / c.glass_constant;  // 0 where it does not count
        weight += share;
        sum += share * c.glass_celsius;
    }
    return sum / weight;
}

/// The same with its interval: the errors of the rows, by mass of the solids that count; 5 K in water alone.
inline estimate glass_transition(const mixture& m) {
    double grams = 0.0, low = 0.0, high = 0.0;
    for (const auto& c : components) {
        if (c.where != phase::dissolved || c.glass_constant == counts_not) continue;
        grams += m[c.id];
        low += m[c.id] * c.glass_error.low_kelvin;
        high += m[c.id] * c.glass_error.high_kelvin;
    }
    const double value = glass_celsius(m);
    if (!(grams > 0.0)) return between(value, value - glass_error_kelvin, value + glass_error_kelvin);
    return between(value, value - low / grams, value + high / grams);
}

/// Volume, cm3, of the syrup phase at a temperature in C: that of a sucrose syrup of equal solids, each solute's
/// share of the solids' volume scaled by its own ratio (additive volumes).  Above 100 C the slope at 100 C goes
/// on.
template <class Scalar>
Scalar syrup_volume(const mixture_of<Scalar>& m, double celsius) {
    const double t = std::fmin(std::fmax(celsius, 0.0), 100.0);
    const Scalar w = m.syrup_solids();
    Scalar ratio{}, solids{};
    for (const auto& c : components)
        if (c.where == phase::dissolved) {
            solids += m[c.id];
            ratio += m[c.id] * (c.volume_ratio + c.volume_slope * w);
        }
    const Scalar mass = solids + m.water();
    const auto volume_at = [&](double tc) -> Scalar {
        const Scalar water = m.water() / formula::water_density(tc);
        if (!(solids > 0.0)) return 1000.0 * water;
        const Scalar sucrose_syrup = mass / formula::sucrose_density(Scalar(solids / mass), Scalar(tc));
        return 1000.0 * (water + (sucrose_syrup - water) * ratio / solids);
    };
    if (celsius == t) return volume_at(t);
    const Scalar slope =
        t > 50.0 ? Scalar(volume_at(100.0) - volume_at(99.0)) : Scalar(volume_at(1.0) - volume_at(0.0));
    return volume_at(t) + slope * (celsius - t);
}

/// Volumes, cm3, of what is not syrup, by the densities of Choi & Okos (as in formula/heat.hpp); sugar crystals
/// 1.587 g/cm3 (common practice, no source).
inline constexpr density_line ice_density{916.89, -0.13071};
template <class Scalar>
Scalar volume_of(const mixture_of<Scalar>& m, phase where, double celsius) {
    Scalar total{};
    for (const auto& c : components)
        if (c.where == where) total += m[c.id] / c.density.at(celsius);
    return total;
}
template <class Scalar>
Scalar crystal_volume(const mixture_of<Scalar>& m) {
    return m.crystals() / 1.587;
}
template <class Scalar>
Scalar ice_volume(const mixture_of<Scalar>& m, double celsius) {
    return m.ice / ice_density.at(celsius);
}

/// Volume, cm3, of everything, by additive volumes.
template <class Scalar>
Scalar volume(const mixture_of<Scalar>& m, double celsius) {
    return syrup_volume(m, celsius) + volume_of(m, phase::fat, celsius) + volume_of(m, phase::suspended, celsius) +
           volume_of(m, phase::spirit, celsius) + crystal_volume(m) + ice_volume(m, celsius);
}

/// Density, g/cm3, at a temperature in C: of the syrup phase (NaN without one), and of everything by additive
/// volumes.  Error of the syrup: sucrose 0.3 kg/m3 to 60 % and 0.6 at 80 %, glucose 0.6 to 60 %; other solutes by
/// their volume ratio.  -30..250 C, NaN outside; fitted to 0..100 C.
inline double syrup_density(const mixture& m, double celsius) {
    if (!(celsius >= min_model_celsius && celsius <= max_model_celsius)) return not_a_number;
    return (m.dissolved() + m.water()) / syrup_volume(m, celsius);
}
inline double density(const mixture& m, double celsius) {
    if (!(celsius >= min_model_celsius && celsius <= max_model_celsius)) return not_a_number;
    return m.total() / volume(m, celsius);
}

/// Baume degrees, 145 - 145/SG(20/20), of the syrup phase at 20 C (cold), and what the same hydrometer shows in
/// the syrup at another temperature (hot): 145 - 145 rho_water(20)/rho_syrup(T).  The expansion of the glass, 0.03
/// degrees per 10 K at 30 degrees, is left out.  Below zero where the hot syrup is lighter than cold water; NaN
/// where syrup_density is.
inline double baume_hot(const mixture& m, double celsius) {
    return 145.0 - 145.0e-3 * formula::water_density(20.0) / syrup_density(m, celsius);
}
inline double baume_cold(const mixture& m) {
    return baume_hot(m, 20.0);
}

/// Dissolved solids of the syrup phase, mass %: the other Brix, that of a dried sample.  An instrument reads it
/// only on plain sucrose (refractometer_reading).  NaN without a syrup phase.
inline double dry_substance(const mixture& m) {
    return 100.0 * m.syrup_solids();
}

inline constexpr double last_refraction_solids = 0.95;  ///< end of the scale; official to 0.85
inline constexpr double min_refraction_celsius = -30.0, max_refraction_celsius = 100.0;

/// Refractive index nD of the syrup phase at a temperature in C: Lorentz-Lorenz refraction of the solids taken as
/// that of sucrose at equal solids, in the mixture's own volume (salts and glycerol by their own).  Fat and
/// suspended solids do not count.  -30..100 C, to 95 % solids; NaN outside and without a syrup phase.
template <class Scalar>
Scalar refractive_index(const mixture_of<Scalar>& m, double celsius) {
    const Scalar w = m.syrup_solids();
    if (!(w <= last_refraction_solids)) return Scalar(not_a_number);
    if (!(celsius >= min_refraction_celsius && celsius <= max_refraction_celsius)) return Scalar(not_a_number);
    Scalar other{};  // refraction of the solids that is not as that of sucrose, cm3 per g of syrup
    constexpr double sucrose = 0.2055;  // R_sucrose of formula/refraction.hpp at half solids
    for (const auto& c : components)
        if (c.where == phase::dissolved) other += m[c.id] * (c.refraction_ratio - 1.0) * sucrose;
    const Scalar syrup = m.dissolved() + m.water();
    const Scalar specific = formula::sucrose_specific_refraction(w, Scalar(celsius)) + other / syrup;
    return formula::index_of_lorentz_lorenz(Scalar(specific * (syrup / syrup_volume(m, celsius))));
}

namespace detail {

/// Brix, % sucrose, at which the 20 C scale has an index; NaN off the scale of 0 to 95 (but for rounding).
template <class Scalar>
Scalar brix_of_index(const Scalar& index) {
    constexpr double rounding = 1.0e-9;
    if (!is_number(index)) return Scalar(not_a_number);
    const auto off = [&](Scalar x) -> Scalar { return formula::sucrose_refractive_index(x) - index; };
    const Scalar s = solve_monotone(off, Scalar((index - 1.33299) / 0.2), Scalar(-rounding),
                                    Scalar(last_refraction_solids + rounding));
    return is_number(s) ? Scalar(100.0 * smaller(larger(s, Scalar(0.0)), Scalar(last_refraction_solids))) : s;
}

constexpr bool on_brix_scale(double brix) {
    return brix >= 0.0 && brix <= 100.0 * last_refraction_solids;
}

/// Mass fraction of solids at which the solids of a mixture, in more or less water, have a refractive index: 0 to
/// 0.95, NaN beyond (but for rounding).  At fixed solids the index rises with their fraction: they refract more
/// than the water that they displace.
inline double solids_of_index(const mixture& m, double index, double celsius) {
    constexpr double rounding = 1.0e-13;
    const double solids = m.dissolved();
    if (!(solids > 0.0) || !std::isfinite(solids)) return not_a_number;
    mixture one;  // of the same solids, grams in all
    for (const auto& c : components)
        if (c.where == phase::dissolved) one[c.id] = m[c.id] / solids;
    const auto off = [&](double w) {
        mixture syrup = one;
        for (double& grams : syrup.grams) grams *= w;
        return refractive_index(syrup.with_water(1.0 - w), celsius) - index;
    };
    const double last = last_refraction_solids * (1.0 - rounding);  // or it may round to just more
    const double at_none = off(0.0), at_last = off(last);
    if (std::fabs(at_none) <= rounding) return 0.0;
    if (std::fabs(at_last) <= rounding) return last;
    if (!(at_none < 0.0 && at_last > 0.0)) return not_a_number;
    return solve_monotone(off, (index - 1.33299) / 0.2, 0.0, last);
}

}  // namespace detail

/// What a refractometer that is calibrated for 20 C, and does not correct, reads on the syrup phase at a
/// temperature in C, % sucrose.  NaN off its scale, 0 to 95 %, and where refractive_index is; a syrup of much salt
/// comes to 95 % at half the solids, and warm thin syrup falls below 0.
template <class Scalar>
Scalar refractometer_reading(const mixture_of<Scalar>& m, double celsius) {
    return detail::brix_of_index(refractive_index(m, celsius));
}

/// The same at 20 C, which is the Brix that instruments state.
template <class Scalar>
Scalar brix_of_syrup(const mixture_of<Scalar>& m) {
    return refractometer_reading(m, 20.0);
}

/// What to add to an uncorrected reading on a sucrose syrup at a temperature in C for its Brix at 20 C.  Within
/// 0.03 of OIV-MA-AS2-02, Table I, where it was checked (12 and 15 C, 10 to 75 %).  -30..100 C; NaN where no syrup
/// of 0 to 95 % gives the reading.
inline double temperature_correction(double brix_reading, double celsius) {
    if (!detail::on_brix_scale(brix_reading)) return not_a_number;
    mixture sucrose;
    sucrose[component::sucrose] = 1.0;
    const double index = formula::sucrose_refractive_index(0.01 * brix_reading);
    return 100.0 * detail::solids_of_index(sucrose, index, celsius) - brix_reading;
}

/// Grams of water that the solids of a mixture are in if an uncorrected refractometer reads that at a temperature
/// in C; its own water does not enter.  NaN where no water content gives the reading.
inline double water_from_reading(const mixture& m, double brix_reading, double celsius) {
    if (!detail::on_brix_scale(brix_reading)) return not_a_number;
    const double w = detail::solids_of_index(m, formula::sucrose_refractive_index(0.01 * brix_reading), celsius);
    return w > 0.0 ? m.dissolved() * (1.0 - w) / w : not_a_number;
}

namespace detail {

/// Mass fraction among the dissolved solids of those whose columns say so; 0 without solids.
template <class Scalar, class Counts>
Scalar share_of_solids(const mixture_of<Scalar>& m, const Counts& counts) {
    const Scalar solids = m.dissolved();
    if (!(solids > Scalar(0.0))) return Scalar(0.0);
    Scalar grams{};
    for (std::size_t i = 0; i < component_count; ++i)
        if (counts(columns_of<constant_of<Scalar>>[i])) grams += m.grams[i];
    return grams / solids;
}

}  // namespace detail

/// Mass fraction of monosaccharides among the dissolved solids (small polyols and acid count with them).
template <class Scalar>
Scalar monosaccharide_share(const mixture_of<Scalar>& m) {
    return detail::share_of_solids(m, [](const auto& c) { return c.small_sugar; });
}

/// Mass fraction of chains of three and more glucose units among the dissolved solids.
template <class Scalar>
Scalar chain_share(const mixture_of<Scalar>& m) {
    return detail::share_of_solids(m, [](const auto& c) { return c.isotherm.kind == isotherm_kind::chain; });
}

/// log10 of the viscosity of the syrup phase, Pa s, at a temperature in C, its glass transition shifted by an
/// error.
template <class Scalar>
Scalar syrup_log10_viscosity(const mixture_of<Scalar>& m, const constant_of<Scalar>& celsius,
                             const constant_of<Scalar>& glass_shift_kelvin = 0.0) {
    return formula::syrup_log10_viscosity(Scalar(celsius + formula::zero_celsius),
                                          Scalar(glass_celsius(m) + (glass_shift_kelvin + formula::zero_celsius)),
                                          m.dissolved() > Scalar(0.0) ? m.syrup_solids() : Scalar(0.0),
                                          monosaccharide_share(m), chain_share(m));
}

namespace detail {

/// Grams times a property of their heat law, over all parts of the mixture.
template <class Scalar, class Property>
Scalar sum_by_heat_law(const mixture_of<Scalar>& m, const Property& property) {
    Scalar total{};
    for (const auto& c : components) total += 1.0e-3 * m[c.id] * property(c.heat);
    total += 1.0e-3 * m.crystals() * property(formula::heat_crystal);
    if (m.ice > 0.0) total += 1.0e-3 * m.ice * property(formula::heat_ice);
    return total;
}

}  // namespace detail

/// Enthalpy of the mixture above that of itself at 0 C, J (Choi & Okos, dissolved sugar as a liquid; published
/// equations for syrups spread by 0.4 kJ/(kg K)).  Heats of solution and of melting are left out.
template <class Scalar>
Scalar enthalpy_joule(const mixture_of<Scalar>& m, const Scalar& celsius) {
    return detail::sum_by_heat_law(
        m, [&](const auto& law) -> Scalar { return formula::specific_enthalpy(celsius, law); });
}

inline constexpr double min_heat_celsius = -40.0, max_heat_celsius = 150.0;  ///< the range of Choi & Okos

/// Specific heat of the mixture, kJ/(kg K), at a temperature in C: the slope of enthalpy_joule over the mass. What
/// freezes or melts meanwhile is left out, the melting of fat below 35 C too.
/// Interval, three parts in quadrature.  Syrup: published equations for 60 % solids spread by 0.4 kJ/(kg K), so
/// half of that either way, in proportion to the dissolved solids (1/3 kJ/(kg K) for each kg of them).  Water: 2.2
/// %, since Choi & Okos lie 2.1 % below IAPWS-IF97 at 0 C and 0.9 to 1.3 % from 20 to 100 C.  Fat, suspended
/// solids and crystals: 10 % of their heat (our estimate).  Flagged above 150 C; not computed below -40 C or above
/// 250 C.
inline estimate specific_heat(const mixture& m, double celsius) {
    if (!(celsius >= min_heat_celsius && celsius <= max_model_celsius) || !(m.total() > 0.0)) return {};
    const auto heat = [&](const mixture& x) {
        return detail::sum_by_heat_law(x, [&](const auto& law) { return formula::specific_heat(celsius, law); });
    };
    mixture water, apart = m;  // apart: what is neither syrup nor ice
    water[component::water] = m.water();
    apart.ice = 0.0;
    for (const auto& c : components)
        if (c.where == phase::solvent || c.where == phase::dissolved) apart[c.id] = 0.0;
    const double kilograms = 1.0e-3 * m.total();
    const double value = heat(m) / kilograms;
    const double of_syrup = 0.4 / 2.0 / 0.6 * 1.0e-3 * m.dissolved();
    const double half = std::hypot(of_syrup, 0.022 * heat(water), 0.1 * heat(apart)) / kilograms;
    return between(value, value - half, value + half,
                   celsius <= max_heat_celsius ? grade::fine : grade::extrapolated);
}

/// Share of the mixture's water, ice included, that is frozen at a temperature in C when all is in equilibrium: 0
/// from the freezing point up.  Interval: that of the water which the solids hold at the activity of ice. -30..250
/// C; not computed outside, nor without water.
inline estimate ice_share(const mixture& m, double celsius) {
    const double water = m.water() + m.ice;
    if (!(water > 0.0) || !(celsius >= min_freezing_celsius && celsius <= max_model_celsius)) return {};
    if (celsius >= 0.0) return exactly(0.0);
    const double kelvin = celsius + formula::zero_celsius;
    const estimate held = water_held_estimate(m, formula::ice_ln_activity(kelvin), kelvin);
    const auto share = sides_of(held).map([&](double grams) { return std::fmax(0.0, 1.0 - grams / water); });
    return estimate_of(share, held.status);
}

}  // namespace sirop::core
