// What a cook may want of a finished batch: one measure of it, and the band in which it is met.
#pragma once

#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>

#include "../cooking/batch.hpp"
#include "../cooking/prediction.hpp"
#include "../texture/stage_equivalent.hpp"

namespace sirop::core {

enum class measure : unsigned char {
    water_percent,   ///< of the finished batch
    water_activity,  ///< at a temperature
    brix,            ///< of its syrup phase at 20 C
    viscosity_pa_s,  ///< at a temperature
    firmness_pa_s,   ///< at a temperature
    stage,           ///< of the pan, by consistency, in a table
    set_word         ///< at a temperature
};

/// What there is to know of a measure.
struct measure_data {
    measure id;
    std::string_view name;  ///< as questions write it
    std::string_view unit;
    double usual_within;        ///< half the band where none is given (a factor for viscosities); 0: fixed
    bool rises;                 ///< as the batch is cooked hotter
    bool at_celsius;            ///< it depends on the temperature at which it is wanted
    std::string_view accepted;  ///< the numbers that may be wanted, in words; empty for names
    bool (*accepts)(double);    ///< null for names
};

inline constexpr std::array<measure_data, 7> measures = {{
    {measure::water_percent, "water_percent", "%", 0.5, false, false, "above 0 and below 100 %",
     [](double x) { return x > 0.0 && x < 100.0; }},
    {measure::water_activity, "water_activity", "", 0.01, false, true, "above 0 and below 1",
     [](double x) { return x > 0.0 && x < 1.0; }},
    {measure::brix, "brix", "Brix", 0.5, true, false, "above 0 to 95 Brix",
     [](double x) { return x > 0.0 && x <= 100.0 * last_refraction_solids; }},
    {measure::viscosity_pa_s, "viscosity_pa_s", "Pa s", 1.5, true, true, "0.001 to 1e30 Pa s",
     [](double x) { return x >= 1.0e-3 && x <= 1.0e30; }},
    {measure::firmness_pa_s, "firmness_pa_s", "Pa s", 1.5, true, true, "0.001 to 1e30 Pa s",
     [](double x) { return x >= 1.0e-3 && x <= 1.0e30; }},
    {measure::stage, "stage", "", 0.0, true, false, "", nullptr},
    {measure::set_word, "set_word", "", 0.0, true, true, "", nullptr},
}};

constexpr const measure_data& data_of(measure m) {
    return measures[static_cast<std::size_t>(m)];
}

/// One measure that a finished batch shall have.
struct wanted {
    measure what = measure::water_percent;
    double value = not_a_number;    ///< of a number
    std::string name;               ///< of a stage or a word
    double celsius = not_a_number;  ///< where activity, viscosity or set are wanted; NaN: the serving temperature
    double within = not_a_number;   ///< half the band (a factor for viscosities); NaN: the usual
    std::string table = "us 2004";  ///< of a stage
};

/// A number wanted of the finished batch, at a temperature where that matters (NaN: the serving temperature).
inline wanted wanted_number(measure what, double value, double celsius = not_a_number) {
    return {.what = what, .value = value, .name = {}, .celsius = celsius};
}
/// A word of the set, at a temperature.
inline wanted wanted_word(std::string_view word, double celsius = not_a_number) {
    return {.what = measure::set_word, .name = std::string(word), .celsius = celsius};
}
/// A stage of a table, by consistency, of the pan before the additions.
inline wanted wanted_stage(std::string_view stage, std::string_view table = "us 2004") {
    return {.what = measure::stage, .name = std::string(stage), .table = std::string(table)};
}

/// A wanted as numbers: the measure is to be between low and high, best at aim.  Viscosities and firmness stand as
/// log10 of Pa s.  The first and the last word are open: low or high is infinite.
struct band {
    double low = not_a_number, aim = not_a_number, high = not_a_number;
};

/// The side of a band on which a batch that is cooked too little leaves it, and that of one cooked too far.
inline double wet_edge(const wanted& w, const band& b) {
    return data_of(w.what).rises ? b.low : b.high;
}
inline double dry_edge(const wanted& w, const band& b) {
    return data_of(w.what).rises ? b.high : b.low;
}
/// Whether one value of the measure is that of a batch cooked further than another's.
inline bool drier(const wanted& w, double x, double than) {
    return data_of(w.what).rises ? x > than : x < than;
}

/// Where it is wanted, C: as said, or at the serving temperature.
inline double wanted_celsius(const wanted& w, double serve_celsius) {
    return std::isnan(w.celsius) ? serve_celsius : w.celsius;
}

namespace detail {

/// A name that is not plain text; a band or a temperature that does not go with the measure.
inline std::optional<refusal> find_extra_fault(const wanted& w) {
    const auto& data = data_of(w.what);
    if (auto fault = find_text_fault("wanted." + std::string(data.name), w.name)) return fault;
    if (auto fault = find_text_fault("wanted.table", w.table)) return fault;
    if (!std::isnan(w.within) && data.usual_within == 0.0)
        return refusal{"wanted.within", shortest(w.within) + " does not go with " + std::string(data.name) +
                                            ", which has a band of its own; none is accepted"};
    if (std::isnan(w.celsius)) return std::nullopt;
    if (!data.at_celsius)
        return refusal{"wanted.celsius", shortest(w.celsius) + " °C does not go with " + std::string(data.name) +
                                             ", which is the same at any temperature; none is accepted"};
    if (!serve_limit.holds(w.celsius)) return outside("wanted.celsius", serve_limit, w.celsius);
    return std::nullopt;
}

/// What a row of a table means as a consistency, from its low to its high temperature.
inline outcome<band> band_of_stage(const wanted& w) {
    const auto* table = find_stage_table(w.table);
    if (table == nullptr) return refusal{"wanted.table", "\"" + w.table + "\" is not a stage table"};
    std::string names;
    for (const auto& row : table->rows) {
        const bool colour = is_colour(*table, row);
        if (!colour) names += (names.empty() ? "" : ", ") + std::string(row.name);
        if (!same_name(row.name, w.name)) continue;
        if (colour)
            return refusal{"wanted.stage", "\"" + w.name + "\" is a colour, not a consistency: cook to " +
                                               both_scales(row.low_celsius) + " to " +
                                               both_scales(row.high_celsius) +
                                               " by the thermometer and the eye; accepted: " + names};
        const double reach = row.low_celsius == row.high_celsius ? stage_point_reach_celsius : 0.0;
        const band b{firmness_of_plain(row.low_celsius - reach),
                     firmness_of_plain(0.5 * (row.low_celsius + row.high_celsius)),
                     firmness_of_plain(row.high_celsius + reach)};
        if (!std::isfinite(b.low) || !std::isfinite(b.aim) || !std::isfinite(b.high))
            return refusal{"wanted.stage", "\"" + w.name +
                                               "\" lies outside the model (water to 99.5 % solids); another stage "
                                               "is accepted"};
        return b;
    }
    return refusal{"wanted.stage",
                   "\"" + w.name + "\" is not a stage of the table \"" + w.table + "\"; accepted: " + names};
}

/// From a word's firmness to that of the next; the open ends are aimed at half a decade within.
inline outcome<band> band_of_word(const wanted& w) {
    const auto* word = find_set_word(w.name);
    if (word == nullptr) {
        std::string names;
        for (const auto& known : set_words) names += (names.empty() ? "" : ", ") + std::string(known.word);
        return refusal{"wanted.set_word", "\"" + w.name + "\" is not a word of the set; accepted: " + names};
    }
    const double low = word->from_pa_s > 0.0 ? std::log10(word->from_pa_s) : -HUGE_VAL;
    const double high = word == &set_words.back() ? HUGE_VAL : std::log10((word + 1)->from_pa_s);
    return band{low, std::isinf(low) ? high - 0.5 : (std::isinf(high) ? low + 0.5 : 0.5 * (low + high)), high};
}

}  // namespace detail

/// The band of a wanted, or what is wrong with it.
inline outcome<band> band_of(const wanted& w) {
    if (auto fault = detail::find_extra_fault(w)) return *fault;
    if (w.what == measure::stage) return detail::band_of_stage(w);
    if (w.what == measure::set_word) return detail::band_of_word(w);
    const auto& data = data_of(w.what);
    if (!data.accepts(w.value))
        return refusal{"wanted." + std::string(data.name),
                       shortest(w.value) + " is outside the accepted range, " + std::string(data.accepted)};
    const double within = std::isnan(w.within) ? data.usual_within : w.within;
    if (w.what != measure::viscosity_pa_s && w.what != measure::firmness_pa_s) {
        if (!(within > 0.0 && std::isfinite(within)))
            return refusal{"wanted.within", shortest(within) + " is not above 0"};
        return band{w.value - within, w.value, w.value + within};
    }
    if (!(within >= 1.0 && within <= 100.0))
        return refusal{"wanted.within", shortest(within) + " is outside the accepted range, a factor of 1 to 100"};
    const double aim = std::log10(w.value), half = std::log10(within);
    return band{aim - half, aim, aim + half};
}

/// The measure of a finished batch, and of the pan before the additions (viscosities as log10 of Pa s); NaN where
/// it has none.
inline double measured(const wanted& w, const mixture& finished, const mixture& cooked, double serve_celsius) {
    const double celsius = wanted_celsius(w, serve_celsius);
    grade ignored = grade::fine;
    const auto firmness = [&](const mixture& m, double t) {
        return detail::log10_firmness_value(at_temperature(m, t), t, history::cooling, ignored);
    };
    switch (w.what) {
        case measure::water_percent:
            return percent(finished.water(), finished.total());
        case measure::water_activity:
            return best_activity(finished, celsius);
        case measure::brix:
            return brix_of_syrup(finished);
        case measure::viscosity_pa_s:
            return detail::log10_viscosity_value(at_temperature(finished, celsius), celsius, ignored);
        case measure::firmness_pa_s:
        case measure::set_word:
            return firmness(finished, celsius);
        case measure::stage:
            return firmness(cooked, cold_water_celsius);
    }
    return not_a_number;
}

/// Whether the measure of a batch lies inside what its models were fitted in.
inline grade grade_of(const wanted& w, const mixture& finished, const mixture& cooked, double serve_celsius) {
    const double celsius = wanted_celsius(w, serve_celsius);
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

/// A viscosity by its logarithm, as a cook reads it.
inline std::string in_pa_s(double log10) {
    const int decimals = log10 >= 2.0 ? 0 : (log10 >= 0.0 ? 1 : 3);
    return (log10 < 6.0 ? fixed(std::pow(10.0, log10), decimals) : std::string("10^").append(fixed(log10, 1)))
        .append(" Pa s");
}

/// A measured number as a cook reads it.
inline std::string shown(const wanted& w, double x) {
    switch (w.what) {
        case measure::water_percent:
            return fixed(x, 1).append(" % water");
        case measure::water_activity:
            return std::string("a water activity of ").append(fixed(x, 3));
        case measure::brix:
            return fixed(x, 1).append(" Brix");
        case measure::viscosity_pa_s:
        case measure::firmness_pa_s:
            return (w.what == measure::viscosity_pa_s ? std::string("a viscosity of ")
                                                      : std::string("a firmness of "))
                .append(in_pa_s(x));
        case measure::stage: {
            const double solids = plain_solids_of_consistency(x);
            if (!std::isfinite(solids)) return "a stage beyond the model";
            const double plain = best_boiling_celsius(plain_syrup(solids), formula::standard_atmosphere);
            return stage_name(consistencies_of(*find_stage_table(w.table)), plain);
        }
        case measure::set_word:
            return word_of_log10(x).append(" (").append(in_pa_s(x)).append(")");
    }
    return {};
}

/// What is wanted, in words.
inline std::string wanted_text(const wanted& w, double serve_celsius) {
    const std::string at = " at " + both_scales(wanted_celsius(w, serve_celsius), 0);
    switch (w.what) {
        case measure::water_activity:
            return shown(w, w.value) + at;
        case measure::viscosity_pa_s:
        case measure::firmness_pa_s:
            return shown(w, std::log10(w.value)) + at;
        case measure::set_word:
            return "\"" + w.name + "\"" + at;
        case measure::stage:
            return "\"" + w.name + "\" of the table \"" + w.table + "\"";
        default:
            return shown(w, w.value);
    }
}

}  // namespace sirop::core
