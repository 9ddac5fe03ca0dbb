// Lines, batches and mixtures of the pantry, and glucose-syrup solids, that several tests put together.
#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "sirop/cooking/batch.hpp"

namespace sirop_test {

inline sirop::core::ingredient_line line(const std::string& name, double grams = 0.0, double celsius = 20.0) {
    const auto per_gram = sirop::core::pantry_composition(name);
    if (!per_gram) throw std::runtime_error("not in the pantry: " + name);
    return {name, *per_gram, grams, celsius};
}

inline sirop::core::batch batch_of(std::vector<sirop::core::ingredient_line> pan,
                                   double thermometer_celsius = sirop::core::not_a_number,
                                   std::vector<sirop::core::ingredient_line> off_heat = {}) {
    sirop::core::batch b;
    b.pan = std::move(pan);
    b.off_heat = std::move(off_heat);
    b.thermometer_celsius = thermometer_celsius;
    return b;
}

/// A caramel sauce of 590 g (invented).
inline sirop::core::batch cream_caramel(double thermometer_celsius = sirop::core::not_a_number) {
    return batch_of({line("white sugar", 250), line("glucose syrup 42 DE", 60), line("heavy cream 36 %", 240)},
                    thermometer_celsius, {line("butter, unsalted", 40)});
}

/// The same batch, so many times as large.
inline sirop::core::batch sized(sirop::core::batch b, double factor) {
    for (auto* lines : {&b.pan, &b.off_heat})
        for (auto& l : *lines) l.grams *= factor;
    return b;
}

/// 100 g of a row of the pantry; raw: its protein never boiled.
inline sirop::core::mixture of_pantry(const std::string& name, bool raw = false) {
    using namespace sirop::core;
    mixture m;
    const auto per_gram = line(name, 100.0).per_gram;
    for (std::size_t i = 0; i < component_count; ++i) m.grams[i] = 100.0 * per_gram[i];
    if (raw) m.raw(component::protein) = m[component::protein];
    return m;
}

inline void add_syrup_solids(sirop::core::mixture& m, double grams, double dextrose_equivalent = 42.0) {
    const auto solids = sirop::core::starch_syrup_solids(dextrose_equivalent);
    for (std::size_t i = 0; i < sirop::core::component_count; ++i) m.grams[i] += 0.01 * grams * solids[i];
}

}  // namespace sirop_test
