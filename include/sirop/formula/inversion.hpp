// How fast sucrose turns into glucose and fructose in solution, and how fast dry sucrose is lost.
#pragma once

#include <cmath>

#include "no_fast_math.hpp"

namespace sirop::formula {

/// Rate of the first-order inversion of sucrose in solution, 1/s, at T in K, a pH (at that temperature) and so
/// many grams of water per cm3 of solution: log10 k = 16.91 - log10(d - c) - 5670/T - pH, k in 1/min, d - c the
/// density less the sucrose, g/cm3.  Vukov, Int. Sugar J. 67 (1965) 172 (recalled, confidence high).  Within a
/// factor of 0.8 to 1.5 of published constants of dilute solutions and juices from 27 to 37 C; nothing with a
/// known pH was found for hot thick syrups: allow inversion_factor_thick either way there.
template <class Scalar>
Scalar inversion_rate(const Scalar& kelvin, const Scalar& ph, const Scalar& water_per_cm3) {
    using std::exp;
    constexpr double ln10 = 2.302585092994046;
    return exp(ln10 * (16.91 - 5670.0 / kelvin - ph)) / (60.0 * water_per_cm3);
}
inline constexpr double inversion_factor_dilute = 1.5, inversion_factor_thick = 5.0;

/// Rate of the first-order loss of dry sucrose, 1/s, at T in K: 7, 15 and 22 per 1000 and minute at 150, 160 and
/// 170 C (Goncuoglu Tas & Gokmen, Food Chem. 2016, sucrose in roasting hazelnuts, second hand; our Arrhenius line
/// through its ends, 16 % low at 160 C).  An order of magnitude; other impurities, other rates.
template <class Scalar>
Scalar dry_sucrose_loss_rate(const Scalar& kelvin) {
    using std::exp;
    return 22.0e-3 / 60.0 * exp(10737.0 * (1.0 / 443.15 - 1.0 / kelvin));
}

/// Grams of water taken up, and of glucose and of fructose made, by one gram of sucrose that inverts.
inline constexpr double inversion_water = 18.015 / 342.297, inversion_hexose = 180.156 / 342.297;

}  // namespace sirop::formula
