// Water held by one gram of a component at a water activity and a temperature: the isotherms, their
// continuation beyond the fitted ranges, and their uncertainty.
#pragma once

#include <cmath>

#include "../base/estimate.hpp"
#include "../base/jet.hpp"
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

/// Grams of water per gram of a solute, as last found (0: not yet), and how its logarithm moves with ln(-ln aw).
template <class Number>
struct holding {
    Number water, slope, bend;
    int brackets;  ///< how often the quick way failed

    /// Moves the water to where ln(-ln aw) is so much more.
    void follow(const Number& rise) { water *= near_exp(Number(rise * (slope + 0.5 * rise * bend))); }
};

/// Number of steps that end a search in vain.
inline constexpr int most_steps = 12;

/// Solves law(h) = ln aw by Halley's rule for ln(-ln aw) against ln h, where each law is nearly straight, from
/// the water already in `at`.  Steps cube the error: the last is shorter than `reach`, and errs by less than its
/// cube.  False if it leaves the branch on which the law rises with the water, or does not end.
template <class Number, class Law>
bool approach(const Law& law, const Number& ln_aw, const Number& reach, holding<Number>& at) {
    const Number zero = 0.0, far = 3.0, half = 0.5, target = 1.0 / ln_aw;
    for (int i = 0; i < most_steps; ++i) {
        const auto a = law(jet<Number>{at.water, at.water, at.water});
        if (!(a.value < zero) || !(a.first > zero)) return false;
        // of y = ln(-law) by ln h: slope = y', inverse = 1/y', turn = y''/y'
        const Number both = 1.0 / (a.value * a.first), inverse = a.value * a.value * both;
        const Number slope = a.first * a.first * both, turn = a.second * a.value * both - slope;
        const Number straight = -near_log(Number(a.value * target)) * inverse;
        const Number curved = half * straight * turn;
        Number step = magnitude(curved) < half ? straight / (1.0 + curved) : straight;
        step = smaller(larger(step, Number(-far)), far);
        if (!is_number(step)) return false;
        at.water *= near_exp(step);
        if (magnitude(step) < reach) {
            at.slope = inverse - inverse * turn * step;
            at.bend = -turn * inverse * inverse;
            return true;
        }
    }
    return false;
}

/// The same inside a bracket: slower, but it always ends.  The water is at least exp(least_log_water).
template <class Number, class Law>
Number bracketed_water(const Law& law, const Number& ln_aw, const Number& guess, const Number& least_log_water) {
    using std::exp;
    using std::log;
    const Number target = log(-ln_aw);
    const auto off = [&](Number u) -> Number { return log(-law(Number(exp(u)))) - target; };
    return exp(
        solve_monotone(off, Number(log(guess)), least_log_water, Number(precision<Number>::most_log_water)));
}

// Beyond 97 % solids the sucrose equation (false minimum of aw below 82 C) is continued as a power law.
inline constexpr double sucrose_last_water = 3.0 / 97.0, ln_sucrose_last_water = -3.4760986898352733;
inline constexpr double sucrose_last_fraction = mole_fraction(sucrose_last_water, molar_ratio(sucrose_molar_mass));

template <class Scalar>
Scalar sucrose_last_ln_activity(const Scalar& kelvin) {
    return formula::starzak_peacock_ln_activity(Scalar(sucrose_last_fraction), kelvin);
}

/// Where to begin with a solute on a law like Norrish's, ln aw = ln(1 - x) - k x^2: exact where it is dilute.
template <class Number>
Number norrish_start(const Number& ln_aw, const Number& ratio, const Number& k) {
    using std::exp;
    using std::expm1;
    using std::sqrt;
    const Number ideal = -expm1(ln_aw), aw = exp(ln_aw);
    const Number x = 2.0 * ideal / (1.0 + sqrt(1.0 + 4.0 * k * ideal * aw));
    return aw * (1.0 + k * x * x) / (x * ratio);
}

/// chi of dry chains: 0.8 as published for starch (recalled, confidence low to medium); docs/theory.md argues it
/// and its interval from 0.65 to 0.95, and what remains in dilute solution.
inline constexpr double dry_chain_chi = 0.8, dry_chain_chi_error = 0.15, dilute_chain_chi_error = 0.05;

/// Volume fraction of the chains from the grams of water per gram of them.
template <class Scalar>
constexpr Scalar chain_volume_fraction(const Scalar& water_per_gram) {
    return 1.0 / (1.0 + water_per_gram * (chain_density / chain_water_density));
}

inline constexpr double salt_last_molality = 6.0, salt_grams_per_mole = 1.0e-3 * sodium_chloride_molar_mass;
inline constexpr double salt_last_water = 1.0 / (salt_last_molality * salt_grams_per_mole),
                        ln_salt_last_water = 1.0479438894869053;

template <class Scalar>
Scalar salt_last_ln_activity() {
    return formula::sodium_chloride_ln_activity(Scalar(salt_last_molality));
}

/// Salt past 6 mol/kg (Pitzer's law ends there): with d = ln(aw/aw6), ln(h/h6) = 2.5619 d + 3.0605 d^2 + 2.5401
/// d^3, our fit within 0.3 % to Tang, Tridico & Fung 1997 (recalled, confidence medium-high) to 45 mass %, which
/// rises throughout; beyond, a power law of the slope there.
template <class Scalar, class Last>
Scalar dry_salt_water(const Scalar& ln_aw, const Last& ln_last) {
    using std::exp;
    constexpr double a = 2.5619, b = 3.0605, c = 2.5401, end = -0.37;  // end: about 45 mass %
    constexpr double at_end = end * (a + end * (b + end * c)), slope = a + end * (2.0 * b + 3.0 * end * c);
    const Scalar d = ln_aw - ln_last;
    const Scalar ln_h =
        value_of(d) >= end ? Scalar(d * (a + d * (b + d * c))) : Scalar(at_end + slope * (d - end));
    return exp(ln_h) * salt_last_water;
}

/// The temperature of the solids' curves over that of their measurement, 25 C.
template <class Scalar>
constexpr Scalar solid_warmth(const Scalar& kelvin) {
    return kelvin * (1.0 / 298.15);
}

/// Calls what suits the law of a component at ln aw < 0 and T in K: `solved` with the law, ln aw of the water per
/// gram, on a number or a jet, where to begin, and ln of the least water on its branch; or `known` with the water
/// per gram as a function of ln aw.  The one list of the laws.
template <class Scalar, class Solved, class Known>
Scalar by_law(const isotherm_columns<constant_of<Scalar>>& c, const Scalar& ln_aw, const Scalar& kelvin,
              const Solved& solved, const Known& known) {
    using Number = constant_of<Scalar>;
    using std::exp;
    using std::sqrt;
    const Number ln = value_of(ln_aw), t = value_of(kelvin);
    constexpr double wettest = precision<Number>::least_log_water;
    switch (c.kind) {
        case isotherm_kind::sucrose: {
            constexpr double ratio = molar_ratio(sucrose_molar_mass);
            const Scalar ln_last = sucrose_last_ln_activity(kelvin);
            if (ln_aw >= ln_last)
                return solved(
                    [&](const auto& h) {
                        return formula::starzak_peacock_ln_activity(mole_fraction(h, Number(ratio)), kelvin);
                    },
                    [&] { return norrish_start(ln, Number(ratio), Number(1500.0 / t)); },
                    ln_sucrose_last_water - 20.0 * precision<Number>::rounding);
            const Scalar slope = formula::starzak_peacock_slope(Scalar(sucrose_last_fraction), kelvin);
            return known([&](const auto& l) { return sucrose_last_water * exp((l - ln_last) / slope); });
        }
        case isotherm_kind::monosaccharide: {
            constexpr double ratio = molar_ratio(glucose_molar_mass);
            const auto at = formula::uniquac_at(kelvin, formula::uniquac_glucose);
            return solved(
                [&](const auto& h) {
                    const auto x = mole_fraction(h, Number(ratio));
                    const auto like_glucose = formula::uniquac_ln_activity(x, at);
                    return c.above_glucose > Number(0.0)
                               ? like_glucose + formula::above_glucose_ln_activity(x, c.above_glucose)
                               : like_glucose;
                },
                [&] { return norrish_start(ln, Number(ratio), Number(2.0)); }, wettest);
        }
        case isotherm_kind::chain:
            return solved(
                [&](const auto& h) {
                    const auto f = chain_volume_fraction(h);
                    return formula::flory_huggins_ln_activity(
                        f, c.size, formula::chain_interaction(f, Number(dry_chain_chi)));
                },
                [&]() -> Number {
                    const Number z = exp(-ln) - 1.0;
                    return (0.2 / sqrt(z) + 1.0 / (z * c.size)) * (chain_water_density / chain_density);
                },
                wettest);
        case isotherm_kind::polyol: {
            const Number ratio = c.size * (1.0 / formula::water_molar_mass);
            return solved(
                [&](const auto& h) { return formula::norrish_ln_activity(mole_fraction(h, ratio), c.norrish_k); },
                [&] { return norrish_start(ln, ratio, Number(-c.norrish_k)); }, wettest);
        }
        case isotherm_kind::glycerol: {
            constexpr double ratio = molar_ratio(glycerol_molar_mass);
            return solved(
                [&](const auto& h) {
                    return formula::glycerol_ln_activity(mole_fraction(h, Number(ratio)), kelvin);
                },
                [&] { return norrish_start(ln, Number(ratio), Number(1.2)); }, wettest);
        }
        case isotherm_kind::electrolyte: {
            const Number ln_last = salt_last_ln_activity<Number>();
            if (ln < ln_last) return c.size * known([&](const auto& l) { return dry_salt_water(l, ln_last); });
            return c.size *
                   solved(
                       [&](const auto& h) {
                           return formula::sodium_chloride_ln_activity(Number(1.0 / salt_grams_per_mole) / h);
                       },
                       [&]() -> Number { return -0.036 / (salt_grams_per_mole * ln); },
                       ln_salt_last_water - 20.0 * precision<Number>::rounding);
        }
        case isotherm_kind::solid: {
            const Scalar warmth = solid_warmth(kelvin), square = warmth * warmth;
            return known([&](const auto& l) { return formula::gab_water(exp(l * square), c.m0, c.c, c.k); });
        }
        case isotherm_kind::none:
            break;
    }
    return Scalar(0.0);
}

/// Water per gram on a law, begun at what `at` holds or, if that is nothing, where the law says; by a bracket
/// where the quick way fails.
template <class Number, class Law, class Start>
Number solved_water(const Law& law, const Start& start, const Number& least_log_water, const Number& ln_aw,
                    const Number& reach, holding<Number>& at) {
    using std::exp;
    if (!(at.water > Number(0.0))) at.water = start();
    const Number guess = at.water;
    if (approach(law, ln_aw, reach, at) && at.water > exp(least_log_water) * 0.999999) return at.water;
    ++at.brackets;
    at.water = bracketed_water(law, ln_aw, guess > Number(0.0) ? guess : Number(1.0), least_log_water);
    const auto a = law(jet<Number>{at.water, at.water, at.water});
    at.slope = a.value / a.first;
    at.bend = 0.0;
    return at.water;
}

/// Grams of water that one gram of a component holds at ln aw < 0 and T in K, by its best model; to the cube of
/// `reach`, relatively, from what `at` holds.
template <class Scalar>
Scalar find_water(const isotherm_columns<constant_of<Scalar>>& c, const Scalar& ln_aw, const Scalar& kelvin,
                  const constant_of<Scalar>& reach, holding<constant_of<Scalar>>& at) {
    if constexpr (std::is_same_v<Scalar, dual>) {
        find_water(c, ln_aw.value, kelvin.value, reach, at);
        return by_law(
            c, ln_aw, kelvin,
            [&](const auto& law, const auto&, double) -> dual {
                const auto a = law(jet<dual>{at.water, at.water, at.water});
                return {at.water, at.water * (ln_aw.slope - a.value.slope) / a.first.value};
            },
            [&](const auto& known) -> dual {
                return {at.water, known(ln_aw).slope};
            });
    } else {
        return by_law(
            c, ln_aw, kelvin,
            [&](const auto& law, const auto& start, double least_log_water) {
                return solved_water(law, start, Scalar(least_log_water), ln_aw, reach, at);
            },
            [&](const auto& known) {
                const auto a = known(jet<Scalar>{ln_aw, ln_aw, ln_aw});
                at.water = a.value;
                at.slope = a.first / a.value;
                at.bend = a.second / a.value - at.slope * at.slope;
                return at.water;
            });
    }
}

}  // namespace detail

/// Grams of water that one gram of a component holds at ln aw < 0 and a temperature in K, by its best model.
/// Ranges: docs/theory.md.  Water and fat hold none.
template <class Scalar>
Scalar water_held(const isotherm_columns<constant_of<Scalar>>& c, const Scalar& ln_aw, const Scalar& kelvin) {
    detail::holding<constant_of<Scalar>> at{};
    return detail::find_water(c, ln_aw, kelvin, constant_of<Scalar>(precision<constant_of<Scalar>>::last_step),
                              at);
}
template <class Scalar>
Scalar water_held(const component_data& c, const Scalar& ln_aw, const Scalar& kelvin) {
    return water_held(c.isotherm, ln_aw, kelvin);
}

namespace detail {
inline double sucrose_water(double ln_aw, double kelvin) {
    return water_held(data_of(component::sucrose), ln_aw, kelvin);
}
}  // namespace detail

/// Whether a component's model is used inside the range it was fitted in.  Chains of glucose rest on an estimated
/// constant at every temperature; their interval says so, not the grade.
template <class Scalar>
bool is_fitted(const isotherm_columns<constant_of<Scalar>>& c, const Scalar& ln_aw, const Scalar& kelvin) {
    const Scalar celsius = kelvin - formula::zero_celsius;
    if (!(celsius >= Scalar(c.fitted_from) && celsius <= Scalar(c.fitted_to))) return false;
    if (c.kind == isotherm_kind::sucrose) return ln_aw >= detail::sucrose_last_ln_activity(kelvin);
    if (c.kind == isotherm_kind::electrolyte)
        return ln_aw >= Scalar(detail::salt_last_ln_activity<constant_of<Scalar>>());
    return true;
}

/// Whether a second published model is at hand.
constexpr bool has_second_model(isotherm_kind kind) {
    return kind == isotherm_kind::sucrose || kind == isotherm_kind::monosaccharide;
}

/// Water held by the second published model, where there is one: sucrose by the modified UNIQUAC of Peres & Macedo
/// 1996, monosaccharides by Norrish with the glucose constant scaled by 298.15 K/T (the scaling is our estimate).
/// Sucrose past 97 % solids keeps the ratio of the two models there.  `best` is what the best model finds.
inline double second_water(isotherm_kind kind, double ln_aw, double kelvin, double best, double reach,
                           detail::holding<double>& at) {
    using namespace detail;
    const auto solved = [&](const auto& law, double ln) {
        return solved_water(
            law, [&] { return best; }, precision<double>::least_log_water, ln, reach, at);
    };
    if (kind == isotherm_kind::monosaccharide) {
        const double k = -2.25 * 298.15 / kelvin;
        return solved(
            [&](const auto& h) {
                return formula::norrish_ln_activity(mole_fraction(h, molar_ratio(glucose_molar_mass)), k);
            },
            ln_aw);
    }
    const auto energies = formula::uniquac_at(kelvin, formula::uniquac_sucrose);
    const double ln_last = sucrose_last_ln_activity(kelvin);
    const double second = solved(
        [&](const auto& h) {
            return formula::uniquac_ln_activity(mole_fraction(h, molar_ratio(sucrose_molar_mass)), energies);
        },
        std::fmax(ln_aw, ln_last));
    return ln_aw >= ln_last ? second : second / sucrose_last_water * best;
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

/// The edges of a component's curve are h(aw^(1+r)) and h(aw^(1-r)); solids besides with no heat of sorption, and
/// with half as much again.  The power, for a component that holds h grams of water per gram by its best curve.
inline double edge_power(const component_data& c, double ln_aw, double kelvin, double h, curve side) {
    const double r = ln_activity_uncertainty(c, ln_aw, h, kelvin, side);
    double power = side == curve::low ? 1.0 + r : 1.0 - r;
    if (c.isotherm.kind == isotherm_kind::solid) {
        const double warmth = detail::solid_warmth(kelvin), none = 1.0 / (warmth * warmth);
        power *= side == curve::low ? std::fmax(warmth, none) : std::fmin(warmth, none);
    }
    return power;
}

/// Water held along a curve: the edge, or the second model where it lies further out; where published models
/// disagree, the interval holds both.
inline double water_held(const component_data& c, double ln_aw, double kelvin, curve side) {
    const double h = water_held(c, ln_aw, kelvin);
    if (side == curve::best || (side == curve::second && !has_second_model(c.isotherm.kind))) return h;
    double second = not_a_number;
    if (has_second_model(c.isotherm.kind)) {
        detail::holding<double> at{h, 0.0, 0.0, 0};
        second = second_water(c.isotherm.kind, ln_aw, kelvin, h, precision<double>::last_step, at);
        if (side == curve::second) return second;
    }
    const double edge = water_held(c, ln_aw * edge_power(c, ln_aw, kelvin, h, side), kelvin);
    return side == curve::low ? std::fmin(edge, second) : std::fmax(edge, second);
}

}  // namespace sirop::core
