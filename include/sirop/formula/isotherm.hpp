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
template <class Scalar, class Kelvin>
Scalar starzak_peacock_ln_activity(const Scalar& x, const Kelvin& kelvin) {
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
template <class Scalar, class Constant>
Scalar norrish_ln_activity(const Scalar& x, const Constant& k) {
    using std::log1p;
    return log1p(-x) + k * x * x;
}

/// x to the 2/3, also at compile time: Newton's rule for the cube root.
constexpr double two_thirds_power(double x) {
    double root = 1.0;
    for (int i = 0; i < 60; ++i) root -= (root - x / (root * root)) / 3.0;
    return root * root;
}

/// Parameters of the modified UNIQUAC model for one sugar in water; constants of the type, so that they become
/// those of the scalar when compiled.  Peres & Macedo, Fluid Phase Equilibria 123 (1996) 71 (recalled, then tested
/// on freezing points: rms 9e-5 in aw).
inline constexpr struct uniquac_of_glucose {
    static constexpr double r_sugar = 8.1528, q_sugar = 7.92, sugar_water_0 = -68.6157, sugar_water_1 = -0.069,
                            water_sugar_0 = 96.5267, water_sugar_1 = 0.277;
} uniquac_glucose;
inline constexpr struct uniquac_of_sucrose {
    static constexpr double r_sugar = 14.5496, q_sugar = 13.764, sugar_water_0 = -89.3391, sugar_water_1 = 0.328,
                            water_sugar_0 = 118.9952, water_sugar_1 = -0.341;
} uniquac_sucrose;

/// The part of the model that depends on temperature alone: exp(-a/T) of the two pairs, a linear in T.
template <class Scalar, class Pair>
struct uniquac_energies {
    Scalar sugar_water, water_sugar;
};

template <class Scalar, class Pair>
uniquac_energies<Scalar, Pair> uniquac_at(const Scalar& kelvin, Pair) {
    using std::exp;
    const Scalar sugar_water = exp(-(Pair::sugar_water_0 + Pair::sugar_water_1 * (kelvin - 298.15)) / kelvin);
    const Scalar water_sugar = exp(-(Pair::water_sugar_0 + Pair::water_sugar_1 * (kelvin - 298.15)) / kelvin);
    return {sugar_water, water_sugar};
}

/// Modified UNIQUAC, Peres & Macedo 1996: exponent 2/3 in the volume fractions, interaction energies linear in T.
/// Fitted 0..100 C; written so that no term cancels in dilute solution.
template <class Scalar, class Kelvin, class Pair>
Scalar uniquac_ln_activity(const Scalar& x, const uniquac_energies<Kelvin, Pair>& at) {
    using std::log1p;
    constexpr double q_water = 1.4, r_ratio = two_thirds_power(Pair::r_sugar / 0.92);
    const Scalar volume = x / (1.0 + x * (r_ratio - 1.0));  // ln x_w and the volume fractions in one logarithm
    const Scalar theta_s = x * Pair::q_sugar / (q_water + x * (Pair::q_sugar - q_water));
    const Scalar beyond_water = theta_s * (at.sugar_water - 1.0);
    const Scalar residual =
        -log1p(beyond_water) + theta_s * (at.sugar_water / (1.0 + beyond_water) -
                                          at.water_sugar / (at.water_sugar + theta_s * (1.0 - at.water_sugar)));
    return log1p(-volume * r_ratio) + volume * (r_ratio - 1.0) + q_water * residual;
}

template <class Scalar, class Kelvin, class Pair>
Scalar uniquac_ln_activity(const Scalar& x, const Kelvin& kelvin, Pair pair) {
    return uniquac_ln_activity(x, uniquac_at(kelvin, pair));
}

/// How much higher fructose lies than glucose in dilute solution, in ln aw at equal mole fraction: c x^2 (1 -
/// x)^12; c = 1.03 is our fit to its freezing points to 28 % (CRC Handbook, 102nd ed.; rms 1.4e-4 in aw).  It
/// fades in thick syrups, where nothing at hand tells the two apart.
template <class Scalar, class Constant>
Scalar above_glucose_ln_activity(const Scalar& x, const Constant& by_square) {
    const Scalar square = (1.0 - x) * (1.0 - x), fourth = square * square;
    return by_square * x * x * (fourth * fourth * fourth);
}

/// chi of chains at a volume fraction f: 0.5 + (dry - 0.5) f^2; `dry` is that of the dry chain.  Form of van der
/// Sman & Meinders, Soft Matter 7 (2011) 429, for starch.
template <class Scalar, class Constant>
Scalar chain_interaction(const Scalar& f, const Constant& dry) {
    return 0.5 + (dry - 0.5) * f * f;
}

/// Chains of glucose units.  Flory-Huggins: ln aw = ln(1 - f) + (1 - 1/N) f + chi f^2, f volume fraction of
/// saccharide, N its volume in units of the water molecule.  Rises with water for every N while chi is
/// chain_interaction with `dry` to 1.0.
template <class Scalar, class Constant, class Interaction>
Scalar flory_huggins_ln_activity(const Scalar& f, const Constant& n, const Interaction& chi) {
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

/// What the glass adds to ln aw of chains: a solid below its glass transition holds more water than the liquid.
/// Free-volume term of Vrentas & Vrentas, Macromolecules 24 (1991) 2404, -(Mw c/(R T)) w_s^2 (-dTg/dw)(1 - T/Tg),
/// with dTg/dw by Gordon-Taylor: `span` is chains (Tg - Tg_water)/(sum w/k + water) in K, c 0.45 J/(g K) the step
/// of the heat capacity (starch 0.43, recalled, confidence medium).  0 above the glass transition.
template <class Scalar>
Scalar glass_ln_activity(const Scalar& span, const Scalar& glass_kelvin, const Scalar& kelvin) {
    if (!(glass_kelvin > kelvin)) return Scalar(0.0);
    constexpr double minus_step = -water_molar_mass * 0.45 / gas_constant;
    return span * minus_step / kelvin * (1.0 - kelvin / glass_kelvin);
}

/// Glycerol: ln gamma_w = -(1.08 + 200/T) x^2 / (1 + 1.2 x)^2; our fit, with the 200 K our estimate, to the
/// boiling points of its solutions, 50..90 % (106, 109, 113.6, 121, 138 C; recalled, confidence medium-high), and
/// to Norrish's K = -1.16 at 25 C.  Diluting it warms, as it does: ln aw rises with T.  The values of the model of
/// Zhang, Grace & Sun, Drying Technology 40 (2022) 2404, lie within 0.025.
template <class Scalar, class Kelvin>
Scalar glycerol_ln_activity(const Scalar& x, const Kelvin& kelvin) {
    using std::log1p;
    const Scalar share = x / (1.0 + 1.2 * x);
    return log1p(-x) - (1.08 + 200.0 / kelvin) * share * share;
}

/// Guggenheim-Anderson-de Boer: g of water per g of dry solid at a water activity.
/// m0 in g per 100 g, as printed.  Valid while k aw < 1.  At another temperature it is used at ln aw (T/T0)^n: a
/// net heat of sorption of n times -RT ln aw (n = 1 is Polanyi's characteristic curve), which vanishes at free
/// water.
template <class Scalar, class Constant>
Scalar gab_water(const Scalar& activity, const Constant& m0, const Constant& c, const Constant& k) {
    const Scalar ka = k * activity;
    return 0.01 * m0 * c * ka / ((1.0 - ka) * (1.0 - ka + c * ka));
}

}  // namespace sirop::formula
