// The inverse questions, in quantities: to which temperature, how to rescue, for another yield, in another
// kitchen. Substitution, formulation, sensitivity and the learning of a kitchen need Eigen and stand in
// questions/.
#pragma once

#include "questions/other_kitchen.hpp"
#include "questions/rescue.hpp"
#include "sirop.hpp"

namespace sirop {

/// What is wanted of a finished batch: one measure, where it matters at a temperature.
class wanted {
  public:
    static wanted water(mass_fraction w) {
        return core::wanted_number(core::measure::water_percent, 100.0 * w.value);
    }
    static wanted activity(water_activity aw, temperature at) {
        return core::wanted_number(core::measure::water_activity, aw.value, in_celsius(at));
    }
    static wanted brix(degrees_brix b) { return core::wanted_number(core::measure::brix, b.value); }
    static wanted viscosity(dynamic_viscosity v, temperature at) {
        return core::wanted_number(core::measure::viscosity_pa_s, in_pascal_seconds(v), in_celsius(at));
    }
    static wanted firmness(dynamic_viscosity f, temperature at) {
        return core::wanted_number(core::measure::firmness_pa_s, in_pascal_seconds(f), in_celsius(at));
    }
    /// A word of the set, such as "ribbon".
    static wanted set(std::string_view word, temperature at) { return core::wanted_word(word, in_celsius(at)); }
    /// A stage by consistency, such as "soft ball", of the pan before the additions.
    static wanted stage(std::string_view name, std::string_view table = "us 2004") {
        return core::wanted_stage(name, table);
    }
    const core::wanted& numbers() const { return numbers_; }

  private:
    core::wanted numbers_;
    wanted(core::wanted w) : numbers_(std::move(w)) {}
};

/// The temperature for something wanted, and how far one may miss it.
class cook_plan {
  public:
    explicit cook_plan(core::cook_answer numbers) : numbers_(std::move(numbers)) {}

    temperature cook_to() const { return celsius(numbers_.thermometer_celsius); }  ///< on the thermometer
    temperature lowest() const { return celsius(numbers_.low_celsius); }
    temperature highest() const { return celsius(numbers_.high_celsius); }
    mass yield() const { return grams(numbers_.finished_grams); }
    const std::string& reason() const { return numbers_.reason; }
    const core::cook_answer& numbers() const { return numbers_; }

  private:
    core::cook_answer numbers_;
};

/// To which temperature a batch must be cooked; its own target does not count.
inline core::outcome<cook_plan> cook_for(const batch& b, const wanted& w) {
    if (auto why = detail::unknown_ingredient(b)) return *why;
    auto answer = core::cook_for(b.plan(), w.numbers());
    if (!answer) return answer.why;
    return cook_plan(*std::move(answer.value));
}

/// How far a batch is: one of three.
class now {
  public:
    static now thermometer_showed(temperature t) {
        now n;
        n.where_.thermometer_celsius = in_celsius(t);
        return n;
    }
    static now left_in_the_pan(mass m) {
        now n;
        n.where_.grams_left = in_grams(m);
        return n;
    }
    static now refractometer_reads(degrees_brix b) {
        now n;
        n.where_.brix = b.value;
        return n;
    }
    now& additions_in() {
        where_.additions_in = true;
        return *this;
    }
    const core::where_now& numbers() const { return where_; }

  private:
    core::where_now where_;
};

/// One way out: so much of an ingredient stirred in, or so far boiled on.
struct way_out {
    std::string ingredient;  ///< empty: boil on
    mass how_much, at_least, at_most;
    temperature boil_to;
    mass yield;
    std::string sentence;
};

/// Ways to bring a batch to what is wanted.
inline core::outcome<std::vector<way_out>> rescue(const batch& b, const now& where, const wanted& w) {
    if (auto why = detail::unknown_ingredient(b)) return *why;
    const auto answer = core::rescue(b.plan(), where.numbers(), w.numbers());
    if (!answer) return answer.why;
    std::vector<way_out> ways;
    for (const auto& way : answer->ways)
        ways.push_back({way.ingredient, grams(way.grams), grams(way.grams_low), grams(way.grams_high),
                        celsius(way.thermometer_celsius), grams(way.finished_grams), way.sentence});
    return ways;
}

/// The factor on all masses for a yield; loss: what stays in pan and tools whatever the batch.
inline core::outcome<double> factor_for(const batch& b, mass yield, mass loss = grams(0.0)) {
    if (auto why = detail::unknown_ingredient(b)) return *why;
    const auto answer = core::scale_to(b.plan(), in_grams(yield), core::not_a_number, in_grams(loss));
    if (!answer) return answer.why;
    return answer->factor;
}
inline core::outcome<double> factor_for(const batch& b, volume yield, mass loss = grams(0.0)) {
    if (auto why = detail::unknown_ingredient(b)) return *why;
    const auto answer = core::scale_to(b.plan(), core::not_a_number, in_millilitres(yield), in_grams(loss));
    if (!answer) return answer.why;
    return answer->factor;
}

/// What the thermometer is to show in another kitchen, for the same water; error: how much it reads too high
/// there.
inline core::outcome<temperature> cook_elsewhere(const batch& b, pressure there,
                                                 temperature_difference error = celsius_degrees(0.0)) {
    if (auto why = detail::unknown_ingredient(b)) return *why;
    const auto answer = core::travel(b.plan(), in_pascals(there), in_celsius_degrees(error));
    if (!answer) return answer.why;
    return celsius(answer->thermometer_celsius);
}

}  // namespace sirop
