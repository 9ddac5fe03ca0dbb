// What a finished batch is when it is cold: the set at the serving temperature, whether it pours, holds a cut, and
// what the freezer does.
#pragma once

#include <array>
#include <string>

#include "consistency.hpp"

namespace sirop::core {

/// A batch by its best estimate, and the two sides that the uncertainty of its water leaves open.
using three_mixtures = std::array<mixture, 3>;

enum class verdict : unsigned char { no, maybe, yes };
inline constexpr std::array<std::string_view, 3> verdict_names = {"no", "maybe", "yes"};

inline constexpr double freezer_celsius = -18.0;  ///< common practice

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

namespace detail {

/// An interval of the best mixture, widened by what the other two give: in quadrature.
template <class Property>
estimate over_three(const three_mixtures& m, const Property& of) {
    estimate e = of(m[0]);
    if (!e.computed()) return e;
    double down = e.value - e.low, up = e.high - e.value;
    for (std::size_t i = 1; i < 3; ++i) {
        const double other = of(m[i]).value - e.value;
        if (other > 0.0) up = std::hypot(up, other);
        if (other < 0.0) down = std::hypot(down, other);
    }
    e.low = e.value - down;
    e.high = e.value + up;
    return e;
}

/// The same for a positive value of which the factor counts; an infinite side stays infinite.
template <class Property>
estimate over_three_by_factor(const three_mixtures& m, const Property& of) {
    estimate e = of(m[0]);
    if (!e.computed()) return e;
    for (std::size_t i = 1; i < 3; ++i) {
        const estimate other = of(m[i]);
        e.low = std::fmin(e.low, other.value);
        e.high = std::fmax(e.high, other.value);
    }
    return e;
}

constexpr verdict judged(bool low, bool high) {
    return low && high ? verdict::yes : (low || high ? verdict::maybe : verdict::no);
}

}  // namespace detail

/// The firmness at a temperature, with ice where it freezes, over the three sides.
inline estimate firmness_at(const three_mixtures& m, double celsius, history h = history::cooling) {
    return detail::over_three(
        m, [&](const mixture& x) { return log10_firmness(at_temperature(x, celsius), celsius, h); });
}

/// The set of a finished batch at a temperature in C; pour_celsius: where it shall pour, NaN if not asked.
inline set_answer set_of(const three_mixtures& finished, double celsius, double pour_celsius = not_a_number) {
    set_answer s;
    s.celsius = celsius;
    s.pour_celsius = pour_celsius;
    three_mixtures cold;
    for (std::size_t i = 0; i < 3; ++i) cold[i] = at_temperature(finished[i], celsius);
    const auto at = [&](auto&& property) {
        return [&, property](const mixture& m) { return property(m, celsius); };
    };
    s.log10_viscosity =
        detail::over_three(cold, at([](const mixture& m, double t) { return log10_viscosity(m, t); }));
    if (!s.log10_viscosity.computed()) return s;
    s.log10_firmness =
        detail::over_three(cold, at([](const mixture& m, double t) { return log10_firmness(m, t); }));
    s.gel_modulus =
        detail::over_three_by_factor(cold, at([](const mixture& m, double t) { return gel_modulus(m, t); }));
    s.slump_seconds = detail::over_three_by_factor(
        cold, at([](const mixture& m, double t) { return slump_to_half_seconds(m, t); }));
    s.standing_metres =
        detail::over_three_by_factor(cold, at([](const mixture& m, double t) { return standing_metres(m, t); }));
    s.pouring_celsius = detail::over_three(finished, [](const mixture& m) { return pouring_celsius(m); });
    const auto word = [](double log10) { return std::string(word_for(std::pow(10.0, log10)).word); };
    s.word = word(s.log10_firmness.value);
    s.word_if_thinner = word(s.log10_firmness.low);
    s.word_if_thicker = word(s.log10_firmness.high);

    const double pours = std::log10(pouring_pa_s);
    const auto poured =
        std::isfinite(pour_celsius) ? firmness_at(finished, pour_celsius, history::warming) : s.log10_firmness;
    s.pours = detail::judged(poured.high <= pours, poured.low <= pours);
    const double hard = std::log10(find_set_word("hard")->from_pa_s);
    s.cracks = s.log10_firmness.value >= hard;
    s.holds = detail::judged(s.slump_seconds.low >= serving_seconds, s.slump_seconds.high >= serving_seconds);

    const auto frozen = at_temperature(finished[0], freezer_celsius);
    s.frozen_water_percent = 100.0 * frozen.ice / (frozen.ice + frozen.water());
    s.frozen_word = word(log10_firmness(frozen, freezer_celsius).value);
    return s;
}

}  // namespace sirop::core
