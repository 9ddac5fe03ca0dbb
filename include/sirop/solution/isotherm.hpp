// Water held by one gram of a component at a water activity and a temperature: the isotherms, their
// continuation beyond the fitted ranges, and their uncertainty.
#pragma once

#include <cmath>

#include "../base/estimate.hpp"
#include "../base/solve.hpp"
#include "../data/components.hpp"
#include "../formula/isotherm.hpp"

namespace sirop::core {

/// Which curve of a component: the model itself, the edges of its uncertainty, or the second published model.
enum class curve : signed char { low = -1, best = 0, high = 1, second = 2 };

inline constexpr double min_model_celsius = -30.0;
inline constexpr double max_model_celsius = 250.0;  ///< flagged beyond 170
inline constexpr double last_syrup_solids = 0.995;  ///< of the syrup phase; drier is beyond the model

namespace detail {

/// Grams of a solute to the grams of as many moles of water.
constexpr double molar_ratio(double molar_mass) {
    return molar_mass / formula::water_molar_mass;
}

/// Mole fraction of a solute from the grams of water per gram of it.
template <class Scalar>
constexpr Scalar mole_fraction(const Scalar& water_per_gram, const constant_of<Scalar>& ratio) {
    return 1.0 / (1.0 + water_per_gram * ratio);
}

/// Grams of water per gram at which the decreasing function ln_aw(x) of the solute's mole fraction takes a value.
/// Solved in logarithms, where the curve is nearly straight: ln(-ln aw) against ln h.
template <class Scalar, class LnActivity>
Scalar invert_solution(const LnActivity& ln_activity_of, const Scalar& ln_aw, const constant_of<Scalar>& ratio,
                       const constant_of<Scalar>& least_log_water = precision<Scalar>::least_log_water) {
    using std::exp;
    using std::expm1;
    using std::log;
    const Scalar target = log(-ln_aw);
    const auto off = [&](Scalar u) -> Scalar {
        return log(-ln_activity_of(mole_fraction(Scalar(exp(u)), ratio))) - target;
    };
    const Scalar ideal = 1.0 / (ratio * expm1(-ln_aw));
    return exp(solve_monotone(off, Scalar(log(ideal)), Scalar(least_log_water),
                              Scalar(precision<Scalar>::most_log_water)));
}

// Beyond 97 % solids the sucrose equation (false minimum of aw below 82 C) is continued as a power law.
inline constexpr double sucrose_last_water = 3.0 / 97.0, ln_sucrose_last_water = -3.4760986898352733;
inline constexpr double sucrose_last_fraction = mole_fraction(sucrose_last_water, molar_ratio(sucrose_molar_mass));

template <class Scalar>
Scalar sucrose_last_ln_activity(const Scalar& kelvin) {
    return formula::starzak_peacock_ln_activity(Scalar(sucrose_last_fraction), kelvin);
}

template <class Scalar>
Scalar sucrose_water(const Scalar& ln_aw, const Scalar& kelvin) {
    using std::exp;
    const Scalar ln_last = sucrose_last_ln_activity(kelvin);
    if (ln_aw >= ln_last)
        return invert_solution(
            [&](const Scalar& x) -> Scalar { return formula::starzak_peacock_ln_activity(x, kelvin); }, ln_aw,
            molar_ratio(sucrose_molar_mass), ln_sucrose_last_water - 20.0 * precision<Scalar>::rounding);
    return sucrose_last_water *
           exp((ln_aw - ln_last) / formula::starzak_peacock_slope(Scalar(sucrose_last_fraction), kelvin));
}

template <class Scalar, class Pair>
Scalar uniquac_water(const Scalar& ln_aw, const Scalar& kelvin, Pair pair, const constant_of<Scalar>& ratio,
                     const constant_of<Scalar>& above_glucose = 0.0) {
    const auto at = formula::uniquac_at(kelvin, pair);
    return invert_solution(
        [&](const Scalar& x) -> Scalar {
            return formula::uniquac_ln_activity(x, at) + formula::above_glucose_ln_activity(x, above_glucose);
        },
        ln_aw, ratio);
}

template <class Scalar>
Scalar norrish_water(const Scalar& ln_aw, const Scalar& k, const constant_of<Scalar>& ratio) {
    return invert_solution([&](const Scalar& x) -> Scalar { return formula::norrish_ln_activity(x, k); }, ln_aw,
                           ratio);
}

/// chi of dry chains: 0.8 as published for starch (recalled, confidence low to medium); docs/theory.md argues it
/// and its interval from 0.65 to 0.95, and what remains in dilute solution.
inline constexpr double dry_chain_chi = 0.8, dry_chain_chi_error = 0.15, dilute_chain_chi_error = 0.05;

/// Volume fraction of the chains from the grams of water per gram of them.
template <class Scalar>
constexpr Scalar chain_volume_fraction(const Scalar& water_per_gram) {
    return 1.0 / (1.0 + water_per_gram * (chain_density / chain_water_density));
}

template <class Scalar>
Scalar chain_water(const Scalar& ln_aw, const constant_of<Scalar>& size) {
    using std::exp;
    using std::log;
    const Scalar target = log(-ln_aw);
    const auto off = [&](Scalar u) -> Scalar {
        const Scalar f = chain_volume_fraction(Scalar(exp(u)));
        const Scalar chi = formula::chain_interaction(f, constant_of<Scalar>(dry_chain_chi));
        return log(-formula::flory_huggins_ln_activity(f, size, chi)) - target;
    };
    constexpr double ln_guess = -1.6094379124341003;  // ln 0.2
    return exp(solve_monotone(off, Scalar(ln_guess), Scalar(precision<Scalar>::least_log_water),
                              Scalar(precision<Scalar>::most_log_water)));
}

inline constexpr double salt_last_molality = 6.0, ln_salt_last_molality = 1.791759469228055;

/// Salt: Pitzer to 6 mol/kg; then, with d = ln(aw/aw6), ln(h/h6) = 2.5619 d + 3.0605 d^2 + 2.5401 d^3, our fit
/// within 0.3 % to Tang, Tridico & Fung 1997 (recalled, confidence medium-high) to 45 mass %, which rises
/// throughout; beyond, a power law of the slope there.
template <class Scalar>
Scalar salt_water(const Scalar& ln_aw) {
    using std::exp;
    using std::log;
    constexpr double grams_per_mole = 1.0e-3 * sodium_chloride_molar_mass;
    const Scalar ln_last = formula::sodium_chloride_ln_activity(Scalar(salt_last_molality));
    if (ln_aw < ln_last) {
        constexpr double a = 2.5619, b = 3.0605, c = 2.5401, end = -0.37;  // end: about 45 mass %
        constexpr double at_end = end * (a + end * (b + end * c)), slope = a + end * (2.0 * b + 3.0 * end * c);
        const Scalar d = ln_aw - ln_last;
        const Scalar ln_h =
            d >= Scalar(end) ? Scalar(d * (a + d * (b + d * c))) : Scalar(at_end + slope * (d - end));
        return exp(ln_h) * (1.0 / (salt_last_molality * grams_per_mole));
    }
    const Scalar target = log(-ln_aw);
    const auto off = [&](Scalar u) -> Scalar {
        return log(-formula::sodium_chloride_ln_activity(Scalar(exp(u)))) - target;
    };
    const Scalar log_m = solve_monotone(off, Scalar(log(-ln_aw * (1.0 / 0.036))), Scalar(-40.0),
                                        Scalar(ln_salt_last_molality + 20.0 * precision<Scalar>::rounding));
    return exp(-log_m) * (1.0 / grams_per_mole);
}

/// The temperature of the solids' curves over that of their measurement, 25 C.
template <class Scalar>
constexpr Scalar solid_warmth(const Scalar& kelvin) {
    return kelvin * (1.0 / 298.15);
}

}  // namespace detail

/// Grams of water that one gram of a component holds at ln aw < 0 and a temperature in K, by its best model.
/// Ranges: docs/theory.md.  Water and fat hold none.
template <class Scalar>
Scalar water_held(const isotherm_columns<constant_of<Scalar>>& c, const Scalar& ln_aw, const Scalar& kelvin) {
    using namespace detail;
    using std::exp;
    switch (c.kind) {
        case isotherm_kind::sucrose:
            return sucrose_water(ln_aw, kelvin);
        case isotherm_kind::monosaccharide:
            return uniquac_water(ln_aw, kelvin, formula::uniquac_glucose, molar_ratio(glucose_molar_mass),
                                 c.above_glucose);
        case isotherm_kind::chain:
            return chain_water(ln_aw, c.size);
        case isotherm_kind::polyol:
            return norrish_water(ln_aw, Scalar(c.norrish_k),
                                 constant_of<Scalar>(c.size * (1.0 / formula::water_molar_mass)));
        case isotherm_kind::glycerol:
            return invert_solution(
                [&](const Scalar& x) -> Scalar { return formula::glycerol_ln_activity(x, kelvin); }, ln_aw,
                molar_ratio(glycerol_molar_mass));
        case isotherm_kind::electrolyte:
            return c.size * salt_water(ln_aw);
        case isotherm_kind::solid:
            return formula::gab_water(Scalar(exp(ln_aw * solid_warmth(kelvin) * solid_warmth(kelvin))), c.m0, c.c,
                                      c.k);
        case isotherm_kind::none:
            break;
    }
    return Scalar(0.0);
}
template <class Scalar>
Scalar water_held(const component_data& c, const Scalar& ln_aw, const Scalar& kelvin) {
    return water_held(c.isotherm, ln_aw, kelvin);
}

/// Whether a component holds the same water per gram as the others of its kind that are one curve.
template <class Number>
constexpr bool one_curve(const isotherm_columns<Number>& c) {
    return c.kind == isotherm_kind::sucrose ||
           (c.kind == isotherm_kind::monosaccharide && !(c.above_glucose > Number(0.0)));
}

/// Whether a component's model is used inside the range it was fitted in.  Chains of glucose rest on an estimated
/// constant at every temperature; their interval says so, not the grade.
template <class Scalar>
bool is_fitted(const isotherm_columns<constant_of<Scalar>>& c, const Scalar& ln_aw, const Scalar& kelvin) {
    const Scalar celsius = kelvin - formula::zero_celsius;
    if (!(celsius >= Scalar(c.fitted_from) && celsius <= Scalar(c.fitted_to))) return false;
    if (c.kind == isotherm_kind::sucrose) return ln_aw >= detail::sucrose_last_ln_activity(kelvin);
    if (c.kind == isotherm_kind::electrolyte)
        return ln_aw >= formula::sodium_chloride_ln_activity(Scalar(detail::salt_last_molality));
    return true;
}

/// Whether a second published model of the component's water is at hand.
constexpr bool has_second_model(const component_data& c) {
    return c.isotherm.kind == isotherm_kind::sucrose || c.isotherm.kind == isotherm_kind::monosaccharide;
}

/// Water held by the second published model, where there is one: sucrose by the modified UNIQUAC of Peres & Macedo
/// 1996, monosaccharides by Norrish with the glucose constant scaled by 298.15 K/T (the scaling is our estimate).
/// Sucrose past 97 % solids keeps the ratio of the two models there.
inline double water_held_second(const component_data& c, double ln_aw, double kelvin) {
    using namespace detail;
    if (!has_second_model(c)) return water_held(c, ln_aw, kelvin);
    if (c.isotherm.kind == isotherm_kind::monosaccharide)
        return norrish_water(ln_aw, -2.25 * 298.15 / kelvin, molar_ratio(glucose_molar_mass));
    const auto by_uniquac = [&](double ln) {
        return uniquac_water(ln, kelvin, formula::uniquac_sucrose, molar_ratio(sucrose_molar_mass));
    };
    const double ln_last = sucrose_last_ln_activity(kelvin);
    if (ln_aw >= ln_last) return by_uniquac(ln_aw);
    return by_uniquac(ln_last) / sucrose_last_water * sucrose_water(ln_aw, kelvin);
}

/// Relative uncertainty of ln aw of a component that holds h grams of water per gram, on the side of less (low) or
/// more water (high): the trust stated in its model alone; the spread of two published models comes on top
/// (water_held with a curve).
inline double ln_activity_uncertainty(const component_data& c, double ln_aw, double h, double kelvin, curve side) {
    if (c.isotherm.kind == isotherm_kind::chain) {
        using namespace detail;
        const double f = chain_volume_fraction(h), square = f * f;
        const double chi = dilute_chain_chi_error + (dry_chain_chi_error - dilute_chain_chi_error) * square;
        return std::fmin(0.5, chi * square / -ln_aw);
    }
    if (c.trust.line == nullptr) return 0.0;
    const double own = c.isotherm.kind == isotherm_kind::electrolyte ? h / c.isotherm.size : h;
    const bool dry = side == curve::low;
    const auto* line = dry && c.trust.dry ? c.trust.dry : c.trust.line;
    const double hot = dry ? c.trust.dry_per_kelvin * std::fmax(kelvin - 298.15, 0.0) : 0.0;
    return std::fmax(c.trust.times * line->at(1.0 / (1.0 + own)), c.trust.least) + c.trust.plus + hot;
}

/// Water held along a curve.  The edges are h(aw^(1+r)) and h(aw^(1-r)), or the second model where it lies further
/// out: where published models disagree, the interval holds both.  Solids: with no heat of sorption, and with half
/// as much again, besides.
inline double water_held(const component_data& c, double ln_aw, double kelvin, curve side) {
    if (c.isotherm.kind == isotherm_kind::none) return 0.0;
    if (side == curve::second) return water_held_second(c, ln_aw, kelvin);
    const double h = water_held(c, ln_aw, kelvin);
    if (side == curve::best) return h;
    const double r = ln_activity_uncertainty(c, ln_aw, h, kelvin, side);
    double factor = side == curve::low ? 1.0 + r : 1.0 - r;
    if (c.isotherm.kind == isotherm_kind::solid) {
        const double warmth = detail::solid_warmth(kelvin), none = 1.0 / (warmth * warmth);
        factor *= side == curve::low ? std::fmax(warmth, none) : std::fmin(warmth, none);
    }
    const double edge = water_held(c, ln_aw * factor, kelvin);
    if (!has_second_model(c)) return edge;
    const double second = water_held_second(c, ln_aw, kelvin);
    return side == curve::low ? std::fmin(edge, second) : std::fmax(edge, second);
}

}  // namespace sirop::core
