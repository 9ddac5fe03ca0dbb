// From a batch to the prediction: boil down, add off the heat, cool, and judge.
#pragma once

#include <cmath>
#include <string>

#include "../stability/graining.hpp"
#include "../stability/keeping.hpp"
#include "../stability/neighbours.hpp"
#include "../texture/serving.hpp"
#include "../texture/stage_equivalent.hpp"
#include "batch.hpp"
#include "mixing.hpp"

namespace sirop::core {

struct cooked_state {
    double celsius = not_a_number;              ///< real temperature at which the cook ends
    double thermometer_celsius = not_a_number;  ///< what the cook's thermometer shows then
    double pressure_pa = not_a_number;
    double water_boils_celsius = not_a_number;
    double water_activity = not_a_number;  ///< fixed by temperature and pressure
    double starts_to_boil_celsius = not_a_number;
    double highest_celsius = not_a_number;  ///< the end of the model for this pan
    estimate water_percent, solids_percent, grams, water_boiled_off_grams;
    mixture contents;
};

struct finished_state {
    estimate grams, water_percent, fat_percent, water_flashed_grams, water_activity_at_serving,
        syrup_solids_percent, brix_of_syrup_phase, glass_transition_celsius, freezing_celsius, millilitres;
    double mixed_celsius = not_a_number;  ///< where the additions bring the batch
    double sucrose_supersaturation = not_a_number, lactose_supersaturation = not_a_number;  ///< at serving
    double undissolved_sugar_grams = 0.0;
    mixture contents;
    mixture at_serving;  ///< with the ice that has formed
};

struct stage_answer {
    std::string table;
    std::string by_temperature;  ///< the table, read at this pressure
    std::string by_consistency;  ///< the plain syrup that is as stiff as what is in the pan
    double sea_level_celsius = not_a_number;
    double plain_syrup_celsius = not_a_number;  ///< where plain syrup at sea level has this consistency
    std::string finished_by_consistency;        ///< the same after the additions
};

/// What a spoonful of cold milk stirred into the finished batch makes of it.
struct loosening {
    double milk_grams = not_a_number;
    estimate log10_firmness;
    std::string word;
};

/// One change of a batch that brings its risk of graining down to low.
struct way_to_clear {
    std::string change;  ///< "glucose syrup", "invert sugar" or "more water"
    double grams = not_a_number;
    double thermometer_celsius = not_a_number;  ///< at which the changed batch is cooked
    std::string sentence;
};

struct prediction {
    std::string title;
    mixture pan;
    double pan_grams = 0.0, off_heat_grams = 0.0;
    double thermometer_within_kelvin = 0.0;
    cooked_state cooked;
    finished_state finished;
    stage_answer stage;
    set_answer set;
    loosening with_milk;
    graining graining_at_serving, graining_in_storage;
    keeping keeping_in_storage;
    std::vector<way_to_clear> ways_to_clear;  ///< empty where the risk is none or low
    neighbours_answer neighbours;             ///< no layers if none were given
    grade status = grade::fine;               ///< the worst of water, activity and viscosity
    std::vector<std::string> cautions, notes;
};

/// A tablespoon of milk, 15 g, to 300 g of the batch (our choice).
inline constexpr double spoonful_grams = 15.0, spoonful_per_grams = 300.0;

/// Mass percent of a part.
inline double percent(double part, double whole) {
    return 100.0 * part / whole;
}

/// The main job.  Refused: a fault in the numbers; a target at which the pan would hold more water than it has (it
/// does not boil yet), or drier than the model goes.
inline outcome<prediction> predict(const batch& b, const stage_table& table) {
    if (auto fault = find_fault(b)) return *fault;
    prediction p;
    p.title = b.title;
    p.pan = in_the_pan(b.pan);
    p.pan_grams = p.pan.total();
    for (const auto& line : b.off_heat) p.off_heat_grams += line.grams;
    p.notes = b.notes;
    p.thermometer_within_kelvin = b.thermometer_within_kelvin;

    auto& c = p.cooked;
    c.pressure_pa = b.pressure_pa;
    c.water_boils_celsius = water_boils_celsius(b.pressure_pa);
    c.thermometer_celsius = b.thermometer_celsius;
    c.celsius = b.thermometer_celsius - b.thermometer_error_kelvin;
    const std::string target =
        both_scales(c.thermometer_celsius) +
        (b.thermometer_error_kelvin != 0.0 ? ", really " + both_scales(c.celsius) + "," : "");

    if (!(p.pan.water() > 0.0))
        return refusal{"pan",
                       "holds no water, so it cannot be boiled down; add water or a syrup (dry-melted sugar is "
                       "outside the model)"};
    if (!(p.pan.dissolved() > 0.0))
        return refusal{"pan",
                       "holds nothing dissolved, so its boiling point is that of water; add sugar or a syrup"};
    c.highest_celsius = highest_answer_celsius(p.pan, b.pressure_pa);
    c.starts_to_boil_celsius = boiling_celsius(p.pan, b.pressure_pa, curve::best);
    // On the cook's thermometer, which is what the cook can act on.
    // Rounded to the safe side in each scale, so that the temperature named is accepted.
    const auto shown = [&](double real, double (*round)(double)) {
        const double reading = real + b.thermometer_error_kelvin;
        return fixed(round(reading * 10.0) / 10.0, 1) + " °C (" +
               fixed(round(celsius_to_fahrenheit(reading) * 10.0) / 10.0, 1) + " °F)";
    };
    if (!std::isfinite(c.starts_to_boil_celsius) || c.starts_to_boil_celsius > c.highest_celsius)
        return refusal{"pan", "is drier than the model goes (99.5 % solids of the syrup phase); add water"};
    if (!(c.celsius <= c.highest_celsius))
        return refusal{b.target_place, target +
                                           " is beyond the model (99.5 % solids of the syrup phase); the highest "
                                           "temperature that it can answer here is " +
                                           shown(c.highest_celsius, [](double x) { return std::floor(x); })};
    if (c.celsius < c.starts_to_boil_celsius)
        return refusal{b.target_place, target +
                                           " is not reached by boiling: the pan would hold more water than it "
                                           "has; it starts to boil at " +
                                           shown(c.starts_to_boil_celsius, [](double x) { return std::ceil(x); })};

    const double ln_aw = ln_activity_at_boil(c.celsius, b.pressure_pa);
    c.water_activity = std::exp(ln_aw);
    auto held = water_at_boil(p.pan, c.celsius, b.pressure_pa);
    if (b.thermometer_within_kelvin > 0.0) {
        // the model's uncertainty and the thermometer's are independent; at or below boiling water all the water
        // is left
        const double hot = water_at_boil(p.pan, c.celsius + b.thermometer_within_kelvin, b.pressure_pa).value;
        const double cool = water_at_boil(p.pan, c.celsius - b.thermometer_within_kelvin, b.pressure_pa).value;
        held.low = held.value - std::hypot(held.value - held.low, held.value - (std::isfinite(hot) ? hot : 0.0));
        held.high = held.value +
                    std::hypot(held.high - held.value,
                               std::fmin(std::isfinite(cool) ? cool : p.pan.water(), p.pan.water()) - held.value);
        held.low = std::fmax(held.low, 0.0);
    }
    const double water[3] = {std::fmin(held.value, p.pan.water()), std::fmin(held.low, p.pan.water()),
                             std::fmin(held.high, p.pan.water())};
    mixture cooked[3];
    for (int i = 0; i < 3; ++i) cooked[i] = p.pan.with_water(water[i]);
    c.contents = cooked[0];
    const auto of_cooked = [&](auto&& f, grade status) {
        return between(f(cooked[0]), f(cooked[1]), f(cooked[2]), status);
    };
    c.grams = of_cooked([](const mixture& m) { return m.total(); }, held.status);
    c.water_percent = of_cooked([](const mixture& m) { return percent(m.water(), m.total()); }, held.status);
    c.solids_percent =
        of_cooked([](const mixture& m) { return 100.0 - percent(m.water(), m.total()); }, held.status);
    c.water_boiled_off_grams = of_cooked([&](const mixture& m) { return p.pan.water() - m.water(); }, held.status);

    auto& f = p.finished;
    mixed done[3];
    mixture cold[3];
    for (int i = 0; i < 3; ++i) {
        done[i] = mix(cooked[i], c.celsius, b.off_heat, b.pressure_pa);
        cold[i] = at_temperature(done[i].contents, b.serve_celsius);
    }
    f.contents = done[0].contents;
    f.at_serving = cold[0];
    f.mixed_celsius = done[0].celsius;
    f.undissolved_sugar_grams = f.contents.crystals();
    const auto of_done = [&](auto&& g, grade status = grade::fine) {
        return between(g(done[0].contents), g(done[1].contents), g(done[2].contents), worst(status, held.status));
    };
    f.grams = of_done([](const mixture& m) { return m.total(); });
    f.water_percent = of_done([](const mixture& m) { return percent(m.water(), m.total()); });
    f.fat_percent = of_done([](const mixture& m) { return percent(m.fat(), m.total()); });
    f.water_flashed_grams =
        between(done[0].flashed_grams, done[1].flashed_grams, done[2].flashed_grams, held.status);
    f.syrup_solids_percent = of_done([](const mixture& m) { return 100.0 * m.syrup_solids(); });
    f.brix_of_syrup_phase =  // a side beyond the scale reaches to its end
        detail::to_the_end(brix_of_syrup(done[0].contents), brix_of_syrup(done[1].contents),
                           brix_of_syrup(done[2].contents), 100.0 * last_refraction_solids, held.status);
    f.millilitres = of_done([&](const mixture& m) { return volume(m, b.serve_celsius); });
    const auto glass = of_done([](const mixture& m) { return glass_celsius(m); });
    f.glass_transition_celsius = {glass.value, glass.low - glass_error_kelvin, glass.high + glass_error_kelvin,
                                  glass.status};
    f.water_activity_at_serving = activity_of(done[0].contents, b.serve_celsius);
    for (int i = 1; i < 3; ++i) {
        const auto side = activity_of(done[i].contents, b.serve_celsius);
        auto& aw = f.water_activity_at_serving;
        if (!side.computed() || !aw.computed()) continue;
        aw.low = std::fmin(aw.low, side.value);
        aw.high = std::fmax(aw.high, side.value);
        aw.status = worst(aw.status, held.status);
    }
    f.freezing_celsius = freezing_celsius(f.contents);
    for (int i = 1; i < 3 && f.freezing_celsius.computed(); ++i) {
        const auto side = freezing_celsius(done[i].contents);
        f.freezing_celsius.low =
            std::fmin(f.freezing_celsius.low, side.computed() ? side.low : min_freezing_celsius);
        if (side.computed()) f.freezing_celsius.high = std::fmax(f.freezing_celsius.high, side.high);
    }
    f.sucrose_supersaturation = sucrose_supersaturation(f.contents, std::fmax(b.serve_celsius, 0.0));
    f.lactose_supersaturation = lactose_supersaturation(f.contents, std::fmax(b.serve_celsius, 0.0));

    auto& s = p.stage;
    s.table = std::string(table.name);
    s.sea_level_celsius = carried_celsius(c.celsius, b.pressure_pa, formula::standard_atmosphere);
    s.by_temperature = stage_text(table, stage_of_temperature(table, c.celsius, b.pressure_pa));
    const auto in_cold_water = stage_in_cold_water(c.contents, table);
    s.by_consistency = stage_text(table, in_cold_water.place);
    s.plain_syrup_celsius = in_cold_water.plain_celsius;
    s.finished_by_consistency = stage_text(table, stage_in_cold_water(f.contents, table).place);

    const three_mixtures finished = {done[0].contents, done[1].contents, done[2].contents};
    p.set = set_of(finished, b.serve_celsius, b.pour_celsius);
    for (auto* e : {&p.set.log10_viscosity, &p.set.log10_firmness}) e->status = worst(e->status, held.status);

    p.with_milk.milk_grams = spoonful_grams * f.grams.value / spoonful_per_grams;
    three_mixtures looser = finished;
    for (auto& m : looser)
        m += off_the_heat({"whole milk", *pantry_composition("whole milk"), p.with_milk.milk_grams, 5.0});
    p.with_milk.log10_firmness = firmness_at(looser, b.serve_celsius);
    if (p.with_milk.log10_firmness.computed())
        p.with_milk.word = std::string(word_for(std::pow(10.0, p.with_milk.log10_firmness.value)).word);

    p.graining_at_serving = graining_of(cold[0], b.serve_celsius);
    const double store = b.stored_celsius();
    p.graining_in_storage = graining_of(at_temperature(f.contents, store), store);
    p.keeping_in_storage =
        keeping_of(detail::over_three(finished, [&](const mixture& m) { return activity_of(m, store); }), store);
    if (!b.neighbours.empty()) {
        std::vector<layer> layers = {{"this batch", f.contents}};
        // a layer is finished: what sugar it has is in solution or a glass
        for (const auto& line : b.neighbours) layers.push_back({line.name, in_the_pan({line})});
        p.neighbours = at_equilibrium(layers, std::fmax(b.stored_celsius(), 0.0));
    }
    for (const auto& e : {held, f.water_activity_at_serving, p.set.log10_viscosity, p.set.log10_firmness})
        p.status = worst(p.status, e.status);
    return p;
}

}  // namespace sirop::core
