// What to watch: cautions (safety, graining, keeping) and notes (extrapolation, assumptions) from a prediction.
#pragma once

#include <string>
#include <vector>

#include "graining_fixes.hpp"
#include "pan_cautions.hpp"

namespace sirop::core {

/// Hot sugar and the first aid, word for word the same wherever people are told what to do with it.
inline constexpr std::string_view burn_caution =
    "Hot sugar sticks and burns deep: deep pan, long sleeves, nobody else near. On a burn: cool running water 20 "
    "minutes, no ice, do not pull off stuck sugar, get medical help.";
inline constexpr std::string_view first_aid = burn_caution.substr(burn_caution.find("On a burn"));
inline constexpr std::string_view steam_caution =
    "Liquid added to hot sugar bursts into steam: take the pan off the heat, warm the liquid, add it in parts, at "
    "arm's length.";
inline constexpr std::string_view keeping_deferral =
    "Water activity is a screening figure: for keeping and sale follow your food code and a tested process.";

/// Whether what is added off the heat brings water that bursts into steam: more than 2 % of it.
inline bool additions_burst(const batch& b) {
    const auto added = contents_of(b.off_heat);
    return added.water() > 0.02 * added.total();
}

inline void add_cautions(prediction& p, const batch& b) {
    auto& out = p.cautions;
    const auto& f = p.finished;
    out.emplace_back(burn_caution);
    for (auto& text : heat_cautions(p.cooked.contents, p.cooked.celsius)) out.push_back(std::move(text));
    if (additions_burst(b)) out.emplace_back(steam_caution);
    for (auto& text : ingredient_cautions(b, f.contents)) out.push_back(std::move(text));
    if (f.water_flashed_grams.value > 0.0)
        out.push_back("The additions boil up: about " + fixed(f.water_flashed_grams.value, 1) +
                      " g of water leaves as steam (" +
                      fixed(1.67 * formula::standard_atmosphere / b.pressure_pa * f.water_flashed_grams.value, 0) +
                      " litres) at " + both_scales(f.mixed_celsius, 0) + ".");

    const auto& at_serving = p.graining_at_serving;
    const auto& stored = p.graining_in_storage;
    const auto& worse = stored.risk >= at_serving.risk ? stored : at_serving;
    if (worse.risk > graining_risk::none) {
        const bool sandy = worse.lactose_risk > worse.sucrose_risk;
        std::string text = std::string(sandy ? "Sandiness, " : "Graining, ") + "risk " +
                           std::string(graining_risk_names[static_cast<std::size_t>(worse.risk)]) + " at " +
                           both_scales(worse.celsius, 0);
        text += ": " + worse.reason + ".";
        if (!sandy && worse.risk >= graining_risk::moderate)
            text += " Do not stir while it cools, keep crystals out, wash down the sides of the pan.";
        out.push_back(std::move(text));
    }
    if (f.undissolved_sugar_grams > 0.05)
        out.push_back("About " + fixed(f.undissolved_sugar_grams, 1) +
                      " g of the sugar added off the heat stays undissolved.");

    const auto& k = p.keeping_in_storage;
    const auto& aw = k.water_activity;
    if (aw.computed()) {
        std::string text = "Keeping: water activity " + fixed(aw.value, 2) + " (" + fixed(aw.low, 2) + " to " +
                           fixed(aw.high, 2) + ") at " + both_scales(k.celsius, 0) + ", ";
        if (k.frozen)
            text += "where nothing grows; once thawed, judge it at the temperature at which it is then kept";
        else if (k.chill)
            text += "not safely under 0.85: treat it as perishable and chill it";
        else if (aw.high > 0.80)
            text += "under 0.85, but moulds and yeasts can grow";
        else if (aw.high > 0.60)
            text +=
                "too dry for bacteria and most moulds; sugar-tolerant yeasts and moulds can still grow above 0.60";
        else
            text += "too dry for growth; it draws moisture, so keep it closed and dry";
        out.push_back(text + " (limits: Beuchat 1981). " + std::string(keeping_deferral));
    } else {
        out.emplace_back(keeping_deferral);
    }
    const auto beside = keeping_of(p.neighbours.water_activity, p.neighbours.celsius);
    if (beside.water_activity.computed() && !beside.growth.empty() && !k.frozen &&
        !(beside.water_activity.high <= aw.high)) {
        const auto& together = beside.water_activity;
        out.push_back("Keeping beside its neighbours: in the end all layers come to a water activity of " +
                      fixed(together.value, 2) + " (" + fixed(together.low, 2) + " to " + fixed(together.high, 2) +
                      "), where " + std::string(beside.growth) + " could grow" +
                      (beside.chill ? ": treat the dessert as perishable and chill it." : "."));
    }
}

inline void add_notes(prediction& p, const batch& b) {
    auto& out = p.notes;
    const auto& f = p.finished;
    const auto& m = p.cooked.contents;
    const double dry_solids = m.syrup_solids();
    if (dry_solids > 0.97)
        out.emplace_back(
            "Extrapolation: beyond 97 % solids of the syrup phase the sucrose model is continued; above "
            "that, inversion and browning make the boiling point ill-defined.");
    if (p.cooked.celsius > 170.0)
        out.emplace_back(
            "Extrapolation: above 170 °C no isotherm is fitted, and sugar turns to caramel, which is not "
            "modelled.");
    double solids = 0.0, small = 0.0;
    for (const auto& c : components) {
        if (c.isotherm.kind == isotherm_kind::solid) solids += m[c.id];
        if (c.isotherm.kind == isotherm_kind::monosaccharide) small += m[c.id];
    }
    if (solids > 0.005 * m.total())
        out.emplace_back(
            "Extrapolation: protein, starch, fibre, cocoa and gelling agents are taken to hold water as at 25 °C; "
            "they hold little of it, but their data are the weakest here.");
    if (p.cooked.celsius > 100.0 && small > 0.01 * m.dissolved())
        out.emplace_back(
            "Extrapolation: above 100 °C the glucose model is used beyond its fit (fructose as "
            "glucose).");
    if (f.contents.syrup_solids() > 0.75)
        out.emplace_back(
            "Extrapolation: the viscosity law is fitted to syrups of 75 % solids; beyond, it is carried on "
            "to the glass, and its range is a factor.");
    if (!f.freezing_celsius.computed())
        out.emplace_back("A freezing point cannot be given: ice would form below -30 °C, if at all.");
    if (!std::isfinite(f.lactose_supersaturation))
        out.emplace_back("A supersaturation of lactose cannot be given: it is tabulated to 89 °C.");
    if (!std::isfinite(f.brix_of_syrup_phase.value))
        out.emplace_back("A refractometer reading cannot be given: its scale ends at 95 %.");
    if (!std::isfinite(p.stage.sea_level_celsius))
        out.emplace_back(
            "The table is read at the temperature as it stands, or at the end of the model if that is hotter: "
            "plain syrup would be beyond 99.5 % solids there, where the chart names colours.");
    if (p.stage.by_consistency != p.stage.by_temperature && !p.stage.by_consistency.empty())
        out.push_back("The table speaks of plain sugar; this batch is as stiff as plain syrup at " +
                      (std::isfinite(p.stage.plain_syrup_celsius) ? both_scales(p.stage.plain_syrup_celsius)
                                                                  : std::string("more than 99.5 % solids")) +
                      " at sea level.");
    if (f.contents.syrup_solids() > last_syrup_solids)
        out.emplace_back(
            "Extrapolation: with the additions the syrup is beyond 99.5 % solids, the end of the model.");
    for (const auto& c : components) {
        const auto& note = c.note;
        const mixture& of = note.of_cooked ? m : f.contents;
        if (of[c.id] > note.from_share * of.total() && b.serve_celsius < note.below_celsius && !note.text.empty())
            out.emplace_back(f.contents.syrup_solids() > 0.65 && !note.in_much_sugar.empty() ? note.in_much_sugar
                                                                                             : note.text);
        if (f.contents.raw(c.id) > 0.0 && !note.if_raw.empty()) out.emplace_back(note.if_raw);
    }
    if (acid_inverts(b))
        out.emplace_back(
            "Acid turns part of the sugar into glucose and fructose while it boils, which is not modelled: "
            "softer, stickier, less graining.");
    if (f.at_serving.ice > 0.0)
        out.push_back("At the serving temperature " + fixed(percent(f.at_serving.ice, f.contents.water()), 0) +
                      " % of the water is ice; viscosity and activity are those of the frozen batch.");
    if (f.contents.fat() > 0.40 * f.contents.total())
        out.emplace_back(
            "More than 40 % fat: the syrup may no longer be the continuous phase, and fat may separate.");
    if (p.off_heat_grams == 0.0)
        out.emplace_back(
            "The cook ends when the batch reaches the temperature: pour it off at once, or it boils on.");
    // Every flag has its reason.
    bool explained = p.status == grade::fine;
    for (const auto& note : out) explained = explained || note.rfind("Extrapolation", 0) == 0;
    if (!explained)
        out.emplace_back(
            "Extrapolation: the isotherm of salt, minerals or a polyol, or of a sugar in the cold, is used "
            "outside the range it was fitted in.");
}

/// The prediction with its cautions and notes.
inline outcome<prediction> predict_with_advice(const batch& b, const stage_table& table) {
    auto answer = predict(b, table);
    if (!answer) return answer;
    answer.value->ways_to_clear = ways_to_clear_graining(b);
    add_cautions(*answer.value, b);
    add_notes(*answer.value, b);
    return answer;
}

}  // namespace sirop::core
