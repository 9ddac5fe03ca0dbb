// How fast a syrup browns: an ordinal index, no colour of any instrument.
//
// No published series of colours is at hand, so the index has a scale of our own: 1 is the light gold that plain
// sugar syrup has at 160 C when it climbs by 5 K a minute (cookery books: 157 to 160 C; common practice).  Ratios
// of rates are published; where they meet the scale is our estimate.
#pragma once

#include <cmath>

#include "no_fast_math.hpp"

namespace sirop::formula {

namespace detail {
constexpr double gas_constant_joule = 8.314462618;
template <class Scalar>
Scalar arrhenius(const Scalar& kelvin, double joule_per_mole, double reference_kelvin) {
    using std::exp;
    return exp(joule_per_mole / gas_constant_joule * (1.0 / reference_kelvin - 1.0 / kelvin));
}
}  // namespace detail

/// Index gained in a second by sugars alone, at T in K: `reactive` is the mass fraction of the dissolved solids
/// that counts, sucrose and glucose once, fructose five times (published ratio of fructose to glucose). Activation
/// energy 164 kJ/mol at pH 8 and 126 at 9.7 (Ajandouz et al., Food Chem. 107 (2008) 1244; browning of glucose, 60
/// to 100 C, second hand); 145 between them, carried on to 200 C.
template <class Scalar>
Scalar caramel_browning_rate(const Scalar& kelvin, const Scalar& reactive) {
    // 5 K a minute up to 433.15 K come to an index of 1: rate there = (5/60) E/(R T^2).
    constexpr double energy = 145.0e3, reference = 433.15;
    constexpr double rate = 5.0 / 60.0 * energy / (detail::gas_constant_joule * reference * reference);
    return rate * reactive * detail::arrhenius(kelvin, energy, reference);
}

/// Index gained in a second by milk protein with reducing sugars, at T in K: mass fractions of the whole.
/// Activation energy 120 kJ/mol (glucose and casein: Ajandouz et al.; 121 to 125 at pH 6.7, cited there).  Scale,
/// our estimate: 3 % of protein with 10 % of reducing sugars takes 8 minutes at 120 C to the index 1, a milk
/// caramel's light gold.
template <class Scalar>
Scalar milk_browning_rate(const Scalar& kelvin, const Scalar& protein, const Scalar& reducing) {
    using std::sqrt;
    constexpr double rate = 1.0 / (8.0 * 60.0 * 0.03 * 0.31622776601683794);  // sqrt(0.1)
    return rate * protein * sqrt(reducing) * detail::arrhenius(kelvin, 120.0e3, 393.15);
}

/// By what factor a pH changes the rate, 1 at pH 6.5: 0.8 decades a unit (published: ten to fifty times from
/// pH 8.0 to 9.7, 0.37 to 0.92 decades a unit from 5.5 to 6.8; the same source).  Below pH 4 as at 4: acids brown,
/// too.
template <class Scalar>
Scalar browning_by_ph(const Scalar& ph) {
    using std::exp;
    return exp(0.8 * 2.302585092994046 * ((ph < Scalar(4.0) ? Scalar(4.0) : ph) - 6.5));
}

}  // namespace sirop::formula
