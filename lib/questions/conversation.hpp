// What the questions share while they are answered: reading what is wanted, writing answer and page.
#pragma once

#include "questions/question.hpp"
#include "report/card.hpp"
#include "report/page.hpp"
#include "sirop/questions/cook_path.hpp"

namespace sirop::lib {

using core::both_scales;
using core::fixed;

/// A question being answered: its fields are read, its answer and report written.
struct conversation {
    const json& question;
    field_reader in;
    core::batch batch;
    json answer;
    std::string page;
    core::grade status = core::grade::fine;
    std::vector<std::string> cautions;

    void say(std::string_view label, const std::string& text) { row(page, std::string("  ").append(label), text); }
    void ask(const std::string& sentence) {
        write(answer, "question", sentence);
        heading(page, "QUESTION");
        row(page, "", sentence, 2);
        heading(page, "ANSWER");
    }
    void because(const std::string& reason, std::string_view more = "") {
        write(at(answer, "answer"), "reason", reason);
        say("because", std::string(reason).append(more));
    }
};

inline std::optional<double> number_at(field_reader& in, const json& object, const std::string& place,
                                       const char* key, const char* unit) {
    const json* value = in.member(object, key);
    if (value == nullptr || in.fault) return std::nullopt;
    const double x = in.number(*value, place + "." + key, unit);
    return in.fault ? std::nullopt : std::optional<double>(x);
}

/// {"water_percent": 15}, {"set_word": "ribbon", "celsius": 20}, {"stage": "soft ball", "table": "us 1918"} ...
inline core::wanted read_wanted(field_reader& in, const json& value, const std::string& place) {
    core::wanted w;
    const json* object = in.object(value, place,
                                   {"water_percent", "water_activity", "brix", "viscosity_pa_s", "firmness_pa_s",
                                    "stage", "set_word", "celsius", "fahrenheit", "within", "table"});
    if (object == nullptr) return w;
    int given = 0;
    for (const auto& m : core::measures) {
        const json* wanted = in.member(*object, m.name);
        if (wanted == nullptr) continue;
        if (++given > 1) {
            in.refuse(place, "asks for two things; one measure is accepted");
            return w;
        }
        w.what = m.id;
        const std::string at = place + "." + std::string(m.name);
        if (m.id == core::measure::stage || m.id == core::measure::set_word)
            w.name = in.text(*wanted, at);
        else
            w.value = in.number(*wanted, at, std::string(m.unit).c_str());
    }
    if (given == 0)
        in.refuse(place,
                  "asks for nothing; one of water_percent, water_activity, brix, viscosity_pa_s, firmness_pa_s, "
                  "stage, set_word is accepted");
    if (const json* celsius = in.member(*object, "celsius"))
        w.celsius = in.number_within(*celsius, place + ".celsius", core::serve_limit);
    if (const auto f = number_at(in, *object, place, "fahrenheit", "°F")) {
        if (!std::isnan(w.celsius))
            in.refuse(place + ".fahrenheit", "stands beside celsius; one of them is accepted");
        w.celsius = core::fahrenheit_to_celsius(*f);
        const auto in_fahrenheit = [](double c) { return core::shortest(core::celsius_to_fahrenheit(c)); };
        if (given == 1 && !core::data_of(w.what).at_celsius)
            in.refuse(place + ".fahrenheit", "does not go with " + std::string(core::data_of(w.what).name) +
                                                 ", which is the same at any temperature; none is accepted");
        if (!core::serve_limit.holds(w.celsius))
            in.refuse(place + ".fahrenheit", core::shortest(*f) + " is outside the accepted range, " +
                                                 in_fahrenheit(core::serve_limit.low) + " to " +
                                                 in_fahrenheit(core::serve_limit.high) + " °F");
    }
    if (const auto within = number_at(in, *object, place, "within", "half the band")) w.within = *within;
    if (const json* table = in.member(*object, "table")) {
        w.table = in.text(*table, place + ".table");
        if (given == 1 && w.what != core::measure::stage)
            in.refuse(place + ".table", "goes with a stage; none is accepted here");
    }
    return w;
}

/// The measure under its own name; viscosities as numbers, not logarithms.
inline void put_measure(json& object, const core::wanted& w, double value) {
    if (w.what == core::measure::stage || w.what == core::measure::set_word) {
        write(object, core::data_of(w.what).name,
              w.what == core::measure::stage ? core::shown(w, value) : word_of(value));
        write(object, "firmness_pa_s", std::pow(10.0, value));
    } else {
        const bool logarithm = w.what == core::measure::viscosity_pa_s || w.what == core::measure::firmness_pa_s;
        write(object, core::data_of(w.what).name, logarithm ? std::pow(10.0, value) : value);
    }
}

/// The whole prediction at a temperature, so that every answer can be checked against the main job's.
inline void add_prediction(conversation& talk, core::batch plan, double thermometer_celsius,
                           std::string_view table = core::stage_tables[0].name) {
    plan.thermometer_celsius = thermometer_celsius;
    const auto p = core::predict_with_advice(plan, *core::find_stage_table(table));
    if (!p) {  // a rounding beside the boil, or beyond the model: said, not hidden
        talk.batch.notes.push_back("The prediction is missing: " + one_line(p.why));
        talk.status = core::grade::extrapolated;
        return;
    }
    write(talk.answer, "prediction", prediction_json(*p));
    talk.cautions = p->cautions;
    talk.status = core::worst(talk.status, p->status);
}

/// What the pan weighs where the cook ends, and how a window compares with what a thermometer can tell; low and
/// high are NaN where there is no window.
inline void put_weight(conversation& talk, json& out, const core::batch& plan, double thermometer,
                       double low = core::not_a_number, double high = core::not_a_number) {
    const core::cook_path path(plan);
    const auto grams_at = [&](double reading) {
        return path.cooked_at(reading - plan.thermometer_error_kelvin).total();
    };
    std::string text = fixed(grams_at(thermometer), 0) + " g without the pan";
    write(out, "pan_grams", grams_at(thermometer));
    if (std::isfinite(low)) {
        const double within = std::fmax(kitchen_probe_kelvin, plan.thermometer_within_kelvin);
        const bool narrow = high - low < 2.0 * within;
        write(out, field{"pan_grams_low", grams_at(high)}, field{"pan_grams_high", grams_at(low)},
              field{"window_narrower_than_thermometer", narrow});
        text += " (" + fixed(grams_at(high), 0) + " to " + fixed(grams_at(low), 0) + " g)";
        if (narrow)
            text +=
                "; stop by weight: the window is narrower than a thermometer's ±" + core::shortest(within) + " °C";
    }
    talk.say("then weigh", text);
}

/// What goes into the pan and what off the heat, for a program and for a cook.
inline void write_lines(json& answer, const core::batch& plan) {
    for (const auto& [key, lines] : {std::pair{"pan", &plan.pan}, std::pair{"off_heat", &plan.off_heat}}) {
        json& list = at(answer, key) = json(json::list());
        for (const auto& line : *lines)
            write(grown(list), field{"ingredient", line.name}, field{"grams", line.grams});
    }
}
inline void say_lines(conversation& talk, const core::batch& plan) {
    for (const auto& [label, lines] : {std::pair{"pan", &plan.pan}, std::pair{"off the heat", &plan.off_heat}})
        for (const auto& line : *lines)
            talk.say(label, fixed(line.grams, line.grams < 50.0 ? 1 : 0) + " g of " + line.name);
}

using refused = std::optional<refusal>;

refused cook_over_time(conversation& talk);  // in question_time.cpp
// Those that need Eigen, in question_design.cpp.
refused substitute(conversation& talk);
refused formulate(conversation& talk);
refused sensitivity(conversation& talk);
refused learn_kitchen(conversation& talk);

}  // namespace sirop::lib
