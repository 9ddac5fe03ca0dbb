// Water activity where it is hardest: thick sucrose, chains, glass, single sugars on their own data, real mixtures
// and the mixing rule.  What is known to lie outside an interval is named.
#include <gtest/gtest.h>
#include <sirop/data/pantry.hpp>
#include <sirop/solution/properties.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <string>
#include <utility>

#include "activity_models.hpp"
#include "honey.hpp"
#include "mixtures.hpp"
#include "published.hpp"
#include "sweep.hpp"

namespace {

using namespace sirop::core;
namespace formula = sirop::formula;
using namespace sirop_test;

constexpr double atmosphere = formula::standard_atmosphere;

bool holds(const estimate& e, double value, double rounding = 0.0) {
    return value >= e.low - rounding && value <= e.high + rounding;
}
estimate held(const mixture& m, double aw, double celsius) {
    return estimate_of(
        three_curves.map([&](curve side) { return water_held(m, std::log(aw), kelvin(celsius), side); }),
        grade::fine);
}
estimate elevation(const mixture& m) {
    const estimate boils = boiling_celsius(m, atmosphere);
    const double base = water_boils_celsius(atmosphere);
    return between(boils.value - base, boils.low - base, boils.high - base);
}
mixture glucose_syrup(double de) {
    mixture m;
    m.grams = starch_syrup_solids(de);
    return m;
}

// ---- single solutes ----

// CRC Handbook, 102nd ed.: freezing points printed to 0.01 K, 0.00005 in aw.  Fructose's own curve is our fit to
// its eleven points; lactose has sucrose's per gram.
TEST(SingleSolutes, FreezingPointsOfFructoseAndLactose) {
    for (const auto& [solute, most] : {std::pair{component::fructose, 2.0e-4}, {component::lactose, 1.0e-4}}) {
        deviations aw{"aw at freezing, " + std::string(data_of(solute).name)};
        std::size_t inside = 0;
        for (const csv_row& row : read_csv("fructose_lactose_20C.csv").rows) {
            if (row.text("solute") != data_of(solute).name || !row.has("Tf_C")) continue;
            const estimate e = water_activity(solution(solute, row.number("mass_percent")), row.number("Tf_C"));
            aw.add(e.value - row.number("aw_at_Tf"), row.place());
            inside += holds(e, row.number("aw_at_Tf"), 5.0e-5);
        }
        ASSERT_EQ(aw.count(), solute == component::fructose ? 11U : 5U);
        EXPECT_LE(aw.rms(), most);
        EXPECT_GE(inside, aw.count() - aw.count() / 10);
    }
}

// Thick, fructose is glucose, within 0.001 in aw from 80 % on: nothing at hand tells them apart.
TEST(SingleSolutes, FructoseMeetsGlucoseWhereItIsThick) {
    for (const double w : {80.0, 85.0, 90.0, 95.0})
        EXPECT_NEAR(water_activity(solution(component::fructose, w), 25.0).value,
                    water_activity(solution(component::glucose, w), 25.0).value, 1.0e-3)
            << w;
}

// Amorphous lactose, 6.8 g per 100 g at aw 0.37 and its glass transition (Roos, Lait 82 (2002) 475): drier than
// the curve of sucrose per gram by 2.7 g, at the end of an interval that leans that way.
TEST(SingleSolutes, AmorphousLactose) {
    const estimate h = held(made_of({{component::lactose, 100.0}}), 0.37, 24.0);
    std::printf("    lactose at aw 0.37: %.2f (%.2f to %.2f), published 6.8\n", h.value, h.low, h.high);
    EXPECT_TRUE(holds(h, 6.8, 0.05));
    EXPECT_GT(h.value - h.low, 1.5 * (h.high - h.value));
}

// Diluting a thick syrup of these gives heat: water clings less when warm, so ln aw at given water rises with T.
// That of glycerol is known by its sign alone.  So it is for the solids, by their heat of sorption.
TEST(SingleSolutes, ActivityOfAGivenSolutionRisesWithTemperature) {
    for (const component c : {component::sucrose, component::glucose, component::fructose, component::glycerol,
                              component::protein, component::starch, component::cocoa_solids})
        for (const double w : {60.0, 75.0, 85.0, 92.0}) {
            if (data_of(c).where == phase::suspended && w < 85.0) continue;
            EXPECT_GT(water_activity(solution(c, w), 60.0).value, water_activity(solution(c, w), 20.0).value)
                << data_of(c).name << " " << w;
        }
}

// Norrish's law with Chirife's K = -1.16 (recalled, confidence high), 25 C, to 60 %: within 0.003.
TEST(SingleSolutes, GlycerolByNorrish) {
    for (double w = 10.0; w <= 60.0; w += 10.0) {
        const double x = mole_fraction_at(w, glycerol_molar_mass);
        EXPECT_NEAR(water_activity(solution(component::glycerol, w), 25.0).value,
                    std::exp(formula::norrish_ln_activity(x, -1.16)), 0.003)
            << w;
    }
}

// A saturated brine, 28.4 %, boils at 108.7 C (recalled, confidence medium-high): 0.7 K below the constants of 25
// C, and within the interval, which leans that way when hot.
TEST(SingleSolutes, BoilingBrine) {
    const estimate boils = boiling_celsius(solution(component::salt, 28.4), atmosphere);
    std::printf("    brine: %.2f (%.2f to %.2f) C\n", boils.value, boils.low, boils.high);
    EXPECT_NEAR(boils.value, 108.7, 0.75);
    EXPECT_TRUE(holds(boils, 108.7));
}

// ---- sucrose: three sources and a fourth witness ----

// At 25 C the interval holds the modified UNIQUAC from 70 to 97 %, the droplets (Zobrist et al. 2011) from 80 % on
// (at 50 to 75 % they lie off the isopiestic measurements, by 0.007 at 60 %), and 0.4 at "90 %" (Price et al.
// 2016); from 85 to 95 % it leans to the higher activity, as two of the three others do.
TEST(Sucrose, RoomTemperatureSources) {
    std::size_t droplets = 0;
    for (const auto& point : droplet_activities()) {
        if (point.percent < 80.0) continue;
        ++droplets;
        EXPECT_TRUE(holds(water_activity(solution(component::sucrose, point.percent), 25.0), point.value))
            << point.place;
    }
    EXPECT_EQ(droplets, 6U);
    for (double w = 70.0; w <= 97.0; w += 1.0) {
        const estimate e = water_activity(solution(component::sucrose, w), 25.0);
        const double x = mole_fraction_at(w, sucrose_molar_mass);
        EXPECT_TRUE(
            holds(e, std::exp(formula::uniquac_ln_activity(x, kelvin(25.0), formula::uniquac_sucrose)), 1.0e-9))
            << w;
        const bool thick = w >= 85.0 && w <= 95.0;
        EXPECT_TRUE(!thick || e.high - e.value > 1.3 * (e.value - e.low)) << w;
    }
    EXPECT_TRUE(holds(water_activity(solution(component::sucrose, 90.0), 25.0), 0.4));
}

// At the boil the equation of technical sugar (Bubnik & Kadlec 1995) lies inside from 65 to 88 %; at 90 % and
// beyond it lies below, where its range, which is not stated, can hardly reach.
TEST(Sucrose, BoilingPointOfTechnicalSugar) {
    std::size_t inside = 0, points = 0;
    for (const auto& point : technical_elevations()) {
        if (point.percent < 65.0 || point.percent > 88.0) continue;
        ++points;
        inside += holds(elevation(solution(component::sucrose, point.percent)), point.value, 0.005);
    }
    EXPECT_EQ(points, 9U);
    EXPECT_EQ(inside, points);
}

// ---- chains and glass ----

// Sloan & Labuza 1975, corn syrup read off curves to +-2 g per 100 g: rms 4 g at most, with chi of the dry chain
// at most 0.85, and all four within the interval and the reading.  The source's own sucrose lies 3 to 6 g below
// the isopiestic curve; the ratios to it are printed.
TEST(Chains, CornSyrup) {
    EXPECT_LE(detail::dry_chain_chi, 0.85);
    const auto table = read_csv("sorption_amorphous_sugars.csv");
    constexpr std::array<std::array<double, 2>, 4> sucrose_off = {
        {{0.6, 4.72}, {0.7, 5.62}, {0.8, 2.81}, {0.9, 4.70}}};
    deviations grams{"42 DE, g per 100 g"};
    for (const auto& [aw, known] : sucrose_off) {
        const std::string column = "aw_0." + std::to_string(std::lround(10.0 * aw)) + "0";
        const double printed = table.rows[1].number(column), sucrose_printed = table.rows[0].number(column);
        const estimate h = held(glucose_syrup(42.0), aw, 25.0);
        const double of_sucrose = held(made_of({{component::sucrose, 100.0}}), aw, 25.0).value;
        std::printf("    %s: %.1f (%.1f to %.1f), source %.0f; over sucrose %.2f, source %.2f\n", column.c_str(),
                    h.value, h.low, h.high, printed, h.value / of_sucrose, printed / sucrose_printed);
        grams.add(h.value - printed, column);
        EXPECT_TRUE(holds(h, printed, 2.0)) << column;
        EXPECT_NEAR(of_sucrose - sucrose_printed, known, 0.01) << column;
        EXPECT_GE(of_sucrose, h.value) << column;
    }
    EXPECT_LE(grams.rms(), 4.0);
}

// ln aw rises with water for every length while the dry chi is at most 1.0: the slope over all volume fractions.
TEST(Chains, ActivityRisesWithWaterForEveryLength) {
    for (const double chi : {0.5, 0.8, 0.95, 1.0})
        for (double size = 10.0; size < 1.0e4; size *= 1.5) {
            double before = 0.0;
            for (double f = 0.0005; f < 1.0; f += 0.0005) {
                const double ln_aw =
                    formula::flory_huggins_ln_activity(f, size, formula::chain_interaction(f, chi));
                ASSERT_LT(ln_aw, before) << chi << " " << size << " " << f;
                before = ln_aw;
            }
        }
}

// The glass adds nothing above the glass transition, something below it, nothing to sugar without chains; water
// rises with activity through it, and falls with temperature.
TEST(Chains, GlassHoldsMore) {
    for (const double de : {10.0, 20.0, 42.0, 60.0}) {
        const mixture dry = glucose_syrup(de);
        double before = 0.0;
        for (double aw = 0.02; aw < 0.9; aw += 0.001) {
            const double ln_aw = std::log(aw), t = kelvin(25.0);
            const double water = water_held(dry, ln_aw, t), liquid = water_held_by_liquid(dry, ln_aw, t);
            ASSERT_GT(water, before) << de << " " << aw;
            before = water;
            if (glass_celsius(dry.with_water(water)) > 25.0)
                ASSERT_GT(water, liquid) << de << " " << aw;
            else
                ASSERT_EQ(water, liquid) << de << " " << aw;
            ASSERT_LT(water_held(dry, ln_aw, t + 5.0), water) << de << " " << aw;
        }
    }
    const mixture sugar = made_of({{component::sucrose, 98.0}});
    EXPECT_EQ(glass_ln_activity(sugar, 2.0, kelvin(0.0)), 0.0);
    EXPECT_GT(glass_celsius(sugar.with_water(2.0)), 0.0);
}

// A maltodextrin of unstated DE, 8.2 g per 100 g at aw 0.33 and 24 C, in the glass (Lievonen et al. 1998): inside
// the interval, which the curve of the liquid alone is not.
TEST(Chains, MaltodextrinInTheGlass) {
    for (const double de : {10.0, 15.0, 20.0}) {
        const mixture dry = glucose_syrup(de);
        const estimate h = held(dry, 0.33, 24.0);
        std::printf("    DE %.0f at aw 0.33: %.2f (%.2f to %.2f), published 8.2\n", de, h.value, h.low, h.high);
        EXPECT_TRUE(holds(h, 8.2)) << de;
        EXPECT_LT(water_held_by_liquid(dry, std::log(0.33), kelvin(24.0), curve::high), 8.2) << de;
    }
}

// ---- mixtures ----

// The additive rule against the ternary modified UNIQUAC of Peres & Macedo, both on the same two binaries: 0.0005
// in aw over 60 to 95 %, 25 to 120 C, all ratios (model against model; parameters recalled).
TEST(MixingRule, TernaryUniquac) {
    deviations aw{"ternary UNIQUAC against the additive rule, aw"};
    compare_ternary_uniquac([&](double off, double w, double celsius) {
        aw.add(off, std::to_string(w) + " %, " + std::to_string(celsius) + " C");
    });
    EXPECT_EQ(aw.count(), 96U);
    EXPECT_LE(aw.worst(), 5.0e-4);
    // With one of the two absent it is the binary.
    EXPECT_NEAR(
        uniquac_ternary_ln_activity(80.0, 0.0, 20.0, 300.0),
        formula::uniquac_ln_activity(mole_fraction_at(80.0, sucrose_molar_mass), 300.0, formula::uniquac_sucrose),
        1.0e-12);
}

// The rule's own error widens nothing that is one curve, and every mixture of several on both sides.
TEST(MixingRule, WidensMixturesOnly) {
    const mixture one = made_of({{component::sucrose, 60.0}, {component::lactose, 40.0}});
    const mixture two = made_of({{component::sucrose, 60.0}, {component::glucose, 40.0}});
    for (const double aw : {0.95, 0.7, 0.4, 0.1}) {
        const double ln_aw = std::log(aw);
        EXPECT_EQ(beside_mixing_rule(one, ln_aw, curve::low), ln_aw);
        EXPECT_LT(beside_mixing_rule(two, ln_aw, curve::low), ln_aw);
        EXPECT_GT(beside_mixing_rule(two, ln_aw, curve::high), ln_aw);
    }
}

// Published points of real mixtures, nine in ten inside: honey by Chirife's line (2006, recalled) and at the two
// ends of Lazaridou's range (2004; laboratories differ by 0.06 in aw at equal water, so +-0.03), milk concentrate
// at the boil (Hui; +-0.5 K, taken as skim milk at 1 atm, which the source does not say), corn syrup (+-2 g).
TEST(MixingRule, RealMixtures) {
    std::size_t inside = 0, points = 0;
    const auto count = [&](const char* what, const estimate& e, double published, double rounding) {
        ++points;
        inside += holds(e, published, rounding);
        std::printf("    %s: %.3f (%.3f to %.3f), published %.3f%s\n", what, e.value, e.low, e.high, published,
                    holds(e, published, rounding) ? "" : ", outside");
    };
    count("honey 17.2 %", water_activity(honey(), 25.0), 0.262 + 0.0179 * 17.2, 0.0);
    for (const auto& point : greek_honey_activities())
        count("honey", water_activity(honey(point.percent), 25.0), point.value, honey_laboratories_differ);
    for (const auto& point : milk_elevations())
        count("milk", elevation(skim_milk(point.percent)), point.value, 0.5);
    const auto table = read_csv("sorption_amorphous_sugars.csv");
    for (const char* column : {"0.60", "0.70", "0.80", "0.90"})
        count("corn syrup", held(glucose_syrup(42.0), std::stod(column), 25.0),
              table.rows[1].number(std::string("aw_") + column), 2.0);
    EXPECT_EQ(points, 14U);
    EXPECT_GE(static_cast<double>(inside), 0.9 * static_cast<double>(points));
}

}  // namespace
