// The pure components: identity, constants and their sources.  Data only.
//
// Names are those of the batch file.  Molar masses are IUPAC 2021 atomic weights, rounded to 0.001 g/mol;
// the saccharides of n glucose units have M = 162.141 n + 18.015 g/mol.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "../formula/no_fast_math.hpp"

namespace sirop::core {

enum class component : unsigned char {
    water,
    sucrose,
    glucose,
    fructose,
    galactose,
    lactose,
    maltose,
    maltotriose,
    maltotetraose,
    maltopentaose,
    maltohexaose,
    maltoheptaose,
    higher_saccharides,
    sorbitol,
    glycerol,
    salt,
    minerals,
    protein,
    starch,
    fibre,
    cocoa_solids,
    fat,  ///< milk fat, and any fat not told apart
    acid,
    cocoa_butter,
    vegetable_fat,
    agar,
    gelatin
};

inline constexpr std::size_t component_count = 27;

/// How a component holds water: which isotherm of formula/isotherm.hpp describes it.
enum class isotherm_kind : unsigned char {
    none,            ///< water itself, and fat
    sucrose,         ///< Starzak & Peacock 1997, per gram
    monosaccharide,  ///< modified UNIQUAC of glucose, per gram
    chain,           ///< Flory-Huggins by number of glucose units
    sorbitol,        ///< Norrish
    glycerol,        ///< one-constant form fitted to published model values
    electrolyte,     ///< Pitzer NaCl and its continuation
    solid            ///< GAB
};

/// Where a component sits in a syrup: in the liquid, or in it as a separate body.
enum class phase : unsigned char { solvent, dissolved, suspended, fat };

/// The component classes of Choi & Okos for heat capacity.
enum class heat_class : unsigned char { water, carbohydrate, protein, fat, fibre, ash };

struct component_data {
    component id;
    std::string_view name;
    phase where;
    isotherm_kind isotherm;
    double units;           ///< glucose units in the chain (chain), share of the salt curve (electrolyte), else 1
    double glass_celsius;   ///< dry glass transition, see glass_source; NaN where none is used
    double glass_constant;  ///< Gordon-Taylor constant with water
    double volume_ratio;    ///< specific volume in solution over that of sucrose (glucose: CRC
                            ///< Handbook densities at 40..60 %; salts from the density of a
                            ///< 20 % brine, recalled; others our estimate, from memory)
    double refraction_ratio;  ///< specific refraction over that of sucrose (salts: molar refraction 9.3 cm3,
                              ///< glycerol 20.5, from memory, confidence medium; others as sucrose)
    heat_class heat;
    std::string_view glass_source;
};

namespace detail {
inline constexpr double no_glass = __builtin_nan("");
inline constexpr std::string_view roos93 = "Roos, Carbohydr. Res. 238 (1993) 39; recalled, confidence high";
inline constexpr std::string_view chain_glass = "our estimate, from the order of the 77 % corn-syrup viscosity";
inline constexpr std::string_view not_used = "not counted in the glass transition";
inline constexpr std::string_view acid_glass = "as for a monosaccharide of 11 C; from memory, confidence low";
inline constexpr std::string_view glycerol_glass =
    "190 K; from memory, confidence medium; k by Roos's correlation";
}  // namespace detail

inline constexpr std::array<component_data, component_count> components = {{
    // clang-format off
    // id, name, where, isotherm, units, Tg, k, volume ratio, refraction ratio, heat, source of Tg and k
    {component::water, "water", phase::solvent, isotherm_kind::none, 1, -137.15, 1, 1, 1, heat_class::water, "136.0 K, published"},
    {component::sucrose, "sucrose", phase::dissolved, isotherm_kind::sucrose, 1, 62, 5.42, 1, 1, heat_class::carbohydrate, detail::roos93},
    {component::glucose, "glucose", phase::dissolved, isotherm_kind::monosaccharide, 1, 31, 4.52, 1.012, 1, heat_class::carbohydrate, detail::roos93},
    {component::fructose, "fructose", phase::dissolved, isotherm_kind::monosaccharide, 1, 5, 3.76, 0.993, 1, heat_class::carbohydrate, detail::roos93},
    {component::galactose, "galactose", phase::dissolved, isotherm_kind::monosaccharide, 1, 30, 4.49, 1.0, 1, heat_class::carbohydrate, detail::roos93},
    {component::lactose, "lactose", phase::dissolved, isotherm_kind::sucrose, 1, 101, 6.56, 1.0, 1, heat_class::carbohydrate, detail::roos93},
    {component::maltose, "maltose", phase::dissolved, isotherm_kind::sucrose, 1, 87, 6.15, 1.0, 1, heat_class::carbohydrate, detail::roos93},
    {component::maltotriose, "maltotriose", phase::dissolved, isotherm_kind::chain, 3, 115, 6.3, 0.99, 1, heat_class::carbohydrate, detail::chain_glass},
    {component::maltotetraose, "maltotetraose", phase::dissolved, isotherm_kind::chain, 4, 115, 6.3, 0.99, 1, heat_class::carbohydrate, detail::chain_glass},
    {component::maltopentaose, "maltopentaose", phase::dissolved, isotherm_kind::chain, 5, 115, 6.3, 0.99, 1, heat_class::carbohydrate, detail::chain_glass},
    {component::maltohexaose, "maltohexaose", phase::dissolved, isotherm_kind::chain, 6, 115, 6.3, 0.99, 1, heat_class::carbohydrate, detail::chain_glass},
    {component::maltoheptaose, "maltoheptaose", phase::dissolved, isotherm_kind::chain, 7, 115, 6.3, 0.99, 1, heat_class::carbohydrate, detail::chain_glass},
    {component::higher_saccharides, "higher_saccharides", phase::dissolved, isotherm_kind::chain, 20, 115, 6.3, 0.98, 1, heat_class::carbohydrate, detail::chain_glass},
    {component::sorbitol, "sorbitol", phase::dissolved, isotherm_kind::sorbitol, 1, -9, 3.35, 1.05, 1, heat_class::carbohydrate, detail::roos93},
    {component::glycerol, "glycerol", phase::dissolved, isotherm_kind::glycerol, 1, -83.15, 1.17, 1.25, 1.087, heat_class::carbohydrate, detail::glycerol_glass},
    {component::salt, "salt", phase::dissolved, isotherm_kind::electrolyte, 1, detail::no_glass, 1, 0.56, 0.778, heat_class::ash, detail::not_used},
    {component::minerals, "minerals", phase::dissolved, isotherm_kind::electrolyte, 0.42, detail::no_glass, 1, 0.56, 0.778, heat_class::ash, detail::not_used},
    {component::protein, "protein", phase::suspended, isotherm_kind::solid, 1, detail::no_glass, 1, 1.2, 1, heat_class::protein, detail::not_used},
    {component::starch, "starch", phase::suspended, isotherm_kind::solid, 1, detail::no_glass, 1, 1.07, 1, heat_class::carbohydrate, detail::not_used},
    {component::fibre, "fibre", phase::suspended, isotherm_kind::solid, 1, detail::no_glass, 1, 1.07, 1, heat_class::fibre, detail::not_used},
    {component::cocoa_solids, "cocoa_solids", phase::suspended, isotherm_kind::solid, 1, detail::no_glass, 1, 1.1, 1, heat_class::fibre, detail::not_used},
    {component::fat, "fat", phase::fat, isotherm_kind::none, 1, detail::no_glass, 1, 1.75, 1, heat_class::fat, detail::not_used},
    {component::acid, "acid", phase::dissolved, isotherm_kind::monosaccharide, 1, 11, 3.93, 0.95, 1, heat_class::carbohydrate, detail::acid_glass},
    {component::cocoa_butter, "cocoa_butter", phase::fat, isotherm_kind::none, 1, detail::no_glass, 1, 1.75, 1, heat_class::fat, detail::not_used},
    {component::vegetable_fat, "vegetable_fat", phase::fat, isotherm_kind::none, 1, detail::no_glass, 1, 1.75, 1, heat_class::fat, detail::not_used},
    {component::agar, "agar", phase::suspended, isotherm_kind::solid, 1, detail::no_glass, 1, 1.07, 1, heat_class::fibre, detail::not_used},
    {component::gelatin, "gelatin", phase::suspended, isotherm_kind::solid, 1, detail::no_glass, 1, 1.2, 1, heat_class::protein, detail::not_used},
    // clang-format on
}};

constexpr std::size_t index_of(component c) {
    return static_cast<std::size_t>(c);
}
constexpr const component_data& data_of(component c) {
    return components[index_of(c)];
}

/// The component of that exact name, or nothing.
constexpr std::optional<component> find_component(std::string_view name) {
    for (const auto& c : components)
        if (c.name == name) return c.id;
    return std::nullopt;
}

}  // namespace sirop::core
