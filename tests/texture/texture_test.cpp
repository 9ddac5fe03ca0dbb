// Solid fat, gels, networks and slumping: the formulas against their own recalculation, and how the firmness made
// of them behaves.
#include <gtest/gtest.h>

#include "expect.hpp"
#include "formulas.hpp"
#include "mixtures.hpp"
#include "pantry_mixtures.hpp"
#include "sirop/texture/serving.hpp"
#include "sirop/texture/stage_equivalent.hpp"
#include "sweep.hpp"

namespace {

using namespace sirop;
using namespace sirop::core;
using namespace sirop_test;

constexpr double pi = 3.14159265358979323846, gravity = 9.80665;

// ---- formulas

TEST(texture, solid_fat_falls_to_nothing) {
    for (const auto* curve : {&formula::milk_fat, &formula::cocoa_butter, &formula::vegetable_fat}) {
        double previous = 1.0;
        for (double t = min_model_celsius; t <= 40.0; t += 0.25) {  // over all of the library's range
            const double share = curve->at(t);
            if (previous > 0.0) {
                ASSERT_LT(share, previous) << t;
            }
            EXPECT_GE(share, 0.0);
            previous = share;
        }
        EXPECT_EQ(curve->at(40.0), 0.0);
        EXPECT_EQ(curve->at(-100.0), curve->points[0][1]);
        EXPECT_EQ(curve->at(200.0), 0.0);
    }
    // melted in the mouth: milk fat and cocoa butter by 37 C (common practice, no source)
    EXPECT_EQ(formula::milk_fat.at(37.0), 0.0);
    EXPECT_EQ(formula::cocoa_butter.at(37.0), 0.0);
    EXPECT_GT(formula::cocoa_butter.at(33.0), 0.0);
    // cocoa butter is hard where butter is spread, and melts steeply
    EXPECT_GT(formula::cocoa_butter.at(20.0), 3.0 * formula::milk_fat.at(20.0));
    EXPECT_GT(formula::cocoa_butter.at(30.0) - formula::cocoa_butter.at(33.0), 0.3);
}

/// By bisection, the place in [low, high] where a rising function is 0; on a logarithmic scale.
template <class Function>
double crossing(double low, double high, const Function& f) {
    for (int i = 0; i < 200; ++i) {
        const double middle = std::sqrt(low * high);
        (f(middle) < 0.0 ? low : high) = middle;
    }
    return low;
}

TEST(texture, slump_time_is_that_of_the_spreading_drop) {
    // Huppert 1982: r = 0.894 (g V^3 t/(3 nu))^(1/8); its profile has the middle height (4/3) V/(pi r^2).  Here
    // the time is found by trying, the formula has it in closed form.
    for (const auto& [eta, h, rho] : {std::array{10.0, 0.01, 1350.0}, std::array{1.0e6, 0.03, 1200.0}}) {
        const double volume = pi * 4.0 * h * h * h;
        const auto middle = [&, rho = rho, eta = eta](double t) {
            const double r = 0.894 * std::pow(gravity * volume * volume * volume * t / (3.0 * eta / rho), 0.125);
            return 4.0 / 3.0 * volume / (pi * r * r);
        };
        const double t = crossing(1e-9, 1e15, [&, h = h](double x) { return 0.5 * h - middle(x); });
        EXPECT_NEAR(formula::slump_seconds(eta, h, rho) / t, 1.0, 1e-12);
        // what the header says of it: 48 eta/(rho g h), to its two figures
        EXPECT_NEAR(formula::slump_seconds(eta, h, rho) * rho * gravity * h / eta, 48.0, 0.5);
    }
}

TEST(texture, holding_stress_is_that_of_a_plastic_at_rest) {
    // Nye 1952: at rest rho g h dh/dr = -tau everywhere.  The profile is integrated here step by step from the
    // middle, and the stress found that puts the whole volume under it.
    for (const auto& [h, rho] : {std::array{0.01, 1350.0}, std::array{0.05, 1100.0}}) {
        const auto volume_under = [&, h = h, rho = rho](double tau) {
            // h^2 falls by 2 tau dr/(rho g): in rings of equal fall of h, by the midpoint rule
            constexpr int rings = 20000;
            double sum = 0.0;
            for (int i = 0; i < rings; ++i) {
                const double top = 0.5 * h * (1.0 - (i + 0.5) / rings);
                const double r = rho * gravity * (0.25 * h * h - top * top) / (2.0 * tau);
                sum += pi * r * r * 0.5 * h / rings;  // a disc of this radius
            }
            return sum;
        };
        const double volume = pi * 4.0 * h * h * h;
        const double tau = crossing(1e-6, 1e6, [&](double x) { return volume - volume_under(x); });
        EXPECT_NEAR(formula::holding_stress(h, rho) / tau, 1.0, 1e-7);
    }
    EXPECT_NEAR(formula::holding_stress(0.02, 1000.0) / formula::holding_stress(0.01, 1000.0), 2.0, 1e-12);
}

TEST(texture, network_and_gels_are_powers_of_what_they_are_made_of) {
    // the power of the network is Shih et al. 1990's form (recalled); the powers are what is claimed, so tested
    EXPECT_NEAR(formula::network_modulus(0.2) / formula::network_modulus(0.1), 16.0, 1e-12);
    EXPECT_NEAR(formula::gel_modulus(0.02, 1.5e8, 2) / formula::gel_modulus(0.01, 1.5e8, 2), 4.0, 1e-12);
    EXPECT_NEAR(formula::gel_modulus(0.2, 3.8e5, 5) / formula::gel_modulus(0.1, 3.8e5, 5), 32.0, 1e-12);
    EXPECT_EQ(formula::network_modulus(0.0), 0.0);
    EXPECT_EQ(formula::gel_modulus(0.0, 3.8e5, 5), 0.0);
    // regression: the marks that the header names for its prefactors (recalled, confidence low to medium)
    EXPECT_NEAR(formula::gel_modulus(0.01, 1.5e8, 2), 15.0e3, 1.0);   // agar of 1 %
    EXPECT_NEAR(formula::gel_modulus(0.05, 2.3e6, 2), 6.0e3, 300.0);  // gelatin of 5 %
    EXPECT_NEAR(formula::gel_modulus(0.10, 1.0e5, 2), 1.0e3, 1e-9);   // starch of 10 %
}

template <class Try>
void with_each_formula(const Try& check) {
    using namespace formula;
    check("network_modulus", 0.3, [](const auto& s) { return network_modulus(s); });
    check("gel_modulus_square", 0.02, [](const auto& s) { return gel_modulus(s, 1.5e8, 2); });
    check("milk_gel_modulus", 0.2, [](const auto& s) { return gel_modulus(s, 3.8e5, 5); });
    check("slump_seconds", 20.0, [](const auto& s) { return slump_seconds(s, 0.01, 1350.0); });
}
/// The formulas with results of the type of their argument, not expressions of it.
const auto with_each_evaluated = [](const auto& check) {
    with_each_formula([&](std::string_view name, double at, const auto& f) {
        check(name, at, [&](const auto& x) { return std::decay_t<decltype(x)>(f(x)); });
    });
};
TEST(texture, is_the_same_on_float) {
    expect_the_same_on_float(with_each_evaluated);
}
TEST(texture, is_the_same_on_arrays) {
    expect_the_same_on_arrays(with_each_evaluated);
}

// ---- the firmness of a mixture

/// Sugar, and any of the other components; part of the protein, starch and agar raw, part of the sugar crystals.
mixture random_mixture(random_numbers& random) {
    mixture m;
    m[component::sucrose] = random.between(0.05, 1.0);
    for (const auto& c : components)
        if (c.id != component::water && random.between(0.0, 1.0) < 0.3)
            m[c.id] += random.between(0.0, 0.5) * random.between(0.0, 1.0);
    m[component::agar] *= 0.05;
    m[component::gelatin] *= 0.2;
    m[component::starch] *= 0.3;
    m.raw(component::protein) = m[component::protein] * random.between(0.0, 1.0);
    m.raw(component::starch) = m[component::starch] * random.between(0.0, 1.0);
    m.raw(component::agar) = m[component::agar] * random.between(0.0, 1.0);
    if (random.between(0.0, 1.0) < 0.5) m.crystals(component::sucrose) = random.between(0.0, 0.4);
    if (random.between(0.0, 1.0) < 0.2) m.crystals(component::lactose) = random.between(0.0, 0.2);
    return m;
}

/// With water: e to a power between `low` and `high`, for 1 of what is dissolved.
mixture random_wet(random_numbers& random, double low, double high) {
    const mixture m = random_mixture(random);
    return m.with_water(m.dissolved() * std::exp(random.between(low, high)));
}

constexpr history both_ways[] = {history::cooling, history::warming};

TEST(firmness, falls_as_water_rises) {
    random_numbers random(60);
    for (std::size_t i = 0; i < sweep(5000); ++i) {
        const mixture m = random_mixture(random);
        const double t = random.between(-30.0, 120.0);
        for (const history h : both_ways) {
            double firmness = HUGE_VAL, modulus = HUGE_VAL;
            for (double u = -4.0; u < 3.0; u += 0.2) {
                const auto wetter = m.with_water(m.dissolved() * std::exp(u));
                const auto f = log10_firmness(wetter, t, h);
                const auto g = gel_modulus(wetter, t, h);
                ASSERT_LT(f.value, firmness) << describe(wetter) << t;
                ASSERT_LE(g.value, modulus) << describe(wetter) << t;
                ASSERT_GE(g.value, 0.0);
                firmness = f.value;
                modulus = g.value;
            }
        }
    }
}

TEST(firmness, falls_as_temperature_rises) {
    random_numbers random(61);
    for (std::size_t i = 0; i < sweep(5000); ++i) {
        const mixture wet = random_wet(random, -3.5, 1.0);
        for (const history h : both_ways) {
            double firmness = HUGE_VAL, modulus = HUGE_VAL, with_ice = HUGE_VAL;
            for (double t = -30.0; t <= 170.0; t += 2.0) {
                const auto f = log10_firmness(wet, t, h);
                const auto g = gel_modulus(wet, t, h);
                ASSERT_LT(f.value, firmness) << describe(wet) << t;
                ASSERT_LE(g.value, modulus) << describe(wet) << t;
                const double frozen = log10_firmness(at_temperature(wet, t), t, h).value;
                ASSERT_LT(frozen, with_ice) << describe(wet) << t;
                ASSERT_GE(frozen, f.value - 1e-9) << describe(wet) << t;
                firmness = f.value;
                modulus = g.value;
                with_ice = frozen;
            }
        }
    }
}

TEST(firmness, is_continuous_in_temperature) {
    // Where the largest step of a coarse grid lies, halving goes after the larger half.  A jump would stay: after
    // 40 halvings of 2 K what is left is 2e-12 K wide, over which the steepest slope here, 1e6 decades per K where
    // the first of a gel sets in thin syrup, makes less than 1e-5.
    random_numbers random(62);
    for (std::size_t i = 0; i < sweep(600); ++i) {
        const mixture wet = random_wet(random, -3.5, 2.0);
        for (const history h : both_ways)
            for (const bool freezing : {false, true}) {
                const auto f = [&](double t) {
                    return log10_firmness(freezing ? at_temperature(wet, t) : wet, t, h).value;
                };
                double low = -30.0, largest = 0.0;
                for (double t = -30.0; t < 150.0; t += 2.0)
                    if (const double step = std::fabs(f(t + 2.0) - f(t)); step > largest) {
                        largest = step;
                        low = t;
                    }
                double high = low + 2.0;
                for (int k = 0; k < 40; ++k) {
                    const double middle = 0.5 * (low + high), at = f(middle);
                    (std::fabs(at - f(low)) > std::fabs(f(high) - at) ? high : low) = middle;
                }
                ASSERT_LT(std::fabs(f(high) - f(low)), 1e-5) << describe(wet) << low << " " << freezing;
            }
    }
}

TEST(firmness, and_slump_do_not_depend_on_the_amount) {
    random_numbers random(63);
    for (std::size_t i = 0; i < sweep(1000); ++i) {
        const mixture wet = random_wet(random, -3.5, 1.0);
        const auto large = wet.times(1000.0);
        const double t = random.between(-30.0, 120.0);
        EXPECT_NEAR(log10_firmness(large, t).value, log10_firmness(wet, t).value, 1e-9);
        const double g = gel_modulus(wet, t).value;
        EXPECT_NEAR(gel_modulus(large, t).value, g, 1e-9 * g);
        const double h = standing_metres(wet, t).value;
        EXPECT_NEAR(standing_metres(large, t).value, h, 1e-9 * h);
        const double s = slump_to_half_seconds(wet, t).value, s_large = slump_to_half_seconds(large, t).value;
        EXPECT_TRUE(s == s_large || std::fabs(s_large / s - 1.0) < 1e-6) << s << " " << s_large;
    }
}

TEST(firmness, has_an_interval_that_holds_it) {
    random_numbers random(64);
    for (std::size_t i = 0; i < sweep(3000); ++i) {
        const mixture wet = random_wet(random, -4.0, 2.0);
        const double t = random.between(-30.0, 150.0);
        for (const auto& e :
             {log10_viscosity(wet, t), log10_firmness(wet, t), log10_firmness(wet, t, history::warming),
              gel_modulus(wet, t), slump_to_half_seconds(wet, t), standing_metres(wet, t)}) {
            ASSERT_TRUE(e.computed()) << describe(wet) << t;
            ASSERT_TRUE(holds(e, e.value)) << describe(wet) << t;
        }
        // a gel only adds to the firmness, and flags it where it decides
        ASSERT_GE(log10_firmness(wet, t).value, log10_viscosity(wet, t).value);
        if (log10_firmness(wet, t).value > log10_viscosity(wet, t).value + 0.31) {
            ASSERT_EQ(log10_firmness(wet, t).status, grade::extrapolated);
        }
    }
}

TEST(viscosity, is_less_certain_beyond_75_percent_solids) {
    // the law rests on syrups to 75 % (Genotelle's range) and on sucrose in air of 30 % humidity to 93 %; beyond
    // it is carried on
    const auto width = [](double solids) {
        const auto v = log10_viscosity(plain_syrup(solids), 20.0);
        EXPECT_EQ(v.status, solids <= 0.93 ? grade::fine : grade::extrapolated) << solids;
        return v.high - v.low;
    };
    const double known = width(0.75);
    EXPECT_GE(known, 2.0 * std::log10(1.09) - 0.003);  // at least the 9 % that the header states
    EXPECT_NEAR(width(0.40), known, 1e-12);
    double previous = known;
    for (double s = 0.755; s < 0.99; s += 0.005) {
        EXPECT_GT(width(s), previous) << s;
        previous = width(s);
    }
    EXPECT_GT(width(0.90), 2.0 * std::log10(3.0));  // a factor of 3 at 90 %, and the glass transition
}

TEST(slump, takes_longer_the_firmer_the_layer) {
    random_numbers random(65);
    for (std::size_t i = 0; i < sweep(5000); ++i) {
        const mixture m = random_mixture(random);
        double by_water = 0.0;
        for (double u = 2.0; u > -4.0; u -= 0.2) {
            const double s = slump_to_half_seconds(m.with_water(m.dissolved() * std::exp(u)), 20.0).value;
            ASSERT_GE(s, by_water) << describe(m) << u;
            ASSERT_TRUE(s > by_water || std::isinf(s)) << describe(m) << u;
            by_water = s;
        }
        // By temperature.  Density rises meanwhile by up to 0.1 % per K, and with it the weight: where the yield
        // stress carries nine tenths of the layer, that counts more than the viscosity.
        double by_cold = 0.0;
        const auto wet = m.with_water(0.25 * m.dissolved());
        for (double t = 120.0; t >= -30.0; t -= 2.0) {
            const double s = slump_to_half_seconds(wet, t).value;
            const double carried = yield_strain * gel_modulus(wet, t).value /
                                   formula::holding_stress(layer_metres, 1000.0 * density(wet, t));
            ASSERT_TRUE(s > by_cold || std::isinf(s) || carried > 0.9) << describe(wet) << t << " " << carried;
            by_cold = s;
        }
    }
}

TEST(pouring, is_where_the_firmness_is_10_pascal_seconds) {
    random_numbers random(66);
    int inside = 0, always = 0, never = 0;
    for (std::size_t i = 0; i < sweep(1500); ++i) {
        const mixture wet = random_wet(random, -4.0, 1.5);
        const auto warm = [&](double t) { return log10_firmness(wet, t, history::warming).value; };
        const auto from = pouring_celsius(wet);
        if (!from.computed()) {
            ++never;
            ASSERT_GT(warm(170.0), 1.0) << describe(wet);
            continue;
        }
        ASSERT_TRUE(holds(from, from.value));
        if (from.value == -30.0) {
            ++always;
            ASSERT_LE(warm(-30.0), 1.0);
            continue;
        }
        ++inside;
        ASSERT_GE(warm(from.value - 1e-6), 1.0) << describe(wet) << from.value;
        ASSERT_LE(warm(from.value + 1e-6), 1.0) << describe(wet) << from.value;
    }
    EXPECT_GT(inside, 0);
    EXPECT_GT(always + never, 0);
}

TEST(agar, sets_between_45_and_32_degrees_and_melts_above_85) {
    // trade and pharmacopoeia description, from memory, confidence high
    mixture jelly = solution(component::sucrose, 30.0);
    jelly[component::agar] = 1.0;
    const auto cooling = [&](double t) { return gel_modulus(jelly, t, history::cooling).value; };
    const auto warming = [&](double t) { return gel_modulus(jelly, t, history::warming).value; };
    // what fibre and the like add, which never sets: the same without agar
    EXPECT_LT(cooling(45.0), 1.0);
    EXPECT_GT(cooling(44.0), 1.0e3);
    EXPECT_GT(cooling(32.0), 0.99 * cooling(20.0));
    EXPECT_GT(warming(85.0), 0.99 * warming(20.0));
    EXPECT_LT(warming(95.0), 1.0);
    EXPECT_GT(warming(90.0), 1.0e3);
    EXPECT_NEAR(cooling(20.0), warming(20.0), 1e-9);
    EXPECT_GT(pouring_celsius(jelly).value, 85.0);
    EXPECT_EQ(word_for(std::pow(10.0, log10_firmness(jelly, 60.0).value)).word, "thin");
    // a jelly of 1 % agar stands and can be cut (common practice, no source)
    EXPECT_TRUE(std::isinf(slump_to_half_seconds(jelly, 20.0).value));
    EXPECT_GT(standing_metres(jelly, 20.0).value, 0.01);

    // agar that never boiled does not set
    mixture unboiled = jelly;
    unboiled.raw(component::agar) = unboiled[component::agar];
    EXPECT_LT(gel_modulus(unboiled, 4.0).value, 1.0);
    EXPECT_EQ(word_for(std::pow(10.0, log10_firmness(unboiled, 4.0).value)).word, "thin");
    // half of it boiled: a quarter of the modulus
    unboiled.raw(component::agar) *= 0.5;
    EXPECT_NEAR(gel_modulus(unboiled, 20.0).value / cooling(20.0), 0.25, 0.01);
}

TEST(gelatin, melts_below_body_heat) {
    mixture jelly = solution(component::sucrose, 20.0);
    jelly[component::gelatin] = 3.0;
    EXPECT_GT(standing_metres(jelly, 10.0).value, 0.01);
    EXPECT_LT(gel_modulus(jelly, 37.0, history::warming).value, 1e-3 * gel_modulus(jelly, 10.0).value);
    EXPECT_GT(gel_modulus(jelly, 26.0, history::warming).value, 1.0e2);
    EXPECT_LT(gel_modulus(jelly, 26.0, history::cooling).value, 1.0);
}

TEST(milk, gels_only_where_it_boiled) {
    mixture m = solution(component::sucrose, 60.0);
    m[component::protein] = 8.0;
    const double boiled = gel_modulus(m, 20.0).value;
    EXPECT_GT(boiled, 10.0);
    m.raw(component::protein) = 8.0;
    EXPECT_EQ(gel_modulus(m, 20.0).value, 0.0);
    // it thickens all the same
    EXPECT_GT(log10_viscosity(m, 20.0).value, log10_viscosity(solution(component::sucrose, 60.0), 20.0).value);
}

TEST(fat, that_is_melted_holds_nothing_up) {
    for (const component fat : {component::fat, component::cocoa_butter, component::vegetable_fat}) {
        mixture m = plain_syrup(0.7);
        m[fat] = 0.4;
        EXPECT_GT(gel_modulus(m, 5.0).value, 0.0) << data_of(fat).name;
        EXPECT_EQ(gel_modulus(m, fat == component::vegetable_fat ? 40.0 : 37.0).value, 0.0) << data_of(fat).name;
    }
    // equal parts of cream and chocolate: sliceable at 16 C, a sauce at 40 (common practice, no source)
    const mixture ganache = of_pantry("ganache");
    EXPECT_TRUE(std::isinf(slump_to_half_seconds(ganache, 16.0).value));
    EXPECT_GE(std::pow(10.0, log10_firmness(ganache, 16.0).value), find_set_word("soft set")->from_pa_s);
    EXPECT_LE(log10_firmness(ganache, 40.0).value, std::log10(pouring_pa_s));
    const double pours = pouring_celsius(ganache).value;
    EXPECT_GT(pours, 25.0);
    EXPECT_LT(pours, 37.0);
}

TEST(set, answers_whether_it_pours_and_holds) {
    const auto of = [](const mixture& m, double t, double pour = not_a_number) {
        return set_of({m, m, m}, t, pour);
    };
    const auto water = of(solution(component::sucrose, 10.0), 20.0);
    EXPECT_EQ(water.pours, verdict::yes);
    EXPECT_EQ(water.holds, verdict::no);
    EXPECT_FALSE(water.cracks);
    const auto sweet = of(plain_syrup(0.98), 20.0);
    EXPECT_EQ(sweet.pours, verdict::no);
    EXPECT_EQ(sweet.holds, verdict::yes);
    EXPECT_TRUE(sweet.cracks);
    // it cracks from the word "hard" on
    const auto of_firmness = [&](double log10) {
        return of(plain_syrup(plain_solids_of_consistency(log10)), 20.0);
    };
    EXPECT_FALSE(of_firmness(8.99).cracks);
    EXPECT_EQ(of_firmness(8.99).word, "chewy");
    EXPECT_TRUE(of_firmness(9.01).cracks);
    EXPECT_EQ(of_firmness(9.01).word, "hard");
    // honey-like: 10 Pa s lies in its interval, so it may
    const double solids = plain_solids_of_consistency(1.0);
    EXPECT_EQ(of(plain_syrup(solids), 20.0).pours, verdict::maybe);
    EXPECT_EQ(of(plain_syrup(solids), 20.0, 60.0).pours, verdict::yes);
    // the three sides widen the interval
    const auto wide = set_of({plain_syrup(0.8), plain_syrup(0.82), plain_syrup(0.78)}, 20.0);
    const auto narrow = of(plain_syrup(0.8), 20.0);
    EXPECT_LT(wide.log10_firmness.low, narrow.log10_firmness.low);
    EXPECT_GT(wide.log10_firmness.high, narrow.log10_firmness.high);
    EXPECT_EQ(wide.log10_firmness.value, narrow.log10_firmness.value);
    // the freezer: water freezes almost wholly, a thick syrup not at all
    EXPECT_GT(of(solution(component::sucrose, 5.0), 20.0).frozen_water_percent, 80.0);
    EXPECT_EQ(of(plain_syrup(0.85), 20.0).frozen_water_percent, 0.0);
}

}  // namespace
