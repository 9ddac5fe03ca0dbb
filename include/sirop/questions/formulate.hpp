// From a list of ingredients and what is wanted of the dish to grams and a cook temperature.  Needs Eigen.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "../base/least_squares.hpp"
#include "formulation.hpp"

namespace sirop::core {

struct formulation_answer {
    batch plan;  ///< with its grams and its temperature
    bool low_is_the_boil = false, high_is_the_model = false;
    double low_celsius = not_a_number, high_celsius = not_a_number;  ///< window for the first set, if there is one
    finished_measures measures;
    mixture cooked, finished;
    std::vector<target_result> targets;
    std::vector<std::string> at_bounds;  ///< which lines ended at a bound
    std::string reason;
};

inline constexpr int formulation_starts = 5, formulation_reweights = 3;

namespace detail {

/// How far a sugar is from a risk that is accepted at a temperature: 0 where it is, continuous, about 1 where it
/// is clearly not.  The ways out are those of graining_of, each with a little to spare for rounding; the dear one,
/// the supersaturation, last.
inline double graining_gap(const mixture& m, const grainer& sugar, double celsius, graining_risk most) {
    if (most == graining_risk::high || (!sugar.at_once && most == graining_risk::moderate) || !(m[sugar.id] > 0.0))
        return 0.0;
    const double hindering = hindering_share(m, sugar);
    const auto lacks = [&](double enough) { return 20.0 * (enough - hindering + 0.005); };
    double cheap = HUGE_VAL;
    if (most != graining_risk::none) cheap = 0.2 * (celsius + 1.0 - glass_celsius(m));
    if (sugar.hindered_by != hinders_not && most != graining_risk::none)
        cheap = std::fmin(cheap,
                          lacks(most == graining_risk::low && sugar.at_once ? hindering_enough : hindering_some));
    if (cheap <= 0.0) return 0.0;
    const double beyond = supersaturation_value(m, sugar, judged_celsius(sugar, celsius));
    const auto above = [&](double limit) { return 10.0 * (beyond - limit + 0.01); };
    const double wet =
        most == graining_risk::none ? above(1.0)
        : most == graining_risk::low
            ? std::fmin(above(sugar.low_limit), std::fmax(above(sugar.high_limit), lacks(hindering_some)))
            : above(sugar.high_limit);
    return std::fmax(0.0, std::fmin(cheap, wet));
}

/// A batch at one point of the search.
struct formula_point {
    double celsius = not_a_number;  ///< real
    mixture cooked, finished;
    Eigen::VectorXd residuals;
};

/// Grams of the free lines, in units of their own, and the dryness: 0 where the pan starts to boil, 1 at the end
/// of the model.
class formula_search {
  public:
    explicit formula_search(const formulation& q) : q_(q), plan_(q.kitchen) {
        const auto take = [&](const std::vector<formula_line>& lines, batch_list list) {
            auto& out = lines_of(plan_, list);
            out.clear();
            for (std::size_t i = 0; i < lines.size(); ++i) {
                out.push_back(lines[i].line);
                if (lines[i].is_free) free_.push_back({{list, i}, &lines[i], 1.0});
            }
        };
        take(q.pan, batch_list::pan);
        take(q.off_heat, batch_list::off_heat);
        double total = 0.0;
        for (const auto* lines : {&plan_.pan, &plan_.off_heat})
            for (const auto& line : *lines) total += line.grams;
        const auto n = static_cast<Eigen::Index>(free_.size());
        low_ = high_ = guess_ = Eigen::VectorXd::Zero(n + 1);
        for (Eigen::Index i = 0; i < n; ++i) {
            auto& f = free_[static_cast<std::size_t>(i)];
            f.unit = std::fmax(f.line->line.grams, 0.01 * total);
            low_[i] = f.line->at_least_grams / f.unit;
            high_[i] = std::fmin(f.line->at_most_grams, 1.0e3 * total) / f.unit;
            guess_[i] = std::fmin(std::fmax(f.line->line.grams / f.unit, low_[i]), high_[i]);
        }
        high_[n] = 1.0;
        guess_[n] = not_a_number;
        for (const auto& w : q.sets) bands_.push_back(*band_of(w));
    }

    struct free_line {
        line_place place;
        const formula_line* line;
        double unit;
    };
    const std::vector<free_line>& free_lines() const { return free_; }
    Eigen::Index grams_count() const { return static_cast<Eigen::Index>(free_.size()); }
    const Eigen::VectorXd& guess() const { return guess_; }

    batch plan_at(const Eigen::VectorXd& x) const {
        batch b = plan_;
        for (Eigen::Index i = 0; i < grams_count(); ++i) {
            const auto& f = free_[static_cast<std::size_t>(i)];
            // a bound is met exactly
            lines_of(b, f.place.list)[f.place.index].grams =
                x[i] == low_[i] ? f.line->at_least_grams : std::fmin(x[i] * f.unit, f.line->at_most_grams);
        }
        return b;
    }

    /// A start: the free grams times some factors, the temperature from the first set, or else from the kitchen.
    Eigen::VectorXd start(int number) const {
        constexpr std::array<int, 8> bases = {2, 3, 5, 7, 11, 13, 17, 19};
        Eigen::VectorXd x = guess_;
        for (Eigen::Index i = 0; i < grams_count(); ++i) {
            double share = 0.0, digit = 1.0;  // van der Corput
            const int base = bases[static_cast<std::size_t>(i) % bases.size()];
            for (int k = number; k > 0; k /= base) share += (digit /= base) * (k % base);
            const double factor = number == 0 ? 1.0 : std::pow(4.0, 2.0 * share - 1.0);
            x[i] = std::fmin(std::fmax(x[i] * factor, low_[i]), high_[i]);
        }
        const batch b = plan_at(x);
        const cook_path path(b);
        double dryness = 0.1;
        if (!find_pan_fault(path)) {
            double celsius =
                number == 0 ? q_.kitchen.thermometer_celsius - q_.kitchen.thermometer_error_kelvin : not_a_number;
            if (!std::isfinite(celsius) && !q_.sets.empty()) {
                const auto& band = bands_.front();
                celsius = path.celsius_for(q_.sets.front(), band.aim, 110.0, path.last_for(q_.sets.front()));
            }
            if (std::isfinite(celsius))
                dryness = (celsius - path.boils_celsius) / (path.last_celsius - path.boils_celsius);
        }
        x[grams_count()] = std::fmin(std::fmax(dryness, 0.0), 1.0);
        return x;
    }

    /// The batch at a point, its residuals weighted; nothing where there is no such batch.
    std::optional<formula_point> at(const Eigen::VectorXd& x, const Eigen::VectorXd& origin,
                                    const std::vector<double>& weights) const {
        const batch b = plan_at(x);
        const cook_path path(b);
        if (find_pan_fault(path)) return std::nullopt;
        formula_point p;
        p.celsius = path.boils_celsius + x[grams_count()] * (path.last_celsius - path.boils_celsius);
        p.cooked = path.cooked_at(p.celsius);
        p.finished = mix(p.cooked, p.celsius, b.off_heat, b.pressure_pa).contents;
        std::vector<double> r;
        std::size_t target = 0;
        const auto add = [&](double residual) { r.push_back(weights[target] * residual); };
        for (std::size_t i = 0; i < q_.sets.size(); ++i, ++target) {
            const auto& w = q_.sets[i];
            const auto& band = bands_[i];
            const double half = 0.5 * (band.high - band.low);
            const double off = (measured(w, p.finished, p.cooked, b.serve_celsius) - band.aim) / half;
            const bool is_word = w.what == measure::set_word || w.what == measure::stage;
            // anywhere in a word will do, a little inside its ends
            const double past = std::fabs(off) - 0.9;
            add(is_word ? std::copysign(past > 0.0 ? 10.0 * past : 0.0, off) + 0.01 * off : off);
        }
        const auto number = [&](const std::optional<number_target>& t, double value) {
            if (!t) return;
            add((value - t->value) / t->within);
            ++target;
        };
        number(q_.sweetness_percent, sweetness_percent(p.finished).value);
        number(q_.fat_percent, percent(p.finished.fat(), p.finished.total()));
        if (q_.graining_at_most) {
            const auto judge = [&](double celsius) {
                const mixture cold = at_temperature(p.finished, celsius);
                for (const auto& sugar : grainers) add(graining_gap(cold, sugar, celsius, *q_.graining_at_most));
            };
            judge(b.stored_celsius());
            if (b.serve_celsius != b.stored_celsius()) judge(b.serve_celsius);
            ++target;
        }
        if (q_.water_activity_at_most) {
            const double store = b.stored_celsius();
            const double aw =
                measured(wanted_number(measure::water_activity, 0.5, store), p.finished, p.cooked, store);
            add(100.0 * std::fmax(0.0, aw - *q_.water_activity_at_most + 0.0005));
            ++target;
        }
        if (q_.yield) {
            add(100.0 / q_.yield->within_percent * (yielded(*q_.yield, b, p.finished) / q_.yield->amount - 1.0));
            ++target;
        }
        for (Eigen::Index i = 0; i < x.size(); ++i) r.push_back(pull * (x[i] - origin[i]));
        p.residuals = Eigen::Map<const Eigen::VectorXd>(r.data(), static_cast<Eigen::Index>(r.size()));
        if (!p.residuals.allFinite()) return std::nullopt;
        return p;
    }

    /// From x downhill between the bounds; the grams stay if the temperature alone is free.
    void descend(Eigen::VectorXd& x, const Eigen::VectorXd& origin, const std::vector<double>& weights,
                 bool temperature_only = false) const {
        const Eigen::Index n = x.size();
        Eigen::VectorXd low = low_, high = high_;
        if (temperature_only) low.head(n - 1) = high.head(n - 1) = x.head(n - 1);
        const auto residuals = [&](const Eigen::VectorXd& point) -> std::optional<Eigen::VectorXd> {
            auto p = at(point, origin, weights);
            if (!p) return std::nullopt;
            return std::move(p->residuals);
        };
        const auto slopes = [&](const Eigen::VectorXd& point, const Eigen::VectorXd& here) {
            Eigen::MatrixXd j = Eigen::MatrixXd::Zero(here.size(), n);
            for (Eigen::Index i = temperature_only ? n - 1 : 0; i < n; ++i) {
                double h = i + 1 == n ? 1.0e-5 : 1.0e-5 * std::fmax(point[i], 0.1);
                if (point[i] + h > high[i]) h = -h;
                for (const double step : {h, -h}) {
                    Eigen::VectorXd aside = point;
                    aside[i] += step;
                    if (aside[i] < low[i] || aside[i] > high[i]) continue;
                    const auto there = residuals(aside);
                    if (!there) continue;
                    j.col(i) = (*there - here) / step;
                    break;
                }
            }
            return j;
        };
        // once the targets are met, the pull alone is not worth many more steps
        const auto worth = [&](const Eigen::VectorXd& here) {
            return here.head(here.size() - n).cwiseAbs().maxCoeff() < 0.1 ? 1.0e-2 : 1.0e-6;
        };
        core::descend(x, low, high, residuals, slopes, worth);
    }

    /// Which free lines, and the cook, lie at a bound.
    std::vector<std::string> bounds_at(const Eigen::VectorXd& x) const {
        std::vector<std::string> text;
        const auto near_by = [](double a, double b) {
            return std::fabs(a - b) <= 1.0e-6 * std::fmax(1.0, std::fabs(b));
        };
        for (Eigen::Index i = 0; i < grams_count(); ++i) {
            const auto& f = free_[static_cast<std::size_t>(i)];
            const std::string name = f.place.text() + ", " + f.line->line.name + ", is at its ";
            if (near_by(x[i], high_[i]))
                text.push_back(name + "most, " + grams_text(f.line->at_most_grams));
            else if (near_by(x[i], low_[i]))
                text.push_back(name + "least, " + grams_text(f.line->at_least_grams));
        }
        const double dryness = x[grams_count()];
        if (near_by(dryness, 0.0)) text.emplace_back("the pan is cooked no further than to the boil");
        if (near_by(dryness, 1.0)) text.emplace_back("the pan is cooked to the end of the model (99.5 % solids)");
        return text;
    }

    /// Grams rounded as a cook weighs them, kept between their bounds, at a fineness: 0 is 1 g above 50 g and 0.1
    /// g below, each more is ten times finer.
    Eigen::VectorXd rounded(Eigen::VectorXd x, int fineness) const {
        for (Eigen::Index i = 0; i < grams_count(); ++i) {
            const auto& f = free_[static_cast<std::size_t>(i)];
            const double grams = x[i] * f.unit;
            const double per_gram = (grams >= 50.0 ? 1.0 : 10.0) * std::pow(10.0, fineness);
            x[i] = std::fmin(std::fmax(std::round(grams * per_gram) / per_gram / f.unit, low_[i]), high_[i]);
        }
        return x;
    }

    static constexpr double pull = 1.0e-3;  ///< towards the start, against a target off by half its band

  private:
    const formulation& q_;
    batch plan_;
    std::vector<free_line> free_;
    std::vector<band> bands_;
    Eigen::VectorXd low_, high_, guess_;
};

}  // namespace detail

/// Grams of the free lines and the cook temperature that meet what is wanted.  Method: Levenberg-Marquardt with
/// bounded steps, from a few starts; a compromise that misses is tried again with more weight on what it misses.
/// Then the grams are rounded, the temperature is fitted to them, and everything told is computed from what is
/// printed.  Refused, with the worst target and the bounds that bind, if nothing found meets all.
inline outcome<formulation_answer> formulate(const formulation& q) {
    if (auto fault = detail::find_formulation_fault(q)) return *fault;
    const detail::formula_search search(q);
    const auto judged = [&](const Eigen::VectorXd& x, const std::vector<double>& weights) {
        const auto p = search.at(x, x, weights);
        return p ? detail::judged(q, search.plan_at(x), p->cooked, p->finished) : std::vector<target_result>{};
    };
    constexpr std::size_t most_targets = most_sets + 5;
    std::vector<double> weights(most_targets, 1.0);
    Eigen::VectorXd best, origin;
    std::vector<target_result> found;
    const auto keep_if_better = [&](const Eigen::VectorXd& x, const Eigen::VectorXd& from) {
        auto targets = judged(x, weights);
        if (targets.empty()) return;
        if (!found.empty() && !(detail::worst_off(targets) < detail::worst_off(found))) return;
        best = x;
        origin = from;
        found = std::move(targets);
    };
    for (int i = 0; i < formulation_starts && (found.empty() || !detail::all_met(found)); ++i) {
        const Eigen::VectorXd from = search.start(i);
        Eigen::VectorXd x = from;
        search.descend(x, from, weights);
        keep_if_better(x, from);
        if (search.grams_count() == 0 && !found.empty()) break;
    }
    if (found.empty()) {
        const batch b = search.plan_at(search.start(0));
        const cook_path path(b);
        if (auto fault = find_pan_fault(path)) return *fault;
        return refusal{"pan",
                       "gives no batch that the model can answer; change the grams where the search starts"};
    }
    for (int i = 0; i < formulation_reweights && !detail::all_met(found); ++i) {
        for (std::size_t t = 0; t < found.size(); ++t)
            if (!found[t].met) weights[t] *= 3.0;
        Eigen::VectorXd x = best;
        search.descend(x, origin, weights);
        keep_if_better(x, origin);
    }

    const auto missed = [&](const std::vector<target_result>& targets, const Eigen::VectorXd& x) {
        const target_result* worst = nullptr;
        std::string others;
        for (const auto& t : targets)
            if (!t.met && (worst == nullptr || t.off > worst->off)) worst = &t;
        for (const auto& t : targets)
            if (!t.met && &t != worst) others += (others.empty() ? "; also missed: " : ", ") + t.wanted_text;
        const auto bounds = search.bounds_at(x);
        std::string binding;
        for (const auto& text : bounds) binding += "; " + text;
        return refusal{"wanted." + worst->name,
                       "cannot be done because " + worst->wanted_text + " is not met: the nearest found is " +
                           worst->value_text + others + binding +
                           (bounds.empty() ? "; free another ingredient, or accept a wider band"
                                           : "; move a bound, free another ingredient, or accept a wider band")};
    };
    if (!detail::all_met(found)) return missed(found, best);

    // Round as coarsely as still meets everything.
    formulation_answer a;
    for (int fineness = 0; fineness <= 4; ++fineness) {
        const bool last = fineness == 4;
        Eigen::VectorXd x = last ? best : search.rounded(best, fineness);
        if (!last) search.descend(x, x, weights, true);
        const auto p = search.at(x, x, weights);
        if (!p) continue;
        a.plan = search.plan_at(x);
        const cook_path path(a.plan);
        const double per_kelvin = 10.0 * std::pow(10.0, fineness);
        const double error = q.kitchen.thermometer_error_kelvin;
        double reading = p->celsius + error;
        if (!last) {
            reading = std::round(reading * per_kelvin) / per_kelvin;
            if (reading - error < path.boils_celsius)
                reading = std::ceil((path.boils_celsius + error) * per_kelvin) / per_kelvin;
            if (reading - error > path.last_celsius)
                reading = std::floor((path.last_celsius + error) * per_kelvin) / per_kelvin;
        }
        a.plan.thermometer_celsius = reading;
        a.cooked = path.cooked_at(reading - error);
        a.finished = mix(a.cooked, reading - error, a.plan.off_heat, a.plan.pressure_pa).contents;
        a.targets = detail::judged(q, a.plan, a.cooked, a.finished);
        a.at_bounds = search.bounds_at(x);
        if (detail::all_met(a.targets)) break;
    }
    if (!detail::all_met(a.targets)) return missed(a.targets, best);
    a.measures = measures_of(a.plan, a.finished);
    if (!q.sets.empty())
        if (const auto window = cook_for(a.plan, q.sets.front())) {
            a.low_celsius = window->low_celsius;
            a.high_celsius = window->high_celsius;
            a.low_is_the_boil = window->low_is_the_boil;
            a.high_is_the_model = window->high_is_the_model;
        }
    a.reason = "Cooked to " + both_scales(a.plan.thermometer_celsius) + " it has ";
    for (std::size_t i = 0; i < a.targets.size(); ++i)
        a.reason += (i == 0 ? "" : "; ") + a.targets[i].value_text + " (wanted: " + a.targets[i].wanted_text + ")";
    a.reason += ".";
    return a;
}

}  // namespace sirop::core
