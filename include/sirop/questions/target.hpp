// What a cook may want of a finished batch: one measure of it, and the band in which it is met.
#pragma once

#include <optional>
#include <string>

#include "../cooking/predict.hpp"

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

struct measure_data {
    measure id;
    std::string_view name;  ///< as questions write it
    std::string_view unit;
    double usual_within;  ///< half the band where none is given (a factor for viscosities); 0: fixed
    bool rises;           ///< as the batch is cooked hotter
    bool at_celsius;      ///< it depends on the temperature at which it is wanted
};

inline constexpr std::array<measure_data, 7> measures = {{
    {measure::water_percent, "water_percent", "%", 0.5, false, false},
    {measure::water_activity, "water_activity", "", 0.01, false, true},
    {measure::brix, "brix", "Brix", 0.5, true, false},
    {measure::viscosity_pa_s, "viscosity_pa_s", "Pa s", 1.5, true, true},
    {measure::firmness_pa_s, "firmness_pa_s", "Pa s", 1.5, true, true},
    {measure::stage, "stage", "", 0.0, true, false},
    {measure::set_word, "set_word", "", 0.0, true, true},
}};

constexpr const measure_data& data_of(measure m) {
    return measures[static_cast<std::size_t>(m)];
}

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
    wanted w;
    w.what = what;
    w.value = value;
    w.celsius = celsius;
    return w;
}
/// A word of the set, at a temperature.
inline wanted wanted_word(std::string_view word, double celsius = not_a_number) {
    wanted w;
    w.what = measure::set_word;
    w.name = std::string(word);
    w.celsius = celsius;
    return w;
}
/// A stage of a table, by consistency, of the pan before the additions.
inline wanted wanted_stage(std::string_view stage, std::string_view table = "us 2004") {
    wanted w;
    w.what = measure::stage;
    w.name = std::string(stage);
    w.table = std::string(table);
    return w;
}

/// A wanted as numbers: the measure is to be between low and high, best at aim.  Viscosities and firmness stand as
/// log10 of Pa s.  The first and the last word are open: low or high is infinite.
struct band {
    double low = not_a_number, aim = not_a_number, high = not_a_number;
};

/// The band of a wanted, or what is wrong with it.
inline outcome<band> band_of(const wanted& w) {
    const auto& data = data_of(w.what);
    const std::string place = "wanted." + std::string(data.name);
    const auto off = [&](const char* accepted) {
        return refusal{place, shortest(w.value) + " is outside the accepted range, " + accepted};
    };
    if (auto fault = find_text_fault(place, w.name)) return *fault;
    if (auto fault = find_text_fault("wanted.table", w.table)) return *fault;
    const double within = std::isnan(w.within) ? data.usual_within : w.within;
    if (!std::isnan(w.within) && data.usual_within == 0.0)
        return refusal{"wanted.within", shortest(w.within) + " does not go with " + std::string(data.name) +
                                            ", which has a band of its own; none is accepted"};
    if (!std::isnan(w.celsius) && !data.at_celsius)
        return refusal{"wanted.celsius", shortest(w.celsius) + " °C does not go with " + std::string(data.name) +
                                             ", which is the same at any temperature; none is accepted"};
    if (!std::isnan(w.celsius) && !serve_limit.holds(w.celsius))
        return refusal{"wanted.celsius", shortest(w.celsius) + " is outside the accepted range, " +
                                             shortest(serve_limit.low) + " to " + shortest(serve_limit.high) +
                                             " °C"};
    switch (w.what) {
        case measure::water_percent:
            if (!(w.value > 0.0 && w.value < 100.0)) return off("above 0 and below 100 %");
            break;
        case measure::water_activity:
            if (!(w.value > 0.0 && w.value < 1.0)) return off("above 0 and below 1");
            break;
        case measure::brix:
            if (!(w.value > 0.0 && w.value <= 100.0 * last_refraction_solids)) return off("above 0 to 95 Brix");
            break;
        case measure::viscosity_pa_s:
        case measure::firmness_pa_s: {
            if (!(w.value >= 1.0e-3 && w.value <= 1.0e30)) return off("0.001 to 1e30 Pa s");
            if (!(within >= 1.0 && within <= 100.0))
                return refusal{"wanted.within",
                               shortest(within) + " is outside the accepted range, a factor of 1 to 100"};
            const double aim = std::log10(w.value), half = std::log10(within);
            return band{aim - half, aim, aim + half};
        }
        case measure::stage: {
            const auto* table = find_stage_table(w.table);
            if (table == nullptr) return refusal{"wanted.table", "\"" + w.table + "\" is not a stage table"};
            std::string names;
            for (const auto& row : table->rows) {
                names += (names.empty() ? "" : ", ") + std::string(row.name);
                if (!same_name(row.name, w.name)) continue;
                const double reach = row.low_celsius == row.high_celsius ? stage_point_reach_celsius : 0.0;
                const band b{firmness_of_plain(row.low_celsius - reach),
                             firmness_of_plain(0.5 * (row.low_celsius + row.high_celsius)),
                             firmness_of_plain(row.high_celsius + reach)};
                if (!std::isfinite(b.low) || !std::isfinite(b.aim) || !std::isfinite(b.high))
                    return refusal{place, "\"" + w.name +
                                              "\" lies beyond the model (99.5 % solids), where the table "
                                              "names colours; a stage below is accepted"};
                return b;
            }
            return refusal{
                place, "\"" + w.name + "\" is not a stage of the table \"" + w.table + "\"; accepted: " + names};
        }
        case measure::set_word: {
            const auto* word = find_set_word(w.name);
            std::string names;
            for (const auto& known : set_words) names += (names.empty() ? "" : ", ") + std::string(known.word);
            if (word == nullptr)
                return refusal{place, "\"" + w.name + "\" is not a word of the set; accepted: " + names};
            const auto* next = word == &set_words.back() ? nullptr : word + 1;
            // the open ends are aimed at half a decade within
            const double low = word->from_pa_s > 0.0 ? std::log10(word->from_pa_s) : -HUGE_VAL;
            const double high = next != nullptr ? std::log10(next->from_pa_s) : HUGE_VAL;
            return band{low, std::isinf(low) ? high - 0.5 : (std::isinf(high) ? low + 0.5 : 0.5 * (low + high)),
                        high};
        }
    }
    if (!(within > 0.0 && std::isfinite(within)))
        return refusal{"wanted.within", shortest(within) + " is not above 0"};
    return band{w.value - within, w.value, w.value + within};
}

/// The measure of a finished batch, and of the pan before the additions; NaN where it has none.
inline double measured(const wanted& w, const mixture& finished, const mixture& cooked, double serve_celsius) {
    const double celsius = std::isnan(w.celsius) ? serve_celsius : w.celsius;
    grade ignored = grade::fine;
    switch (w.what) {
        case measure::water_percent:
            return percent(finished.water(), finished.total());
        case measure::water_activity:
            return at_temperature(finished, celsius).ice > 0.0
                       ? std::exp(formula::ice_ln_activity(celsius + formula::zero_celsius))
                       : std::exp(detail::ln_activity(finished, celsius + formula::zero_celsius, curve::best));
        case measure::brix:
            return brix_of_syrup(finished);
        case measure::viscosity_pa_s:
            return detail::log10_viscosity_value(at_temperature(finished, celsius), celsius, ignored);
        case measure::firmness_pa_s:
        case measure::set_word:
            return detail::log10_firmness_value(at_temperature(finished, celsius), celsius, history::cooling,
                                                ignored);
        case measure::stage:
            return detail::log10_firmness_value(at_temperature(cooked, cold_water_celsius), cold_water_celsius,
                                                history::cooling, ignored);
    }
    return not_a_number;
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
            const double plain = boiling_celsius(plain_syrup(solids), formula::standard_atmosphere).value;
            return stage_name(*find_stage_table(w.table), plain);
        }
        case measure::set_word:
            return std::string(word_for(std::pow(10.0, x)).word).append(" (").append(in_pa_s(x)).append(")");
    }
    return {};
}

/// What is wanted, in words.
inline std::string wanted_text(const wanted& w, double serve_celsius) {
    const double celsius = std::isnan(w.celsius) ? serve_celsius : w.celsius;
    const std::string at = " at " + both_scales(celsius, 0);
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
