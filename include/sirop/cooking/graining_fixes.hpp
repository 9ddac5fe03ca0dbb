// The smallest change of a batch that clears its risk of graining.
#pragma once

#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "predict.hpp"

namespace sirop::core {

namespace detail {

/// Whether a finished batch is at most at low risk, at serving and in storage.
inline bool clear_of_graining(const batch& b, const mixture& finished) {
    if (!(finished.water() > 0.0)) return false;
    const auto clear_at = [&](double celsius) {
        return hardly_grains(at_temperature(finished, celsius), celsius);
    };
    return clear_at(b.stored_celsius()) && (b.serve_celsius == b.stored_celsius() || clear_at(b.serve_celsius));
}

/// The edge, within a step, of a property that holds on one side of [no, yes]; NaN if it does not hold at `yes`,
/// or at any of the halves of the way to it that are longer than a step: too much of an addition may undo the
/// change.
template <class Holds>
double edge_of(double no, double yes, double step, const Holds& holds) {
    while (!holds(yes)) {
        yes = no + 0.5 * (yes - no);
        if (!(std::fabs(yes - no) > step)) return not_a_number;
    }
    return edge_between(no, yes, step, holds);
}

}  // namespace detail

/// Ways to bring a batch down to a low risk: so much glucose syrup of 42 DE or invert sugar syrup in the pan,
/// cooked to the same temperature, or more water left, that is, a lower temperature.  Amounts are rounded up to 1
/// g in 1000, the temperature down to 0.1 C.  None if it is clear, or if no such change clears it.
inline std::vector<way_to_clear> ways_to_clear_graining(const batch& b) {
    std::vector<way_to_clear> ways;
    const mixture pan = in_the_pan(b.pan);
    const double real = b.real_celsius(), error = b.thermometer_error_kelvin;
    const auto added_off_heat = additions(b.off_heat);
    const auto finished = [&](const mixture& m, double celsius) {
        return finished_at(m, celsius, added_off_heat, b.pressure_pa).contents;
    };
    const auto clear = [&](const mixture& m, double celsius) {
        return detail::clear_of_graining(b, finished(m, celsius));
    };
    if (clear(pan, real)) return ways;

    const double step = 1.0e-3 * pan.total();
    const double most = 4.0 * (pan[component::sucrose] + pan[component::lactose]) + step;
    const bool whole_grams = pan.total() >= 200.0;
    for (const auto& [change, ingredient] : {std::array<const char*, 2>{"glucose syrup", "glucose syrup 42 DE"},
                                             std::array<const char*, 2>{"invert sugar", "invert sugar syrup"}}) {
        const masses added = *pantry_composition(ingredient);
        const double edge = detail::edge_of(0.0, most, step, [&](double grams) {
            mixture more = pan;
            more.add(grams, added);
            return clear(more, real);
        });
        if (!std::isfinite(edge)) continue;
        const double grams = whole_grams ? std::ceil(edge) : edge;
        ways.push_back({change, grams, b.thermometer_celsius,
                        fixed(grams, whole_grams ? 0 : 2) + " g of " + ingredient +
                            " more in the pan (cooked to the same " + both_scales(b.thermometer_celsius) + ")"});
    }

    const double boils = best_boiling_celsius(pan, b.pressure_pa);
    const double cooler = detail::edge_of(real, boils, 0.02, [&](double t) { return clear(pan, t); });
    if (!std::isfinite(cooler)) return ways;
    // a tenth of a degree down, unless that is where it does not boil yet
    double shown = std::floor(10.0 * (cooler + error)) / 10.0;
    if (shown - error < boils) shown = std::ceil(10.0 * (boils + error)) / 10.0;
    const mixture wetter = finished(pan, shown - error);
    if (!detail::clear_of_graining(b, wetter)) return ways;
    const double grams = wetter.water() - finished(pan, real).water();
    ways.push_back({"more water", grams, shown,
                    fixed(grams, 0) + " g of water more left in it: cook only to " + both_scales(shown)});
    return ways;
}

}  // namespace sirop::core
