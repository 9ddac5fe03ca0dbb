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
    return in_quadrature(
        batch.map([&](const mixture& m) { return log10_firmness(at_temperature(m, celsius), celsius, h); }));
}

/// The set of a finished batch, on the three sides of its water, at a temperature in C; pour_celsius: where it
/// shall pour, NaN if not asked.  Without water only the temperatures are set.
inline set_answer set_of(const sides<mixture>& finished, double celsius, double pour_celsius = not_a_number) {
    const auto cold = finished.map([&](const mixture& m) { return at_temperature(m, celsius); });
    set_answer s;
    s.celsius = celsius;
    s.pour_celsius = pour_celsius;
    s.log10_viscosity = in_quadrature(cold.map([&](const mixture& m) { return log10_viscosity(m, celsius); }));
    if (!s.log10_viscosity.computed()) return s;
    s.log10_firmness = in_quadrature(cold.map([&](const mixture& m) { return log10_firmness(m, celsius); }));
    s.gel_modulus = stretched(cold.map([&](const mixture& m) { return gel_modulus(m, celsius); }));
    s.slump_seconds = stretched(cold.map([&](const mixture& m) { return slump_to_half_seconds(m, celsius); }));
    s.standing_metres = stretched(cold.map([&](const mixture& m) { return standing_metres(m, celsius); }));
    s.pouring_celsius = in_quadrature(finished.map([](const mixture& m) { return pouring_celsius(m); }));
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
