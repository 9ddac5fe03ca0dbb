// Glass transition and the viscosity of a syrup from thin and boiling to glassy.
#pragma once

#include <cmath>

#include "no_fast_math.hpp"

namespace sirop::formula {

/// Viscosity, Pa s, of a syrup at a temperature in K, given its glass transition in K, its mass fraction w of
/// dissolved solids and the mass fraction of monosaccharides among those solids.
/// Form: Mauro et al., PNAS 106 (2009) 19780 (MYEGA), anchored at 1e12 Pa s at Tg, fragility 69.99.
/// L(w) is our fit to the sucrose tables (International Critical Tables to 60 %) and Genotelle (1978) at 65..75 %:
/// rms 4 %, worst 14 % (40 %, 0 C), 0..100 C; with g = w times the share of monosaccharides, -0.0513 g -
/// 0.6096 g^2 is our fit to the CRC Handbook's table of glucose at 20 C (to 60 %; worst 2 %). Above 75 % it
/// interpolates between those data and the glass; -30..170 C.
template <class Scalar>
Scalar syrup_log10_viscosity(const Scalar& kelvin, const Scalar& glass_kelvin, const Scalar& w,
                             const Scalar& monosaccharide_share) {
    using std::exp;
    constexpr double fragility = 69.99;
    const Scalar sugar = w * monosaccharide_share;
    const Scalar hot = -4.3055 + 0.4745 * w + 0.7545 * w * w + sugar * (-0.0513 - 0.6096 * sugar);
    const Scalar reach = 12.0 - hot;
    const Scalar ratio = glass_kelvin / kelvin;
    return hot + reach * ratio * exp((fragility / reach - 1.0) * (ratio - 1.0));
}

/// Suspension of particles, relative viscosity: Krieger & Dougherty, Trans. Soc. Rheol. 3 (1959) 137,
/// (1 - phi/phi_max)^(-[eta] phi_max), as its natural logarithm.  phi < phi_max.
template <class Scalar>
Scalar krieger_dougherty_ln(const Scalar& phi, double phi_max, const Scalar& intrinsic) {
    using std::log1p;
    return -intrinsic * phi_max * log1p(-phi / phi_max);
}

}  // namespace sirop::formula
