// sirop_embedded.h against the library: double to rounding, float to what its 24 bits allow; refusals; monotony.
//
// Tolerances in float.  A temperature near 373 K has an ulp of 3.1e-5 K, and IF97 takes some ten operations to it:
// a difference of two temperatures is good to about 1e-4 K, and 2e-4 K is allowed.  Water at the boil goes as one
// over the elevation, so the relative error allowed is 2e-4 from 1 K on, and 2e-4 K over the elevation below.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <type_traits>

#include "mixtures.hpp"
#include "sirop/base/conversions.hpp"
#include "sirop/sirop_embedded.h"
#include "sirop/solution/properties.hpp"
#include "sweep.hpp"

namespace {

namespace core = sirop::core;
using core::component;
using core::mixture;
using sirop_test::describe;
using sirop_test::random_numbers;
using sirop_test::sweep;

template <class Real>
using grams_of = std::array<Real, SIROP_COMPONENT_COUNT>;

/// The C functions of one precision under one name each.
template <class Real>
struct api;
template <>
struct api<double> {
    static constexpr auto water_boils = sirop_embedded_water_boils_celsius;
    static constexpr auto pressure = sirop_embedded_pressure_at_altitude_hpa;
    static constexpr auto water = sirop_embedded_water_at_boil_grams;
    static constexpr auto boils = sirop_embedded_boiling_point_celsius;
    static constexpr auto activity = sirop_embedded_water_activity;
    static constexpr auto viscosity = sirop_embedded_syrup_log10_viscosity_pa_s;
    static constexpr auto glass = sirop_embedded_glass_transition_celsius;
    static constexpr auto brix_of_index = sirop_embedded_brix_from_refractive_index;
    static constexpr auto brix_of_density = sirop_embedded_brix_from_density_kg_m3;
    static double water_tolerance(double) { return 1.0e-9; }                        // relative
    static double boils_tolerance(double elevation) { return 1.0e-9 * elevation; }  // K
    static double activity_tolerance(double aw) { return 1.0e-9 * aw; }
    static constexpr double boiling_water_kelvin = 1.0e-11, pressure_relative = 1.0e-14, glass_kelvin = 1.0e-11,
                            viscosity_relative = 1.0e-12, brix = 1.0e-9;
};
template <>
struct api<float> {
    static constexpr auto water_boils = sirop_embedded_water_boils_celsius_f;
    static constexpr auto pressure = sirop_embedded_pressure_at_altitude_hpa_f;
    static constexpr auto water = sirop_embedded_water_at_boil_grams_f;
    static constexpr auto boils = sirop_embedded_boiling_point_celsius_f;
    static constexpr auto activity = sirop_embedded_water_activity_f;
    static constexpr auto viscosity = sirop_embedded_syrup_log10_viscosity_pa_s_f;
    static constexpr auto glass = sirop_embedded_glass_transition_celsius_f;
    static constexpr auto brix_of_index = sirop_embedded_brix_from_refractive_index_f;
    static constexpr auto brix_of_density = sirop_embedded_brix_from_density_kg_m3_f;
    static double water_tolerance(double elevation) { return 2.0e-4 * std::max(1.0, 1.0 / elevation); }
    // the ulps of two temperatures, and those of ln aw and of the water held
    static double boils_tolerance(double elevation) { return 2.0e-4 + 1.0e-5 * elevation; }
    // below 0.005 the mole fraction of the solute is so near 1 that its ulp, 6e-8, is what is left of the water
    static double activity_tolerance(double aw) { return std::max(2.0e-4 * aw, 1.0e-6); }
    static constexpr double boiling_water_kelvin = 2.0e-4, pressure_relative = 2.0e-6, glass_kelvin = 2.0e-4,
                            viscosity_relative = 2.0e-5,
                            brix = 2.0e-4;  // an ulp of the index is 7e-5 Brix, of the density 3e-5
};

template <class Real>
grams_of<Real> rounded(const mixture& m) {
    grams_of<Real> g{};
    for (std::size_t i = 0; i < g.size(); ++i) g[i] = static_cast<Real>(m.grams[i]);
    return g;
}

double as_float(double x) {
    return static_cast<double>(static_cast<float>(x));
}

/// A random mixture without water, of floats, so that both precisions get the same; some part of it holds water.
mixture random_solids(random_numbers& random) {
    for (;;) {
        mixture m;
        const double part = random.between(0.03, 0.6);
        for (std::size_t i = 1; i < core::component_count; ++i)
            if (random.between(0.0, 1.0) < part) m.grams[i] = as_float(std::pow(10.0, random.between(-1.0, 2.0)));
        if (core::holds_water(m)) return m;
    }
}

double random_pressure(random_numbers& random) {
    return as_float(random.between(300.0, 1100.0));
}

int32_t code_of(core::grade status) {
    return status == core::grade::fine           ? SIROP_OK
           : status == core::grade::extrapolated ? SIROP_EXTRAPOLATED
                                                 : SIROP_E_IMPOSSIBLE;
}

template <class Real>
class small_api : public testing::Test {};
using precisions = testing::Types<double, float>;
TYPED_TEST_SUITE(small_api, precisions);

TYPED_TEST(small_api, water_at_boil_is_that_of_the_library) {
    using real = TypeParam;
    random_numbers random(1);
    const std::size_t n = sweep(10000);
    std::size_t other_grade = 0;
    for (std::size_t i = 0; i < n; ++i) {
        const mixture m = random_solids(random);
        const double hpa = random_pressure(random), base = core::water_boils_celsius(100.0 * hpa);
        const double celsius = as_float(base + std::exp(random.between(std::log(0.01), std::log(249.9 - base))));
        const auto want = core::water_at_boil(m, celsius, 100.0 * hpa);
        ASSERT_TRUE(want.computed());
        real got{};
        const int32_t status = api<real>::water(rounded<real>(m).data(), SIROP_COMPONENT_COUNT,
                                                static_cast<real>(celsius), static_cast<real>(hpa), &got);
        ASSERT_GE(status, 0);
        if (status != code_of(want.status)) ++other_grade;
        ASSERT_NEAR(got / want.value, 1.0, api<real>::water_tolerance(celsius - base))
            << describe(m) << "at " << celsius << " C, " << hpa << " hPa";
    }
    // In float, a part that holds just a hundredth of the water may be taken for one that holds less.
    EXPECT_LE(other_grade, (std::is_same_v<real, double> ? 0 : n / 1000));
}

TYPED_TEST(small_api, each_component_alone) {
    using real = TypeParam;
    for (const auto& c : core::components) {
        grams_of<real> g{};
        g[core::index_of(c.id)] = static_cast<real>(50.0);
        mixture m;
        m[c.id] = 50.0;
        for (const double celsius : {100.5, 104.0, 118.0, 150.0, 200.0, 250.0}) {
            const auto want = core::water_at_boil(m, celsius, 101325.0);
            real got{};
            const int32_t status = api<real>::water(g.data(), SIROP_COMPONENT_COUNT, static_cast<real>(celsius),
                                                    static_cast<real>(1013.25), &got);
            EXPECT_EQ(status, code_of(want.status)) << c.name;
            if (want.computed()) {
                EXPECT_NEAR(got / want.value, 1.0, api<real>::water_tolerance(celsius - 99.974)) << c.name;
            }
            EXPECT_EQ(std::isnan(got), !want.computed()) << c.name;
        }
    }
}

/// From nearly dry to a part in a million of solids: the whole span of both solves.
TYPED_TEST(small_api, boiling_point_and_activity_are_those_of_the_library) {
    using real = TypeParam;
    random_numbers random(2);
    std::size_t boiled = 0, refused = 0;
    double lowest = 1.0;
    for (std::size_t i = 0, n = sweep(10000); i < n; ++i) {
        mixture m = random_solids(random);
        m[component::water] = as_float(m.total() * std::pow(10.0, random.between(-4.0, i % 2 == 0 ? 0.5 : 6.0)));
        const auto g = rounded<real>(m);
        const double hpa = random_pressure(random), base = core::water_boils_celsius(100.0 * hpa);
        const double boils = core::boiling_celsius(m, 100.0 * hpa, core::curve::best);
        real got{};
        int32_t status = api<real>::boils(g.data(), SIROP_COMPONENT_COUNT, static_cast<real>(hpa), &got);
        if (std::isnan(boils) || boils > 249.99) {  // at the end of the model either may refuse
            ASSERT_TRUE(status == SIROP_E_IMPOSSIBLE || got > 249.9) << describe(m);
            ++refused;
        } else {
            ASSERT_GE(status, 0) << describe(m) << hpa;
            ASSERT_NEAR(got, boils, api<real>::boils_tolerance(boils - base) + 1.0e-11) << describe(m) << hpa;
            ++boiled;
        }
        const double celsius = as_float(random.between(-30.0, 250.0));
        const double ln_aw = core::ln_activity(m, celsius + 273.15, core::curve::best);
        status = api<real>::activity(g.data(), SIROP_COMPONENT_COUNT, static_cast<real>(celsius), &got);
        ASSERT_EQ(status < 0, std::isnan(ln_aw)) << describe(m) << celsius;
        if (status < 0) continue;
        lowest = std::min(lowest, std::exp(ln_aw));
        ASSERT_NEAR(got, std::exp(ln_aw), api<real>::activity_tolerance(std::exp(ln_aw)))
            << describe(m) << celsius;
    }
    EXPECT_GT(boiled, refused);
    EXPECT_LT(lowest, 0.02);
}

TYPED_TEST(small_api, grades_are_those_of_the_library) {
    using real = TypeParam;
    random_numbers random(3);
    const std::size_t n = sweep(1000);
    std::size_t other = 0, fine = 0, extrapolated = 0;
    for (std::size_t i = 0; i < n; ++i) {
        mixture m;
        m[i % 3 == 0 ? component::glucose : component::sucrose] = 50.0;
        if (i % 5 == 0) m[component::protein] = 2.0;
        m[component::water] = as_float(50.0 * std::pow(10.0, random.between(-2.0, 2.0)));
        const auto g = rounded<real>(m);
        const double celsius = as_float(random.between(-30.0, 250.0));
        real got{};
        const auto activity = core::water_activity(m, celsius);
        const auto boils = core::boiling_celsius(m, 101325.0);
        const int32_t one = api<real>::activity(g.data(), SIROP_COMPONENT_COUNT, static_cast<real>(celsius), &got);
        const int32_t two = api<real>::boils(g.data(), SIROP_COMPONENT_COUNT, static_cast<real>(1013.25), &got);
        if (one != code_of(activity.status) || two != code_of(boils.status)) ++other;
        ++(activity.status == core::grade::fine ? fine : extrapolated);
    }
    EXPECT_LE(other, (std::is_same_v<real, double> ? 0 : n / 100));
    if (n > 100) {
        EXPECT_GT(fine, n / 10);
        EXPECT_GT(extrapolated, n / 10);
    }
}

TYPED_TEST(small_api, the_syrup_phase_is_that_of_the_library) {
    using real = TypeParam;
    random_numbers random(4);
    for (std::size_t i = 0, n = sweep(20000); i < n; ++i) {
        mixture m = random_solids(random);
        m[component::water] = i % 10 == 0 ? 0.0 : as_float(m.total() * std::pow(10.0, random.between(-3.0, 2.0)));
        const auto g = rounded<real>(m);
        const double glass = core::glass_celsius(m);
        real got{};
        const int32_t status = api<real>::glass(g.data(), SIROP_COMPONENT_COUNT, &got);
        ASSERT_EQ(status, std::isnan(glass) ? SIROP_E_IMPOSSIBLE : SIROP_OK);
        if (status == SIROP_OK) {
            ASSERT_NEAR(got, glass, api<real>::glass_kelvin) << describe(m);
        }
        const double celsius = as_float(random.between(-30.0, 170.0));
        const double want = core::syrup_log10_viscosity(m, celsius);
        const int32_t thick =
            api<real>::viscosity(g.data(), SIROP_COMPONENT_COUNT, static_cast<real>(celsius), &got);
        ASSERT_EQ(thick < 0, std::isnan(want)) << describe(m);
        if (thick < 0) continue;
        ASSERT_NEAR(got, want, api<real>::viscosity_relative * std::max(1.0, std::fabs(want))) << describe(m);
        const bool fitted = celsius >= 0.0 && celsius <= 100.0 && m.syrup_solids() <= 0.75;
        if (std::fabs(m.syrup_solids() - 0.75) > 1.0e-6) {
            ASSERT_EQ(thick, fitted ? SIROP_OK : SIROP_EXTRAPOLATED) << describe(m);
        }
    }
}

TYPED_TEST(small_api, pressures_are_those_of_the_library) {
    using real = TypeParam;
    real got{};
    for (double hpa = 300.0; hpa <= 1100.0; hpa += 0.25) {
        ASSERT_EQ(api<real>::water_boils(static_cast<real>(hpa), &got), SIROP_OK);
        ASSERT_NEAR(got, core::water_boils_celsius(100.0 * hpa), api<real>::boiling_water_kelvin) << hpa;
    }
    for (double metres = -500.0; metres <= 9000.0; metres += 4.0) {
        ASSERT_EQ(api<real>::pressure(static_cast<real>(metres), &got), SIROP_OK);
        ASSERT_NEAR(got / (0.01 * sirop::formula::standard_pressure(metres)), 1.0, api<real>::pressure_relative);
    }
    ASSERT_EQ(api<real>::pressure(static_cast<real>(1500.0), &got), SIROP_OK);
    EXPECT_NEAR(got, 845.56, 0.005);  // ISO 2533
}

TYPED_TEST(small_api, brix_is_that_of_the_library) {
    using real = TypeParam;
    real got{}, before = static_cast<real>(-1.0);
    for (double brix = 0.05; brix < 94.99; brix += 0.05) {
        const double index = as_float(sirop::formula::sucrose_refractive_index(0.01 * brix));
        const int32_t status = api<real>::brix_of_index(static_cast<real>(index), &got);
        ASSERT_GE(status, 0) << brix;
        if (std::fabs(brix - 85.0) > 0.01) {
            ASSERT_EQ(status, brix < 85.0 ? SIROP_OK : SIROP_EXTRAPOLATED) << brix;
        }
        ASSERT_NEAR(got, core::detail::brix_of_index(index), api<real>::brix) << brix;
        ASSERT_GT(got, before);
        before = got;
        const double density = as_float(core::brix_to_density_kg_m3(brix));
        ASSERT_GE(api<real>::brix_of_density(static_cast<real>(density), &got), 0) << brix;
        ASSERT_NEAR(got, core::density_kg_m3_to_brix(density), api<real>::brix) << brix;
    }
    for (const double brix : {0.0, 95.0}) {  // the ends count, rounded as they are
        const auto index = static_cast<real>(sirop::formula::sucrose_refractive_index(0.01 * brix));
        EXPECT_GE(api<real>::brix_of_index(index, &got), 0);
        EXPECT_NEAR(got, brix, api<real>::brix);
        EXPECT_GE(api<real>::brix_of_density(static_cast<real>(core::brix_to_density_kg_m3(brix)), &got), 0);
        EXPECT_NEAR(got, brix, api<real>::brix);
    }
    EXPECT_EQ(api<real>::brix_of_index(static_cast<real>(1.33), &got), SIROP_E_RANGE);
    EXPECT_TRUE(std::isnan(got));
    EXPECT_EQ(api<real>::brix_of_index(static_cast<real>(1.54), &got), SIROP_E_RANGE);
    EXPECT_EQ(api<real>::brix_of_density(static_cast<real>(990.0), &got), SIROP_E_RANGE);
    EXPECT_EQ(api<real>::brix_of_density(static_cast<real>(1600.0), &got), SIROP_E_RANGE);
    EXPECT_TRUE(std::isnan(got));
}

TYPED_TEST(small_api, goes_one_way) {
    using real = TypeParam;
    random_numbers random(5);
    for (std::size_t i = 0, n = sweep(300); i < n; ++i) {
        const mixture m = random_solids(random);
        auto g = rounded<real>(m);
        const auto hpa = static_cast<real>(random_pressure(random));
        real base{}, got{}, before{};
        ASSERT_EQ(api<real>::water_boils(hpa, &base), SIROP_OK);
        const auto step = static_cast<real>(0.05);
        const real from = base + static_cast<real>(random.between(0.1, 120.0));
        for (int k = 0; k < 20; ++k) {
            const real celsius = from + static_cast<real>(k) * step;
            ASSERT_GE(api<real>::water(g.data(), SIROP_COMPONENT_COUNT, celsius, hpa, &got), 0);
            if (k > 0) {
                ASSERT_LT(got, before) << describe(m) << celsius;
            }
            before = got;
        }
        // the water that it held at last: it boils there again, higher with less water and with more pressure
        g[SIROP_WATER] = got;
        real boils{}, other{};
        const real last = from + static_cast<real>(19) * step;
        ASSERT_GE(api<real>::boils(g.data(), SIROP_COMPONENT_COUNT, hpa, &boils), 0);
        ASSERT_NEAR(boils, last, api<real>::boils_tolerance(static_cast<double>(last - base))) << describe(m);
        if (hpa < static_cast<real>(1099.0)) {
            ASSERT_GE(api<real>::boils(g.data(), SIROP_COMPONENT_COUNT, hpa + static_cast<real>(1.0), &other), 0);
            ASSERT_GT(other, boils);
        }
        real wet{};
        ASSERT_GE(api<real>::activity(g.data(), SIROP_COMPONENT_COUNT, static_cast<real>(20.0), &wet), 0);
        g[SIROP_WATER] *= static_cast<real>(0.99);
        ASSERT_GE(api<real>::boils(g.data(), SIROP_COMPONENT_COUNT, hpa, &other), 0);
        ASSERT_GT(other, boils);
        ASSERT_GE(api<real>::activity(g.data(), SIROP_COMPONENT_COUNT, static_cast<real>(20.0), &other), 0);
        ASSERT_LT(other, wet);
    }
}

TYPED_TEST(small_api, water_alone_boils_as_water) {
    using real = TypeParam;
    const real water[] = {static_cast<real>(100.0)};
    real got{}, boils{};
    EXPECT_EQ(api<real>::boils(water, 1, static_cast<real>(900.0), &got), SIROP_OK);
    EXPECT_EQ(api<real>::water_boils(static_cast<real>(900.0), &boils), SIROP_OK);
    EXPECT_EQ(got, boils);
    EXPECT_EQ(api<real>::activity(water, 1, static_cast<real>(20.0), &got), SIROP_OK);
    EXPECT_EQ(got, static_cast<real>(1.0));
    EXPECT_EQ(api<real>::water(water, 1, static_cast<real>(120.0), static_cast<real>(900.0), &got),
              SIROP_E_IMPOSSIBLE);
    EXPECT_TRUE(std::isnan(got));
}

/// One ulp past each limit, NaN, infinities and null: refused, and nothing stale is left.
TYPED_TEST(small_api, refuses) {
    using real = TypeParam;
    constexpr real nan = std::numeric_limits<real>::quiet_NaN(), inf = std::numeric_limits<real>::infinity();
    constexpr std::size_t all = SIROP_COMPONENT_COUNT;
    const auto below = [](double x) { return std::nextafter(static_cast<real>(x), -inf); };
    const auto above = [](double x) { return std::nextafter(static_cast<real>(x), inf); };
    const auto of = [](double x) { return static_cast<real>(x); };
    const auto refused = [](int32_t want, const auto& call) {
        real out = static_cast<real>(7.0);
        EXPECT_EQ(call(&out), want);
        EXPECT_TRUE(std::isnan(out));
    };
    grams_of<real> good{};
    good[SIROP_SUCROSE] = of(80.0);
    good[SIROP_WATER] = of(20.0);

    real out{};
    for (const real hpa : {below(300.0), above(1100.0), nan, inf, -inf}) {
        refused(SIROP_E_RANGE, [&](real* o) { return api<real>::water_boils(hpa, o); });
        refused(SIROP_E_RANGE, [&](real* o) { return api<real>::boils(good.data(), all, hpa, o); });
        refused(SIROP_E_RANGE, [&](real* o) { return api<real>::water(good.data(), all, of(118.0), hpa, o); });
    }
    for (const double hpa : {300.0, 1100.0}) {
        EXPECT_EQ(api<real>::water_boils(of(hpa), &out), SIROP_OK);
        EXPECT_GE(api<real>::boils(good.data(), all, of(hpa), &out), 0);
    }
    for (const real metres : {below(-500.0), above(9000.0), nan, inf})
        refused(SIROP_E_RANGE, [&](real* o) { return api<real>::pressure(metres, o); });
    for (const double metres : {-500.0, 9000.0}) EXPECT_EQ(api<real>::pressure(of(metres), &out), SIROP_OK);
    for (const real celsius : {below(-30.0), above(250.0), nan, inf, -inf}) {
        refused(SIROP_E_RANGE, [&](real* o) { return api<real>::activity(good.data(), all, celsius, o); });
        refused(SIROP_E_RANGE,
                [&](real* o) { return api<real>::water(good.data(), all, celsius, of(1000.0), o); });
    }
    for (const double celsius : {-30.0, 250.0})
        EXPECT_GE(api<real>::activity(good.data(), all, of(celsius), &out), 0);
    for (const real celsius : {below(-30.0), above(170.0), nan})
        refused(SIROP_E_RANGE, [&](real* o) { return api<real>::viscosity(good.data(), all, celsius, o); });
    for (const double celsius : {-30.0, 170.0})
        EXPECT_GE(api<real>::viscosity(good.data(), all, of(celsius), &out), 0);
    for (const real x : {nan, inf, -inf, of(0.0)}) {
        refused(SIROP_E_RANGE, [&](real* o) { return api<real>::brix_of_index(x, o); });
        refused(SIROP_E_RANGE, [&](real* o) { return api<real>::brix_of_density(x, o); });
    }
    // water does not boil yet
    for (const double celsius : {-30.0, 20.0, 99.9})
        refused(SIROP_E_IMPOSSIBLE,
                [&](real* o) { return api<real>::water(good.data(), all, of(celsius), of(1013.25), o); });

    const auto each_of_mixture = [&](int32_t want, const real* g, std::size_t components) {
        refused(want, [&](real* o) { return api<real>::boils(g, components, of(1000.0), o); });
        refused(want, [&](real* o) { return api<real>::water(g, components, of(118.0), of(1000.0), o); });
        refused(want, [&](real* o) { return api<real>::activity(g, components, of(20.0), o); });
        refused(want, [&](real* o) { return api<real>::viscosity(g, components, of(20.0), o); });
        refused(want, [&](real* o) { return api<real>::glass(g, components, o); });
    };
    each_of_mixture(SIROP_E_NULL, nullptr, all);
    each_of_mixture(SIROP_E_RANGE, good.data(), 0);
    each_of_mixture(SIROP_E_RANGE, good.data(), all + 1);
    for (const real bad : {nan, inf, -inf, of(-1.0e-30), above(1.0e9)}) {
        auto g = good;
        g[SIROP_GELATIN] = bad;
        each_of_mixture(SIROP_E_RANGE, g.data(), all);
    }
    const grams_of<real> nothing{};
    each_of_mixture(SIROP_E_RANGE, nothing.data(), all);
    grams_of<real> fat{};
    fat[SIROP_FAT] = of(10.0);  // neither water nor anything that holds it
    each_of_mixture(SIROP_E_IMPOSSIBLE, fat.data(), all);

    EXPECT_EQ(api<real>::water_boils(of(1000.0), nullptr), SIROP_E_NULL);
    EXPECT_EQ(api<real>::pressure(of(0.0), nullptr), SIROP_E_NULL);
    EXPECT_EQ(api<real>::boils(good.data(), all, of(1000.0), nullptr), SIROP_E_NULL);
    EXPECT_EQ(api<real>::water(good.data(), all, of(118.0), of(1000.0), nullptr), SIROP_E_NULL);
    EXPECT_EQ(api<real>::activity(good.data(), all, of(20.0), nullptr), SIROP_E_NULL);
    EXPECT_EQ(api<real>::viscosity(good.data(), all, of(20.0), nullptr), SIROP_E_NULL);
    EXPECT_EQ(api<real>::glass(good.data(), all, nullptr), SIROP_E_NULL);
    EXPECT_EQ(api<real>::brix_of_index(of(1.4), nullptr), SIROP_E_NULL);
    EXPECT_EQ(api<real>::brix_of_density(of(1200.0), nullptr), SIROP_E_NULL);
}

/// The solver alone: roots known beforehand, functions that are hard on chords, and no root.
TEST(small_solver, finds_the_root_within_its_bound) {
    int calls = 0;
    const auto root = [&](const auto& f, double guess, double low, double high) {
        calls = 0;
        return core::solve_monotone<double>([&](double x) { return ++calls, f(x); }, guess, low, high);
    };
    EXPECT_NEAR(root([](double x) { return x * x * x - 2.0; }, 0.0, -10.0, 10.0), std::cbrt(2.0), 1.0e-13);
    EXPECT_LT(calls, 25);
    EXPECT_NEAR(root([](double x) { return 1.0 - std::exp(x); }, 9.0, -30.0, 30.0), 0.0, 1.0e-13);
    EXPECT_LT(calls, 40);
    EXPECT_NEAR(root([](double x) { return std::pow(x, 9.0); }, 0.9, -1.0, 2.0), 0.0, 1.0e-6);  // flat at its root
    EXPECT_LE(calls, 150);
    EXPECT_NEAR(root([](double x) { return x < 0.3 ? x - 9.0 : x + 9.0; }, 0.0, -5.0, 5.0), 0.3,
                1.0e-7);  // a step
    EXPECT_LE(calls, 150);
    EXPECT_NEAR(root([](double x) { return x < 1.0 ? std::log1p(-x) + 5.0 : -HUGE_VAL; }, 0.0, 0.0, 1.0),
                1.0 - std::exp(-5.0), 1.0e-12);                              // infinite at the end
    EXPECT_EQ(root([](double x) { return x - 1.0; }, 0.0, -4.0, 1.0), 1.0);  // at the end
    EXPECT_TRUE(std::isnan(root([](double x) { return x - 1.0; }, 0.0, -4.0, 0.9)));
    EXPECT_TRUE(std::isnan(root([](double) { return core::not_a_number; }, 0.0, -4.0, 4.0)));
    EXPECT_TRUE(std::isnan(root([](double x) { return x; }, 0.0, 1.0, 1.0)));
}

}  // namespace
