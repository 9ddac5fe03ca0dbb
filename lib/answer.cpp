#include <algorithm>
#include <nlohmann/json.hpp>

#include "batch_file.hpp"
#include "sirop/sirop.h"

namespace sirop::lib {
namespace {

using json = nlohmann::ordered_json;

/// A number, or null where there is none.
json number(double x) {
    return std::isfinite(x) ? json(x) : json(nullptr);
}

/// A value with its interval as siblings.
void put(json& object, const std::string& key, const core::estimate& e) {
    object[key] = number(e.value);
    object[key + "_low"] = number(e.low);
    object[key + "_high"] = number(e.high);
}

core::estimate viscosity(const core::estimate& log10) {
    return {std::pow(10.0, log10.value), std::pow(10.0, log10.low), std::pow(10.0, log10.high), log10.status};
}

}  // namespace

std::string json_answer(const core::prediction& p) {
    json answer;
    answer["sirop_answer"] = 1;
    answer["title"] = p.title;
    answer["status"] = p.status == core::grade::fine ? "fine" : "extrapolated";

    const auto& c = p.cooked;
    json& cooked = answer["cooked"];
    cooked["celsius"] = number(c.celsius);
    cooked["thermometer_celsius"] = number(c.thermometer_celsius);
    cooked["pressure_hpa"] = number(0.01 * c.pressure_pa);
    cooked["water_boils_celsius"] = number(c.water_boils_celsius);
    cooked["starts_to_boil_celsius"] = number(c.starts_to_boil_celsius);
    cooked["highest_celsius"] = number(c.highest_celsius);
    cooked["water_activity"] = number(c.water_activity);
    put(cooked, "water_percent", c.water_percent);
    put(cooked, "solids_percent", c.solids_percent);
    put(cooked, "grams", c.grams);
    put(cooked, "water_boiled_off_grams", c.water_boiled_off_grams);

    const auto& f = p.finished;
    json& finished = answer["finished"];
    put(finished, "grams", f.grams);
    put(finished, "water_percent", f.water_percent);
    put(finished, "fat_percent", f.fat_percent);
    put(finished, "water_flashed_grams", f.water_flashed_grams);
    put(finished, "water_activity_at_serving", f.water_activity_at_serving);
    put(finished, "syrup_solids_percent", f.syrup_solids_percent);
    put(finished, "brix_of_syrup_phase", f.brix_of_syrup_phase);
    put(finished, "glass_transition_celsius", f.glass_transition_celsius);
    put(finished, "freezing_celsius", f.freezing_celsius);
    put(finished, "millilitres", f.millilitres);
    finished["mixed_celsius"] = number(f.mixed_celsius);
    finished["undissolved_sugar_grams"] = number(f.undissolved_sugar_grams);
    finished["sucrose_supersaturation"] = number(f.sucrose_supersaturation);
    finished["lactose_supersaturation"] = number(f.lactose_supersaturation);

    json& stage = answer["stage"];
    stage["table"] = p.stage.table;
    stage["by_temperature"] = p.stage.by_temperature;
    stage["by_consistency"] = p.stage.by_consistency;
    stage["sea_level_celsius"] = number(p.stage.sea_level_celsius);
    stage["plain_syrup_celsius"] = number(p.stage.plain_syrup_celsius);
    stage["finished_by_consistency"] = p.stage.finished_by_consistency;

    json& set = answer["set"];
    set["celsius"] = number(p.set.celsius);
    put(set, "viscosity_pa_s", viscosity(p.set.log10_viscosity));
    set["word"] = p.set.word;
    set["word_if_thinner"] = p.set.word_if_thinner;
    set["word_if_thicker"] = p.set.word_if_thicker;

    answer["cautions"] = p.cautions;
    answer["notes"] = p.notes;
    return answer.dump(2, ' ', false, json::error_handler_t::replace) + "\n";
}

namespace {

constexpr std::size_t page_width = 80, label_width = 22;

/// Characters, not bytes, of UTF-8.
std::size_t width_of(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

/// A label, then a text wrapped into the column beside it.
void row(std::string& out, std::string_view label, std::string_view text, std::size_t indent = label_width) {
    out += label;
    std::size_t column = width_of(label);
    if (column < indent) {
        out.append(indent - column, ' ');
        column = indent;
    }
    bool first = true;
    while (!text.empty()) {
        auto to = std::min(text.find(' '), text.size());
        // a number and its unit are not parted
        for (const std::string_view unit : {" °C", " °F", " g ", " g;", " %"})
            if (text.substr(to, unit.size()) == unit) to = std::min(text.find(' ', to + 1), text.size());
        const auto word = text.substr(0, to);
        if (!first && column + 1 + width_of(word) > page_width) {
            out.append(1, '\n').append(indent, ' ');
            column = indent;
        } else if (!first) {
            out += ' ';
            ++column;
        }
        out += word;
        column += width_of(word);
        text.remove_prefix(std::min(to + 1, text.size()));
        first = false;
    }
    out += '\n';
}

void heading(std::string& out, const std::string& text) {
    out += "\n" + text + "\n";
}

std::string with_range(const core::estimate& e, int decimals, const char* unit) {
    return core::fixed(e.value, decimals) + unit + " (" + core::fixed(e.low, decimals) + " to " +
           core::fixed(e.high, decimals) + ")";
}

/// A viscosity in round numbers: two figures, a power of ten where it is large.
std::string round_viscosity(double log10) {
    if (log10 >= 12.0) return "over 10^12";
    const double x = std::pow(10.0, log10);
    if (log10 < 1.0) return core::fixed(x, log10 < -1.0 ? 3 : (log10 < 0.0 ? 2 : 1));
    if (log10 < 4.0) {
        const double step = std::pow(10.0, std::floor(log10) - 1.0);
        return core::fixed(std::round(x / step) * step, 0);
    }
    return "10^" + core::fixed(log10, 0);
}

}  // namespace

std::string report(const core::prediction& p) {
    const auto& c = p.cooked;
    const auto& f = p.finished;
    std::string out;
    const std::string title = p.title.empty() ? "Batch" : p.title;
    std::string shown_title;
    for (const char ch : title) shown_title += static_cast<unsigned char>(ch) < 0x20U ? ' ' : ch;
    out += shown_title + "\n" + std::string(std::min(width_of(shown_title), page_width), '=') + "\n";

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
    row(out, "  water activity", with_range(f.water_activity_at_serving, 2, ""));

    heading(out, "AT " + core::both_scales(p.set.celsius, 0));
    const auto& v = p.set.log10_viscosity;
    if (v.computed()) {
        const auto& word = core::word_for(std::pow(10.0, v.value));
        row(out, "  it is", std::string(word.word) + ": " + std::string(word.meaning));
        if (p.set.word_if_thinner != p.set.word_if_thicker)
            row(out, "  it may be", "anything from " + p.set.word_if_thinner + " to " + p.set.word_if_thicker);
        const bool glass = v.low >= 12.0;
        row(out, "  viscosity",
            (v.value < 12.0 ? "about " : "") + round_viscosity(v.value) + " Pa s" +
                (glass ? "" : " (" + round_viscosity(v.low) + " to " + round_viscosity(v.high) + ")"));
    }
    row(out, "  a glass below", core::both_scales(f.glass_transition_celsius.value, 0));
    if (f.at_serving.ice > 0.0)
        row(out, "  frozen",
            core::fixed(core::percent(f.at_serving.ice, f.contents.water()), 0) + " % of its water is ice");

    heading(out, "WHAT TO WATCH");
    for (const auto& caution : p.cautions) row(out, "  -", caution, 4);
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
