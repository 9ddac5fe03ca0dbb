// Water activity of binary solutions and moist solids: ln aw from composition and temperature, as published.
//
// x is the mole fraction of the solute, T is in K.  The fitted ranges and what is done beyond them are in
// solution/isotherm.hpp; nothing here clamps.
#pragma once

#include <cmath>

#include "water.hpp"

namespace sirop::formula {

/// Sucrose.  Starzak & Peacock, Zuckerindustrie 122 (1997) 380:
/// ln gamma_w = Q/(RT) (1 + a x + b x^2) x^2, Q = -17638 J/mol, a = -1.0038, b = -0.24653.
/// Fitted from dilute to nearly dry, 0..150 C.  Below 82 C gamma_w has a false minimum past 97.5 % solids.
template <class Scalar>
Scalar starzak_peacock_ln_activity(const Scalar& x, const Scalar& kelvin) {
    using std::log1p;
    constexpr double q = -17638.0, a = -1.0038, b = -0.24653;
    return log1p(-x) + q / (gas_constant * kelvin) * (1.0 + a * x + b * x * x) * x * x;
}

/// Its slope d ln aw / d ln h, h the water per gram: with d x / d ln h = -x (1 - x),
/// x - x (1 - x) A (2 x + 3 a x^2 + 4 b x^3).
template <class Scalar>
Scalar starzak_peacock_slope(const Scalar& x, const Scalar& kelvin) {
    constexpr double q = -17638.0, a = -1.0038, b = -0.24653;
    return x - x * (1.0 - x) * (q / (gas_constant * kelvin)) * x * (2.0 + x * (3.0 * a + 4.0 * b * x));
}

/// Norrish, J. Food Technol. 1 (1966) 25: ln aw = ln(1 - x) + K x^2.  Constants near 25 C.
template <class Scalar>
Scalar norrish_ln_activity(const Scalar& x, double k) {
    using std::log1p;
    return log1p(-x) + k * x * x;
}

/// Parameters of the modified UNIQUAC model for one sugar in water.
struct uniquac_pair {
    double r_sugar, q_sugar;
    double sugar_water_0, sugar_water_1, water_sugar_0, water_sugar_1;
};

/// Peres & Macedo, Fluid Phase Equilibria 123 (1996) 71 (recalled, then tested on freezing points: rms 9e-5 in
/// aw).
inline constexpr uniquac_pair uniquac_glucose{8.1528, 7.92, -68.6157, -0.069, 96.5267, 0.277};
inline constexpr uniquac_pair uniquac_sucrose{14.5496, 13.764, -89.3391, 0.328, 118.9952, -0.341};

/// The part of the model that depends on temperature alone.
template <class Scalar>
struct uniquac_energies {
    Scalar sugar_water, water_sugar;  ///< exp(-a/T) of the two pairs, a linear in T
    double r_ratio, q_sugar;
};

template <class Scalar>
uniquac_energies<Scalar> uniquac_at(const Scalar& kelvin, const uniquac_pair& pair) {
    using std::exp;
    constexpr double r_water = 0.92;
    const Scalar sugar_water = exp(-(pair.sugar_water_0 + pair.sugar_water_1 * (kelvin - 298.15)) / kelvin);
    const Scalar water_sugar = exp(-(pair.water_sugar_0 + pair.water_sugar_1 * (kelvin - 298.15)) / kelvin);
    return {sugar_water, water_sugar, std::pow(pair.r_sugar / r_water, 2.0 / 3.0), pair.q_sugar};
}

/// Modified UNIQUAC, Peres & Macedo 1996: exponent 2/3 in the volume fractions, interaction energies linear in T.
/// Fitted 0..100 C; written so that no term cancels in dilute solution.
template <class Scalar>
Scalar uniquac_ln_activity(const Scalar& x, const uniquac_energies<Scalar>& at) {
    using std::log;
    using std::log1p;
    constexpr double q_water = 1.4;
    const Scalar water = 1.0 - x;
    const Scalar excess = x * (at.r_ratio - 1.0);
    const Scalar combinatorial = -log1p(excess) + excess / (1.0 + excess);
    const Scalar surface = water * q_water + x * at.q_sugar;
    const Scalar theta_w = water * q_water / surface;
    const Scalar theta_s = x * at.q_sugar / surface;
    const Scalar around_water = 1.0 + theta_s * (at.sugar_water - 1.0);
    const Scalar around_sugar = theta_s + theta_w * at.water_sugar;
    const Scalar residual = q_water * (-log(around_water) + theta_s * at.sugar_water / around_water -
                                       theta_s * at.water_sugar / around_sugar);
    return log1p(-x) + combinatorial + residual;
}

template <class Scalar>
Scalar uniquac_ln_activity(const Scalar& x, const Scalar& kelvin, const uniquac_pair& pair) {
    return uniquac_ln_activity(x, uniquac_at(kelvin, pair));
}

/// Chains of glucose units.  Flory-Huggins: ln aw = ln(1 - f) + (1 - 1/N) f + chi f^2, f volume fraction of
/// saccharide, N its volume in units of the water molecule.  The form is published; chi = 0.5 is our estimate.
template <class Scalar>
Scalar flory_huggins_ln_activity(const Scalar& f, double n, double chi) {
    using std::log1p;
    return log1p(-f) + (1.0 - 1.0 / n) * f + chi * f * f;
}

/// Osmotic coefficient of sodium chloride at 25 C, molality in mol/kg.
/// Pitzer & Mayorga, J. Phys. Chem. 77 (1973) 2300: beta0 = 0.0765, beta1 = 0.2664, C = 0.00127, A = 0.392;
/// to 6 mol/kg, printed scatter 0.001.
template <class Scalar>
Scalar sodium_chloride_osmotic_coefficient(const Scalar& molality) {
    using std::exp;
    using std::sqrt;
    const Scalar root = sqrt(molality);
    return 1.0 - 0.392 * root / (1.0 + 1.2 * root) + molality * (0.0765 + 0.2664 * exp(-2.0 * root)) +
           0.00127 * molality * molality;
}

/// Sodium chloride: ln aw = -2 Mw m phi.
template <class Scalar>
Scalar sodium_chloride_ln_activity(const Scalar& molality) {
    return -2.0 * 1.0e-3 * water_molar_mass * molality * sodium_chloride_osmotic_coefficient(molality);
}

/// Glycerol: ln gamma_w = (784.6/T - 3.98) x^2 / (1 + 1.02 x)^2; our fit, to 0.0052 in aw, of values of the model
/// of Zhang, Grace & Sun, Drying Technology 40 (2022) 2404 at 25 and 100 C.
template <class Scalar>
Scalar glycerol_ln_activity(const Scalar& x, const Scalar& kelvin) {
    using std::log1p;
    const Scalar share = x / (1.0 + 1.02 * x);
    return log1p(-x) + (784.6 / kelvin - 3.98) * share * share;
}

/// Guggenheim-Anderson-de Boer: g of water per g of dry solid at a water activity.
/// m0 in g per 100 g, as printed.  Valid while k aw < 1.
template <class Scalar>
Scalar gab_water(const Scalar& activity, double m0, double c, double k) {
    const Scalar ka = k * activity;
    return 0.01 * m0 * c * ka / ((1.0 - ka) * (1.0 - ka + c * ka));
}

}  // namespace sirop::formula
