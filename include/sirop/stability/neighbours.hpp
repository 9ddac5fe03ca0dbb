// Layers of a dessert that touch: which way water moves between them, how much until equilibrium, and what each is
// then.  Only water moves; how fast is not said.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "../base/sides.hpp"
#include "../texture/consistency.hpp"

namespace sirop::core {

/// What touches: a finished mixture with its name.
struct layer {
    std::string name;
    mixture contents;
};

/// What a layer is before water moves and after; the numbers after are not given without an equilibrium.
struct layer_answer {
    std::string name;
    double grams = not_a_number;
    double water_activity_before = not_a_number;
    double water_percent_before = not_a_number;
    estimate water_gained_grams;  ///< until equilibrium; negative where it gives
    double water_percent_after = not_a_number;
    estimate log10_firmness_before, log10_firmness_after;  ///< Pa s
    mixture after;
};

struct neighbours_answer {
    double celsius = not_a_number;
    estimate water_activity;  ///< common to all at equilibrium
    std::vector<layer_answer> layers;
};

/// Equilibrium of layers at a temperature in C of 0 or more: one water activity for all, the water conserved; each
/// layer then holds what its solids hold there, in its own glass where it is one.  Water beyond what the solids
/// hold at an activity of 1 cannot be told apart between layers: then not computed (the status of water_activity
/// says so).
inline neighbours_answer at_equilibrium(const std::vector<layer>& layers, double celsius) {
    const double kelvin = celsius + formula::zero_celsius;
    neighbours_answer answer;
    answer.celsius = celsius;
    mixture all;
    for (const auto& l : layers) all += l.contents;
    sides<double> ln_aw;
    if (all.water() > 0.0 && holds_water(all))
        ln_aw = three_curves.map([&](curve side) {
            const auto off = [&](double distance, double) {
                double grams = 0.0;
                for (const auto& l : layers) grams += water_held(l.contents, -distance, kelvin, side);
                return sloped<double>{std::log(grams / all.water()), -1.0};
            };
            using search = detail::activity_search<double>;
            int brackets = 0;
            return search::answer(
                falling_root<double>(off, {0.3, 1.0}, search::least(), search::most(), brackets));
        });
    const bool bound = std::isfinite(ln_aw.value) && ln_aw.value < 0.0;
    if (bound)
        answer.water_activity = estimate_of(ln_aw.map([](double ln) { return std::exp(ln); }),
                                            isotherms_grade(all, ln_aw.value, kelvin));
    for (const auto& l : layers) {
        const double water = l.contents.water();
        layer_answer a;
        a.name = l.name;
        a.grams = l.contents.total();
        a.water_percent_before = 100.0 * water / a.grams;
        a.water_activity_before = water_activity(l.contents, celsius).value;
        a.log10_firmness_before = log10_firmness(l.contents, celsius);
        if (bound) {
            const auto held = ln_aw.map(three_curves, [&](double ln, curve side) {
                return ln < 0.0 ? water_held(l.contents, ln, kelvin, side) : not_a_number;
            });
            a.water_gained_grams =
                estimate_of(held.map([&](double grams) { return grams - water; }), answer.water_activity.status);
            a.after = l.contents.with_water(held.value);
            a.water_percent_after = 100.0 * held.value / a.after.total();
            a.log10_firmness_after = log10_firmness(a.after, celsius);
        }
        answer.layers.push_back(std::move(a));
    }
    return answer;
}

}  // namespace sirop::core
