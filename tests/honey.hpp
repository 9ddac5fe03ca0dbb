// The honey that several tests share, and what a refractometer's table says of honey.
#pragma once

#include <cmath>

#include "csv.hpp"
#include "mixtures.hpp"

namespace sirop_test {

/// Mean of 490 US honeys (White et al. 1962), 100 g, or the same solids with another % of water.  What the
/// analysis leaves open (3 %) counts as higher saccharides.
inline sirop::core::mixture honey(double water_percent = 17.2) {
    using sirop::core::component;
    const csv_row row = read_csv("honey.csv").rows.at(0);
    auto m = made_of({{component::water, row.number("water")},
                      {component::fructose, row.number("fructose")},
                      {component::glucose, row.number("glucose")},
                      {component::sucrose, row.number("sucrose")},
                      {component::maltose, row.number("reducing_disaccharides_as_maltose")},
                      {component::higher_saccharides, row.number("higher_sugars")},
                      {component::minerals, row.number("ash")}});
    m[component::higher_saccharides] += 100.0 - m.total();
    return m.with_water(m.dissolved() * water_percent / (100.0 - water_percent));
}

/// Refractive index, 20 C, of honey by its % of water: Wedmore, Bee World 36 (1955) 197, the equation behind the
/// moisture tables of honey, water = (-0.2681 - log10(n - 1))/0.002243 (recalled, confidence high); 13 to 21 %.
inline double wedmore_index(double water_percent) {
    return 1.0 + std::pow(10.0, -0.2681 - 0.002243 * water_percent);
}

}  // namespace sirop_test
