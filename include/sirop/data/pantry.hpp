// The pantry: the ingredients, what they are and what they are made of.  Data only.
//
// Sources
//   USDA SR26 / SR Legacy: USDA National Nutrient Database for Standard Reference, release 26 (2013), and its
//     successor; NDB is the number of the food in it.  Where the two differ the later one is used, but for light
//     cream, unsalted butter and coconut oil, whose later rows do not close.
//   Starch-industry table: see starch_syrups.hpp.
//   pH: tests/data/ph_ingredients.csv (handbook and agency tables), the row named; or recalled, with our trust.
//   Allergens: what each usually holds: lecithin of soya in chocolate, milk where there is lactose.  Glucose syrup
//     and maltodextrin of wheat are exempt by the regulation (recalled).
//   "common practice, no source": just that.  From memory.
//
// How a food table's row becomes components.  Water, protein, fat, starch, fibre and the single sugars are the
// table's.  What it leaves open is an estimate, and the row says which:
//   dairy       all carbohydrate is lactose (sour cream: the remainder is lactic acid)
//   fruit       the remainder is acid; where the parts exceed 100 g the sugars are scaled down to close the row
//   the rest    the remainder is higher_saccharides
//   ash         minerals; salt, 2.542 x sodium, only where salt is added
//   cocoa       cocoa_solids hold their own protein, fibre, starch and ash
//   chocolate   sugars as printed; milk protein, lactose and milk minerals in the ratios of milk powder
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "../base/names.hpp"
#include "components.hpp"
#include "ingredient.hpp"
#include "starch_syrups.hpp"
#include "trade_names.hpp"

namespace sirop::core {

namespace detail {
inline void a_pantry_row_has_no_more_than_two_decimals() {}
}  // namespace detail

/// Grams of a component, in hundredths: all that food tables print, in a quarter of the memory of a double.
struct share {
    component id{};
    std::uint16_t hundredths = 0;

    constexpr share() = default;
    consteval share(component which, double grams) : id(which) {
        // std::lround is not constexpr; what is not exact is caught below
        hundredths = static_cast<std::uint16_t>(100.0 * grams + 0.5);  // NOLINT(bugprone-incorrect-roundings)
        if (this->grams() != grams) detail::a_pantry_row_has_no_more_than_two_decimals();  // does not compile
    }
    constexpr double grams() const { return hundredths / 100.0; }
};

struct pantry_row {
    std::string_view name;
    ingredient_kind kind;
    acidity ph;
    allergen_set allergens;
    caution_set cautions;
    std::string_view source;
    std::string_view estimate;    ///< what in the split is an estimate; empty if nothing
    std::array<share, 12> parts;  ///< grams per 100 g; unused slots are {component::water, 0}
};

namespace detail {
constexpr auto pantry_rows() {
    using enum component;
    using kind = ingredient_kind;
    return std::to_array<pantry_row>({
        // clang-format off
        // name, kind, pH, allergens, cautions,
        // source, what is an estimate, grams per 100 g
        // basics
        {"water", kind::water, {7.0, 7.0, from_memory, 'H'}, allergen::none, caution::none,
         "by definition", "", {{{water, 100}}}},
        {"white sugar", kind::sugar, {6.0, 7.0, "refined sugar; molasses", 'L'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 19335", "higher saccharides: the remainder",
         {{{water, 0.02}, {sucrose, 99.8}, {higher_saccharides, 0.17}, {minerals, 0.01}}}},
        {"brown sugar", kind::sugar, unknown_ph, allergen::none, caution::none,
         "USDA SR Legacy, NDB 19334", "higher saccharides: the remainder",
         {{{water, 1.34}, {sucrose, 94.56}, {glucose, 1.35}, {fructose, 1.11}, {higher_saccharides, 1.07},
           {minerals, 0.45}, {protein, 0.12}}}},
        {"powdered sugar", kind::sugar, unknown_ph, allergen::none, caution::none,
         "USDA SR Legacy, NDB 19336",
         "all sugar is sucrose; higher saccharides: the remainder",
         {{{water, 0.23}, {sucrose, 97.81}, {higher_saccharides, 0.69}, {minerals, 0.01}, {starch, 1.26}}}},
        {"turbinado sugar", kind::sugar, unknown_ph, allergen::none, caution::none,
         "USDA SR Legacy, NDB 19908", "higher saccharides: the remainder",
         {{{water, 0.03}, {sucrose, 99.19}, {higher_saccharides, 0.61}, {minerals, 0.17}}}},
        {"salt", kind::salt, unknown_ph, allergen::none, caution::none,
         "USDA SR Legacy, NDB 02047", "salt is 2.542 x sodium, the other ash minerals",
         {{{water, 0.2}, {salt, 98.52}, {minerals, 1.28}}}},
        {"lemon juice", kind::fruit, {2.2, 2.2, "lemon juice", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09152", "acid: the remainder",
         {{{water, 92.31}, {sucrose, 0.43}, {glucose, 0.99}, {fructose, 1.1}, {minerals, 0.21}, {protein, 0.35},
           {fibre, 0.3}, {fat, 0.24}, {acid, 4.07}}}},
        {"lime juice", kind::fruit, {2.0, 2.0, "lime", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09160", "acid: the remainder",
         {{{water, 90.79}, {sucrose, 0.48}, {glucose, 0.6}, {fructose, 0.61}, {minerals, 0.31}, {protein, 0.42},
           {fibre, 0.4}, {fat, 0.07}, {acid, 6.32}}}},
        {"corn starch", kind::starch, unknown_ph, allergen::none, caution::none,
         "USDA SR Legacy, NDB 20027",
         "starch: the carbohydrate that is not fibre, by difference",
         {{{water, 8.32}, {minerals, 0.09}, {protein, 0.26}, {starch, 90.38}, {fibre, 0.9}, {fat, 0.05}}}},
        {"agar", kind::gelling, unknown_ph, allergen::none, caution::none,
         "USDA SR Legacy, NDB 11663", "all carbohydrate counted as agar",
         {{{water, 8.68}, {minerals, 3.93}, {protein, 6.21}, {agar, 80.88}, {fat, 0.3}}}},
        {"gelatin", kind::gelling, unknown_ph, allergen::none, caution::none,
         "USDA SR Legacy, NDB 19177", "all protein counted as gelatin",
         {{{water, 13}, {gelatin, 85.6}, {minerals, 1.3}, {fat, 0.1}}}},
        {"cream of tartar", kind::acid, {3.56, 3.56, from_memory, 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 18373",
         "acid: the carbohydrate that is not fibre, by difference",
         {{{water, 1.7}, {minerals, 36.8}, {fibre, 0.2}, {acid, 61.3}}}},
        {"citric acid", kind::acid, {2.0, 2.4, from_memory, 'M'}, allergen::none, caution::none,
         "pure substance", "taken as anhydrous; the monohydrate holds 8.6 % water", {{{acid, 100}}}},
        {"tartaric acid", kind::acid, {2.0, 2.4, from_memory, 'M'}, allergen::none, caution::none,
         "pure substance", "", {{{acid, 100}}}},
        {"vinegar", kind::acid, {2.9, 2.9, "vinegar", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 02053", "sugar counted as sucrose; acid: the remainder", {{{water, 94.78}, {sucrose, 0.04}, {minerals, 0.02}, {acid, 5.16}}}},
        {"pectin", kind::gelling, {3.0, 4.5, from_memory, 'L'}, allergen::none, caution::none,
         "common practice, no source", "all of it: powder without added sugar, counted as fibre",
         {{{water, 9}, {fibre, 86}, {minerals, 3}, {protein, 2}}}},
        {"baking soda", kind::salt, {8.0, 8.6, from_memory, 'M'}, allergen::none, caution::foams,
         "pure substance", "all counted as minerals; that it gives off gas and turns to washing soda is left out",
         {{{minerals, 100}}}},

        // syrups and sugars
        {"glucose syrup 28 DE", kind::glucose_syrup, {3.5, 5.5, "corn syrup", 'M'}, allergen::none, caution::none,
         "Starch-industry table (Whistler & Paschall)",
         "between the rows 25 and 30 DE; recalled, confidence high; 80 % solids: common practice, no source",
         {{{water, 20}, {glucose, 7.46}, {maltose, 6.86}, {maltotriose, 6.43}, {maltotetraose, 6.24},
           {maltopentaose, 5.54}, {maltohexaose, 4.54}, {maltoheptaose, 3.97}, {higher_saccharides, 38.96}}}},
        {"glucose syrup 42 DE", kind::glucose_syrup, {3.5, 5.5, "corn syrup", 'M'}, allergen::none, caution::none,
         "Starch-industry table (Whistler & Paschall)", "recalled, confidence high",
         {{{water, 19.7}, {glucose, 14.86}, {maltose, 11.16}, {maltotriose, 9.31}, {maltotetraose, 7.95},
           {maltopentaose, 6.75}, {maltohexaose, 5.3}, {maltoheptaose, 4.58}, {higher_saccharides, 20.39}}}},
        {"glucose syrup 62 DE", kind::glucose_syrup, {3.5, 5.5, "corn syrup", 'M'}, allergen::none, caution::none,
         "Starch-industry table (Whistler & Paschall)",
         "the row 'high conversion' (63 DE); recalled, confidence medium",
         {{{water, 18}, {glucose, 31.82}, {maltose, 23.04}, {maltotriose, 11.23}, {maltotetraose, 3.36},
           {maltopentaose, 3.69}, {maltohexaose, 2.13}, {higher_saccharides, 6.73}}}},
        {"high-maltose syrup", kind::syrup, {3.5, 5.5, "corn syrup", 'M'}, allergen::none, caution::none,
         "Starch-industry table (Whistler & Paschall)",
         "the row 'high maltose'; recalled, confidence medium",
         {{{water, 20}, {glucose, 4.4}, {maltose, 36.96}, {maltotriose, 9.84}, {maltotetraose, 2.56},
           {maltopentaose, 1.44}, {maltohexaose, 1.2}, {higher_saccharides, 23.6}}}},
        {"light corn syrup", kind::syrup, {3.5, 5.5, "corn syrup", 'M'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 19350",
         "saccharides as in 42 DE glucose syrup; salt is 2.542 x sodium",
         {{{water, 22.81}, {glucose, 14.21}, {maltose, 10.67}, {maltotriose, 8.91}, {maltotetraose, 7.6},
           {maltopentaose, 6.45}, {maltohexaose, 5.07}, {maltoheptaose, 4.38}, {higher_saccharides, 19.5},
           {salt, 0.16}, {minerals, 0.04}, {fat, 0.2}}}},
        {"maltodextrin 10 DE", kind::maltodextrin, unknown_ph, allergen::none, caution::none,
         "Starch-industry table (Whistler & Paschall)", "recalled, confidence high",
         {{{water, 5}, {glucose, 2.19}, {maltose, 2.66}, {maltotriose, 2.76}, {maltotetraose, 2.85},
           {maltopentaose, 2.85}, {maltohexaose, 2.09}, {maltoheptaose, 2}, {higher_saccharides, 77.6}}}},
        {"maltodextrin 15 DE", kind::maltodextrin, unknown_ph, allergen::none, caution::none,
         "Starch-industry table (Whistler & Paschall)", "recalled, confidence high",
         {{{water, 5}, {glucose, 3.52}, {maltose, 4.18}, {maltotriose, 4.18}, {maltotetraose, 4.28},
           {maltopentaose, 4.09}, {maltohexaose, 3.14}, {maltoheptaose, 2.85}, {higher_saccharides, 68.76}}}},
        {"invert sugar syrup", kind::syrup, unknown_ph, allergen::none, caution::none,
         "common practice, no source",
         "all of it: 24 % water, wholly inverted, glucose and fructose equal",
         {{{water, 24}, {glucose, 38}, {fructose, 38}}}},
        {"honey", kind::syrup, {3.9, 6.1, "honey", 'L'}, allergen::none, caution::not_for_infants,
         "USDA SR Legacy, NDB 19296", "higher saccharides: the remainder",
         {{{water, 17.1}, {sucrose, 0.89}, {glucose, 35.75}, {fructose, 40.94}, {galactose, 3.1},
           {maltose, 1.44}, {higher_saccharides, 0.08}, {minerals, 0.2}, {protein, 0.3}, {fibre, 0.2}}}},
        {"maple syrup", kind::syrup, {4.6, 5.5, from_memory, 'L'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 19353", "higher saccharides: the remainder",
         {{{water, 32.39}, {sucrose, 58.32}, {glucose, 1.6}, {fructose, 0.52}, {higher_saccharides, 6.6},
           {minerals, 0.47}, {protein, 0.04}, {fat, 0.06}}}},
        {"golden syrup", kind::syrup, {6.0, 6.5, "golden syrup", 'L'}, allergen::none, caution::none,
         "label-typical; recalled, confidence medium", "the split of its sugars; all of it within 3 g",
         {{{water, 18}, {sucrose, 33}, {glucose, 23.5}, {fructose, 23.5}, {higher_saccharides, 0.8},
           {minerals, 1.2}}}},
        {"treacle", kind::syrup, {5.0, 6.0, from_memory, 'L'}, allergen::none, caution::none,
         "label-typical; recalled, confidence low", "the split of its sugars; all of it within 5 g",
         {{{water, 21}, {sucrose, 32}, {glucose, 17}, {fructose, 17}, {higher_saccharides, 7}, {minerals, 5},
           {protein, 1}}}},
        {"agave syrup", kind::syrup, unknown_ph, allergen::none, caution::none,
         "USDA SR Legacy, NDB 19912", "higher saccharides: the remainder",
         {{{water, 22.94}, {glucose, 12.43}, {fructose, 55.6}, {higher_saccharides, 8.15}, {minerals, 0.14},
           {protein, 0.09}, {fibre, 0.2}, {fat, 0.45}}}},
        {"light molasses", kind::syrup, {6.0, 7.0, "refined sugar; molasses", 'L'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 19304", "higher saccharides: the remainder",
         {{{water, 21.87}, {sucrose, 29.4}, {glucose, 11.92}, {fructose, 12.79}, {higher_saccharides, 20.62},
           {minerals, 3.3}, {fat, 0.1}}}},
        {"dark molasses", kind::syrup, {6.0, 7.0, "refined sugar; molasses", 'L'}, allergen::none, caution::none,
         "common practice, no source", "all of it",
         {{{water, 22}, {sucrose, 31}, {glucose, 10}, {fructose, 11}, {higher_saccharides, 18}, {minerals, 8}}}},
        {"high-fructose syrup 42", kind::syrup, unknown_ph, allergen::none, caution::none,
         "published trade composition",
         "the saccharides that are neither glucose nor fructose counted as higher saccharides",
         {{{water, 29}, {glucose, 37.63}, {fructose, 29.82}, {higher_saccharides, 3.55}}}},
        {"high-fructose syrup 55", kind::syrup, unknown_ph, allergen::none, caution::none,
         "published trade composition",
         "the saccharides that are neither glucose nor fructose counted as higher saccharides",
         {{{water, 23}, {glucose, 32.34}, {fructose, 42.35}, {higher_saccharides, 2.31}}}},
        {"dextrose monohydrate", kind::sugar, unknown_ph, allergen::none, caution::none,
         "by stoichiometry", "", {{{water, 9.09}, {glucose, 90.91}}}},
        {"fructose", kind::sugar, unknown_ph, allergen::none, caution::none,
         "pure substance", "", {{{fructose, 100}}}},
        {"lactose", kind::sugar, unknown_ph, allergen::milk, caution::none,
         "pure substance", "taken as anhydrous; the common monohydrate holds 5.0 % water",
         {{{lactose, 100}}}},
        {"sorbitol syrup", kind::syrup, unknown_ph, allergen::none, caution::laxative,
         "common practice, no source", "all of it: 70 % sorbitol",
         {{{water, 30}, {sorbitol, 70}}}},
        {"isomalt", kind::polyol, unknown_ph, allergen::none, caution::laxative,
         "pure substance", "taken as anhydrous; the powder holds up to 7 % water (recalled, confidence medium)",
         {{{isomalt, 100}}}},
        {"maltitol", kind::polyol, unknown_ph, allergen::none, caution::laxative,
         "pure substance", "", {{{maltitol, 100}}}},
        {"glycerol", kind::polyol, unknown_ph, allergen::none, caution::laxative,
         "pure substance", "", {{{glycerol, 100}}}},

        // dairy
        {"skim milk", kind::milk_or_cream, {6.5, 6.7, "milk", 'H'}, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01085", "lactose: all carbohydrate, by difference",
         {{{water, 90.84}, {lactose, 4.96}, {minerals, 0.75}, {protein, 3.37}, {fat, 0.08}}}},
        {"reduced-fat milk 2 %", kind::milk_or_cream, {6.5, 6.7, "milk", 'H'}, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01079", "lactose: all carbohydrate, by difference",
         {{{water, 89.21}, {lactose, 4.8}, {minerals, 0.71}, {protein, 3.3}, {fat, 1.98}}}},
        {"whole milk", kind::milk_or_cream, {6.5, 6.7, "milk", 'H'}, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01077", "lactose: all carbohydrate, by difference",
         {{{water, 88.13}, {lactose, 4.8}, {minerals, 0.67}, {protein, 3.15}, {fat, 3.25}}}},
        {"half-and-half", kind::milk_or_cream, {6.5, 6.7, from_memory, 'M'}, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01049", "lactose: all carbohydrate, by difference",
         {{{water, 81.24}, {lactose, 4.73}, {minerals, 0.51}, {protein, 3.13}, {fat, 10.39}}}},
        {"light cream", kind::milk_or_cream, {6.5, 6.7, from_memory, 'M'}, allergen::milk, caution::none,
         "USDA SR26, NDB 01050", "lactose: all carbohydrate, by difference",
         {{{water, 73.75}, {lactose, 3.66}, {minerals, 0.58}, {protein, 2.7}, {fat, 19.31}}}},
        {"light whipping cream", kind::milk_or_cream, {6.5, 6.7, from_memory, 'M'}, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01052", "lactose: all carbohydrate, by difference",
         {{{water, 63.5}, {lactose, 2.96}, {minerals, 0.46}, {protein, 2.17}, {fat, 30.91}}}},
        {"heavy cream 36 %", kind::milk_or_cream, {6.5, 6.7, from_memory, 'M'}, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01053", "lactose: all carbohydrate, by difference",
         {{{water, 57.81}, {lactose, 2.74}, {minerals, 0.53}, {protein, 2.84}, {fat, 36.08}}}},
        {"sour cream", kind::milk_or_cream, {4.3, 4.6, from_memory, 'M'}, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01056", "lactose: all sugar; acid: the remainder",
         {{{water, 73.07}, {lactose, 3.41}, {minerals, 0.51}, {protein, 2.44}, {fat, 19.35}, {acid, 1.22}}}},
        {"double cream 48 %", kind::milk_or_cream, {6.5, 6.7, from_memory, 'M'}, allergen::milk, caution::none,
         "label-typical; recalled, confidence medium", "lactose and minerals",
         {{{water, 47.3}, {lactose, 2.7}, {minerals, 0.3}, {protein, 1.7}, {fat, 48}}}},
        {"creme fraiche 30 %", kind::milk_or_cream, {4.3, 4.6, from_memory, 'M'}, allergen::milk, caution::none,
         "label-typical; recalled, confidence medium", "lactose, acid and minerals",
         {{{water, 63.6}, {lactose, 2.4}, {minerals, 0.5}, {protein, 2.4}, {fat, 30.3}, {acid, 0.8}}}},
        {"mascarpone", kind::dairy, {5.8, 6.2, from_memory, 'L'}, allergen::milk, caution::none,
         "label-typical; recalled, confidence medium", "lactose, acid and minerals",
         {{{water, 46.9}, {lactose, 3.7}, {minerals, 0.6}, {protein, 4.6}, {fat, 44}, {acid, 0.2}}}},
        {"buttermilk", kind::milk_or_cream, {4.5, 4.5, "buttermilk", 'H'}, allergen::milk, caution::none,
         "label-typical; recalled, confidence medium", "lactose, acid and minerals",
         {{{water, 90.1}, {lactose, 4.3}, {minerals, 0.8}, {protein, 3.3}, {fat, 0.9}, {acid, 0.6}}}},
        {"evaporated milk", kind::milk_or_cream, {5.9, 6.3, from_memory, 'M'}, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01096", "lactose: all carbohydrate, by difference",
         {{{water, 74.04}, {lactose, 10.04}, {minerals, 1.55}, {protein, 6.81}, {fat, 7.56}}}},
        {"evaporated skim milk", kind::milk_or_cream, {5.9, 6.3, from_memory, 'M'}, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01097", "lactose: all carbohydrate, by difference",
         {{{water, 79.4}, {lactose, 11.35}, {minerals, 1.5}, {protein, 7.55}, {fat, 0.2}}}},
        {"sweetened condensed milk", kind::milk_or_cream, {6.2, 6.5, from_memory, 'M'}, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01095",
         "lactose is 1.460 x protein, as in whole milk powder; the other carbohydrate sucrose",
         {{{water, 27.16}, {sucrose, 42.85}, {lactose, 11.55}, {minerals, 1.83}, {protein, 7.91}, {fat, 8.7}}}},
        {"sweetened condensed skim milk", kind::milk_or_cream, {6.2, 6.5, from_memory, 'M'}, allergen::milk, caution::none,
         "common practice, no source",
         "all of it: 28 water, 43 sucrose, 28 fat-free milk solids as in skim milk powder, over their sum",
         {{{water, 28.28}, {sucrose, 43.43}, {lactose, 15.3}, {minerals, 2.34}, {protein, 10.65}}}},
        {"skim milk powder", kind::milk_or_cream, {6.5, 6.7, from_memory, 'M'}, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01091", "lactose: all carbohydrate, by difference",
         {{{water, 3.16}, {lactose, 51.98}, {minerals, 7.93}, {protein, 36.16}, {fat, 0.77}}}},
        {"whole milk powder", kind::milk_or_cream, {6.5, 6.5, "whole milk powder reconstituted", 'H'}, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01090", "lactose: all carbohydrate, by difference",
         {{{water, 2.47}, {lactose, 38.42}, {minerals, 6.08}, {protein, 26.32}, {fat, 26.71}}}},
        {"buttermilk powder", kind::milk_or_cream, unknown_ph, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01094", "lactose: all carbohydrate, by difference",
         {{{water, 2.97}, {lactose, 49}, {minerals, 7.95}, {protein, 34.3}, {fat, 5.78}}}},
        {"sweet whey powder", kind::dairy, {5.9, 6.5, from_memory, 'M'}, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01115", "lactose: all carbohydrate, by difference",
         {{{water, 3.19}, {lactose, 74.46}, {minerals, 8.35}, {protein, 12.93}, {fat, 1.07}}}},
        {"butter, unsalted", kind::fat, unknown_ph, allergen::milk, caution::none,
         "USDA SR26, NDB 01145", "lactose: all carbohydrate, by difference",
         {{{water, 17.94}, {lactose, 0.06}, {minerals, 0.04}, {protein, 0.85}, {fat, 81.11}}}},
        {"butter, salted", kind::fat, unknown_ph, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01001",
         "salt is 2.542 x sodium, the other ash minerals; lactose: all carbohydrate",
         {{{water, 15.87}, {lactose, 0.06}, {salt, 1.63}, {minerals, 0.48}, {protein, 0.85}, {fat, 81.11}}}},
        {"clarified butter", kind::fat, unknown_ph, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01003", "", {{{water, 0.24}, {protein, 0.28}, {fat, 99.48}}}},
        {"dulce de leche", kind::dairy, unknown_ph, allergen::milk, caution::none,
         "USDA SR Legacy, NDB 01225", "lactose: the table's 4.92 and the remainder",
         {{{water, 28.71}, {sucrose, 41.77}, {glucose, 1.7}, {fructose, 0.32}, {galactose, 1.03},
           {lactose, 10.54}, {minerals, 1.74}, {protein, 6.84}, {fat, 7.35}}}},

        // eggs
        {"egg white", kind::egg, {7.0, 9.0, "egg white", 'H'}, allergen::eggs, caution::raw_egg,
         "USDA SR Legacy, NDB 01124", "higher saccharides: the remainder",
         {{{water, 87.57}, {sucrose, 0.07}, {glucose, 0.34}, {fructose, 0.07}, {higher_saccharides, 0.25},
           {minerals, 0.63}, {protein, 10.9}, {fat, 0.17}}}},
        {"egg yolk", kind::egg, {6.4, 6.4, "egg yolk", 'H'}, allergen::eggs, caution::raw_egg,
         "USDA SR Legacy, NDB 01125", "higher saccharides: the remainder",
         {{{water, 52.31}, {sucrose, 0.07}, {glucose, 0.18}, {fructose, 0.07}, {higher_saccharides, 3.26},
           {minerals, 1.71}, {protein, 15.86}, {fat, 26.54}}}},

        // chocolate, coffee, tea
        {"dark chocolate 45-59 %", kind::chocolate, unknown_ph, allergen::milk | allergen::soybeans, caution::none,
         "USDA SR Legacy, NDB 19902",
         "milk protein and minerals: with the lactose as in skim milk powder; cocoa: the remainder",
         {{{water, 0.97}, {sucrose, 46.25}, {lactose, 1.65}, {minerals, 0.25}, {protein, 1.15},
           {cocoa_solids, 18.45}, {cocoa_butter, 31.28}}}},
        {"dark chocolate 60-69 %", kind::chocolate, unknown_ph, allergen::milk | allergen::soybeans, caution::none,
         "USDA SR Legacy, NDB 19903",
         "milk protein and minerals: with the lactose as in skim milk powder; cocoa: the remainder",
         {{{water, 1.25}, {sucrose, 36.39}, {lactose, 0.31}, {minerals, 0.05}, {protein, 0.22},
           {cocoa_solids, 23.47}, {cocoa_butter, 38.31}}}},
        {"dark chocolate 70-85 %", kind::chocolate, unknown_ph, allergen::soybeans, caution::none,
         "USDA SR Legacy, NDB 19904", "cocoa solids: the remainder",
         {{{water, 1.37}, {sucrose, 23.99}, {cocoa_solids, 32.01}, {cocoa_butter, 42.63}}}},
        {"semisweet chocolate", kind::chocolate, unknown_ph, allergen::soybeans, caution::none,
         "USDA SR Legacy, NDB 19080",
         "all sugar is sucrose; cocoa solids: the remainder",
         {{{water, 0.7}, {sucrose, 54.5}, {cocoa_solids, 14.8}, {cocoa_butter, 30}}}},
        {"milk chocolate", kind::chocolate, unknown_ph, allergen::milk | allergen::soybeans, caution::none,
         "USDA SR Legacy, NDB 19120",
         "milk protein by calcium; its lactose, minerals and fat as in whole milk powder; cocoa: the remainder",
         {{{water, 1.5}, {sucrose, 44.28}, {lactose, 7.22}, {minerals, 1.14}, {protein, 4.94},
           {cocoa_solids, 11.26}, {fat, 5.01}, {cocoa_butter, 24.65}}}},
        {"white chocolate", kind::chocolate, unknown_ph, allergen::milk | allergen::soybeans, caution::none,
         "USDA SR Legacy, NDB 19087",
         "lactose 1.460 x and milk fat 1.015 x protein, as in whole milk powder; higher saccharides: the remainder",
         {{{water, 1.3}, {sucrose, 50.43}, {lactose, 8.57}, {higher_saccharides, 0.04}, {minerals, 1.5},
           {protein, 5.87}, {fibre, 0.2}, {fat, 5.96}, {cocoa_butter, 26.13}}}},
        {"cocoa powder", kind::cocoa, {5.3, 5.8, from_memory, 'M'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 19165", "all sugar is sucrose; cocoa solids: the remainder",
         {{{water, 3}, {sucrose, 1.75}, {cocoa_solids, 81.55}, {cocoa_butter, 13.7}}}},
        {"dutch-process cocoa powder", kind::cocoa, {6.8, 8.1, from_memory, 'M'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 19166",
         "all sugar is sucrose; cocoa solids: the remainder",
         {{{water, 2.7}, {sucrose, 1.76}, {cocoa_solids, 82.44}, {cocoa_butter, 13.1}}}},
        {"brewed espresso", kind::coffee_or_tea, unknown_ph, allergen::none, caution::none,
         "USDA SR Legacy, NDB 14210", "higher saccharides: the remainder",
         {{{water, 97.8}, {higher_saccharides, 1.67}, {minerals, 0.23}, {protein, 0.12}, {fat, 0.18}}}},
        {"brewed coffee", kind::coffee_or_tea, {4.9, 5.2, from_memory, 'M'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 14209", "higher saccharides: the remainder",
         {{{water, 99.39}, {higher_saccharides, 0.12}, {minerals, 0.35}, {protein, 0.12}, {fat, 0.02}}}},
        {"instant coffee", kind::coffee_or_tea, unknown_ph, allergen::none, caution::none,
         "USDA SR Legacy, NDB 14214", "higher saccharides: the remainder",
         {{{water, 3.1}, {higher_saccharides, 75.4}, {minerals, 8.8}, {protein, 12.2}, {fat, 0.5}}}},
        {"brewed black tea", kind::coffee_or_tea, unknown_ph, allergen::none, caution::none,
         "USDA SR Legacy, NDB 14355", "higher saccharides: the remainder",
         {{{water, 99.7}, {higher_saccharides, 0.26}, {minerals, 0.04}}}},

        // fruit, unsweetened
        {"apple puree", kind::fruit, {3.1, 3.1, "apple", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09003", "acid: the remainder",
         {{{water, 85.56}, {sucrose, 2.07}, {glucose, 2.43}, {fructose, 5.9}, {minerals, 0.19}, {protein, 0.26},
           {starch, 0.05}, {fibre, 2.4}, {fat, 0.17}, {acid, 0.97}}}},
        {"applesauce, unsweetened", kind::fruit, {3.1, 3.1, "apple", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09019", "acid: the remainder",
         {{{water, 88.22}, {sucrose, 1.13}, {glucose, 2.3}, {fructose, 5.88}, {maltose, 0.07}, {minerals, 0.24},
           {protein, 0.17}, {fibre, 1.1}, {fat, 0.1}, {acid, 0.79}}}},
        {"apricot puree", kind::fruit, {3.3, 3.3, "apricot", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09021", "sugars scaled by 0.9859 to close the row; acid unknown",
         {{{water, 86.35}, {sucrose, 5.78}, {glucose, 2.34}, {fructose, 0.93}, {maltose, 0.06}, {minerals, 0.75},
           {protein, 1.4}, {fibre, 2}, {fat, 0.39}}}},
        {"banana puree", kind::fruit, {4.6, 4.6, "banana", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09040", "acid: the remainder",
         {{{water, 74.91}, {sucrose, 2.39}, {glucose, 4.98}, {fructose, 4.85}, {maltose, 0.01}, {minerals, 0.82},
           {protein, 1.09}, {starch, 5.38}, {fibre, 2.6}, {fat, 0.33}, {acid, 2.64}}}},
        {"blackberry puree", kind::fruit, {3.3, 3.3, "blackberry", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09042",
         "sugars scaled by 0.8811 to close the row; acid unknown",
         {{{water, 88.15}, {sucrose, 0.06}, {glucose, 2.04}, {fructose, 2.11}, {galactose, 0.03},
           {maltose, 0.06}, {minerals, 0.37}, {protein, 1.39}, {fibre, 5.3}, {fat, 0.49}}}},
        {"blueberry puree", kind::fruit, {3.7, 3.7, "blueberry", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09050", "acid: the remainder",
         {{{water, 84.21}, {sucrose, 0.11}, {glucose, 4.88}, {fructose, 4.97}, {minerals, 0.24}, {protein, 0.74},
           {starch, 0.03}, {fibre, 2.4}, {fat, 0.33}, {acid, 2.09}}}},
        {"kiwifruit puree", kind::fruit, {3.1, 4.0, from_memory, 'M'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09148", "acid: the remainder",
         {{{water, 83.07}, {sucrose, 0.15}, {glucose, 4.11}, {fructose, 4.35}, {galactose, 0.17},
           {maltose, 0.19}, {minerals, 0.61}, {protein, 1.14}, {fibre, 3}, {fat, 0.52}, {acid, 2.69}}}},
        {"mango puree", kind::fruit, {4.1, 4.1, "mango", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09176", "sugars scaled by 0.9795 to close the row; acid unknown",
         {{{water, 83.46}, {sucrose, 6.83}, {glucose, 1.97}, {fructose, 4.58}, {minerals, 0.36}, {protein, 0.82},
           {fibre, 1.6}, {fat, 0.38}}}},
        {"orange juice", kind::fruit, {4.2, 4.2, "orange juice", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09206",
         "sugars 2:1:1 sucrose, glucose, fructose: from memory; acid: the remainder",
         {{{water, 88.3}, {sucrose, 4.2}, {glucose, 2.1}, {fructose, 2.1}, {minerals, 0.4}, {protein, 0.7},
           {fibre, 0.2}, {fat, 0.2}, {acid, 1.8}}}},
        {"passion fruit juice", kind::fruit, {2.6, 3.3, from_memory, 'M'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09232",
         "sugars in equal parts: our estimate; the table counts its acid as sugar",
         {{{water, 85.62}, {sucrose, 4.46}, {glucose, 4.47}, {fructose, 4.47}, {minerals, 0.34}, {protein, 0.39},
           {fibre, 0.2}, {fat, 0.05}}}},
        {"peach puree", kind::fruit, {3.5, 3.5, "peach", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09236", "sugars scaled by 0.9594 to close the row; acid unknown",
         {{{water, 88.87}, {sucrose, 4.56}, {glucose, 1.87}, {fructose, 1.47}, {galactose, 0.06},
           {maltose, 0.08}, {minerals, 0.43}, {protein, 0.91}, {fibre, 1.5}, {fat, 0.25}}}},
        {"pear puree", kind::fruit, {3.9, 3.9, "pear", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09252", "acid: the remainder",
         {{{water, 83.96}, {sucrose, 0.71}, {glucose, 2.6}, {fructose, 6.42}, {minerals, 0.32}, {protein, 0.36},
           {fibre, 3.1}, {fat, 0.14}, {acid, 2.39}}}},
        {"pineapple puree", kind::fruit, {3.2, 4.0, from_memory, 'M'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09266", "acid: the remainder",
         {{{water, 86}, {sucrose, 5.99}, {glucose, 1.73}, {fructose, 2.12}, {minerals, 0.22}, {protein, 0.54},
           {fibre, 1.4}, {fat, 0.12}, {acid, 1.88}}}},
        {"raspberry puree", kind::fruit, {3.6, 3.6, "raspberry", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09302", "acid: the remainder",
         {{{water, 85.75}, {sucrose, 0.2}, {glucose, 1.86}, {fructose, 2.35}, {minerals, 0.46}, {protein, 1.2},
           {fibre, 6.5}, {fat, 0.65}, {acid, 1.03}}}},
        {"redcurrant puree", kind::fruit, {2.9, 2.9, from_memory, 'M'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09084", "acid: the remainder",
         {{{water, 83.95}, {sucrose, 0.61}, {glucose, 3.22}, {fructose, 3.53}, {minerals, 0.66}, {protein, 1.4},
           {fibre, 4.3}, {fat, 0.2}, {acid, 2.13}}}},
        {"sour cherry puree", kind::fruit, {3.2, 3.5, from_memory, 'M'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09063", "acid: the remainder",
         {{{water, 86.13}, {sucrose, 0.8}, {glucose, 4.18}, {fructose, 3.51}, {minerals, 0.4}, {protein, 1},
           {fibre, 1.6}, {fat, 0.3}, {acid, 2.08}}}},
        {"strawberry puree", kind::fruit, {3.4, 3.4, "strawberry", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09316", "acid: the remainder",
         {{{water, 90.95}, {sucrose, 0.47}, {glucose, 1.99}, {fructose, 2.44}, {minerals, 0.4}, {protein, 0.67},
           {starch, 0.04}, {fibre, 2}, {fat, 0.3}, {acid, 0.74}}}},
        {"sweet cherry puree", kind::fruit, {3.8, 3.8, "sweet cherry", 'H'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 09070", "acid: the remainder",
         {{{water, 82.25}, {sucrose, 0.15}, {glucose, 6.59}, {fructose, 5.37}, {galactose, 0.59},
           {maltose, 0.12}, {minerals, 0.48}, {protein, 1.06}, {fibre, 2.1}, {fat, 0.2}, {acid, 1.09}}}},

        // coconut, nuts, fats
        {"coconut milk", kind::coconut_milk, {6.1, 7.0, from_memory, 'M'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 12118", "canned; higher saccharides: the remainder",
         {{{water, 72.88}, {higher_saccharides, 2.8}, {minerals, 0.97}, {protein, 2.02}, {vegetable_fat, 21.33}}}},
        {"coconut cream", kind::coconut_milk, {6.1, 7.0, from_memory, 'M'}, allergen::none, caution::none,
         "USDA SR Legacy, NDB 12115", "higher saccharides: the remainder",
         {{{water, 53.9}, {higher_saccharides, 4.44}, {minerals, 1.15}, {protein, 3.63}, {fibre, 2.2},
           {vegetable_fat, 34.68}}}},
        {"hazelnut paste, unsweetened", kind::nut, unknown_ph, allergen::nuts, caution::none,
         "USDA SR Legacy, NDB 12120",
         "nuts as they are, ground; higher saccharides: the remainder",
         {{{water, 5.31}, {sucrose, 4.2}, {glucose, 0.07}, {fructose, 0.07}, {higher_saccharides, 2.18},
           {minerals, 2.29}, {protein, 14.95}, {starch, 0.48}, {fibre, 9.7}, {vegetable_fat, 60.75}}}},
        {"pistachio paste, unsweetened", kind::nut, unknown_ph, allergen::nuts, caution::none,
         "USDA SR Legacy, NDB 12151",
         "nuts as they are, ground; higher saccharides: the remainder",
         {{{water, 4.37}, {sucrose, 6.87}, {glucose, 0.32}, {fructose, 0.24}, {maltose, 0.17},
           {higher_saccharides, 7.59}, {minerals, 2.99}, {protein, 20.16}, {starch, 1.67}, {fibre, 10.3},
           {vegetable_fat, 45.32}}}},
        {"ground almonds", kind::nut, unknown_ph, allergen::nuts, caution::none,
         "USDA SR Legacy, NDB 12061",
         "nuts as they are, ground; higher saccharides: the remainder",
         {{{water, 4.41}, {sucrose, 3.95}, {glucose, 0.17}, {fructose, 0.11}, {maltose, 0.04}, {galactose, 0.07},
           {higher_saccharides, 3.98}, {minerals, 2.97}, {protein, 21.15}, {starch, 0.72}, {fibre, 12.5},
           {vegetable_fat, 49.93}}}},
        {"ground walnuts", kind::nut, unknown_ph, allergen::nuts, caution::none,
         "USDA SR Legacy, NDB 12155",
         "nuts as they are, ground; higher saccharides: the remainder",
         {{{water, 4.07}, {sucrose, 2.43}, {glucose, 0.08}, {fructose, 0.09}, {higher_saccharides, 4.35},
           {minerals, 1.78}, {protein, 15.23}, {starch, 0.06}, {fibre, 6.7}, {vegetable_fat, 65.21}}}},
        {"peanut butter", kind::nut, unknown_ph, allergen::peanuts, caution::none,
         "USDA SR Legacy, NDB 16098",
         "salt is 2.542 x sodium, the other ash minerals; higher saccharides: the remainder",
         {{{water, 1.23}, {sucrose, 8.68}, {glucose, 0.54}, {higher_saccharides, 2.3}, {salt, 1.17},
           {minerals, 1.72}, {protein, 22.21}, {starch, 4.79}, {fibre, 6}, {vegetable_fat, 51.36}}}},
        {"coconut oil", kind::fat, unknown_ph, allergen::none, caution::none,
         "USDA SR26, NDB 04047", "", {{{vegetable_fat, 100}}}},
        {"cocoa butter", kind::fat, unknown_ph, allergen::none, caution::none,
         "USDA SR26, NDB 04501", "", {{{cocoa_butter, 100}}}},

        // alcohol: % vol is that of the bottle; grams of ethanol per 100 g stand in the row
        {"rum 40 % vol", kind::spirit, unknown_ph, allergen::none, caution::flammable,
         "USDA SR26, NDB 14050", "", {{{water, 66.6}, {ethanol, 33.4}}}},
        {"orange liqueur 40 % vol", kind::spirit, unknown_ph, allergen::none, caution::flammable,
         "label-typical; recalled, confidence medium", "250 g of sugar a litre, all sucrose",
         {{{water, 45}, {sucrose, 24.3}, {ethanol, 30.7}}}},
        {"coffee liqueur 27 % vol", kind::spirit, unknown_ph, allergen::none, caution::flammable,
         "USDA SR26, NDB 14414", "all sugar is sucrose; higher saccharides: the remainder",
         {{{water, 31}, {sucrose, 46.43}, {higher_saccharides, 0.37}, {minerals, 0.1}, {protein, 0.1}, {fat, 0.3},
           {ethanol, 21.7}}}},
        {"vanilla extract", kind::spirit, unknown_ph, allergen::none, caution::flammable,
         "USDA SR Legacy, NDB 02050", "all sugar is sucrose",
         {{{water, 52.58}, {sucrose, 12.65}, {minerals, 0.26}, {protein, 0.06}, {fat, 0.06}, {ethanol, 34.4}}}},

        // layers of a dessert: all of each row is an estimate
        {"sponge cake", kind::cake, unknown_ph, allergen::gluten | allergen::eggs | allergen::milk, caution::none,
         "common practice, no source", "all of it: a genoise, moist from the oven",
         {{{water, 28}, {sucrose, 27}, {starch, 24.5}, {fibre, 1}, {protein, 9}, {minerals, 0.7}, {salt, 0.3},
           {fat, 9.5}}}},
        {"pastry cream", kind::custard, unknown_ph, allergen::eggs | allergen::milk, caution::none,
         "common practice, no source", "all of it: milk, egg yolk, sugar and starch, boiled",
         {{{water, 66}, {sucrose, 16}, {lactose, 3.6}, {starch, 4.5}, {protein, 4.2}, {minerals, 0.7}, {fat, 5}}}},
        {"ganache", kind::chocolate, unknown_ph, allergen::milk | allergen::soybeans, caution::none,
         "common practice, no source", "all of it: dark chocolate 60-69 % and heavy cream, equal parts",
         {{{water, 29.5}, {sucrose, 18.2}, {lactose, 1.6}, {protein, 1.5}, {minerals, 0.3}, {cocoa_solids, 11.7},
           {fat, 18.1}, {cocoa_butter, 19.1}}}},
        {"hazelnut praline", kind::nut, unknown_ph, allergen::nuts, caution::none,
         "common practice, no source", "all of it: hazelnuts and caramelized sugar, equal parts",
         {{{water, 1}, {sucrose, 52.1}, {higher_saccharides, 1.1}, {minerals, 1.2}, {protein, 7.6}, {starch, 0.2},
           {fibre, 5}, {vegetable_fat, 31.8}}}},
        // clang-format on
    });
}
}  // namespace detail

inline constexpr auto pantry = detail::pantry_rows();

/// The ingredient of that name or trade name, exact but for ASCII case and outer blanks; null if there is none.
constexpr const pantry_row* find_ingredient(std::string_view name) {
    for (const auto& row : pantry)
        if (same_name(row.name, name)) return &row;
    for (const auto& other : trade_names)
        if (!other.only_suggested && same_name(other.name, name)) return find_ingredient(other.ingredient);
    return nullptr;
}

/// Grams of the parts of a row together: 100 but for rounding.
constexpr double sum_of_parts(const pantry_row& row) {
    double sum = 0;
    for (const auto& part : row.parts) sum += part.grams();
    return sum;
}

/// Shares per 1 g of the ingredient; they sum to 1.
constexpr std::array<double, component_count> composition_of(const pantry_row& row) {
    std::array<double, component_count> shares{};
    const double sum = sum_of_parts(row);
    for (const auto& part : row.parts) shares[index_of(part.id)] += part.grams() / sum;
    return shares;
}

namespace detail {
/// Whether the columns of a row are there and agree with each other.
constexpr bool is_complete(const pantry_row& row) {
    if (row.name.empty() || row.source.empty()) return false;
    const acidity& a = row.ph;
    const bool told = a.known() && a.low > 0.0 && a.high < 14.0 && !a.from.empty() &&
                      std::string_view("HML").find(a.confidence) != std::string_view::npos;
    const bool untold = a.low != a.low && a.high != a.high && a.from.empty() && a.confidence == ' ';
    if (!told && !untold) return false;
    bool lactose = false, polyol = false, alcohol = false;
    for (const auto& part : row.parts) {
        lactose = lactose || (part.id == component::lactose && part.hundredths > 0);
        polyol = polyol || data_of(part.id).laxative;
        alcohol = alcohol || part.id == component::ethanol;
    }
    const auto has = [&](allergen_set some) { return row.allergens.holds(some); };
    const bool is_milk = row.kind == ingredient_kind::milk_or_cream || row.kind == ingredient_kind::dairy;
    return (has(allergen::milk) || !(lactose || is_milk)) &&
           (has(allergen::nuts) || has(allergen::peanuts)) == (row.kind == ingredient_kind::nut) &&
           row.cautions.holds(caution::flammable) == alcohol && row.cautions.holds(caution::laxative) == polyol;
}

constexpr bool pantry_is_complete() {
    for (const auto& row : pantry)
        if (!is_complete(row)) return false;
    return true;
}

constexpr bool pantry_closes() {
    for (const auto& row : pantry) {
        const double sum = sum_of_parts(row);
        if (!(sum > 99.95 && sum < 100.05)) return false;
    }
    return true;
}

constexpr bool pantry_names_are_unique() {
    for (std::size_t i = 0; i < pantry.size(); ++i)
        for (std::size_t j = i + 1; j < pantry.size(); ++j)
            if (pantry[i].name.size() == pantry[j].name.size() && same_name(pantry[i].name, pantry[j].name))
                return false;
    return true;
}
}  // namespace detail

static_assert(detail::pantry_is_complete(), "each ingredient has all its columns, and they agree");
static_assert(detail::pantry_closes(), "each ingredient's parts sum to 100 within 0.05");
static_assert(detail::pantry_names_are_unique(), "no ingredient is named twice");

}  // namespace sirop::core
