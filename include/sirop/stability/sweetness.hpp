// How sweet a batch is, as the sucrose that would be as sweet.
#pragma once

#include <array>
#include <cmath>

#include "../solution/mixture.hpp"

namespace sirop::core {

/// Grams of sucrose that are as sweet as one gram of a component.
struct relative_sweetness {
    component id;
    double value, low, high;
};

/// From memory, confidence medium.  Tasters disagree by as much as the interval, and fructose is sweetest when it
/// is cold.  The longer chains are our estimate; sugars are taken to add up, though mixtures often taste sweeter.
inline constexpr std::array<relative_sweetness, 14> sweetness_table = {{
    {component::sucrose, 1.0, 1.0, 1.0},
    {component::glucose, 0.7, 0.6, 0.8},
    {component::fructose, 1.4, 1.2, 1.7},
    {component::galactose, 0.35, 0.3, 0.6},
    {component::lactose, 0.2, 0.15, 0.4},
    {component::maltose, 0.4, 0.3, 0.5},
    {component::maltotriose, 0.3, 0.2, 0.35},
    {component::maltotetraose, 0.2, 0.1, 0.3},
    {component::maltopentaose, 0.15, 0.05, 0.25},
    {component::maltohexaose, 0.1, 0.0, 0.2},
    {component::maltoheptaose, 0.1, 0.0, 0.2},
    {component::higher_saccharides, 0.1, 0.0, 0.2},
    {component::sorbitol, 0.6, 0.5, 0.7},
    {component::glycerol, 0.6, 0.5, 0.7},
}};

/// Grams of sucrose that would be as sweet; crystals count as dissolved, for they melt in the mouth.
/// Not computed for masses that are not finite.
inline estimate sweetness_grams(const mixture& m) {
    estimate e{0.0, 0.0, 0.0, grade::fine};
    for (const auto& row : sweetness_table) {
        const double grams = m[row.id] + (row.id == component::sucrose   ? m.sucrose_crystals
                                          : row.id == component::lactose ? m.lactose_crystals
                                                                         : 0.0);
        e.value += row.value * grams;
        e.low += row.low * grams;
        e.high += row.high * grams;
    }
    return std::isfinite(e.value) ? e : estimate{};
}

/// The same per 100 g of all; not computed for nothing at all either.
inline estimate sweetness_percent(const mixture& m) {
    const double total = m.total();
    const estimate e = sweetness_grams(m);
    if (!e.computed() || !(total > 0.0)) return {};
    return {100.0 * e.value / total, 100.0 * e.low / total, 100.0 * e.high / total, e.status};
}

}  // namespace sirop::core
