// Mixtures that several tests put together, and their names in a message.
#pragma once

#include <initializer_list>
#include <string>
#include <utility>

#include "sirop/solution/mixture.hpp"

namespace sirop_test {

/// A mixture of these masses in g.
inline sirop::core::mixture made_of(std::initializer_list<std::pair<sirop::core::component, double>> parts) {
    sirop::core::mixture m;
    for (const auto& [which, grams] : parts) m[which] += grams;
    return m;
}

/// 100 g of a solution of one component.
inline sirop::core::mixture solution(sirop::core::component solute, double mass_percent) {
    return made_of({{solute, mass_percent}, {sirop::core::component::water, 100.0 - mass_percent}});
}

/// What is in a mixture, for a message.
inline std::string describe(const sirop::core::mixture& m) {
    std::string text;
    for (const auto& c : sirop::core::components)
        if (m[c.id] > 0.0) text += std::string(c.name) + " " + std::to_string(m[c.id]) + ", ";
    return text;
}

}  // namespace sirop_test
