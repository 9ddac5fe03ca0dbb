// Glass transition and the viscosity of a syrup from thin and boiling to glassy.
#pragma once

#include <cmath>

#include "no_fast_math.hpp"

namespace sirop::formula {

/// Viscosity, Pa s, of a syrup at a temperature in K, given its glass transition in K, its mass fraction w of
/// dissolved solids and the mass fractions of monosaccharides and of chains (three units and more) among those.
/// Form: Mauro et al., PNAS 106 (2009) 19780 (MYEGA), anchored at 1e12 Pa s at Tg, with a fragility.
/// Sucrose: L(w) and the fragility 69.99 are our fit to the International Critical Tables to 60 % and Genotelle
/// (1978) at 65..75 %: rms 4 %, worst 14 % (40 %, 0 C), 0..100 C.
/// Monosaccharides, g = w times their share: -0.6726 g - 0.4819 g^2 in L and -11.02 g (1 - g) in the fragility are
/// our fit to the CRC Handbook's table of glucose at 20 C (to 60 %, weighted by 2 %; worst 2.1 %), to Telis et
/// al., Int. J. Food Prop. 10 (2007) 185, at 50 and 60 %, 45 and 50 C (by 10 %; within 19 %, out of line among
/// themselves by 8 %) and two thin solutions at 35 C (by 3 %; within 7 %).  Hotter than 50 C nothing is at hand.
/// Chains, c = w times their share: 17.41 c^2 in the fragility is our fit to one line of a 77 % corn syrup, 25 to
/// 45 C: right in the mean, 48 % too thick at 25 C and a third too thin at 45.
/// Above 75 % it interpolates between those data and the glass; -30..170 C.
template <class Scalar>
Scalar syrup_log10_viscosity(const Scalar& kelvin, const Scalar& glass_kelvin, const Scalar& w,
                             const Scalar& monosaccharide_share, const Scalar& chain_share) {
    using std::exp;
    const Scalar g = w * monosaccharide_share, c = w * chain_share;
    const Scalar hot = -4.3055 + 0.4745 * w + 0.7545 * w * w - g * (0.6726 + 0.4819 * g);
    const Scalar fragility = 69.99 - 11.02 * g * (1.0 - g) + 17.41 * c * c;
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
