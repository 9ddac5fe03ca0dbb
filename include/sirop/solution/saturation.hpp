// Saturation of each sugar, and salt, alone in the water of a mixture.
#pragma once

#include "../formula/solubility.hpp"
#include "mixture.hpp"

namespace sirop::core {

/// Mass fraction at which a component is saturated in its own water at a temperature in C, over its least soluble
/// crystals; beyond the range of its law, as at its end.
template <class Scalar>
Scalar saturated_share(solubility_law law, const Scalar& celsius) {
    const auto to = [&](double last) { return smaller(larger(celsius, Scalar(0.0)), Scalar(last)); };
    switch (law) {
        case solubility_law::sucrose:
            return formula::sucrose_solubility(to(100.0));
        case solubility_law::glucose:  // the monohydrate below 50.2 C
            return smaller(formula::glucose_monohydrate_solubility(to(90.0)),
                           formula::anhydrous_glucose_solubility(to(90.0)));
        case solubility_law::fructose:
            return formula::fructose_solubility(to(90.0));
        case solubility_law::lactose:
            return formula::lactose_solubility(to(89.0));
        case solubility_law::maltose:
            return formula::maltose_solubility(to(96.5));
        case solubility_law::sorbitol:
            return formula::sorbitol_solubility(to(90.0));
        case solubility_law::salt:
            return formula::sodium_chloride_solubility(to(100.0));
        case solubility_law::none:
            break;
    }
    return Scalar(0.0);
}

namespace detail {

/// Grams of a component over those of its own saturated solution in the same water; NaN outside 0 C to last.
inline double supersaturation_alone(double grams, double water, solubility_law law, double celsius, double last) {
    if (!(celsius >= 0.0 && celsius <= last)) return not_a_number;
    const double s = saturated_share(law, celsius);
    return grams / water / (s / (1.0 - s));
}

}  // namespace detail

/// Supersaturation of sucrose, glucose or lactose: its grams per gram of water over those of its own saturated
/// solution. Simple rule: the other sugars are left out of account.  Sucrose 0..100 C, glucose 0..90 C, lactose
/// 0..89 C; NaN outside.
inline double sucrose_supersaturation(const mixture& m, double celsius) {
    return detail::supersaturation_alone(m[component::sucrose], m.water(), solubility_law::sucrose, celsius,
                                         100.0);
}
inline double glucose_supersaturation(const mixture& m, double celsius) {
    return detail::supersaturation_alone(m[component::glucose], m.water(), solubility_law::glucose, celsius, 90.0);
}
inline double lactose_supersaturation(const mixture& m, double celsius) {
    return detail::supersaturation_alone(m[component::lactose], m.water(), solubility_law::lactose, celsius, 89.0);
}

/// Mass fraction of glucose at saturation: over the monohydrate below 50.2 C, where it is the less soluble and so
/// the stable solid, over anhydrous glucose above.  Continuous and rising; 0..90 C.  Data and confidence:
/// formula/solubility.hpp.
inline double glucose_solubility(double celsius) {
    if (!(celsius >= 0.0 && celsius <= 90.0)) return not_a_number;
    return saturated_share(solubility_law::glucose, celsius);
}

namespace detail {

/// Temperature in C, 0 to last, at which a solubility that rises with it is `per_water` grams per gram of water.
template <class Solubility>
double saturation_celsius(double per_water, double last, const Solubility& solubility) {
    if (!(per_water > 0.0) || !std::isfinite(per_water)) return not_a_number;
    const double target = std::log(per_water);
    return solve_monotone(
        [&](double t) {
            const double s = solubility(t);
            return std::log(s / (1.0 - s)) - target;
        },
        0.5 * last, 0.0, last);
}

}  // namespace detail

/// Temperature, C, at which the mixture's own dissolved sucrose, glucose or lactose is just saturated in its
/// water, by the same simple rule: colder, and it may crystallize.  NaN if that lies outside 0..100 C (sucrose),
/// 0..90 C (glucose), 0..89 C (lactose), or without that sugar or water.
inline double sucrose_saturation_celsius(const mixture& m) {
    return detail::saturation_celsius(m[component::sucrose] / m.water(), 100.0,
                                      [](double t) { return formula::sucrose_solubility(t); });
}
inline double glucose_saturation_celsius(const mixture& m) {
    return detail::saturation_celsius(m[component::glucose] / m.water(), 90.0,
                                      [](double t) { return glucose_solubility(t); });
}
inline double lactose_saturation_celsius(const mixture& m) {
    return detail::saturation_celsius(m[component::lactose] / m.water(), 89.0,
                                      [](double t) { return formula::lactose_solubility(t); });
}

}  // namespace sirop::core
