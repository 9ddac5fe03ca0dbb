// Saturation of a sugar alone in water.
#pragma once

#include <cmath>

#include "no_fast_math.hpp"

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

/// Glucose, mass fraction of anhydrous glucose at saturation, t in C, over its monohydrate, the stable solid to
/// about 50 C.  Our fit of ln(w/(1-w)), rms 0.14 points, worst 0.25, to eight points of 0..50 C: Jackson &
/// Silsbee, NBS Sci. Paper 437 (1922), and Young (1957), recalled, confidence low to medium (+-0.5 points), and
/// three published weakly.
template <class Scalar>
Scalar glucose_monohydrate_solubility(const Scalar& t) {
    using std::exp;
    const Scalar ratio = exp(-0.61505081 + t * (3.05816774e-2 + t * (-3.34060219e-4 + t * 6.47833825e-6)));
    return ratio / (1.0 + ratio);
}

/// The same over anhydrous glucose, the stable solid above 50 C.  Our fit, rms 0.12 points, worst 0.19, to five
/// recalled points of 50..90 C (sources and confidence as above).  The solid that is stable is the less soluble;
/// the two fits cross at 50.2 C.
template <class Scalar>
Scalar anhydrous_glucose_solubility(const Scalar& t) {
    using std::exp;
    const Scalar ratio = exp(0.190612851 + t * (1.06268262e-2 + t * 6.89803719e-5));
    return ratio / (1.0 + ratio);
}

/// Fructose, mass fraction at saturation, t in C.  Our fit of ln(w/(1-w)), rms 0.05 points, to five recalled
/// points of 20..50 C (Jackson & Silsbee, Young; confidence low to medium); rises from 0 to 100 C.
template <class Scalar>
Scalar fructose_solubility(const Scalar& t) {
    using std::exp;
    const Scalar ratio = exp(1.05423325 + t * (1.09643452e-2 + t * 1.16095473e-4));
    return ratio / (1.0 + ratio);
}

/// Maltose, mass fraction of anhydrous maltose at saturation over its monohydrate, t in C.  Our fit of
/// ln(w/(1-w)), rms 0.39 points, worst 0.65, to Gillis's data as reprinted in Lowe, Experimental Cookery (1937),
/// 0.6..96.5 C.
template <class Scalar>
Scalar maltose_solubility(const Scalar& t) {
    using std::exp;
    const Scalar ratio = exp(-0.586290861 + t * (1.72133174e-2 + t * (-3.34977134e-5 + t * 1.07505112e-6)));
    return ratio / (1.0 + ratio);
}

/// Sorbitol, mass fraction at saturation, t in C.  Through five recalled points of 10..40 C (64, 68.7, 70.2, 73,
/// 78
/// %; confidence low), within 0.45 points.
template <class Scalar>
Scalar sorbitol_solubility(const Scalar& t) {
    using std::exp;
    const Scalar ratio = exp(0.434758255 + t * (1.24241747e-2 + t * 2.07396138e-4));
    return ratio / (1.0 + ratio);
}

/// Sodium chloride, mass fraction at saturation, t in C.  Our fit, worst 0.02 points, to handbook values of 0..100
/// C (recalled, confidence high: 26.3 % at 0, 26.4 at 20, 28.1 at 100 C).
template <class Scalar>
Scalar sodium_chloride_solubility(const Scalar& t) {
    using std::exp;
    const Scalar ratio = exp(-1.03212435 + t * (2.52215529e-4 + t * 6.54802980e-6));
    return ratio / (1.0 + ratio);
}

}  // namespace sirop::formula
