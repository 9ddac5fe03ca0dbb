// What can grain: which components, from where on, and what stands in their way.  Data only.
#pragma once

#include <array>
#include <string_view>

#include "components.hpp"

namespace sirop::core {

/// How a dissolved component stands in the way of crystals of another: as a small molecule, as sucrose, as a large
/// one, or not at all.
enum hindrance : unsigned char { hinders_not = 0, small_hinders = 1, sucrose_hinders = 2, large_hinders = 4 };

/// A component that can grain.
struct grainer {
    component id;
    solubility_law law;
    double first_celsius, last_celsius;  ///< of its law, inclusive
    double data_from, data_to;           ///< C, of the measurements beneath it
    double low_limit, high_limit;        ///< supersaturation: below, seeds only grow; above, it grains by itself
    unsigned hindered_by;                ///< hindrances
    bool at_once;                        ///< beyond the high limit; else in time
    std::string_view word;               ///< what a cook calls it
    std::string_view limits_source;
};

/// Sucrose and lactose: recalled, confidence medium.  Glucose: high-fructose syrups are stored warmer than 1.4
/// (common practice, no source); honey of more than 2.1 g of glucose to 1 g of water, 2.3 here, grains soon (White
/// et al. 1962, recalled, confidence medium).  The others are our estimates.
inline constexpr std::array<grainer, 7> grainers = {{
    {component::sucrose, solubility_law::sucrose, 0, 100, 0, 100, 1.2, 1.3, small_hinders | large_hinders, true,
     "graining", "metastable zone 1.2 to 1.3, recalled, confidence medium"},
    {component::glucose, solubility_law::glucose, 0, 90, 0, 90, 1.4, 2.3, sucrose_hinders | large_hinders, false,
     "graining",
     "storage of high-fructose syrups, common practice, no source; honey, White et al. 1962, recalled"},
    {component::fructose, solubility_law::fructose, 0, 90, 20, 50, 1.4, 2.3, sucrose_hinders | large_hinders,
     false, "graining", "our estimate, as glucose"},
    {component::lactose, solubility_law::lactose, 0, 89, 0, 89, 1.6, 2.1, small_hinders | large_hinders, false,
     "sandiness", "metastable zone 1.6 to 2.1, recalled, confidence medium"},
    {component::maltose, solubility_law::maltose, 0, 96.5, 0.6, 96.5, 1.4, 2.3, sucrose_hinders | large_hinders,
     false, "graining", "our estimate, as glucose"},
    {component::sorbitol, solubility_law::sorbitol, 0, 90, 10, 40, 1.4, 2.3, sucrose_hinders | large_hinders,
     false, "graining", "our estimate, as glucose"},
    {component::salt, solubility_law::salt, 0, 100, 0, 100, 1.02, 1.05, hinders_not, true, "salt crystals",
     "our estimate"},
}};

/// The row of a component that can grain; nothing for another.
constexpr const grainer* grainer_of(component id) {
    for (const auto& g : grainers)
        if (g.id == id) return &g;
    return nullptr;
}

/// How a component hinders.  Salts are not counted, nor lactose, which crystallizes apart.
constexpr hindrance hindrance_of(const component_data& c) {
    if (c.where != phase::dissolved || c.isotherm.kind == isotherm_kind::electrolyte ||
        c.solubility == solubility_law::lactose)
        return hinders_not;
    if (c.solubility == solubility_law::sucrose) return sucrose_hinders;
    return c.small_sugar ? small_hinders : large_hinders;
}

}  // namespace sirop::core
