// What the heat does to what is in the pan, and what an ingredient needs a word about.
#pragma once

#include <string>
#include <vector>

#include "batch.hpp"
#include "prediction.hpp"

namespace sirop::core {

/// Cautions of a pan boiled down to a temperature in C, one for each component that the heat changes: by the
/// columns of its row, whose temperatures are common practice but for the colours of sugar.
inline std::vector<std::string> heat_cautions(const mixture& pan, double celsius) {
    std::vector<std::string> out;
    for (const auto& c : components) {
        const auto& heat = c.in_the_heat;
        if (!(pan[c.id] > heat.from_share * pan.total()) || !(celsius >= heat.changes_celsius)) continue;
        const bool spoilt = celsius >= heat.spoils_celsius;
        out.push_back(std::string("Too hot? From about ")
                          .append(both_scales(spoilt ? heat.spoils_celsius : heat.changes_celsius, 0))
                          .append(" ")
                          .append(spoilt ? heat.spoils : heat.changes)
                          .append("; this pan ends at ")
                          .append(both_scales(celsius, 0))
                          .append("."));
        if (!spoilt) out.back().erase(0, std::string_view("Too hot? ").size());
    }
    return out;
}

/// Water activity at 20 C up to which what is made with milk is left to the verdict of keeping alone: 0.85, the
/// limit of chilling, less a margin (our choice).
inline constexpr double dairy_keeps_below = 0.80;

/// What the ingredients of a batch need a word about, whatever the heat.
inline std::vector<std::string> ingredient_cautions(const batch& b, const mixture& finished) {
    caution_set all;
    bool alcohol = false;
    for (const auto* lines : {&b.pan, &b.off_heat})
        for (const auto& line : *lines) {
            if (!(line.grams > 0.0)) continue;
            if (const auto* row = find_ingredient(line.name)) all = all | row->cautions;
            alcohol = alcohol || line.per_gram[index_of(component::ethanol)] > 0.0;
        }
    std::vector<std::string> out;
    if (alcohol)
        out.emplace_back(
            "Alcohol burns: take the pan off the flame and let it cool below 78 °C (172 °F) before it is added. "
            "What "
            "goes into the boiling pan leaves as vapour that can catch fire, and is not counted.");
    if (all.holds(caution::foams))
        out.emplace_back(
            "Baking soda foams up to several times the volume: a deep pan, a little at a time, off the heat.");
    if (all.holds(caution::not_for_infants))
        out.emplace_back("Honey: not for infants under one year, cooked or not.");
    if (all.holds(caution::raw_egg))
        out.emplace_back(
            "Egg sets and curdles from about 65 °C (149 °F); keep what is made with it chilled. Foam and custard "
            "are "
            "not modelled.");
    double sugar_alcohols = 0.0;
    for (const auto& c : components)
        if (c.laxative) sugar_alcohols += finished[c.id];
    if (sugar_alcohols > 0.10 * finished.total())
        out.emplace_back(
            "Sugar alcohols: more than a tenth of it; excessive amounts have a laxative effect, and the label "
            "must "
            "say so in many countries.");
    // Not for what is too dry: caramels that are wrapped and kept are no sauce.
    if (finished[component::lactose] > 0.002 * finished.total() &&
        !(water_activity(finished, 20.0).high <= dairy_keeps_below))
        out.emplace_back(
            "Made with milk or cream: keep it chilled; it is not for the shelf without a tested process.");
    return out;
}

/// Whether the acid of the pan turns some of its sucrose: more than 0.02 % of acid from ingredients below pH 4.5
/// (our estimate), or from ingredients of unknown pH.  A pinch of cream of tartar counts, and the juice of a
/// lemon.
inline bool acid_inverts(const batch& b) {
    const mixture pan = in_the_pan(b.pan);
    double acid = 0.0;
    for (const auto& line : b.pan) {
        const auto* row = find_ingredient(line.name);
        if (row != nullptr && row->ph.known() && row->ph.middle() >= 4.5) continue;
        acid += line.grams * line.per_gram[index_of(component::acid)];
    }
    return pan[component::sucrose] > 0.0 && acid > 2.0e-4 * pan.total();
}

}  // namespace sirop::core
