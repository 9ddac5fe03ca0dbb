// A composition, and what follows from it by the additive-water rule: water at the boil, boiling point, water
// activity, freezing point.
#pragma once

#include <array>
#include <cmath>

#include "isotherm.hpp"

namespace sirop::core {

using masses = std::array<double, component_count>;  ///< grams of each component

/// Grams of everything in the pot.  Crystals are sugar that is there but not dissolved: neither syrup nor
/// water-holding.  A template on the scalar, so that the explicit laws of a mixture can be differentiated.
template <class Scalar>
struct mixture_of {
    std::array<Scalar, component_count> grams{};
    Scalar sucrose_crystals{};
    Scalar lactose_crystals{};
    Scalar ice{};
    /// The part of the protein, starch and agar that has never boiled, and so does not gel.
    Scalar raw_protein{};
    Scalar raw_starch{};
    Scalar raw_agar{};

    Scalar& operator[](component c) { return grams[index_of(c)]; }
    const Scalar& operator[](component c) const { return grams[index_of(c)]; }

    Scalar water() const { return (*this)[component::water]; }
    Scalar fat() const { return sum(phase::fat); }
    Scalar crystals() const { return sucrose_crystals + lactose_crystals; }

    Scalar sum(phase where) const {
        Scalar total{};
        for (const auto& c : components)
            if (c.where == where) total += (*this)[c.id];
        return total;
    }
    Scalar dissolved() const { return sum(phase::dissolved); }
    Scalar total() const { return water() + dissolved() + sum(phase::suspended) + fat() + crystals() + ice; }

    /// Mass fraction of dissolved solids in the syrup phase; NaN without a syrup phase.
    Scalar syrup_solids() const {
        const Scalar solids = dissolved();
        return solids / (solids + water());
    }

    mixture_of with_water(const Scalar& grams_of_water) const {
        mixture_of m = *this;
        m[component::water] = grams_of_water;
        return m;
    }

    /// The same in another amount.
    mixture_of times(const Scalar& factor) const {
        mixture_of m = *this;
        for (auto& g : m.grams) g *= factor;
        for (Scalar* part :
             {&m.sucrose_crystals, &m.lactose_crystals, &m.ice, &m.raw_protein, &m.raw_starch, &m.raw_agar})
            *part *= factor;
        return m;
    }

    mixture_of& operator+=(const mixture_of& other) {
        for (std::size_t i = 0; i < component_count; ++i) grams[i] += other.grams[i];
        sucrose_crystals += other.sucrose_crystals;
        lactose_crystals += other.lactose_crystals;
        ice += other.ice;
        raw_protein += other.raw_protein;
        raw_starch += other.raw_starch;
        raw_agar += other.raw_agar;
        return *this;
    }
};

using mixture = mixture_of<double>;

inline constexpr double boiling_floor_kelvin = 1.0e-9;  ///< smallest boiling-point elevation that is told apart
inline constexpr double min_freezing_celsius = -30.0;

/// Grams of water that the mixture's solids hold at ln aw < 0 and T in K; its own water does not enter.
inline double water_held(const mixture& m, double ln_aw, double kelvin, curve side = curve::best) {
    double total = 0.0, like_sucrose = -1.0, like_glucose = -1.0;
    for (const auto& c : components) {
        const double grams = m[c.id];
        if (grams <= 0.0 || c.isotherm == isotherm_kind::none) continue;
        double h;
        // Sugars that share a curve share its solution.
        if (side == curve::best && c.isotherm == isotherm_kind::sucrose)
            h = like_sucrose >= 0.0 ? like_sucrose : (like_sucrose = water_held(c, ln_aw, kelvin));
        else if (side == curve::best && c.isotherm == isotherm_kind::monosaccharide)
            h = like_glucose >= 0.0 ? like_glucose : (like_glucose = water_held(c, ln_aw, kelvin));
        else
            h = water_held(c, ln_aw, kelvin, side);
        total += grams * h;
    }
    return total;
}

inline bool holds_water(const mixture& m) {
    for (const auto& c : components)
        if (c.isotherm != isotherm_kind::none && m[c.id] > 0.0) return true;
    return false;
}

/// The worst grade of the isotherms that hold at least one part in a hundred of the mixture's water.
inline grade isotherms_grade(const mixture& m, double ln_aw, double kelvin) {
    const double all = water_held(m, ln_aw, kelvin);
    grade g = kelvin - formula::zero_celsius > 170.0 ? grade::extrapolated : grade::fine;
    for (const auto& c : components) {
        if (m[c.id] <= 0.0 || c.isotherm == isotherm_kind::none) continue;
        if (m[c.id] * water_held(c, ln_aw, kelvin) >= 0.01 * all) g = worst(g, isotherm_grade(c, ln_aw, kelvin));
    }
    return g;
}

inline double water_boils_celsius(double pressure_pa) {
    return formula::saturation_temperature(pressure_pa) - formula::zero_celsius;
}

/// ln aw of whatever boils at a temperature in C under a pressure in Pa: ln(P/psat(T)).
/// Within 2 K of boiling water the logarithm would cancel, so the slope of ln psat is integrated over the
/// elevation (Gauss-Legendre, 3 points: exact to rounding there).
inline double ln_activity_at_boil(double celsius, double pressure_pa) {
    const double elevation = celsius - water_boils_celsius(pressure_pa);
    const double kelvin = celsius + formula::zero_celsius;
    if (elevation > 2.0) return std::log(pressure_pa / formula::saturation_pressure(kelvin));
    const auto slope = [&](double share) {
        const double t = kelvin - share * elevation;
        return formula::saturation_slope(t) / formula::saturation_pressure(t);
    };
    constexpr double node = 0.38729833462074169;  // sqrt(3/5)/2
    return -elevation / 18.0 * (5.0 * slope(0.5 - node) + 8.0 * slope(0.5) + 5.0 * slope(0.5 + node));
}

/// Grams of water that the mixture holds when it boils at a temperature and a pressure.
/// Not computed at or below the boiling point of water, above max_model_celsius, or if nothing holds water.
inline estimate water_at_boil(const mixture& m, double celsius, double pressure_pa) {
    const double ln_aw = ln_activity_at_boil(celsius, pressure_pa);
    if (!(ln_aw < 0.0) || !(celsius <= max_model_celsius) || !holds_water(m)) return {};
    const double kelvin = celsius + formula::zero_celsius;
    return between(water_held(m, ln_aw, kelvin), water_held(m, ln_aw, kelvin, curve::low),
                   water_held(m, ln_aw, kelvin, curve::high), isotherms_grade(m, ln_aw, kelvin));
}

namespace detail {

/// Whether there is more water than the solids hold at an activity that cannot be told from 1: then it is free,
/// and the mixture boils, freezes and evaporates like water.
inline bool has_free_water(const mixture& m, double least_ln_aw, double kelvin, curve side) {
    return water_held(m, least_ln_aw, kelvin, side) <= m.water();
}

/// ln aw of a mixture with its own water, at T in K: one monotone solve in ln(-ln aw) against ln(water).
inline double ln_activity(const mixture& m, double kelvin, curve side) {
    constexpr double wettest = -25.0, driest = 3.0;
    if (has_free_water(m, -std::exp(wettest), kelvin, side)) return 0.0;
    const double target = std::log(m.water());
    const double v =
        solve_monotone([&](double u) { return std::log(water_held(m, -std::exp(u), kelvin, side)) - target; },
                       -1.0, wettest, driest);
    return -std::exp(v);
}

/// Boiling point in C, one monotone solve in the logarithm of the elevation.
inline double boiling_celsius(const mixture& m, double pressure_pa, curve side) {
    const double base = water_boils_celsius(pressure_pa);
    constexpr double least_ln_aw = -6.0e-11;  // a little beyond boiling_floor_kelvin, so that no gap is left
    if (has_free_water(m, least_ln_aw, base + formula::zero_celsius, side)) return base;
    const double target = std::log(m.water());
    const double v = solve_monotone(
        [&](double u) {
            const double celsius = base + std::exp(u);
            const double ln_aw = ln_activity_at_boil(celsius, pressure_pa);
            if (!(ln_aw < 0.0)) return 100.0;  // less elevation than can be told apart: more water than any
            return std::log(water_held(m, ln_aw, celsius + formula::zero_celsius, side)) - target;
        },
        2.0, std::log(boiling_floor_kelvin), std::log(max_model_celsius - base));
    return base + std::exp(v);
}

/// Temperature in C at which the mixture's activity is that of ice.
inline double freezing_celsius(const mixture& m, curve side) {
    constexpr double least_depression = -18.0;
    const double warmest = formula::zero_celsius - std::exp(least_depression);
    if (has_free_water(m, formula::ice_ln_activity(warmest), warmest, side)) return 0.0;
    const double target = std::log(m.water());
    const double v = solve_monotone(
        [&](double u) {
            const double kelvin = formula::zero_celsius - std::exp(u);
            return std::log(water_held(m, formula::ice_ln_activity(kelvin), kelvin, side)) - target;
        },
        1.0, least_depression, std::log(-min_freezing_celsius));
    return -std::exp(v);
}

/// An estimate of which one side may lie beyond the end of the model: it reaches to that end, and is flagged.
inline estimate to_the_end(double value, double one_side, double other_side, double end, grade status) {
    if (!std::isfinite(value)) return {};
    if (std::isfinite(one_side) && std::isfinite(other_side)) return between(value, one_side, other_side, status);
    return between(value, std::isfinite(one_side) ? one_side : end, std::isfinite(other_side) ? other_side : end,
                   grade::extrapolated);
}

}  // namespace detail

/// Boiling point, C, under a pressure in Pa.  Not computed without water, or for a mixture that would boil above
/// max_model_celsius.
inline estimate boiling_celsius(const mixture& m, double pressure_pa) {
    if (!(m.water() > 0.0)) return {};
    const double value = detail::boiling_celsius(m, pressure_pa, curve::best);
    if (!std::isfinite(value)) return {};
    const double ln_aw = ln_activity_at_boil(value, pressure_pa);
    const double low = detail::boiling_celsius(m, pressure_pa, curve::low);
    const double high = detail::boiling_celsius(m, pressure_pa, curve::high);
    const grade status = ln_aw < 0.0 ? isotherms_grade(m, ln_aw, value + formula::zero_celsius) : grade::fine;
    return detail::to_the_end(value, low, high, max_model_celsius, status);
}

/// Water activity at a temperature in C, all the water being liquid.  Not computed without water.
inline estimate water_activity(const mixture& m, double celsius) {
    if (!(m.water() > 0.0)) return {};
    const double kelvin = celsius + formula::zero_celsius;
    const double ln_aw = detail::ln_activity(m, kelvin, curve::best);
    if (!std::isfinite(ln_aw)) return {};
    return between(std::exp(ln_aw), std::exp(detail::ln_activity(m, kelvin, curve::low)),
                   std::exp(detail::ln_activity(m, kelvin, curve::high)),
                   ln_aw < 0.0 ? isotherms_grade(m, ln_aw, kelvin) : grade::fine);
}

/// Temperature, C, at which ice begins to form; not computed without water or below min_freezing_celsius.
inline estimate freezing_celsius(const mixture& m) {
    if (!(m.water() > 0.0)) return {};
    const double value = detail::freezing_celsius(m, curve::best);
    if (!std::isfinite(value)) return {};
    const double kelvin = value + formula::zero_celsius;
    const double low = detail::freezing_celsius(m, curve::low);
    const double high = detail::freezing_celsius(m, curve::high);
    const grade status = value < 0.0 ? isotherms_grade(m, formula::ice_ln_activity(kelvin), kelvin) : grade::fine;
    return detail::to_the_end(value, low, high, min_freezing_celsius, status);
}

/// The mixture at a temperature: below its freezing point part of the water is ice, and the rest is what the
/// solids hold at the activity of ice.
inline mixture at_temperature(const mixture& m, double celsius) {
    if (!(celsius < 0.0)) return m;
    const double kelvin = celsius + formula::zero_celsius;
    const double held = water_held(m, formula::ice_ln_activity(kelvin), kelvin);
    if (!(held < m.water())) return m;  // no ice, or too near 0 C to tell
    mixture frozen = m.with_water(held);
    frozen.ice += m.water() - held;
    return frozen;
}

}  // namespace sirop::core
