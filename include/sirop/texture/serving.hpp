// What a finished batch is when it is cold: the set at the serving temperature, whether it pours, holds a cut, and
// what the freezer does.
#pragma once

#include <array>
#include <string>

#include "../base/sides.hpp"
#include "consistency.hpp"

namespace sirop::core {

enum class verdict : unsigned char { no, maybe, yes };
inline constexpr std::array<std::string_view, 3> verdict_names = {"no", "maybe", "yes"};

inline constexpr double freezer_celsius = -18.0;  ///< common practice

/// What set_of finds.
struct set_answer {
    double celsius = not_a_number;
    estimate log10_viscosity;                            ///< Pa s, without gels and networks
    estimate gel_modulus;                                ///< Pa
    estimate log10_firmness;                             ///< Pa s, both together
    std::string word, word_if_thinner, word_if_thicker;  ///< by the firmness
    estimate slump_seconds;                      ///< of a layer 1 cm high, to half; infinite where it stands
    estimate standing_metres;                    ///< height that stands without cold flow
    estimate pouring_celsius;                    ///< from where on it pours when warmed
    double pour_celsius = not_a_number;          ///< where it shall pour, if asked
    verdict pours = verdict::no;                 ///< there, or else at the serving temperature
    verdict holds = verdict::no;                 ///< a 1 cm layer keeps half its height for 10 minutes
    bool cracks = false;                         ///< too hard to slice: it breaks
    double frozen_water_percent = not_a_number;  ///< of its water, in a freezer at -18 C
    std::string frozen_word;
};

/// yes or no where both ends of an interval say so, else maybe.
constexpr verdict judged(bool low, bool high) {
    return low && high ? verdict::yes : (low || high ? verdict::maybe : verdict::no);
}

/// log10 of the firmness, Pa s, at a temperature in C, with ice where it freezes; not computed without water.
inline estimate firmness_at(const sides<mixture>& batch, double celsius, history h = history::cooling) {
    return in_quadrature(estimate_and_ends_of(
        batch, [&](const mixture& m) { return log10_firmness(at_temperature(m, celsius), celsius, h); },
        [&](const mixture& m) {
            grade ignored = grade::fine;
            return m.water() > 0.0 ? detail::log10_firmness_value(at_temperature(m, celsius), celsius, h, ignored)
                                   : not_a_number;
        }));
}

namespace detail {

/// The values of a set alone, of one side of a finished batch; NaN without water.
struct set_values {
    double log10_viscosity = not_a_number, log10_firmness = not_a_number, gel_modulus = not_a_number,
           slump_seconds = not_a_number, standing_metres = not_a_number, pouring_celsius = not_a_number;
};
inline set_values values_at(const mixture& finished, double celsius) {
    const mixture m = at_temperature(finished, celsius);
    set_values v;
    if (m.total() > 0.0) {
        v.gel_modulus = moduli(m, celsius, history::cooling).value;
        const auto layer = slump_of(m, celsius);
        v.standing_metres = layer.standing_metres(v.gel_modulus);
        if (!(m.water() > 0.0)) return v;
        grade ignored = grade::fine;
        v.log10_viscosity = log10_viscosity_value(m, celsius, ignored);
        v.log10_firmness = log10_firmness_value(v.log10_viscosity, v.gel_modulus);
        v.slump_seconds = layer.seconds(v.log10_viscosity, v.gel_modulus);
        v.pouring_celsius = best_pouring_celsius(finished);
    }
    return v;
}

}  // namespace detail

/// The set of a finished batch, on the three sides of its water, at a temperature in C; pour_celsius: where it
/// shall pour, NaN if not asked.  Without water only the temperatures are set.
inline set_answer set_of(const sides<mixture>& finished, double celsius, double pour_celsius = not_a_number) {
    set_answer s;
    s.celsius = celsius;
    s.pour_celsius = pour_celsius;
    const mixture cold = at_temperature(finished.value, celsius);
    const estimate viscous = log10_viscosity(cold, celsius);
    if (!viscous.computed()) return s;
    const auto springs = detail::moduli(cold, celsius, history::cooling);
    const auto layer = detail::slump_of(cold, celsius);
    const auto low = detail::values_at(finished.low, celsius), high = detail::values_at(finished.high, celsius);
    s.log10_viscosity = in_quadrature({viscous, low.log10_viscosity, high.log10_viscosity});
    s.log10_firmness =
        in_quadrature({detail::log10_firmness(viscous, springs), low.log10_firmness, high.log10_firmness});
    const estimate modulus = detail::gel_modulus(springs);
    s.gel_modulus = stretched({modulus, low.gel_modulus, high.gel_modulus});
    s.slump_seconds =
        stretched({detail::slump_seconds(layer, viscous, springs), low.slump_seconds, high.slump_seconds});
    s.standing_metres =
        stretched({detail::standing_metres(layer, modulus), low.standing_metres, high.standing_metres});
    s.pouring_celsius =
        in_quadrature({pouring_celsius(finished.value), low.pouring_celsius, high.pouring_celsius});
    s.word = word_of_log10(s.log10_firmness.value);
    s.word_if_thinner = word_of_log10(s.log10_firmness.low);
    s.word_if_thicker = word_of_log10(s.log10_firmness.high);

    const double pours = std::log10(pouring_pa_s);
    const auto poured =
        std::isfinite(pour_celsius) ? firmness_at(finished, pour_celsius, history::warming) : s.log10_firmness;
    s.pours = judged(poured.high <= pours, poured.low <= pours);
    s.cracks = s.log10_firmness.value >= std::log10(find_set_word("hard")->from_pa_s);
    s.holds = judged(s.slump_seconds.low >= serving_seconds, s.slump_seconds.high >= serving_seconds);

    const auto frozen = at_temperature(finished.value, freezer_celsius);
    s.frozen_water_percent = 100.0 * frozen.ice / (frozen.ice + frozen.water());
    s.frozen_word = word_of_log10(log10_firmness(frozen, freezer_celsius).value);
    return s;
}

}  // namespace sirop::core
