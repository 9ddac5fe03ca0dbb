// The C API's batches and questions by calls: the same numbers as the text calls, bad calls refused with their
// reason, memory that runs out, many threads at once.
#include <cmath>
#include <cstring>
#include <string>
#include <thread>
#include <vector>

#include "c_calls.hpp"
#include "out_of_memory.hpp"

namespace {

using namespace sirop_test;

constexpr const char* text_batch =
    R"({"sirop_batch":1,"pan":[{"ingredient":"white sugar","grams":250},{"ingredient":"heavy cream 36 %","grams":240},
    {"ingredient":"glucose syrup 42 DE","grams":60}],"cook":{"to_celsius":108.5,"pressure_hpa":980},
    "off_heat":[{"ingredient":"butter, unsalted","grams":40,"celsius":12}],"serve":{"celsius":18},"pour":{"celsius":30},
    "store":{"celsius":6},"neighbours":[{"ingredient":"sponge cake","grams":200}]})";

void fill(sirop_batch* b) {
    ASSERT_EQ(sirop_batch_add(b, SIROP_PAN, "white sugar", 250, 20), SIROP_OK);
    ASSERT_EQ(sirop_batch_add(b, SIROP_PAN, "heavy cream 36 %", 240, 20), SIROP_OK);
    double grams[count];
    ASSERT_EQ(sirop_ingredient_grams("glucose syrup 42 DE", grams, count), SIROP_OK);
    for (double& g : grams) g *= 0.6;
    ASSERT_EQ(sirop_batch_add_mixture(b, SIROP_PAN, "syrup", grams, count, 20), SIROP_OK);
    ASSERT_EQ(sirop_batch_add(b, SIROP_OFF_HEAT, "butter, unsalted", 40, 12), SIROP_OK);
    ASSERT_EQ(sirop_batch_add(b, SIROP_NEIGHBOURS, "sponge cake", 200, 20), SIROP_OK);
    const std::pair<const char*, double> fields[] = {{"thermometer_celsius", 108.5},
                                                     {"pressure_hpa", 980},
                                                     {"serve_celsius", 18},
                                                     {"pour_celsius", 30},
                                                     {"store_celsius", 6}};
    for (const auto& [field, value] : fields)
        ASSERT_EQ(sirop_batch_set(b, field, value), SIROP_OK) << sirop_batch_refusal(b);
}

TEST(c_handles, a_batch_by_calls_is_the_batch_as_text) {
    batch b;
    fill(b.it);
    answer by_calls, read_answer;
    ASSERT_GE(sirop_batch_predict(b.it, nullptr, &by_calls.it), 0) << b.refusal();
    const auto expected =
        json::parse(text_of(sirop_predict_json, text_batch, std::strlen(text_batch), nullptr).text);
    std::size_t compared = 0, booleans = 0;
    const auto compare = [&](auto&& self, const json& at, const std::string& key) -> void {
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
            EXPECT_EQ(text_of(sirop_answer_text, by_calls.it, key.c_str()).text, at.get<std::string>()) << key;
        } else {
            double x = 0.0;
            const auto status = sirop_answer_number(by_calls.it, key.c_str(), &x);
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

    const batch read(text_batch);
    ASSERT_GE(sirop_batch_predict(read.it, nullptr, &read_answer.it), 0);
    EXPECT_EQ(read_answer.number("cooked.water_percent"), expected["cooked"]["water_percent"].get<double>());
}

TEST(c_handles, bad_calls_are_refused_with_a_code_and_a_reason) {
    batch b;
    sirop_answer* answer = nullptr;
    const auto refused = [&](int32_t status, int32_t code, const char* part) {
        EXPECT_EQ(status, code) << part;
        EXPECT_NE(b.refusal().find(part), std::string::npos) << b.refusal();
    };
    refused(sirop_batch_add(b.it, SIROP_PAN, "gravel", 1, 20), SIROP_E_NAME, "gravel");
    refused(sirop_batch_add(b.it, 7, "honey", 1, 20), SIROP_E_RANGE, "where: 7");
    refused(sirop_batch_add(b.it, SIROP_PAN, "honey", -1, 20), SIROP_E_RANGE, "grams: -1");
    EXPECT_EQ(sirop_batch_add(b.it, SIROP_PAN, "honey", nan_value, 20), SIROP_E_RANGE);
    refused(sirop_batch_add(b.it, SIROP_OFF_HEAT, "honey", 1, 900), SIROP_E_RANGE, "celsius: 900");
    refused(sirop_batch_set(b.it, "charm", 1), SIROP_E_NAME, "charm");
    refused(sirop_batch_set(b.it, "pressure_hpa", 5), SIROP_E_RANGE, "300 to 1100");
    EXPECT_EQ(sirop_batch_set(b.it, "serve_celsius", nan_value), SIROP_E_RANGE);
    refused(sirop_batch_predict(b.it, nullptr, &answer), SIROP_E_BATCH, "pan");  // empty
    EXPECT_EQ(answer, nullptr);
    fill(b.it);
    EXPECT_EQ(b.refusal(), "");
    EXPECT_EQ(sirop_batch_predict(b.it, "mars", &answer), SIROP_E_NAME);
    ASSERT_GE(sirop_batch_predict(b.it, "fr pastry", &answer), 0);
    double x = 0.0;
    EXPECT_EQ(sirop_answer_number(answer, "cooked.charm", &x), SIROP_E_NAME);
    EXPECT_TRUE(std::isnan(x));
    EXPECT_EQ(sirop_answer_number(answer, "set.word", &x), SIROP_E_NAME);  // a text
    EXPECT_EQ(sirop_answer_number(answer, "cautions.99", &x), SIROP_E_NAME);
    EXPECT_EQ(sirop_answer_number(answer, "cautions.1x", &x), SIROP_E_NAME);
    char small[3] = "??";
    size_t needed = 0;
    EXPECT_EQ(sirop_answer_text(answer, "set.word", small, sizeof small, &needed), SIROP_E_BUFFER);
    EXPECT_STREQ(small, "");
    EXPECT_GT(needed, 3U);
    sirop_answer_free(answer);
    sirop_batch* read = nullptr;
    EXPECT_EQ(sirop_batch_read("{", 1, &read), SIROP_E_BATCH);
    EXPECT_NE(std::string(sirop_batch_refusal(read)).find("line 1"), std::string::npos);
    sirop_batch_free(read);
}

TEST(c_handles, a_refusal_is_that_of_the_last_call_and_names_what_these_calls_know) {
    batch b;
    sirop_answer* answer = nullptr;
    const auto says = [&](const std::string& text) { EXPECT_EQ(b.refusal(), text); };
    const auto refused = [&](int32_t status, int32_t code, const std::string& start) {
        EXPECT_EQ(status, code) << start;
        EXPECT_EQ(b.refusal().substr(0, start.size()), start);
    };
    EXPECT_EQ(sirop_batch_add(b.it, SIROP_PAN, "white sugar", 200, 20), SIROP_OK);
    EXPECT_EQ(sirop_batch_add(b.it, SIROP_PAN, "water", 100, 20), SIROP_OK);
    EXPECT_EQ(sirop_batch_predict(b.it, nullptr, &answer), SIROP_E_BATCH);
    says("thermometer_celsius: is missing; set it with sirop_batch_set");
    EXPECT_EQ(sirop_batch_set(b.it, "thermometer_celsius", 90.0), SIROP_OK);
    says("");
    refused(sirop_batch_predict(b.it, nullptr, &answer), SIROP_E_BATCH, "thermometer_celsius: 90");
    EXPECT_EQ(sirop_batch_set(b.it, "thermometer_celsius", 115.0), SIROP_OK);

    double grams[count] = {1.0};
    refused(sirop_batch_add(b.it, SIROP_PAN, nullptr, 1, 20), SIROP_E_NULL, "ingredient: is null; ");
    refused(sirop_batch_add_mixture(b.it, SIROP_PAN, nullptr, grams, count, 20), SIROP_E_NULL, "name: is null; ");
    refused(sirop_batch_add_mixture(b.it, SIROP_PAN, "x", nullptr, count, 20), SIROP_E_NULL, "grams: is null; ");
    refused(sirop_batch_set(b.it, nullptr, 1.0), SIROP_E_NULL,
            "field: is null; accepted: thermometer_celsius, pressure_hpa, ");
    refused(sirop_batch_predict(b.it, nullptr, nullptr), SIROP_E_NULL, "answer: is null; ");
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
        const batch read(text);
        EXPECT_EQ(sirop_batch_predict(read.it, nullptr, &answer), SIROP_E_BATCH);
        EXPECT_EQ(read.refusal().rfind(place, 0), 0U) << read.refusal();
    }
}

TEST(c_handles, memory_may_run_out_at_any_allocation_and_the_handles_stay_good) {
    batch b;
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

TEST(threads, get_the_same_numbers_at_once) {
    const auto work = [](double* water, double* boils, double* celsius) {
        for (int i = 0; i < 5; ++i) {
            batch b;
            fill(b.it);
            answer cooked, asked;
            if (sirop_batch_predict(b.it, nullptr, &cooked.it) < 0) return;
            sirop_answer_number(cooked.it, "cooked.water_percent", water);
            const question q("cook_for");
            if (sirop_question_set_batch(q.it, "batch", b.it) < 0 ||
                sirop_question_set_number(q.it, "wanted.water_percent", 15.0) < 0 ||
                sirop_question_ask(q.it, &asked.it) < 0)
                return;
            sirop_answer_number(asked.it, "answer.thermometer_celsius", celsius);
            const auto grams = mixture_of({{SIROP_SUCROSE, 80.0}, {SIROP_GLUCOSE, 10.0}, {SIROP_WATER, 20.0}});
            sirop_estimate e;
            sirop_boiling_point_celsius(grams.data(), count, 1000.0, &e);
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
