// Mixtures that several tests put together, and their names in a message.
#pragma once

#include <string>

#include "sirop/solution/mixture.hpp"

namespace sirop_test {

/// 100 g of a solution of one component.
inline sirop::core::mixture solution(sirop::core::component solute, double mass_percent) {
    sirop::core::mixture m;
    m[solute] = mass_percent;
    m[sirop::core::component::water] = 100.0 - mass_percent;
    return m;
}

/// What is in a mixture, for a message.
inline std::string describe(const sirop::core::mixture& m) {
    std::string text;
    for (const auto& c : sirop::core::components)
        if (m[c.id] > 0.0) text += std::string(c.name) + " " + std::to_string(m[c.id]) + ", ";
    return text;
}

}  // namespace sirop_test
