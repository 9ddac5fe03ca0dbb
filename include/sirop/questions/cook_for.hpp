// To which temperature must it be cooked, to be what is wanted?  And how far may one miss it.
#pragma once

#include <cmath>
#include <optional>
#include <string>

#include "cook_path.hpp"

namespace sirop::core {

/// A cook temperature, the window around it, and the batch that it gives.
struct cook_answer {
    double thermometer_celsius = not_a_number;  ///< what the cook's thermometer is to show
    double low_celsius = not_a_number;          ///< window that still gives it, on the same thermometer
    double high_celsius = not_a_number;
    bool low_is_the_boil = false;    ///< the window ends where the pan starts to boil,
    bool high_is_the_model = false;  ///< or where the model does
    double value = not_a_number;     ///< the measure there (viscosities as log10)
    double value_one_kelvin_low = not_a_number,
           value_one_kelvin_high = not_a_number;  ///< if the thermometer is off
    std::string wanted_text, reason;
    mixture cooked, finished;
    double finished_grams = not_a_number;
    grade status = grade::fine;
};

namespace detail {

/// A question to a path, and the ends between which it can be answered.
struct cook_search {
    const cook_path& path;
    const wanted& want;
    band accepted;            ///< its band
    double last;              ///< where the measure still has a value, C
    double at_boil, at_last;  ///< the measure at both ends
    std::string text;         ///< what is wanted

    cook_search(const cook_path& p, const wanted& w, const band& b)
        : path(p),
          want(w),
          accepted(b),
          last(p.last_for(w)),
          at_boil(p.measured_at(w, p.boils_celsius)),
          at_last(p.measured_at(w, last)),
          text(wanted_text(w, p.plan.serve_celsius)) {}

    double reading(double real) const { return real + path.plan.thermometer_error_kelvin; }
    std::string shown_at(double real) const { return both_scales(reading(real)); }
    double celsius_for(double value, double guess) const { return path.celsius_for(want, value, guess, last); }
    double kept_inside(double real) const { return std::fmin(std::fmax(real, path.boils_celsius), last); }

    /// Why it cannot be had anywhere on the path, if so.
    std::optional<refusal> fault() const {
        if (want.what == measure::water_activity && !drier(want, want.value, at_boil) &&
            at_temperature(path.finished_at(path.boils_celsius), wanted_celsius(want, path.plan.serve_celsius))
                    .ice > 0.0)
            return refusal{"wanted", text +
                                         " cannot be had: there is ice at that temperature, which fixes it at " +
                                         fixed(at_boil, 3) + " or less; ask for it at 0 °C or above"};
        if (!std::isfinite(at_boil))
            return refusal{"wanted",
                           text +
                               " cannot be told: as it starts to boil, the batch is already beyond the scale "
                               "of a refractometer, 95 Brix; put more water in the pan"};
        if (drier(want, at_boil, dry_edge(want, accepted)))
            return refusal{"wanted", text + " cannot be had by boiling down: where the pan starts to boil, at " +
                                         shown_at(path.boils_celsius) + ", it is already past it (" +
                                         shown(want, at_boil) + "); put more water in the pan"};
        if (!drier(want, at_last, wet_edge(want, accepted)))
            return refusal{"wanted",
                           text +
                               (last < path.last_celsius ? " cannot be had: at the end of the scale (95 Brix), "
                                                         : " cannot be had: at the end of the model (99.5 % "
                                                           "solids), ") +
                               shown_at(last) + ", it has only " + shown(want, at_last) +
                               "; change the ingredients, such as less of what is added off the heat"};
        return std::nullopt;
    }

    /// The window and the temperature in it.  A number is aimed at; of a word or a stage, the middle of what the
    /// cook can reach.  No answer is given that was not found again.
    outcome<cook_answer> answer() const {
        double low = celsius_for(wet_edge(want, accepted), 115.0);
        double high = celsius_for(dry_edge(want, accepted), 115.0);
        cook_answer a;
        a.low_is_the_boil = !std::isfinite(low);
        a.high_is_the_model = !std::isfinite(high);
        if (a.low_is_the_boil) low = path.boils_celsius;
        if (a.high_is_the_model) high = last;
        const bool named = want.what == measure::stage || want.what == measure::set_word;
        double t = named ? 0.5 * (low + high) : celsius_for(accepted.aim, 0.5 * (low + high));
        if (!std::isfinite(t)) t = drier(want, at_boil, accepted.aim) ? path.boils_celsius : last;
        a.value = path.measured_at(want, t);
        if (!(a.value >= accepted.low - 1.0e-6 && a.value <= accepted.high + 1.0e-6))
            return refusal{"wanted",
                           text +
                               " cannot be told: the pan holds so little that is dissolved that its boiling point "
                               "hardly moves; put more sugar in the pan"};
        a.thermometer_celsius = reading(t);
        a.low_celsius = reading(low);
        a.high_celsius = reading(high);
        a.value_one_kelvin_low = path.measured_at(want, kept_inside(t - 1.0));
        a.value_one_kelvin_high = path.measured_at(want, kept_inside(t + 1.0));
        a.wanted_text = text;
        a.cooked = path.cooked_at(t);
        a.finished = path.finished_at(t);
        a.finished_grams = a.finished.total();
        a.status = grade_of(want, a.finished, a.cooked, path.plan.serve_celsius);
        const bool as_cooked = path.plan.off_heat.empty() || want.what == measure::stage;
        a.reason = "Steam at this pressure leaves the pan " +
                   fixed(percent(a.cooked.water(), a.cooked.total()), 1) + " % water at " + shown_at(t) +
                   (as_cooked ? ": " : "; with the additions that gives: ") + shown(want, a.value) + ".";
        return a;
    }
};

}  // namespace detail

/// The cook temperature for a wanted property of the finished batch, by the best estimate.  The target of the
/// batch does not count.  Refused, with the reason that binds: the batch has it only wetter than its pan, or only
/// drier than the model goes.
inline outcome<cook_answer> cook_for(batch b, const wanted& w) {
    if (std::isnan(b.thermometer_celsius)) b.thermometer_celsius = 110.0;  // any: it is what is asked
    if (auto fault = find_fault(b)) return *fault;
    const auto accepted = band_of(w);
    if (!accepted) return accepted.why;
    const cook_path path(b);
    if (auto fault = find_pan_fault(path)) return *fault;
    const detail::cook_search search(path, w, *accepted);
    if (auto fault = search.fault()) return *fault;
    return search.answer();
}

}  // namespace sirop::core
