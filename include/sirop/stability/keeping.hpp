// Keeping, as a screening figure: water activity at the storage temperature against published limits of growth,
// and the relative humidity at which a batch neither gains nor loses water.
#pragma once

#include <array>
#include <cmath>
#include <string_view>

#include "../solution/mixture.hpp"

namespace sirop::core {

/// A group of microbes, by the water activity below which it does not grow.
struct growth_limit {
    double water_activity;
    std::string_view group;
};

/// Beuchat, Cereal Foods World 26 (1981) 345, as it is usually reprinted; the print itself was not at hand.  At
/// 0.75 reprints name halophilic bacteria (recalled, confidence high), others moulds of dry food: both are named
/// here. The 0.85 of S. aureus is not sure to be Beuchat's: it is the limit in the US rules, where a food at or
/// below it counts as not needing temperature control (recalled, confidence high).
inline constexpr std::array<growth_limit, 7> growth_limits = {{
    {0.91, "many bacteria"},
    {0.87, "many yeasts"},
    {0.85, "Staphylococcus aureus"},
    {0.80, "most moulds"},
    {0.75, "bacteria and moulds that like it salty or dry"},
    {0.65, "moulds that like it driest"},
    {0.60, "sugar-tolerant yeasts"},
}};
inline constexpr std::string_view growth_limits_source = "Beuchat, Cereal Foods World 26 (1981) 345";

/// What keeping_of finds of a batch where it is kept.
struct keeping {
    double celsius = not_a_number;
    estimate water_activity;
    estimate relative_humidity_percent;  ///< of air in which it neither gains nor loses water
    std::string_view growth;             ///< the most demanding group that the high end lets grow; empty: none
    bool chill = false;                  ///< the high end is above 0.85
    bool frozen = false;                 ///< too cold for growth; what is said of it holds once it is thawed
};

/// Below this nothing grows, frozen or not (common practice, no source).
inline constexpr double no_growth_celsius = -10.0;

/// The water activity of a mixture at a temperature in C: that of ice where it freezes.  Not computed without
/// water.
inline estimate activity_of(const mixture& m, double celsius) {
    const auto cold = at_temperature(m, celsius);
    if (cold.ice > 0.0) return exactly(std::exp(formula::ice_ln_activity(celsius + formula::zero_celsius)));
    return water_activity(cold, celsius);
}

/// Its best value alone; NaN without water.
inline double best_activity(const mixture& m, double celsius) {
    if (!(m.water() > 0.0)) return not_a_number;
    const double kelvin = celsius + formula::zero_celsius;
    return std::exp(at_temperature(m, celsius).ice > 0.0 ? formula::ice_ln_activity(kelvin)
                                                         : best_ln_activity(m, kelvin));
}

/// Judges a water activity at a temperature in C: a group is said to grow if the high end of the interval lets it.
/// An activity that is not computed is not judged.
inline keeping keeping_of(const estimate& activity, double celsius) {
    keeping k;
    k.celsius = celsius;
    k.water_activity = activity;
    if (!activity.computed()) return k;
    k.relative_humidity_percent = {100.0 * activity.value, 100.0 * activity.low, 100.0 * activity.high,
                                   activity.status};
    for (const auto& limit : growth_limits)
        if (activity.high > limit.water_activity) {
            k.growth = limit.group;
            break;
        }
    k.chill = activity.high > 0.85;
    k.frozen = celsius < no_growth_celsius;
    return k;
}

}  // namespace sirop::core
