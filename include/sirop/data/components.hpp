// The pure components: everything that is known of each, one row a component.  Data only.
//
// Names are those of the batch file.  Molar masses are IUPAC 2021 atomic weights, rounded to 0.001 g/mol;
// the saccharides of n glucose units have M = 162.141 n + 18.015 g/mol.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "../base/scalar.hpp"
#include "../formula/heat.hpp"
#include "../formula/no_fast_math.hpp"
#include "../formula/texture.hpp"

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
    gelatin,
    isomalt,
    maltitol,
    ethanol
};

inline constexpr std::size_t component_count = 30;

/// Where a component sits in a syrup: in the liquid, or in it as a separate body.  A spirit thins the liquid, and
/// is counted neither as water nor as solids.
enum class phase : unsigned char { solvent, dissolved, suspended, fat, spirit };

/// The equation by which a component holds water, of formula/isotherm.hpp.
enum class isotherm_kind : unsigned char {
    none,            ///< water itself, and fat
    sucrose,         ///< Starzak & Peacock 1997, per gram
    monosaccharide,  ///< modified UNIQUAC of glucose, per gram
    chain,           ///< Flory-Huggins by number of glucose units
    polyol,          ///< Norrish, by molar mass
    glycerol,        ///< between published and recalled values
    electrolyte,     ///< Pitzer NaCl and its continuation
    solid            ///< GAB
};

/// Molar masses, g/mol (IUPAC 2021).
inline constexpr double sucrose_molar_mass = 342.297, glucose_molar_mass = 180.156, sorbitol_molar_mass = 182.172,
                        glycerol_molar_mass = 92.094, sodium_chloride_molar_mass = 58.443,
                        ethanol_molar_mass = 46.069;

/// How a component holds water.
template <class Number>
struct isotherm_columns {
    isotherm_kind kind = isotherm_kind::none;
    Number fitted_from = -1.0e3, fitted_to = 1.0e4;  ///< C in which the law was fitted
    Number size =
        1.0;  ///< chain: volume in water molecules; polyol: molar mass; electrolyte: share of salt's curve
    Number norrish_k = 0.0;             ///< polyol
    Number m0 = 0.0, c = 0.0, k = 0.0;  ///< solid: GAB, as printed
    Number above_glucose = 0.0;         ///< monosaccharide: ln aw above glucose, dilute, by x^2

    constexpr bool operator==(const isotherm_columns&) const = default;
};

using sides_by_solids = formula::broken_line<5>;

/// Relative uncertainty of ln aw at given water, which is that of the model alone: `times` the line by the solids
/// fraction, at least `least`, and `plus` on top.  `dry` is the line of the side of less water, if it is another.
/// Chains have a law of their own.
struct isotherm_trust {
    const sides_by_solids* line = nullptr;
    double times = 1.0, least = 0.0, plus = 0.0;
    const sides_by_solids* dry = nullptr;
    double dry_per_kelvin = 0.0;  ///< besides, on that side, for each K above 25 C

    constexpr bool operator==(const isotherm_trust&) const = default;
};

/// Share of a gel that has set at a temperature in C, by how it got there: 1 below, 0 above, linear between.
struct gel_setting {
    double set_celsius, liquid_celsius;  ///< cooling
    double gel_celsius, melted_celsius;  ///< warming
};

/// How a component gels in its water: modulus = prefactor times a power of its mass fraction, Pa.
struct gel_columns {
    double prefactor = 0.0;  ///< formula/texture.hpp; 0: no gel
    int power = 2;
    const gel_setting* melts = nullptr;  ///< null: it softens as it warms
};

/// Density of what is not in solution, g/cm3: linear in C.
struct density_line {
    double at_zero = 0.0, slope = 0.0;
    constexpr double at(double celsius) const { return 1.0e-3 * (at_zero + slope * celsius); }
};

/// Which solubility of formula/solubility.hpp; as a column of a component, if it may arrive as crystals.
enum class solubility_law : unsigned char { none, sucrose, glucose, fructose, lactose, maltose, sorbitol, salt };

/// Volume that one gram thickens by: so many cm3, and so many times its own volume.
struct swelling_columns {
    double cm3_per_gram = 0.0, times_volume = 1.0;
};

/// A sentence that belongs to a component, shown from a share of the finished batch on, and served below a
/// temperature in C.
struct component_note {
    double from_share = 0.0, below_celsius = 1.0e4;
    bool of_cooked = false;  ///< the share is that of what is in the pan when the cook ends
    std::string_view text{};
    std::string_view in_much_sugar{};  ///< instead of it, where the syrup has more than 65 % solids
    std::string_view if_raw{};         ///< besides, where some of it has not boiled
};

/// What heat does to a component in the pan, from a share of the batch on: said when the cook ends above the first
/// temperature, and more sharply above the second; infinite: never.
struct heat_limit {
    double from_share = 0.0;
    double changes_celsius = std::numeric_limits<double>::infinity(),
           spoils_celsius = std::numeric_limits<double>::infinity();
    std::string_view changes{}, spoils{};
};

/// Gram for gram; sucrose is 1.
struct sweetness_columns {
    double value = 0.0, low = 0.0, high = 0.0;
};

/// How far the glass transition may lie from its value, K.  5: definitions (onset, midpoint, heating rate) differ.
inline constexpr double glass_error_kelvin = 5.0;
struct glass_errors {
    double low_kelvin = glass_error_kelvin, high_kelvin = glass_error_kelvin;
};

inline constexpr double counts_not = std::numeric_limits<double>::infinity();

struct component_data {
    component id{};
    std::string_view name{};
    phase where = phase::solvent;
    isotherm_columns<double> isotherm{};
    isotherm_trust trust{};
    double particle_molar_mass = 0.0;    ///< g per mole of what it brings into solution, ions counted apart
    double glass_celsius = 0.0;          ///< dry glass transition
    double glass_constant = counts_not;  ///< Gordon-Taylor constant with water; infinite if it is not counted
    std::string_view glass_source{};
    glass_errors glass_error{};
    bool small_sugar = false;       ///< counts as a monosaccharide in the viscosity
    double volume_ratio = 1.0;      ///< dissolved: specific volume in solution over that of sucrose
    double volume_slope = 0.0;      ///< what that ratio gains per mass fraction of solids
    double refraction_ratio = 1.0;  ///< dissolved: specific refraction over that of sucrose
    density_line density{};         ///< of what is not dissolved
    swelling_columns swelling{};
    formula::heat_capacity_law heat{};
    solubility_law solubility = solubility_law::none;
    gel_columns gel{};
    bool must_boil = false;  ///< to gel
    const formula::solid_fat_curve* solid_fat = nullptr;
    double bridging_share = 0.0;  ///< of the solid fat of an emulsion: what bridges from drop to drop
    sweetness_columns sweetness{};
    bool laxative = false;            ///< a sugar alcohol
    bool leaves_in_the_boil = false;  ///< gone before the pan is as hot as a syrup boils
    heat_limit in_the_heat{};
    component_note note{};
};

// --- laws that several share ------------------------------------------------------------------------------------

inline constexpr double chain_glass_error_kelvin = 12.0;  ///< our estimate
inline constexpr double chain_density = 1.55,
                        chain_water_density = 1.0;  ///< of the law of chains, g/cm3: our estimate

namespace rows {

using formula::heat_capacity_law;
inline constexpr std::string_view roos93 = "Roos, Carbohydr. Res. 238 (1993) 39; recalled, confidence high";
inline constexpr std::string_view chain_glass =
    "190 - 280/n C and k = 3.963 + 0.01927 Tg: our estimate and our fit, on maltodextrins by Roos & Karel, "
    "Biotechnol. Prog. 7 (1991) 49; recalled, confidence medium";
inline constexpr std::string_view not_counted = "not counted in the glass transition";

// What the isotherms err by.  Sucrose: docs/sucrose.md; +-0.2 K of boiling point to 75 %, 0.5 K at 85, 2 K at 90,
// about 5 K to 97, 10 K beyond, and more to the side of less water, where a fourth witness stands; the sugars that
// borrow its curve 1.25 times that, lactose with a dry side that reaches its one reading at aw 0.37.  The others
// are our estimates.
inline constexpr sides_by_solids sucrose_errs{
    {{{0.75, 0.03}, {0.85, 0.036}, {0.90, 0.09}, {0.97, 0.12}, {1.0, 0.15}}}};
inline constexpr sides_by_solids sucrose_errs_dry{
    {{{0.75, 0.03}, {0.84, 0.06}, {0.865, 0.135}, {0.9, 0.17}, {1.0, 0.17}}}};
inline constexpr sides_by_solids lactose_errs_dry{
    {{{0.75, 0.03}, {0.85, 0.08}, {0.88, 0.15}, {0.92, 0.24}, {1.0, 0.24}}}};
inline constexpr sides_by_solids glucose_errs{
    {{{0.30, 0.011}, {0.60, 0.02}, {0.75, 0.05}, {0.85, 0.08}, {0.97, 0.12}}}};
inline constexpr sides_by_solids polyol_errs{
    {{{0.0, 0.10}, {0.25, 0.10}, {0.5, 0.10}, {0.75, 0.10}, {1.0, 0.10}}}};
/// The spread to a published model's values, which to 30 % are in doubt, and past 80 % fall with temperature.
inline constexpr sides_by_solids glycerol_errs{
    {{{0.30, 0.10}, {0.60, 0.05}, {0.8, 0.05}, {0.9, 0.07}, {1.0, 0.07}}}};
inline constexpr sides_by_solids salt_errs{
    {{{0.2596, 0.003}, {0.45, 0.009}, {0.6, 0.009}, {0.8, 0.009}, {1.0, 0.009}}}};
inline constexpr sides_by_solids solid_errs{{{{0.0, 0.25}, {0.25, 0.25}, {0.5, 0.25}, {0.75, 0.25}, {1.0, 0.25}}}};

// Sugars are checked by freezing points down to -5 C.
inline constexpr isotherm_columns<double> like_sucrose{isotherm_kind::sucrose, -5.0, 150.0};
// Glucose is fitted to 100 C; from there to 130 its ln aw changes by 1 %, and the interval is +-5 to 8 %.
inline constexpr isotherm_columns<double> like_glucose{isotherm_kind::monosaccharide, -5.0, 130.0};

/// Casein (also for gelatin), native starch (also for fibre and agar) and defatted cocoa solids at 25 C: recalled
/// ranges, confidence low; elsewhere by a heat of sorption (formula/isotherm.hpp).
constexpr isotherm_columns<double> gab(double m0, double c, double k) {
    return {isotherm_kind::solid, 0.0, 60.0, 1.0, 0.0, m0, c, k};
}
inline constexpr auto like_casein = gab(6.5, 10.0, 0.80), like_cocoa = gab(4.5, 15.0, 0.80),
                      like_starch = gab(9.5, 20.0, 0.73);

// Choi & Okos, as in formula/heat.hpp.
inline constexpr density_line fat_density{925.59, -0.41757}, protein_density{1329.9, -0.5184},
    starch_density{1599.1, -0.31046}, fibre_density{1311.5, -0.36589};

/// Agar sets at 32 to 45 C and melts above 85 (published: trade and pharmacopoeia description, from memory,
/// confidence high).  Gelatin sets at 15 to 25 and melts at 27 to 34 (recalled, confidence medium).
inline constexpr gel_setting agar_setting{32.0, 45.0, 85.0, 95.0}, gelatin_setting{15.0, 25.0, 27.0, 34.0};

// What heat does.  Sugar: the bands of cookery books, which differ by 5 to 10 C (light caramel from 157 to 160,
// dark from 170, burning from 177 C; tests/data/caramel_colour_bands.csv).  Fructose browns from 105 C (recalled,
// confidence medium).  The rest: common practice, no source.
inline constexpr heat_limit sugar_in_the_heat{
    0.10, 157.0, 177.0, "sugar takes colour: light caramel to about 170 °C (338 °F), then dark",
    "caramel turns bitter and burns within seconds"},
    fructose_in_the_heat{0.05, 110.0, 150.0,
                         "fructose (honey, invert sugar, fruit) browns long before sugar does: it will be darker",
                         "fructose (honey, invert sugar, fruit) tastes burnt"},
    protein_in_the_heat{
        0.001, 112.0, 150.0,
        "the solids of milk, cream, butter, egg or nuts brown, and catch on the bottom: stir all the time",
        "the solids of milk, cream, butter, egg or nuts burn: for a caramel cook the sugar alone and "
        "add them afterwards, off the heat"},
    fruit_in_the_heat{0.004, 107.0, 125.0,
                      "fruit pulp and fibre catch on the bottom and darken: stir all the time",
                      "fruit pulp and fibre scorch"},
    cocoa_in_the_heat{0.005, 112.0, 125.0, "cocoa and chocolate catch on the bottom: stir all the time",
                      "cocoa and chocolate scorch and turn bitter: add them off the heat"},
    gelatin_in_the_heat{0.001, 80.0, 105.0, "gelatin loses some of its set above 80 °C (176 °F)",
                        "boiled gelatin loses much of its set: soak it and stir it in off the heat"};

/// Monosaccharides: other laboratories find dry glass transitions up to 11 K above Roos's (Orford et al. 1990,
/// Finegold et al. 1989, Truong et al. 2004), and honeys 6 to 12 K (Lazaridou et al. 2004).
inline constexpr glass_errors monosaccharide_glass{5.0, 12.0};

/// A sugar on the curve of sucrose or glucose.  Volume ratio: glucose, fructose and lactose by the densities of
/// the CRC Handbook, 20 C (our fit; refraction likewise; fructose's slope, to 48 %, carries honey's index to
/// 0.0006 of its moisture table); others our estimate, from memory.
constexpr component_data sugar(component id, std::string_view name, const isotherm_columns<double>& isotherm,
                               double glass, double glass_constant, double volume_ratio,
                               sweetness_columns sweetness) {
    const bool small = isotherm.kind == isotherm_kind::monosaccharide;
    return {.id = id,
            .name = name,
            .where = phase::dissolved,
            .isotherm = isotherm,
            .trust = {.line = small ? &glucose_errs : &sucrose_errs,
                      .times = small || id == component::sucrose ? 1.0 : 1.25,
                      .dry = small ? nullptr : &sucrose_errs_dry},
            .particle_molar_mass = small ? glucose_molar_mass : sucrose_molar_mass,
            .glass_celsius = glass,
            .glass_constant = glass_constant,
            .glass_source = roos93,
            .glass_error = small ? monosaccharide_glass : glass_errors{},
            .small_sugar = small,
            .volume_ratio = volume_ratio,
            .heat = formula::heat_dissolved_sugar,
            .sweetness = sweetness};
}

/// A chain of glucose units.  Glass: the usual form Tg(n) = Tg(infinite) - c/n, from three units on.  The recalled
/// maltodextrins of DE 10, 20, 25 and 36 come out at 161, 145, 136 and 117 C against 160, 141, 121 and 100, hence
/// the low side.
constexpr component_data chain(component id, std::string_view name, double units, double volume_ratio,
                               sweetness_columns sweetness) {
    const double size = (162.141 * units + 18.015) / (chain_density * 18.05);
    const double glass = 190.0 - 280.0 / units;
    auto row = sugar(id, name, {.kind = isotherm_kind::chain, .size = size}, glass, 3.963 + 0.01927 * glass,
                     volume_ratio, sweetness);
    row.trust = {};
    row.particle_molar_mass = 162.141 * units + 18.015;
    row.glass_source = chain_glass;
    row.glass_error = {22.0, chain_glass_error_kelvin};
    return row;
}

/// A sugar alcohol on Norrish's law, with the constant of sorbitol.
constexpr component_data polyol(component id, std::string_view name, double molar_mass, double glass,
                                double glass_constant, std::string_view glass_source, double volume_ratio,
                                sweetness_columns sweetness) {
    auto row =
        sugar(id, name, {.kind = isotherm_kind::polyol, .fitted_to = 60.0, .size = molar_mass, .norrish_k = -1.65},
              glass, glass_constant, volume_ratio, sweetness);
    row.trust = {&polyol_errs};
    row.particle_molar_mass = molar_mass;
    row.glass_source = glass_source;
    row.laxative = true;
    return row;
}

/// A sugar alcohol of two units.  No activity data are at hand: each molecule is taken to hold water as one of
/// sorbitol does (our estimate, with twice its uncertainty).  Glass and sweetness recalled, confidence medium; k
/// by Roos's correlation with the glass; volume as sucrose (our estimate).
constexpr component_data sugar_alcohol_of_two(component id, std::string_view name, double glass,
                                              double glass_constant, sweetness_columns sweetness) {
    auto row = polyol(id, name, 344.313, glass, glass_constant,
                      "recalled, confidence medium; k by Roos's correlation", 1.0, sweetness);
    row.trust.times = 2.0;
    row.note = {.text =
                    "Extrapolation: isomalt and maltitol are taken to hold water as sorbitol does, molecule by "
                    "molecule; that they crystallize is not judged."};
    return row;
}

/// Salt, or something that holds a share of what salt holds; the ions of minerals weigh 40 (our estimate).  Hot,
/// the constants of 25 C are too strong: a saturated brine, 28.4 %, boils at 108.7 C (recalled, confidence
/// medium-high) where they say 109.4; the dry side reaches it.  Volume from the density of a 20 % brine,
/// refraction from a molar one of 9.3 cm3 (both from memory, confidence medium).
constexpr component_data electrolyte(component id, std::string_view name, double share, double plus,
                                     double particle_molar_mass) {
    return {.id = id,
            .name = name,
            .where = phase::dissolved,
            .isotherm = {.kind = isotherm_kind::electrolyte, .fitted_to = 60.0, .size = share},
            .trust = {.line = &salt_errs, .plus = plus, .dry_per_kelvin = 0.001},
            .particle_molar_mass = particle_molar_mass,
            .glass_source = not_counted,
            .volume_ratio = 0.56,
            .refraction_ratio = 0.778,
            .heat = formula::heat_ash};
}

/// What floats in the syrup and swells.
constexpr component_data solid(component id, std::string_view name, const isotherm_columns<double>& isotherm,
                               density_line density, const heat_capacity_law& heat) {
    return {.id = id,
            .name = name,
            .where = phase::suspended,
            .isotherm = isotherm,
            .trust = {&solid_errs},
            .glass_source = not_counted,
            .density = density,
            .heat = heat};
}

constexpr component_data fat(component id, std::string_view name, const formula::solid_fat_curve& curve,
                             double bridging_share) {
    return {.id = id,
            .name = name,
            .where = phase::fat,
            .glass_source = not_counted,
            .density = fat_density,
            .heat = formula::heat_fat,
            .solid_fat = &curve,
            .bridging_share = bridging_share};
}

template <class Change>
constexpr component_data with(component_data row, const Change& change) {
    change(row);
    return row;
}

}  // namespace rows

// --- the rows ---------------------------------------------------------------------------------------------------

/// Sweetness: from memory, confidence medium; tasters disagree by as much as the interval, and fructose is
/// sweetest when it is cold; the longer chains are our estimate.  Bridging of fat: the membranes of milk fat keep
/// its globules apart (cold cream pours), cocoa butter sets a ganache; both our estimate, a vegetable fat as milk
/// fat.  Swelling of protein: casein micelles, from memory, confidence medium; of starch: our estimate.
inline constexpr std::array<component_data, component_count> components = {{
    {.id = component::water,
     .name = "water",
     .glass_celsius = -137.15,
     .glass_constant = 1.0,
     .glass_source = "136.0 K, published",
     .heat = formula::heat_water},
    rows::with(rows::sugar(component::sucrose, "sucrose", rows::like_sucrose, 62, 5.42, 1, {1, 1, 1}),
               [](auto& c) {
                   c.solubility = solubility_law::sucrose;
                   c.in_the_heat = rows::sugar_in_the_heat;
               }),
    rows::with(rows::sugar(component::glucose, "glucose", rows::like_glucose, 31, 4.52, 1.0122, {0.7, 0.6, 0.8}),
               [](auto& c) { c.refraction_ratio = 1.0017; }),
    rows::with(rows::sugar(component::fructose, "fructose", rows::like_glucose, 5, 3.76, 0.9926, {1.4, 1.2, 1.7}),
               [](auto& c) {
                   c.isotherm.above_glucose = 1.03;
                   c.volume_slope = 0.0156;
                   c.refraction_ratio = 0.9918;
                   c.in_the_heat = rows::fructose_in_the_heat;
               }),
    rows::sugar(component::galactose, "galactose", rows::like_glucose, 30, 4.49, 1.0, {0.35, 0.3, 0.6}),
    rows::with(rows::sugar(component::lactose, "lactose", rows::like_sucrose, 101, 6.56, 0.986, {0.2, 0.15, 0.4}),
               [](auto& c) {
                   c.refraction_ratio = 1.006;
                   c.solubility = solubility_law::lactose;
                   c.trust.dry = &rows::lactose_errs_dry;
               }),
    rows::sugar(component::maltose, "maltose", rows::like_sucrose, 87, 6.15, 1.0, {0.4, 0.3, 0.5}),
    rows::chain(component::maltotriose, "maltotriose", 3, 0.99, {0.3, 0.2, 0.35}),
    rows::chain(component::maltotetraose, "maltotetraose", 4, 0.99, {0.2, 0.1, 0.3}),
    rows::chain(component::maltopentaose, "maltopentaose", 5, 0.99, {0.15, 0.05, 0.25}),
    rows::chain(component::maltohexaose, "maltohexaose", 6, 0.99, {0.1, 0.0, 0.2}),
    rows::chain(component::maltoheptaose, "maltoheptaose", 7, 0.99, {0.1, 0.0, 0.2}),
    rows::chain(component::higher_saccharides, "higher_saccharides", 20, 0.98, {0.1, 0.0, 0.2}),
    rows::with(rows::polyol(component::sorbitol, "sorbitol", sorbitol_molar_mass, -9, 3.35, rows::roos93, 1.05,
                            {0.6, 0.5, 0.7}),
               [](auto& c) {
                   c.small_sugar = true;
                   c.glass_error = rows::monosaccharide_glass;
               }),
    // Refraction: molar, 20.5 cm3, from memory, confidence medium.
    {.id = component::glycerol,
     .name = "glycerol",
     .where = phase::dissolved,
     .isotherm = {.kind = isotherm_kind::glycerol},
     .trust = {&rows::glycerol_errs},
     .particle_molar_mass = glycerol_molar_mass,
     .glass_celsius = -83.15,
     .glass_constant = 1.17,
     .glass_source = "190 K; from memory, confidence medium; k by Roos's correlation",
     .small_sugar = true,
     .volume_ratio = 1.25,
     .refraction_ratio = 1.087,
     .heat = formula::heat_dissolved_sugar,
     .sweetness = {0.6, 0.5, 0.7},
     .laxative = true},
    rows::electrolyte(component::salt, "salt", 1.0, 0.0, 0.5 * sodium_chloride_molar_mass),
    rows::electrolyte(component::minerals, "minerals", 0.42, 0.15, 40.0),
    rows::with(rows::solid(component::protein, "protein", rows::like_casein, rows::protein_density,
                           formula::heat_protein),
               [](auto& c) {
                   c.in_the_heat = rows::protein_in_the_heat;
                   c.swelling = {4.0, 0.0};
                   c.gel = {3.8e5, 5};
                   c.must_boil = true;
                   c.note = {.from_share = 0.01,
                             .of_cooked = true,
                             .text =
                                 "Boiled milk protein gels as it cools; how firmly is known only within a "
                                 "factor of 5."};
               }),
    rows::with(rows::solid(component::starch, "starch", rows::like_starch, rows::starch_density,
                           formula::heat_carbohydrate),
               [](auto& c) {
                   c.swelling = {0.0, 3.0};
                   c.gel = {1.0e5, 2};
                   c.must_boil = true;
                   c.note = {.from_share = 0.003,
                             .text =
                                 "Starch: taken as fully cooked if it was in the pan; much sugar keeps it "
                                 "from swelling."};
               }),
    rows::with(rows::solid(component::fibre, "fibre", rows::like_starch, rows::fibre_density, formula::heat_fibre),
               [](auto& c) {
                   c.in_the_heat = rows::fruit_in_the_heat;
                   c.note = {.from_share = 0.003,
                             .text =
                                 "Fibre counts by its volume only: pectin, with acid and much sugar, sets as "
                                 "a gel, which is not modelled."};
               }),
    rows::with(rows::solid(component::cocoa_solids, "cocoa_solids", rows::like_cocoa, rows::fibre_density,
                           formula::heat_fibre),
               [](auto& c) { c.in_the_heat = rows::cocoa_in_the_heat; }),
    rows::fat(component::fat, "fat", formula::milk_fat, 0.15),
    // Taken as a monosaccharide, with the weakest data.
    rows::with(rows::sugar(component::acid, "acid", rows::like_glucose, 11, 3.93, 0.95, {}),
               [](auto& c) {
                   c.trust.least = 0.2;
                   c.glass_source = "as for a monosaccharide of 11 C; from memory, confidence low";
               }),
    rows::with(rows::fat(component::cocoa_butter, "cocoa_butter", formula::cocoa_butter, 1.0),
               [](auto& c) {
                   c.note = {.below_celsius = 34.0,
                             .text =
                                 "Cocoa butter is taken as tempered and alone; beside milk fat it sets "
                                 "softer and melts earlier."};
               }),
    rows::fat(component::vegetable_fat, "vegetable_fat", formula::vegetable_fat, 0.15),
    rows::with(rows::solid(component::agar, "agar", rows::like_starch, rows::fibre_density, formula::heat_fibre),
               [](auto& c) {
                   c.gel = {1.5e8, 2, &rows::agar_setting};
                   c.must_boil = true;
                   c.note = {.text = "Agar sets on cooling at 32 to 45 °C and melts again only above 85 °C.",
                             .in_much_sugar =
                                 "Agar: in so much sugar it may not dissolve, and sets weaker than "
                                 "said.",
                             .if_raw = "Agar that is not boiled does not set; put it in the pan."};
               }),
    rows::with(rows::solid(component::gelatin, "gelatin", rows::like_casein, rows::protein_density,
                           formula::heat_protein),
               [](auto& c) {
                   c.in_the_heat = rows::gelatin_in_the_heat;
                   c.swelling = {4.0, 0.0};
                   c.gel = {2.3e6, 2, &rows::gelatin_setting};
               }),
    rows::sugar_alcohol_of_two(component::isomalt, "isomalt", 64, 5.49, {0.5, 0.45, 0.6}),
    rows::sugar_alcohol_of_two(component::maltitol, "maltitol", 44, 4.90, {0.85, 0.75, 0.95}),
    // Norrish with k = 0.9, between the ends of van Laar's curve of ethanol and water (0.92 and 1.68, recalled,
    // confidence medium), with 25 %: our estimate.  Glass: 97 K, recalled, confidence high; that it thins as water
    // does, gram for gram, is our estimate.  Density and specific heat at 20 C: recalled, confidence high.
    {.id = component::ethanol,
     .name = "ethanol",
     .where = phase::spirit,
     .isotherm = {.kind = isotherm_kind::polyol, .fitted_to = 60.0, .size = ethanol_molar_mass, .norrish_k = 0.9},
     .trust = {.line = &rows::polyol_errs, .times = 2.5},
     .glass_celsius = -176.0,
     .glass_constant = 1.0,
     .glass_source = "97 K, recalled, confidence high; k as water: our estimate",
     .density = {806.0, -0.85},
     .heat = {2.27, 8.0e-3, 0.0},
     .leaves_in_the_boil = true,
     .note = {.text = "Extrapolation: alcohol added off the heat is taken to stay; where the mix is hotter than "
                      "78 °C (172 °F) part of it leaves as vapour."}},
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

static_assert(
    [] {
        for (std::size_t i = 0; i < component_count; ++i)
            if (index_of(components[i].id) != i || components[i].name.empty()) return false;
        return true;
    }(),
    "the rows stand in the order of the names");

// --- the numbers alone
// ---------------------------------------------------------------------------------------------

/// What the templates of solution/ read of a component: in their own number, and without the texts, for which a
/// small machine has no room.
template <class Number>
struct component_columns {
    phase where = phase::solvent;
    isotherm_columns<Number> isotherm;
    Number glass_celsius = 0.0, glass_constant = 1.0;
    bool small_sugar = false;
};

template <class Number>
constexpr std::array<component_columns<Number>, component_count> columns_in() {
    std::array<component_columns<Number>, component_count> out{};
    for (std::size_t i = 0; i < component_count; ++i) {
        const auto& c = components[i];
        const auto& w = c.isotherm;
        out[i] = {c.where,
                  {w.kind, Number(w.fitted_from), Number(w.fitted_to), Number(w.size), Number(w.norrish_k),
                   Number(w.m0), Number(w.c), Number(w.k), Number(w.above_glucose)},
                  Number(c.glass_celsius),
                  Number(c.glass_constant),
                  c.small_sugar};
    }
    return out;
}
// A constant, so never initialized at run time, which the check does not see in a template.
template <class Number>
inline constexpr auto columns_of = columns_in<Number>();  // NOLINT(bugprone-dynamic-static-initializers)

}  // namespace sirop::core
