// Saturation of a sugar alone in water.
#pragma once

#include <cmath>

namespace sirop::formula {

/// Sucrose, mass fraction at saturation, t in C.  Bubnik & Kadlec (1995), 0..100 C; turns over near 130 C: never
/// beyond its range.  The older Herzfeld scale differs by up to 0.5 points.
template <class Scalar>
Scalar sucrose_solubility(const Scalar& t) {
    return 0.01 * (64.447 + t * (8.222e-2 + t * (1.6169e-3 + t * (-1.558e-6 - t * 4.63e-8))));
}

/// Lactose, mass fraction at (final) saturation, t in C.  Our fit of ln(w/(1-w)), worst 0.45 points, to Hudson's
/// data as reprinted in Lowe, Experimental Cookery (1937), 0..89 C.
template <class Scalar>
Scalar lactose_solubility(const Scalar& t) {
    using std::exp;
    const Scalar ratio = exp(-2.13261130 + t * (2.24912509e-2 + t * (8.15759547e-5 - t * 2.68548461e-7)));
    return ratio / (1.0 + ratio);
}

}  // namespace sirop::formula
