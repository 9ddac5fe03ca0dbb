// What follows from a composition by the additive-water rule: water at the boil, boiling point, water activity,
// freezing point.
#pragma once

#include <array>
#include <cmath>
#include <type_traits>

#include "held.hpp"

namespace sirop::core {

inline constexpr double min_freezing_celsius = -30.0;

// --- boiling
// ------------------------------------------------------------------------------------------------------

/// Temperature, C, at which water boils at a pressure in Pa.
template <class Scalar>
Scalar water_boils_celsius(const Scalar& pressure_pa) {
    const Scalar kelvin = formula::saturation_temperature(pressure_pa);
    if constexpr (!std::is_same_v<Scalar, single>) return kelvin - formula::zero_celsius;
    // The last step of that equation cancels in float (0.2 mK): one step of Newton's rule on the pressure.
    const Scalar excess = formula::saturation_pressure(kelvin) - pressure_pa;
    return (kelvin - formula::zero_celsius) - excess / formula::saturation_slope(kelvin);
}

namespace detail {

/// ln aw of what boils so much above water, which boils at `base` C under that pressure: ln(P/psat).  Where the
/// logarithm would cancel, the slope of ln psat is integrated over the elevation: Gauss and Legendre with 5 points
/// for each 75 K (error below 1e-11; to 2 K, exact to rounding).
template <class Scalar>
Scalar ln_activity_of_elevation(const Scalar& base, const Scalar& elevation, const Scalar& pressure_pa) {
    using std::log;
    const Scalar kelvin = base + formula::zero_celsius;
    if (elevation > Scalar(precision<Scalar>::logarithm_from_kelvin))
        return log(pressure_pa / formula::saturation_pressure(Scalar(kelvin + elevation)));
    constexpr std::array<constant_of<Scalar>, 5> node = {-0.9061798459386640, -0.5384693101056831, 0.0,
                                                         0.5384693101056831, 0.9061798459386640};
    constexpr std::array<constant_of<Scalar>, 5> weight = {
        0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665, 0.2369268850561891};
    const int panels = elevation > Scalar(150.0) ? 3 : elevation > Scalar(75.0) ? 2 : 1;
    const Scalar half = elevation * constant_of<Scalar>(0.5) / constant_of<Scalar>(static_cast<float>(panels));
    Scalar sum{}, middle = half;
    for (int panel = 0; panel < panels; ++panel, middle += 2.0 * half)
        for (std::size_t i = 0; i < node.size(); ++i) {
            const Scalar t = kelvin + (middle + half * node[i]);
            sum += weight[i] * formula::saturation_slope(t) / formula::saturation_pressure(t);
        }
    return -half * sum;
}

}  // namespace detail

/// ln aw of whatever boils at a temperature in C under a pressure in Pa: ln(P/psat(T)).
template <class Scalar>
Scalar ln_activity_at_boil(const Scalar& celsius, const Scalar& pressure_pa) {
    const Scalar base = water_boils_celsius(pressure_pa);
    return detail::ln_activity_of_elevation(base, Scalar(celsius - base), pressure_pa);
}

/// Grams of water that the mixture holds when it boils at a temperature and a pressure.
/// Not computed at or below the boiling point of water, above max_model_celsius, or if nothing holds water.
inline estimate water_at_boil(const mixture& m, double celsius, double pressure_pa) {
    const double ln_aw = ln_activity_at_boil(celsius, pressure_pa);
    if (!(ln_aw < 0.0) || !(celsius <= max_model_celsius) || !holds_water(m)) return {};
    const double kelvin = celsius + formula::zero_celsius;
    return estimate_of(three_curves.map([&](curve side) { return water_held(m, ln_aw, kelvin, side); }),
                       isotherms_grade(m, ln_aw, kelvin));
}

/// Its best value alone; NaN where it is not computed.
inline double best_water_at_boil(const mixture& m, double celsius, double pressure_pa) {
    const double ln_aw = ln_activity_at_boil(celsius, pressure_pa);
    if (!(ln_aw < 0.0) || !(celsius <= max_model_celsius) || !holds_water(m)) return not_a_number;
    return water_held(m, ln_aw, celsius + formula::zero_celsius);
}

// --- the inverses: one monotone solve each, by what is held(ln aw, T in K) --------------------------------------
//
// If there is more water than the solids hold at an activity that cannot be told from 1, it is free, and the
// mixture boils, freezes and evaporates like water.

namespace detail {

/// Boiling point in C, solved in the logarithm of the elevation.
template <class Scalar, class Held>
Scalar boiling_by(const Held& held, const Scalar& water, const Scalar& pressure_pa) {
    using std::exp;
    using std::log;
    const Scalar base = water_boils_celsius(pressure_pa);
    if (held(Scalar(precision<Scalar>::least_boiling_ln_activity), Scalar(base + formula::zero_celsius)) <= water)
        return base;
    const Scalar target = log(water);
    const auto off = [&](Scalar u) -> Scalar {
        const Scalar elevation = exp(u);
        return log(held(ln_activity_of_elevation(base, elevation, pressure_pa),
                        Scalar(base + elevation + formula::zero_celsius))) -
               target;
    };
    return base +
           exp(solve_monotone(off, Scalar(2.0), Scalar(log(Scalar(precision<Scalar>::least_elevation_kelvin))),
                              Scalar(log(Scalar(max_model_celsius - base)))));
}

/// ln aw at T in K, solved in ln(-ln aw) against ln(water).
template <class Scalar, class Held>
Scalar ln_activity_by(const Held& held, const Scalar& water, const Scalar& kelvin) {
    using std::exp;
    using std::log;
    const Scalar wettest = precision<Scalar>::least_log_activity, driest = 3.0;
    if (held(Scalar(-exp(wettest)), kelvin) <= water) return Scalar(0.0);
    const Scalar target = log(water);
    const auto off = [&](Scalar u) -> Scalar { return log(held(Scalar(-exp(u)), kelvin)) - target; };
    return -exp(solve_monotone(off, Scalar(-1.0), wettest, driest));
}

/// Temperature in C at which the activity is that of ice.
template <class Held>
double freezing_by(const Held& held, double water) {
    constexpr double least_depression = -18.0;
    const double warmest = formula::zero_celsius - std::exp(least_depression);
    if (held(formula::ice_ln_activity(warmest), warmest) <= water) return 0.0;
    const double target = std::log(water);
    const auto off = [&](double u) {
        const double kelvin = formula::zero_celsius - std::exp(u);
        return std::log(held(formula::ice_ln_activity(kelvin), kelvin)) - target;
    };
    return -std::exp(solve_monotone(off, 1.0, least_depression, std::log(-min_freezing_celsius)));
}

/// What the solids of a mixture hold, by the best model or along a curve.
template <class Scalar>
auto held_by(const mixture_of<Scalar>& m) {
    return [&m](const Scalar& ln_aw, const Scalar& kelvin) { return water_held(m, ln_aw, kelvin); };
}
inline auto held_by(const mixture& m, curve side) {
    return [&m, side](double ln_aw, double kelvin) { return water_held(m, ln_aw, kelvin, side); };
}

}  // namespace detail

/// Best boiling point, C, under a pressure in Pa, of a mixture with water; NaN above max_model_celsius.
template <class Scalar>
Scalar best_boiling_celsius(const mixture_of<Scalar>& m, const Scalar& pressure_pa) {
    return detail::boiling_by(detail::held_by(m), m.water(), pressure_pa);
}
/// The same along a curve.
inline double boiling_celsius(const mixture& m, double pressure_pa, curve side) {
    return detail::boiling_by(detail::held_by(m, side), m.water(), pressure_pa);
}

/// Best ln aw at T in K of a mixture with water, all of it liquid; 0 with free water.
template <class Scalar>
Scalar best_ln_activity(const mixture_of<Scalar>& m, const Scalar& kelvin) {
    const auto liquid = [&m](const Scalar& ln_aw, const Scalar& t) { return water_held_by_liquid(m, ln_aw, t); };
    return detail::ln_activity_by(liquid, m.water(), kelvin) + glass_ln_activity(m, m.water(), kelvin);
}
/// The same along a curve.
inline double ln_activity(const mixture& m, double kelvin, curve side) {
    const auto liquid = [&](double ln_aw, double t) { return water_held_by_liquid(m, ln_aw, t, side); };
    return detail::ln_activity_by(liquid, m.water(), kelvin) + glass_ln_activity(m, m.water(), kelvin, side);
}

/// Boiling point, C, under a pressure in Pa.  Not computed without water, or for a mixture that would boil above
/// max_model_celsius.
inline estimate boiling_celsius(const mixture& m, double pressure_pa) {
    if (!(m.water() > 0.0)) return {};
    const auto celsius = three_curves.map([&](curve side) { return boiling_celsius(m, pressure_pa, side); });
    const double ln_aw = ln_activity_at_boil(celsius.value, pressure_pa);
    return estimate_to_the_end(
        celsius, max_model_celsius,
        ln_aw < 0.0 ? isotherms_grade(m, ln_aw, celsius.value + formula::zero_celsius) : grade::fine);
}

/// Water activity at a temperature in C, all the water being liquid.  Not computed without water.
inline estimate water_activity(const mixture& m, double celsius) {
    if (!(m.water() > 0.0)) return {};
    const double kelvin = celsius + formula::zero_celsius;
    const auto ln_aw = three_curves.map([&](curve side) { return ln_activity(m, kelvin, side); });
    return estimate_of(ln_aw.map([](double ln) { return std::exp(ln); }),
                       ln_aw.value < 0.0 ? isotherms_grade(m, ln_aw.value, kelvin) : grade::fine);
}

/// Temperature, C, at which ice begins to form; not computed without water or below min_freezing_celsius.
inline estimate freezing_celsius(const mixture& m) {
    if (!(m.water() > 0.0)) return {};
    const auto celsius =
        three_curves.map([&](curve side) { return detail::freezing_by(detail::held_by(m, side), m.water()); });
    const double kelvin = celsius.value + formula::zero_celsius;
    return estimate_to_the_end(
        celsius, min_freezing_celsius,
        celsius.value < 0.0 ? isotherms_grade(m, formula::ice_ln_activity(kelvin), kelvin) : grade::fine);
}

/// The mixture at a temperature: below its freezing point part of the water is ice, and the rest is what the
/// solids hold at the activity of ice.
template <class Scalar>
mixture_of<Scalar> at_temperature(const mixture_of<Scalar>& m, double celsius) {
    if (!(celsius < 0.0)) return m;
    const Scalar kelvin = celsius + formula::zero_celsius;
    const Scalar held = water_held(m, Scalar(formula::ice_ln_activity(kelvin)), kelvin);
    if (!(held < m.water())) return m;  // no ice, or too near 0 C to tell
    mixture_of<Scalar> frozen = m.with_water(held);
    frozen.ice += m.water() - held;
    return frozen;
}

}  // namespace sirop::core
