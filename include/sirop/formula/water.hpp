// Water and air: saturation, latent heat, ice, standard atmosphere.
#pragma once

#include <cmath>

#include "no_fast_math.hpp"

namespace sirop::formula {

inline constexpr double gas_constant = 8.314462618;      // J/(mol K), CODATA 2018
inline constexpr double water_molar_mass = 18.015268;    // g/mol, IAPWS R6-95
inline constexpr double standard_atmosphere = 101325.0;  // Pa
inline constexpr double zero_celsius = 273.15;           // K

namespace if97 {
// IAPWS R7-97(2012), table 34: coefficients n1..n10 of the saturation-line equation (29).
inline constexpr double n1 = 0.11670521452767e4, n2 = -0.72421316703206e6, n3 = -0.17073846940092e2,
                        n4 = 0.12020824702470e5, n5 = -0.32325550322333e7, n6 = 0.14915108613530e2,
                        n7 = -0.48232657361591e4, n8 = 0.40511340542057e6, n9 = -0.23855557567849,
                        n10 = 0.65017534844798e3;
}  // namespace if97

/// Saturation pressure of water, Pa, at a temperature in K.
/// IAPWS R7-97(2012), region 4, eq. (30).  Range 273.15..647.096 K.
template <class Scalar>
Scalar saturation_pressure(const Scalar& kelvin) {
    using namespace if97;
    using std::sqrt;
    const Scalar theta = kelvin + n9 / (kelvin - n10);
    const Scalar a = theta * theta + n1 * theta + n2;
    const Scalar b = n3 * theta * theta + n4 * theta + n5;
    const Scalar c = n6 * theta * theta + n7 * theta + n8;
    const Scalar root = 2.0 * c / (sqrt(b * b - 4.0 * a * c) - b);
    const Scalar square = root * root;
    return 1.0e6 * square * square;
}

/// Temperature, K, at which water boils at a pressure in Pa.
/// IAPWS R7-97(2012), region 4, eq. (31).  Range 611.213 Pa..22.064 MPa.
template <class Scalar>
Scalar saturation_temperature(const Scalar& pascal) {
    using namespace if97;
    using std::sqrt;
    const Scalar beta = sqrt(sqrt(pascal * 1.0e-6));
    const Scalar e = beta * beta + n3 * beta + n6;
    const Scalar f = n1 * beta * beta + n4 * beta + n7;
    const Scalar g = n2 * beta * beta + n5 * beta + n8;
    const Scalar d = 2.0 * g / (-f - sqrt(f * f - 4.0 * e * g));
    const Scalar sum = n10 + d;
    return 0.5 * (sum - sqrt(sum * sum - 4.0 * (n9 + n10 * d)));
}

/// Slope of the saturation pressure, Pa/K: the implicit derivative of IAPWS R7-97 eq. (29).
template <class Scalar>
Scalar saturation_slope(const Scalar& kelvin) {
    using namespace if97;
    using std::sqrt;
    const Scalar theta = kelvin + n9 / (kelvin - n10);
    const Scalar beta = sqrt(sqrt(saturation_pressure(kelvin) * 1.0e-6));
    const Scalar by_theta =
        beta * beta * (2.0 * theta + n1) + beta * (2.0 * n3 * theta + n4) + 2.0 * n6 * theta + n7;
    const Scalar by_beta = 2.0 * beta * (theta * theta + n1 * theta + n2) + n3 * theta * theta + n4 * theta + n5;
    const Scalar theta_by_t = 1.0 - n9 / ((kelvin - n10) * (kelvin - n10));
    return -4.0e6 * beta * beta * beta * by_theta / by_beta * theta_by_t;
}

/// Latent heat of evaporation of water, J/kg, at a temperature in K, by Clapeyron's equation: the slope of IF97
/// and the saturated densities of Wagner & Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783, eqs. (2) and (3).
/// Range 273.16..647 K; against IF97 regions 1 and 2 within 0.013 % from 0 to 180 C.
template <class Scalar>
Scalar latent_heat(const Scalar& kelvin) {
    using std::exp;
    using std::pow;
    const Scalar tau = 1.0 - kelvin / 647.096;
    const Scalar third = pow(tau, 1.0 / 3.0);
    const Scalar liquid = 322.0 * (1.0 + 1.99274064 * third + 1.09965342 * third * third -
                                   0.510839303 * pow(tau, 5.0 / 3.0) - 1.75493479 * pow(tau, 16.0 / 3.0) -
                                   45.5170352 * pow(tau, 43.0 / 3.0) - 6.74694450e5 * pow(tau, 110.0 / 3.0));
    const Scalar vapour = 322.0 * exp(-2.03150240 * third - 2.68302940 * third * third -
                                      5.38626492 * pow(tau, 4.0 / 3.0) - 17.2991605 * pow(tau, 3.0) -
                                      44.7586581 * pow(tau, 37.0 / 6.0) - 63.9201063 * pow(tau, 71.0 / 6.0));
    return kelvin * saturation_slope(kelvin) * (1.0 / vapour - 1.0 / liquid);
}

/// ln of the water activity of a solution in equilibrium with ice, at a temperature in K.
/// The exact integral of the Gibbs-Helmholtz equation with a fusion enthalpy of 6009.5 J/mol at 273.15 K and a
/// difference of heat capacities of 38.1 J/(mol K) (as used by Robinson & Stokes).  Range 233.15..273.15 K.
template <class Scalar>
Scalar ice_ln_activity(const Scalar& kelvin) {
    using std::log;
    constexpr double fusion = 6009.5, heat_capacity = 38.1;
    return (fusion - heat_capacity * zero_celsius) / gas_constant * (1.0 / zero_celsius - 1.0 / kelvin) +
           heat_capacity / gas_constant * log(kelvin / zero_celsius);
}

/// Pressure of the standard atmosphere, Pa, at a geopotential altitude in m.
/// ISO 2533:1975 (ICAO), layer 0..11 km: T = 288.15 - 0.0065 H, exponent 5.255880.  Range -500..11000 m.
template <class Scalar>
Scalar standard_pressure(const Scalar& metres) {
    using std::pow;
    return standard_atmosphere * pow((288.15 - 0.0065 * metres) / 288.15, 5.255880);
}

}  // namespace sirop::formula
