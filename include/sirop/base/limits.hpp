// What the doors accept: inclusive ranges as data, queryable from every language.
#pragma once

#include <array>
#include <string_view>

#include "../formula/no_fast_math.hpp"

namespace sirop::core {

struct limit {
    std::string_view name;
    double low, high;
    std::string_view unit;
    constexpr bool holds(double x) const { return x >= low && x <= high; }  // false for NaN
};

inline constexpr limit temperature_limit{"temperature_celsius", -30.0, 250.0, "°C"};
inline constexpr limit pressure_limit{"pressure_hpa", 300.0, 1100.0, "hPa"};
inline constexpr limit altitude_limit{"altitude_metres", -500.0, 9000.0, "m"};
inline constexpr limit water_boils_limit{"water_boils_celsius", 70.0, 102.0, "°C"};
inline constexpr limit thermometer_error_limit{"thermometer_error_kelvin", -15.0, 15.0, "K"};
inline constexpr limit target_limit{"target_celsius", -1000.0, 10000.0, "°C"};
inline constexpr limit thermometer_within_limit{"thermometer_within_kelvin", 0.0, 10.0, "K"};
inline constexpr limit serve_limit{"serve_celsius", -30.0, 100.0, "°C"};
inline constexpr limit pour_limit{"pour_celsius", -10.0, 120.0, "°C"};
inline constexpr limit added_limit{"added_celsius", -30.0, 120.0, "°C"};
inline constexpr limit grams_limit{"grams", 0.0, 1.0e9, "g"};
inline constexpr limit dextrose_equivalent_limit{"dextrose_equivalent", 10.0, 60.0, "DE"};
inline constexpr limit glucose_solids_limit{"solids_percent", 1.0, 100.0, "%"};
inline constexpr limit layers_limit{"layers_celsius", 0.0, 100.0, "°C"};

inline constexpr auto limits = std::to_array<limit>(
    {temperature_limit, pressure_limit, altitude_limit, water_boils_limit, thermometer_error_limit, target_limit,
     thermometer_within_limit, serve_limit, pour_limit, added_limit, grams_limit, dextrose_equivalent_limit,
     glucose_solids_limit, layers_limit});

constexpr const limit* find_limit(std::string_view name) {
    for (const auto& l : limits)
        if (l.name == name) return &l;
    return nullptr;
}

}  // namespace sirop::core
