// What starch syrups are made of, by dextrose equivalent.  Data only.
//
// Source: starch-industry table, reprinted in Whistler & Paschall, Starch: Chemistry and Technology, and in
// Kearsley & Dziedzic; recalled, confidence high.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

#include "components.hpp"

namespace sirop::core {

/// One row of the starch-industry table.
struct starch_syrup {
    double dextrose_equivalent;
    std::array<double, 8> chains;  ///< % of dry substance with 1, 2 ... 7 glucose units; last, 8 and more
    double fructose;               ///< % of dry substance
    std::string_view source;
};

namespace detail {
inline constexpr std::string_view starch_table =
    "Starch-industry table (Whistler & Paschall); recalled, confidence high";
}  // namespace detail

inline constexpr auto starch_syrups = std::to_array<starch_syrup>({
    // clang-format off
    {10, {2.3, 2.8, 2.9, 3, 3, 2.2, 2.1, 81.7}, 0, detail::starch_table},
    {15, {3.7, 4.4, 4.4, 4.5, 4.3, 3.3, 3, 72.4}, 0, detail::starch_table},
    {20, {5.5, 5.9, 5.8, 5.8, 5.5, 4.3, 3.9, 63.3}, 0, detail::starch_table},
    {25, {7.7, 7.5, 7.2, 7.2, 6.5, 5.2, 4.6, 54.1}, 0, detail::starch_table},
    {30, {10.4, 9.3, 8.6, 8.2, 7.2, 6, 5.2, 45.1}, 0, detail::starch_table},
    {35, {13.4, 11.3, 10, 9.1, 7.8, 6.5, 5.5, 36.4}, 0, detail::starch_table},
    {40, {16.9, 13.2, 11.2, 9.7, 8.3, 6.7, 5.7, 28.3}, 0, detail::starch_table},
    {42, {18.5, 13.9, 11.6, 9.9, 8.4, 6.6, 5.7, 25.4}, 0, detail::starch_table},
    {45, {21, 14.9, 12.2, 10.1, 8.4, 6.5, 5.6, 21.3}, 0, detail::starch_table},
    {50, {25.8, 16.6, 12.9, 10, 7.9, 5.9, 5, 15.9}, 0, detail::starch_table},
    {55, {30.8, 18.1, 13.2, 9.5, 7.2, 5.1, 4.2, 11.9}, 0, detail::starch_table},
    {60, {36.2, 19.5, 13.2, 8.7, 6.3, 4.4, 3.2, 8.5}, 0, detail::starch_table},
    // clang-format on
});

inline constexpr double min_dextrose_equivalent = starch_syrups.front().dextrose_equivalent;
inline constexpr double max_dextrose_equivalent = starch_syrups.back().dextrose_equivalent;

/// The component of each entry of starch_syrup::chains.
inline constexpr std::array<component, 8> chain_components = {
    component::glucose,       component::maltose,      component::maltotriose,   component::maltotetraose,
    component::maltopentaose, component::maltohexaose, component::maltoheptaose, component::higher_saccharides};

/// Composition of 100 g dry substance of a starch syrup, grams: linear between the neighbouring rows, divided by
/// its sum.  The caller checks the range; outside it the end row answers.
constexpr std::array<double, component_count> starch_syrup_solids(double dextrose_equivalent) {
    std::size_t upper = 0;
    while (upper + 1 < starch_syrups.size() && starch_syrups[upper].dextrose_equivalent < dextrose_equivalent)
        ++upper;
    const starch_syrup& b = starch_syrups[upper];
    const starch_syrup& a = starch_syrups[upper == 0 ? 0 : upper - 1];
    double t = 1;
    if (upper > 0 && dextrose_equivalent < b.dextrose_equivalent)
        t = (dextrose_equivalent - a.dextrose_equivalent) / (b.dextrose_equivalent - a.dextrose_equivalent);

    std::array<double, component_count> grams{};
    for (std::size_t i = 0; i < chain_components.size(); ++i)
        grams[index_of(chain_components[i])] = (1 - t) * a.chains[i] + t * b.chains[i];
    grams[index_of(component::fructose)] = (1 - t) * a.fructose + t * b.fructose;

    double sum = 0;
    for (const double g : grams) sum += g;
    for (double& g : grams) g *= 100 / sum;
    return grams;
}

namespace detail {
constexpr bool starch_syrups_ascend() {
    for (std::size_t i = 1; i < starch_syrups.size(); ++i)
        if (!(starch_syrups[i - 1].dextrose_equivalent < starch_syrups[i].dextrose_equivalent)) return false;
    return true;
}
}  // namespace detail

static_assert(detail::starch_syrups_ascend(), "the starch syrups stand in ascending dextrose equivalent");

}  // namespace sirop::core
