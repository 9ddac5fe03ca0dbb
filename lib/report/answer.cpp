#include "json/batch_file.hpp"
#include "report/page.hpp"
#include "sirop/sirop.h"

namespace sirop::lib {
namespace {

void write_graining(json& out, const core::graining& g) {
    write(out, field{"celsius", g.celsius},
          field{"risk", core::graining_risk_names[static_cast<std::size_t>(g.risk)]}, field{"reason", g.reason},
          field{"sucrose_supersaturation", g[core::component::sucrose].supersaturation},
          field{"lactose_supersaturation", g[core::component::lactose].supersaturation},
          field{"crystallizable_percent", g.crystallizable_percent},
          field{"hindering_percent", g.hindering_percent},
          field{"grains_first", g.first ? json(std::string(core::data_of(*g.first).name)) : json()});
    json& each = at(out, "each") = json(json::list());
    for (const auto& a : g.each)
        if (a.supersaturation.value > 0.0)
            write(grown(each), field{"component", core::data_of(a.id).name},
                  field{"supersaturation", a.supersaturation},
                  field{"crystallizable_grams", a.crystallizable_grams},
                  field{"hindering_percent", a.hindering_percent},
                  field{"risk", core::graining_risk_names[static_cast<std::size_t>(a.risk)]});
}

}  // namespace

json prediction_json(const core::prediction& p) {
    json answer;
    write(answer, field{"sirop_answer", 1}, field{"title", p.title},
          field{"status", p.status == core::grade::fine ? "fine" : "extrapolated"});
    json& unsupported = at(answer, "extrapolated_quantities") = json(json::list());
    for (const auto& [name, e] :
         {std::pair{"water", p.cooked.water_percent},
          std::pair{"water_activity", p.finished.water_activity_at_serving},
          std::pair{"viscosity", p.set.log10_viscosity}, std::pair{"firmness", p.set.log10_firmness}})
        if (e.status == core::grade::extrapolated) grown(unsupported) = json(std::string(name));

    const auto& c = p.cooked;
    json& cooked = at(answer, "cooked");
    write(cooked, field{"celsius", c.celsius}, field{"thermometer_celsius", c.thermometer_celsius},
          field{"pressure_hpa", 0.01 * c.pressure_pa}, field{"water_boils_celsius", c.water_boils_celsius},
          field{"starts_to_boil_celsius", c.starts_to_boil_celsius}, field{"highest_celsius", c.highest_celsius},
          field{"water_activity", c.water_activity}, field{"water_percent", c.water_percent},
          field{"solids_percent", c.solids_percent}, field{"grams", c.grams},
          field{"water_boiled_off_grams", c.water_boiled_off_grams});

    const auto& f = p.finished;
    json& finished = at(answer, "finished");
    write(finished, field{"grams", f.grams}, field{"water_percent", f.water_percent},
          field{"fat_percent", f.fat_percent}, field{"water_flashed_grams", f.water_flashed_grams},
          field{"water_activity_at_serving", f.water_activity_at_serving},
          field{"syrup_solids_percent", f.syrup_solids_percent},
          field{"brix_of_syrup_phase", f.brix_of_syrup_phase},
          field{"glass_transition_celsius", f.glass_transition_celsius},
          field{"freezing_celsius", f.freezing_celsius}, field{"millilitres", f.millilitres},
          field{"mixed_celsius", f.mixed_celsius}, field{"undissolved_sugar_grams", f.undissolved_sugar_grams},
          field{"sucrose_supersaturation", f.sucrose_supersaturation},
          field{"lactose_supersaturation", f.lactose_supersaturation});

    write(at(answer, "stage"), field{"table", p.stage.table}, field{"by_temperature", p.stage.by_temperature},
          field{"by_consistency", p.stage.by_consistency}, field{"sea_level_celsius", p.stage.sea_level_celsius},
          field{"plain_syrup_celsius", p.stage.plain_syrup_celsius},
          field{"finished_by_consistency", p.stage.finished_by_consistency});

    json& set = at(answer, "set");
    write(set, field{"celsius", p.set.celsius}, field{"viscosity_pa_s", power(p.set.log10_viscosity)},
          field{"gel_modulus_pa", p.set.gel_modulus}, field{"firmness_pa_s", power(p.set.log10_firmness)},
          field{"word", p.set.word}, field{"word_if_thinner", p.set.word_if_thinner},
          field{"word_if_thicker", p.set.word_if_thicker}, field{"slump_to_half_seconds", p.set.slump_seconds});
    write(set, "stands_millimetres", p.set.standing_metres, 1000.0);
    write(set, field{"pours_from_celsius", p.set.pouring_celsius},
          field{"pour_celsius", std::isfinite(p.set.pour_celsius) ? p.set.pour_celsius : p.set.celsius},
          field{"pours", core::verdict_names[static_cast<std::size_t>(p.set.pours)]},
          field{"holds_a_cut", core::verdict_names[static_cast<std::size_t>(p.set.holds)]},
          field{"too_hard_to_cut", p.set.cracks}, field{"freezer_celsius", core::freezer_celsius},
          field{"freezer_ice_percent_of_water", p.set.frozen_water_percent},
          field{"freezer_word", p.set.frozen_word}, field{"milk_grams", p.with_milk.milk_grams},
          field{"firmness_with_milk_pa_s", power(p.with_milk.log10_firmness)},
          field{"word_with_milk", p.with_milk.word});

    json& graining = at(answer, "graining");
    write_graining(at(graining, "at_serving"), p.graining_at_serving);
    write_graining(at(graining, "in_storage"), p.graining_in_storage);
    json& ways = at(graining, "ways_to_clear") = json(json::list());
    for (const auto& way : p.ways_to_clear)
        write(grown(ways), field{"change", way.change}, field{"grams", way.grams},
              field{"thermometer_celsius", way.thermometer_celsius}, field{"sentence", way.sentence});

    const auto& k = p.keeping_in_storage;
    json& keeping = at(answer, "keeping");
    write(
        keeping, field{"celsius", k.celsius}, field{"water_activity", k.water_activity},
        field{"equilibrium_relative_humidity_percent", k.relative_humidity_percent},
        field{"can_grow", k.growth.empty() || k.frozen ? json() : json(std::string(k.growth))},
        field{"too_near_to_call", k.too_near_for.empty() || k.frozen ? json() : json(std::string(k.too_near_for))},
        field{"too_cold_for_growth", k.frozen});
    if (k.water_activity.computed())
        write(keeping, field{"chill", k.frozen           ? "too cold for growth"
                                      : k.chill          ? "yes"
                                      : k.chill_too_near ? "too near to call: measure it"
                                                         : "no"});
    write(keeping, field{"under_chill_limit", k.under_chill_limit});
    json& limits = at(keeping, "limits");
    for (const auto& limit : core::growth_limits)
        write(grown(limits), field{"water_activity", limit.water_activity}, field{"group", limit.group});
    write(keeping, "limits_source", core::growth_limits_source);

    if (!p.neighbours.layers.empty()) {
        json& beside = at(answer, "neighbours");
        write(beside, field{"celsius", p.neighbours.celsius},
              field{"water_activity", p.neighbours.water_activity});
        for (const auto& l : p.neighbours.layers)
            write(grown(at(beside, "layers")), field{"layer", l.name}, field{"grams", l.grams},
                  field{"water_activity_before", l.water_activity_before},
                  field{"water_percent_before", l.water_percent_before},
                  field{"water_gained_grams", l.water_gained_grams},
                  field{"water_percent_after", l.water_percent_after},
                  field{"firmness_before_pa_s", power(l.log10_firmness_before)},
                  field{"firmness_after_pa_s", power(l.log10_firmness_after)},
                  field{"word_before", word_at(l.log10_firmness_before)},
                  field{"word_after", word_at(l.log10_firmness_after)});
    }

    write(answer, field{"cautions", p.cautions}, field{"notes", p.notes});
    write_remarks(answer);
    return answer;
}

std::string json_answer(const core::prediction& p) {
    return text_of(prediction_json(p));
}

namespace {

std::string by_verdict(core::verdict v, const char* yes, const char* maybe, const char* no) {
    return v == core::verdict::yes ? yes : (v == core::verdict::maybe ? maybe : no);
}

/// A time as a cook says it.
std::string round_time(double seconds) {
    if (!std::isfinite(seconds) || seconds > 3.2e8) return "years";
    if (seconds < 1.0) return "less than a second";
    if (seconds < 90.0) return core::fixed(seconds, 0) + " s";
    if (seconds < 5400.0) return core::fixed(seconds / 60.0, 0) + " min";
    if (seconds < 172800.0) return core::fixed(seconds / 3600.0, 0) + " h";
    return core::fixed(seconds / 86400.0, 0) + " days";
}

std::string slump_text(const core::estimate& seconds) {
    if (!std::isfinite(seconds.value))
        return std::string("stands up") +
               (std::isfinite(seconds.low) ? "; at the soft end it is down to half in " + round_time(seconds.low)
                                           : "");
    const auto best = round_time(seconds.value), low = round_time(seconds.low);
    const auto high = std::isfinite(seconds.high) ? round_time(seconds.high) : std::string("never");
    return "slumps to half in " + best + (low == best && high == best ? "" : " (" + low + " to " + high + ")");
}

/// From where on it pours when it is warmed, if it does not as it is.
std::string pours_from(const core::set_answer& s, double celsius) {
    if (s.pours == core::verdict::yes) return "";
    if (!s.pouring_celsius.computed()) return "; at none below 170 °C";
    return s.pouring_celsius.value > celsius
               ? "; warmed, it pours from about " + core::both_scales(s.pouring_celsius.value, 0)
               : "";
}

/// By what factor milk loosens it.
std::string looser(const core::estimate& before, const core::estimate& after) {
    const double factor = std::pow(10.0, before.value - after.value);
    if (factor >= 1000.0) return "more than a thousand times looser";
    return core::fixed(factor, factor < 10.0 ? 1 : 0) + " times looser";
}

}  // namespace

std::string report(const core::prediction& p) {
    const auto& c = p.cooked;
    const auto& f = p.finished;
    std::string out;
    out += title_line(p.title.empty() ? "Batch" : p.title);

    say_cautions(out, p.cautions);
    heading(out, "IN THE PAN");
    row(out, "  all together",
        core::fixed(p.pan_grams, 0) + " g, " + core::fixed(p.pan.water(), 0) + " g of it water");
    row(out, "  this kitchen",
        core::fixed(0.01 * c.pressure_pa, 0) + " hPa; water boils at " + core::both_scales(c.water_boils_celsius));
    row(out, "  starts to boil at", core::both_scales(c.starts_to_boil_celsius));

    heading(out, "COOK TO " + core::both_scales(c.thermometer_celsius) + " ON YOUR THERMOMETER");
    if (c.thermometer_celsius != c.celsius) row(out, "  which really is", core::both_scales(c.celsius));
    row(out, "  left in the pan",
        with_range(c.grams, 0, " g") + "; " + core::fixed(c.water_boiled_off_grams.value, 0) +
            " g of water boiled off");
    row(out, "  water left", with_range(c.water_percent, 1, " %"));
    row(out, "  the table says",
        p.stage.by_temperature + " (table \"" + p.stage.table + "\", plain sugar, this pressure)");
    std::string really = p.stage.by_consistency;
    if (std::isfinite(p.stage.plain_syrup_celsius))
        really += ": as stiff as plain sugar syrup cooked to " + core::both_scales(p.stage.plain_syrup_celsius) +
                  " at sea level";
    row(out, "  really is", really);

    heading(out, "WHEN IT IS FINISHED");
    if (p.off_heat_grams > 0.0) {
        row(out, "  added off the heat",
            core::fixed(p.off_heat_grams, 0) + " g; the mix settles at " + core::both_scales(f.mixed_celsius, 0) +
                (f.water_flashed_grams.value > 0.0
                     ? ", and " + core::fixed(f.water_flashed_grams.value, 1) + " g of water boils off"
                     : std::string()));
    }
    row(out, "  yield", with_range(f.grams, 0, " g") + ", about " + core::fixed(f.millilitres.value, 0) + " ml");
    row(out, "  water", with_range(f.water_percent, 1, " %"));
    row(out, "  fat", core::fixed(f.fat_percent.value, 1) + " %");
    row(out, "  its syrup",
        core::fixed(f.syrup_solids_percent.value, 1) + " % solids" +
            (std::isfinite(f.brix_of_syrup_phase.value)
                 ? "; a refractometer reads " + core::fixed(f.brix_of_syrup_phase.value, 1) + " Brix at 20 °C"
                 : "; beyond the scale of a refractometer"));

    heading(out, "AT " + core::both_scales(p.set.celsius, 0));
    const auto& v = p.set.log10_firmness;
    if (v.computed()) {
        const auto& word = core::word_for(std::pow(10.0, v.value));
        row(out, "  it is", std::string(word.word) + ": " + std::string(word.meaning));
        if (p.set.word_if_thinner != p.set.word_if_thicker)
            row(out, "  it may be", "anything from " + p.set.word_if_thinner + " to " + p.set.word_if_thicker);
        const auto& thin = p.set.log10_viscosity;
        row(out, "  viscosity",
            (thin.value < 12.0 ? "about " : "") + round_viscosity(thin.value) + " Pa s" +
                (thin.low >= 12.0 ? ""
                                  : " (" + round_viscosity(thin.low) + " to " + round_viscosity(thin.high) + ")"));
        if (v.value - thin.value > 0.1)
            row(out, "  set by gels",
                "fat, milk protein or a gelling agent make it as firm as " + round_viscosity(v.value) + " Pa s");
        row(out, "  a 1 cm layer", slump_text(p.set.slump_seconds));
        row(out, "  cut at this",
            p.set.cracks ? std::string("it cracks: too hard to slice")
                         : by_verdict(p.set.holds, "the layer keeps more than half its height for 10 minutes",
                                      "it may keep half its height for 10 minutes",
                                      "it runs to less than half within 10 minutes"));
        const double asked = std::isfinite(p.set.pour_celsius) ? p.set.pour_celsius : p.set.celsius;
        row(out, "  pours",
            by_verdict(p.set.pours, "yes", "perhaps", "no") + ", at " + core::both_scales(asked, 0) +
                pours_from(p.set, asked));
        if (!p.set.cracks && f.contents[core::component::lactose] > 0.0)  // only into what is made with milk
            row(out, "  with some milk",
                core::fixed(p.with_milk.milk_grams, 0) + " g stirred in makes it " +
                    looser(v, p.with_milk.log10_firmness) + ": " + p.with_milk.word);
        row(out, "  in the freezer",
            core::fixed(p.set.frozen_water_percent, 0) + " % of its water is ice; " + p.set.frozen_word);
    }
    row(out, "  a glass below", core::both_scales(f.glass_transition_celsius.value, 0));

    heading(out, "KEPT AT " + core::both_scales(p.keeping_in_storage.celsius, 0));
    row(out, "  graining",
        std::string(core::graining_risk_names[static_cast<std::size_t>(p.graining_in_storage.risk)]) + ": " +
            p.graining_in_storage.reason);
    for (const auto& way : p.ways_to_clear) row(out, "    cleared by", way.sentence);
    const auto& k = p.keeping_in_storage;
    if (k.water_activity.computed()) {
        row(out, "  water activity",
            with_range(k.water_activity, 2, "") + ": " +
                (k.frozen ? std::string("too cold for growth")
                 : !k.growth.empty()
                     ? std::string(k.growth) + " could grow"
                     : std::string(k.too_near_for.empty() ? "too dry for anything to grow"
                                                          : "too near the limit of growth to call: measure it")) +
                (!k.frozen && k.chill_too_near ? "; too near 0.85 to call: measure it" : ""));
        row(out, "  in air of",
            core::fixed(k.relative_humidity_percent.value, 0) +
                " % relative humidity it keeps its water; drier air dries it, damper air makes it sticky");
    }
    if (!p.neighbours.layers.empty()) {
        heading(out, "BESIDE ITS NEIGHBOURS, IN THE END (at " + core::both_scales(p.neighbours.celsius, 0) + ")");
        for (const auto& l : p.neighbours.layers) {
            std::string text = "cannot be told: there is more water than can be told apart";
            if (l.water_gained_grams.computed()) {
                text = std::string(l.water_gained_grams.value >= 0.0 ? "takes up " : "gives off ") +
                       core::fixed(std::fabs(l.water_gained_grams.value), 1) + " g of water; " +
                       core::fixed(l.water_percent_before, 1) + " % becomes " +
                       core::fixed(l.water_percent_after, 1) + " %";
                const auto before = word_at(l.log10_firmness_before), after = word_at(l.log10_firmness_after);
                if (&l == &p.neighbours.layers.front())
                    text.append(before == after ? "; it stays " : "; from ")
                        .append(before == after ? "" : before + " to ")
                        .append(after);
            }
            row(out, "  " + l.name, text);
        }
    }

    heading(out, "NOTES");
    for (const auto& note : p.notes) row(out, "  -", note, 4);
    row(out, "  -",
        (p.thermometer_within_kelvin > 0.0
             ? "Ranges in brackets hold the models' uncertainty and ±" +
                   core::shortest(p.thermometer_within_kelvin) + " °C of your thermometer. sirop "
             : std::string(
                   "Ranges in brackets are the models' own uncertainty; your thermometer's error comes on top "
                   "(thermometer_within_celsius takes it in). sirop ")) +
            std::string(sirop_version()) + ".",
        4);
    return out;
}

}  // namespace sirop::lib
