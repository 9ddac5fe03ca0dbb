// The C API's catalogues, stages, graining and layers: lists to their end, the numbers of the library, errors of
// memory, sizes pinned.  Null pointers, ranges and names: tests/checks/c_contract.py.
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "c_calls.hpp"
#include "out_of_memory.hpp"
#include "sirop/stability/graining.hpp"
#include "sirop/stability/keeping.hpp"
#include "sirop/texture/stage_equivalent.hpp"

namespace {

using namespace sirop_test;

TEST(c_catalogues, errors_leave_nan_in_compositions_and_ranges) {
    std::array<double, count + 1> g;
    const auto refuses = [&](int32_t expected, const char* ingredient, size_t components) {
        g.fill(7.0);
        EXPECT_EQ(sirop_ingredient_grams(ingredient, g.data(), components), expected);
        EXPECT_TRUE(all_nan(std::vector<double>(g.data(), g.data() + components)));
        for (size_t i = components; i < g.size(); ++i) EXPECT_EQ(g[i], 7.0) << i;  // the caller's own
    };
    refuses(SIROP_E_BUFFER, "white sugar", 2);
    refuses(SIROP_E_RANGE, "white sugar", count + 1);
    refuses(SIROP_E_RANGE, "white sugar", 0);
    g.fill(7.0);
    EXPECT_EQ(sirop_glucose_syrup_grams(42.0, 80.0, g.data(), 2), SIROP_E_BUFFER);
    EXPECT_TRUE(std::isnan(g[0]) && std::isnan(g[1]));
    g.fill(7.0);
    EXPECT_EQ(sirop_glucose_syrup_grams(42.0, 80.0, g.data(), g.size()), SIROP_E_RANGE);
    EXPECT_TRUE(all_nan(g));
}

TEST(c_catalogues, list_to_their_end_and_know_their_own) {
    int32_t ingredients = 0, tables = 0, words = 0, conversions = 0, limits = 0;
    for (; const char* name = sirop_ingredient_name(ingredients); ++ingredients) {
        double grams[count], sum = 0.0;
        ASSERT_EQ(sirop_ingredient_grams(name, grams, count), SIROP_OK) << name;
        for (const double g : grams) sum += g;
        EXPECT_NEAR(sum, 100.0, 1e-9) << name;
        EXPECT_NE(sirop_ingredient_source(name), nullptr);
        EXPECT_NE(sirop_ingredient_estimate(name), nullptr);
    }
    for (; const char* table = sirop_stage_table_name(tables); ++tables) {
        EXPECT_NE(sirop_stage_table_source(table), nullptr);
        int32_t rows = 0;
        double previous = 0.0;
        for (; const char* stage = sirop_stage_name(table, rows); ++rows) {
            sirop_range r;
            ASSERT_EQ(sirop_stage_range_celsius(table, stage, &r), SIROP_OK);
            EXPECT_LE(previous, r.low);
            EXPECT_LE(r.low, r.high);
            previous = r.high;
        }
        EXPECT_GT(rows, 3);
    }
    for (; const char* word = sirop_texture_word(words); ++words) {
        sirop_range r;
        int32_t found = -1;
        ASSERT_EQ(sirop_texture_word_firmness_pa_s(words, &r), SIROP_OK);
        ASSERT_EQ(sirop_texture_word_of(r.low, &found), SIROP_OK);
        EXPECT_EQ(found, words) << word;
        EXPECT_NE(sirop_texture_word_meaning(words), nullptr);
    }
    for (; sirop_conversion_name(conversions) != nullptr; ++conversions) {
    }
    double activity = 2.0, previous = 1.0;
    for (; sirop_growth_group(limits) != nullptr; ++limits) {
        ASSERT_EQ(sirop_growth_limit(limits, &activity), SIROP_OK);
        EXPECT_LT(activity, previous);
        previous = activity;
    }
    for (const int32_t none : {-1, limits}) {
        activity = 7.0;
        EXPECT_EQ(sirop_growth_limit(none, &activity), SIROP_E_RANGE);
        EXPECT_TRUE(std::isnan(activity));
        EXPECT_EQ(sirop_growth_group(none), nullptr);
    }
    EXPECT_STREQ(sirop_growth_limits_source(), sirop::core::growth_limits_source.data());
    EXPECT_GT(ingredients, 80);
    EXPECT_EQ(tables, 9);
    EXPECT_EQ(words, 8);
    EXPECT_EQ(conversions, 12);
    EXPECT_EQ(limits, 7);
    double x = 0.0;
    EXPECT_EQ(sirop_convert("brix_to_baume", 60.0, &x), SIROP_OK);
    EXPECT_NEAR(x, 32.5, 0.1);  // 145 - 145/SG with the density of ICUMSA SPS-4: a regression
    EXPECT_EQ(sirop_convert("brix_to_baume", 96.0, &x), SIROP_E_RANGE);
    double two[2] = {0.0, 0.0};
    EXPECT_EQ(sirop_ingredient_grams("white sugar", two, 2), SIROP_E_BUFFER);  // holds more than water and sucrose
    EXPECT_EQ(sirop_ingredient_grams("water", two, 2), SIROP_OK);
}

std::string words(const sirop_stage_place& place) {
    char text[100];
    size_t needed = 0;
    EXPECT_EQ(sirop_stage_place_text(nullptr, place.lower, place.upper, text, sizeof text, &needed), SIROP_OK);
    EXPECT_EQ(needed, std::string(text).size() + 1);
    return text;
}

TEST(c_stages, are_those_of_the_table_both_ways) {
    auto grams = mixture_of({{SIROP_SUCROSE, 100.0}, {SIROP_WATER, 20.0}});
    sirop_range r;
    ASSERT_EQ(sirop_celsius_for_stage(nullptr, "soft ball", grams.data(), count, 1013.25, &r), SIROP_OK);
    EXPECT_NEAR(r.low, 113.0, 1e-6);  // the table itself, for plain sugar at sea level
    EXPECT_NEAR(r.high, 116.0, 1e-6);
    sirop_stage_place place;
    ASSERT_EQ(sirop_stage_of_temperature(nullptr, 117.0, 1013.25, &place), SIROP_OK);
    EXPECT_STREQ(sirop_stage_name(nullptr, place.lower), "soft ball");
    EXPECT_STREQ(sirop_stage_name(nullptr, place.upper), "firm ball");
    EXPECT_EQ(words(place), "between soft ball and firm ball");
    ASSERT_EQ(sirop_stage_of_temperature(nullptr, 20.0, 1013.25, &place), SIROP_OK);
    EXPECT_EQ(place.lower, -1);
    EXPECT_EQ(words(place), "below thread");
    ASSERT_EQ(sirop_stage_of_temperature(nullptr, 240.0, 1013.25, &place), SIROP_OK);
    EXPECT_EQ(sirop_stage_name(nullptr, place.upper), nullptr);
    EXPECT_EQ(words(place), "above black caramel");
    sirop_estimate water;
    ASSERT_GE(sirop_water_at_boil_grams(grams.data(), count, 114.5, 1013.25, &water), 0);
    grams[SIROP_WATER] = water.value;
    ASSERT_EQ(sirop_stage_of_mixture(nullptr, grams.data(), count, &place), SIROP_OK);
    EXPECT_EQ(place.lower, place.upper);
    EXPECT_EQ(words(place), "soft ball");
    EXPECT_EQ(sirop_celsius_for_stage(nullptr, "dark caramel", grams.data(), count, 1013.25, &r),
              SIROP_E_IMPOSSIBLE);
    const auto nowhere = [&](int32_t status) {
        return place.lower == -1 && place.upper == -1 && place.status == status;
    };
    grams[SIROP_WATER] = 0.0;
    EXPECT_EQ(sirop_stage_of_mixture(nullptr, grams.data(), count, &place), SIROP_E_IMPOSSIBLE);
    EXPECT_TRUE(nowhere(SIROP_E_IMPOSSIBLE));
    char text[100];
    size_t needed = 0;
    const int32_t rows = static_cast<int32_t>(sirop::core::stage_tables[0].rows.size());
    for (const auto& [lower, upper] : std::vector<std::pair<int32_t, int32_t>>{
             {-1, -1}, {-2, 0}, {0, rows + 1}, {rows, rows}, {3, -1}, {2, 1}, {0, 2}, {-1, 1}}) {
        EXPECT_EQ(sirop_stage_place_text(nullptr, lower, upper, text, sizeof text, &needed), SIROP_E_RANGE)
            << lower << " " << upper;
        EXPECT_EQ(needed, 0U);
    }
    EXPECT_EQ(sirop_stage_place_text("mars", 0, 0, text, sizeof text, &needed), SIROP_E_NAME);
    EXPECT_EQ(sirop_stage_place_text(nullptr, 0, 0, text, 3, &needed), SIROP_E_BUFFER);
    EXPECT_EQ(needed, sizeof "thread");
}

TEST(c_stages, by_consistency_carry_the_grade_of_what_is_behind_and_the_reach_of_a_point) {
    using sirop::core::log10_firmness;
    auto grams = mixture_of({{SIROP_SUCROSE, 100.0}, {SIROP_WATER, 80.0}});
    int fine = 0, stiff = 0, hot = 0, points = 0;
    for (const double glucose : {0.0, 100.0}) {  // whose isotherm is not fitted above 130 C
        grams[SIROP_GLUCOSE] = glucose;
        sirop::core::mixture m;
        m.grams = grams;
        for (int32_t t = 0; const char* table = sirop_stage_table_name(t); ++t)
            for (int32_t i = 0; const char* stage = sirop_stage_name(table, i); ++i) {
                SCOPED_TRACE(std::string(table) + ", " + stage);
                sirop_range printed, found{7.0, 7.0};
                ASSERT_EQ(sirop_stage_range_celsius(table, stage, &printed), SIROP_OK);
                const auto status = sirop_celsius_for_stage(table, stage, grams.data(), count, 1013.25, &found);
                if (status < 0) {
                    EXPECT_EQ(status, SIROP_E_IMPOSSIBLE);
                    EXPECT_TRUE(all_nan(found));
                    continue;
                }
                const bool point = printed.low == printed.high;
                points += point;
                const double reach = point ? 0.6 : 0.0;  // one degree Fahrenheit
                bool firmness = false, boil = false;
                for (const auto& [plain, celsius] :
                     {std::pair{printed.low - reach, found.low}, std::pair{printed.high + reach, found.high}}) {
                    EXPECT_NEAR(celsius, sirop::core::celsius_for_consistency(m, plain, 101325.0), 1e-9);
                    const auto boiled = m.with_water(sirop::core::water_at_boil(m, celsius, 101325.0).value);
                    firmness |= log10_firmness(boiled, 20.0).status == sirop::core::grade::extrapolated;
                    boil |=
                        sirop::core::boiling_celsius(boiled, 101325.0).status == sirop::core::grade::extrapolated;
                }
                EXPECT_LT(found.low, found.high);
                EXPECT_EQ(status, firmness || boil ? SIROP_EXTRAPOLATED : SIROP_OK);
                fine += !firmness && !boil;
                stiff += firmness && !boil;
                hot += boil && !firmness;
            }
    }
    EXPECT_GT(fine, 3);
    EXPECT_GT(stiff, 3);
    EXPECT_GT(hot, 2);
    EXPECT_GT(points, 10);
    sirop_stage_place place;
    EXPECT_EQ(sirop_stage_of_mixture(nullptr, grams.data(), count, &place), SIROP_OK);
    grams[SIROP_AGAR] = 2.0;  // a gel, whose law is an estimate
    EXPECT_EQ(sirop_stage_of_mixture(nullptr, grams.data(), count, &place), SIROP_EXTRAPOLATED);
}

TEST(c_graining_and_layers, beyond_the_solubility_laws_is_extrapolated_and_ice_is_taken_out) {
    auto grams = mixture_of({{SIROP_SUCROSE, 30.0}, {SIROP_LACTOSE, 3.0}, {SIROP_WATER, 70.0}});
    const auto at = [&](double celsius) {
        sirop_graining g = stale_graining;
        g.status = sirop_graining_at(grams.data(), count, celsius, &g);
        return g;
    };
    for (const double inside : {0.0, 20.0, 89.0}) {
        EXPECT_EQ(at(inside).status, SIROP_OK) << inside;
        EXPECT_EQ(at(inside).reserved, 0);
    }
    for (const double outside : {-1.0e-9, std::nextafter(89.0, 90.0), -30.0, 100.0}) {
        const auto g = at(outside);
        EXPECT_EQ(g.status, SIROP_EXTRAPOLATED) << outside;
        for (const auto* e : {&g.sucrose_supersaturation, &g.lactose_supersaturation, &g.crystallizable_percent}) {
            EXPECT_EQ(e->status, SIROP_EXTRAPOLATED) << outside;
            EXPECT_TRUE(std::isfinite(e->value)) << outside;
        }
    }
    EXPECT_EQ(at(100.0).lactose_supersaturation.value, at(89.0).lactose_supersaturation.value);
    // At -15 C most of the water is ice: what is left holds far more than at 0 C.
    sirop::core::mixture m;
    m.grams = grams;
    const auto cold = sirop::core::graining_of(sirop::core::at_temperature(m, -15.0), -15.0);
    EXPECT_EQ(at(-15.0).sucrose_supersaturation.value,
              cold[sirop::core::component::sucrose].supersaturation.value);
    EXPECT_EQ(at(-15.0).risk, static_cast<int32_t>(cold.risk));
    EXPECT_GT(at(-15.0).sucrose_supersaturation.value, 2.0 * at(0.0).sucrose_supersaturation.value);
}

TEST(c_graining_and_layers, errors_leave_nan_in_every_result) {
    double grams[2 * count] = {0};
    grams[SIROP_SUCROSE] = grams[count + SIROP_STARCH] = 75.0;
    grams[SIROP_WATER] = grams[count + SIROP_WATER] = 25.0;
    const auto graining = [&](int32_t expected, const double* of, double celsius, long allocations = plenty) {
        sirop_graining g = stale_graining;
        int32_t status = 0;
        {
            const no_memory after(allocations);
            status = sirop_graining_at(of, count, celsius, &g);
        }
        EXPECT_EQ(status, expected);
        EXPECT_EQ(g.status, expected);
        EXPECT_EQ(g.crystallizable_percent.status, expected);
        EXPECT_EQ(g.reserved, 0);
        EXPECT_TRUE(all_nan(g));
    };
    graining(SIROP_E_MEMORY, grams, 20.0, 0);
    graining(SIROP_E_IMPOSSIBLE, mixture_of({{SIROP_WATER, 100.0}}).data(), -10.0);
    sirop_graining small = stale_graining;
    small.struct_bytes = 8;
    EXPECT_EQ(sirop_graining_at(grams, count, 20.0, &small), SIROP_E_RANGE);
    EXPECT_EQ(small.status, SIROP_E_RANGE);
    EXPECT_EQ(small.risk, 7);  // beyond what the caller says it has
    small.status = 7;
    small.struct_bytes = 7;
    EXPECT_EQ(sirop_graining_at(grams, count, 20.0, &small), SIROP_E_RANGE);
    EXPECT_EQ(small.status, 7);

    const auto layers = [&](int32_t expected, const double* of, double celsius, long allocations = plenty) {
        sirop_estimate aw = stale, gained[2] = {stale, stale};
        int32_t status = 0;
        {
            const no_memory after(allocations);
            status = sirop_layers_at_equilibrium(2, of, count, celsius, &aw, gained);
        }
        EXPECT_EQ(status, expected);
        for (const auto& e : {aw, gained[0], gained[1]}) {
            EXPECT_TRUE(all_nan(e));
            EXPECT_EQ(e.status, expected);
        }
    };
    layers(SIROP_E_MEMORY, grams, 20.0, 0);
}

TEST(c_graining_and_layers, answer_and_refuse) {
    double grams[2 * count] = {0};
    grams[SIROP_SUCROSE] = 75.0;
    grams[SIROP_WATER] = 25.0;
    double* cake = grams + count;
    cake[SIROP_STARCH] = 40.0;
    cake[SIROP_WATER] = 4.0;
    sirop_graining g;
    g.struct_bytes = sizeof g;
    ASSERT_EQ(sirop_graining_at(grams, count, 20.0, &g), SIROP_OK);
    EXPECT_EQ(g.risk, 3);
    EXPECT_NEAR(g.sucrose_supersaturation.value, 1.5,
                0.01);  // 3 g per g of water over 2.005 (Bubnik & Kadlec 1995)
    sirop_estimate aw, gained[2];
    ASSERT_GE(sirop_layers_at_equilibrium(2, grams, count, 20.0, &aw, gained), 0);
    EXPECT_NEAR(gained[0].value + gained[1].value, 0.0, 1e-9);
    EXPECT_GT(gained[1].value, 0.0);  // the dry layer takes
    EXPECT_EQ(sirop_layers_at_equilibrium(0, grams, count, 20.0, &aw, gained), SIROP_E_RANGE);
}

TEST(c_structs, have_the_sizes_that_programs_were_compiled_with) {
    static_assert(sizeof(sirop_estimate) == 32 && offsetof(sirop_estimate, status) == 24);
    static_assert(sizeof(sirop_range) == 16);
    static_assert(sizeof(sirop_stage_place) == 16 && offsetof(sirop_stage_place, status) == 8);
    static_assert(sizeof(sirop_graining) == 120 && offsetof(sirop_graining, hindering_percent) == 112);
    static_assert(SIROP_COMPONENT_COUNT == 30 && SIROP_ACID == 22 && SIROP_ETHANOL == 29);
    // an older program, which knows fewer components, gets the same answer
    auto grams = mixture_of({{SIROP_SUCROSE, 80.0}, {SIROP_WATER, 20.0}});
    sirop_estimate old_one, new_one;
    ASSERT_GE(sirop_boiling_point_celsius(grams.data(), 23, 1013.25, &old_one), 0);
    ASSERT_GE(sirop_boiling_point_celsius(grams.data(), count, 1013.25, &new_one), 0);
    EXPECT_EQ(old_one.value, new_one.value);
}

}  // namespace
