// Heat content of foods by component.
#pragma once

#include "no_fast_math.hpp"

namespace sirop::formula {

/// Coefficients of cp = a0 + a1 t + a2 t^2, kJ/(kg K), t in C.
struct heat_capacity_law {
    double a0, a1, a2;
};

// Choi & Okos (1986), as printed in the ASHRAE Handbook, Refrigeration (2006), chapter 9; -40..150 C.
inline constexpr heat_capacity_law heat_water{4.1289, -9.0864e-5, 5.4731e-6};
inline constexpr heat_capacity_law heat_carbohydrate{1.5488, 1.9625e-3, -5.9399e-6};
inline constexpr heat_capacity_law heat_protein{2.0082, 1.2089e-3, -1.3129e-6};
inline constexpr heat_capacity_law heat_fat{1.9842, 1.4733e-3, -4.8008e-6};
inline constexpr heat_capacity_law heat_fibre{1.8459, 1.8306e-3, -4.6509e-6};
/// Dissolved and molten sugar: the law above is that of the solid in foods; the liquid has 0.45 kJ/(kg K) more
/// (our estimate: the step at the glass transition is 0.5 to 0.7, from memory; syrups of 60 % then agree within 4
/// % with cp = 4.1868 - 0.0297 Bx + 4.6e-5 Bx P + 7.5e-5 Bx t of Bubnik et al. 1995, recalled, confidence medium).
inline constexpr heat_capacity_law heat_dissolved_sugar{1.5488 + 0.45, 1.9625e-3, -5.9399e-6};
/// Crystals of sugar: 1.1269 + 4.524e-3 t + 6.24e-6 t^2 of Bubnik et al. 1995 (recalled, confidence medium); at 25
/// C it gives the 1.243 kJ/(kg K) of Anderson, Higbie & Stegeman 1950 (425.5 J/(mol K); recalled, confidence
/// high).
inline constexpr heat_capacity_law heat_crystal{1.1269, 4.524e-3, 6.24e-6};
inline constexpr heat_capacity_law heat_ash{1.0926, 1.8896e-3, -3.6817e-6};
inline constexpr heat_capacity_law heat_ice{2.0623, 6.0769e-3, 0.0};

/// Specific heat, kJ/(kg K), t in C: the law itself.
template <class Scalar>
Scalar specific_heat(const Scalar& t, const heat_capacity_law& law) {
    return law.a0 + t * (law.a1 + t * law.a2);
}

/// Specific enthalpy above 0 C, J/kg, t in C: the integral of the law.
template <class Scalar>
Scalar specific_enthalpy(const Scalar& t, const heat_capacity_law& law) {
    return 1000.0 * t * (law.a0 + t * (law.a1 / 2.0 + t * law.a2 / 3.0));
}

}  // namespace sirop::formula
