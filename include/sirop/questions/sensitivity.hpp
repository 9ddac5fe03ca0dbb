// Which input matters: how far the thermometer, the pressure, the scales and the ingredients move the water and
// the set of the finished batch, each by its standard uncertainty.  Linear propagation with exact derivatives
// and Monte Carlo to check it.  Inputs are independent of each other; the uncertainty of the model
// itself is not in it (that is in the intervals of the prediction).
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "cook_for.hpp"

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
    {output::water_activity, "water_activity_at_serving", "1", "water activity at serving"},
    {output::log10_firmness, "log10_firmness", "log10 Pa s", "set (log10 of the firmness at serving)"},
    {output::log10_viscosity, "log10_viscosity", "log10 Pa s", "log10 of the viscosity at serving"},
}};
constexpr std::size_t index_of(output r) {
    return static_cast<std::size_t>(r);
}

enum class input_kind : unsigned char {
    thermometer,          ///< K by which the cook really ends hotter
    pressure,             ///< hPa
    weighing,             ///< g of a line
    dextrose_equivalent,  ///< DE of a line of glucose syrup, along the table of starch syrups
    syrup_solids,         ///< percentage points of solids of a line of syrup, water giving way
    fat  ///< percentage points of fat of a line of cream or milk, the rest giving way in proportion
};

struct uncertain_input {
    input_kind kind = input_kind::thermometer;
    bool off_heat = false;  ///< of a line: where it stands,
    std::size_t line = 0;   ///< and its index
    std::string name;       ///< in words
    std::string place;      ///< in the batch: "pan[2].grams"
    double value = not_a_number;
    double standard_uncertainty = not_a_number;
    std::string unit;
};

/// What a kitchen without better knowledge may assume, as standard uncertainties (our estimates).  thermometer:
/// NaN takes thermometer_within_kelvin of the batch, a 95 % half width, over 1.96; 1 K if that is 0.  Weighing:
/// the larger of the two.  Fat: a quarter of it where it is below four times the number.
struct usual_uncertainties {
    double thermometer_kelvin = not_a_number;
    double pressure_hpa = 5.0;
    double weighing_grams = 1.0;
    double weighing_percent = 0.5;
    double dextrose_equivalent = 2.0;
    double syrup_solids_percent = 1.0;
    double fat_percent = 1.0;
};

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

struct spread {
    double mean = not_a_number;
    double standard_deviation = not_a_number;
    double standard_deviation_error = not_a_number;  ///< sampling error of it, from the fourth moment
    double low = not_a_number, high = not_a_number;  ///< 2.5 and 97.5 percentiles
};

struct monte_carlo_answer {
    std::array<spread, output_count> of{};
    std::size_t samples = 0;
    std::size_t not_computed = 0;  ///< not boiling there, beyond the model, or less than nothing of something
};

/// Linear propagation against Monte Carlo.
struct linear_check {
    outputs ratio{};  ///< standard deviation of the samples over the linear one
    outputs shift{};  ///< mean of the samples less the best value, in linear standard uncertainties
    std::array<bool, output_count> holds{};  ///< within 10 %, or within four sampling errors of that
    std::vector<std::string> notes;          ///< where it does not hold
};

namespace detail {

inline bool name_contains(std::string_view name, std::string_view part) {
    const auto same = [](char a, char b) { return ascii_lower(a) == b; };
    return std::search(name.begin(), name.end(), part.begin(), part.end(), same) != name.end();
}
inline bool is_starch_syrup(const ingredient_line& l) {
    constexpr std::string_view start = "glucose syrup";
    const auto name = without_outer_blanks(l.name);
    return name.size() >= start.size() && same_name(name.substr(0, start.size()), start) &&
           l.per_gram[index_of(component::glucose)] > 0.0;
}
inline bool is_syrup(const ingredient_line& l) {
    return l.per_gram[index_of(component::water)] > 0.0 && l.per_gram[index_of(component::water)] < 1.0 &&
           (name_contains(l.name, "syrup") || name_contains(l.name, "honey") || name_contains(l.name, "molasses"));
}
inline double fat_share(const masses& per_gram) {
    double fat = 0.0;
    for (const auto& c : components)
        if (c.where == phase::fat) fat += per_gram[index_of(c.id)];
    return fat;
}
inline bool is_cream_or_milk(const ingredient_line& l) {
    return fat_share(l.per_gram) > 0.0 && !name_contains(l.name, "chocolate") &&
           (name_contains(l.name, "cream") || name_contains(l.name, "milk") ||
            name_contains(l.name, "half-and-half"));
}

/// Solids of a starch syrup along the table, and how they change per DE: linear in each segment but for the
/// division by the sum, and on with the end segment's slope beyond the table.
struct starch_solids {
    masses share{}, by_de{};
};
inline starch_solids starch_solids_at(double de) {
    const double at = std::fmin(std::fmax(de, min_dextrose_equivalent), max_dextrose_equivalent);
    std::size_t upper = 1;
    while (upper + 1 < starch_syrups.size() && starch_syrups[upper].dextrose_equivalent < at) ++upper;
    const starch_syrup &a = starch_syrups[upper - 1], &b = starch_syrups[upper];
    const double width = b.dextrose_equivalent - a.dextrose_equivalent;
    const double t = (at - a.dextrose_equivalent) / width;
    const auto raw = [](double x, double y, double s) { return (1.0 - s) * x + s * y; };
    double sum = raw(a.fructose, b.fructose, t), slope_of_sum = (b.fructose - a.fructose) / width;
    for (std::size_t i = 0; i < chain_components.size(); ++i) {
        sum += raw(a.chains[i], b.chains[i], t);
        slope_of_sum += (b.chains[i] - a.chains[i]) / width;
    }
    starch_solids s;
    s.share = starch_syrup_solids(at);
    const auto slope = [&](double raw_slope, double share) {
        return 100.0 * raw_slope / sum - share * slope_of_sum / sum;
    };
    for (std::size_t i = 0; i < chain_components.size(); ++i) {
        const std::size_t k = index_of(chain_components[i]);
        s.by_de[k] = slope((b.chains[i] - a.chains[i]) / width, s.share[k]);
    }
    const std::size_t f = index_of(component::fructose);
    s.by_de[f] = slope((b.fructose - a.fructose) / width, s.share[f]);
    for (std::size_t i = 0; i < component_count; ++i) {
        s.share[i] = 0.01 * (s.share[i] + s.by_de[i] * (de - at));
        s.by_de[i] *= 0.01;
    }
    return s;
}

/// DE at which the table has a syrup's share of glucose in its solids.
inline double dextrose_equivalent_of(const masses& per_gram) {
    const double share = per_gram[index_of(component::glucose)] / (1.0 - per_gram[index_of(component::water)]);
    const auto glucose = [](double de) { return starch_solids_at(de).share[index_of(component::glucose)]; };
    const double found = solve_monotone([&](double de) { return glucose(de) - share; }, 40.0, 1.0, 120.0);
    return found;
}

/// A composition whose DE, solids or fat differ by an amount; negative shares if that is too much.
inline masses shifted(const masses& per_gram, input_kind kind, double by) {
    constexpr std::size_t water = index_of(component::water);
    masses m = per_gram;
    if (kind == input_kind::dextrose_equivalent) {
        const double de = dextrose_equivalent_of(per_gram);
        const auto from = starch_solids_at(de).share, to = starch_solids_at(de + by).share;
        for (std::size_t i = 0; i < component_count; ++i) m[i] += (1.0 - per_gram[water]) * (to[i] - from[i]);
    } else if (kind == input_kind::syrup_solids) {
        const double solids = 1.0 - per_gram[water];
        for (double& x : m) x *= (solids + 0.01 * by) / solids;
        m[water] = per_gram[water] - 0.01 * by;
    } else if (kind == input_kind::fat) {
        const double fat = fat_share(per_gram);
        for (const auto& c : components)
            m[index_of(c.id)] *= c.where == phase::fat ? 1.0 + 0.01 * by / fat : 1.0 - 0.01 * by / (1.0 - fat);
    }
    return m;
}

/// Its derivative per unit.
inline masses shifting(const masses& per_gram, input_kind kind) {
    if (kind != input_kind::dextrose_equivalent) {  // linear: the shift by one unit itself
        masses m = shifted(per_gram, kind, 1.0);
        for (std::size_t i = 0; i < component_count; ++i) m[i] -= per_gram[i];
        return m;
    }
    masses m = starch_solids_at(dextrose_equivalent_of(per_gram)).by_de;
    for (double& x : m) x *= 1.0 - per_gram[index_of(component::water)];
    return m;
}

inline const ingredient_line& line_of(const batch& b, const uncertain_input& in) {
    return (in.off_heat ? b.off_heat : b.pan)[in.line];
}

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
        for (std::size_t k = 0; k < component_count; ++k) s.pan.grams[k] += grams[k];
    }
    for (std::size_t i = 0; i < b.off_heat.size(); ++i) {
        const auto& line = b.off_heat[i];
        s.added.add(
            as_it_arrives(masses_of(line, of_a_line && in.off_heat && in.line == i), arrives_dry(line.per_gram)),
            line.celsius);
    }
    return s;
}

/// The same batch with an input off by an amount.
inline void shift(batch& b, const uncertain_input& in, double by) {
    if (in.kind == input_kind::thermometer) {
        b.thermometer_error_kelvin -= by;
        return;
    }
    if (in.kind == input_kind::pressure) {
        b.pressure_pa += 100.0 * by;
        return;
    }
    auto& line = (in.off_heat ? b.off_heat : b.pan)[in.line];
    if (in.kind == input_kind::weighing)
        line.grams += by;
    else
        line.per_gram = shifted(line.per_gram, in.kind, by);
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

/// The inputs of a batch that are uncertain in any kitchen.
inline std::vector<uncertain_input> uncertain_inputs(const batch& b, const usual_uncertainties& usual = {}) {
    std::vector<uncertain_input> inputs;
    double kelvin = usual.thermometer_kelvin;
    if (std::isnan(kelvin))
        kelvin = b.thermometer_within_kelvin > 0.0 ? b.thermometer_within_kelvin / normal_95 : 1.0;
    inputs.push_back({input_kind::thermometer, false, 0, "thermometer", "cook.thermometer",
                      b.thermometer_celsius - b.thermometer_error_kelvin, kelvin, "K"});
    inputs.push_back({input_kind::pressure, false, 0, "air pressure", "cook.pressure_hpa", 0.01 * b.pressure_pa,
                      usual.pressure_hpa, "hPa"});
    for (const bool off_heat : {false, true}) {
        const auto& lines = off_heat ? b.off_heat : b.pan;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            const auto& l = lines[i];
            if (!(l.grams > 0.0)) continue;
            const std::string place = (off_heat ? "off_heat[" : "pan[") + std::to_string(i) + "]";
            const auto add = [&](input_kind kind, const char* what, const char* key, double value, double u,
                                 const char* unit) {
                inputs.push_back({kind, off_heat, i, what + l.name, place + key, value, u, unit});
            };
            add(input_kind::weighing, "weighing of ", ".grams", l.grams,
                std::fmax(usual.weighing_grams, 0.01 * usual.weighing_percent * l.grams), "g");
            if (detail::is_starch_syrup(l))
                add(input_kind::dextrose_equivalent, "dextrose equivalent of ", ".dextrose_equivalent",
                    detail::dextrose_equivalent_of(l.per_gram), usual.dextrose_equivalent, "DE");
            if (detail::is_syrup(l))
                add(input_kind::syrup_solids, "solids of ", ".solids_percent",
                    100.0 * (1.0 - l.per_gram[index_of(component::water)]), usual.syrup_solids_percent, "%");
            if (detail::is_cream_or_milk(l)) {
                const double fat = 100.0 * detail::fat_share(l.per_gram);
                add(input_kind::fat, "fat of ", ".fat_percent", fat, std::fmin(usual.fat_percent, 0.25 * fat),
                    "%");
            }
        }
    }
    return inputs;
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

namespace detail {

/// Normal numbers that are the same everywhere: splitmix64 and the polar method.
class normal_numbers {
  public:
    explicit normal_numbers(std::uint64_t seed) : state_(seed) {}

    double next() {
        if (has_second_) {
            has_second_ = false;
            return second_;
        }
        // The polar method (Marsaglia & Bray, SIAM Rev. 6 (1964) 260): a point within the unit circle.
        double x, y, square;
        do {
            x = 2.0 * uniform() - 1.0;
            y = 2.0 * uniform() - 1.0;
            square = x * x + y * y;
        } while (square > 1.0 || square == 0.0);
        const double factor = std::sqrt(-2.0 * std::log(square) / square);
        second_ = factor * y;
        has_second_ = true;
        return factor * x;
    }

  private:
    std::uint64_t bits() {
        std::uint64_t z = (state_ += 0x9e3779b97f4a7c15U);
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31U);
    }
    /// In (0, 1].
    double uniform() { return (static_cast<double>(bits() >> 11U) + 1.0) * 0x1p-53; }

    std::uint64_t state_;
    double second_ = 0.0;
    bool has_second_ = false;
};

/// Sorts the samples.
inline spread spread_of(std::vector<double>& x) {
    spread s;
    if (x.size() < 2) return s;
    std::make_heap(x.begin(), x.end());  // a fraction of the code of std::sort
    std::sort_heap(x.begin(), x.end());
    const double n = static_cast<double>(x.size());
    double sum = 0.0, second = 0.0, fourth = 0.0;
    for (const double v : x) sum += v;
    s.mean = sum / n;
    for (const double v : x) {
        const double square = (v - s.mean) * (v - s.mean);
        second += square;
        fourth += square * square;
    }
    s.standard_deviation = std::sqrt(second / (n - 1.0));
    const double variance = second / n;
    const double kurtosis = variance > 0.0 ? fourth / n / (variance * variance) : 3.0;
    s.standard_deviation_error = s.standard_deviation * std::sqrt(std::fmax(kurtosis - 1.0, 0.0) / (4.0 * n));
    const auto percentile = [&](double p) {
        const double at = p * (n - 1.0);
        const auto i = std::min(static_cast<std::size_t>(at), x.size() - 2);
        return x[i] + (at - static_cast<double>(i)) * (x[i + 1] - x[i]);
    };
    s.low = percentile(0.025);
    s.high = percentile(0.975);
    return s;
}

}  // namespace detail

inline constexpr std::size_t most_samples = 1000000;

/// The same inputs drawn normally, each sample through the full model.  The same seed gives the same answer.
inline outcome<monte_carlo_answer> monte_carlo(const batch& b, const std::vector<uncertain_input>& inputs,
                                               std::size_t samples, std::uint64_t seed) {
    if (auto fault = detail::find_input_fault(b, inputs)) return *fault;
    if (samples < 2 || samples > most_samples)
        return refusal{"samples", std::to_string(samples) + " is outside the accepted range, 2 to " +
                                      std::to_string(most_samples)};
    monte_carlo_answer answer;
    answer.samples = samples;
    std::array<std::vector<double>, output_count> drawn;
    for (auto& list : drawn) list.reserve(samples);
    detail::normal_numbers random(seed);
    for (std::size_t i = 0; i < samples; ++i) {
        batch one = b;
        for (const auto& in : inputs) detail::shift(one, in, in.standard_uncertainty * random.next());
        const auto r = outputs_of(one);
        if (!r) {
            ++answer.not_computed;
            continue;
        }
        for (std::size_t k = 0; k < output_count; ++k) drawn[k].push_back((*r)[k]);
    }
    for (std::size_t k = 0; k < output_count; ++k) answer.of[k] = detail::spread_of(drawn[k]);
    return answer;
}

/// Whether the linear rule tells the spread, and where it does not.
inline linear_check check_linear(const sensitivity& linear, const monte_carlo_answer& sampled) {
    constexpr double accepted = 0.10, sampling_errors = 4.0;
    linear_check check;
    for (const auto& r : output_table) {
        const std::size_t k = index_of(r.id);
        const double u = linear.standard_uncertainty[k];
        const spread& s = sampled.of[k];
        if (!(u > 0.0)) {  // nothing moves it, to first order: then nothing may move it at all
            check.ratio[k] = check.shift[k] = not_a_number;
            check.holds[k] = s.standard_deviation <= 1.0e-9 * std::fabs(linear.value[k]);
        } else {
            const double n = static_cast<double>(sampled.samples - sampled.not_computed);
            check.ratio[k] = s.standard_deviation / u;
            check.shift[k] = (s.mean - linear.value[k]) / u;
            check.holds[k] =
                std::fabs(check.ratio[k] - 1.0) <= accepted + sampling_errors * s.standard_deviation_error / u &&
                std::fabs(check.shift[k]) <= accepted + sampling_errors * check.ratio[k] / std::sqrt(n);
        }
        if (!check.holds[k])
            check.notes.push_back(
                std::string(r.words)
                    .append(": not linear over these uncertainties (spread ")
                    .append(fixed(check.ratio[k], 2))
                    .append(" times the linear one, mean shifted by ")
                    .append(fixed(check.shift[k], 2))
                    .append(" of it); the percentiles of the samples hold, the shares are rough."));
    }
    if (sampled.not_computed > 0)
        check.notes.push_back(
            std::to_string(sampled.not_computed)
                .append(" of ")
                .append(std::to_string(sampled.samples))
                .append(" samples could not be computed (the pan does not boil there, or is beyond "
                        "the model): the spread leaves them out."));
    return check;
}

}  // namespace sirop::core
