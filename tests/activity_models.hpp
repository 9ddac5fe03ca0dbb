// Published models of water activity that the library does not use itself, for comparison in tests and report.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include "csv.hpp"
#include "mixtures.hpp"
#include "published.hpp"
#include "sirop/solution/isotherm.hpp"

namespace sirop_test {

/// ln aw of sucrose + glucose + water by the modified UNIQUAC of Peres & Macedo 1996, the energies between the
/// sugars zero (recalled).  Grams of each; T in K.
inline double uniquac_ternary_ln_activity(double sucrose_grams, double glucose_grams, double water_grams,
                                          double t) {
    namespace formula = sirop::formula;
    const auto of_sucrose = formula::uniquac_at(t, formula::uniquac_sucrose);
    const auto of_glucose = formula::uniquac_at(t, formula::uniquac_glucose);
    std::array<double, 3> x = {water_grams / formula::water_molar_mass,
                               sucrose_grams / sirop::core::sucrose_molar_mass,
                               glucose_grams / sirop::core::glucose_molar_mass};
    constexpr std::array<double, 3> r = {0.92, 14.5496, 8.1528}, q = {1.4, 13.764, 7.92};
    const double moles = x[0] + x[1] + x[2];
    double volume = 0.0, surface = 0.0;
    for (std::size_t i = 0; i < 3; ++i) {
        x[i] /= moles;
        volume += x[i] * std::pow(r[i], 2.0 / 3.0);
        surface += x[i] * q[i];
    }
    const double ratio = std::pow(r[0], 2.0 / 3.0) / volume;  // volume fraction of water over its mole fraction
    std::array<double, 3> theta{};
    for (std::size_t i = 0; i < 3; ++i) theta[i] = x[i] * q[i] / surface;
    const std::array<double, 3> to_water = {1.0, of_sucrose.sugar_water, of_glucose.sugar_water};
    const std::array<double, 3> from_water = {1.0, of_sucrose.water_sugar, of_glucose.water_sugar};
    double around_water = 0.0;
    for (std::size_t i = 0; i < 3; ++i) around_water += theta[i] * to_water[i];
    double shares = theta[0] / around_water;
    for (std::size_t i = 1; i < 3; ++i)
        shares += theta[i] * from_water[i] / (theta[0] * from_water[i] + theta[1] + theta[2]);
    return std::log(x[0] * ratio) + 1.0 - ratio + q[0] * (1.0 - std::log(around_water) - shares);
}

/// The same by the additive rule on the two binaries.
inline double uniquac_additive_ln_activity(double sucrose_grams, double glucose_grams, double water_grams,
                                           double t) {
    namespace core = sirop::core;
    return bisect(
        [&](double ln_aw) {
            return sucrose_grams *
                       core::water_held(core::data_of(core::component::sucrose), ln_aw, t, core::curve::second) +
                   glucose_grams * core::water_held(core::data_of(core::component::glucose), ln_aw, t) -
                   water_grams;
        },
        -6.0, -1.0e-3);
}

/// The two over 60 to 95 % solids, 25 to 120 C, three ratios of the sugars.
template <class Take>
void compare_ternary_uniquac(const Take& take) {
    for (const double celsius : {25.0, 60.0, 90.0, 120.0})
        for (double w = 60.0; w <= 95.0; w += 5.0)
            for (const double share : {0.25, 0.5, 0.75}) {
                const double t = kelvin(celsius), sucrose = share * w, glucose = w - sucrose;
                take(std::exp(uniquac_ternary_ln_activity(sucrose, glucose, 100.0 - w, t)) -
                         std::exp(uniquac_additive_ln_activity(sucrose, glucose, 100.0 - w, t)),
                     w, celsius);
            }
}

/// A published number of a row like "water activity ..., sucrose, 85 %, ..., value".
struct published_at {
    double percent, value;
    std::string place;
};

/// The rows of a table whose quantity begins so and whose composition is a percentage.
inline std::vector<published_at> rows_of(const std::string& file, const std::string& quantity,
                                         const std::string& solutes) {
    std::vector<published_at> found;
    for (const csv_row& row : read_csv(file).rows)
        if (row.text("quantity").rfind(quantity, 0) == 0 && row.text("solutes") == solutes)
            found.push_back({std::stod(row.text("composition")), row.number("value"), row.place()});
    return found;
}

/// Water activities of sucrose by the fit to levitated droplets (Zobrist et al. 2011), 25 C.
inline std::vector<published_at> droplet_activities() {
    return rows_of("sucrose_activity_droplets.csv", "water activity (computed", "sucrose");
}
/// Boiling-point elevations of pure technical sugar solutions, K, 1 atm (Bubnik & Kadlec 1995).
inline std::vector<published_at> technical_elevations() {
    return rows_of("boiling_point_technical_sugar.csv", "BPE (computed", "sucrose");
}
/// Water activities of Greek honeys at the two ends of their water, which need not be the same honeys.
inline std::vector<published_at> greek_honey_activities() {
    return rows_of("honey_activity_glass.csv", "water activity", "honey, 33 Greek");
}
inline constexpr double honey_laboratories_differ = 0.03;  ///< either way, in aw at equal water; same source
/// Boiling-point elevations of milk concentrate, K, by % of total solids; pressure not stated.
inline std::vector<published_at> milk_elevations() {
    return rows_of("boiling_point_milk_concentrate.csv", "boiling point rise", "milk solids");
}

/// Skim milk solids with water: lactose, protein and minerals of skim milk powder (USDA SR Legacy, NDB 01091).
inline sirop::core::mixture skim_milk(double total_solids) {
    using sirop::core::component;
    auto m = made_of({{component::lactose, 51.98},
                      {component::protein, 36.16},
                      {component::minerals, 7.93},
                      {component::fat, 0.77}})
                 .times(total_solids / 96.84);
    return m.with_water(100.0 - total_solids);
}

}  // namespace sirop_test
