// The array twins of the C API: each element as the function for one gives it, bad elements in the midst of good
// ones, null arrays, no elements, statuses left out.
#include <array>
#include <cmath>
#include <cstring>
#include <string>
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

template <class Result>
Result stale() {
    Result r;
    std::memset(static_cast<void*>(&r), 7, sizeof r);
    return r;
}

constexpr int32_t worst(int32_t a, int32_t b) {
    return a < 0 ? a : (b < 0 || b > a ? b : a);
}

/// Compares a twin that writes `statuses` with its function for one: `all(n, statuses, results)`, `one(i,
/// result)`.
template <class Result, class All, class One>
void compare(const char* what, const All& all, const One& one) {
    SCOPED_TRACE(what);
    std::vector<Result> results(n, stale<Result>());
    std::vector<int32_t> statuses(n, 7);
    const int32_t status = all(n, statuses.data(), results.data());
    int32_t expected = SIROP_OK, errors = 0;
    for (std::size_t i = 0; i < n; ++i) {
        auto alone = stale<Result>();
        const int32_t of_this = one(i, &alone);
        EXPECT_EQ(statuses[i], of_this) << i;
        EXPECT_TRUE(same(results[i], alone)) << i;
        expected = worst(expected, of_this);
        errors += of_this < 0;
    }
    EXPECT_EQ(status, expected);
    EXPECT_GT(errors, 0);                        // the bad element is refused
    EXPECT_LT(errors, static_cast<int32_t>(n));  // and spoils no other
    std::vector<Result> again(n, stale<Result>());
    EXPECT_EQ(all(n, nullptr, again.data()), status);
    for (std::size_t i = 0; i < n; ++i) EXPECT_TRUE(same(again[i], results[i])) << i;
    EXPECT_EQ(all(0, nullptr, nullptr), SIROP_OK);
    statuses.assign(n, 7);
    EXPECT_EQ(all(n, statuses.data(), nullptr), SIROP_E_NULL);
    for (const int32_t s : statuses) EXPECT_EQ(s, SIROP_E_NULL);
}

/// The same of a twin whose results hold their statuses.
template <class Result, class All, class One>
void compare_held(const char* what, const All& all, const One& one) {
    compare<Result>(
        what,
        [&](std::size_t size, int32_t* statuses, Result* results) {
            const int32_t status = all(size, results);
            for (std::size_t i = 0; i < size && statuses != nullptr; ++i)
                statuses[i] = results == nullptr ? SIROP_E_NULL : results[i].status;
            return status;
        },
        one);
}

TEST(c_arrays, of_plain_numbers_are_those_of_the_functions_for_one) {
    const struct {
        const char* name;
        int32_t (*all)(size_t, const double*, int32_t*, double*);
        int32_t (*one)(double, double*);
        std::array<double, n> x;
    } twins[] = {
        {"altitude", sirop_pressure_at_altitude_hpa_n, sirop_pressure_at_altitude_hpa, {0, 1e5, 350, 2240, -20}},
        {"boiling water",
         sirop_pressure_from_boiling_water_hpa_n,
         sirop_pressure_from_boiling_water_hpa,
         {100, nan_value, 95, 101.5, 70}},
        {"water boils", sirop_water_boils_celsius_n, sirop_water_boils_celsius, {1013.25, 2, 700, 900, 1100}},
    };
    for (const auto& t : twins) {
        compare<double>(
            t.name,
            [&](std::size_t size, int32_t* statuses, double* out) {
                return t.all(size, t.x.data(), statuses, out);
            },
            [&](std::size_t i, double* out) { return t.one(t.x[i], out); });
        std::array<double, n> out{};
        std::array<int32_t, n> statuses{};
        EXPECT_EQ(t.all(n, nullptr, statuses.data(), out.data()), SIROP_E_NULL) << t.name;
        for (std::size_t i = 0; i < n; ++i) EXPECT_TRUE(std::isnan(out[i]) && statuses[i] == SIROP_E_NULL);
    }
    const std::array<double, n> brix = {0.0, 96.0, 20.0, 65.0, 95.0};
    compare<double>(
        "convert",
        [&](std::size_t size, int32_t* statuses, double* out) {
            return sirop_convert_n("brix_to_baume", size, brix.data(), statuses, out);
        },
        [&](std::size_t i, double* out) { return sirop_convert("brix_to_baume", brix[i], out); });
    std::array<double, n> out{};
    EXPECT_EQ(sirop_convert_n("charm", n, brix.data(), nullptr, out.data()), SIROP_E_NAME);
    EXPECT_TRUE(std::isnan(out[0]));
    const std::array<double, n> firmness = {0.0, -1.0, 20.0, 1.0e4, HUGE_VAL};
    compare<int32_t>(
        "words",
        [&](std::size_t size, int32_t* statuses, int32_t* found) {
            return sirop_texture_word_of_n(size, firmness.data(), statuses, found);
        },
        [&](std::size_t i, int32_t* found) { return sirop_texture_word_of(firmness[i], found); });
}

TEST(c_arrays, of_mixtures_are_those_of_the_functions_for_one) {
    const auto grams = some_mixtures();
    const std::array<double, n> celsius = {20, 20, 5, 35, 18}, hot = {108, 109, 115, 131, 140},
                                hpa = {1013.25, 1000, 950, 900, 800};
    const auto of = [&](std::size_t i) { return &grams[i * count]; };
    compare_held<sirop_stage_place>(
        "stages of mixtures",
        [&](std::size_t size, sirop_stage_place* out) {
            return sirop_stage_of_mixture_n("us 1918", size, grams.data(), count, out);
        },
        [&](std::size_t i, sirop_stage_place* out) {
            return sirop_stage_of_mixture("us 1918", of(i), count, out);
        });
    const std::array<double, n> some_bad = {108, 300, 115, 131, 140};
    compare_held<sirop_stage_place>(
        "stages of temperatures",
        [&](std::size_t size, sirop_stage_place* out) {
            return sirop_stage_of_temperature_n(nullptr, size, some_bad.data(), hpa.data(), out);
        },
        [&](std::size_t i, sirop_stage_place* out) {
            return sirop_stage_of_temperature(nullptr, some_bad[i], hpa[i], out);
        });
    compare<sirop_range>(
        "celsius for a stage",
        [&](std::size_t size, int32_t* statuses, sirop_range* out) {
            return sirop_celsius_for_stage_n(nullptr, "firm ball", size, grams.data(), count, hpa.data(), statuses,
                                             out);
        },
        [&](std::size_t i, sirop_range* out) {
            return sirop_celsius_for_stage(nullptr, "firm ball", of(i), count, hpa[i], out);
        });
    std::array<sirop_stage_place, n> places{};
    EXPECT_EQ(sirop_stage_of_temperature_n(nullptr, n, nullptr, hpa.data(), places.data()), SIROP_E_NULL);
    EXPECT_EQ(sirop_stage_of_temperature_n(nullptr, n, hot.data(), nullptr, places.data()), SIROP_E_NULL);
    EXPECT_EQ(sirop_stage_of_mixture_n(nullptr, n, nullptr, count, places.data()), SIROP_E_NULL);
    for (const auto& p : places) EXPECT_TRUE(p.lower == -1 && p.upper == -1 && p.status == SIROP_E_NULL);
    std::array<sirop_range, n> ranges{};
    EXPECT_EQ(
        sirop_celsius_for_stage_n(nullptr, "firm ball", n, grams.data(), count, nullptr, nullptr, ranges.data()),
        SIROP_E_NULL);
    EXPECT_TRUE(std::isnan(ranges[n - 1].high));

    // graining: the step of the array is the caller's struct
    compare_held<sirop_graining>(
        "graining",
        [&](std::size_t size, sirop_graining* out) {
            if (out != nullptr) out->struct_bytes = sizeof(sirop_graining);
            return sirop_graining_at_n(size, grams.data(), count, celsius.data(), out);
        },
        [&](std::size_t i, sirop_graining* out) {
            out->struct_bytes = sizeof(sirop_graining);
            return sirop_graining_at(of(i), count, celsius[i], out);
        });
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
    narrow[0].struct_bytes = sizeof(sirop_graining);
    EXPECT_EQ(sirop_graining_at_n(n, grams.data(), count, nullptr, narrow.data()), SIROP_E_NULL);
    for (const auto& g : narrow) EXPECT_TRUE(g.risk == -1 && g.status == SIROP_E_NULL);
}

TEST(c_arrays, of_layers_and_of_syrups_are_those_of_the_functions_for_one) {
    constexpr std::size_t layers = 2;
    std::vector<double> grams(n * layers * count, 0.0);
    for (std::size_t i = 0; i < n * layers; ++i) {
        grams[i * count + SIROP_WATER] = 20.0 + static_cast<double>(i);
        grams[i * count + SIROP_SUCROSE] = i % 2 == 0 ? 70.0 : 20.0;
        grams[i * count + SIROP_STARCH] = 15.0;
    }
    grams[layers * count] = nan_value;  // in the second dessert
    const std::array<double, n> celsius = {20, 20, 4, 18, 30};
    std::array<sirop_estimate, n> activity{};
    std::array<sirop_estimate, n * layers> gained{};
    const auto status = sirop_layers_at_equilibrium_n(n, layers, grams.data(), count, celsius.data(),
                                                      activity.data(), gained.data());
    EXPECT_EQ(status, SIROP_E_RANGE);
    for (std::size_t i = 0; i < n; ++i) {
        sirop_estimate alone, each[layers];
        const auto of_this =
            sirop_layers_at_equilibrium(layers, &grams[i * layers * count], count, celsius[i], &alone, each);
        EXPECT_EQ(of_this < 0, i == 1);
        EXPECT_TRUE(same(activity[i], alone)) << i;
        for (std::size_t k = 0; k < layers; ++k)
            EXPECT_TRUE(same(gained[i * layers + k], each[k])) << i << " " << k;
    }
    EXPECT_EQ(sirop_layers_at_equilibrium_n(0, layers, nullptr, count, nullptr, nullptr, nullptr), SIROP_OK);
    EXPECT_EQ(
        sirop_layers_at_equilibrium_n(n, layers, grams.data(), count, nullptr, activity.data(), gained.data()),
        SIROP_E_NULL);
    for (const auto& e : gained) EXPECT_TRUE(std::isnan(e.value) && e.status == SIROP_E_NULL);
    EXPECT_EQ(
        sirop_layers_at_equilibrium_n(n, layers, grams.data(), count, celsius.data(), nullptr, gained.data()),
        SIROP_E_NULL);

    const std::array<double, n> equivalent = {42, 9, 28, 60, 38}, solids = {80, 80, 0.5, 78, 100};
    std::vector<double> all(n * count, 7.0);
    std::array<int32_t, n> statuses{};
    EXPECT_EQ(sirop_glucose_syrup_grams_n(n, equivalent.data(), solids.data(), statuses.data(), all.data(), count),
              SIROP_E_RANGE);
    for (std::size_t i = 0; i < n; ++i) {
        double alone[count];
        EXPECT_EQ(statuses[i], sirop_glucose_syrup_grams(equivalent[i], solids[i], alone, count));
        EXPECT_EQ(statuses[i] < 0, i == 1 || i == 2);
        for (std::size_t k = 0; k < count; ++k) EXPECT_TRUE(same(all[i * count + k], alone[k])) << i << " " << k;
    }
    EXPECT_EQ(sirop_glucose_syrup_grams_n(n, nullptr, solids.data(), statuses.data(), all.data(), count),
              SIROP_E_NULL);
    EXPECT_TRUE(std::isnan(all.back()) && statuses[n - 1] == SIROP_E_NULL);
    EXPECT_EQ(sirop_glucose_syrup_grams_n(n, equivalent.data(), solids.data(), nullptr, nullptr, count),
              SIROP_E_NULL);
    EXPECT_EQ(sirop_glucose_syrup_grams_n(0, nullptr, nullptr, nullptr, nullptr, count), SIROP_OK);
}

}  // namespace
