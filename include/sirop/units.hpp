// Quantities: what cooks mix up is kept apart by type.  Boost.Units for kg, K, Pa and the like; a temperature
// point and a temperature difference are different types; each dimensionless meaning has a small wrapper of its
// own.
#pragma once

#include <boost/units/absolute.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/dimensionless.hpp>
#include <boost/units/systems/si/dynamic_viscosity.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass.hpp>
#include <boost/units/systems/si/pressure.hpp>
#include <boost/units/systems/si/temperature.hpp>
#include <boost/units/systems/si/time.hpp>
#include <boost/units/systems/si/volume.hpp>

#include "formula/no_fast_math.hpp"

namespace sirop {

using mass = boost::units::quantity<boost::units::si::mass>;
using pressure = boost::units::quantity<boost::units::si::pressure>;
using length = boost::units::quantity<boost::units::si::length>;
using volume = boost::units::quantity<boost::units::si::volume>;
using duration = boost::units::quantity<boost::units::si::time>;
/// Modulus and yield stress.
using stress = pressure;
using dynamic_viscosity = boost::units::quantity<boost::units::si::dynamic_viscosity>;
/// A point on the temperature scale.
using temperature = boost::units::quantity<boost::units::absolute<boost::units::si::temperature>>;
/// A difference of two temperatures: 5 C of elevation is 9 F, not 41 F.
using temperature_difference = boost::units::quantity<boost::units::si::temperature>;

/// A plain ratio with a meaning; one meaning does not turn into another.
template <class Meaning>
struct ratio {
    double value;
    explicit constexpr ratio(double v) : value(v) {}
    friend constexpr bool operator==(ratio a, ratio b) { return a.value == b.value; }
    friend constexpr auto operator<=>(ratio a, ratio b) { return a.value <=> b.value; }
};
using water_activity = ratio<struct water_activity_meaning>;  ///< 0 to 1
using mass_fraction = ratio<struct mass_fraction_meaning>;    ///< 0 to 1
using degrees_brix = ratio<struct degrees_brix_meaning>;      ///< % sucrose by refractometer, 20 C

// Makers and readers.  Points:
inline temperature kelvin(double k) {
    return temperature::from_value(k);
}
inline temperature celsius(double c) {
    return kelvin(c + 273.15);
}
inline temperature fahrenheit(double f) {
    return celsius((f - 32.0) / 1.8);
}
inline double in_kelvin(temperature t) {
    return t.value();
}
inline double in_celsius(temperature t) {
    return in_kelvin(t) - 273.15;
}
inline double in_fahrenheit(temperature t) {
    return in_celsius(t) * 1.8 + 32.0;
}
// Differences:
inline temperature_difference celsius_degrees(double d) {
    return temperature_difference::from_value(d);
}
inline temperature_difference fahrenheit_degrees(double d) {
    return celsius_degrees(d / 1.8);
}
inline double in_celsius_degrees(temperature_difference d) {
    return d.value();
}
inline double in_fahrenheit_degrees(temperature_difference d) {
    return d.value() * 1.8;
}
// The rest:
inline mass grams(double g) {
    return mass::from_value(1.0e-3 * g);
}
inline mass kilograms(double kg) {
    return mass::from_value(kg);
}
inline double in_grams(mass m) {
    return 1.0e3 * m.value();
}
inline pressure pascals(double p) {
    return pressure::from_value(p);
}
inline pressure hectopascals(double p) {
    return pressure::from_value(100.0 * p);
}
inline double in_pascals(pressure p) {
    return p.value();
}
inline double in_hectopascals(pressure p) {
    return 0.01 * p.value();
}
inline length metres(double m) {
    return length::from_value(m);
}
inline length feet(double f) {
    return length::from_value(0.3048 * f);
}
inline double in_metres(length l) {
    return l.value();
}
inline volume millilitres(double ml) {
    return volume::from_value(1.0e-6 * ml);
}
inline double in_millilitres(volume v) {
    return 1.0e6 * v.value();
}
inline double in_seconds(duration d) {
    return d.value();
}
inline dynamic_viscosity pascal_seconds(double v) {
    return dynamic_viscosity::from_value(v);
}
inline double in_pascal_seconds(dynamic_viscosity v) {
    return v.value();
}

}  // namespace sirop
