// Logged cooks, from which a kitchen is learned, and which of them cannot be.
#pragma once

#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "cook_for.hpp"

namespace sirop::core {

/// One cook, as it was done: the batch with what the thermometer showed and the pressure of that day, and what was
/// measured of the finished batch.
struct cook_log {
    batch cook;
    double grams = not_a_number;        ///< of what was got out of the pan, additions included; NaN: not weighed
    double brix = not_a_number;         ///< of its syrup phase at 20 C; NaN: not read
    double grams_error = not_a_number;  ///< standard error; NaN: the larger of 2 g and 0.5 %
    double brix_error = not_a_number;   ///< standard error; NaN: 0.5
    double reading_error_kelvin = not_a_number;  ///< standard error of reading the thermometer; NaN: 0.3
};

/// Our estimates.  Reading: a scale read to half a kelvin, and the moment at which the pan leaves the heat.
/// Without it a thin syrup, of which a kelvin boils off a tenth, would seem to tell the offset to some hundredths
/// of a kelvin.
inline constexpr double usual_grams_error = 2.0, usual_grams_error_share = 0.005, usual_brix_error = 0.5,
                        usual_reading_error_kelvin = 0.3;

/// The accepted answers, and from where a measurement counts as an outlier or as a contradiction (our choices).
inline constexpr double most_offset_kelvin = 15.0, most_loss_share = 0.20, outlier_errors = 3.5,
                        contradiction_errors = 10.0;

namespace detail {

/// The first log that cannot be, if any.
inline std::optional<refusal> find_log_fault(const std::vector<cook_log>& logs) {
    for (std::size_t i = 0; i < logs.size(); ++i) {
        const auto& l = logs[i];
        const std::string place = "logs[" + std::to_string(i) + "].";
        if (auto fault = find_fault(l.cook)) return refusal{place + fault->place, fault->reason};
        const cook_path path(l.cook);
        if (auto fault = find_pan_fault(path)) return refusal{place + fault->place, fault->reason};
        const double shown = l.cook.thermometer_celsius - l.cook.thermometer_error_kelvin;
        if (shown + most_offset_kelvin <= path.boils_celsius || shown - most_offset_kelvin >= path.last_celsius)
            return refusal{place + l.cook.target_place,
                           both_scales(l.cook.thermometer_celsius) + " is more than " +
                               fixed(most_offset_kelvin, 0) + " K off the range of this pan, " +
                               both_scales(path.boils_celsius) + " to " + both_scales(path.last_celsius)};
        const auto check_error = [&](double error, const char* name) -> std::optional<refusal> {
            if (std::isnan(error) || (error > 0.0 && std::isfinite(error))) return std::nullopt;
            return refusal{place + name, shortest(error) + " is not accepted; a standard error above 0 is"};
        };
        if (auto fault = check_error(l.grams_error, "grams_error")) return fault;
        if (auto fault = check_error(l.brix_error, "brix_error")) return fault;
        if (!std::isnan(l.reading_error_kelvin) &&
            !(l.reading_error_kelvin >= 0.0 && l.reading_error_kelvin <= most_offset_kelvin))
            return outside(place + "reading_error_kelvin", l.reading_error_kelvin, "0 to 15 K");
        if (!std::isnan(l.grams)) {
            double in = path.pan.total(), dry = in - path.pan.water();
            for (const auto& line : l.cook.off_heat) {
                in += line.grams;
                dry += line.grams * (1.0 - line.per_gram[index_of(component::water)]);
            }
            if (!(l.grams > 0.0))
                return refusal{place + "grams", shortest(l.grams) + " is not accepted; more than 0 g is"};
            if (l.grams > in)
                return refusal{place + "grams", shortest(l.grams) + " g is more than went in, " + fixed(in, 1) +
                                                    " g; check the scale, or whether the pan was weighed with it"};
            if (l.grams < (1.0 - most_loss_share) * dry)
                return refusal{place + "grams", shortest(l.grams) + " g is less than four fifths of the " +
                                                    fixed(dry, 1) +
                                                    " g that cannot boil off; check the masses of this log"};
        }
        if (!std::isnan(l.brix) && !(l.brix > 0.0 && on_brix_scale(l.brix)))
            return outside(place + "brix", l.brix, "above 0 to 95 Brix");
    }
    return std::nullopt;
}

}  // namespace detail

}  // namespace sirop::core
