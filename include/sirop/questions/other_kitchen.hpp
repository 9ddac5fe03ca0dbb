// The same recipe in another yield, in another kitchen, by volume: what changes and what does not.
#pragma once

#include <cmath>

#include "cook_path.hpp"

namespace sirop::core {

/// Density, g/ml at 20 C, by which an ingredient may be measured in millilitres; refused for what arrives dry,
/// whose bulk depends on how it lies.
inline outcome<double> pouring_density(const ingredient_line& line) {
    mixture m;
    m.grams = line.per_gram;
    if (arrives_dry(line.per_gram) && m.fat() < 0.99)
        return refusal{line.name, "arrives dry, and its volume depends on how it lies; weigh it"};
    return density(m, 20.0);
}

/// All masses times a factor.
inline batch scaled(batch b, double factor) {
    for (auto* lines : {&b.pan, &b.off_heat, &b.neighbours})
        for (auto& line : *lines) line.grams *= factor;
    return b;
}

/// A batch for another yield.
struct scale_answer {
    double factor = not_a_number;
    double finished_grams = not_a_number, finished_millilitres = not_a_number;  ///< before the loss
    batch plan;
};

/// The batch for another yield: so many grams, or millilitres at the serving temperature, in the jar; loss_grams
/// stay in pan and tools whatever the batch.  The cook temperature does not change; the time does.
inline outcome<scale_answer> scale_to(const batch& b, double grams, double millilitres, double loss_grams = 0.0) {
    if (auto fault = find_fault(b)) return *fault;
    if (std::isfinite(grams) == std::isfinite(millilitres))
        return refusal{"yield", "needs one of grams and millilitres"};
    const double asked = std::isfinite(grams) ? grams : millilitres;
    if (!(asked > 0.0 && asked <= grams_limit.high))
        return refusal{"yield", shortest(asked) + " is outside the accepted range, above 0 to 1e9"};
    if (!(loss_grams >= 0.0 && loss_grams <= grams_limit.high))
        return refusal{"yield.loss_grams", shortest(loss_grams) + " is outside the accepted range, 0 to 1e9 g"};
    const auto path = path_to_target(b);
    if (!path) return path.why;
    const mixture finished = path->finished_at(b.real_celsius());
    const double total = finished.total(), per_gram = volume(finished, b.serve_celsius) / total;
    const double wanted_grams = (std::isfinite(grams) ? grams : millilitres / per_gram) + loss_grams;
    scale_answer a;
    a.factor = wanted_grams / total;
    a.finished_grams = wanted_grams;
    a.finished_millilitres = wanted_grams * per_gram;
    a.plan = scaled(b, a.factor);
    return a;
}

/// A batch in another kitchen.
struct travel_answer {
    double from_thermometer_celsius = not_a_number, thermometer_celsius = not_a_number;
    double real_celsius = not_a_number;  ///< in the new kitchen
    double water_boils_from_celsius = not_a_number, water_boils_celsius = not_a_number;
    double rule_of_thumb_celsius = not_a_number;  ///< lower by what boiling water lacks: under-corrects
    double water_percent = not_a_number;          ///< of the pan: the same in both
    double rule_of_thumb_water_percent = not_a_number;
    batch plan;  ///< for the new kitchen
};

/// The batch in a kitchen of another pressure and with another thermometer: the temperature that leaves the same
/// water.  The set, the yield and the keeping do not change; what the additions flash off does, slightly.
inline outcome<travel_answer> travel(const batch& b, double pressure_pa, double thermometer_error_kelvin) {
    if (auto fault = find_fault(b)) return *fault;
    if (!pressure_limit.holds(0.01 * pressure_pa))
        return outside("to.pressure_hpa", pressure_limit, 0.01 * pressure_pa);
    if (!thermometer_error_limit.holds(thermometer_error_kelvin))
        return outside("to.thermometer_error_kelvin", thermometer_error_limit, thermometer_error_kelvin);
    const auto path = path_to_target(b);
    if (!path) return path.why;
    const mixture cooked = path->cooked_at(b.real_celsius());
    travel_answer a;
    a.from_thermometer_celsius = b.thermometer_celsius;
    a.real_celsius = boiling_celsius(cooked, pressure_pa, curve::best);
    a.thermometer_celsius = a.real_celsius + thermometer_error_kelvin;
    a.water_boils_from_celsius = water_boils_celsius(b.pressure_pa);
    a.water_boils_celsius = water_boils_celsius(pressure_pa);
    const double thumb = b.real_celsius() + a.water_boils_celsius - a.water_boils_from_celsius;
    a.rule_of_thumb_celsius = thumb + thermometer_error_kelvin;
    a.water_percent = percent(cooked.water(), cooked.total());
    const auto by_thumb = water_at_boil(path->pan, thumb, pressure_pa);
    if (by_thumb.computed())
        a.rule_of_thumb_water_percent = percent(by_thumb.value, path->pan.with_water(by_thumb.value).total());
    a.plan = b;
    a.plan.pressure_pa = pressure_pa;
    a.plan.thermometer_error_kelvin = thermometer_error_kelvin;
    a.plan.thermometer_celsius = a.thermometer_celsius;
    return a;
}

}  // namespace sirop::core
