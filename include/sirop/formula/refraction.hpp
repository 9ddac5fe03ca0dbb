// Refractive index of water and of sucrose solutions, and what a refractometer makes of another solution.
#pragma once

#include <cmath>

#include "density.hpp"

namespace sirop::formula {

/// Refractive index nD of a sucrose solution at 20 C, w mass fraction.
/// Our fit of degree 5 to the International (ICUMSA 1974) scale, 0..85 %: worst 0.7e-5, the table's last digit
/// being 1e-5; within 2.4e-4 of the table's unofficial extension to 95 %.
template <class Scalar>
Scalar sucrose_refractive_index(const Scalar& w) {
    return 1.33299 +
           w * (0.142696702 + w * (0.0550966406 + w * (0.0110723626 + w * (0.0144876741 - w * 0.010079241))));
}

/// Lorentz-Lorenz: (n^2 - 1)/(n^2 + 2), which is additive in volume.
template <class Scalar>
Scalar lorentz_lorenz(const Scalar& n) {
    return (n * n - 1.0) / (n * n + 2.0);
}

/// Its inverse: the refractive index from the Lorentz-Lorenz ratio.
template <class Scalar>
Scalar index_of_lorentz_lorenz(const Scalar& ratio) {
    using std::sqrt;
    return sqrt((1.0 + 2.0 * ratio) / (1.0 - ratio));
}

/// Specific refraction of water, cm3/g: its Lorentz-Lorenz ratio over its density; T in K, density in kg/m3,
/// wavelength in micrometres (589.3 nm is the sodium line of all refractometers here).
/// IAPWS R9-97; Harvey, Gallagher & Levelt Sengers, J. Phys. Chem. Ref. Data 27 (1998) 761.
/// Range 261.15..773.15 K, 0..1060 kg/m3, 0.2..1.1 micrometres; smooth beyond in temperature.
template <class Scalar>
Scalar water_specific_refraction(const Scalar& kelvin, const Scalar& density, double wavelength = 0.5893) {
    const double line = (wavelength / 0.589) * (wavelength / 0.589);
    constexpr double ultraviolet = 0.2292020 * 0.2292020, infrared = 5.432937 * 5.432937;
    const double colour =
        0.00158920570 / line + 0.00245934259 / (line - ultraviolet) + 0.900704920 / (line - infrared);
    const Scalar d = 1.0e-3 * density;
    return 0.244257733 + colour + d * (0.00974634476 - 0.0166626219 * d) +
           (-0.00373234996 + 0.000268678472 * line) * kelvin / 273.15;
}

/// Refractive index of water against vacuum, by the same; divide by 1.00027 for the index against air, which
/// the scale of sucrose states.
template <class Scalar>
Scalar water_refractive_index(const Scalar& kelvin, const Scalar& density, double wavelength = 0.5893) {
    return index_of_lorentz_lorenz(
        Scalar(1.0e-3 * density * water_specific_refraction(kelvin, density, wavelength)));
}

/// Specific refraction of a sucrose solution, cm3/g, w mass fraction, t in C: at 20 C that of the scale above in
/// the density of ICUMSA, and from there
///   (1 - w) (R_water(t) - R_water(20)) + w R_sucrose 7e-5 (t - 20),  R_sucrose = 0.20667 - 0.0024 w.
/// The 7e-5 per K is an estimate checked on OIV-MA-AS2-02, Table I, 12 and 15 C: within 0.018 Brix.  -30..100 C;
/// no published point above 15 C is at hand.  Below 0 C water is Kell's equation, extrapolated.
template <class Scalar>
Scalar sucrose_specific_refraction(const Scalar& w, const Scalar& t) {
    const auto of_water = [](const Scalar& celsius) {
        return water_specific_refraction(Scalar(celsius + 273.15), water_density(celsius));
    };
    const Scalar cold = 20.0 + 0.0 * t;
    const Scalar scale = lorentz_lorenz(sucrose_refractive_index(w)) * 1000.0 / sucrose_density(w, cold);
    return scale + (1.0 - w) * (of_water(t) - of_water(cold)) + w * (0.20667 - 0.0024 * w) * 7.0e-5 * (t - 20.0);
}

/// Refractive index of a sucrose solution at a temperature in C, 0..100 C (the range of its density), w to 0.85 as
/// the scale; at 20 C the scale itself.
template <class Scalar>
Scalar sucrose_refractive_index(const Scalar& w, const Scalar& t) {
    return index_of_lorentz_lorenz(Scalar(1.0e-3 * sucrose_specific_refraction(w, t) * sucrose_density(w, t)));
}

}  // namespace sirop::formula
