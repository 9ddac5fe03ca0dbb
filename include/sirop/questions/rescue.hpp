// A batch that went too far or not far enough: what to add, or how much further to boil.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "cook_for.hpp"

namespace sirop::core {

/// How far the batch is; one of the three is given.
struct where_now {
    double thermometer_celsius = not_a_number;  ///< the highest that the thermometer showed
    double grams_left = not_a_number;           ///< mass of what is in the pan now
    double brix = not_a_number;                 ///< refractometer at 20 C, of its syrup
    bool additions_in = false;                  ///< the off-heat additions are already in it
};

/// One way out: so much of a liquid, or so far boiled on.
struct rescue_way {
    std::string ingredient;                                      ///< what to stir in; empty: boil further
    double grams = not_a_number;                                 ///< of it
    double grams_low = not_a_number, grams_high = not_a_number;  ///< that still give what is wanted
    double thermometer_celsius = not_a_number;                   ///< to boil to
    double low_celsius = not_a_number, high_celsius = not_a_number;
    double value = not_a_number;           ///< the measure then
    double finished_grams = not_a_number;  ///< new yield
    mixture finished;
    std::string sentence;
};

/// Where the batch is, and the ways from there to what is wanted.
struct rescue_answer {
    std::string wanted_text, now_text;
    double water_percent_now = not_a_number;  ///< of what is in the pan
    double grams_now = not_a_number;
    double value_now = not_a_number;  ///< the measure if nothing is done
    bool met = false;                 ///< it is already what is wanted
    bool too_dry = false;
    mixture now;
    std::vector<rescue_way> ways;  ///< none if it is met
    std::string reason;
    grade status = grade::fine;
};

namespace detail {

inline constexpr double most_added = 3.0;  ///< of the batch's own mass

/// The additions in, by a property of the finished batch: along the path of the cook, so that what they dissolve
/// and flash off is in it.
template <class Property>
outcome<mixture> finished_by(const cook_path& path, const char* place, double value, const char* unit,
                             const Property& property) {
    const auto at = [&](double celsius) { return property(path.finished_at(celsius)); };
    const double first = at(path.boils_celsius), last = at(path.last_celsius);
    const double t = solve_monotone([&](double celsius) { return at(celsius) - value; }, 110.0, path.boils_celsius,
                                    path.last_celsius);
    if (std::isfinite(t)) return path.finished_at(t);
    return refusal{place, shortest(value) + " cannot be: with the additions in it goes from " + fixed(first, 1) +
                              unit + " where the pan starts to boil to " +
                              (std::isfinite(last) ? fixed(last, 1) + unit : std::string("the end of the scale"))};
}

inline outcome<mixture> contents_by_thermometer(const cook_path& path, const where_now& now) {
    batch there = path.plan;
    there.thermometer_celsius = now.thermometer_celsius;
    there.target_place = "now.thermometer_celsius";
    if (auto fault = find_target_fault(there, path)) return *fault;
    const double real = there.real_celsius();
    return now.additions_in ? path.finished_at(real) : path.cooked_at(real);
}

inline outcome<mixture> contents_by_grams(const cook_path& path, const where_now& now) {
    if (now.additions_in)
        return finished_by(path, "now.grams_left", now.grams_left, " g",
                           [](const mixture& m) { return m.total(); });
    const double dry = path.pan.with_water(0.0).total(), all = path.pan.total();
    if (now.grams_left > dry && now.grams_left <= all * (1.0 + 1.0e-9))
        return path.pan.with_water(std::fmin(now.grams_left - dry, path.pan.water()));
    return refusal{"now.grams_left", shortest(now.grams_left) + " cannot be: without any water it would be " +
                                         fixed(dry, 1) + " g, with all of it " + fixed(all, 1) + " g"};
}

inline outcome<mixture> contents_by_brix(const cook_path& path, const where_now& now) {
    if (now.additions_in)
        return finished_by(path, "now.brix", now.brix, " Brix", [](const mixture& m) {
            // beyond the scale it only rises: past it by as much as it has no number
            const double brix = brix_of_syrup(m);
            return std::isfinite(brix) ? brix : 100.0 * m.syrup_solids() + 5.0;
        });
    const double water = water_from_reading(path.pan, now.brix, 20.0);
    if (water <= path.pan.water() * (1.0 + 1.0e-9)) return path.pan.with_water(std::fmin(water, path.pan.water()));
    return refusal{"now.brix", shortest(now.brix) + " cannot be: uncooked, the batch reads " +
                                   fixed(brix_of_syrup(path.pan), 1) + " Brix; up to 95 is accepted"};
}

/// What is in the pan now, or why that cannot be.
inline outcome<mixture> contents_now(const cook_path& path, const where_now& now) {
    if (std::isfinite(now.thermometer_celsius)) return contents_by_thermometer(path, now);
    if (std::isfinite(now.grams_left)) return contents_by_grams(path, now);
    if (std::isfinite(now.brix)) return contents_by_brix(path, now);
    return refusal{"now", "says nothing; one of thermometer_celsius, grams_left and brix is accepted"};
}

/// A mixture as one ingredient.
inline ingredient_line line_of(const mixture& m, const char* name) {
    ingredient_line line;
    line.name = name;
    line.grams = m.total();
    for (std::size_t i = 0; i < component_count; ++i) line.per_gram[i] = m.grams[i] / line.grams;
    for (std::size_t i = 0; i < component_count; ++i) line.per_gram[i] += m.crystals_of[i] / line.grams;
    return line;
}

/// A batch in trouble: what is in the pan, what is still to come in, and what is wanted of it.
struct rescue_case {
    const batch& plan;
    const wanted& want;
    band accepted;  ///< its band
    mixture now;
    additions_of<double> to_come;  ///< the additions that are not in it
    bool additions_in;

    /// What is there with so much of a liquid stirred in: into the pan, where it is boiled with it, or into the
    /// finished sauce, where it is not.
    mixture stirred(const masses& liquid, double grams) const {
        mixture m = now;
        if (additions_in)
            m += off_the_heat(grams, liquid);
        else
            m.add(grams, liquid);
        return m;
    }
    /// The same with the additions that are still to come, brought back to the boil for them.
    mixture finish(const mixture& m) const {
        if (additions_in || plan.off_heat.empty()) return m;
        return mix(m, best_boiling_celsius(m, plan.pressure_pa), to_come, plan.pressure_pa).contents;
    }
    /// The measure then; NaN where it has no number.
    double measured_with(const masses& liquid, double grams) const {
        const mixture m = stirred(liquid, grams);
        return measured(want, want.what == measure::stage ? m : finish(m), m, plan.serve_celsius);
    }

    /// So much of a liquid as brings it there; nothing where up to most_added of it do not.
    std::optional<rescue_way> stir_in(const std::string& name, const masses& liquid) const {
        const double whole = now.total();
        const auto value_at = [&](double share) { return measured_with(liquid, share * whole); };
        const auto known = [&](double share) { return std::isfinite(value_at(share)); };
        // from where on there is a number: at once, or where it comes back onto the refractometer's scale
        const double first = known(0.0) ? 0.0 : edge_between(0.0, most_added, 1.0e-6, known);
        const auto grams_for = [&](double value) {
            return whole * solve_monotone([&](double share) { return value_at(share) - value; },
                                          std::fmax(0.03, first), first, most_added);
        };
        rescue_way way;
        way.ingredient = name;
        way.grams = grams_for(accepted.aim);
        if (!std::isfinite(way.grams)) return std::nullopt;
        way.grams_low = grams_for(dry_edge(want, accepted));
        way.grams_high = grams_for(wet_edge(want, accepted));
        if (!std::isfinite(way.grams_high)) way.grams_high = most_added * whole;
        way.value = measured_with(liquid, way.grams);
        way.finished = finish(stirred(liquid, way.grams));
        way.finished_grams = way.finished.total();
        const auto amount = [](double grams) { return fixed(grams, grams < 50.0 ? 1 : 0); };
        way.sentence = "stir in " + amount(way.grams) + " g of " + name + " (" + amount(way.grams_low) + " to " +
                       amount(way.grams_high) + " g still do): " + fixed(way.finished_grams, 0) +
                       " g in all: " + shown(want, way.value);
        return way;
    }

    /// How far what is there must boil on, or why that does not bring it there.
    outcome<rescue_way> boil_on() const {
        batch further = plan;
        further.pan = {line_of(now, "what is in the pan")};
        if (additions_in) further.off_heat.clear();
        const auto cooked = cook_for(further, want);
        if (!cooked) return cooked.why;
        rescue_way way;
        way.grams = 0.0;
        way.thermometer_celsius = cooked->thermometer_celsius;
        way.low_celsius = cooked->low_celsius;
        way.high_celsius = cooked->high_celsius;
        way.value = cooked->value;
        way.finished = cooked->finished;
        way.finished_grams = cooked->finished_grams;
        way.sentence = "boil on to " + both_scales(way.thermometer_celsius) + " (" + both_scales(way.low_celsius) +
                       " to " + both_scales(way.high_celsius) + " still do): " + fixed(way.finished_grams, 0) +
                       " g in all: " + shown(want, way.value);
        return way;
    }

    /// Where it stands if nothing is done.
    rescue_answer assess() const {
        rescue_answer a;
        a.now = now;
        a.wanted_text = wanted_text(want, plan.serve_celsius);
        a.grams_now = now.total();
        a.water_percent_now = percent(now.water(), a.grams_now);
        a.value_now = measured_with({}, 0.0);
        const bool off_scale = !std::isfinite(a.value_now);  // a refractometer beyond its scale: too dry to tell
        a.now_text =
            off_scale ? std::string("beyond the scale of a refractometer, 95 Brix") : shown(want, a.value_now);
        a.status = grade_of(want, finish(now), now, plan.serve_celsius);
        a.met = a.value_now >= accepted.low && a.value_now <= accepted.high;
        a.too_dry = off_scale || drier(want, a.value_now, accepted.aim);
        a.reason = "As it is, with " + fixed(a.water_percent_now, 1) +
                   " % water in the pan, it would come to: " + a.now_text + ".";
        if (a.met) a.reason += " That is what is wanted: nothing needs to be done.";
        return a;
    }
};

}  // namespace detail

/// Ways to bring a batch to what is wanted: too dry, so much of each liquid stirred in (before the additions:
/// brought back to the boil, without boiling down); too wet, boil on.  Amounts conserve mass: the new yield is
/// what is there, what is stirred in and the additions, less what they flash off.  Refused: a fault in the
/// numbers; a place that the batch cannot be at; what none of the liquids, or no boiling, brings about.
inline outcome<rescue_answer> rescue(batch b, const where_now& now, const wanted& w,
                                     const std::vector<std::string>& liquids = {"water", "whole milk",
                                                                                "heavy cream 36 %"}) {
    if (std::isnan(b.thermometer_celsius)) b.thermometer_celsius = 110.0;  // does not count here
    if (auto fault = find_fault(b)) return *fault;
    const auto accepted = band_of(w);
    if (!accepted) return accepted.why;
    if (std::isfinite(now.thermometer_celsius) + std::isfinite(now.grams_left) + std::isfinite(now.brix) > 1)
        return refusal{"now", "says two things; one of thermometer_celsius, grams_left and brix is accepted"};
    if (w.what == measure::stage && now.additions_in)
        return refusal{"wanted.stage",
                       "is that of the pan before the additions, which are in; ask for a set word"};
    const cook_path path(b);
    if (auto fault = find_pan_fault(path)) return *fault;
    const auto contents = detail::contents_now(path, now);
    if (!contents) return contents.why;

    const detail::rescue_case at_hand{b, w, *accepted, *contents, additions(b.off_heat), now.additions_in};
    rescue_answer a = at_hand.assess();
    if (a.met) return a;
    if (!a.too_dry) {
        auto way = at_hand.boil_on();
        if (!way) return way.why;
        a.ways.push_back(*std::move(way.value));
        return a;
    }
    std::string unfit;
    for (const auto& name : liquids) {
        if (auto fault = find_text_fault("with", name)) return *fault;
        const auto liquid = pantry_composition(name);
        if (!liquid) return refusal{"with", "\"" + name + "\" is not an ingredient of the pantry"};
        if (auto way = at_hand.stir_in(name, *liquid))
            a.ways.push_back(*std::move(way));
        else
            unfit += (unfit.empty() ? "" : ", ") + name;
    }
    if (a.ways.empty())
        return refusal{"with", "cannot be rescued with " + unfit + ": up to " + shortest(detail::most_added) +
                                   " times its mass does not bring it to " + a.wanted_text +
                                   "; try another liquid"};
    return a;
}

}  // namespace sirop::core
