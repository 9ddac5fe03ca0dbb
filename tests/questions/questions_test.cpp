// The inverse questions: what is answered forward comes back, what cannot be is refused with the reason that
// binds.
#include <gtest/gtest.h>

#include "batches.hpp"
#include "expect.hpp"
#include "sirop/questions/other_kitchen.hpp"
#include "sirop/questions/rescue.hpp"

namespace {

using namespace sirop;
using namespace sirop::core;
using namespace sirop_test;

/// A temperature on the path of a batch, on the cook's thermometer: its wet end and some way to 97 % solids.
double somewhere_on(const batch& b, random_numbers& random) {
    const cook_path path(b);
    const double last = std::fmin(path.last_celsius, 150.0);
    return random.between(path.boils_celsius + 0.02, last - 0.02) + b.thermometer_error_kelvin;
}

/// One measure as a question about a finished batch.
wanted question_about(const mixture& finished, const mixture& cooked, std::size_t which, double serve) {
    wanted w = wanted_number(measures[which].id, 0.0);
    const double x = measured(w, finished, cooked, serve);
    w.value = w.what == measure::viscosity_pa_s || w.what == measure::firmness_pa_s ? std::pow(10.0, x) : x;
    return w;
}

TEST(cook_for, gives_back_the_temperature_of_100_000_answers) {
    random_numbers random(501);
    std::size_t asked = 0, failed = 0, off_scale = 0;
    for (std::size_t i = 0; i < sweep(100000); ++i) {
        batch b = random_batch(random);
        b.thermometer_celsius = somewhere_on(b, random);
        const cook_path path(b);
        const mixture cooked = path.cooked_at(b.real_celsius()), finished = path.finished_at(b.real_celsius());
        const auto w = question_about(finished, cooked, i % 5, b.serve_celsius);
        const bool pa_s = w.what == measure::viscosity_pa_s || w.what == measure::firmness_pa_s;
        if (!(w.value > 0.0) || (w.what == measure::brix && w.value > 95.0) ||
            (w.what == measure::water_activity && w.value >= 1.0) ||
            (pa_s && !(w.value >= 1e-3 && w.value <= 1e12))) {
            ++off_scale;  // no question: the scale ends
            continue;
        }
        ++asked;
        const auto answer = cook_for(b, w);
        if (!answer) {
            ++failed;
            ADD_FAILURE() << answer.why.place << ": " << answer.why.reason << " (" << b.thermometer_celsius << ")";
            continue;
        }
        // printed to 0.1 C; the measure itself comes back to what the solver closes to
        const double back = path.measured_at(w, answer->thermometer_celsius - b.thermometer_error_kelvin);
        const double aim = pa_s ? std::log10(w.value) : w.value;
        EXPECT_NEAR(back, aim, 1.0e-6 * std::fmax(1.0, std::fabs(aim))) << data_of(w.what).name;
        EXPECT_NEAR(answer->thermometer_celsius, b.thermometer_celsius, 0.005) << data_of(w.what).name;
        EXPECT_LE(answer->low_celsius, answer->thermometer_celsius);
        EXPECT_GE(answer->high_celsius, answer->thermometer_celsius);
    }
    EXPECT_EQ(failed, 0U);
    EXPECT_GT(asked, 8 * sweep(100000) / 10);
    RecordProperty("asked", static_cast<int>(asked));
    RecordProperty("off_scale", static_cast<int>(off_scale));
}

TEST(cook_for, stays_within_its_window_and_leaves_it_outside) {
    random_numbers random(502);
    for (std::size_t i = 0; i < sweep(2000); ++i) {
        batch b = random_batch(random);
        const bool word = i % 2 == 0;
        const auto& known = set_words[1 + random.below(6)];
        const auto& row = stage_tables[0].rows[random.below(6)];
        const auto w = word ? wanted_word(known.word) : wanted_stage(row.name);
        const auto answer = cook_for(b, w);
        if (!answer) {
            expect_no(answer, "wanted", {"cannot be had"});
            continue;
        }
        const auto band = *band_of(w).value;
        const cook_path path(b);
        const auto at = [&](double shown) { return path.measured_at(w, shown - b.thermometer_error_kelvin); };
        EXPECT_GE(at(answer->thermometer_celsius), band.low - 1e-6);
        EXPECT_LE(at(answer->thermometer_celsius), band.high + 1e-6);
        if (!answer->low_is_the_boil) {
            EXPECT_NEAR(at(answer->low_celsius), band.low, 1e-5);
            EXPECT_LT(at(answer->low_celsius - 0.05), band.low);
        }
        if (!answer->high_is_the_model) {
            EXPECT_NEAR(at(answer->high_celsius), band.high, 1e-5);
            EXPECT_GT(at(answer->high_celsius + 0.05), band.high);
        }
        EXPECT_LE(answer->value_one_kelvin_low, answer->value);
        EXPECT_GE(answer->value_one_kelvin_high, answer->value);
        if (word) {
            // the main job says the same word
            batch cooked = b;
            cooked.thermometer_celsius = answer->thermometer_celsius;
            const auto p = predict(cooked, stage_tables[0]);
            ASSERT_TRUE(p);
            EXPECT_EQ(p->set.word, known.word);
        }
    }
}

TEST(cook_for, refuses_with_the_reason_that_binds) {
    batch b = cream_caramel();
    b.off_heat.clear();
    expect_no(cook_for(b, wanted_number(measure::water_percent, 80.0)), "wanted", {"put more water in the pan"});
    b.off_heat = {line("water", 100)};
    expect_no(cook_for(b, wanted_number(measure::water_percent, 5.0)), "wanted", {"end of the model"});
    const auto bad = [&](const wanted& w, const char* place) { expect_no(cook_for(b, w), place, {"accepted"}); };
    for (const double x : {0.0, -1.0, 100.0, not_a_number, HUGE_VAL})
        bad(wanted_number(measure::water_percent, x), "wanted.water_percent");
    bad(wanted_number(measure::water_activity, 1.0), "wanted.water_activity");
    bad(wanted_number(measure::brix, 95.1), "wanted.brix");
    bad(wanted_number(measure::viscosity_pa_s, 0.0), "wanted.viscosity_pa_s");
    bad(wanted_word("fluffy"), "wanted.set_word");
    bad(wanted_stage("fluffy"), "wanted.stage");
    // what does not go with the measure is not passed over
    for (auto w : {wanted_word("ribbon"), wanted_stage("soft ball")}) {
        w.within = 0.5;
        bad(w, "wanted.within");
    }
    for (auto w : {wanted_number(measure::water_percent, 15.0), wanted_number(measure::brix, 80.0),
                   wanted_stage("soft ball")}) {
        w.celsius = 20.0;
        bad(w, "wanted.celsius");
    }
    b.pan.clear();
    EXPECT_EQ(cook_for(b, wanted_word("ribbon")).why.place, "pan");
}

TEST(rescue, lands_on_what_is_wanted_and_conserves_mass) {
    random_numbers random(503);
    std::size_t stirred = 0, boiled = 0;
    for (std::size_t i = 0; i < sweep(4000); ++i) {
        batch b = random_batch(random);
        b.thermometer_celsius = somewhere_on(b, random);
        where_now now;
        now.thermometer_celsius = somewhere_on(b, random);
        now.additions_in = random.below(2) == 0;
        const cook_path path(b);
        const auto wanted_state = path.finished_at(b.real_celsius());
        const auto w = wanted_number(measure::water_percent, percent(wanted_state.water(), wanted_state.total()));
        const auto answer = rescue(b, now, w);
        ASSERT_TRUE(answer) << answer.why.place << ": " << answer.why.reason;
        if (answer->met) {
            EXPECT_TRUE(answer->ways.empty());
            EXPECT_NEAR(answer->value_now, w.value, 0.5);  // the usual band of water
            continue;
        }
        ASSERT_FALSE(answer->ways.empty());
        double added = 0.0;
        if (!now.additions_in)
            for (const auto& l : b.off_heat) added += l.grams;
        for (const auto& way : answer->ways) {
            const double water = percent(way.finished.water(), way.finished.total());
            EXPECT_NEAR(water, w.value, 0.1) << way.sentence;
            EXPECT_NEAR(way.finished.total(), way.finished_grams, 1e-9 * way.finished_grams);
            if (way.ingredient.empty()) {
                ++boiled;
                EXPECT_LE(way.finished_grams, answer->grams_now + added + 1e-9);
                continue;
            }
            ++stirred;
            EXPECT_GE(way.grams, 0.0);
            EXPECT_LE(way.grams_low, way.grams * (1.0 + 1e-9));
            EXPECT_GE(way.grams_high, way.grams * (1.0 - 1e-9));
            // but for what the additions flash off, everything is accounted for
            const double all = answer->grams_now + way.grams + added;
            EXPECT_LE(way.finished_grams, all * (1.0 + 1e-12));
            mixture dry_now = answer->now.with_water(0.0), dry_done = way.finished.with_water(0.0);
            mixture dry_added = in_the_pan({line(way.ingredient, way.grams)}).with_water(0.0);
            if (!now.additions_in) dry_added += in_the_pan(b.off_heat).with_water(0.0);
            EXPECT_NEAR(dry_done.total(), dry_now.total() + dry_added.total(), 1e-9 * all);
        }
    }
    EXPECT_GT(stirred, 0U);
    EXPECT_GT(boiled, 0U);
}

/// A batch that is known by its temperature, by its mass, or by a refractometer.
std::array<where_now, 3> known_by(double celsius, const mixture& m) {
    std::array<where_now, 3> now{};
    now[0].thermometer_celsius = celsius;
    now[1].grams_left = m.total();
    now[2].brix = brix_of_syrup(m);
    return now;
}

TEST(rescue, knows_the_batch_by_temperature_mass_or_refractometer) {
    batch b = cream_caramel();
    b.off_heat.clear();
    const cook_path path(b);
    const mixture at_114 = path.cooked_at(114.0);
    const auto [by_temperature, by_mass, by_brix] = known_by(114.0, at_114);
    const auto w = wanted_word("ribbon");
    const auto a = rescue(b, by_temperature, w), m = rescue(b, by_mass, w), r = rescue(b, by_brix, w);
    ASSERT_TRUE(a && m && r);
    for (std::size_t i = 0; i < a->ways.size(); ++i) {
        EXPECT_NEAR(a->ways[i].grams, m->ways[i].grams, 1e-6);
        EXPECT_NEAR(a->ways[i].grams, r->ways[i].grams, 1e-6);
    }
    EXPECT_TRUE(a->too_dry);
    EXPECT_FALSE(a->met);
}

TEST(rescue, knows_it_with_the_additions_in_too) {
    // dry sugar stirred in dissolves: by temperature, by mass and by refractometer it is the same sauce
    const batch b =
        batch_of({line("white sugar", 200), line("glucose syrup 42 DE", 100), line("heavy cream 36 %", 200)},
                 not_a_number, {line("white sugar", 60), line("butter, unsalted", 30)});
    const auto finished = cook_path(b).finished_at(108.0);
    for (where_now now : known_by(108.0, finished)) {
        now.additions_in = true;
        const auto a = rescue(b, now, wanted_word("pourable"));
        ASSERT_TRUE(a) << a.why.reason;
        EXPECT_NEAR(a->grams_now, finished.total(), 1e-4);
        EXPECT_NEAR(a->now.water(), finished.water(), 1e-4);
    }
    where_now too_much;
    too_much.grams_left = 1000.0;
    too_much.additions_in = true;
    EXPECT_EQ(rescue(b, too_much, wanted_word("pourable")).why.place, "now.grams_left");
}

TEST(rescue, takes_the_first_and_the_last_word_as_open) {
    const batch sweets =
        batch_of({line("white sugar", 600), line("glucose syrup 42 DE", 300), line("water", 200)});
    where_now now;
    now.thermometer_celsius = 160.0;
    const auto a = rescue(sweets, now, wanted_word("glassy"));
    ASSERT_TRUE(a);
    EXPECT_TRUE(a->met);
    EXPECT_TRUE(a->ways.empty());
    EXPECT_EQ(a->status, grade::extrapolated);
    const auto glass = cook_for(sweets, wanted_word("glassy"));
    ASSERT_TRUE(glass);
    EXPECT_TRUE(glass->high_is_the_model);
    // beyond the scale of a refractometer it is too dry, not too wet
    const auto dry = rescue(sweets, now, wanted_number(measure::brix, 80.0), {"water"});
    ASSERT_TRUE(dry) << dry.why.reason;
    EXPECT_TRUE(dry->too_dry);
    EXPECT_NEAR(brix_of_syrup(dry->ways[0].finished), 80.0, 1e-6);
}

TEST(rescue, refuses_what_cannot_be) {
    const batch b = batch_of({line("white sugar", 250), line("water", 100)});
    const auto refused_at = [&](where_now now, const char* place) {
        expect_no(rescue(b, now, wanted_word("ribbon")), place);
    };
    where_now now;
    refused_at(now, "now");
    now.grams_left = 200.0;  // less than the sugar
    refused_at(now, "now.grams_left");
    now.grams_left = 351.0;  // more than went in
    refused_at(now, "now.grams_left");
    now.brix = 80.0;
    refused_at(now, "now");
    now.grams_left = not_a_number;
    now.brix = 50.0;  // thinner than it was
    refused_at(now, "now.brix");
    now.brix = not_a_number;
    now.thermometer_celsius = 90.0;
    refused_at(now, "now.thermometer_celsius");
    now.thermometer_celsius = 200.0;
    refused_at(now, "now.thermometer_celsius");
    now.thermometer_celsius = 120.0;
    EXPECT_EQ(rescue(b, now, wanted_word("ribbon"), {"gravel"}).why.place, "with");
    // salt does not make it wetter
    EXPECT_EQ(rescue(b, now, wanted_number(measure::water_percent, 30.0), {"salt"}).why.place, "with");
}

TEST(travel, leaves_the_same_water_and_comes_back) {
    random_numbers random(504);
    for (std::size_t i = 0; i < sweep(3000); ++i) {
        batch b = random_batch(random);
        b.thermometer_celsius = somewhere_on(b, random);
        const double pressure = random.between(60000.0, 105000.0), error = random.between(-4.0, 4.0);
        const auto there = travel(b, pressure, error);
        ASSERT_TRUE(there) << there.why.reason;
        const auto here = cook_path(b).cooked_at(b.real_celsius());
        const auto other = cook_path(there->plan).cooked_at(there->real_celsius);
        EXPECT_NEAR(other.water(), here.water(), 1e-7 * here.water());
        const auto back = travel(there->plan, b.pressure_pa, b.thermometer_error_kelvin);
        ASSERT_TRUE(back) << back.why.reason;
        EXPECT_NEAR(back->thermometer_celsius, b.thermometer_celsius, 1e-7);
    }
    const batch b = batch_of({line("white sugar", 300), line("water", 100)}, 121.0);
    // "lower by what your boiling water lacks" under-corrects a thick syrup by 1 to 2 F at 1524 m (computed; the
    // model's own numbers, a regression)
    const auto up = travel(b, formula::standard_pressure(1524.0), 0.0);
    ASSERT_TRUE(up);
    EXPECT_GT(1.8 * (up->rule_of_thumb_celsius - up->thermometer_celsius), 0.7);
    EXPECT_LT(1.8 * (up->rule_of_thumb_celsius - up->thermometer_celsius), 2.0);
    EXPECT_EQ(travel(b, 100.0, 0.0).why.place, "to.pressure_hpa");
    EXPECT_EQ(travel(b, 90000.0, 20.0).why.place, "to.thermometer_error_kelvin");
}

TEST(scale, changes_masses_alone) {
    random_numbers random(505);
    for (std::size_t i = 0; i < sweep(500); ++i) {
        batch b = random_batch(random);
        b.thermometer_celsius = somewhere_on(b, random);
        const double grams = random.between(50.0, 1.0e6), loss = random.between(0.0, 40.0);
        const auto a = scale_to(b, grams, not_a_number, loss);
        ASSERT_TRUE(a) << a.why.reason;
        const auto p = predict(a->plan, stage_tables[0]), q = predict(b, stage_tables[0]);
        ASSERT_TRUE(p && q);
        EXPECT_NEAR(p->finished.grams.value - loss, grams, 1e-7 * grams);
        EXPECT_NEAR(p->finished.water_percent.value, q->finished.water_percent.value, 1e-7);
        EXPECT_EQ(p->set.word, q->set.word);
        const auto m = scale_to(b, not_a_number, 750.0);
        ASSERT_TRUE(m);
        EXPECT_NEAR(predict(m->plan, stage_tables[0])->finished.millilitres.value, 750.0, 1e-5);
    }
    const batch b = batch_of({line("white sugar", 300), line("water", 100)}, 118.0);
    EXPECT_EQ(scale_to(b, 0.0, not_a_number).why.place, "yield");
    EXPECT_EQ(scale_to(b, 1.0, 1.0).why.place, "yield");
    EXPECT_EQ(scale_to(b, 100.0, not_a_number, -1.0).why.place, "yield.loss_grams");
}

TEST(volume, of_a_liquid_by_its_density_and_of_a_powder_refused) {
    EXPECT_NEAR(*pouring_density(line("water", 1)).value, 0.9982, 1e-4);     // Kell (1975)
    EXPECT_NEAR(*pouring_density(line("honey", 1)).value, 1.42, 0.02);       // common practice, no source
    EXPECT_NEAR(*pouring_density(line("whole milk", 1)).value, 1.03, 0.01);  // common practice, no source
    for (const char* dry : {"white sugar", "cocoa powder", "skim milk powder", "corn starch"})
        EXPECT_FALSE(pouring_density(line(dry, 1))) << dry;
}

}  // namespace
