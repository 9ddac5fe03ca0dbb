// The array twins of the C API on arrays of exactly their size, which valgrind and the sanitizers watch; and the
// step of an array of graining, which is the caller's struct.  That each gives what the function for one gives,
// and refuses as it does: tests/checks/c_contract.py.
#include <array>
#include <vector>

#include "c_calls.hpp"

namespace {

using namespace sirop_test;

constexpr std::size_t n = 5;

/// Mixtures one after the other; the second is refused.
std::vector<double> some_mixtures() {
    std::vector<double> grams(n * count, 0.0);
    for (std::size_t i = 0; i < n; ++i) {
        grams[i * count + SIROP_WATER] = 10.0 + 8.0 * static_cast<double>(i);
        grams[i * count + SIROP_SUCROSE] = 60.0;
        grams[i * count + SIROP_GLUCOSE] = 4.0 * static_cast<double>(i);
    }
    grams[count] = -1.0;
    return grams;
}

TEST(c_arrays, stay_within_their_arrays) {
    const auto grams = some_mixtures();
    const std::vector<double> hot(n, 115.0), celsius(n, 20.0), hpa(n, 1013.25), forty(n, 42.0), eighty(n, 80.0);
    std::vector<sirop_estimate> e(n), gained(2 * n);
    std::vector<sirop_stage_place> places(n);
    std::vector<sirop_range> ranges(n);
    std::vector<sirop_graining> graining(n);
    std::vector<double> x(n), syrups(n * count), twice(grams);
    twice.insert(twice.end(), grams.begin(), grams.end());
    std::vector<int32_t> statuses(n), indices(n);
    for (int32_t* s : {statuses.data(), static_cast<int32_t*>(nullptr)}) {
        EXPECT_GE(sirop_pressure_at_altitude_hpa_n(n, hot.data(), s, x.data()), 0);
        EXPECT_GE(sirop_pressure_from_boiling_water_hpa_n(n, eighty.data(), s, x.data()), 0);
        EXPECT_GE(sirop_water_boils_celsius_n(n, hpa.data(), s, x.data()), 0);
        EXPECT_GE(sirop_convert_n("brix_to_baume", n, forty.data(), s, x.data()), 0);
        EXPECT_GE(sirop_texture_word_of_n(n, forty.data(), s, indices.data()), 0);
        EXPECT_GE(sirop_glucose_syrup_grams_n(n, forty.data(), eighty.data(), s, syrups.data(), count), 0);
        EXPECT_EQ(
            sirop_celsius_for_stage_n(nullptr, "firm ball", n, grams.data(), count, hpa.data(), s, ranges.data()),
            SIROP_E_RANGE);
    }
    EXPECT_EQ(sirop_boiling_point_celsius_n(n, grams.data(), count, hpa.data(), e.data()), SIROP_E_RANGE);
    EXPECT_EQ(sirop_water_at_boil_grams_n(n, grams.data(), count, hot.data(), hpa.data(), e.data()),
              SIROP_E_RANGE);
    EXPECT_EQ(sirop_water_activity_n(n, grams.data(), count, celsius.data(), e.data()), SIROP_E_RANGE);
    EXPECT_EQ(sirop_freezing_point_celsius_n(n, grams.data(), count, e.data()), SIROP_E_IMPOSSIBLE);  // the first
    EXPECT_EQ(sirop_property_estimate_n("density_g_per_ml", n, grams.data(), count, celsius.data(), hpa.data(),
                                        e.data()),
              SIROP_E_RANGE);
    EXPECT_GE(sirop_stage_of_temperature_n(nullptr, n, hot.data(), hpa.data(), places.data()), 0);
    EXPECT_EQ(sirop_stage_of_mixture_n("us 1918", n, grams.data(), count, places.data()), SIROP_E_RANGE);
    graining[0].struct_bytes = sizeof(sirop_graining);
    EXPECT_EQ(sirop_graining_at_n(n, grams.data(), count, celsius.data(), graining.data()), SIROP_E_RANGE);
    EXPECT_EQ(sirop_layers_at_equilibrium_n(n, 2, twice.data(), count, celsius.data(), e.data(), gained.data()),
              SIROP_E_RANGE);
}

TEST(c_arrays, of_graining_step_by_the_caller_s_struct) {
    const auto grams = some_mixtures();
    const std::array<double, n> celsius = {20, 20, 5, 35, 18};
    struct grown {
        sirop_graining known;
        double later;
    };
    std::array<grown, n> wide{};
    for (auto& one : wide) one.later = 7.0;
    wide[0].known.struct_bytes = sizeof(grown);
    std::vector<sirop_graining> narrow(n);
    narrow[0].struct_bytes = sizeof(sirop_graining);
    EXPECT_EQ(sirop_graining_at_n(n, grams.data(), count, celsius.data(), &wide[0].known),
              sirop_graining_at_n(n, grams.data(), count, celsius.data(), narrow.data()));
    for (std::size_t i = 0; i < n; ++i) {
        EXPECT_TRUE(same(wide[i].known, narrow[i]));
        EXPECT_EQ(wide[i].known.struct_bytes, sizeof(grown));
        EXPECT_EQ(wide[i].later, 7.0);
    }
    narrow[0].struct_bytes = sizeof(sirop_graining) + 1;  // the next one would not be aligned
    EXPECT_EQ(sirop_graining_at_n(n, grams.data(), count, celsius.data(), narrow.data()), SIROP_E_RANGE);
    narrow[0].struct_bytes = 8;
    narrow[1].risk = 7;
    EXPECT_EQ(sirop_graining_at_n(n, grams.data(), count, celsius.data(), narrow.data()), SIROP_E_RANGE);
    EXPECT_EQ(narrow[1].risk, 7);  // nothing is written where the step is not known
}

}  // namespace
