// The main job: mass balance, signs, heat balance, refusals of the core.
#include <gtest/gtest.h>

#include <charconv>
#include <filesystem>
#include <fstream>
#include <random>
#include <set>
#include <sstream>

#include "expect.hpp"
#include "json/batch_file.hpp"
#include "mixtures.hpp"
#include "pantry_mixtures.hpp"
#include "sirop/cooking/advice.hpp"
#include "sweep.hpp"

namespace {

using namespace sirop;
using namespace sirop::core;
using namespace sirop_test;

prediction predicted(const batch& b) {
    auto answer = predict_with_advice(b, stage_tables[0]);
    EXPECT_TRUE(answer) << answer.why.place << ": " << answer.why.reason;
    return answer ? *answer : prediction{};
}

/// Every gram in is in the output: what the contract's answer says of masses, on the numbers themselves.
void expect_mass_balance(const batch& b, const prediction& p) {
    double pan = 0.0, off_heat = 0.0;
    double alcohol = 0.0;  // of the pan: it leaves before the syrup boils, and is not counted
    for (const auto& l : b.pan) alcohol += l.grams * l.per_gram[index_of(component::ethanol)];
    for (const auto& l : b.pan) pan += l.grams;
    pan -= alcohol;
    for (const auto& l : b.off_heat) off_heat += l.grams;
    const double tolerance = 1.0e-9 * (pan + off_heat);  // relative, rounding of sums of a dozen numbers
    EXPECT_NEAR(p.cooked.grams.value + p.cooked.water_boiled_off_grams.value, pan, tolerance);
    EXPECT_NEAR(p.finished.grams.value, p.cooked.grams.value + off_heat - p.finished.water_flashed_grams.value,
                tolerance);
    EXPECT_NEAR(p.finished.at_serving.total(), p.finished.grams.value, tolerance);
    // and component by component: nothing but water and the pan's alcohol leaves, nothing turns into something
    // else
    masses in{};
    for (const auto* lines : {&b.pan, &b.off_heat})
        for (const auto& l : *lines)
            for (std::size_t i = 0; i < component_count; ++i) in[i] += l.grams * l.per_gram[i];
    in[index_of(component::ethanol)] -= alcohol;
    const auto& out = p.finished.contents;
    for (const auto& c : components) {
        double left = out[c.id];
        if (c.id == component::sucrose) left += out.crystals(component::sucrose);
        if (c.id == component::lactose) left += out.crystals(component::lactose);
        if (c.id == component::water)
            left += p.cooked.water_boiled_off_grams.value + p.finished.water_flashed_grams.value;
        EXPECT_NEAR(left, in[index_of(c.id)], tolerance) << c.name;
    }
    EXPECT_GE(p.cooked.water_boiled_off_grams.value, 0.0);
    EXPECT_GE(p.finished.water_flashed_grams.value, 0.0);
}

TEST(cook, balances_the_masses_of_every_example_batch) {
    int count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(SIROP_SOURCE_DIR "/examples/batches")) {
        std::ifstream file(entry.path());
        std::stringstream text;
        text << file.rdbuf();
        const auto b = lib::read_batch(text.str());
        ASSERT_TRUE(b) << entry.path() << " " << b.why.reason;
        SCOPED_TRACE(entry.path());
        expect_mass_balance(*b, predicted(*b));
        ++count;
    }
    EXPECT_GE(count, 7);
}

/// A random believable batch: some sugar, syrup, dairy; additions; any kitchen.
batch random_batch(std::mt19937_64& random) {
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    batch b;
    const auto pick = [&](int most, std::vector<ingredient_line>& lines) {
        const int n = static_cast<int>(unit(random) * most);
        for (int i = 0; i < n; ++i) {
            const auto& row = pantry[static_cast<std::size_t>(unit(random) * static_cast<double>(pantry.size()))];
            lines.push_back(
                {std::string(row.name), composition_of(row), 200.0 * unit(random), 80.0 * unit(random)});
        }
    };
    b.pan = {line("white sugar", 300.0 * unit(random) + 10.0), line("water", 500.0)};
    pick(5, b.pan);
    pick(4, b.off_heat);
    b.pressure_pa = 60000.0 + 45000.0 * unit(random);
    b.serve_celsius = -20.0 + 60.0 * unit(random);
    const mixture pan = in_the_pan(b.pan);
    const double from = boiling_celsius(pan, b.pressure_pa, curve::best);
    const double to = highest_answer_celsius(pan, b.pressure_pa);
    b.thermometer_celsius = from + (to - from) * (0.001 + 0.998 * unit(random));
    return b;
}

TEST(cook, balances_the_masses_of_random_batches) {
    std::mt19937_64 random(20);
    const std::size_t n = sweep(10000);
    for (std::size_t i = 0; i < n && !HasFailure(); ++i) {
        const batch b = random_batch(random);
        const auto p = predict(b, stage_tables[0]);
        ASSERT_TRUE(p) << i << " " << p.why.place << ": " << p.why.reason;
        SCOPED_TRACE(i);
        expect_mass_balance(b, *p);
        // intervals hold their values, and everything that must be a number is one
        for (const auto& e : {p->cooked.water_percent, p->finished.grams, p->finished.water_percent,
                              p->finished.syrup_solids_percent, p->finished.glass_transition_celsius,
                              p->finished.water_activity_at_serving, p->set.log10_viscosity}) {
            EXPECT_TRUE(e.computed());
            EXPECT_TRUE(holds(e, e.value));
        }
        EXPECT_FALSE(p->stage.by_temperature.empty());
        EXPECT_FALSE(p->stage.by_consistency.empty());
    }
}

TEST(cook, does_not_mind_the_order_of_ingredients) {
    batch a = cream_caramel(108.5), b = cream_caramel(108.5);
    std::swap(b.pan[0], b.pan[2]);
    const auto p = predicted(a), q = predicted(b);
    EXPECT_NEAR(p.cooked.grams.value, q.cooked.grams.value, 1e-12 * p.cooked.grams.value);
    EXPECT_NEAR(p.set.log10_viscosity.value, q.set.log10_viscosity.value, 1e-12);
    EXPECT_EQ(p.stage.by_consistency, q.stage.by_consistency);
}

TEST(cook, is_the_same_for_a_kilogram_and_a_tonne) {
    std::mt19937_64 random(21);
    for (std::size_t i = 0; i < sweep(500); ++i) {
        const batch small = random_batch(random);
        const auto p = predict(small, stage_tables[0]), q = predict(sized(small, 1000.0), stage_tables[0]);
        ASSERT_TRUE(p && q);
        EXPECT_NEAR(q->finished.grams.value, 1000.0 * p->finished.grams.value, 1e-9 * q->finished.grams.value);
        EXPECT_NEAR(q->finished.water_percent.value, p->finished.water_percent.value, 1e-9);
        EXPECT_NEAR(q->set.log10_viscosity.value, p->set.log10_viscosity.value, 1e-7);
        EXPECT_EQ(q->set.word, p->set.word);
    }
}

TEST(cook, hotter_is_drier_and_stiffer) {
    double water = 101.0, viscosity = -10.0, activity = 1.0;
    for (double t = 105.0; t < 165.0; t += 0.5) {
        const auto p = predicted(cream_caramel(t));
        EXPECT_LT(p.cooked.water_percent.value, water);
        EXPECT_GT(p.set.log10_viscosity.value, viscosity);
        EXPECT_LT(p.finished.water_activity_at_serving.value, activity);
        water = p.cooked.water_percent.value;
        viscosity = p.set.log10_viscosity.value;
        activity = p.finished.water_activity_at_serving.value;
    }
}

TEST(cook, more_glucose_syrup_makes_the_same_temperature_stiffer_than_the_table_says) {
    // Greer, School and Home Cooking (1920): with glucose syrup every stage comes at a lower temperature.
    const batch plain = batch_of({line("white sugar", 300), line("water", 150)}, 118.0),
                with_syrup = batch_of(
                    {line("white sugar", 150), line("glucose syrup 42 DE", 190), line("water", 100)}, 118.0);
    EXPECT_GT(predicted(with_syrup).stage.plain_syrup_celsius, predicted(plain).stage.plain_syrup_celsius + 0.5);
}

TEST(cook, reads_the_table_at_the_kitchens_pressure) {
    // Plain syrup at 1524 m, 85 % solids: boils 9.8 F lower than at sea level (computed; regression).
    const double low = formula::standard_pressure(1524.0);
    const auto syrup = plain_syrup(0.85);
    const double drop =
        boiling_celsius(syrup, formula::standard_atmosphere).value - boiling_celsius(syrup, low).value;
    EXPECT_NEAR(1.8 * drop, 9.8, 0.05);
    batch b =
        batch_of({line("white sugar", 300), line("water", 150)}, 109.4);  // soft ball at sea level is 113..116
    b.pressure_pa = low;
    EXPECT_EQ(predicted(b).stage.by_temperature, "soft ball");
    b.pressure_pa = formula::standard_atmosphere;
    EXPECT_EQ(predicted(b).stage.by_temperature, "thread");
}

TEST(cook, corrects_the_thermometer) {
    batch right = cream_caramel(108.0), wrong = cream_caramel(109.5);
    wrong.thermometer_error_kelvin = 1.5;
    EXPECT_NEAR(predicted(right).cooked.grams.value, predicted(wrong).cooked.grams.value, 1e-9);
    EXPECT_EQ(predicted(wrong).cooked.thermometer_celsius, 109.5);
    EXPECT_NEAR(predicted(wrong).cooked.celsius, 108.0, 1e-12);
}

TEST(cook, takes_the_thermometers_uncertainty_into_every_interval) {
    batch sure = cream_caramel(108.5), unsure = cream_caramel(108.5);
    unsure.thermometer_within_kelvin = 1.0;
    const auto p = predicted(sure), q = predicted(unsure);
    EXPECT_EQ(p.cooked.grams.value, q.cooked.grams.value);
    // a degree either way moves the water by what two cooks a degree apart differ
    const double hotter = predicted(cream_caramel(109.5)).cooked.water_percent.value;
    EXPECT_NEAR(q.cooked.water_percent.value - q.cooked.water_percent.low,
                std::hypot(p.cooked.water_percent.value - p.cooked.water_percent.low,
                           p.cooked.water_percent.value - hotter),
                0.05);
    for (const auto& [narrow, wide] : {std::pair{p.finished.water_percent, q.finished.water_percent},
                                       std::pair{p.set.log10_viscosity, q.set.log10_viscosity},
                                       std::pair{p.finished.grams, q.finished.grams}}) {
        EXPECT_LT(wide.low, narrow.low);
        EXPECT_GT(wide.high, narrow.high);
    }
    unsure.thermometer_within_kelvin = -1.0;
    EXPECT_FALSE(predict(unsure, stage_tables[0]));
}

TEST(cook, butter_brings_water_and_fat_holds_none) {
    batch without = cream_caramel(108.5);
    without.off_heat.clear();
    batch with_fat = without;
    with_fat.pan.push_back(line("clarified butter", 100));
    const auto p = predicted(without), q = predicted(with_fat), r = predicted(cream_caramel(108.5));
    // clarified butter of 0.24 % water and 0.28 % protein leaves the cooked water as it was, within those
    EXPECT_NEAR(q.cooked.contents.water(), p.cooked.contents.water(), 0.1);
    EXPECT_NEAR(r.finished.contents.water() - p.finished.contents.water(), 40.0 * 0.1794, 0.01);
}

// Heat balance.  300 g of molten sugar at 170 C and 200 g of cream: our earlier calculation with the same heat
// capacities (regression, not validation).
const mixture molten_sugar = made_of({{component::sucrose, 300.0}});

TEST(mix, cold_cream_on_hot_sugar_does_not_boil) {
    const auto r = mix(molten_sugar, 170.0, {line("heavy cream 36 %", 200, 5.0)}, 101325.0);
    EXPECT_NEAR(r.celsius, 88.0, 2.0);
    EXPECT_EQ(r.flashed_grams, 0.0);
}

TEST(mix, warm_cream_on_hot_sugar_boils_and_the_heat_is_spent) {
    const auto cream = line("heavy cream 36 %", 200, 80.0);
    const auto r = mix(molten_sugar, 170.0, {cream}, 101325.0);
    EXPECT_NEAR(r.celsius, 106.0, 2.0);
    EXPECT_NEAR(r.flashed_grams, 11.0, 3.0);
    // what is left boils at the temperature that it has
    EXPECT_NEAR(boiling_celsius(r.contents, 101325.0).value, r.celsius, 1e-6);
    // enthalpy in = enthalpy left + steam
    const double in = enthalpy_joule(molten_sugar, 170.0) + enthalpy_joule(off_the_heat(cream), 80.0);
    const double out =
        enthalpy_joule(r.contents, r.celsius) + 1e-3 * r.flashed_grams *
                                                    (formula::specific_enthalpy(r.celsius, formula::heat_water) +
                                                     formula::latent_heat(r.celsius + 273.15));
    EXPECT_NEAR(out, in, 1e-6 * in);
}

TEST(mix, without_additions_nothing_changes) {
    const auto r = mix(plain_syrup(0.9), 122.0, {}, 101325.0);
    EXPECT_EQ(r.celsius, 122.0);
    EXPECT_EQ(r.contents.water(), plain_syrup(0.9).water());
}

TEST(mix, dry_sugar_dissolves_up_to_saturation_and_the_rest_stays) {
    const mixture syrup = plain_syrup(0.65).times(200.0);  // 70 g of water
    const auto r = mix(syrup, 60.0, {line("white sugar", 300.0, 20.0)}, 101325.0);
    EXPECT_GT(r.contents.crystals(component::sucrose), 1.0);
    EXPECT_NEAR(sucrose_supersaturation(r.contents, r.celsius), 1.0, 1e-9);
    const auto little = mix(syrup, 60.0, {line("white sugar", 5.0, 20.0)}, 101325.0);
    EXPECT_EQ(little.contents.crystals(component::sucrose), 0.0);
    // a syrup is wet: its sugar stays in solution
    EXPECT_EQ(off_the_heat(line("honey", 100)).crystals(), 0.0);
    EXPECT_GT(off_the_heat(line("dark chocolate 60-69 %", 100)).crystals(component::sucrose), 30.0);
}

TEST(mix, of_dry_and_warm_additions_into_hot_sugar_always_settles) {
    // Sugar that dissolves after the first balance once left the second without a root.
    std::mt19937_64 random(22);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    for (std::size_t i = 0; i < sweep(3000); ++i) {
        batch b = batch_of(
            {line("white sugar", 250), line("glucose syrup 42 DE", 300 * unit(random)), line("water", 80)});
        b.off_heat = {line("heavy cream 36 %", 150 * unit(random), 90 * unit(random)),
                      line("milk chocolate", 200 * unit(random), 30), line("skim milk powder", 40 * unit(random))};
        b.thermometer_celsius = 130.0 + 40.0 * unit(random);
        const auto p = predict(b, stage_tables[0]);
        ASSERT_TRUE(p) << p.why.reason;
        ASSERT_TRUE(std::isfinite(p->finished.mixed_celsius)) << i;
        ASSERT_LT(p->finished.mixed_celsius, b.thermometer_celsius);
        ASSERT_TRUE(holds(p->finished.water_flashed_grams, p->finished.water_flashed_grams.value));
    }
    const batch b = batch_of({line("white sugar", 250), line("glucose syrup 42 DE", 150), line("water", 80)},
                             165.0, {line("heavy cream 36 %", 100, 85), line("milk chocolate", 150, 30)});
    EXPECT_GT(predicted(b).finished.water_flashed_grams.value, 0.2);
}

TEST(refusal, names_a_temperature_that_is_then_accepted) {
    std::mt19937_64 random(23);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    const auto named = [](const std::string& text, const char* unit_sign) {
        const auto end = text.rfind(unit_sign);
        const auto from = text.find_last_of(" (", end - 1) + 1;
        double x = 0.0;
        std::from_chars(text.data() + from, text.data() + end, x);
        return x;
    };
    for (std::size_t i = 0; i < sweep(400); ++i) {
        batch b = batch_of(
            {line("white sugar", 100), line("honey", 50 * unit(random)), line("water", 20 + 60 * unit(random))});
        b.thermometer_error_kelvin = 3.0 * unit(random) - 1.5;
        for (const double impossible : {70.0, 390.0}) {
            b.thermometer_celsius = impossible;
            const auto r = predict(b, stage_tables[0]);
            ASSERT_FALSE(r);
            batch again = b;
            again.thermometer_celsius = named(r.why.reason, " °C");
            EXPECT_TRUE(predict(again, stage_tables[0])) << r.why.reason;
            again.thermometer_celsius = fahrenheit_to_celsius(named(r.why.reason, " °F"));
            EXPECT_TRUE(predict(again, stage_tables[0])) << r.why.reason;
        }
    }
}

TEST(advice, says_what_makes_the_set_and_what_is_not_modelled) {
    const auto noted = [](const prediction& q, const char* word) { return mentions(q.notes, word); };
    batch ganache =
        batch_of({line("heavy cream 36 %", 300), line("invert sugar syrup", 40), line("white sugar", 20)}, 101.5,
                 {line("dark chocolate 60-69 %", 400)});
    ganache.serve_celsius = 16.0;
    auto p = predicted(ganache);
    // sliceable (common practice, no source): by its cocoa butter, not by its syrup
    EXPECT_LT(p.set.log10_viscosity.value, std::log10(10.0));
    EXPECT_GE(p.set.log10_firmness.value, std::log10(find_set_word("soft set")->from_pa_s));
    EXPECT_EQ(p.set.word, "soft set");
    EXPECT_GT(p.set.gel_modulus.value, 100.0);
    EXPECT_EQ(p.set.holds, verdict::yes);
    EXPECT_FALSE(p.set.cracks);
    EXPECT_EQ(p.set.pours, verdict::no);
    EXPECT_TRUE(noted(p, "Cocoa butter"));
    // it is melted at 40 C, and there it pours
    ganache.serve_celsius = 40.0;
    p = predicted(ganache);
    EXPECT_NE(p.set.pours, verdict::no);
    EXPECT_EQ(p.set.holds, verdict::no);
    EXPECT_FALSE(noted(p, "Cocoa butter"));

    batch jelly = batch_of({line("water", 500), line("white sugar", 300), line("agar", 6)}, 102.5);
    p = predicted(jelly);
    EXPECT_TRUE(noted(p, "Agar sets on cooling"));
    EXPECT_TRUE(std::isinf(p.set.slump_seconds.value));
    EXPECT_GT(p.set.log10_firmness.value, p.set.log10_viscosity.value + 3.0);
    // stirred in off the heat it does not set, and that is said
    jelly.off_heat = {jelly.pan.back()};
    jelly.pan.pop_back();
    p = predicted(jelly);
    EXPECT_TRUE(noted(p, "not boiled does not set"));
    EXPECT_LT(p.set.log10_firmness.value, p.set.log10_viscosity.value + 0.1);

    // pectin is not modelled; milk protein is, roughly
    const batch jam = batch_of({line("white sugar", 300), line("raspberry puree", 300)}, 105.0);
    EXPECT_TRUE(noted(predicted(jam), "pectin"));
    EXPECT_TRUE(noted(predicted(cream_caramel(108.5)), "milk protein gels"));
    EXPECT_FALSE(noted(predicted(jelly), "milk protein gels"));

    const auto sugar = line("white sugar", 300), lemon = line("lemon juice", 100);
    EXPECT_TRUE(noted(predicted(batch_of({sugar, lemon}, 108.0)), "Acid"));
    // stirred in off the heat it does not boil with the sugar
    EXPECT_FALSE(noted(predicted(batch_of({sugar, line("water", 100)}, 108.0, {lemon})), "Acid"));
}

TEST(refusal, names_where_boiling_starts_and_where_the_model_ends) {
    batch b = batch_of({line("white sugar", 200), line("water", 150)}, 101.0);
    b.target_place = "cook.to_celsius";
    expect_no(predict(b, stage_tables[0]), "cook.to_celsius", {"starts to boil at 102.6"});
    b.thermometer_celsius = 300.0;
    // 99.5 % solids of the syrup phase
    const double last = highest_answer_celsius(in_the_pan(b.pan), 101325.0);
    EXPECT_NEAR(last, boiling_celsius(plain_syrup(0.995), 101325.0).value, 1.0);  // white sugar is 99.8 % sucrose
    expect_no(predict(b, stage_tables[0]), "cook.to_celsius", {fixed(std::floor(last * 10) / 10, 1).c_str()});
    b.thermometer_celsius = last - 0.5;
    EXPECT_TRUE(predict(b, stage_tables[0]));
}

TEST(refusal, of_every_number_that_is_none) {
    const auto refused = [](auto&& spoil) {
        batch b = cream_caramel(108.5);
        spoil(b);
        return !predict(b, stage_tables[0]);
    };
    for (const double bad : {not_a_number, HUGE_VAL, -HUGE_VAL}) {
        EXPECT_TRUE(refused([&](batch& b) { b.pan[1].grams = bad; }));
        EXPECT_TRUE(refused([&](batch& b) { b.off_heat[0].grams = bad; }));
        EXPECT_TRUE(refused([&](batch& b) { b.off_heat[0].celsius = bad; }));
        EXPECT_TRUE(refused([&](batch& b) { b.thermometer_celsius = bad; }));
        EXPECT_TRUE(refused([&](batch& b) { b.thermometer_error_kelvin = bad; }));
        EXPECT_TRUE(refused([&](batch& b) { b.pressure_pa = bad; }));
        EXPECT_TRUE(refused([&](batch& b) { b.serve_celsius = bad; }));
    }
    EXPECT_TRUE(refused([](batch& b) { b.pan[0].grams = -1e-9; }));
    EXPECT_TRUE(refused([](batch& b) { b.pan.clear(); }));
    EXPECT_TRUE(refused([](batch& b) { b.pan = {line("water", 100)}; }));    // nothing dissolved
    EXPECT_TRUE(refused([](batch& b) { b.pan = {line("lactose", 100)}; }));  // no water
    EXPECT_TRUE(refused([](batch& b) { b.serve_celsius = std::nextafter(100.0, 200.0); }));
    EXPECT_FALSE(refused([](batch& b) { b.serve_celsius = 100.0; }));
    EXPECT_FALSE(refused([](batch&) {}));
}

TEST(advice, warns_of_graining_only_where_sugar_is_in_excess) {
    const auto says = [](const prediction& p, const char* word) { return mentions(p.cautions, word); };
    batch plain = batch_of({line("white sugar", 300), line("water", 150)}, 115.0);
    EXPECT_TRUE(says(predicted(plain), "Risk of graining: high"));
    EXPECT_TRUE(says(predicted(plain), "Do not stir"));
    EXPECT_EQ(predicted(plain).graining_in_storage.risk, graining_risk::high);
    // within the metastable zone seeds only grow: said, but no alarm
    plain.thermometer_celsius = 104.5;
    EXPECT_EQ(predicted(plain).graining_in_storage.risk, graining_risk::low);
    EXPECT_TRUE(says(predicted(plain), "Risk of graining: low"));
    EXPECT_FALSE(says(predicted(plain), "Do not stir"));
    // undersaturated
    plain.pan[1].grams = 300;
    plain.thermometer_celsius = 103.5;
    EXPECT_EQ(predicted(plain).graining_in_storage.risk, graining_risk::none);
    EXPECT_FALSE(says(predicted(plain), "Risk of"));
    const batch honeyed = batch_of({line("white sugar", 50), line("honey", 300), line("water", 50)}, 112.0);
    // honey sets by its glucose
    EXPECT_TRUE(says(predicted(honeyed), "Risk of graining: moderate"));
    EXPECT_EQ(predicted(honeyed).graining_in_storage.first, component::glucose);
    EXPECT_FALSE(says(predicted(honeyed), "sandiness"));
    // lactose in excess is another thing
    const batch milky = batch_of({line("sweetened condensed milk", 400), line("water", 100)}, 104.0);
    EXPECT_TRUE(says(predicted(milky), "Risk of sandiness"));
    EXPECT_FALSE(says(predicted(milky), "Risk of graining"));
    // safety comes first, always; steam only where liquid is added
    EXPECT_TRUE(says(predicted(plain), "burns deep"));
    EXPECT_FALSE(says(predicted(plain), "bursts into steam"));
    EXPECT_TRUE(says(predicted(cream_caramel(108.5)), "bursts into steam"));
    EXPECT_TRUE(says(predicted(cream_caramel(108.5)), "food code"));
}

TEST(advice, says_a_note_once_and_flags_only_what_no_measurement_supports) {
    mixture both;
    both[component::isomalt] = both[component::maltitol] = 35.0;
    both[component::water] = 30.0;
    batch b = batch_of({line("water", 30.0)}, 106.0);
    b.pan = {{"two sugar alcohols", both.times(0.01).grams, 300.0, 20.0}};
    const auto p = predicted(b);
    const std::set<std::string> once(p.notes.begin(), p.notes.end());
    EXPECT_EQ(once.size(), p.notes.size());
    EXPECT_TRUE(mentions(p.notes, "isomalt and maltitol"));
    // a caramel sauce and a soft caramel stand on measurements, a boiled sweet does not; every flag has its reason
    for (const double t : {108.5, 116.0, 155.0}) {
        const auto q = predicted(cream_caramel(t));
        EXPECT_EQ(q.status, t > 150.0 ? grade::extrapolated : grade::fine) << t;
        EXPECT_EQ(mentions(q.notes, "Extrapolation"), t > 150.0) << t;
    }
}

TEST(cook, boils_butter_dry_to_an_oil_with_grains) {
    for (const double sugar : {0.0, 5.0}) {
        batch b = batch_of({line("butter, unsalted", 250)}, 120.0);
        b.pan.push_back(line("white sugar", sugar));
        const auto p = predicted(b);
        EXPECT_LT(p.set.log10_firmness.value, std::log10(find_set_word("hard")->from_pa_s));
        b.serve_celsius = 60.0;  // melted, it pours
        EXPECT_LT(predicted(b).set.log10_viscosity.value, 0.0);
    }
    // half sugar, and the glass carries it: a toffee
    const auto toffee =
        predicted(batch_of({line("butter, unsalted", 200), line("white sugar", 200), line("water", 40)}, 150.0));
    EXPECT_EQ(toffee.set.word, "glassy");
}

TEST(freezing, leaves_a_thicker_unfrozen_syrup) {
    batch b = batch_of({line("white sugar", 300), line("water", 200)}, 103.0);
    b.serve_celsius = -18.0;
    const auto p = predicted(b);
    EXPECT_LT(p.finished.freezing_celsius.value, 0.0);
    EXPECT_GT(p.finished.freezing_celsius.value, -18.0);
    EXPECT_GT(p.finished.at_serving.ice, 0.0);
    EXPECT_NEAR(p.finished.water_activity_at_serving.value, std::exp(formula::ice_ln_activity(273.15 - 18.0)),
                1e-12);
    EXPECT_GT(p.finished.at_serving.syrup_solids(), p.finished.contents.syrup_solids());
}

}  // namespace
