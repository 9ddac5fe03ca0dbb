// From a batch to the prediction: boil down, add off the heat, cool, and judge.  `predict`, at the end, is the row
// of the stages; each stage stands above it.
#pragma once

#include <cmath>
#include <optional>
#include <string>

#include "../texture/stage_equivalent.hpp"
#include "batch.hpp"
#include "mixing.hpp"
#include "prediction.hpp"

namespace sirop::core {

/// A tablespoon of milk, 15 g, to 300 g of the batch (our choice).
inline constexpr double spoonful_grams = 15.0, spoonful_per_grams = 300.0;

namespace detail {

/// The kitchen, the end of the cook, and between which temperatures this pan can be answered.
inline cooked_state end_of_cook(const batch& b, const mixture& pan) {
    cooked_state c;
    c.celsius = b.real_celsius();
    c.thermometer_celsius = b.thermometer_celsius;
    c.pressure_pa = b.pressure_pa;
    c.water_boils_celsius = water_boils_celsius(b.pressure_pa);
    c.highest_celsius = highest_answer_celsius(pan, b.pressure_pa);
    c.starts_to_boil_celsius = best_boiling_celsius(pan, b.pressure_pa);
    return c;
}

/// What is added where a target in C is far too hot, but would do in F.
inline std::string meant_in_fahrenheit(const batch& b, const cooked_state& c) {
    const double meant = fahrenheit_to_celsius(b.thermometer_celsius);
    const double real = meant - b.thermometer_error_kelvin;
    if (b.target_place.ends_with("fahrenheit") || !(real >= c.starts_to_boil_celsius && real <= c.highest_celsius))
        return {};
    return "; is that °F? " + shortest(b.thermometer_celsius) + " °F is " + fixed(meant, 1) +
           " °C: write to_fahrenheit";
}

/// Why the pan cannot be boiled down to the target, if so.
inline std::optional<refusal> find_cook_fault(const batch& b, const mixture& pan, const cooked_state& c) {
    if (!(pan.water() > 0.0))
        return refusal{"pan",
                       "holds no water, so it cannot be boiled down; add water or a syrup (dry-melted sugar is "
                       "outside the model)"};
    if (!(pan.dissolved() > 0.0))
        return refusal{"pan",
                       "holds nothing dissolved, so its boiling point is that of water; add sugar or a syrup"};
    if (!std::isfinite(c.starts_to_boil_celsius) || c.starts_to_boil_celsius > c.highest_celsius)
        return refusal{"pan", "is drier than the model goes (99.5 % solids of the syrup phase); add water"};

    if (c.celsius >= c.starts_to_boil_celsius && c.celsius <= c.highest_celsius) return std::nullopt;
    const std::string target =
        both_scales(c.thermometer_celsius) +
        (b.thermometer_error_kelvin != 0.0 ? ", really " + both_scales(c.celsius) + "," : "");
    // On the cook's thermometer, which is what the cook can act on; rounded to the safe side in each scale, so
    // that the temperature named is accepted.
    const auto shown = [&](double real, double (*round)(double)) {
        const double reading = real + b.thermometer_error_kelvin;
        return fixed(round(reading * 10.0) / 10.0, 1) + " °C (" +
               fixed(round(celsius_to_fahrenheit(reading) * 10.0) / 10.0, 1) + " °F)";
    };
    if (!(c.celsius <= c.highest_celsius))
        return refusal{b.target_place, target +
                                           " is beyond the model (99.5 % solids of the syrup phase); the highest "
                                           "temperature that it can answer here is " +
                                           shown(c.highest_celsius, [](double x) { return std::floor(x); }) +
                                           meant_in_fahrenheit(b, c)};
    return refusal{b.target_place, target +
                                       " is not reached by boiling: the pan would hold more water than it "
                                       "has; it starts to boil at " +
                                       shown(c.starts_to_boil_celsius, [](double x) { return std::ceil(x); })};
}

/// Grams of water that the pan holds where the cook ends.  The uncertainties of the model and of the thermometer
/// are independent; at or below boiling water all the water is left.
inline estimate water_left(const batch& b, const mixture& pan, double celsius) {
    const estimate held = water_at_boil(pan, celsius, b.pressure_pa);
    if (!(b.thermometer_within_kelvin > 0.0)) return held;
    const double hot = best_water_at_boil(pan, celsius + b.thermometer_within_kelvin, b.pressure_pa);
    const double cool = best_water_at_boil(pan, celsius - b.thermometer_within_kelvin, b.pressure_pa);
    estimate wider = in_quadrature(
        {held, std::isfinite(hot) ? hot : 0.0, std::isfinite(cool) ? std::fmin(cool, pan.water()) : pan.water()});
    wider.low = std::fmax(wider.low, 0.0);
    return wider;
}

/// The pan with so much water left, on its three sides; never more than it had.
inline sides<mixture> boiled_down(const mixture& pan, const estimate& water) {
    return sides_of(water).map([&](double grams) { return pan.with_water(std::fmin(grams, pan.water())); });
}

inline void describe_cooked(cooked_state& c, const mixture& pan, const sides<mixture>& cooked, grade status) {
    const auto of = [&](const auto& property) { return estimate_of(cooked.map(property), status); };
    c.contents = cooked.value;
    c.water_activity = std::exp(ln_activity_at_boil(c.celsius, c.pressure_pa));
    c.grams = of([](const mixture& m) { return m.total(); });
    c.water_percent = of([](const mixture& m) { return percent(m.water(), m.total()); });
    c.solids_percent = of([](const mixture& m) { return 100.0 - percent(m.water(), m.total()); });
    c.water_boiled_off_grams = of([&](const mixture& m) { return pan.water() - m.water(); });
}

/// Where ice begins to form, over all three sides; down to the end of the model where one freezes below it.
inline estimate freezing_on_sides(const sides<mixture>& finished) {
    const auto points = finished.map([](const mixture& m) { return freezing_celsius(m); });
    estimate e = points.value;
    if (!e.computed()) return e;
    for (const auto& side : {points.low, points.high}) {
        e.low = std::fmin(e.low, side.computed() ? side.low : min_freezing_celsius);
        e.high = std::fmax(e.high, side.high);
    }
    return e;
}

/// The batch with its additions, at the serving temperature; status: of the water left.
inline finished_state finished_with(const sides<mixed>& additions_in, double serve_celsius,
                                    const estimate_and_ends& activity_at_serving, grade status) {
    const auto contents = additions_in.map([](const mixed& m) { return m.contents; });
    const auto of = [&](const auto& property) { return estimate_of(contents.map(property), status); };
    finished_state f;
    f.contents = contents.value;
    f.at_serving = at_temperature(f.contents, serve_celsius);
    f.mixed_celsius = additions_in.value.celsius;
    f.undissolved_sugar_grams = f.contents.crystals();
    f.grams = of([](const mixture& m) { return m.total(); });
    f.water_percent = of([](const mixture& m) { return percent(m.water(), m.total()); });
    f.fat_percent = of([](const mixture& m) { return percent(m.fat(), m.total()); });
    f.water_flashed_grams = estimate_of(additions_in.map([](const mixed& m) { return m.flashed_grams; }), status);
    f.syrup_solids_percent = of([](const mixture& m) { return 100.0 * m.syrup_solids(); });
    f.brix_of_syrup_phase = estimate_to_the_end(contents.map([](const mixture& m) { return brix_of_syrup(m); }),
                                                100.0 * last_refraction_solids, status);
    f.millilitres = of([&](const mixture& m) { return volume(m, serve_celsius); });
    f.glass_transition_celsius = of([](const mixture& m) { return glass_celsius(m); });
    const estimate glass = glass_transition(f.contents);
    f.glass_transition_celsius.low -= glass.value - glass.low;
    f.glass_transition_celsius.high += glass.high - glass.value;
    f.water_activity_at_serving = stretched(activity_at_serving);
    f.water_activity_at_serving.status = worst(f.water_activity_at_serving.status, status);
    f.freezing_celsius = freezing_on_sides(contents);
    f.sucrose_supersaturation = sucrose_supersaturation(f.contents, std::fmax(serve_celsius, 0.0));
    f.lactose_supersaturation = lactose_supersaturation(f.contents, std::fmax(serve_celsius, 0.0));
    return f;
}

/// The stage of the pan by its temperature and by its consistency, and that of the finished batch.
inline stage_answer stage_of(const cooked_state& c, const mixture& finished, const stage_table& table) {
    const auto in_cold_water = stage_in_cold_water(c.contents, table);
    stage_answer s;
    s.table = std::string(table.name);
    s.sea_level_celsius = carried_celsius(c.celsius, c.pressure_pa, formula::standard_atmosphere);
    s.by_temperature = stage_text(table, stage_of_carried(table, c.celsius, c.pressure_pa, s.sea_level_celsius));
    s.by_consistency = stage_text(table, in_cold_water.place);
    s.plain_syrup_celsius = in_cold_water.plain_celsius;
    s.finished_by_consistency = stage_text(table, stage_in_cold_water(finished, table).place);
    return s;
}

/// The set with so much cold milk stirred in.
inline loosening loosened_with_milk(const sides<mixture>& finished, double milk_grams, double serve_celsius) {
    const mixture milk = off_the_heat(milk_grams, *pantry_composition("whole milk"));
    loosening l;
    l.milk_grams = milk_grams;
    l.log10_firmness = firmness_at(finished.map([&](mixture m) { return m += milk; }), serve_celsius);
    if (l.log10_firmness.computed()) l.word = word_of_log10(l.log10_firmness.value);
    return l;
}

/// The batch and the layers that touch it, where it is kept; nothing without such layers.  A layer is finished:
/// what sugar it has is in solution or a glass.
inline neighbours_answer beside_neighbours(const batch& b, const mixture& finished) {
    if (b.neighbours.empty()) return {};
    std::vector<layer> layers = {{"this batch", finished}};
    for (const auto& line : b.neighbours) layers.push_back({line.name, contents_of({line})});
    return at_equilibrium(layers, std::fmax(b.stored_celsius(), 0.0));
}

}  // namespace detail

/// The main job.  Refused: a fault in the numbers; a target at which the pan would hold more water than it has (it
/// does not boil yet), or drier than the model goes.
inline outcome<prediction> predict(const batch& b, const stage_table& table) {
    if (auto fault = find_fault(b)) return *fault;
    prediction p;
    p.title = b.title;
    p.notes = b.notes;
    p.pan = in_the_pan(b.pan);
    p.pan_grams = p.pan.total();
    for (const auto& line : b.off_heat) p.off_heat_grams += line.grams;
    p.thermometer_within_kelvin = b.thermometer_within_kelvin;
    p.cooked = detail::end_of_cook(b, p.pan);
    if (auto fault = detail::find_cook_fault(b, p.pan, p.cooked)) return *fault;

    const estimate water = detail::water_left(b, p.pan, p.cooked.celsius);
    const auto cooked = detail::boiled_down(p.pan, water);
    detail::describe_cooked(p.cooked, p.pan, cooked, water.status);

    const auto added = additions(b.off_heat);
    const auto additions_in =
        cooked.map([&](const mixture& m) { return mix(m, p.cooked.celsius, added, b.pressure_pa); });
    const auto finished = additions_in.map([](const mixed& m) { return m.contents; });
    const auto activity_at = [&](double celsius) {
        return estimate_and_ends_of(
            finished, [&](const mixture& m) { return activity_of(m, celsius); },
            [&](const mixture& m) { return best_activity(m, celsius); });
    };
    const auto activity_at_serving = activity_at(b.serve_celsius);
    p.finished = detail::finished_with(additions_in, b.serve_celsius, activity_at_serving, water.status);

    p.stage = detail::stage_of(p.cooked, p.finished.contents, table);
    p.set = set_of(finished, b.serve_celsius, b.pour_celsius);
    for (auto* e : {&p.set.log10_viscosity, &p.set.log10_firmness}) e->status = worst(e->status, water.status);
    p.with_milk = detail::loosened_with_milk(
        finished, spoonful_grams * p.finished.grams.value / spoonful_per_grams, b.serve_celsius);

    const double store = b.stored_celsius();
    p.graining_at_serving = graining_of(p.finished.at_serving, b.serve_celsius);
    const bool as_served = store == b.serve_celsius;
    p.graining_in_storage =
        as_served ? p.graining_at_serving : graining_of(at_temperature(p.finished.contents, store), store);
    p.keeping_in_storage = keeping_of(in_quadrature(as_served ? activity_at_serving : activity_at(store)), store);
    p.neighbours = detail::beside_neighbours(b, p.finished.contents);

    for (const auto& e :
         {water, p.finished.water_activity_at_serving, p.set.log10_viscosity, p.set.log10_firmness})
        p.status = worst(p.status, e.status);
    return p;
}

}  // namespace sirop::core
