// What is known of an ingredient besides its composition: its kind, its pH, its allergens, what to be careful
// with. Nothing asks for a part of a name: what an ingredient is, its kind says.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <string_view>

#include "../formula/no_fast_math.hpp"

namespace sirop::core {

/// What an ingredient is; each has one kind.
enum class ingredient_kind : unsigned char {
    water,
    sugar,          ///< sugars that are dry
    glucose_syrup,  ///< sold by its dextrose equivalent, and split as the table of starch syrups says
    syrup,          ///< any other syrup, honey and molasses: what its solids are is fixed, how much of them is not
    maltodextrin,
    polyol,         ///< dry, or without water
    milk_or_cream,  ///< of any fat; also condensed, soured or as powder
    coconut_milk,   ///< and coconut cream
    custard,        ///< milk or cream, egg and starch
    dairy,          ///< of milk, but neither milk nor cream: whey, caramelized milk
    fat,            ///< butter, oils, cocoa butter
    chocolate,      ///< and ganache
    cocoa,
    coffee_or_tea,
    fruit,  ///< purees and juices
    nut,
    starch,
    gelling,
    salt,
    acid,
    egg,
    spirit,  ///< with alcohol: spirits, liqueurs, extracts
    cake,
    other  ///< no row of the pantry, and none of these by its composition
};

/// Sold by a dextrose equivalent.
constexpr bool has_dextrose_equivalent(ingredient_kind kind) {
    return kind == ingredient_kind::glucose_syrup;
}
/// Its solids content differs from make to make.
constexpr bool has_varying_solids(ingredient_kind kind) {
    return kind == ingredient_kind::glucose_syrup || kind == ingredient_kind::syrup;
}
/// Its fat content differs from make to make, if it has any.
constexpr bool has_varying_fat(ingredient_kind kind) {
    return kind == ingredient_kind::milk_or_cream || kind == ingredient_kind::coconut_milk ||
           kind == ingredient_kind::custard;
}

/// pH at room temperature, of a powder that of its solution: the ends of what is printed.
struct acidity {
    double low, high;       ///< NaN where unknown
    std::string_view from;  ///< row of tests/data/ph_ingredients.csv, or "recalled": from memory; empty if unknown
    char confidence;        ///< as the table says: H high, M medium, L low; ' ' if unknown

    constexpr bool known() const { return low <= high; }
    constexpr double middle() const { return 0.5 * (low + high); }  ///< the middle; NaN where unknown
};

inline constexpr std::string_view from_memory = "recalled";
inline constexpr acidity unknown_ph{std::numeric_limits<double>::quiet_NaN(),
                                    std::numeric_limits<double>::quiet_NaN(), "", ' '};

/// Bits of a set: what is in one may be in the other.
template <class Tag>
struct bit_set {
    std::uint16_t bits = 0;

    constexpr bool holds(bit_set some) const { return (bits & some.bits) == some.bits; }
    constexpr bool empty() const { return bits == 0; }
    friend constexpr bit_set operator|(bit_set a, bit_set b) {
        return {static_cast<std::uint16_t>(a.bits | b.bits)};
    }
    friend constexpr bool operator==(bit_set, bit_set) = default;
};

/// The substances of Regulation (EU) No 1169/2011, annex II, in its order (recalled, confidence high).  What an
/// ingredient usually holds; the label of the one at hand decides.
using allergen_set = bit_set<struct allergen_tag>;
inline constexpr std::array<std::string_view, 14> allergen_names = {"cereals containing gluten",
                                                                    "crustaceans",
                                                                    "eggs",
                                                                    "fish",
                                                                    "peanuts",
                                                                    "soybeans",
                                                                    "milk",
                                                                    "nuts",
                                                                    "celery",
                                                                    "mustard",
                                                                    "sesame seeds",
                                                                    "sulphur dioxide and sulphites",
                                                                    "lupin",
                                                                    "molluscs"};

constexpr allergen_set allergen_named(std::string_view name) {
    allergen_set found;
    for (std::size_t i = 0; i < allergen_names.size(); ++i)
        if (allergen_names[i] == name) found.bits = static_cast<std::uint16_t>(1U << i);
    return found;
}

namespace allergen {
inline constexpr allergen_set none, gluten = allergen_named("cereals containing gluten"),
                                    eggs = allergen_named("eggs"), soybeans = allergen_named("soybeans"),
                                    milk = allergen_named("milk"), nuts = allergen_named("nuts"),
                                    peanuts = allergen_named("peanuts");
}  // namespace allergen

/// What a dish with it needs a word about.
using caution_set = bit_set<struct caution_tag>;
namespace caution {
inline constexpr caution_set none;
inline constexpr caution_set laxative{1};  ///< polyols, in amounts (the same regulation, annex III; recalled)
inline constexpr caution_set not_for_infants{2};  ///< honey, below the age of one year (botulism; common advice)
inline constexpr caution_set flammable{4};        ///< alcohol
inline constexpr caution_set foams{8};            ///< baking soda
inline constexpr caution_set raw_egg{16};
}  // namespace caution

}  // namespace sirop::core
