#include <algorithm>

#include "questions/conversation.hpp"
#include "sirop/questions/other_kitchen.hpp"
#include "sirop/questions/rescue.hpp"

namespace sirop::lib {
namespace {

refused cook_for(conversation& talk) {
    const json* wanted = talk.in.required(talk.question, "", "wanted", "an object with what is wanted");
    if (wanted == nullptr) return talk.in.fault;
    const auto w = read_wanted(talk.in, *wanted, "wanted");
    if (talk.in.fault) return talk.in.fault;
    const auto a = core::cook_for(talk.batch, w);
    if (!a) return a.why;
    talk.ask("To which temperature must it be cooked, to be " + a->wanted_text + "?");
    json& out = at(talk.answer, "answer");
    write(out, field{"thermometer_celsius", a->thermometer_celsius},
          field{"thermometer_fahrenheit", core::celsius_to_fahrenheit(a->thermometer_celsius)},
          field{"thermometer_celsius_low", a->low_celsius}, field{"thermometer_celsius_high", a->high_celsius},
          field{"window_starts_at_the_boil", a->low_is_the_boil},
          field{"window_ends_with_the_model", a->high_is_the_model});
    put_measure(at(out, "reached"), w, a->value);
    put_measure(at(out, "if_1_celsius_too_low"), w, a->value_one_kelvin_low);
    put_measure(at(out, "if_1_celsius_too_high"), w, a->value_one_kelvin_high);
    write(out, "finished_grams", a->finished_grams);
    talk.say("cook to", both_scales(a->thermometer_celsius) + " on your thermometer");
    talk.say("the window", both_scales(a->low_celsius) + " to " + both_scales(a->high_celsius) +
                               (a->low_is_the_boil ? "; it starts where the pan boils" : "") +
                               (a->high_is_the_model ? "; it ends with the model" : ""));
    put_weight(talk, out, talk.batch, a->thermometer_celsius, a->low_celsius, a->high_celsius);
    talk.say("1 °C too low", core::shown(w, a->value_one_kelvin_low));
    talk.say("1 °C too high", core::shown(w, a->value_one_kelvin_high));
    talk.because(a->reason);
    talk.say("yield", fixed(a->finished_grams, 0) + " g");
    talk.status = core::worst(talk.status, a->status);
    add_prediction(talk, talk.batch, a->thermometer_celsius, w.table);
    return std::nullopt;
}

template <class Is>
bool any_line(const core::batch& b, const Is& is) {
    return std::any_of(b.pan.begin(), b.pan.end(), is) || std::any_of(b.off_heat.begin(), b.off_heat.end(), is);
}

bool is_milky(const core::ingredient_line& l) {
    const auto* row = core::find_ingredient(l.name);
    return row != nullptr &&
           (row->kind == core::ingredient_kind::milk_or_cream || row->kind == core::ingredient_kind::custard ||
            row->kind == core::ingredient_kind::dairy);
}

/// Fruit, acid, or what holds as much of it as lemon juice does: milk curdles in it.
bool is_sour(const core::ingredient_line& l) {
    const auto* row = core::find_ingredient(l.name);
    return (row != nullptr &&
            (row->kind == core::ingredient_kind::fruit || row->kind == core::ingredient_kind::acid)) ||
           l.per_gram[core::index_of(core::component::acid)] > 0.04;
}

/// What may be stirred in where nothing is said: milk only into what is made with milk, and not beside acid.
std::vector<std::string> what_suits(const core::batch& b) {
    if (any_line(b, is_milky) && !any_line(b, is_sour)) return {"water", "whole milk", "heavy cream 36 %"};
    return {"water"};
}

core::allergen_set allergens_of(const std::string& ingredient) {
    const auto* row = core::find_ingredient(ingredient);
    return row == nullptr ? core::allergen::none : row->allergens;
}

/// What a liquid brings along: its allergens, those that the batch had not, and whether it curdles.
void warn_of(conversation& talk, json& way, const std::string& liquid) {
    const auto brought = allergens_of(liquid);
    if (!brought.empty()) write(way, "allergens", json(json::list()));
    for (std::size_t i = 0; i < core::allergen_names.size(); ++i) {
        const core::allergen_set one{static_cast<std::uint16_t>(1U << i)};
        if (!brought.holds(one)) continue;
        grown(at(way, "allergens")) = json(std::string(core::allergen_names[i]));
        const bool known =
            any_line(talk.batch, [&](const core::ingredient_line& l) { return allergens_of(l.name).holds(one); });
        if (!known)
            talk.cautions.push_back("Allergen: " + liquid + " brings " + std::string(core::allergen_names[i]) +
                                    ", which nothing else here is known to hold.");
    }
    if (const core::ingredient_line line{liquid, {}, 0.0, 20.0}; is_milky(line) && any_line(talk.batch, is_sour))
        talk.cautions.push_back("There is acid in this batch: " + liquid + " may curdle.");
}

/// What to look for once a way has been gone: what the thermometer shows as it boils again, and the pan's weight.
void put_check(conversation& talk, json& out, const core::rescue_answer& a, const core::rescue_way& way,
               bool additions_in) {
    const auto& b = talk.batch;
    core::mixture pan = a.now;
    double celsius = way.thermometer_celsius;
    if (way.ingredient.empty()) {
        core::batch further = b;
        further.pan = {core::detail::line_of(a.now, "what is in the pan")};
        pan = core::cook_path(further).cooked_at(celsius - b.thermometer_error_kelvin);
    } else {
        pan += core::in_the_pan({{way.ingredient, *core::pantry_composition(way.ingredient), way.grams, 20.0}});
        celsius = core::best_boiling_celsius(pan, b.pressure_pa) + b.thermometer_error_kelvin;
    }
    const double grams = additions_in ? way.finished_grams : pan.total();
    std::string text = fixed(grams, 0) + " g without the pan";
    if (!additions_in || way.ingredient.empty()) {
        write(out, "check_thermometer_celsius", celsius);
        text = "boiling, it shows " + both_scales(celsius) + " and weighs " + text;
    }
    write(out, "check_grams", grams);
    talk.say("check", text);
}

refused rescue(conversation& talk) {
    const json* wanted = talk.in.required(talk.question, "", "wanted", "an object with what is wanted");
    const json* now = talk.in.required(talk.question, "", "now", "an object with how far the batch is");
    if (talk.in.fault) return talk.in.fault;
    const auto w = read_wanted(talk.in, *wanted, "wanted");
    core::where_now where;
    const json* object = talk.in.object(
        *now, "now", {"thermometer_celsius", "thermometer_fahrenheit", "grams_left", "brix", "additions_in"});
    if (object == nullptr) return talk.in.fault;
    if (const auto x = number_at(talk.in, *object, "now", "thermometer_celsius", "°C"))
        where.thermometer_celsius = *x;
    if (const auto x = number_at(talk.in, *object, "now", "thermometer_fahrenheit", "°F")) {
        if (std::isfinite(where.thermometer_celsius))
            return refusal{"now.thermometer_fahrenheit",
                           "stands beside thermometer_celsius; one of them is accepted"};
        where.thermometer_celsius = core::fahrenheit_to_celsius(*x);
    }
    if (const auto x = number_at(talk.in, *object, "now", "grams_left", "g")) where.grams_left = *x;
    if (const auto x = number_at(talk.in, *object, "now", "brix", "Brix")) where.brix = *x;
    if (const json* in = talk.in.member(*object, "additions_in")) {
        if (const auto* yes = in->as<bool>())
            where.additions_in = *yes;
        else
            talk.in.refuse("now.additions_in", "is " + shown(*in) + "; true or false is accepted");
    }
    std::vector<std::string> liquids = what_suits(talk.batch);
    if (const json* with = talk.in.member(talk.question, "with")) {
        liquids.clear();
        constexpr const char* accepted = "a list of ingredients of the pantry";
        talk.in.each(
            *with, "with",
            [&](const json& name, const std::string& at) { liquids.push_back(talk.in.text(name, at)); }, accepted);
        if (liquids.empty()) talk.in.refuse("with", "is a list; " + std::string(accepted) + " is accepted");
    }
    if (talk.in.fault) return talk.in.fault;
    const auto a = core::rescue(talk.batch, where, w, liquids);
    if (!a) return a.why;
    talk.ask("It is at " +
             std::string(std::isfinite(where.thermometer_celsius)
                             ? both_scales(where.thermometer_celsius)
                             : (std::isfinite(where.grams_left) ? fixed(where.grams_left, 0) + " g left"
                                                                : fixed(where.brix, 1) + " Brix")) +
             (where.additions_in ? ", additions in" : "") + ". What brings it to " + a->wanted_text + "?");
    json& out = at(talk.answer, "answer");
    write(out, field{"grams_now", a->grams_now}, field{"water_percent_now", a->water_percent_now});
    put_measure(at(out, "as_it_is"), w, a->value_now);
    write(out, "already_met", a->met);
    write(out, "ways", json(json::list()));
    const bool pour_in = !a->met && a->too_dry;
    if (pour_in || (!where.additions_in && core::additions_burst(talk.batch)))
        talk.cautions.emplace_back(core::steam_caution);
    talk.cautions.emplace_back(core::burn_caution);
    if (pour_in)
        talk.say("first",
                 std::string("take the pan off the heat and let it stop boiling; warm the liquid and stir it "
                             "in, in parts") +
                     (where.additions_in ? ""
                                         : "; then bring it back to the boil, without boiling it down, and "
                                           "go on with the additions"));
    for (const auto& way : a->ways) {
        json& one = grown(at(out, "ways"));
        if (!way.ingredient.empty()) {
            write(one, field{"stir_in", way.ingredient}, field{"grams", way.grams},
                  field{"grams_low", way.grams_low}, field{"grams_high", way.grams_high});
        } else {
            write(one, field{"boil_to_thermometer_celsius", way.thermometer_celsius},
                  field{"boil_to_thermometer_celsius_low", way.low_celsius},
                  field{"boil_to_thermometer_celsius_high", way.high_celsius});
        }
        put_measure(at(one, "reached"), w, way.value);
        write(one, field{"finished_grams", way.finished_grams},
              field{"finished_water_percent", core::percent(way.finished.water(), way.finished.total())},
              field{"sentence", way.sentence});
        talk.say(a->ways.size() > 1 && &way != &a->ways.front() ? "or" : "do this", way.sentence);
        put_check(talk, one, *a, way, where.additions_in);
        if (!way.ingredient.empty()) warn_of(talk, one, way.ingredient);
    }
    talk.because(a->reason);
    talk.status = core::worst(talk.status, a->status);
    talk.cautions.emplace_back(core::keeping_deferral);
    talk.cautions.emplace_back(
        "Graining and keeping of the rescued batch are not judged here: predict it as it is then.");
    return std::nullopt;
}

refused scale(conversation& talk) {
    const json* wanted = talk.in.required(talk.question, "", "yield", "an object with the yield");
    if (wanted == nullptr) return talk.in.fault;
    const json* object =
        talk.in.object(*wanted, "yield", {"grams", "millilitres", "portions", "grams_per_portion", "loss_grams"});
    if (object == nullptr) return talk.in.fault;
    auto grams = number_at(talk.in, *object, "yield", "grams", "g");
    const auto millilitres = number_at(talk.in, *object, "yield", "millilitres", "ml");
    const auto portions = number_at(talk.in, *object, "yield", "portions", "portions");
    const auto each = number_at(talk.in, *object, "yield", "grams_per_portion", "g");
    const auto loss = number_at(talk.in, *object, "yield", "loss_grams", "g");
    if (talk.in.fault) return talk.in.fault;
    if (portions.has_value() != each.has_value())
        return refusal{"yield.portions", "goes with grams_per_portion; both or neither are accepted"};
    if (portions) {
        if (grams) return refusal{"yield.portions", "stands beside grams; one of them is accepted"};
        grams = *portions * *each;
    }
    const double none = core::not_a_number;
    const auto a =
        core::scale_to(talk.batch, grams.value_or(none), millilitres.value_or(none), loss.value_or(0.0));
    if (!a) return a.why;
    talk.ask("How much of everything for " + (grams ? fixed(*grams, 0) + " g" : fixed(*millilitres, 0) + " ml") +
             " in the jar?");
    json& out = at(talk.answer, "answer");
    write(out, field{"factor", a->factor}, field{"finished_grams", a->finished_grams},
          field{"finished_millilitres", a->finished_millilitres});
    write_lines(out, a->plan);
    say_lines(talk, a->plan);
    write(out, "thermometer_celsius", talk.batch.thermometer_celsius);
    talk.say("cook to",
             both_scales(talk.batch.thermometer_celsius) + ", as before: temperature and set do not change");
    put_weight(talk, out, a->plan, talk.batch.thermometer_celsius);
    talk.because(
        "Water, stage and set depend on proportions and temperature alone; a larger batch takes longer, not "
        "hotter.");
    add_prediction(talk, a->plan, talk.batch.thermometer_celsius);
    return std::nullopt;
}

refused travel(conversation& talk) {
    const json* to = talk.in.required(talk.question, "", "to", "an object with the other kitchen");
    if (to == nullptr) return talk.in.fault;
    const json* object =
        talk.in.object(*to, "to",
                       {"pressure_hpa", "altitude_metres", "altitude_feet", "water_boils_celsius",
                        "thermometer_reads_in_boiling_water_celsius", "thermometer_within_celsius"});
    if (object == nullptr) return talk.in.fault;
    if (object->as<json::object>()->empty())
        return refusal{"to",
                       "says nothing of the other kitchen; its pressure, altitude or boiling water, "
                       "or its thermometer is accepted"};
    core::batch there = talk.batch;  // what is not said is as here
    read_kitchen(talk.in, *object, "to", there);
    if (talk.in.fault) return talk.in.fault;
    const auto a = core::travel(talk.batch, there.pressure_pa, there.thermometer_error_kelvin);
    if (!a) return a.why;
    talk.ask("To which temperature is it cooked where water boils at " + both_scales(a->water_boils_celsius) +
             "?");
    json& out = at(talk.answer, "answer");
    write(out, field{"thermometer_celsius", a->thermometer_celsius},
          field{"thermometer_fahrenheit", core::celsius_to_fahrenheit(a->thermometer_celsius)},
          field{"real_celsius", a->real_celsius}, field{"from_thermometer_celsius", a->from_thermometer_celsius},
          field{"water_boils_celsius", a->water_boils_celsius},
          field{"water_boils_from_celsius", a->water_boils_from_celsius}, field{"water_percent", a->water_percent},
          field{"rule_of_thumb_celsius", a->rule_of_thumb_celsius},
          field{"rule_of_thumb_water_percent", a->rule_of_thumb_water_percent});
    talk.say("cook to", both_scales(a->thermometer_celsius) + " on the thermometer there, for " +
                            both_scales(a->from_thermometer_celsius) + " here");
    put_weight(talk, out, a->plan, a->thermometer_celsius);
    talk.say("what changes", "the temperature alone");
    talk.say("what does not",
             "the amounts and the water left; set, yield and keeping hardly, by what additions flash off");
    talk.say("rule of thumb", "lower by what boiling water lacks: " + both_scales(a->rule_of_thumb_celsius) +
                                  ", " + fixed(a->rule_of_thumb_water_percent, 1) + " % water instead of " +
                                  fixed(a->water_percent, 1));
    talk.because("The same water must be left, " + fixed(a->water_percent, 1) +
                 " %; a syrup's boiling point moves with the pressure more than water's does.");
    core::batch plan = a->plan;
    plan.thermometer_within_kelvin = there.thermometer_within_kelvin;
    add_prediction(talk, plan, a->thermometer_celsius);
    return std::nullopt;
}

constexpr question_kind questions[] = {
    {"cook_for", false, true, cook_for, {"wanted"}},
    {"rescue", false, true, rescue, {"wanted", "now", "with"}},
    {"substitute", true, true, substitute, {"replace", "by", "may_change"}},
    {"formulate",
     false,
     true,
     formulate,
     {"free", "wanted", "sweetness_percent", "fat_percent", "graining_at_most", "water_activity_at_most",
      "yield"}},
    {"scale", true, true, scale, {"yield"}},
    {"travel", true, true, travel, {"to"}},
    {"sensitivity", true, true, sensitivity, {"uncertainties", "samples", "seed"}},
    {"learn_kitchen", true, false, learn_kitchen, {"logs"}},
    {"cook_over_time", true, true, cook_over_time, {"stove", "steps", "ph"}},
};

}  // namespace

std::span<const question_kind> question_kinds() {
    return questions;
}

core::outcome<reply> answer_question(std::string_view text) {
    const auto document = read_object(text);
    if (!document) return document.why;
    if (document->as<json::object>() == nullptr) return refusal{"question", "is not an object"};
    return answer_question(*document);
}

core::outcome<reply> answer_question(const json& document, const std::vector<std::string>& notes) {
    conversation talk{document, {}, {}, {}, {}, core::grade::fine, {}};
    field_reader& in = talk.in;
    const json* ask = in.required(document, "", "ask", "the name of the question");
    if (ask == nullptr) return *in.fault;
    const std::string name = in.text(*ask, "ask");
    if (in.fault) return *in.fault;
    const question_kind* found = nullptr;
    std::string names;
    for (const auto& q : questions) {
        add_name(names, q.name);
        if (q.name == name) found = &q;
    }
    if (found == nullptr) return refusal{"ask", "is " + in_quotes(name) + "; accepted: " + names};
    std::vector<std::string_view> accepted = {"sirop_question", "ask", "batch"};
    for (const auto key : found->keys)
        if (!key.empty()) accepted.push_back(key);
    if (in.object(document, "", accepted) == nullptr) return *in.fault;
    in.version(document, "sirop_question");
    const json* batch = found->batch_needed ? in.required(document, "", "batch", "a batch file's object")
                                            : in.member(document, "batch");
    if (in.fault) return *in.fault;
    if (batch != nullptr) talk.batch = read_batch(in, *batch, found->target_needed);
    talk.batch.notes.insert(talk.batch.notes.begin(), notes.begin(), notes.end());
    if (in.fault) return *in.fault;

    write(talk.answer, field{"sirop_answer", 1}, field{"ask", name}, field{"title", talk.batch.title});
    if (auto why = found->answer(talk)) return *why;
    if (talk.cautions.empty())
        talk.cautions = {std::string(core::burn_caution), std::string(core::keeping_deferral)};
    write(talk.answer, field{"status", talk.status == core::grade::fine ? "fine" : "extrapolated"},
          field{"cautions", talk.cautions}, field{"notes", talk.batch.notes});
    write_remarks(talk.answer);
    std::string page = title_line(talk.batch.title.empty() ? "Batch" : talk.batch.title);
    say_cautions(page, talk.cautions);
    page += talk.page;
    if (!talk.batch.notes.empty()) heading(page, "NOTES");
    for (const auto& note : talk.batch.notes) row(page, "  -", note, 4);
    return reply{std::move(talk.answer), std::move(page), talk.status};
}

}  // namespace sirop::lib
