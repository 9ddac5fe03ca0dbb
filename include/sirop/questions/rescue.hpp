// A batch that went too far or not far enough: what to add, or how much further to boil.
#pragma once

#include <optional>

#include "cook_for.hpp"

namespace sirop::core {

/// How far the batch is; one of the three is given.
struct where_now {
    double thermometer_celsius = not_a_number;  ///< the highest that the thermometer showed
    double grams_left = not_a_number;           ///< mass of what is in the pan now
    double brix = not_a_number;                 ///< refractometer at 20 C, of its syrup
    bool additions_in = false;                  ///< the off-heat additions are already in it
};

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

/// What is in the pan now, or why that cannot be.
inline outcome<mixture> contents_now(const batch& b, const cook_path& path, const where_now& now) {
    mixture all = path.pan;
    for (const auto& line : b.off_heat)
        if (now.additions_in) all += off_the_heat(line);
    const double dry = all.with_water(0.0).total();
    if (std::isfinite(now.thermometer_celsius)) {
        batch there = b;
        there.thermometer_celsius = now.thermometer_celsius;
        there.target_place = "now.thermometer_celsius";
        if (auto fault = find_target_fault(there, path)) return *fault;
        const double real = now.thermometer_celsius - b.thermometer_error_kelvin;
        return now.additions_in ? path.finished_at(real) : path.cooked_at(real);
    }
    // With the additions in, along the path of the cook, so that what they dissolve and flash off is in it.
    const auto along = [&](const char* place, double value, const char* unit,
                           auto&& property) -> outcome<mixture> {
        const double first = property(path.finished_at(path.boils_celsius)),
                     last = property(path.finished_at(path.last_celsius));
        const double t = solve_monotone([&](double c) { return property(path.finished_at(c)) - value; }, 110.0,
                                        path.boils_celsius, path.last_celsius);
        if (std::isfinite(t)) return path.finished_at(t);
        return refusal{
            place, shortest(value) + " cannot be: with the additions in it goes from " + fixed(first, 1) + unit +
                       " where the pan starts to boil to " +
                       (std::isfinite(last) ? fixed(last, 1) + unit : std::string("the end of the scale"))};
    };
    if (std::isfinite(now.grams_left)) {
        if (now.additions_in)
            return along("now.grams_left", now.grams_left, " g", [](const mixture& m) { return m.total(); });
        if (!(now.grams_left > dry && now.grams_left <= all.total() * (1.0 + 1.0e-9)))
            return refusal{"now.grams_left", shortest(now.grams_left) +
                                                 " cannot be: without any water it would be " + fixed(dry, 1) +
                                                 " g, with all of it " + fixed(all.total(), 1) + " g"};
        return all.with_water(std::fmin(now.grams_left - dry, all.water()));
    }
    if (std::isfinite(now.brix)) {
        if (now.additions_in)
            return along("now.brix", now.brix, " Brix", [](const mixture& m) {
                // beyond the scale it only rises: past it by as much as it has no number
                const double brix = brix_of_syrup(m);
                return std::isfinite(brix) ? brix : 100.0 * m.syrup_solids() + 5.0;
            });
        const double water = water_from_reading(all, now.brix, 20.0);
        if (!(water <= all.water() * (1.0 + 1.0e-9)))
            return refusal{"now.brix", shortest(now.brix) + " cannot be: uncooked, the batch reads " +
                                           fixed(brix_of_syrup(all), 1) + " Brix; up to 95 is accepted"};
        return all.with_water(std::fmin(water, all.water()));
    }
    return refusal{"now", "says nothing; one of thermometer_celsius, grams_left and brix is accepted"};
}

/// A mixture as one ingredient.
inline ingredient_line line_of(const mixture& m, const char* name) {
    ingredient_line line;
    line.name = name;
    line.grams = m.total();
    for (std::size_t i = 0; i < component_count; ++i) line.per_gram[i] = m.grams[i] / line.grams;
    line.per_gram[index_of(component::sucrose)] += m.sucrose_crystals / line.grams;
    line.per_gram[index_of(component::lactose)] += m.lactose_crystals / line.grams;
    return line;
}

}  // namespace detail

/// Ways to bring a batch to what is wanted: too dry, so much of each liquid stirred in (before the additions:
/// brought back to the boil, without boiling down); too wet, boil on.  Amounts conserve mass: the new yield is
/// what is there, what is stirred in and the additions, less what they flash off.
inline outcome<rescue_answer> rescue(batch b, const where_now& now, const wanted& w,
                                     const std::vector<std::string>& liquids = {"water", "whole milk",
                                                                                "heavy cream 36 %"}) {
    if (std::isnan(b.thermometer_celsius)) b.thermometer_celsius = 110.0;  // does not count here
    if (auto fault = find_fault(b)) return *fault;
    const auto wanted_band = band_of(w);
    if (!wanted_band) return wanted_band.why;
    const int given =
        std::isfinite(now.thermometer_celsius) + std::isfinite(now.grams_left) + std::isfinite(now.brix);
    if (given > 1)
        return refusal{"now", "says two things; one of thermometer_celsius, grams_left and brix is accepted"};
    if (w.what == measure::stage && now.additions_in)
        return refusal{"wanted.stage",
                       "is that of the pan before the additions, which are in; ask for a set word"};
    const detail::cook_path path(b);
    if (auto fault = detail::find_pan_fault(path)) return *fault;
    const auto contents = detail::contents_now(b, path, now);
    if (!contents) return contents.why;

    rescue_answer a;
    a.now = *contents;
    a.wanted_text = wanted_text(w, b.serve_celsius);
    a.grams_now = a.now.total();
    a.water_percent_now = percent(a.now.water(), a.grams_now);
    const std::vector<ingredient_line> none;
    const auto& additions = now.additions_in ? none : b.off_heat;
    // What is stirred into the pan is boiled with it; into the finished sauce it is not.
    const auto with = [&](const masses& liquid, double grams) {
        const ingredient_line line{"", liquid, grams, 20.0};
        mixture m = a.now;
        m += now.additions_in ? off_the_heat(line) : in_the_pan({line});
        return m;
    };
    const auto finish = [&](const mixture& m) {
        return additions.empty()
                   ? m
                   : mix(m, boiling_celsius(m, b.pressure_pa).value, additions, b.pressure_pa).contents;
    };
    const auto measured_with = [&](const masses& liquid, double grams) {
        const mixture m = with(liquid, grams);
        return measured(w, w.what == measure::stage ? m : finish(m), m, b.serve_celsius);
    };
    a.value_now = measured_with({}, 0.0);
    // A refractometer beyond its scale: too dry to tell.
    const bool off_scale = !std::isfinite(a.value_now);
    a.now_text = off_scale ? std::string("beyond the scale of a refractometer, 95 Brix") : shown(w, a.value_now);
    a.status = grade_of(w, finish(a.now), a.now, b.serve_celsius);
    const bool rises = data_of(w.what).rises;
    a.met = a.value_now >= wanted_band->low && a.value_now <= wanted_band->high;
    a.too_dry = off_scale || (rises ? a.value_now > wanted_band->aim : a.value_now < wanted_band->aim);
    a.reason = "As it is, with " + fixed(a.water_percent_now, 1) +
               " % water in the pan, it would come to: " + a.now_text + ".";
    if (a.met) {
        a.reason += " That is what is wanted: nothing needs to be done.";
        return a;
    }

    if (a.too_dry) {
        std::string unfit;
        for (const auto& name : liquids) {
            if (auto fault = find_text_fault("with", name)) return *fault;
            const auto known = pantry_composition(name);
            if (!known) return refusal{"with", "\"" + name + "\" is not an ingredient of the pantry"};
            // from where on there is a number: at once, or where it comes back onto the refractometer's scale
            double first = 0.0;
            if (off_scale) {
                double beyond = 0.0, known_share = detail::most_added;
                while (known_share - beyond > 1.0e-6) {
                    const double middle = 0.5 * (beyond + known_share);
                    (std::isfinite(measured_with(*known, middle * a.grams_now)) ? known_share : beyond) = middle;
                }
                first = known_share;
            }
            const auto grams_for = [&](double value) {
                const double s = solve_monotone(
                    [&](double share) { return measured_with(*known, share * a.grams_now) - value; },
                    std::fmax(0.03, first), first, detail::most_added);
                return s * a.grams_now;
            };
            rescue_way way;
            way.ingredient = name;
            way.grams = grams_for(wanted_band->aim);
            if (!std::isfinite(way.grams)) {
                unfit += (unfit.empty() ? "" : ", ") + name;
                continue;
            }
            const double dry_edge = rises ? wanted_band->high : wanted_band->low;
            const double wet_edge = rises ? wanted_band->low : wanted_band->high;
            way.grams_low = grams_for(dry_edge);
            way.grams_high = grams_for(wet_edge);
            if (!std::isfinite(way.grams_high)) way.grams_high = detail::most_added * a.grams_now;
            way.value = measured_with(*known, way.grams);
            way.finished = finish(with(*known, way.grams));
            way.finished_grams = way.finished.total();
            way.sentence = "stir in " + fixed(way.grams, way.grams < 50.0 ? 1 : 0) + " g of " + name + " (" +
                           fixed(way.grams_low, way.grams_low < 50.0 ? 1 : 0) + " to " +
                           fixed(way.grams_high, way.grams_high < 50.0 ? 1 : 0) +
                           " g still do): " + fixed(way.finished_grams, 0) + " g in all: " + shown(w, way.value);
            a.ways.push_back(std::move(way));
        }
        if (a.ways.empty())
            return refusal{"with", "cannot be rescued with " + unfit + ": up to " + shortest(detail::most_added) +
                                       " times its mass does not bring it to " + a.wanted_text +
                                       "; try another liquid"};
        return a;
    }
    batch further = b;
    further.pan = {detail::line_of(a.now, "what is in the pan")};
    further.off_heat = additions;
    const auto cooked = cook_for(further, w);
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
                   " g in all: " + shown(w, way.value);
    a.ways.push_back(std::move(way));
    return a;
}

}  // namespace sirop::core
