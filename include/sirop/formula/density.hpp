// Density of water and of sucrose solutions.
#pragma once

#include "no_fast_math.hpp"

namespace sirop::formula {

/// Density of water at 1 atm, kg/m3, t in C.  Kell, J. Chem. Eng. Data 20 (1975) 97, eq. (16), with the
/// coefficients that ICUMSA SPS-4 gives it for the temperature scale of 1990 (that attribution
/// from memory).  Range 0..150 C
/// (above 100 C: pressurized or extrapolated).
template <class Scalar>
Scalar water_density(const Scalar& t) {
    return (999.83952 +
            t * (16.952577 + t * (-7.9905127e-3 + t * (-46.241757e-6 + t * (105.84601e-9 - t * 281.03006e-12))))) /
           (1.0 + 16.887236e-3 * t);
}

/// Density of a sucrose solution, kg/m3: w mass fraction of sucrose, t in C.
/// ICUMSA SPS-4 (1994), coefficients of the PTB; range 0..1 in w (fitted to about 0.8), 0..100 C.
template <class Scalar>
Scalar sucrose_density(const Scalar& w, const Scalar& t) {
    const Scalar d = (t - 20.0) * 0.01;
    const Scalar c1 = 385.1761 + d * (-46.2720 + d * (59.7712 + d * (-47.2207 + d * 18.3184)));
    const Scalar c2 = 135.3705 + d * (-7.1720 + d * (7.2491 + d * (-21.6977 + d * 12.3081)));
    const Scalar c3 = 40.9299 + d * (1.1597 + d * (12.3630 + d * 27.6301));
    const Scalar c4 = -3.9643 + d * (5.1126 - d * 35.4791);
    const Scalar c5 = 13.4853 + d * 17.5254;
    const double c6 = -17.2890;
    return water_density(t) + w * (c1 + w * (c2 + w * (c3 + w * (c4 + w * (c5 + w * c6)))));
}

}  // namespace sirop::formula
