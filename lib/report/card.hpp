// A batch on a card: what one reads at the stove.  The whole is in the report of answer.cpp.
#pragma once

#include "sirop/cooking/advice.hpp"

namespace sirop::lib {

/// To what a kitchen probe is right at best, in kelvin either way (common practice, no source).
inline constexpr double kitchen_probe_kelvin = 1.0;

struct card_line {
    std::string label, text;
};

struct card_amount {
    std::string where, grams, name;  ///< where: on the first of the pan and the first off the heat
};

/// A card from top to bottom: cautions stand first.
struct card {
    std::string title;
    std::vector<std::string> cautions;
    std::vector<card_amount> amounts;
    card_line stop;                ///< the temperature at which to stop, in both scales
    std::vector<card_line> lines;  ///< from the weight of the pan to the shelf
};

/// The card of a batch and of what is predicted of it.
card card_of(const core::batch& b, const core::prediction& p);

/// The card as text, wrapped at so many characters: labels beside their texts, or before them where it is narrow.
inline constexpr core::limit card_width_limit{"columns", 24.0, 200.0, "characters"};
std::string card_text(const card& c, std::size_t width);

/// "62.5 g": to the tenth, or the hundredth below 10 g, without zeros that say nothing.
std::string amount_text(double grams);

}  // namespace sirop::lib
