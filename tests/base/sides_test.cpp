// One thing on three sides, and the estimates that are made of them.
#include "sirop/base/sides.hpp"

#include <gtest/gtest.h>

#include <string>

namespace {

using namespace sirop::core;

void expect_estimate(const estimate& e, double value, double low, double high, grade status) {
    EXPECT_EQ(e.value, value);
    EXPECT_EQ(e.low, low);
    EXPECT_EQ(e.high, high);
    EXPECT_EQ(e.status, status);
}

TEST(Sides, EachKeepsItsPlaceAndMayChangeItsType) {
    const auto texts = sides<int>{2, 1, 3}.map([](int x) { return std::to_string(10 - x); });
    EXPECT_EQ(texts.value, "8");
    EXPECT_EQ(texts.low, "9");
    EXPECT_EQ(texts.high, "7");
    const auto differences =
        sides_of({2.0, 1.0, 3.0, grade::fine}).map(sides<double>{20.0, 30.0, 10.0}, [](double a, double b) {
            return b - a;
        });
    expect_estimate(estimate_of(differences), 18.0, 7.0, 29.0, grade::fine);
}

TEST(Sides, TheEstimateFindsTheLowerEndAndLeavesOutOneWithoutANumber) {
    expect_estimate(estimate_of({2.0, 3.0, 1.0}, grade::extrapolated), 2.0, 1.0, 3.0, grade::extrapolated);
    expect_estimate(estimate_of({2.0, not_a_number, 3.0}), 2.0, 2.0, 3.0, grade::fine);
    expect_estimate(estimate_of({2.0, 3.0, 4.0}), 2.0, 2.0, 4.0, grade::fine);
    EXPECT_FALSE(estimate_of({not_a_number, 1.0, 2.0}).computed());
}

TEST(Sides, AnEndBeyondTheScaleReachesToItsEndAndIsFlagged) {
    expect_estimate(estimate_to_the_end({90.0, 85.0, not_a_number}, 95.0), 90.0, 85.0, 95.0, grade::extrapolated);
    expect_estimate(estimate_to_the_end({90.0, HUGE_VAL, 85.0}, 95.0), 90.0, 85.0, 95.0, grade::extrapolated);
    expect_estimate(estimate_to_the_end({90.0, 92.0, 85.0}, 95.0), 90.0, 85.0, 92.0, grade::fine);
    EXPECT_FALSE(estimate_to_the_end({not_a_number, 85.0, 90.0}, 95.0).computed());
}

TEST(Sides, TwoUncertaintiesAddInQuadrature) {
    const estimate best{10.0, 7.0, 14.0, grade::extrapolated};
    const auto e = in_quadrature({best, 6.0, 13.0});
    expect_estimate(e, 10.0, 5.0, 15.0, grade::extrapolated);
    expect_estimate(in_quadrature({best, 13.0, 6.0}), 10.0, 5.0, 15.0, grade::extrapolated);
    expect_estimate(in_quadrature({best}), 10.0, 7.0, 14.0, grade::extrapolated);
    EXPECT_FALSE(in_quadrature({{}, 7.0, 14.0}).computed());
}

TEST(Sides, AnIntervalIsStretchedToTheOtherValues) {
    const estimate best{10.0, 7.0, 14.0, grade::fine};
    expect_estimate(stretched({best, 8.0, 20.0}), 10.0, 7.0, 20.0, grade::fine);
    expect_estimate(stretched({best, HUGE_VAL, 2.0}), 10.0, 2.0, HUGE_VAL, grade::fine);
    expect_estimate(stretched({best}), 10.0, 7.0, 14.0, grade::fine);
    EXPECT_FALSE(stretched({{}, 7.0, 14.0}).computed());
}

}  // namespace
