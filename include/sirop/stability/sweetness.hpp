// How sweet a batch is, as the sucrose that would be as sweet.
#pragma once

#include "../base/estimate.hpp"
#include "../solution/mixture.hpp"

namespace sirop::core {

/// Grams of sucrose that would be as sweet, sugars taken to add up, though mixtures often taste sweeter; crystals
/// count as dissolved, for they melt in the mouth. Not computed for masses that are not finite.
inline estimate sweetness_grams(const mixture& m) {
    estimate e{0.0, 0.0, 0.0, grade::fine};
    for (const auto& c : components) {
        const double grams = m[c.id] + m.crystals(c.id);
        e.value += c.sweetness.value * grams;
        e.low += c.sweetness.low * grams;
        e.high += c.sweetness.high * grams;
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
