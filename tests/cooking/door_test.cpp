// The C++ door: quantities in and out, converted once; the types keep apart what cooks mix up.
#include <gtest/gtest.h>

#include <sirop/sirop.hpp>
#include <type_traits>

namespace {

using namespace sirop;

TEST(units, a_point_and_a_difference_are_two_things) {
    EXPECT_NEAR(in_fahrenheit(celsius(5.0)), 41.0, 1e-9);
    EXPECT_NEAR(in_fahrenheit_degrees(celsius_degrees(5.0)), 9.0, 1e-12);
    EXPECT_NEAR(in_celsius(fahrenheit(244.0)), 117.7778, 1e-4);
    EXPECT_NEAR(in_celsius(celsius(118.0) + celsius_degrees(2.0)), 120.0, 1e-9);
    EXPECT_NEAR(in_celsius_degrees(celsius(118.0) - celsius(100.0)), 18.0, 1e-9);
    static_assert(!std::is_convertible_v<temperature_difference, temperature>);
    static_assert(!std::is_convertible_v<double, temperature>);
    static_assert(!std::is_convertible_v<double, water_activity>);
    static_assert(!std::is_convertible_v<water_activity, mass_fraction>);
    static_assert(!std::is_constructible_v<degrees_brix, mass_fraction>);
}

TEST(units, makers_and_readers_are_inverse) {
    EXPECT_DOUBLE_EQ(in_grams(grams(250.0)), 250.0);
    EXPECT_DOUBLE_EQ(in_grams(kilograms(0.25)), 250.0);
    EXPECT_DOUBLE_EQ(in_hectopascals(hectopascals(1013.25)), 1013.25);
    EXPECT_DOUBLE_EQ(in_pascals(hectopascals(1013.25)), 101325.0);
    EXPECT_DOUBLE_EQ(in_metres(feet(1000.0)), 304.8);
}

TEST(door, gives_the_numbers_of_the_core) {
    const mixture syrup{{component::sucrose, grams(80)}, {component::water, grams(20)}};
    const auto boils = syrup.boiling_point(hectopascals(1013.25));
    const auto core_boils = core::boiling_celsius(syrup.contents(), 101325.0);
    EXPECT_NEAR(in_celsius(boils.value), core_boils.value, 1e-10);
    EXPECT_NEAR(in_celsius(boils.low), core_boils.low, 1e-10);
    EXPECT_NEAR(in_celsius_degrees(syrup.boiling_point_elevation(hectopascals(1013.25)).value),
                core_boils.value - 99.974, 1e-3);
    EXPECT_NEAR(in_grams(syrup.water_at_boil(boils.value, hectopascals(1013.25)).value), 20.0, 1e-8);
    EXPECT_NEAR(syrup.activity(celsius(25)).value.value, core::water_activity(syrup.contents(), 25.0).value,
                1e-12);
    EXPECT_NEAR(syrup.brix().value, 80.0, 1e-3);
    EXPECT_DOUBLE_EQ(syrup.syrup_solids().value, 0.8);
    EXPECT_NEAR(std::log10(in_pascal_seconds(syrup.viscosity(celsius(20)).value)),
                core::log10_viscosity(syrup.contents(), 20.0).value, 1e-12);
    EXPECT_NEAR(in_celsius(syrup.glass_transition().value), core::glass_celsius(syrup.contents()), 1e-9);
}

TEST(door, says_not_computed_instead_of_guessing) {
    const mixture syrup{{component::sucrose, grams(80)}, {component::water, grams(20)}};
    EXPECT_FALSE(syrup.boiling_point(hectopascals(5000)).computed());
    EXPECT_TRUE(std::isnan(in_celsius(syrup.boiling_point(hectopascals(5000)).value)));
    EXPECT_FALSE(syrup.activity(celsius(400)).computed());
    const mixture bad{{component::sucrose, grams(-1)}, {component::water, grams(20)}};
    EXPECT_FALSE(bad.activity(celsius(20)).computed());
    EXPECT_TRUE(std::isnan(in_pascals(pressure_at(metres(20000)))));
    EXPECT_TRUE(std::isnan(in_pascals(pressure_where_water_boils(celsius(30)))));
}

TEST(door, refuses_compositions_and_temperatures_that_are_none) {
    const mixture negative{
        {component::sucrose, grams(110)}, {component::water, grams(40)}, {component::fat, grams(-50)}};
    const mixture empty{};
    for (const auto& bad : {negative, empty}) {
        const auto answer =
            predict(batch().pan("water", grams(100)).pan("mine", grams(100), bad).cook_to(celsius(110)));
        ASSERT_FALSE(answer);
        EXPECT_EQ(answer.why.place, "pan[1]");
    }
    EXPECT_TRUE(std::isnan(negative.brix().value));
    const mixture syrup{{component::sucrose, grams(80)}, {component::water, grams(20)}};
    EXPECT_FALSE(syrup.viscosity(celsius(-200)).computed());
    EXPECT_FALSE(syrup.viscosity(celsius(1000)).computed());
}

TEST(door, predicts_a_batch_and_refuses_an_unknown_ingredient) {
    auto sauce = batch("Sauce (invented)")
                     .pan("white sugar", grams(250))
                     .pan("heavy cream 36 %", grams(240))
                     .off_heat("butter, unsalted", grams(40))
                     .cook_to(fahrenheit(228))
                     .kitchen(pressure_at(metres(350)))
                     .thermometer_error(celsius_degrees(0.5))
                     .serve_at(celsius(18));
    const auto answer = predict(sauce);
    ASSERT_TRUE(answer) << answer.why.reason;
    EXPECT_NEAR(in_fahrenheit(answer->cooked_to()), 228.0 - 0.9, 1e-9);
    EXPECT_NEAR(in_grams(answer->cooked_mass().value) + in_grams(answer->water_boiled_off().value), 490.0, 1e-6);
    EXPECT_FALSE(answer->set().empty());
    EXPECT_FALSE(answer->cautions().empty());
    sauce.pan("moon dust", grams(1));
    const auto refused = predict(sauce);
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.why.reason.find("moon dust"), std::string::npos);
    EXPECT_FALSE(predict(batch().pan("water", grams(1)), "no such table"));
}

}  // namespace
