// The C API's typed batches, catalogues and newer calls: the same numbers as the text calls, bad calls refused
// with their reason, sizes pinned, many threads at once.
#include <gtest/gtest.h>

#include <array>
#include <atomic>
#include <cmath>
#include <cstdlib>
#include <new>
#include <nlohmann/json.hpp>
#include <thread>
#include <vector>

#include "sirop/core/cold_water.hpp"
#include "sirop/core/graining.hpp"
#include "sirop/core/keeping.hpp"
#include "sirop/sirop.h"

namespace {

constexpr long plenty = -1;
std::atomic<long> allocations_left{plenty};

/// Memory is out after so many allocations, as long as this lives.
struct no_memory {
    explicit no_memory(long after = 0) { allocations_left = after; }
    ~no_memory() { allocations_left = plenty; }
    no_memory(const no_memory&) = delete;
    no_memory& operator=(const no_memory&) = delete;
};

}  // namespace

// Replaced for the whole program, so that the calls' answer to a lack of memory can be tested.  Not
// inline: g++ would take free for the wrong partner of new.
[[gnu::noinline]] void* operator new(std::size_t bytes) {
    const long left = allocations_left;
    if (left > 0) allocations_left = left - 1;
    void* got = left == 0 ? nullptr : std::malloc(bytes);
    if (got == nullptr) throw std::bad_alloc();
    return got;
}
[[gnu::noinline]] void operator delete(void* p) noexcept {
    std::free(p);
}
[[gnu::noinline]] void operator delete(void* p, std::size_t) noexcept {
    std::free(p);
}

namespace {

/// True if all are NaN; a place that an error left as it was still holds its 7.0.
template <class Numbers>
bool all_nan(const Numbers& numbers) {
    for (const double x : numbers)
        if (!std::isnan(x)) return false;
    return true;
}
bool all_nan(const sirop_range& r) {
    return all_nan(std::array{r.low, r.high});
}
bool all_nan(const sirop_estimate& e) {
    return all_nan(std::array{e.value, e.low, e.high});
}
bool all_nan(const sirop_graining& g) {
    return all_nan(g.sucrose_supersaturation) && all_nan(g.lactose_supersaturation) &&
           all_nan(g.crystallizable_percent) && std::isnan(g.hindering_percent) && g.risk == -1;
}
constexpr sirop_estimate stale{7.0, 7.0, 7.0, 7, 7};
constexpr sirop_graining stale_graining{sizeof(sirop_graining), 7, 7, 7, stale, stale, stale, 7.0};

constexpr const char* text_batch =
    R"({"sirop_batch":1,"pan":[{"ingredient":"white sugar","grams":250},{"ingredient":"heavy cream 36 %","grams":240},
    {"ingredient":"glucose syrup 42 DE","grams":60}],"cook":{"to_celsius":108.5,"pressure_hpa":980},
    "off_heat":[{"ingredient":"butter, unsalted","grams":40,"celsius":12}],"serve":{"celsius":18},"pour":{"celsius":30},
    "store":{"celsius":6},"neighbours":[{"ingredient":"sponge cake","grams":200}]})";

struct batch_handle {
    sirop_batch* it = nullptr;
    batch_handle() { EXPECT_EQ(sirop_batch_new(&it), SIROP_OK); }
    ~batch_handle() { sirop_batch_free(it); }
    batch_handle(const batch_handle&) = delete;
    batch_handle& operator=(const batch_handle&) = delete;
};

void fill(sirop_batch* b) {
    ASSERT_EQ(sirop_batch_add(b, SIROP_PAN, "white sugar", 250, 20), SIROP_OK);
    ASSERT_EQ(sirop_batch_add(b, SIROP_PAN, "heavy cream 36 %", 240, 20), SIROP_OK);
    double grams[SIROP_COMPONENT_COUNT];
    ASSERT_EQ(sirop_ingredient_grams("glucose syrup 42 DE", grams, SIROP_COMPONENT_COUNT), SIROP_OK);
    for (double& g : grams) g *= 0.6;
    ASSERT_EQ(sirop_batch_add_mixture(b, SIROP_PAN, "syrup", grams, SIROP_COMPONENT_COUNT, 20), SIROP_OK);
    ASSERT_EQ(sirop_batch_add(b, SIROP_OFF_HEAT, "butter, unsalted", 40, 12), SIROP_OK);
    ASSERT_EQ(sirop_batch_add(b, SIROP_NEIGHBOURS, "sponge cake", 200, 20), SIROP_OK);
    for (const auto& [field, value] : std::vector<std::pair<const char*, double>>{{"thermometer_celsius", 108.5},
                                                                                  {"pressure_hpa", 980},
                                                                                  {"serve_celsius", 18},
                                                                                  {"pour_celsius", 30},
                                                                                  {"store_celsius", 6}})
        ASSERT_EQ(sirop_batch_set(b, field, value), SIROP_OK) << sirop_batch_refusal(b);
}

TEST(c_handles, a_batch_by_calls_is_the_batch_as_text) {
    batch_handle b;
    fill(b.it);
    sirop_answer* answer = nullptr;
    ASSERT_GE(sirop_batch_predict(b.it, nullptr, &answer), 0) << sirop_batch_refusal(b.it);
    std::string out(300000, '\0');
    size_t needed = 0;
    ASSERT_GE(sirop_predict_json(text_batch, std::strlen(text_batch), nullptr, out.data(), out.size(), &needed),
              0);
    const auto expected = nlohmann::json::parse(out.c_str());
    std::size_t compared = 0, booleans = 0;
    const auto compare = [&](auto&& self, const nlohmann::json& at, const std::string& key) -> void {
        if (at.is_object() || at.is_array()) {
            std::size_t i = 0;
            for (const auto& [name, value] : at.items()) {
                const std::string last = at.is_array() ? std::to_string(i++) : name;
                self(self, value, key.empty() ? last : key + "." + last);
            }
            return;
        }
        if (key == "title" || key.rfind("notes", 0) == 0) return;
        ++compared;
        if (at.is_string()) {
            std::string text(4000, '\0');
            size_t bytes = 0;
            ASSERT_GE(sirop_answer_text(answer, key.c_str(), text.data(), text.size(), &bytes), 0) << key;
            EXPECT_EQ(text.c_str(), at.get<std::string>()) << key;
        } else {
            double x = 0.0;
            const auto status = sirop_answer_number(answer, key.c_str(), &x);
            if (at.is_null()) {
                EXPECT_EQ(status, SIROP_E_IMPOSSIBLE) << key;
                EXPECT_TRUE(std::isnan(x));
                return;
            }
            ASSERT_GE(status, 0) << key;
            if (at.is_boolean()) {
                ++booleans;
                EXPECT_EQ(x, at.get<bool>() ? 1.0 : 0.0) << key;
                return;
            }
            EXPECT_NEAR(x, at.get<double>(), 1e-9 * std::fmax(1.0, std::fabs(x))) << key;  // sums in another order
        }
    };
    compare(compare, expected, "");
    EXPECT_GT(compared, 100U);
    EXPECT_GT(booleans, 0U);
    sirop_answer_free(answer);

    sirop_batch* read = nullptr;
    ASSERT_EQ(sirop_batch_read(text_batch, std::strlen(text_batch), &read), SIROP_OK);
    ASSERT_GE(sirop_batch_predict(read, nullptr, &answer), 0);
    double x = 0.0;
    ASSERT_GE(sirop_answer_number(answer, "cooked.water_percent", &x), 0);
    EXPECT_EQ(x, expected["cooked"]["water_percent"].get<double>());
    sirop_answer_free(answer);
    sirop_batch_free(read);
}

TEST(c_handles, bad_calls_are_refused_with_a_code_and_a_reason) {
    batch_handle b;
    sirop_answer* answer = nullptr;
    const auto says = [&](const char* part) {
        EXPECT_NE(std::string(sirop_batch_refusal(b.it)).find(part), std::string::npos)
            << sirop_batch_refusal(b.it);
    };
    const double nan_value = std::nan("");
    EXPECT_EQ(sirop_batch_new(nullptr), SIROP_E_NULL);
    EXPECT_EQ(sirop_batch_add(nullptr, SIROP_PAN, "honey", 1, 20), SIROP_E_NULL);
    EXPECT_EQ(sirop_batch_add(b.it, SIROP_PAN, nullptr, 1, 20), SIROP_E_NULL);
    EXPECT_EQ(sirop_batch_add(b.it, SIROP_PAN, "gravel", 1, 20), SIROP_E_NAME);
    says("gravel");
    EXPECT_EQ(sirop_batch_add(b.it, 7, "honey", 1, 20), SIROP_E_RANGE);
    says("where: 7");
    EXPECT_EQ(sirop_batch_add(b.it, SIROP_PAN, "honey", -1, 20), SIROP_E_RANGE);
    says("grams: -1");
    EXPECT_EQ(sirop_batch_add(b.it, SIROP_PAN, "honey", nan_value, 20), SIROP_E_RANGE);
    EXPECT_EQ(sirop_batch_add(b.it, SIROP_OFF_HEAT, "honey", 1, 900), SIROP_E_RANGE);
    says("celsius: 900");
    EXPECT_EQ(sirop_batch_set(b.it, "charm", 1), SIROP_E_NAME);
    says("charm");
    EXPECT_EQ(sirop_batch_set(b.it, "pressure_hpa", 5), SIROP_E_RANGE);
    says("300 to 1100");
    EXPECT_EQ(sirop_batch_set(b.it, "serve_celsius", nan_value), SIROP_E_RANGE);
    EXPECT_EQ(sirop_batch_predict(b.it, nullptr, &answer), SIROP_E_BATCH);  // empty
    says("pan");
    EXPECT_EQ(answer, nullptr);
    EXPECT_EQ(sirop_batch_predict(nullptr, nullptr, &answer), SIROP_E_NULL);
    EXPECT_EQ(sirop_batch_predict(b.it, nullptr, nullptr), SIROP_E_NULL);
    fill(b.it);
    EXPECT_STREQ(sirop_batch_refusal(b.it), "");
    EXPECT_EQ(sirop_batch_predict(b.it, "mars", &answer), SIROP_E_NAME);
    ASSERT_GE(sirop_batch_predict(b.it, "fr pastry", &answer), 0);
    double x = 0.0;
    EXPECT_EQ(sirop_answer_number(answer, "cooked.charm", &x), SIROP_E_NAME);
    EXPECT_TRUE(std::isnan(x));
    EXPECT_EQ(sirop_answer_number(answer, "set.word", &x), SIROP_E_NAME);  // a text
    EXPECT_EQ(sirop_answer_number(answer, "cautions.99", &x), SIROP_E_NAME);
    EXPECT_EQ(sirop_answer_number(answer, "cautions.1x", &x), SIROP_E_NAME);
    EXPECT_EQ(sirop_answer_number(nullptr, "set.word", &x), SIROP_E_NULL);
    char small[3] = "??";
    size_t needed = 0;
    EXPECT_EQ(sirop_answer_text(answer, "set.word", small, sizeof small, &needed), SIROP_E_BUFFER);
    EXPECT_STREQ(small, "");
    EXPECT_GT(needed, 3U);
    EXPECT_EQ(sirop_answer_text(answer, "set.word", small, sizeof small, nullptr), SIROP_E_NULL);
    sirop_answer_free(answer);
    sirop_answer_free(nullptr);
    sirop_batch_free(nullptr);
    sirop_batch* read = nullptr;
    EXPECT_EQ(sirop_batch_read("{", 1, &read), SIROP_E_BATCH);
    EXPECT_NE(std::string(sirop_batch_refusal(read)).find("line 1"), std::string::npos);
    sirop_batch_free(read);
    EXPECT_EQ(sirop_batch_read(nullptr, 0, &read), SIROP_E_NULL);
}

TEST(c_handles, a_refusal_is_that_of_the_last_call_and_names_what_these_calls_know) {
    batch_handle b;
    sirop_answer* answer = nullptr;
    const auto says = [&](const std::string& text) { EXPECT_EQ(sirop_batch_refusal(b.it), text); };
    const auto starts = [&](const std::string& text) {
        EXPECT_EQ(std::string(sirop_batch_refusal(b.it)).substr(0, text.size()), text);
    };
    EXPECT_EQ(sirop_batch_add(b.it, SIROP_PAN, "white sugar", 200, 20), SIROP_OK);
    EXPECT_EQ(sirop_batch_add(b.it, SIROP_PAN, "water", 100, 20), SIROP_OK);
    EXPECT_EQ(sirop_batch_predict(b.it, nullptr, &answer), SIROP_E_BATCH);
    says("thermometer_celsius: is missing; set it with sirop_batch_set");
    EXPECT_EQ(sirop_batch_set(b.it, "thermometer_celsius", 90.0), SIROP_OK);
    says("");
    EXPECT_EQ(sirop_batch_predict(b.it, nullptr, &answer), SIROP_E_BATCH);
    starts("thermometer_celsius: 90");
    EXPECT_EQ(sirop_batch_set(b.it, "thermometer_celsius", 115.0), SIROP_OK);

    double grams[SIROP_COMPONENT_COUNT] = {1.0};
    EXPECT_EQ(sirop_batch_add(b.it, SIROP_PAN, nullptr, 1, 20), SIROP_E_NULL);
    starts("ingredient: is null; ");
    EXPECT_EQ(sirop_batch_add_mixture(b.it, SIROP_PAN, nullptr, grams, SIROP_COMPONENT_COUNT, 20), SIROP_E_NULL);
    starts("name: is null; ");
    EXPECT_EQ(sirop_batch_add_mixture(b.it, SIROP_PAN, "x", nullptr, SIROP_COMPONENT_COUNT, 20), SIROP_E_NULL);
    starts("grams: is null; ");
    EXPECT_EQ(sirop_batch_set(b.it, nullptr, 1.0), SIROP_E_NULL);
    starts("field: is null; accepted: thermometer_celsius, pressure_hpa, ");
    EXPECT_EQ(sirop_batch_predict(b.it, nullptr, nullptr), SIROP_E_NULL);
    starts("answer: is null; ");
    ASSERT_GE(sirop_batch_predict(b.it, nullptr, &answer), 0);
    says("");
    sirop_answer_free(answer);
    auto* const elsewhere = reinterpret_cast<sirop_answer*>(&b);
    answer = elsewhere;
    int32_t status = SIROP_OK;
    {
        const no_memory now;
        status = sirop_batch_predict(b.it, nullptr, &answer);
    }
    EXPECT_EQ(status, SIROP_E_MEMORY);
    EXPECT_EQ(answer, nullptr);
    says("out of memory");
    answer = elsewhere;
    EXPECT_EQ(sirop_batch_predict(nullptr, nullptr, &answer), SIROP_E_NULL);
    EXPECT_EQ(answer, nullptr);

    // a batch read from text is put right by the same fields
    for (const auto& [cook, place] : std::vector<std::pair<std::string, std::string>>{
             {R"("to_celsius":90)", "thermometer_celsius: 90"},
             {R"("to_fahrenheit":200)", "thermometer_celsius: 93.3"}}) {
        const std::string text = R"({"sirop_batch":1,"pan":[{"ingredient":"white sugar","grams":200},)"
                                 R"({"ingredient":"water","grams":100}],"cook":{)" +
                                 cook + "}}";
        sirop_batch* read = nullptr;
        ASSERT_EQ(sirop_batch_read(text.data(), text.size(), &read), SIROP_OK) << sirop_batch_refusal(read);
        EXPECT_EQ(sirop_batch_predict(read, nullptr, &answer), SIROP_E_BATCH);
        EXPECT_EQ(std::string(sirop_batch_refusal(read)).rfind(place, 0), 0U) << sirop_batch_refusal(read);
        sirop_batch_free(read);
    }
}

TEST(c_handles, memory_may_run_out_at_any_allocation_and_the_handles_stay_good) {
    batch_handle b;
    fill(b.it);
    /// Calls with ever more memory until it suffices: an error then, and nothing else; gives how often it did not.
    const auto with_ever_more = [](const auto& call) {
        long refused = 0, after = 0;
        for (;; after += after < 200 ? 1 : 41) {
            int32_t status = 0;
            {
                const no_memory now(after);
                status = call();
            }
            if (status >= 0) return refused;
            EXPECT_EQ(status, SIROP_E_MEMORY) << after;
            if (status != SIROP_E_MEMORY || ++refused > 100000) return -1L;
        }
    };
    sirop_question* q = nullptr;
    sirop_answer* answer = nullptr;
    EXPECT_GT(with_ever_more([&] { return sirop_question_new("scale", &q); }), 0);
    ASSERT_NE(q, nullptr);
    EXPECT_GT(with_ever_more([&] { return sirop_question_set_batch(q, "batch", b.it); }), 10);
    EXPECT_GT(with_ever_more([&] { return sirop_question_set_number(q, "yield.grams", 700.0); }), 5);
    EXPECT_GT(with_ever_more([&] {
                  const auto status = sirop_question_ask(q, &answer);
                  EXPECT_EQ(status < 0, answer == nullptr);
                  return status;
              }),
              200);
    double grams = 0.0;
    EXPECT_GE(sirop_answer_number(answer, "answer.finished_grams", &grams), 0);
    EXPECT_NEAR(grams, 700.0, 1e-6);
    sirop_answer_free(answer);
    answer = nullptr;
    EXPECT_GT(with_ever_more([&] { return sirop_batch_predict(b.it, nullptr, &answer); }), 200);
    sirop_answer_free(answer);
    sirop_question_free(q);
    std::size_t needed = 0;
    char text[4096];
    EXPECT_GT(with_ever_more([&] { return sirop_batch_text(b.it, text, sizeof text, &needed); }), 10);
    EXPECT_NE(std::string(text).find("white sugar"), std::string::npos);
}

TEST(c_catalogues, errors_leave_nan_in_compositions_and_ranges) {
    std::array<double, SIROP_COMPONENT_COUNT + 1> g;
    const auto refuses = [&](int32_t expected, const char* ingredient, size_t components) {
        g.fill(7.0);
        EXPECT_EQ(sirop_ingredient_grams(ingredient, g.data(), components), expected);
        EXPECT_TRUE(all_nan(std::vector<double>(g.data(), g.data() + components)));
        for (size_t i = components; i < g.size(); ++i) EXPECT_EQ(g[i], 7.0) << i;  // the caller's own
    };
    refuses(SIROP_E_NULL, nullptr, SIROP_COMPONENT_COUNT);
    refuses(SIROP_E_NAME, "gravel", SIROP_COMPONENT_COUNT);
    refuses(SIROP_E_BUFFER, "white sugar", 2);
    refuses(SIROP_E_RANGE, "white sugar", SIROP_COMPONENT_COUNT + 1);
    refuses(SIROP_E_RANGE, "white sugar", 0);
    g.fill(7.0);
    EXPECT_EQ(sirop_glucose_syrup_grams(42.0, 80.0, g.data(), 2), SIROP_E_BUFFER);
    EXPECT_TRUE(std::isnan(g[0]) && std::isnan(g[1]));
    g.fill(7.0);
    EXPECT_EQ(sirop_glucose_syrup_grams(42.0, 80.0, g.data(), g.size()), SIROP_E_RANGE);
    EXPECT_TRUE(all_nan(g));
    EXPECT_EQ(sirop_glucose_syrup_grams(42.0, 80.0, nullptr, 2), SIROP_E_NULL);
    EXPECT_EQ(sirop_ingredient_grams("honey", nullptr, 2), SIROP_E_NULL);
    sirop_range r{7.0, 7.0};
    EXPECT_EQ(sirop_stage_range_celsius(nullptr, nullptr, &r), SIROP_E_NULL);
    EXPECT_TRUE(all_nan(r));
    r = {7.0, 7.0};
    EXPECT_EQ(sirop_stage_range_celsius(nullptr, "charm", &r), SIROP_E_NAME);
    EXPECT_TRUE(all_nan(r));
}

TEST(c_catalogues, list_to_their_end_and_know_their_own) {
    int32_t ingredients = 0, tables = 0, words = 0, conversions = 0, limits = 0;
    for (; const char* name = sirop_ingredient_name(ingredients); ++ingredients) {
        double grams[SIROP_COMPONENT_COUNT], sum = 0.0;
        ASSERT_EQ(sirop_ingredient_grams(name, grams, SIROP_COMPONENT_COUNT), SIROP_OK) << name;
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
    for (; const char* word = sirop_set_word(words); ++words) {
        sirop_range r;
        int32_t found = -1;
        ASSERT_EQ(sirop_set_word_firmness_pa_s(words, &r), SIROP_OK);
        ASSERT_EQ(sirop_set_word_of(r.low, &found), SIROP_OK);
        EXPECT_EQ(found, words) << word;
        EXPECT_NE(sirop_set_word_meaning(words), nullptr);
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
    EXPECT_EQ(sirop_growth_limit(0, nullptr), SIROP_E_NULL);
    EXPECT_STREQ(sirop_growth_limits_source(), sirop::core::growth_limits_source.data());
    EXPECT_GT(ingredients, 80);
    EXPECT_EQ(tables, 8);
    EXPECT_EQ(words, 8);
    EXPECT_EQ(conversions, 12);
    EXPECT_EQ(limits, 7);
    EXPECT_EQ(sirop_ingredient_name(-1), nullptr);
    EXPECT_EQ(sirop_set_word(99), nullptr);
    double x = 0.0;
    EXPECT_EQ(sirop_convert("brix_to_baume", 60.0, &x), SIROP_OK);
    EXPECT_NEAR(x, 32.5, 0.1);  // 145 - 145/SG with the density of ICUMSA SPS-4: a regression
    EXPECT_EQ(sirop_convert("brix_to_baume", 96.0, &x), SIROP_E_RANGE);
    EXPECT_TRUE(std::isnan(x));
    EXPECT_EQ(sirop_convert("charm", 1.0, &x), SIROP_E_NAME);
    EXPECT_EQ(sirop_convert(nullptr, 1.0, &x), SIROP_E_NULL);
    double two[2] = {0.0, 0.0};
    EXPECT_EQ(sirop_ingredient_grams("white sugar", two, 2), SIROP_E_BUFFER);  // holds more than water and sucrose
    EXPECT_EQ(sirop_ingredient_grams("water", two, 2), SIROP_OK);
    EXPECT_EQ(sirop_ingredient_grams("gravel", two, 2), SIROP_E_NAME);
    EXPECT_TRUE(std::isnan(two[0]));
    EXPECT_EQ(sirop_glucose_syrup_grams(5.0, 80.0, two, 2), SIROP_E_RANGE);
}

std::string words(const sirop_stage_place& place) {
    char text[100];
    size_t needed = 0;
    EXPECT_EQ(sirop_stage_place_text(nullptr, place.lower, place.upper, text, sizeof text, &needed), SIROP_OK);
    EXPECT_EQ(needed, std::string(text).size() + 1);
    return text;
}

TEST(c_stages, are_those_of_the_table_both_ways) {
    double grams[SIROP_COMPONENT_COUNT] = {0};
    grams[SIROP_SUCROSE] = 100.0;
    grams[SIROP_WATER] = 20.0;
    sirop_range r;
    ASSERT_EQ(sirop_celsius_for_stage(nullptr, "soft ball", grams, SIROP_COMPONENT_COUNT, 1013.25, &r),
              SIROP_EXTRAPOLATED);    // its firmness: above 75 % solids
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
    ASSERT_GE(sirop_water_at_boil_grams(grams, SIROP_COMPONENT_COUNT, 114.5, 1013.25, &water), 0);
    grams[SIROP_WATER] = water.value;
    ASSERT_EQ(sirop_stage_of_mixture(nullptr, grams, SIROP_COMPONENT_COUNT, &place), SIROP_EXTRAPOLATED);
    EXPECT_EQ(place.lower, place.upper);
    EXPECT_EQ(words(place), "soft ball");
    EXPECT_EQ(sirop_celsius_for_stage(nullptr, "charm", grams, SIROP_COMPONENT_COUNT, 1013.25, &r), SIROP_E_NAME);
    EXPECT_EQ(sirop_celsius_for_stage(nullptr, "dark caramel", grams, SIROP_COMPONENT_COUNT, 1013.25, &r),
              SIROP_E_IMPOSSIBLE);
    const auto nowhere = [&](int32_t status) {
        return place.lower == -1 && place.upper == -1 && place.status == status;
    };
    EXPECT_EQ(sirop_stage_of_temperature("mars", 117.0, 1013.25, &place), SIROP_E_NAME);
    EXPECT_TRUE(nowhere(SIROP_E_NAME));
    EXPECT_EQ(sirop_stage_of_temperature(nullptr, 999.0, 1013.25, &place), SIROP_E_RANGE);
    EXPECT_TRUE(nowhere(SIROP_E_RANGE));
    EXPECT_EQ(sirop_stage_of_temperature(nullptr, 110.0, 1.0, &place), SIROP_E_RANGE);
    EXPECT_EQ(sirop_stage_of_temperature(nullptr, 110.0, 1013.25, nullptr), SIROP_E_NULL);
    EXPECT_EQ(sirop_stage_of_mixture(nullptr, nullptr, SIROP_COMPONENT_COUNT, &place), SIROP_E_NULL);
    EXPECT_TRUE(nowhere(SIROP_E_NULL));
    EXPECT_EQ(sirop_stage_of_mixture("mars", grams, SIROP_COMPONENT_COUNT, &place), SIROP_E_NAME);
    grams[SIROP_WATER] = 0.0;
    EXPECT_EQ(sirop_stage_of_mixture(nullptr, grams, SIROP_COMPONENT_COUNT, &place), SIROP_E_IMPOSSIBLE);
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
    double grams[SIROP_COMPONENT_COUNT] = {0};
    grams[SIROP_SUCROSE] = 100.0;
    grams[SIROP_WATER] = 80.0;
    int fine = 0, stiff = 0, hot = 0, points = 0;
    for (const double glucose : {0.0, 5.0}) {  // whose isotherm is not fitted at the boil
        grams[SIROP_GLUCOSE] = glucose;
        sirop::core::mixture m;
        std::copy(grams, grams + SIROP_COMPONENT_COUNT, m.grams.begin());
        for (int32_t t = 0; const char* table = sirop_stage_table_name(t); ++t)
            for (int32_t i = 0; const char* stage = sirop_stage_name(table, i); ++i) {
                SCOPED_TRACE(std::string(table) + ", " + stage);
                sirop_range printed, found{7.0, 7.0};
                ASSERT_EQ(sirop_stage_range_celsius(table, stage, &printed), SIROP_OK);
                const auto status =
                    sirop_celsius_for_stage(table, stage, grams, SIROP_COMPONENT_COUNT, 1013.25, &found);
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
    EXPECT_GT(hot, 3);
    EXPECT_GT(points, 10);
    sirop_stage_place place;
    EXPECT_EQ(sirop_stage_of_mixture(nullptr, grams, SIROP_COMPONENT_COUNT, &place), SIROP_OK);
    grams[SIROP_AGAR] = 2.0;  // a gel, whose law is an estimate
    EXPECT_EQ(sirop_stage_of_mixture(nullptr, grams, SIROP_COMPONENT_COUNT, &place), SIROP_EXTRAPOLATED);
    sirop_range r{7.0, 7.0};
    EXPECT_EQ(sirop_celsius_for_stage(nullptr, nullptr, grams, SIROP_COMPONENT_COUNT, 1013.25, &r), SIROP_E_NULL);
    EXPECT_TRUE(all_nan(r));
    r = {7.0, 7.0};
    EXPECT_EQ(sirop_celsius_for_stage(nullptr, "soft ball", nullptr, SIROP_COMPONENT_COUNT, 1013.25, &r),
              SIROP_E_NULL);
    EXPECT_TRUE(all_nan(r));
    r = {7.0, 7.0};
    EXPECT_EQ(sirop_celsius_for_stage(nullptr, "soft ball", grams, SIROP_COMPONENT_COUNT, 5.0, &r), SIROP_E_RANGE);
    EXPECT_TRUE(all_nan(r));
}

TEST(c_graining_and_layers, beyond_the_solubility_laws_is_extrapolated_and_ice_is_taken_out) {
    double grams[SIROP_COMPONENT_COUNT] = {0};
    grams[SIROP_SUCROSE] = 30.0;
    grams[SIROP_LACTOSE] = 3.0;
    grams[SIROP_WATER] = 70.0;
    const auto at = [&](double celsius) {
        sirop_graining g = stale_graining;
        g.status = sirop_graining_at(grams, SIROP_COMPONENT_COUNT, celsius, &g);
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
    EXPECT_EQ(at(100.0).sucrose_supersaturation.value, at(89.0).sucrose_supersaturation.value);
    // At -15 C most of the water is ice: what is left holds far more than at 0 C.
    sirop::core::mixture m;
    std::copy(grams, grams + SIROP_COMPONENT_COUNT, m.grams.begin());
    const auto cold = sirop::core::graining_of(sirop::core::at_temperature(m, -15.0), -15.0);
    EXPECT_EQ(at(-15.0).sucrose_supersaturation.value, cold.sucrose.supersaturation.value);
    EXPECT_EQ(at(-15.0).risk, static_cast<int32_t>(cold.risk));
    EXPECT_GT(at(-15.0).sucrose_supersaturation.value, 2.0 * at(0.0).sucrose_supersaturation.value);
}

TEST(c_graining_and_layers, errors_leave_nan_in_every_result) {
    double grams[2 * SIROP_COMPONENT_COUNT] = {0};
    grams[SIROP_SUCROSE] = grams[SIROP_COMPONENT_COUNT + SIROP_STARCH] = 75.0;
    grams[SIROP_WATER] = grams[SIROP_COMPONENT_COUNT + SIROP_WATER] = 25.0;
    constexpr size_t count = SIROP_COMPONENT_COUNT;
    const auto graining = [&](int32_t expected, auto&& call) {
        sirop_graining g = stale_graining;
        EXPECT_EQ(call(&g), expected);
        EXPECT_EQ(g.status, expected);
        EXPECT_EQ(g.crystallizable_percent.status, expected);
        EXPECT_EQ(g.reserved, 0);
        EXPECT_TRUE(all_nan(g));
    };
    graining(SIROP_E_NULL, [&](sirop_graining* g) { return sirop_graining_at(nullptr, count, 20.0, g); });
    graining(SIROP_E_RANGE, [&](sirop_graining* g) { return sirop_graining_at(grams, count, 101.0, g); });
    graining(SIROP_E_MEMORY, [&](sirop_graining* g) {
        const no_memory now;
        return sirop_graining_at(grams, count, 20.0, g);
    });
    double ice[SIROP_COMPONENT_COUNT] = {0};
    ice[SIROP_WATER] = 100.0;
    graining(SIROP_E_IMPOSSIBLE, [&](sirop_graining* g) { return sirop_graining_at(ice, count, -10.0, g); });
    sirop_graining small = stale_graining;
    small.struct_bytes = 8;
    EXPECT_EQ(sirop_graining_at(grams, count, 20.0, &small), SIROP_E_RANGE);
    EXPECT_EQ(small.status, SIROP_E_RANGE);
    EXPECT_EQ(small.risk, 7);  // beyond what the caller says it has
    small.status = 7;
    small.struct_bytes = 7;
    EXPECT_EQ(sirop_graining_at(grams, count, 20.0, &small), SIROP_E_RANGE);
    EXPECT_EQ(small.status, 7);

    const auto layers = [&](int32_t expected, auto&& call) {
        sirop_estimate aw = stale, gained[2] = {stale, stale};
        EXPECT_EQ(call(&aw, gained), expected);
        for (const auto& e : {aw, gained[0], gained[1]}) {
            EXPECT_TRUE(all_nan(e));
            EXPECT_EQ(e.status, expected);
        }
    };
    layers(SIROP_E_NULL, [&](sirop_estimate* aw, sirop_estimate* gained) {
        return sirop_layers_at_equilibrium(2, nullptr, count, 20.0, aw, gained);
    });
    layers(SIROP_E_RANGE, [&](sirop_estimate* aw, sirop_estimate* gained) {
        return sirop_layers_at_equilibrium(2, grams, count, 101.0, aw, gained);
    });
    layers(SIROP_E_MEMORY, [&](sirop_estimate* aw, sirop_estimate* gained) {
        const no_memory now;
        return sirop_layers_at_equilibrium(2, grams, count, 20.0, aw, gained);
    });
    sirop_estimate aw = stale, gained[2] = {stale, stale};
    EXPECT_EQ(sirop_layers_at_equilibrium(2, grams, count, 20.0, nullptr, gained), SIROP_E_NULL);
    EXPECT_TRUE(all_nan(gained[0]) && all_nan(gained[1]));
    EXPECT_EQ(sirop_layers_at_equilibrium(2, grams, count, 20.0, &aw, nullptr), SIROP_E_NULL);
    EXPECT_TRUE(all_nan(aw));
}

TEST(c_graining_and_layers, answer_and_refuse) {
    double grams[2 * SIROP_COMPONENT_COUNT] = {0};
    grams[SIROP_SUCROSE] = 75.0;
    grams[SIROP_WATER] = 25.0;
    double* cake = grams + SIROP_COMPONENT_COUNT;
    cake[SIROP_STARCH] = 40.0;
    cake[SIROP_WATER] = 4.0;
    sirop_graining g;
    g.struct_bytes = sizeof g;
    ASSERT_EQ(sirop_graining_at(grams, SIROP_COMPONENT_COUNT, 20.0, &g), SIROP_OK);
    EXPECT_EQ(g.risk, 3);
    EXPECT_NEAR(g.sucrose_supersaturation.value, 1.5,
                0.01);  // 3 g per g of water over 2.005 (Bubnik & Kadlec 1995)
    g.struct_bytes = 8;
    EXPECT_EQ(sirop_graining_at(grams, SIROP_COMPONENT_COUNT, 20.0, &g), SIROP_E_RANGE);
    g.struct_bytes = sizeof g;
    EXPECT_EQ(sirop_graining_at(nullptr, SIROP_COMPONENT_COUNT, 20.0, &g), SIROP_E_NULL);
    EXPECT_TRUE(std::isnan(g.sucrose_supersaturation.value));
    EXPECT_EQ(sirop_graining_at(grams, SIROP_COMPONENT_COUNT, 900.0, &g), SIROP_E_RANGE);
    sirop_estimate aw, gained[2];
    ASSERT_GE(sirop_layers_at_equilibrium(2, grams, SIROP_COMPONENT_COUNT, 20.0, &aw, gained), 0);
    EXPECT_NEAR(gained[0].value + gained[1].value, 0.0, 1e-9);
    EXPECT_GT(gained[1].value, 0.0);  // the dry layer takes
    EXPECT_EQ(sirop_layers_at_equilibrium(0, grams, SIROP_COMPONENT_COUNT, 20.0, &aw, gained), SIROP_E_RANGE);
    EXPECT_EQ(sirop_layers_at_equilibrium(2, grams, SIROP_COMPONENT_COUNT, -5.0, &aw, gained), SIROP_E_RANGE);
    EXPECT_TRUE(std::isnan(gained[1].value));
}

TEST(c_structs, have_the_sizes_that_programs_were_compiled_with) {
    static_assert(sizeof(sirop_estimate) == 32 && offsetof(sirop_estimate, status) == 24);
    static_assert(sizeof(sirop_range) == 16);
    static_assert(sizeof(sirop_stage_place) == 16 && offsetof(sirop_stage_place, status) == 8);
    static_assert(sizeof(sirop_graining) == 120 && offsetof(sirop_graining, hindering_percent) == 112);
    static_assert(SIROP_COMPONENT_COUNT == 27 && SIROP_ACID == 22 && SIROP_GELATIN == 26);
    // an older program, which knows fewer components, gets the same answer
    double grams[SIROP_COMPONENT_COUNT] = {0};
    grams[SIROP_SUCROSE] = 80.0;
    grams[SIROP_WATER] = 20.0;
    sirop_estimate old_one, new_one;
    ASSERT_GE(sirop_boiling_point_celsius(grams, 23, 1013.25, &old_one), 0);
    ASSERT_GE(sirop_boiling_point_celsius(grams, SIROP_COMPONENT_COUNT, 1013.25, &new_one), 0);
    EXPECT_EQ(old_one.value, new_one.value);
    EXPECT_EQ(sirop_boiling_point_celsius(grams, 0, 1013.25, &old_one), SIROP_E_RANGE);
    EXPECT_EQ(sirop_boiling_point_celsius(grams, SIROP_COMPONENT_COUNT + 1, 1013.25, &old_one), SIROP_E_RANGE);
}

TEST(threads, get_the_same_numbers_at_once) {
    const auto work = [](double* water, double* boils, double* celsius) {
        for (int i = 0; i < 5; ++i) {
            batch_handle b;
            fill(b.it);
            sirop_answer* answer = nullptr;
            if (sirop_batch_predict(b.it, nullptr, &answer) < 0) return;
            sirop_answer_number(answer, "cooked.water_percent", water);
            sirop_answer_free(answer);
            sirop_question* q = nullptr;
            if (sirop_question_new("cook_for", &q) < 0 || sirop_question_set_batch(q, "batch", b.it) < 0 ||
                sirop_question_set_number(q, "wanted.water_percent", 15.0) < 0 ||
                sirop_question_ask(q, &answer) < 0)
                return;
            sirop_answer_number(answer, "answer.thermometer_celsius", celsius);
            sirop_answer_free(answer);
            sirop_question_free(q);
            double grams[SIROP_COMPONENT_COUNT] = {0};
            grams[SIROP_SUCROSE] = 80.0;
            grams[SIROP_GLUCOSE] = 10.0;
            grams[SIROP_WATER] = 20.0;
            sirop_estimate e;
            sirop_boiling_point_celsius(grams, SIROP_COMPONENT_COUNT, 1000.0, &e);
            *boils = e.value;
        }
    };
    double water[4] = {0}, boils[4] = {0}, celsius[4] = {0};
    std::vector<std::thread> threads;
    for (int i = 0; i < 4; ++i) threads.emplace_back(work, water + i, boils + i, celsius + i);
    for (auto& t : threads) t.join();
    for (int i = 0; i < 4; ++i) {
        EXPECT_GT(water[i], 1.0);
        EXPECT_EQ(water[i], water[0]);
        EXPECT_EQ(boils[i], boils[0]);
        EXPECT_GT(celsius[i], 100.0);
        EXPECT_EQ(celsius[i], celsius[0]);
    }
}

}  // namespace
