// To which temperature must it be cooked, to be what is wanted?  And how far may one miss it.
#pragma once

#include "target.hpp"

namespace sirop::core {

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

/// Whether the measure of a batch lies inside what its models were fitted in.
inline grade grade_of(const wanted& w, const mixture& finished, const mixture& cooked, double serve_celsius) {
    const double celsius = std::isnan(w.celsius) ? serve_celsius : w.celsius;
    switch (w.what) {
        case measure::water_activity:
            return activity_of(finished, celsius).status;
        case measure::viscosity_pa_s:
            return log10_viscosity(at_temperature(finished, celsius), celsius).status;
        case measure::firmness_pa_s:
        case measure::set_word:
            return log10_firmness(at_temperature(finished, celsius), celsius).status;
        case measure::stage:
            return log10_firmness(cooked, cold_water_celsius).status;
        default:
            return finished.syrup_solids() <= 0.97 ? grade::fine : grade::extrapolated;
    }
}

namespace detail {

/// What a batch is, against the real temperature to which its pan is cooked.
struct cook_path {
    const batch& plan;
    mixture pan;
    double boils_celsius, last_celsius;

    explicit cook_path(const batch& b)
        : plan(b),
          pan(in_the_pan(b.pan)),
          boils_celsius(boiling_celsius(pan, b.pressure_pa, curve::best)),
          last_celsius(highest_answer_celsius(pan, b.pressure_pa)) {}

    mixture cooked_at(double celsius) const {
        // at its own boiling point it holds all its water, but for rounding
        const double held =
            water_held(pan, ln_activity_at_boil(celsius, plan.pressure_pa), celsius + formula::zero_celsius);
        return pan.with_water(celsius <= boils_celsius ? pan.water() : std::fmin(held, pan.water()));
    }
    mixture finished_at(double celsius) const {
        return mix(cooked_at(celsius), celsius, plan.off_heat, plan.pressure_pa).contents;
    }
    double measured_at(const wanted& w, double celsius) const {
        const mixture cooked = cooked_at(celsius);
        const mixture finished =
            w.what == measure::stage ? cooked : mix(cooked, celsius, plan.off_heat, plan.pressure_pa).contents;
        return measured(w, finished, cooked, plan.serve_celsius);
    }
    /// The last temperature at which the measure has a value: the end of the path, or of the refractometer's
    /// scale.
    double last_for(const wanted& w) const {
        if (std::isfinite(measured_at(w, last_celsius))) return last_celsius;
        double known = boils_celsius, beyond = last_celsius;
        for (int i = 0; i < 60 && beyond - known > 1.0e-9; ++i) {
            const double middle = 0.5 * (known + beyond);
            (std::isfinite(measured_at(w, middle)) ? known : beyond) = middle;
        }
        return known;
    }
    /// Where the measure takes a value, up to a last temperature: monotone.  NaN where it does not on this path.
    double celsius_for(const wanted& w, double value, double guess, double last) const {
        return solve_monotone([&](double t) { return measured_at(w, t) - value; },
                              std::fmin(std::fmax(guess, boils_celsius), last), boils_celsius, last);
    }
};

/// A pan that can be boiled down at all, or why not.
inline std::optional<refusal> find_pan_fault(const cook_path& path) {
    if (!(path.pan.water() > 0.0))
        return refusal{"pan", "holds no water, so it cannot be boiled down; add water or a syrup"};
    if (!(path.pan.dissolved() > 0.0))
        return refusal{"pan",
                       "holds nothing dissolved, so its boiling point is that of water; add sugar or a syrup"};
    if (!std::isfinite(path.boils_celsius) || !(path.boils_celsius < path.last_celsius))
        return refusal{"pan", "is drier than the model goes (99.5 % solids of the syrup phase); add water"};
    return std::nullopt;
}

/// The target of a batch on its pan's path, or why it is not.
inline std::optional<refusal> find_target_fault(const batch& b, const cook_path& path) {
    const double real = b.thermometer_celsius - b.thermometer_error_kelvin;
    if (real >= path.boils_celsius && real <= path.last_celsius) return std::nullopt;
    // inward to the tenth, so that what is said to be accepted is
    const double from = 0.1 * std::ceil(10.0 * (path.boils_celsius + b.thermometer_error_kelvin));
    const double to = 0.1 * std::floor(10.0 * (path.last_celsius + b.thermometer_error_kelvin));
    return refusal{b.target_place, both_scales(b.thermometer_celsius) +
                                       " is not answered for this pan; it boils from " + both_scales(from) +
                                       ", and the model ends at " + both_scales(to)};
}

}  // namespace detail

/// The cook temperature for a wanted property of the finished batch, by the best estimate.  The target of the
/// batch does not count.  Refused, with the reason that binds: the batch has it only wetter than its pan, or only
/// drier than the model goes.
inline outcome<cook_answer> cook_for(batch b, const wanted& w) {
    if (std::isnan(b.thermometer_celsius)) b.thermometer_celsius = 110.0;  // any: it is what is asked
    if (auto fault = find_fault(b)) return *fault;
    const auto band = band_of(w);
    if (!band) return band.why;
    const detail::cook_path path(b);
    if (auto fault = detail::find_pan_fault(path)) return *fault;

    const bool rises = data_of(w.what).rises;
    const double last = path.last_for(w);
    const double at_boil = path.measured_at(w, path.boils_celsius), at_last = path.measured_at(w, last);
    const auto beyond = [&](double x, double limit) { return rises ? x > limit : x < limit; };  // drier than
    const double wet_edge = rises ? band->low : band->high, dry_edge = rises ? band->high : band->low;
    const auto shown_at = [&](double celsius) { return both_scales(celsius + b.thermometer_error_kelvin); };
    const std::string want = wanted_text(w, b.serve_celsius);
    const double wanted_at = std::isnan(w.celsius) ? b.serve_celsius : w.celsius;
    if (w.what == measure::water_activity &&
        at_temperature(path.finished_at(path.boils_celsius), wanted_at).ice > 0.0 && !beyond(w.value, at_boil))
        return refusal{"wanted", want + " cannot be had: there is ice at that temperature, which fixes it at " +
                                     fixed(at_boil, 3) + " or less; ask for it at 0 °C or above"};
    if (!std::isfinite(at_boil))
        return refusal{"wanted",
                       want +
                           " cannot be told: as it starts to boil, the batch is already beyond the scale "
                           "of a refractometer, 95 Brix; put more water in the pan"};
    if (beyond(at_boil, dry_edge))
        return refusal{"wanted", want + " cannot be had by boiling down: where the pan starts to boil, at " +
                                     shown_at(path.boils_celsius) + ", it is already past it (" +
                                     shown(w, at_boil) + "); put more water in the pan"};
    if (!beyond(at_last, wet_edge))
        return refusal{"wanted",
                       want +
                           (last < path.last_celsius ? " cannot be had: at the end of the scale (95 Brix), "
                                                     : " cannot be had: at the end of the model (99.5 % "
                                                       "solids), ") +
                           shown_at(last) + ", it has only " + shown(w, at_last) +
                           "; change the ingredients, such as less of what is added off the heat"};

    cook_answer a;
    a.wanted_text = want;
    double low = path.celsius_for(w, wet_edge, 115.0, last), high = path.celsius_for(w, dry_edge, 115.0, last);
    a.low_is_the_boil = !std::isfinite(low);
    a.high_is_the_model = !std::isfinite(high);
    if (a.low_is_the_boil) low = path.boils_celsius;
    if (a.high_is_the_model) high = last;
    // A number is aimed at; of a word or a stage, the middle of what the cook can reach.
    const bool named = w.what == measure::stage || w.what == measure::set_word;
    double t = named ? 0.5 * (low + high) : path.celsius_for(w, band->aim, 0.5 * (low + high), last);
    if (!std::isfinite(t)) t = beyond(at_boil, band->aim) ? path.boils_celsius : last;
    a.thermometer_celsius = t + b.thermometer_error_kelvin;
    a.low_celsius = low + b.thermometer_error_kelvin;
    a.high_celsius = high + b.thermometer_error_kelvin;
    a.value = path.measured_at(w, t);
    // No answer is given that was not found again.
    if (!(a.value >= band->low - 1.0e-6 && a.value <= band->high + 1.0e-6))
        return refusal{"wanted",
                       want +
                           " cannot be told: the pan holds so little that is dissolved that its boiling point "
                           "hardly moves; put more sugar in the pan"};
    const auto inside = [&](double x) { return std::fmin(std::fmax(x, path.boils_celsius), last); };
    a.value_one_kelvin_low = path.measured_at(w, inside(t - 1.0));
    a.value_one_kelvin_high = path.measured_at(w, inside(t + 1.0));
    a.cooked = path.cooked_at(t);
    a.finished = path.finished_at(t);
    a.finished_grams = a.finished.total();
    a.status = grade_of(w, a.finished, a.cooked, b.serve_celsius);
    a.reason = "Steam at this pressure leaves the pan " + fixed(percent(a.cooked.water(), a.cooked.total()), 1) +
               " % water at " + shown_at(t) +
               (b.off_heat.empty() || w.what == measure::stage ? ": " : "; with the additions that gives: ") +
               shown(w, a.value) + ".";
    return a;
}

}  // namespace sirop::core
