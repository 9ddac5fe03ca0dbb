// Which input matters: how far the thermometer, the pressure, the scales and the ingredients move the water and
// the set of the finished batch, each by its standard uncertainty.  Linear propagation with exact derivatives
// and Monte Carlo to check it.  Inputs are independent of each other; the uncertainty of the model
// itself is not in it (that is in the intervals of the prediction).
#pragma once

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "cook_for.hpp"
#include "uncertain_inputs.hpp"

namespace sirop::core {

/// What is asked of the finished batch, by its best estimate.
enum class output : unsigned char { water_percent, water_activity, log10_firmness, log10_viscosity };
inline constexpr std::size_t output_count = 4;
using outputs = std::array<double, output_count>;

struct output_data {
    output id;
    std::string_view name, unit, words;
};
inline constexpr std::array<output_data, output_count> output_table = {{
    {output::water_percent, "water_percent", "%", "water"},
    {output::water_activity, "water_activity_at_serving", "1", "water activity"},
    {output::log10_firmness, "log10_firmness", "log10 Pa s", "set, firmness"},
    {output::log10_viscosity, "log10_viscosity", "log10 Pa s", "viscosity"},
}};
constexpr std::size_t index_of(output r) {
    return static_cast<std::size_t>(r);
}

struct input_effect {
    uncertain_input input;
    outputs derivative{};     ///< of each output, per unit of the input
    outputs contribution{};   ///< |derivative| x standard uncertainty
    outputs share_percent{};  ///< of the variance of each output; 0 where nothing moves it
};

struct sensitivity {
    outputs value{};
    outputs standard_uncertainty{};
    std::vector<input_effect> effects;  ///< by falling share of the set (log10_firmness)
    std::vector<std::string> notes;
};

namespace detail {

/// What a batch is made of, on a scalar that carries the slope with one input.
struct sloping_batch {
    mixture_of<dual> pan;
    additions_of<dual> added;
    dual celsius, pressure_pa;
};

/// The slope of each number of a batch with an input.
inline sloping_batch sloping(const batch& b, const uncertain_input& in) {
    sloping_batch s;
    s.celsius = {b.thermometer_celsius - b.thermometer_error_kelvin,
                 in.kind == input_kind::thermometer ? 1.0 : 0.0};
    s.pressure_pa = {b.pressure_pa, in.kind == input_kind::pressure ? 100.0 : 0.0};
    const bool of_a_line = in.kind != input_kind::thermometer && in.kind != input_kind::pressure;
    const auto masses_of = [&](const ingredient_line& line, bool changes) {
        masses by_unit{};
        if (changes) by_unit = line.per_gram;
        if (changes && in.kind != input_kind::weighing) {
            by_unit = shifting(line.per_gram, in.kind);
            for (double& x : by_unit) x *= line.grams;
        }
        mixture_of<dual>::parts grams;
        for (std::size_t i = 0; i < component_count; ++i) grams[i] = {line.grams * line.per_gram[i], by_unit[i]};
        return grams;
    };
    for (std::size_t i = 0; i < b.pan.size(); ++i) {
        const auto grams = masses_of(b.pan[i], of_a_line && !in.off_heat && in.line == i);
        for (std::size_t k = 0; k < component_count; ++k)
            if (!components[k].leaves_in_the_boil) s.pan.grams[k] += grams[k];
    }
    for (std::size_t i = 0; i < b.off_heat.size(); ++i) {
        const auto& line = b.off_heat[i];
        s.added.add(
            as_it_arrives(masses_of(line, of_a_line && in.off_heat && in.line == i), arrives_dry(line.per_gram)),
            line.celsius);
    }
    return s;
}

/// A batch of which nothing is less than nothing.
inline bool all_positive(const batch& b) {
    for (const auto* lines : {&b.pan, &b.off_heat})
        for (const auto& l : *lines) {
            if (!(l.grams >= 0.0)) return false;
            for (const double x : l.per_gram)
                if (!(x >= 0.0)) return false;
        }
    return true;
}

template <class Scalar>
std::array<Scalar, output_count> outputs_of(const mixture_of<Scalar>& finished, double serve_celsius) {
    using std::exp;
    grade ignored = grade::fine;
    const auto cold = at_temperature(finished, serve_celsius);
    const Scalar kelvin = serve_celsius + formula::zero_celsius;
    const Scalar ln_aw =
        cold.ice > 0.0 ? Scalar(formula::ice_ln_activity(kelvin)) : best_ln_activity(cold, kelvin);
    return {100.0 * finished.water() / finished.total(), exp(ln_aw),
            log10_firmness_value(cold, serve_celsius, history::cooling, ignored),
            log10_viscosity_value(cold, serve_celsius, ignored)};
}

}  // namespace detail

/// The outputs of a batch by the full model; nothing where it does not boil there, or beyond the model.
inline std::optional<outputs> outputs_of(const batch& b) {
    if (!detail::all_positive(b)) return std::nullopt;
    const double celsius = b.thermometer_celsius - b.thermometer_error_kelvin;
    const mixture pan = in_the_pan(b.pan);
    const double ln_aw = ln_activity_at_boil(celsius, b.pressure_pa);
    if (!(ln_aw < 0.0) || !(celsius <= max_model_celsius) || !(pan.dissolved() > 0.0)) return std::nullopt;
    const double held = water_held(pan, ln_aw, celsius + formula::zero_celsius);
    if (!(pan.with_water(held).syrup_solids() <= last_syrup_solids)) return std::nullopt;
    const auto finished = finished_at(b, pan, celsius);
    if (!(finished.contents.water() > 0.0)) return std::nullopt;
    const outputs r = detail::outputs_of(finished.contents, b.serve_celsius);
    for (const double x : r)
        if (!std::isfinite(x)) return std::nullopt;
    return r;
}

namespace detail {

/// What is wrong with the question, if anything; else the real temperature and the pan can be answered.
inline std::optional<refusal> find_input_fault(const batch& b, const std::vector<uncertain_input>& inputs) {
    if (auto fault = find_fault(b)) return fault;
    const cook_path path(b);
    if (auto fault = find_pan_fault(path)) return fault;
    if (auto fault = find_target_fault(b, path)) return fault;
    if (inputs.empty()) return refusal{"inputs", "is empty; at least one uncertain input is accepted"};
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        const auto& in = inputs[i];
        const std::string place = "inputs[" + std::to_string(i) + "]";
        if (!(in.standard_uncertainty >= 0.0) || !std::isfinite(in.standard_uncertainty))
            return refusal{place + ".standard_uncertainty",
                           shortest(in.standard_uncertainty) + " is not accepted; a number of at least 0 is"};
        if (in.kind == input_kind::thermometer || in.kind == input_kind::pressure) continue;
        const auto& lines = in.off_heat ? b.off_heat : b.pan;
        if (in.line >= lines.size())
            return refusal{place + ".line", std::to_string(in.line) + " is not a line; there are " +
                                                std::to_string(lines.size()) + ", counted from 0"};
        const auto& m = lines[in.line].per_gram;
        const bool fits = in.kind == input_kind::weighing ||
                          (in.kind == input_kind::dextrose_equivalent && is_starch_syrup(lines[in.line])) ||
                          (in.kind == input_kind::syrup_solids && m[index_of(component::water)] < 1.0) ||
                          (in.kind == input_kind::fat && fat_share(m) > 0.0 && fat_share(m) < 1.0);
        if (!fits)
            return refusal{place + ".kind", "does not fit \"" + lines[in.line].name +
                                                "\": a glucose syrup has a dextrose equivalent, a syrup solids, "
                                                "milk and cream fat"};
    }
    return std::nullopt;
}

/// Derivatives of the outputs with an input.
inline outputs outputs_by(const batch& b, const uncertain_input& in) {
    const auto s = sloping(b, in);
    const auto finished = finished_at(s.pan, s.celsius, s.added, s.pressure_pa).contents;
    outputs by{};
    const auto all = outputs_of(finished, b.serve_celsius);
    for (std::size_t r = 0; r < output_count; ++r) by[r] = all[r].slope;
    return by;
}

}  // namespace detail

/// Which input matters: derivatives of the outputs, and what each input contributes to their uncertainty.
inline outcome<sensitivity> sensitivity_of(const batch& b, const std::vector<uncertain_input>& inputs) {
    if (auto fault = detail::find_input_fault(b, inputs)) return *fault;
    const mixed done = finished_at(b, in_the_pan(b.pan), b.thermometer_celsius - b.thermometer_error_kelvin);
    const mixture& finished = done.contents;
    sensitivity s;
    s.value = detail::outputs_of(finished, b.serve_celsius);
    for (const double x : s.value)
        if (!std::isfinite(x)) return refusal{b.target_place, "gives a batch whose water or set is not computed"};
    outputs variance{};
    for (const auto& in : inputs) {
        input_effect e;
        e.input = in;
        e.derivative = detail::outputs_by(b, in);
        for (std::size_t r = 0; r < output_count; ++r) {
            e.contribution[r] = std::fabs(e.derivative[r]) * in.standard_uncertainty;
            variance[r] += e.contribution[r] * e.contribution[r];
        }
        s.effects.push_back(std::move(e));
    }
    for (auto& e : s.effects)
        for (std::size_t r = 0; r < output_count; ++r)
            e.share_percent[r] =
                variance[r] > 0.0 ? 100.0 * e.contribution[r] * e.contribution[r] / variance[r] : 0.0;
    for (std::size_t r = 0; r < output_count; ++r) s.standard_uncertainty[r] = std::sqrt(variance[r]);
    const auto share = [](const input_effect& e, output r) { return e.share_percent[index_of(r)]; };
    const auto matters_more = [&](const input_effect& x, const input_effect& y) {
        const double set_x = share(x, output::log10_firmness), set_y = share(y, output::log10_firmness);
        return set_x != set_y ? set_x > set_y : share(x, output::water_percent) > share(y, output::water_percent);
    };
    for (auto e = s.effects.begin(); e != s.effects.end(); ++e)  // each into its place among those before it
        std::rotate(std::upper_bound(s.effects.begin(), e, *e, matters_more), e, e + 1);
    s.notes.emplace_back(
        "Uncertainty of the inputs alone, taken as independent; that of the model is in the "
        "intervals of the prediction.");
    if (done.flashed_grams > 0.0)
        s.notes.emplace_back("Water flashes off at the additions: it evens out part of what the cook leaves.");
    if (finished.crystals() > 0.0) s.notes.emplace_back("Some sugar stays undissolved: it moves with the inputs.");
    if (at_temperature(finished, b.serve_celsius).ice > 0.0)
        s.notes.emplace_back("Ice at serving fixes the water activity: no input moves it.");
    return s;
}

}  // namespace sirop::core
