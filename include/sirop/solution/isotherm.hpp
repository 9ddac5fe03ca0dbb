// Water held by one gram of a component at a water activity and a temperature: the isotherms, their
// ranges, their continuation beyond them, and their uncertainty.
#pragma once

#include <array>
#include <cmath>

#include "../base/solve.hpp"
#include "../data/components.hpp"
#include "../formula/isotherm.hpp"

namespace sirop::core {

/// Which curve of a component: the model itself, the edges of its uncertainty, or the second published model.
enum class curve : signed char { low = -1, best = 0, high = 1, second = 2 };

inline constexpr double min_model_celsius = -30.0;
inline constexpr double max_model_celsius = 250.0;  ///< flagged beyond 170

namespace detail {

/// Molar masses, g/mol (IUPAC 2021).
inline constexpr double sucrose_molar_mass = 342.297, glucose_molar_mass = 180.156, sorbitol_molar_mass = 182.172,
                        glycerol_molar_mass = 92.094, sodium_chloride_molar_mass = 58.443;

/// Beyond 97 % solids the sucrose equation (false minimum of aw below 82 C) is continued as a power law.
inline constexpr double sucrose_last_water = 3.0 / 97.0;

constexpr double mole_fraction(double water_per_gram, double molar_mass) {
    return 1.0 / (1.0 + water_per_gram * molar_mass / formula::water_molar_mass);
}

/// Grams of water per gram at which the decreasing function ln_aw(x) of the solute's mole fraction takes a value.
/// Solved in logarithms, where the curve is nearly straight: ln(-ln aw) against ln h.
template <class LnActivity>
double invert_solution(const LnActivity& ln_activity_of, double ln_aw, double molar_mass,
                       double least_water = 0.0) {
    const double target = std::log(-ln_aw);
    const double h_ideal = formula::water_molar_mass / molar_mass / -std::expm1(ln_aw) * std::exp(ln_aw);
    const double log_h = solve_monotone(
        [&](double u) { return std::log(-ln_activity_of(mole_fraction(std::exp(u), molar_mass))) - target; },
        std::log(h_ideal), least_water > 0.0 ? std::log(least_water) : -30.0, 40.0);
    return std::exp(log_h);
}

inline double sucrose_water(double ln_aw, double kelvin) {
    const double x_last = mole_fraction(sucrose_last_water, sucrose_molar_mass);
    const double ln_last = formula::starzak_peacock_ln_activity(x_last, kelvin);
    if (ln_aw >= ln_last)
        return invert_solution([&](double x) { return formula::starzak_peacock_ln_activity(x, kelvin); }, ln_aw,
                               sucrose_molar_mass, sucrose_last_water * (1.0 - 1.0e-12));
    const double slope = formula::starzak_peacock_slope(x_last, kelvin);
    return sucrose_last_water * std::exp((ln_aw - ln_last) / slope);
}

/// chi and the two densities: our estimate (the form is published), see formula/isotherm.hpp.
inline constexpr double chain_chi = 0.5, chain_chi_error = 0.1, chain_density = 1.55, chain_water_density = 1.0;

constexpr double chain_volume_fraction(double water_per_gram) {
    return 1.0 / (1.0 + water_per_gram * chain_density / chain_water_density);
}

inline double chain_water(double ln_aw, double units) {
    const double n = (162.141 * units + 18.015) / (chain_density * 18.05);
    const double target = std::log(-ln_aw);
    const double log_h = solve_monotone(
        [&](double u) {
            const double f = chain_volume_fraction(std::exp(u));
            return std::log(-formula::flory_huggins_ln_activity(f, n, chain_chi)) - target;
        },
        std::log(0.2), -30.0, 40.0);
    return std::exp(log_h);
}

/// Salt: Pitzer to 6 mol/kg; then, with d = ln(aw/aw6), ln(h/h6) = 2.5619 d + 3.0605 d^2 + 2.5401 d^3, our fit
/// within 0.3 % to Tang, Tridico & Fung 1997 (recalled, confidence medium-high) to 45 mass %, which rises
/// throughout; beyond, a power law of the slope there.
inline double salt_water(double ln_aw) {
    constexpr double last = 6.0;
    constexpr double grams_per_mole = 1.0e-3 * sodium_chloride_molar_mass;
    const double ln_last = formula::sodium_chloride_ln_activity(last);
    if (ln_aw < ln_last) {
        constexpr double a = 2.5619, b = 3.0605, c = 2.5401, end = -0.37;  // end: about 45 mass %
        const auto law = [](double d) { return d * (a + d * (b + d * c)); };
        const double d = ln_aw - ln_last;
        const double ln_h = d >= end ? law(d) : law(end) + (a + end * (2.0 * b + 3.0 * end * c)) * (d - end);
        return std::exp(ln_h) / (last * grams_per_mole);
    }
    const double target = std::log(-ln_aw);
    const double log_m = solve_monotone(
        [&](double u) { return std::log(-formula::sodium_chloride_ln_activity(std::exp(u))) - target; },
        std::log(-ln_aw / 0.036), -40.0, std::log(last) + 1.0e-9);
    return 1.0 / (std::exp(log_m) * grams_per_mole);
}

struct gab_constants {
    double m0, c, k;
};

/// Casein (also for gelatin), native starch (also for fibre and agar) and defatted cocoa solids at 25 C: recalled
/// ranges, confidence low.
constexpr gab_constants gab_of(component c) {
    if (c == component::protein || c == component::gelatin) return {6.5, 10.0, 0.80};
    if (c == component::cocoa_solids) return {4.5, 15.0, 0.80};
    return {9.5, 20.0, 0.73};
}

/// A broken line through (solids fraction, value) points, flat outside them.
template <std::size_t N>
constexpr double broken_line(const std::array<std::array<double, 2>, N>& points, double x) {
    if (x <= points[0][0]) return points[0][1];
    for (std::size_t i = 1; i < N; ++i)
        if (x <= points[i][0])
            return points[i - 1][1] +
                   (points[i][1] - points[i - 1][1]) * (x - points[i - 1][0]) / (points[i][0] - points[i - 1][0]);
    return points[N - 1][1];
}

}  // namespace detail

/// Grams of water that one gram of a component holds at ln aw < 0 and a temperature in K, by its best model.
/// Ranges: docs/theory.md.  Water and fat hold none.
inline double water_held(const component_data& c, double ln_aw, double kelvin) {
    using namespace detail;
    switch (c.isotherm) {
        case isotherm_kind::sucrose:
            return sucrose_water(ln_aw, kelvin);
        case isotherm_kind::monosaccharide: {
            const auto at = formula::uniquac_at(kelvin, formula::uniquac_glucose);
            return invert_solution([&](double x) { return formula::uniquac_ln_activity(x, at); }, ln_aw,
                                   glucose_molar_mass);
        }
        case isotherm_kind::chain:
            return chain_water(ln_aw, c.units);
        case isotherm_kind::sorbitol:
            return invert_solution([](double x) { return formula::norrish_ln_activity(x, -1.65); }, ln_aw,
                                   sorbitol_molar_mass);
        case isotherm_kind::glycerol:
            return invert_solution([&](double x) { return formula::glycerol_ln_activity(x, kelvin); }, ln_aw,
                                   glycerol_molar_mass);
        case isotherm_kind::electrolyte:
            return c.units * salt_water(ln_aw);
        case isotherm_kind::solid: {
            const auto g = gab_of(c.id);
            return formula::gab_water(std::exp(ln_aw), g.m0, g.c, g.k);
        }
        case isotherm_kind::none:
            break;
    }
    return 0.0;
}

/// The same by the second published model, where there is one: sucrose by the modified UNIQUAC of Peres & Macedo
/// 1996, monosaccharides by Norrish with the glucose constant scaled by 298.15 K/T (the scaling is our estimate).
/// Sucrose past 97 % solids keeps the ratio of the two models there.
inline double water_held_second(const component_data& c, double ln_aw, double kelvin) {
    using namespace detail;
    if (c.isotherm == isotherm_kind::monosaccharide) {
        const double k = -2.25 * 298.15 / kelvin;
        return invert_solution([&](double x) { return formula::norrish_ln_activity(x, k); }, ln_aw,
                               glucose_molar_mass);
    }
    if (c.isotherm != isotherm_kind::sucrose) return water_held(c, ln_aw, kelvin);
    const auto at = formula::uniquac_at(kelvin, formula::uniquac_sucrose);
    const auto by_uniquac = [&](double ln) {
        return invert_solution([&](double x) { return formula::uniquac_ln_activity(x, at); }, ln,
                               sucrose_molar_mass);
    };
    const double ln_last =
        formula::starzak_peacock_ln_activity(mole_fraction(sucrose_last_water, sucrose_molar_mass), kelvin);
    if (ln_aw >= ln_last) return by_uniquac(ln_aw);
    return by_uniquac(ln_last) / sucrose_last_water * sucrose_water(ln_aw, kelvin);
}

/// Relative uncertainty of ln aw of a component that holds h grams of water per gram: the trust stated in its
/// model alone; the spread of two published models comes on top (water_held with a curve). Sucrose: +-0.2 K of
/// boiling point to 75 %, 0.5 K at 85, 2 K at 90, about 5 K to 97, 10 K beyond; the others are our estimates
/// (chains: chi +- 0.1; solids, minerals, acid: weakest data).
inline double ln_activity_uncertainty(const component_data& c, double ln_aw, double h) {
    using namespace detail;
    using line = std::array<std::array<double, 2>, 5>;
    const double solids = 1.0 / (1.0 + h);
    switch (c.isotherm) {
        case isotherm_kind::sucrose: {
            constexpr line sucrose = {{{0.75, 0.03}, {0.85, 0.036}, {0.90, 0.09}, {0.97, 0.12}, {1.0, 0.15}}};
            return (c.id == component::sucrose ? 1.0 : 1.25) * broken_line(sucrose, solids);
        }
        case isotherm_kind::monosaccharide: {
            constexpr line mono = {{{0.30, 0.011}, {0.60, 0.02}, {0.75, 0.05}, {0.85, 0.08}, {0.97, 0.12}}};
            return c.id == component::acid ? std::fmax(0.2, broken_line(mono, solids)) : broken_line(mono, solids);
        }
        case isotherm_kind::chain: {
            const double f = chain_volume_fraction(h);
            return std::fmin(0.5, chain_chi_error * f * f / -ln_aw);
        }
        case isotherm_kind::electrolyte:
            // in units of salt: minerals hold c.units as much
            return (c.id == component::minerals ? 0.15 : 0.0) +
                   broken_line(std::array<std::array<double, 2>, 2>{{{0.2596, 0.003}, {0.45, 0.015}}},
                               1.0 / (1.0 + h / c.units));
        case isotherm_kind::glycerol:
            // its source's own values, to 30 %, are in doubt: theirs is the spread
            return broken_line(std::array<std::array<double, 2>, 2>{{{0.30, 0.10}, {0.60, 0.03}}}, solids);
        case isotherm_kind::sorbitol:
            return 0.10;
        case isotherm_kind::solid:
            return 0.25;
        case isotherm_kind::none:
            break;
    }
    return 0.0;
}

/// Water held along a curve.  The edges are h(aw^(1+r)) and h(aw^(1-r)), or the second model where it lies further
/// out: where published models disagree, the interval holds both.
inline double water_held(const component_data& c, double ln_aw, double kelvin, curve side) {
    if (c.isotherm == isotherm_kind::none) return 0.0;
    if (side == curve::second) return water_held_second(c, ln_aw, kelvin);
    const double h = water_held(c, ln_aw, kelvin);
    if (side == curve::best) return h;
    const double r = ln_activity_uncertainty(c, ln_aw, h);
    const double edge = water_held(c, ln_aw * (side == curve::low ? 1.0 + r : 1.0 - r), kelvin);
    const bool two_models = c.isotherm == isotherm_kind::sucrose || c.isotherm == isotherm_kind::monosaccharide;
    if (!two_models) return edge;
    const double second = water_held_second(c, ln_aw, kelvin);
    return side == curve::low ? std::fmin(edge, second) : std::fmax(edge, second);
}

/// Whether the component's model is used inside the range it was fitted in (sugars: down to -5 C, where freezing
/// points still check them).  Chains of glucose rest on an estimated constant at every temperature; their interval
/// says so, not the grade.
inline grade isotherm_grade(const component_data& c, double ln_aw, double kelvin) {
    const double celsius = kelvin - formula::zero_celsius;
    switch (c.isotherm) {
        case isotherm_kind::sucrose: {
            const double last = formula::starzak_peacock_ln_activity(
                detail::mole_fraction(detail::sucrose_last_water, detail::sucrose_molar_mass), kelvin);
            return celsius >= -5.0 && celsius <= 150.0 && ln_aw >= last ? grade::fine : grade::extrapolated;
        }
        case isotherm_kind::monosaccharide:
            return celsius >= -5.0 && celsius <= 100.0 ? grade::fine : grade::extrapolated;
        case isotherm_kind::solid:
            return celsius >= 0.0 && celsius <= 60.0 ? grade::fine : grade::extrapolated;
        case isotherm_kind::electrolyte:
            return celsius <= 60.0 && ln_aw >= formula::sodium_chloride_ln_activity(6.0) ? grade::fine
                                                                                         : grade::extrapolated;
        case isotherm_kind::sorbitol:
            return celsius <= 60.0 ? grade::fine : grade::extrapolated;
        case isotherm_kind::glycerol:
        case isotherm_kind::chain:
        case isotherm_kind::none:
            break;
    }
    return grade::fine;
}

}  // namespace sirop::core
