// What is said of the heat, of alcohol, honey, soda, eggs and acid: a word for each that needs one.
#include <gtest/gtest.h>

#include <string>

#include "csv.hpp"
#include "pantry_mixtures.hpp"
#include "sirop/cooking/advice.hpp"

namespace {

using namespace sirop::core;
using namespace sirop_test;

ingredient_line of(const char* name, double grams) {
    return {name, *pantry_composition(name), grams, 20.0};
}
batch cooked(std::vector<ingredient_line> pan, double celsius, std::vector<ingredient_line> off_heat = {}) {
    batch b;
    b.pan = std::move(pan);
    b.off_heat = std::move(off_heat);
    b.thermometer_celsius = celsius;
    return b;
}
prediction predicted(const batch& b) {
    const auto answer = predict_with_advice(b, stage_tables[0]);
    EXPECT_TRUE(answer) << answer.why.reason;
    return answer ? *answer.value : prediction{};
}
bool says(const std::vector<std::string>& texts, std::string_view part) {
    for (const auto& text : texts)
        if (text.find(part) != std::string::npos) return true;
    return false;
}

TEST(heat, cream_at_165_and_boiled_sweets_at_195_do_not_pass_without_a_word) {
    const auto cream =
        predicted(cooked({of("white sugar", 200), of("water", 60), of("heavy cream 36 %", 100)}, 165));
    EXPECT_TRUE(says(cream.cautions, "the solids of milk, cream, butter, egg or nuts burn"));
    EXPECT_LT(cream.cautions[1].find("°C"), cream.cautions[1].size());  // right after the burns
    const auto fudge =
        predicted(cooked({of("white sugar", 200), of("water", 60), of("heavy cream 36 %", 100)}, 116));
    EXPECT_TRUE(says(fudge.cautions, "stir all the time"));
    EXPECT_FALSE(says(fudge.cautions, "egg or nuts burn"));
    const auto sugar = in_the_pan({of("white sugar", 100), of("water", 1)});
    EXPECT_TRUE(says(heat_cautions(sugar, 195.0), "bitter"));
    EXPECT_TRUE(heat_cautions(sugar, 150.0).empty());
    EXPECT_TRUE(says(heat_cautions(in_the_pan({of("honey", 100), of("white sugar", 200)}), 120.0), "fructose"));
    EXPECT_TRUE(
        says(heat_cautions(in_the_pan({of("raspberry puree", 100), of("white sugar", 100)}), 110.0), "fruit"));
    EXPECT_TRUE(says(heat_cautions(in_the_pan({of("cocoa powder", 10), of("white sugar", 100)}), 130.0), "cocoa"));
    EXPECT_TRUE(
        says(heat_cautions(in_the_pan({of("gelatin", 5), of("white sugar", 100)}), 110.0), "off the heat"));
}

// The bands of cookery books: none calls sugar coloured below where the caution begins but the one that times it
// by the clock, and it is said to burn within those that do.
TEST(heat, the_colours_of_sugar_are_those_of_cookery_books) {
    const auto& heat = data_of(component::sucrose).in_the_heat;
    double lightest = 1.0e3, burns_from = 0.0;
    for (const auto& row : read_csv("caramel_colour_bands.csv").rows) {
        if (row.has("T_low_C")) lightest = std::fmin(lightest, row.number("T_low_C"));
        if (row.text("band") == "begins to burn") burns_from = row.number("T_low_C");
    }
    EXPECT_EQ(heat.changes_celsius, lightest);
    EXPECT_EQ(heat.spoils_celsius, burns_from);
}

TEST(alcohol, leaves_in_the_boil_and_stays_off_the_heat) {
    const std::vector<ingredient_line> syrup = {of("white sugar", 200), of("water", 100)};
    auto with_rum = syrup;
    with_rum.push_back(of("rum", 50));
    auto with_its_water = syrup;
    with_its_water.push_back(of("water", 0.666 * 50));
    const auto boiled = predicted(cooked(with_rum, 112)), plain = predicted(cooked(with_its_water, 112));
    EXPECT_NEAR(boiled.finished.grams.value, plain.finished.grams.value, 1e-9);
    EXPECT_TRUE(says(boiled.cautions, "Alcohol burns"));
    EXPECT_FALSE(says(plain.cautions, "Alcohol burns"));

    const auto dry = predicted(cooked(syrup, 112));
    const auto stirred = predicted(cooked(syrup, 112, {of("rum", 30)}));
    EXPECT_NEAR(stirred.finished.contents[component::ethanol], 0.334 * 30, 1e-9);
    EXPECT_NEAR(stirred.finished.grams.value,
                dry.finished.grams.value + 30.0 - stirred.finished.water_flashed_grams.value, 1e-6);
    EXPECT_LT(stirred.finished.water_activity_at_serving.value, 1.0);
    // its alcohol thins and lowers the activity, beside as much water alone
    const auto watered = predicted(cooked(syrup, 112, {of("water", 0.666 * 30)}));
    EXPECT_LT(stirred.set.log10_viscosity.value, watered.set.log10_viscosity.value);
    EXPECT_LT(stirred.finished.water_activity_at_serving.value, watered.finished.water_activity_at_serving.value);
    EXPECT_GT(stirred.finished.millilitres.value, watered.finished.millilitres.value);
}

TEST(ingredients, say_what_needs_a_word) {
    const auto cautions = [](const char* name, double grams) {
        return predicted(cooked({of("white sugar", 200), of("water", 80), of(name, grams)}, 112)).cautions;
    };
    EXPECT_TRUE(says(cautions("honey", 20), "not for infants"));
    EXPECT_TRUE(says(cautions("bicarb", 2), "foams"));
    EXPECT_TRUE(says(cautions("egg whites", 30), "Egg sets"));
    EXPECT_TRUE(says(cautions("isomalt", 60), "laxative"));
    EXPECT_FALSE(says(cautions("isomalt", 5), "laxative"));
    EXPECT_TRUE(says(predicted(cooked({of("white sugar", 200), of("whole milk", 150)}, 104)).cautions, "chilled"));
    for (const char* word : {"infants", "foams", "Egg", "laxative", "milk", "Alcohol"})
        EXPECT_FALSE(says(cautions("water", 20), word)) << word;
}

// Common practice, no source: a sauce is chilled, wrapped caramels are not.
TEST(ingredients, milk_is_chilled_unless_it_is_dry) {
    const std::vector<ingredient_line> pan = {of("white sugar", 230), of("glucose syrup 42 DE", 320),
                                              of("heavy cream 36 %", 400)};
    EXPECT_TRUE(says(predicted(cooked(pan, 104)).cautions, "Made with milk or cream"));
    EXPECT_FALSE(says(predicted(cooked(pan, 119)).cautions, "Made with milk or cream"));
}

TEST(acid, a_pinch_of_cream_of_tartar_and_the_juice_of_a_lemon_are_noted) {
    const auto notes = [](const char* name, double grams) {
        return predicted(cooked({of("white sugar", 400), of("water", 100), of(name, grams)}, 115)).notes;
    };
    EXPECT_TRUE(says(notes("cream of tartar", 0.5), "less graining"));
    EXPECT_TRUE(says(notes("lemon juice", 5.0), "less graining"));
    EXPECT_TRUE(says(notes("citric acid", 0.5), "softer, stickier"));
    EXPECT_FALSE(says(notes("buttermilk", 1.0), "less graining"));
    EXPECT_FALSE(says(notes("water", 5.0), "less graining"));
}

TEST(target, fahrenheit_given_as_celsius_is_recognised) {
    auto b = cooked({of("white sugar", 200), of("water", 80)}, 240.0);
    EXPECT_NE(predict(b, stage_tables[0]).why.reason.find("240 °F is 115.6 °C: write to_fahrenheit"),
              std::string::npos);
    b.target_place = "cook.to_fahrenheit";
    EXPECT_EQ(predict(b, stage_tables[0]).why.reason.find("write to_fahrenheit"), std::string::npos);
    b.target_place = "cook.to_celsius";
    b.thermometer_celsius = 500.0;  // 260 C
    EXPECT_EQ(predict(b, stage_tables[0]).why.reason.find("write to_fahrenheit"), std::string::npos);
}

}  // namespace
