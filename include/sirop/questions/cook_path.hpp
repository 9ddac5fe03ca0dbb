// The path of a batch: what it is at each temperature to which its pan may be boiled down.  The inverse questions
// walk along it.
#pragma once

#include <cmath>
#include <optional>

#include "../cooking/predict.hpp"
#include "target.hpp"

namespace sirop::core {

/// What a batch is, against the real temperature in C to which its pan is cooked: from where it starts to boil to
/// the end of the model.  It speaks of the batch that it was made of, which has to outlive it.
struct cook_path {
    const batch& plan;
    mixture pan;
    additions_of<double> added;
    double boils_celsius, last_celsius;

    explicit cook_path(const batch& b)
        : plan(b),
          pan(in_the_pan(b.pan)),
          added(additions(b.off_heat)),
          boils_celsius(best_boiling_celsius(pan, b.pressure_pa)),
          last_celsius(highest_answer_celsius(pan, b.pressure_pa)) {}

    /// The pan there; at its own boiling point it holds all its water, but for rounding.
    mixture cooked_at(double celsius) const {
        const double held =
            water_held(pan, ln_activity_at_boil(celsius, plan.pressure_pa), celsius + formula::zero_celsius);
        return pan.with_water(celsius <= boils_celsius ? pan.water() : std::fmin(held, pan.water()));
    }
    /// The same with the additions mixed in.
    mixture finished_at(double celsius) const {
        return mix(cooked_at(celsius), celsius, added, plan.pressure_pa).contents;
    }
    /// What is wanted, as it is there (viscosities as log10 of Pa s); NaN where it has no value.
    double measured_at(const wanted& w, double celsius) const {
        const mixture cooked = cooked_at(celsius);
        const mixture finished =
            w.what == measure::stage ? cooked : mix(cooked, celsius, added, plan.pressure_pa).contents;
        return measured(w, finished, cooked, plan.serve_celsius);
    }
    /// The last temperature at which the measure has a value: the end of the path, or of the refractometer's
    /// scale.
    double last_for(const wanted& w) const {
        const auto known = [&](double celsius) { return std::isfinite(measured_at(w, celsius)); };
        return known(last_celsius) ? last_celsius : edge_between(last_celsius, boils_celsius, 1.0e-9, known);
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
    const double real = b.real_celsius();
    if (real >= path.boils_celsius && real <= path.last_celsius) return std::nullopt;
    // inward to the tenth, so that what is said to be accepted is
    const double from = 0.1 * std::ceil(10.0 * (path.boils_celsius + b.thermometer_error_kelvin));
    const double to = 0.1 * std::floor(10.0 * (path.last_celsius + b.thermometer_error_kelvin));
    return refusal{b.target_place, both_scales(b.thermometer_celsius) +
                                       " is not answered for this pan; it boils from " + both_scales(from) +
                                       ", and the model ends at " + both_scales(to)};
}

/// The path of a batch that can be boiled down to its own target, or why it cannot.
inline outcome<cook_path> path_to_target(const batch& b) {
    const cook_path path(b);
    if (auto fault = find_pan_fault(path)) return *fault;
    if (auto fault = find_target_fault(b, path)) return *fault;
    return path;
}

}  // namespace sirop::core
