// What makes a syrup more than a syrup: solid fat, networks of particles, gels, and how a layer slumps.
#pragma once

#include <cmath>

#include "broken_line.hpp"

#include "no_fast_math.hpp"

namespace sirop::formula {

/// Share of a fat that is solid against temperature, C.
using solid_fat_curve = broken_line<9>;

/// Typical solid fat contents, by pulsed NMR.  Milk fat and cocoa butter (tempered): recalled, confidence medium;
/// a soft vegetable fat such as that of a spread: recalled, confidence low to medium.  Fats that mix soften one
/// another, which is left out.
inline constexpr solid_fat_curve milk_fat{
    {{{-30, 0.865}, {0, 0.52}, {5, 0.46}, {10, 0.40}, {15, 0.29}, {20, 0.18}, {25, 0.10}, {30, 0.05}, {37, 0.0}}}};
inline constexpr solid_fat_curve cocoa_butter{{{{-30, 0.98},
                                                {10, 0.86},
                                                {20, 0.77},
                                                {25, 0.71},
                                                {27.5, 0.62},
                                                {30, 0.44},
                                                {32.5, 0.13},
                                                {35, 0.02},
                                                {37, 0.0}}}};
inline constexpr solid_fat_curve vegetable_fat{
    {{{-30, 0.72}, {0, 0.36}, {10, 0.26}, {15, 0.20}, {20, 0.14}, {25, 0.08}, {30, 0.04}, {35, 0.01}, {40, 0.0}}}};

/// Storage modulus, Pa, of a network of particles that fill a volume fraction phi: a power law.  Form: Shih et
/// al., Phys. Rev. A 42 (1990) 4772, who derive such a power for colloidal gels (recalled, confidence high).  The
/// power 4 and 1 MPa are our calibration on one mark: caramel stops flowing cold when 25 to 30 % of its sugar has
/// crystallized (Miller & Hartel, J. Food Eng. 153 (2015) 28).  Within a factor of 10, our estimate.
template <class Scalar>
Scalar network_modulus(const Scalar& phi) {
    const Scalar square = phi * phi;
    return 1.0e6 * square * square;
}

/// Storage modulus, Pa, of a gel that holds a mass fraction c of its agent in agent and water: prefactor times a
/// power.  The square for entangled polymers is common practice of polymer physics; the numbers are
///   agar      1.5e8 c^2: 15 kPa at 1 %, recalled, confidence low to medium
///   gelatin   2.3e6 c^2: 6 kPa at 5 % (250 bloom, 10 C), recalled, confidence low to medium
///   starch    1.0e5 c^2: 1 kPa at 10 %, recalled, confidence low
///   milk protein, boiled  3.8e5 c^5: our estimate from two marks: dulce de leche of 28.7 % water mounds, a cream
///             caramel sauce of 20 % water still pours
/// each within a factor of 5 (our estimate).
template <class Scalar>
Scalar gel_modulus(const Scalar& c, double prefactor, int power) {
    Scalar modulus = prefactor * c;
    for (int i = 1; i < power; ++i) modulus *= c;
    return modulus;
}

/// Seconds in which a round layer of a viscous liquid, as wide as four times its height h, slumps under its own
/// weight to half its height at the middle.  Huppert, J. Fluid Mech. 121 (1982) 43: the spreading drop has the
/// radius r = 0.894 (g V^3 t/(3 nu))^(1/8) and the middle height (4/3) V/(pi r^2) (recalled, confidence high).
/// That gives t = 48 eta/(rho g h).  It holds once the layer has forgotten its first shape: here within a factor
/// of 2. eta in Pa s, h in m, density in kg/m3.
template <class Scalar>
Scalar slump_seconds(const Scalar& pa_s, double height_metres, double kg_per_m3) {
    constexpr double radius_over_height = 2.0, eta_n = 0.894, pi = 3.14159265358979323846;
    // at half height r^2 = (4/3) V/(pi h/2), V = pi R^2 h
    const double r_squared = (8.0 / 3.0) * radius_over_height * radius_over_height;  // in h^2
    const double volume = pi * radius_over_height * radius_over_height;              // in h^3
    const double spread = r_squared / (eta_n * eta_n);
    const double time = 3.0 * spread * spread * spread * spread / (volume * volume * volume);  // in nu/(g h)
    return time * pa_s / (kg_per_m3 * 9.80665 * height_metres);
}

/// Yield stress, Pa, at which the same layer comes to rest at half its height: V = (8 pi/15) k^(1/2) R^(5/2) with
/// k = 2 tau/(rho g) and a middle height of (k R)^(1/2), the static profile of a plastic (Nye, J. Glaciol. 2
/// (1952) 82, for ice; recalled, confidence high).
inline double holding_stress(double height_metres, double kg_per_m3) {
    constexpr double radius_over_height = 2.0;
    // h/2 = k^(2/5) (15 V/(8 pi))^(1/5), in units of h
    const double volume_term = std::pow(15.0 / 8.0 * radius_over_height * radius_over_height, 0.2);
    const double k = std::pow(0.5 / volume_term, 2.5);
    return 0.5 * k * kg_per_m3 * 9.80665 * height_metres;
}

}  // namespace sirop::formula
