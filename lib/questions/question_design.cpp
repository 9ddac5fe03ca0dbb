// The questions about a recipe's design: what instead, from what, what matters, what this kitchen does.
#include "questions/conversation.hpp"
#include "sirop/questions/calibrate.hpp"
#include "sirop/questions/formulate.hpp"
#include "sirop/questions/monte_carlo.hpp"
#include "sirop/questions/substitute.hpp"

namespace sirop::lib {
namespace {

/// "pan[1]", "off_heat[0]", or the name of an ingredient that stands once in the batch.
std::optional<core::line_place> read_place(conversation& talk, const json& value, const std::string& at) {
    const std::string text = talk.in.text(value, at);
    if (talk.in.fault) return std::nullopt;
    std::vector<core::line_place> found;
    for (const auto list : {core::batch_list::pan, core::batch_list::off_heat}) {
        const auto& lines = list == core::batch_list::pan ? talk.batch.pan : talk.batch.off_heat;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            const core::line_place place{list, i};
            if (place.text() == text) return place;
            if (core::same_name(lines[i].name, text)) found.push_back(place);
        }
    }
    if (found.size() == 1) return found.front();
    talk.in.refuse(at, in_quotes(text) +
                           (found.empty() ? " is not in the batch" : " stands there more than once") +
                           "; a place such as pan[1], or the name of an ingredient of the batch, is accepted");
    return std::nullopt;
}

/// An ingredient by its name, or by an object with its composition; `extra` are further keys that it may have.
core::ingredient_line read_named(conversation& talk, const json& value, const std::string& at) {
    core::ingredient_line line;
    if (value.as<std::string>() != nullptr) {
        line.name = talk.in.text(value, at);
        json row;
        write(row, "ingredient", line.name);
        if (!talk.in.fault) read_ingredient(talk.in, row, at, line, talk.batch.notes);
        return line;
    }
    const json* row = talk.in.object(
        value, at,
        {"ingredient", "per_100_g", "dextrose_equivalent", "solids_percent", "celsius", "at_most_grams"});
    if (row == nullptr) return line;
    const json* name = talk.in.required(*row, at, "ingredient", "the name of an ingredient");
    if (name == nullptr) return line;
    line.name = talk.in.text(*name, at + ".ingredient");
    if (const json* celsius = talk.in.member(*row, "celsius"))
        line.celsius = talk.in.number_within(*celsius, at + ".celsius", core::added_limit);
    if (!talk.in.fault) read_ingredient(talk.in, *row, at, line, talk.batch.notes);
    return line;
}

/// A refusal of the core, its place under the question's own key.
refusal at_place(refusal why, std::string_view core_key, std::string_view own_key) {
    if (why.place.rfind(core_key, 0) == 0) why.place.replace(0, core_key.size(), own_key);
    return why;
}

void put_cook(conversation& talk, json& out, const core::batch& plan, double thermometer, double low, double high,
              const char* window) {
    write(out, field{"thermometer_celsius", thermometer},
          field{"thermometer_fahrenheit", core::celsius_to_fahrenheit(thermometer)},
          field{"thermometer_celsius_low", low}, field{"thermometer_celsius_high", high});
    talk.say("cook to",
             both_scales(thermometer) + " on your thermometer" +
                 (std::isfinite(low) ? " (" + both_scales(low) + " to " + both_scales(high) + " " + window + ")"
                                     : std::string()));
    put_weight(talk, out, plan, thermometer, low, high);
}

std::optional<core::number_target> read_target(conversation& talk, const char* key, double usual_within) {
    const json* value = talk.in.member(talk.question, key);
    if (value == nullptr || talk.in.fault) return std::nullopt;
    core::number_target target;
    target.within = usual_within;
    if (value->is_number()) {
        target.value = value->number();
        return target;
    }
    const json* object = talk.in.object(*value, key, {"value", "within"});
    if (object == nullptr) return std::nullopt;
    const json* number = talk.in.required(*object, key, "value", "a number");
    if (number == nullptr) return std::nullopt;
    target.value = talk.in.number(*number, std::string(key) + ".value", "%");
    if (const auto within = number_at(talk.in, *object, key, "within", "%")) target.within = *within;
    return target;
}

}  // namespace

refused substitute(conversation& talk) {
    const json* replace = talk.in.required(talk.question, "", "replace", "the place or name of an ingredient");
    const json* by = talk.in.required(talk.question, "", "by", "a list of ingredients");
    if (talk.in.fault) return talk.in.fault;
    core::substitution q;
    const auto replaced = read_place(talk, *replace, "replace");
    if (!replaced) return talk.in.fault;
    q.replaced = *replaced;
    const auto read_replacement = [&](const json& value, const std::string& at) {
        core::replacement r;
        r.line = read_named(talk, value, at);
        if (const auto most = number_at(talk.in, value, at, "at_most_grams", "g")) r.at_most_grams = *most;
        q.with.push_back(std::move(r));
    };
    talk.in.each(*by, "by", read_replacement, "a list of ingredients");
    if (const json* others = talk.in.member(talk.question, "may_change"))
        talk.in.each(*others, "may_change", [&](const json& value, const std::string& at) {
            if (const auto place = read_place(talk, value, at)) {
                core::changeable_line line;
                line.place = *place;
                q.may_change.push_back(line);
            }
        });
    if (talk.in.fault) return talk.in.fault;
    q.plan = talk.batch;
    const auto& lines = q.replaced.list == core::batch_list::pan ? q.plan.pan : q.plan.off_heat;
    const std::string old = lines[q.replaced.index].name;
    const auto a = core::substitute(q);
    if (!a) return at_place(a.why, "with", "by");
    std::string names;
    for (const auto& r : a->replacements) names += (names.empty() ? "" : " and ") + r.name;
    talk.ask("What takes the place of " + fixed(lines[q.replaced.index].grams, 0) + " g of " + old + ", by " +
             names + "?");
    json& out = at(talk.answer, "answer");
    const auto put_change = [&](const char* key, const std::vector<core::line_change>& changes) {
        write(out, key, json(json::list()));
        for (const auto& c : changes) {
            json& one = grown(at(out, key));
            write(one, field{"place", c.place.text()}, field{"ingredient", c.name},
                  field{"grams_before", c.grams_before}, field{"grams", c.grams});
            talk.say(std::string_view(key) == "replacements" ? "take" : "and then",
                     core::detail::grams_text(c.grams) + " of " + c.name);
        }
    };
    put_change("replacements", a->replacements);
    put_change("changed", a->changed);
    put_cook(talk, out, a->plan, a->cook.thermometer_celsius, a->cook.low_celsius, a->cook.high_celsius,
             "keep the set");
    write(out, "thermometer_before_celsius", a->thermometer_before_celsius);
    talk.say("instead of", both_scales(a->thermometer_before_celsius));
    for (const auto& t : a->trades) {
        json& trade = grown(at(out, "trade_offs"));
        write(trade, field{"name", t.name}, field{"unit", t.unit}, field{"before", t.before},
              field{"after", t.after}, field{"before_word", t.before_word}, field{"after_word", t.after_word});
        if ((!std::isfinite(t.before) && t.before_word.empty()) || (t.before == 0.0 && t.after == 0.0)) continue;
        // the unit is said with the number
        std::string label(t.name.substr(0, std::min(t.name.find("_percent"), t.name.find("_pa_s"))));
        for (char& c : label) c = c == '_' ? ' ' : c;
        const auto one = [&](double x, const std::string& word) {
            if (!word.empty()) return word;
            const int decimals = std::fabs(x) < 2.0 ? 2 : (std::fabs(x) < 100.0 ? 1 : 0);
            return fixed(x, decimals).append(t.unit.empty() ? "" : " ").append(t.unit);
        };
        talk.say(label, one(t.before, t.before_word) + " becomes " + one(t.after, t.after_word));
    }
    write_lines(out, a->plan);
    std::string reason;
    for (const auto& sentence : a->reasons) reason += (reason.empty() ? "" : " ") + sentence;
    talk.because(reason);
    add_prediction(talk, a->plan, a->cook.thermometer_celsius);
    talk.cautions.emplace_back(
        "Allergens, and polyols in amounts that the bowels do not take, are not looked at: read the labels.");
    return std::nullopt;
}

refused formulate(conversation& talk) {
    core::formulation q;
    q.kitchen = talk.batch;
    for (const auto& [from, to] :
         {std::pair{&talk.batch.pan, &q.pan}, std::pair{&talk.batch.off_heat, &q.off_heat}})
        for (const auto& line : *from) {
            core::formula_line one;
            one.line = line;
            to->push_back(std::move(one));
        }
    const json* free =
        talk.in.required(talk.question, "", "free", "a list of the ingredients whose grams are asked");
    if (free == nullptr) return talk.in.fault;
    talk.in.each(*free, "free", [&](const json& value, const std::string& at) {
        const json* name = &value;
        if (value.as<std::string>() == nullptr) {
            if (talk.in.object(value, at, {"line", "at_least_grams", "at_most_grams"}) == nullptr) return;
            name = talk.in.required(value, at, "line", "a place or a name");
            if (name == nullptr) return;
        }
        const auto place = read_place(talk, *name, at);
        if (!place) return;
        auto& line = (place->list == core::batch_list::pan ? q.pan : q.off_heat)[place->index];
        line.is_free = true;
        if (const auto least = number_at(talk.in, value, at, "at_least_grams", "g")) line.at_least_grams = *least;
        if (const auto most = number_at(talk.in, value, at, "at_most_grams", "g")) line.at_most_grams = *most;
    });
    if (const json* wanted = talk.in.member(talk.question, "wanted"))
        talk.in.each(
            *wanted, "wanted",
            [&](const json& value, const std::string& at) { q.sets.push_back(read_wanted(talk.in, value, at)); },
            "a list of up to two");
    q.sweetness_percent = read_target(talk, "sweetness_percent", 3.0);
    q.fat_percent = read_target(talk, "fat_percent", 2.0);
    if (const json* most = talk.in.member(talk.question, "graining_at_most")) {
        const std::string name = talk.in.text(*most, "graining_at_most");
        for (std::size_t i = 0; i < core::graining_risk_names.size(); ++i)
            if (core::graining_risk_names[i] == name) q.graining_at_most = static_cast<core::graining_risk>(i);
        if (!talk.in.fault && !q.graining_at_most)
            talk.in.refuse("graining_at_most",
                           in_quotes(name) + " is accepted as none, low, moderate or high only");
    }
    if (const json* most = talk.in.member(talk.question, "water_activity_at_most"))
        q.water_activity_at_most = talk.in.number_between(*most, "water_activity_at_most", 0.0, 1.0, "");
    if (const json* yield = talk.in.member(talk.question, "yield")) {
        const json* object =
            talk.in.object(*yield, "yield", {"grams", "millilitres", "portions", "grams_per_portion"});
        if (object == nullptr) return talk.in.fault;
        const auto grams = number_at(talk.in, *object, "yield", "grams", "g");
        const auto millilitres = number_at(talk.in, *object, "yield", "millilitres", "ml");
        const auto portions = number_at(talk.in, *object, "yield", "portions", "portions");
        const auto each = number_at(talk.in, *object, "yield", "grams_per_portion", "g");
        if (grams.has_value() + millilitres.has_value() + portions.has_value() != 1 ||
            portions.has_value() != each.has_value())
            talk.in.refuse("yield", "needs one of grams, millilitres, or portions with grams_per_portion");
        else if (grams)
            q.yield = core::yield_target{*grams, core::yield_unit::grams};
        else if (millilitres)
            q.yield = core::yield_target{*millilitres, core::yield_unit::millilitres};
        else
            q.yield = core::portions_of(*portions, *each);
    }
    if (talk.in.fault) return talk.in.fault;
    const auto a = core::formulate(q);
    if (!a) return at_place(a.why, "sets", "wanted");
    talk.ask("How many grams of each, and to which temperature, for all that is wanted?");
    json& out = at(talk.answer, "answer");
    write_lines(out, a->plan);
    say_lines(talk, a->plan);
    put_cook(talk, out, a->plan, a->plan.thermometer_celsius, a->low_celsius, a->high_celsius,
             "keep the first set, not each of the others");
    write(out, "targets", json(json::list()));
    for (const auto& t : a->targets) {
        json& one = grown(at(out, "targets"));
        write(one, field{"name", t.name}, field{"wanted", t.wanted_text}, field{"reached", t.value_text},
              field{"value", t.value}, field{"met", t.met});
        talk.say(t.met ? "met" : "not met", t.wanted_text + ": " + t.value_text);
    }
    write(out, field{"finished_grams", a->measures.grams},
          field{"sweetness_percent", a->measures.sweetness_percent},
          field{"fat_percent", a->measures.fat_percent});
    talk.because(a->reason);
    add_prediction(talk, a->plan, a->plan.thermometer_celsius);
    return std::nullopt;
}

refused sensitivity(conversation& talk) {
    core::usual_uncertainties usual;
    if (const json* given = talk.in.member(talk.question, "uncertainties")) {
        const json* object =
            talk.in.object(*given, "uncertainties",
                           {"thermometer_kelvin", "pressure_hpa", "weighing_grams", "weighing_percent",
                            "dextrose_equivalent", "syrup_solids_percent", "fat_percent"});
        if (object == nullptr) return talk.in.fault;
        for (const auto& [key, into] :
             {std::pair{"thermometer_kelvin", &usual.thermometer_kelvin},
              std::pair{"pressure_hpa", &usual.pressure_hpa}, std::pair{"weighing_grams", &usual.weighing_grams},
              std::pair{"weighing_percent", &usual.weighing_percent},
              std::pair{"dextrose_equivalent", &usual.dextrose_equivalent},
              std::pair{"syrup_solids_percent", &usual.syrup_solids_percent},
              std::pair{"fat_percent", &usual.fat_percent}})
            if (const json* value = talk.in.member(*object, key))
                *into = talk.in.number_between(*value, std::string("uncertainties.") + key, 0.0, 100.0, "");
    }
    double samples = 0.0, seed = 1.0;
    if (const json* n = talk.in.member(talk.question, "samples"))
        samples = talk.in.number_between(*n, "samples", 2.0, 100000.0, "samples");
    if (const json* n = talk.in.member(talk.question, "seed"))
        seed = talk.in.number_between(*n, "seed", 0.0, 9.0e15, "");
    if (talk.in.fault) return talk.in.fault;
    const auto inputs = core::uncertain_inputs(talk.batch, usual);
    const auto a = core::sensitivity_of(talk.batch, inputs);
    if (!a) return a.why;
    talk.ask("Which input matters for the water and the set?");
    json& out = at(talk.answer, "answer");
    for (const auto& row : core::output_table) {
        const auto i = core::index_of(row.id);
        json& one = at(at(out, "outputs"), row.name);
        write(one, field{"value", a->value[i]}, field{"standard_uncertainty", a->standard_uncertainty[i]},
              field{"unit", row.unit});
        const double sigma = a->standard_uncertainty[i];
        if (row.unit == "log10 Pa s")  // a cook reads it as a factor
            talk.say(row.words, "right within a factor of " + fixed(std::pow(10.0, sigma), 1));
        else
            talk.say(row.words, fixed(a->value[i], 2) + " ± " + fixed(sigma, 2) +
                                    (row.unit == "1" ? std::string() : std::string(" ").append(row.unit)));
    }
    write(out, "inputs", json(json::list()));
    for (const auto& e : a->effects) {
        json& one = grown(at(out, "inputs"));
        write(one, field{"name", e.input.name}, field{"place", e.input.place}, field{"unit", e.input.unit},
              field{"standard_uncertainty", e.input.standard_uncertainty});
        for (const auto& row : core::output_table) {
            const auto i = core::index_of(row.id);
            write(at(one, "derivative"), row.name, e.derivative[i]);
            write(at(one, "share_percent"), row.name, e.share_percent[i]);
        }
        const auto water = core::index_of(core::output::water_percent),
                   set = core::index_of(core::output::log10_firmness);
        if (e.share_percent[set] >= 0.5 || e.share_percent[water] >= 0.5)
            talk.say(fixed(e.share_percent[set], 0) + " % of the set",
                     e.input.name + ", ± " + core::shortest(e.input.standard_uncertainty) + " " + e.input.unit +
                         ": " + fixed(e.contribution[water], 2) + " points of water, a factor of " +
                         fixed(std::pow(10.0, e.contribution[set]), 2) + " in the set");
    }
    const auto& first = a->effects.front();
    talk.because(
        "What moves the set most is " + first.input.name + ".",
        " The numbers after ± and the factors are standard uncertainties (two times in three it is within). The "
        "models' own comes on top: it is in the ranges of the prediction.");
    if (samples >= 1.0) {
        const auto sampled = core::monte_carlo(talk.batch, inputs, static_cast<std::size_t>(samples),
                                               static_cast<std::uint64_t>(seed));
        if (!sampled) return sampled.why;
        json& check = at(out, "monte_carlo");
        write(check, field{"samples", sampled->samples}, field{"not_computed", sampled->not_computed});
        for (const auto& row : core::output_table) {
            const auto& s = sampled->of[core::index_of(row.id)];
            json& of_row = at(check, row.name);
            write(of_row, field{"mean", s.mean}, field{"standard_deviation", s.standard_deviation},
                  field{"percentile_2_5", s.low}, field{"percentile_97_5", s.high});
        }
        for (const auto& note : core::check_linear(*a, *sampled).notes) talk.batch.notes.push_back(note);
    }
    for (const auto& note : a->notes) talk.batch.notes.push_back(note);
    add_prediction(talk, talk.batch, talk.batch.thermometer_celsius);
    return std::nullopt;
}

refused learn_kitchen(conversation& talk) {
    const json* list = talk.in.required(talk.question, "", "logs", "a list of cooks with what was measured");
    if (list == nullptr) return talk.in.fault;
    std::vector<core::cook_log> logs;
    talk.in.each(*list, "logs", [&](const json& value, const std::string& at) {
        const json* object = talk.in.object(
            value, at, {"batch", "grams", "brix", "grams_error", "brix_error", "reading_error_kelvin"});
        const json* batch =
            object == nullptr ? nullptr : talk.in.required(*object, at, "batch", "a batch file's object");
        if (batch == nullptr) return;
        core::cook_log log;
        log.cook = read_batch(talk.in, *batch, true);
        if (talk.in.fault) talk.in.fault->place.insert(0, at + ".batch.");
        for (const auto& [key, into, unit] :
             {std::tuple{"grams", &log.grams, "g"}, std::tuple{"brix", &log.brix, "Brix"},
              std::tuple{"grams_error", &log.grams_error, "g"}, std::tuple{"brix_error", &log.brix_error, "Brix"},
              std::tuple{"reading_error_kelvin", &log.reading_error_kelvin, "K"}})
            if (const auto x = number_at(talk.in, *object, at, key, unit)) *into = *x;
        logs.push_back(std::move(log));
    });
    if (talk.in.fault) return talk.in.fault;
    const auto a = core::learn_kitchen(logs);
    if (!a) return a.why;
    talk.ask("What do " + std::to_string(logs.size()) + " logged cooks say of this thermometer and this pan?");
    json& out = at(talk.answer, "answer");
    const auto put_learned = [&](const char* key, const core::learned& l) {
        json& one = at(out, key);
        write(one, field{"determined", l.determined}, field{"value", l.determined ? l.value : core::not_a_number},
              field{"low", l.low}, field{"high", l.high}, field{"standard_uncertainty", l.standard_uncertainty},
              field{"at_a_bound", l.at_bound});
    };
    put_learned("thermometer_offset_kelvin", a->offset_kelvin);
    put_learned("loss_grams", a->loss_grams);
    write(out, field{"reduced_chi_square", a->reduced_chi_square}, field{"correlation", a->correlation},
          field{"measurements", a->measurements});
    write(out, "residuals", json(json::list()));
    for (const auto& r : a->residuals)
        write(grown(at(out, "residuals")), field{"log", r.log}, field{"measured", r.is_brix ? "brix" : "grams"},
              field{"value", r.measured}, field{"predicted", r.predicted}, field{"normalized", r.normalized},
              field{"outlier", r.outlier});
    const auto range = [&](const core::learned& l, const char* unit) {
        return l.determined ? fixed(l.value, 1) + unit + " (" + fixed(l.low, 1) + " to " + fixed(l.high, 1) + ")"
                            : std::string("these logs do not tell");
    };
    const bool low = a->offset_kelvin.determined && a->offset_kelvin.value < 0.0;
    core::learned shown_offset = a->offset_kelvin;
    if (low) {
        shown_offset.value = -a->offset_kelvin.value;
        shown_offset.low = -a->offset_kelvin.high;
        shown_offset.high = -a->offset_kelvin.low;
    }
    talk.say("thermometer", (low ? "reads too low by " : "reads too high by ") + range(shown_offset, " °C"));
    talk.say("stays in the pan", range(a->loss_grams, " g"));
    talk.because("These two numbers bring the predicted and the measured closest together; the ranges hold 95 %.");
    for (const auto& note : a->notes) talk.batch.notes.push_back(note);
    if (!talk.batch.pan.empty()) {
        const auto plan = core::apply(*a, talk.batch);
        talk.batch.thermometer_error_kelvin = plan.thermometer_error_kelvin;
        talk.batch.thermometer_within_kelvin = plan.thermometer_within_kelvin;
        add_prediction(talk, plan, plan.thermometer_celsius);
        if (talk.answer.find("prediction") != nullptr) {
            const auto p = core::predict(plan, core::stage_tables[0]);
            const auto jar = core::expected_yield(*a, p->finished.grams);
            write(out, "expected_yield_grams", jar);
            talk.say("this batch", "in the jar about " + with_range(jar, 0, " g") + ", " + p->set.word);
        }
    }
    return std::nullopt;
}

}  // namespace sirop::lib
