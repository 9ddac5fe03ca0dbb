// Layers of a dessert that touch: which way water moves between them, how much until equilibrium, and what each is
// then.  Only water moves; how fast is not said.
#pragma once

#include <string>
#include <vector>

#include "../texture/consistency.hpp"

namespace sirop::core {

struct layer {
    std::string name;
    mixture contents;
};

struct layer_answer {
    std::string name;
    double grams = not_a_number;
    double water_activity_before = not_a_number;
    double water_percent_before = not_a_number;
    estimate water_gained_grams;  ///< until equilibrium; negative where it gives
    double water_percent_after = not_a_number;
    estimate log10_firmness_before, log10_firmness_after;
    mixture after;
};

struct neighbours_answer {
    double celsius = not_a_number;
    estimate water_activity;  ///< common to all at equilibrium
    std::vector<layer_answer> layers;
};

/// Equilibrium of layers at a temperature in C of 0 or more: one water activity for all, the water conserved; each
/// layer then holds what its solids hold there (the additive-water rule).  Water beyond what the solids hold at an
/// activity of 1 cannot be told apart between layers: then not computed (the status of water_activity says so).
inline neighbours_answer at_equilibrium(const std::vector<layer>& layers, double celsius) {
    neighbours_answer answer;
    answer.celsius = celsius;
    const double kelvin = celsius + formula::zero_celsius;
    mixture all;
    for (const auto& l : layers) all += l.contents;
    double ln_aw[3] = {0.0, 0.0, 0.0};
    constexpr curve sides[3] = {curve::best, curve::low, curve::high};
    const bool computed = all.water() > 0.0 && holds_water(all);
    for (int i = 0; i < 3 && computed; ++i) ln_aw[i] = ln_activity(all, kelvin, sides[i]);
    const bool bound = computed && std::isfinite(ln_aw[0]) && ln_aw[0] < 0.0;
    if (bound)
        answer.water_activity = between(std::exp(ln_aw[0]), std::exp(ln_aw[1]), std::exp(ln_aw[2]),
                                        isotherms_grade(all, ln_aw[0], kelvin));
    for (const auto& l : layers) {
        layer_answer a;
        a.name = l.name;
        a.grams = l.contents.total();
        a.water_percent_before = 100.0 * l.contents.water() / l.contents.total();
        a.water_activity_before = water_activity(l.contents, celsius).value;
        a.log10_firmness_before = log10_firmness(l.contents, celsius);
        if (bound) {
            double held[3] = {0.0, 0.0, 0.0};
            for (int i = 0; i < 3; ++i)
                held[i] = ln_aw[i] < 0.0 ? water_held(l.contents, ln_aw[i], kelvin, sides[i]) : not_a_number;
            a.water_gained_grams = between(held[0] - l.contents.water(), held[1] - l.contents.water(),
                                           held[2] - l.contents.water(), answer.water_activity.status);
            a.after = l.contents.with_water(held[0]);
            a.water_percent_after = 100.0 * held[0] / a.after.total();
            a.log10_firmness_after = log10_firmness(a.after, celsius);
        }
        answer.layers.push_back(std::move(a));
    }
    return answer;
}

}  // namespace sirop::core
