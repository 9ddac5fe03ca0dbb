// How the cook goes over time: "cook_over_time".
#include "questions/conversation.hpp"
#include "sirop/cooking/steps.hpp"

namespace sirop::lib {
namespace {

constexpr core::limit watts_limit{"watts", 50.0, 50000.0, "W"};
constexpr core::limit efficiency_limit{"efficiency_percent", 5.0, 100.0, "%"};
constexpr core::limit pan_grams_limit{"pan_grams", 0.0, 100000.0, "g"};
constexpr core::limit opening_limit{"opening_millimetres", 50.0, 2000.0, "mm"};
constexpr core::limit room_limit{"room_celsius", 0.0, 50.0, "°C"};
constexpr core::limit ph_limit{"ph", 2.0, 10.0, "pH"};
constexpr core::limit minutes_limit{"minutes", 0.0, 1440.0, "min"};
constexpr core::limit power_limit{"power_percent", 1.0, 100.0, "% of the hob's"};
constexpr std::size_t most_steps = 50;

double limited(conversation& talk, const json& object, const std::string& place, const core::limit& range,
               double otherwise) {
    const json* value = talk.in.member(object, range.name);
    if (value == nullptr || talk.in.fault) return otherwise;
    return talk.in.number_within(*value, std::string(place).append(1, '.').append(range.name), range);
}

/// {"hob": "gas", "watts": 2500, "pan_grams": 1200, "opening_millimetres": 240}
core::stove read_stove(conversation& talk) {
    core::stove on;
    const json* value = talk.in.member(talk.question, "stove");
    if (value == nullptr) {
        talk.batch.notes.emplace_back(
            "The stove is not given: a 1500 W coil, a pan of 1 kg of steel, 200 mm across, are assumed.");
        return on;
    }
    const json* object =
        talk.in.object(*value, "stove",
                       {"hob", "watts", "efficiency_percent", "pan_grams", "opening_millimetres", "room_celsius"});
    if (object == nullptr) return on;
    if (const json* name = talk.in.member(*object, "hob")) {
        const std::string text = talk.in.text(*name, "stove.hob");
        const auto* kind = core::find_hob(text);
        std::string names;
        for (const auto& h : core::hob_kinds) add_name(names, h.name);
        if (kind == nullptr) {
            if (!talk.in.fault) talk.in.refuse("stove.hob", "is " + in_quotes(text) + "; accepted: " + names);
            return on;
        }
        on.efficiency = kind->efficiency;
        on.efficiency_low = kind->efficiency_low;
        on.efficiency_high = kind->efficiency_high;
        on.lag_seconds = kind->lag_seconds;
    }
    on.watts = limited(talk, *object, "stove", watts_limit, on.watts);
    if (talk.in.member(*object, "efficiency_percent") != nullptr) {
        on.efficiency = 0.01 * limited(talk, *object, "stove", efficiency_limit, core::not_a_number);
        on.efficiency_low = on.efficiency_high = on.efficiency;
    }
    const double millimetres = limited(talk, *object, "stove", opening_limit, 200.0);
    on.opening_square_metres = 0.785398e-6 * millimetres * millimetres;
    on.wall_square_metres = 1.6 * on.opening_square_metres;
    on.pan_joule_per_kelvin = 0.5 * limited(talk, *object, "stove", pan_grams_limit, 1000.0);
    on.room_celsius = limited(talk, *object, "stove", room_limit, on.room_celsius);
    return on;
}

void read_step(conversation& talk, const json& value, const std::string& place,
               std::vector<core::cook_step>& steps) {
    const json* object = talk.in.object(
        value, place,
        {"heat_to_celsius", "hold_minutes", "add", "rest_minutes", "cool_to_celsius", "power_percent"});
    if (object == nullptr) return;
    core::cook_step step;
    int given = 0;
    const auto take = [&](const char* key, core::step_kind kind, double& into, const core::limit& range,
                          double times) {
        const json* number = talk.in.member(*object, key);
        if (number == nullptr || talk.in.fault) return;
        ++given;
        step.kind = kind;
        into = times * talk.in.number_within(*number, place + "." + key, range);
    };
    take("heat_to_celsius", core::step_kind::heat, step.to_celsius, core::temperature_limit, 1.0);
    take("cool_to_celsius", core::step_kind::cool, step.to_celsius, core::temperature_limit, 1.0);
    take("hold_minutes", core::step_kind::hold, step.seconds, minutes_limit, 60.0);
    take("rest_minutes", core::step_kind::rest, step.seconds, minutes_limit, 60.0);
    if (const json* lines = talk.in.member(*object, "add"); lines != nullptr && !talk.in.fault) {
        ++given;
        step.kind = core::step_kind::add;
        talk.in.each(
            *lines, place + ".add",
            [&](const json& row, const std::string& at) {
                step.lines.push_back(read_line(talk.in, row, at, true, talk.batch.notes));
            },
            "a list of ingredients");
    }
    if (talk.in.fault) return;
    if (given != 1)
        return talk.in.refuse(place, "says " + std::to_string(given) +
                                         " things; one of heat_to_celsius, hold_minutes, add, rest_minutes, "
                                         "cool_to_celsius is accepted");
    step.share = 0.01 * limited(talk, *object, place, power_limit, 100.0);
    steps.push_back(std::move(step));
}

std::string minutes_text(double seconds) {
    return seconds < 90.0 ? fixed(seconds, 0) + " s" : fixed(seconds / 60.0, seconds < 600.0 ? 1 : 0) + " min";
}

std::string said(const core::step_taken& t) {
    using enum core::step_kind;
    switch (t.step.kind) {
        case heat:
            return "heat to " + both_scales(t.step.to_celsius);
        case hold:
            return "hold for " + minutes_text(t.step.seconds);
        case rest:
            return "off the heat for " + minutes_text(t.step.seconds);
        case cool:
            return "let it cool to " + both_scales(t.step.to_celsius);
        case add:
            break;
    }
    std::string text = "add";
    for (const auto& line : t.step.lines) {
        text += &line == t.step.lines.data() ? " " : ", ";
        text.append(fixed(line.grams, 0)).append(" g of ").append(line.name);
    }
    return text;
}

void write_state(json& out, const core::pan_state& s) {
    write(out, field{"minutes", s.seconds / 60.0}, field{"celsius", s.celsius}, field{"grams", s.contents.total()},
          field{"water_percent", core::percent(s.contents.water(), s.contents.total())},
          field{"browning", s.browning}, field{"boils", s.boils});
}

}  // namespace

refused cook_over_time(conversation& talk) {
    const core::stove on = read_stove(talk);
    const double ph = limited(talk, talk.question, "question", ph_limit, core::not_a_number);
    std::vector<core::cook_step> steps;
    if (const json* list = talk.in.member(talk.question, "steps"); list != nullptr && !talk.in.fault) {
        talk.in.each(
            *list, "steps",
            [&](const json& row, const std::string& at) {
                if (steps.size() == most_steps)
                    talk.in.refuse(at, "is one too many; 50 steps are accepted");
                else
                    read_step(talk, row, at, steps);
            },
            "a list of steps");
    }
    if (talk.in.fault) return talk.in.fault;
    if (steps.empty()) steps = core::usual_steps(talk.batch, on);
    if (std::isnan(ph))
        talk.batch.notes.emplace_back(
            "The pH is not given: 6.5 is assumed, as of sugar, milk and water; with acid or "
            "fruit give it, for it decides how much sugar inverts.");
    const double used_ph = std::isnan(ph) ? 6.5 : ph;
    const auto course = core::cook_over_time(talk.batch, on, steps, used_ph);
    if (!course) return course.why;
    // Slower and faster by what is not known of the hob.
    core::stove weak = on, strong = on;
    weak.efficiency = on.efficiency_low;
    strong.efficiency = on.efficiency_high;
    const auto slow = core::cook_over_time(talk.batch, weak, steps, used_ph);
    const auto fast = core::cook_over_time(talk.batch, strong, steps, used_ph);

    talk.ask("How does the cook go over time?");
    json& out = at(talk.answer, "answer");
    json& rows = at(out, "steps") = json(json::list());
    for (std::size_t i = 0; i < course->steps.size(); ++i) {
        const auto& t = course->steps[i];
        const auto& s = t.end;
        const core::estimate seconds = core::between(t.seconds, fast ? fast->steps[i].seconds : 0.0,
                                                     slow ? slow->steps[i].seconds : HUGE_VAL);
        json& row = grown(rows);
        write(row, field{"step", core::step_names[static_cast<std::size_t>(t.step.kind)]}, field{"says", said(t)});
        write(row, "takes_seconds", seconds);
        write_state(row, s);
        write(row, field{"celsius_per_minute", t.kelvin_per_minute}, field{"flashed_grams", t.flashed_grams},
              field{"steam_grams", s.steam_grams}, field{"inverted_grams", s.inverted_grams},
              field{"inverted_grams_low", s.inverted_grams / formula::inversion_factor_thick},
              field{"inverted_grams_high", std::fmin(formula::inversion_factor_thick * s.inverted_grams,
                                                     s.inverted_grams + s.contents[core::component::sucrose])},
              field{"colour", core::browning_word(s.browning)},
              field{"colour_if_less", core::browning_word(s.browning / core::browning_factor)},
              field{"colour_if_more", core::browning_word(s.browning * core::browning_factor)});
        std::string text = said(t);
        if (t.step.kind != core::step_kind::add) {
            text += ": " + minutes_text(t.seconds) + " (" + minutes_text(seconds.low) + " to " +
                    (std::isfinite(seconds.high) ? minutes_text(seconds.high) : std::string("never")) + ")";
            if (t.step.kind == core::step_kind::heat && t.kelvin_per_minute > 0.0)
                text += "; at the end a degree takes " + fixed(60.0 / t.kelvin_per_minute, 0) + " s";
        } else if (t.flashed_grams > 0.05) {
            text += ": " + fixed(t.flashed_grams, 1) + " g of water bursts into steam";
        }
        text += "; then " + both_scales(s.celsius, 0) + ", " + fixed(s.contents.total(), 0) + " g, " +
                fixed(core::percent(s.contents.water(), s.contents.total()), 1) + " % water, " +
                std::string(core::browning_word(s.browning));
        talk.say(std::to_string(i + 1), text);
    }
    const auto& end = course->steps.back().end;
    write(out, field{"minutes", end.seconds / 60.0},
          field{"boils_from_minutes", course->boils_from_seconds / 60.0},
          field{"highest_celsius", course->highest_celsius}, field{"ph", used_ph});

    // When to take it off, so that it coasts to the first target.
    const auto& first = course->steps.front();
    if (first.step.kind == core::step_kind::heat) {
        const core::pan_state* ready = nullptr;
        for (const auto& s : course->path)
            if (s.celsius >= first.step.to_celsius - 6.0) {
                ready = &s;
                break;
            }
        core::stove full = on;
        full.watts *= first.step.share;
        const double off = ready == nullptr ? core::not_a_number
                                            : core::turn_off_celsius(*ready, full, first.step.to_celsius,
                                                                     talk.batch.pressure_pa, used_ph);
        write(out, "turn_off_celsius", off);
        if (std::isfinite(off))
            talk.say("turn it off at", both_scales(off) + ": it climbs on to " +
                                           both_scales(first.step.to_celsius) +
                                           " by the heat that is on its way (our estimate of the hob's lag)");
    }
    talk.because(
        "At the boil a pan is as hot as the water left in it says; how fast that water leaves is the hob's "
        "heat, less what the pan's surface gives up.");
    // A path that can be drawn: a state each fiftieth of the time or each 2 K.
    json& path = at(out, "path") = json(json::list());
    double seconds = -HUGE_VAL, celsius = -HUGE_VAL;
    for (const auto& s : course->path)
        if (s.seconds >= seconds + end.seconds / 50.0 || std::fabs(s.celsius - celsius) >= 2.0 ||
            &s == &course->path.back()) {
            write_state(grown(path), s);
            seconds = s.seconds;
            celsius = s.celsius;
        }
    talk.status = core::grade::extrapolated;
    talk.cautions.emplace_back(core::burn_caution);
    for (const auto& step : steps)
        if (step.kind == core::step_kind::add) {
            talk.cautions.emplace_back(core::steam_caution);
            break;
        }
    talk.cautions.emplace_back(core::keeping_deferral);
    talk.batch.notes.emplace_back(
        "Times rest on the hob's efficiency, which published figures put anywhere in a factor of two: time one "
        "pan of "
        "water. Inversion may err by a factor of five in thick syrup, browning by one band of colour.");
    return std::nullopt;
}

}  // namespace sirop::lib
