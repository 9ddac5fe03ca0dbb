// Units and scales of the kitchen: Fahrenheit, Brix, Baume, density, sugar per litre.  Plain functions, the unit
// in each name.
//
// Brix is here the mass % of a plain sucrose solution at 20 C, 0 to 95, by the density of ICUMSA SPS-4 (fitted to
// about 80 %); Baume is 145 - 145/SG(20/20).  Outside the range, and for NaN, every function of Brix and its
// inverse answers NaN.  A syrup of other sugars has other numbers: solution/properties.hpp.
#pragma once

#include <array>
#include <string_view>

#include "../formula/density.hpp"
#include "solve.hpp"
#include "text.hpp"  // celsius_to_fahrenheit and fahrenheit_to_celsius, for points on the scale

namespace sirop::core {

/// Differences of temperature: 10 K are 18 F.
constexpr double kelvin_difference_to_fahrenheit(double kelvin) {
    return kelvin * 1.8;
}
constexpr double fahrenheit_difference_to_kelvin(double fahrenheit) {
    return fahrenheit / 1.8;
}

inline constexpr double max_conversion_brix = 95.0;
inline constexpr double max_conversion_baume = 60.0;  ///< sucrose ends at 49.5

inline double brix_to_density_kg_m3(double brix) {
    if (!(brix >= 0.0 && brix <= max_conversion_brix)) return not_a_number;
    return formula::sucrose_density(0.01 * brix, 20.0);
}

/// Grams of sugar in a litre of the solution.
inline double brix_to_grams_sugar_per_litre(double brix) {
    return 0.01 * brix * brix_to_density_kg_m3(brix);
}

inline double brix_to_specific_gravity(double brix) {
    return brix_to_density_kg_m3(brix) / formula::water_density(20.0);
}

/// By the definition, whatever the liquid; 0 to 60 degrees.
inline double baume_to_specific_gravity(double baume) {
    if (!(baume >= 0.0 && baume <= max_conversion_baume)) return not_a_number;
    return 145.0 / (145.0 - baume);
}

inline double brix_to_baume(double brix) {
    return 145.0 - 145.0 / brix_to_specific_gravity(brix);
}

namespace detail {

/// The Brix at which a rising function of it has a value; NaN beyond its values at 0 and 95.
template <class Function>
double brix_at(const Function& rising, double value) {
    if (!(value >= rising(0.0) && value <= rising(max_conversion_brix))) return not_a_number;
    return solve_monotone([&](double brix) { return rising(brix) - value; }, 50.0, 0.0, max_conversion_brix);
}

}  // namespace detail

inline double density_kg_m3_to_brix(double density_kg_m3) {
    return detail::brix_at(brix_to_density_kg_m3, density_kg_m3);
}
inline double grams_sugar_per_litre_to_brix(double grams) {
    return detail::brix_at(brix_to_grams_sugar_per_litre, grams);
}
inline double baume_to_brix(double baume) {
    return detail::brix_at(brix_to_baume, baume);
}

/// All of them by name.
struct scale_conversion {
    std::string_view name;
    double (*of)(double);
};
inline constexpr auto scale_conversions = std::to_array<scale_conversion>({
    {"celsius_to_fahrenheit", [](double x) { return celsius_to_fahrenheit(x); }},
    {"fahrenheit_to_celsius", [](double x) { return fahrenheit_to_celsius(x); }},
    {"kelvin_difference_to_fahrenheit", [](double x) { return kelvin_difference_to_fahrenheit(x); }},
    {"fahrenheit_difference_to_kelvin", [](double x) { return fahrenheit_difference_to_kelvin(x); }},
    {"brix_to_density_kg_m3", [](double x) { return brix_to_density_kg_m3(x); }},
    {"brix_to_grams_sugar_per_litre", [](double x) { return brix_to_grams_sugar_per_litre(x); }},
    {"brix_to_specific_gravity", [](double x) { return brix_to_specific_gravity(x); }},
    {"brix_to_baume", [](double x) { return brix_to_baume(x); }},
    {"baume_to_specific_gravity", [](double x) { return baume_to_specific_gravity(x); }},
    {"density_kg_m3_to_brix", [](double x) { return density_kg_m3_to_brix(x); }},
    {"grams_sugar_per_litre_to_brix", [](double x) { return grams_sugar_per_litre_to_brix(x); }},
    {"baume_to_brix", [](double x) { return baume_to_brix(x); }},
});

}  // namespace sirop::core
