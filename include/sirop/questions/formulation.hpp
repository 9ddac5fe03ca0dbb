// What may be asked of a formula: which lines are free and what is wanted, whether that can be asked, and whether
// a batch meets it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan.hpp"

namespace sirop::core {

/// A line of the list.  Its grams are kept exactly, or, if it is free, where the search starts; it ends near them
/// where the targets leave a choice.
struct formula_line {
    ingredient_line line;
    bool is_free = false;
    double at_least_grams = 0.0, at_most_grams = HUGE_VAL;  ///< of a free line
};

struct number_target {
    double value = not_a_number;
    double within = not_a_number;  ///< half the band
};

enum class yield_unit : unsigned char { grams, millilitres };  ///< millilitres at the serving temperature

struct yield_target {
    double amount = not_a_number;
    yield_unit unit = yield_unit::grams;
    double within_percent = 2.0;  ///< half the band, of the amount
};

inline yield_target portions_of(double portions, double grams_per_portion, double within_percent = 2.0) {
    return {portions * grams_per_portion, yield_unit::grams, within_percent};
}

struct formulation {
    batch kitchen;  ///< pressure, thermometer, serve, pour and store; its lines do not count, and its temperature
                    ///< is where the search starts, if there is one
    std::vector<formula_line> pan, off_heat;
    std::vector<wanted>
        sets;  ///< up to 2: a word, a firmness, or another measure; the window is that of the first
    std::optional<number_target> sweetness_percent, fat_percent;
    std::optional<graining_risk> graining_at_most;  ///< at serving and in storage
    std::optional<double> water_activity_at_most;   ///< in storage
    std::optional<yield_target> yield;
};

struct target_result {
    std::string name;         ///< as questions write it
    std::string wanted_text;  ///< in words
    std::string value_text;
    double value = not_a_number, low = not_a_number, high = not_a_number;  ///< its band; viscosities as log10
    bool met = false;
    double off = not_a_number;  ///< from the middle, in half bands; of "at most", from the limit, 0 below it
};

inline constexpr std::size_t most_sets = 2;

namespace detail {

/// What is wrong with the question, if anything.
inline std::optional<refusal> find_formulation_fault(const formulation& q) {
    batch b = q.kitchen;
    for (const auto list : {batch_list::pan, batch_list::off_heat}) {
        const auto& lines = list == batch_list::pan ? q.pan : q.off_heat;
        lines_of(b, list).clear();
        for (std::size_t i = 0; i < lines.size(); ++i) {
            const auto& l = lines[i];
            lines_of(b, list).push_back(l.line);
            if (!l.is_free) continue;
            if (auto fault = find_grams_range_fault(line_place{list, i}.text(), l.at_least_grams, l.at_most_grams))
                return fault;
        }
    }
    if (std::isnan(b.thermometer_celsius)) b.thermometer_celsius = 110.0;  // it is what is asked
    if (auto fault = find_fault(b)) return fault;
    if (q.sets.size() > most_sets)
        return refusal{"sets", std::to_string(q.sets.size()) + " are given; up to " + std::to_string(most_sets) +
                                   " are accepted"};
    for (std::size_t i = 0; i < q.sets.size(); ++i)
        if (auto known = band_of(q.sets[i]); !known) {
            known.why.place.replace(0, std::string_view("wanted").size(), "sets[" + std::to_string(i) + "]");
            return known.why;
        }
    for (const auto* t : {&q.sweetness_percent, &q.fat_percent}) {
        if (!*t) continue;
        const std::string place = t == &q.fat_percent ? "fat_percent" : "sweetness_percent";
        if (!((*t)->value >= 0.0 && (*t)->value <= 200.0)) return outside(place, (*t)->value, "0 to 200 %");
        if (!((*t)->within > 0.0 && (*t)->within <= 100.0))
            return outside(place + ".within", (*t)->within, "above 0 to 100");
    }
    if (q.water_activity_at_most && !(*q.water_activity_at_most > 0.0 && *q.water_activity_at_most <= 1.0))
        return outside("water_activity_at_most", *q.water_activity_at_most, "above 0 to 1");
    if (q.yield && !(q.yield->amount > 0.0 && q.yield->amount <= grams_limit.high))
        return outside("yield", q.yield->amount, "above 0 to 1e9");
    if (q.yield && !(q.yield->within_percent > 0.0 && q.yield->within_percent <= 100.0))
        return outside("yield.within_percent", q.yield->within_percent, "above 0 to 100 %");
    if (q.sets.empty() && !q.sweetness_percent && !q.fat_percent && !q.graining_at_most &&
        !q.water_activity_at_most && !q.yield)
        return refusal{"wanted",
                       "names nothing; a set, sweetness, fat, graining, water activity or yield is accepted"};
    return std::nullopt;
}

/// What a batch yields, in the unit asked.
inline double yielded(const yield_target& wanted, const batch& b, const mixture& finished) {
    return wanted.unit == yield_unit::grams ? finished.total() : volume(finished, b.serve_celsius);
}

/// Every target of a batch that has been cooked.
inline std::vector<target_result> judged(const formulation& q, const batch& b, const mixture& cooked,
                                         const mixture& finished) {
    std::vector<target_result> all;
    const auto push = [&](target_result t, double middle, double half) {
        t.met = t.value >= t.low && t.value <= t.high;
        t.off = std::fabs(t.value - middle) / half;
        all.push_back(std::move(t));
    };
    for (std::size_t i = 0; i < q.sets.size(); ++i) {
        const auto& w = q.sets[i];
        const band in = *band_of(w);
        const double v = measured(w, finished, cooked, b.serve_celsius);
        push({std::string(data_of(w.what).name), wanted_text(w, b.serve_celsius), shown(w, v), v, in.low, in.high},
             in.aim, 0.5 * (in.high - in.low));
    }
    const auto number = [&](const char* name, const char* what, const std::optional<number_target>& t,
                            double value) {
        if (t)
            push({name, std::string(what) + " of " + fixed(t->value, 1) + " % within " + shortest(t->within),
                  fixed(value, 1) + " %", value, t->value - t->within, t->value + t->within},
                 t->value, t->within);
    };
    const auto f = measures_of(b, finished);
    number("sweetness_percent", "sweetness", q.sweetness_percent, f.sweetness_percent);
    number("fat_percent", "fat", q.fat_percent, f.fat_percent);
    const auto at_most = [&](const char* name, std::string text, std::string shown_value, double value,
                             double limit, double unit) {
        push({name, std::move(text), std::move(shown_value), value, 0.0, limit}, std::fmin(value, limit), unit);
    };
    if (q.graining_at_most)
        at_most("graining_at_most", "a risk of graining of at most " + risk_name(*q.graining_at_most),
                risk_name(f.risk), static_cast<double>(f.risk), static_cast<double>(*q.graining_at_most), 0.5);
    if (q.water_activity_at_most)
        at_most("water_activity_at_most",
                "a water activity of at most " + shortest(*q.water_activity_at_most) + " at " +
                    both_scales(b.stored_celsius(), 0),
                fixed(f.water_activity, 3), f.water_activity, *q.water_activity_at_most, 0.01);
    if (q.yield) {
        const bool grams = q.yield->unit == yield_unit::grams;
        const double half = 0.01 * q.yield->within_percent * q.yield->amount;
        const double v = yielded(*q.yield, b, finished);
        push({grams ? "yield_grams" : "yield_millilitres",
              "a yield of " + fixed(q.yield->amount, 0) + (grams ? " g" : " ml") + " within " +
                  shortest(q.yield->within_percent) + " %",
              fixed(v, 0) + (grams ? " g" : " ml"), v, q.yield->amount - half, q.yield->amount + half},
             q.yield->amount, half);
    }
    return all;
}

inline bool all_met(const std::vector<target_result>& targets) {
    for (const auto& t : targets)
        if (!t.met) return false;
    return true;
}
inline double worst_off(const std::vector<target_result>& targets) {
    double worst = 0.0;
    for (const auto& t : targets)
        if (!t.met) worst = std::fmax(worst, t.off);
    return worst;
}

}  // namespace detail

}  // namespace sirop::core
