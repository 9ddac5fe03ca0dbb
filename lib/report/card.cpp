#include "report/card.hpp"

#include "report/page.hpp"
#include "sirop/questions/cook_path.hpp"

namespace sirop::lib {
namespace {

using core::fixed;

std::string without_zeros(std::string number) {
    if (number.find('.') == std::string::npos) return number;
    number.erase(number.find_last_not_of('0') + 1);
    if (number.back() == '.') number.pop_back();
    return number;
}

std::string degrees(double celsius, const char* between, int decimals) {
    return without_zeros(fixed(celsius, decimals)) + " °C" + between +
           without_zeros(fixed(core::celsius_to_fahrenheit(celsius), decimals)) + " °F";
}

/// What the set becomes, if the cook is stopped elsewhere: the word, and beside the same word by how much.
std::string instead(double log10, double of_log10) {
    auto word = word_of(log10);
    if (word != word_of(of_log10)) return word;
    if (std::fmin(log10, of_log10) >= 12.0) return "still " + word;
    const double decades = std::fabs(log10 - of_log10);
    return "still " + word +
           (decades < 0.18  ? ", hardly "
            : decades < 0.5 ? ", "
                            : ", much ") +
           (log10 < of_log10 ? "softer" : "firmer");
}

/// The three lines on where to stop: the weight, and what a reading too low or too high makes of it.
void add_stop(card& c, const core::batch& b, const core::prediction& p) {
    const auto& cooked = p.cooked;
    c.stop = {"STOP AT", degrees(cooked.thermometer_celsius, " = ", 1)};
    if (const double error = b.thermometer_error_kelvin; error != 0.0)
        c.lines.push_back({"true", degrees(cooked.celsius, " = ", 1) + "; it reads " +
                                       without_zeros(fixed(std::fabs(error), 1)) + " °C too " +
                                       (error > 0.0 ? "high" : "low")});
    const core::cook_path path(b);
    const double within = std::fmax(kitchen_probe_kelvin, b.thermometer_within_kelvin);
    const core::wanted set = core::wanted_word("");
    const double here = path.measured_at(set, cooked.celsius);
    const double low = cooked.celsius - within, high = cooked.celsius + within;
    const bool boils = low >= path.boils_celsius, known = high <= path.last_celsius;
    const double softer = boils ? path.measured_at(set, low) : here;
    const double firmer = known ? path.measured_at(set, high) : here;
    const std::string by = without_zeros(fixed(within, 1)) + " °C";
    const bool coarse = word_of(softer) != word_of(here) || word_of(firmer) != word_of(here);
    const int decimals = cooked.grams.value < 100.0 ? 1 : 0;
    c.lines.push_back(
        {"then weigh", fixed(cooked.grams.value, decimals) + " g without the pan (" +
                           fixed(cooked.grams.low, decimals) + " to " + fixed(cooked.grams.high, decimals) +
                           " g)" + (coarse ? "; stop by weight: a probe's ±" + by + " changes the set" : "")});
    c.lines.push_back(
        {by + " off",
         "too low: " + (boils ? instead(softer, here) : std::string("it does not boil yet")) +
             "; too high: " + (known ? instead(firmer, here) : std::string("nearly dry, about to burn"))});
    if (!std::isfinite(p.stage.plain_syrup_celsius)) return;
    std::string stage = p.stage.by_consistency;
    if (const auto& chart = p.stage.by_temperature; chart != stage && width_of(stage + chart) < 44)
        stage += " (the chart: " + chart + ")";
    c.lines.push_back({"cold water", stage});
}

/// Whether it pours and how it is cut; no pouring temperature below the serving one, or above that of the pan.
std::string handling(const core::set_answer& s, double mixed_celsius) {
    const double asked = std::isfinite(s.pour_celsius) ? s.pour_celsius : s.celsius;
    if (s.pours == core::verdict::yes) return "pours at " + degrees(asked, " = ", 0);
    std::string out;
    if (s.pours == core::verdict::maybe)
        out = "may pour at " + degrees(asked, " = ", 0) + "; ";
    else if (!s.pouring_celsius.computed() || s.pouring_celsius.value > mixed_celsius - 10.0)
        out = "pour it at once; ";
    else if (s.pouring_celsius.value > asked)
        out = "pours from " + degrees(s.pouring_celsius.value, " = ", 0) + " on; ";
    if (s.cracks) return out + "breaks, cannot be cut";
    return out + (s.holds == core::verdict::yes     ? "holds a cut"
                  : s.holds == core::verdict::maybe ? "may hold a cut"
                                                    : "runs when cut");
}

std::string graining_line(const core::prediction& p) {
    const auto& worse =
        p.graining_in_storage.risk >= p.graining_at_serving.risk ? p.graining_in_storage : p.graining_at_serving;
    std::string risk = std::string(core::graining_risk_names[static_cast<std::size_t>(worse.risk)]) + " risk";
    if (worse.risk <= core::graining_risk::low) return risk;
    return risk + (core::grainer_of(*worse.first)->at_once ? ": do not stir as it cools, keep crystals out"
                                                           : ": it may turn sandy when kept");
}

/// By the high end of the water activity, which is the safe side.
std::string keeping_line(const core::keeping& k) {
    const auto& aw = k.water_activity;
    if (!aw.computed()) return "not known: treat it as perishable and chill it";
    const std::string number = " (water activity " + fixed(aw.value, 2) + ")";
    if (k.frozen) return "frozen: nothing grows; perishable once thawed";
    if (k.chill) return "perishable: chill it" + number;
    if (k.chill_too_near) return "too near to call: measure it, chill it till then" + number;
    if (aw.high > 0.80) return "chill it: moulds, yeasts can grow" + number;
    if (aw.high > 0.60) return "some yeasts and moulds can grow" + number;
    if (!k.too_near_for.empty()) return "nearly dry, too near to call: measure it" + number;
    return "dry: keep it closed, it draws damp" + number;
}

}  // namespace

std::string amount_text(double grams) {
    return without_zeros(fixed(grams, grams < 10.0 ? 2 : 1)) + " g";
}

card card_of(const core::batch& b, const core::prediction& p) {
    card c;
    c.title = p.title.empty() ? "Batch" : p.title;
    c.cautions.push_back(std::string("Hot sugar burns deep: long sleeves, deep pan. ").append(core::first_aid));
    if (core::additions_burst(b) || p.finished.water_flashed_grams.value > 0.0)
        c.cautions.emplace_back("Steam bursts: pan off the heat, liquid warm, in parts, at arm's length.");
    for (const auto& more : {core::heat_cautions(p.cooked.contents, p.cooked.celsius),
                             core::ingredient_cautions(b, p.finished.contents)})
        c.cautions.insert(c.cautions.end(), more.begin(), more.end());
    for (const auto& [where, lines] : {std::pair{"in the pan", &b.pan}, std::pair{"off the heat", &b.off_heat}})
        for (const auto& line : *lines)
            c.amounts.push_back({&line == &lines->front() ? where : "", amount_text(line.grams), line.name});
    add_stop(c, b, p);
    const auto& set = p.set;
    if (set.log10_firmness.computed()) {
        const auto& word = core::word_for(std::pow(10.0, set.log10_firmness.value));
        std::string words(word.word);
        if (set.word_if_thinner != word.word) words += ", perhaps " + set.word_if_thinner;
        if (set.word_if_thicker != word.word)
            words += (set.word_if_thinner == word.word ? ", perhaps " : " to ") + set.word_if_thicker;
        c.lines.push_back({"at " + degrees(set.celsius, "/", 0),
                           words + ": " + std::string(word.meaning.substr(0, word.meaning.find_first_of(",;")))});
        c.lines.push_back({"pours, cuts", handling(set, p.finished.mixed_celsius)});
    }
    c.lines.push_back({"graining", graining_line(p)});
    c.lines.push_back({"keeping", keeping_line(p.keeping_in_storage)});
    if (p.status != core::grade::fine)
        c.lines.push_back({"how sure", "beyond what was measured: cool a spoonful and look"});
    return c;
}

std::string card_text(const card& c, std::size_t width) {
    constexpr std::size_t label = 16, narrow = 56;
    const std::size_t indent = width < narrow ? 2 : label;
    std::string out;
    row(out, "", c.title, 0, width);
    for (const auto& caution : c.cautions) row(out, "", caution, 0, width);
    out += '\n';
    const auto put = [&](const card_line& line) {
        if (width < narrow && line.label.empty())
            row(out, " ", line.text, indent, width);
        else
            row(out, width < narrow ? line.label + ":" : line.label, line.text, indent, width);
    };
    for (const auto& a : c.amounts) put({a.where, a.grams + " " + a.name});
    put({c.stop.label, c.stop.text + " on this thermometer"});
    for (const auto& line : c.lines) put(line);
    return out;
}

}  // namespace sirop::lib
