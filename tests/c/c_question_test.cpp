// Questions by calls through the C API, and batches written as text: the same answers as from text, bad calls
// refused with their reason and nothing half-changed.
#include <cmath>
#include <string>
#include <vector>

#include "c_calls.hpp"

namespace {

using namespace sirop_test;

// Invented.
constexpr const char* sauce =
    R"json({"sirop_batch":1,"title":"Tonka caramel (invented)","pan":[{"ingredient":"white sugar","grams":210},
    {"ingredient":"glucose syrup 42 DE","grams":70},{"ingredient":"heavy cream 36 %","millilitres":230},
    {"ingredient":"glucose syrup","dextrose_equivalent":38,"grams":15}],
    "cook":{"to_celsius":109,"pressure_hpa":955,"thermometer_reads_in_boiling_water_celsius":99.5,
            "thermometer_within_celsius":0.5},
    "off_heat":[{"ingredient":"butter, unsalted","grams":35,"celsius":14}],"serve":{"celsius":19},
    "store":{"celsius":6},"pour":{"celsius":32},"neighbours":[{"ingredient":"sponge cake","grams":180}]
})json";

/// Sets every value of an object by calls; a key "batch" holds a batch's text.
void tell(const question& q, const json& value, const std::string& path) {
    const auto under = [&](const std::string& key) { return path.empty() ? key : path + "." + key; };
    int32_t status = SIROP_OK;
    if (path == "batch" || path.ends_with(".batch")) {
        const batch b(value.dump());
        status = sirop_question_set_batch(q.it, path.c_str(), b.it);
    } else if (value.is_object()) {
        for (const auto& [key, inner] : value.items()) tell(q, inner, under(key));
    } else if (value.is_array()) {
        for (std::size_t i = 0; i < value.size(); ++i) tell(q, value[i], under(std::to_string(i)));
    } else if (value.is_string()) {
        status = sirop_question_set_text(q.it, path.c_str(), value.get<std::string>().c_str());
    } else if (value.is_boolean()) {
        status = sirop_question_set_truth(q.it, path.c_str(), value.get<bool>() ? 1 : 0);
    } else {
        status = sirop_question_set_number(q.it, path.c_str(), value.get<double>());
    }
    EXPECT_EQ(status, SIROP_OK) << path << ": " << q.refusal();
}

/// Equal, numbers to 1e-9: a batch that goes through a text keeps its compositions to the last bits only.
bool near(const json& a, const json& b) {
    if (a.is_number() && b.is_number()) {
        const double x = a.get<double>(), y = b.get<double>();
        return std::fabs(x - y) <= 1e-9 * std::fmax(1.0, std::fabs(x));
    }
    if (a.type() != b.type() || a.size() != b.size()) return a == b;
    if (!a.is_structured()) return a == b;
    for (auto i = a.begin(), k = b.begin(); i != a.end(); ++i, ++k)
        if (!near(*i, *k) || (a.is_object() && i.key() != k.key())) return false;
    return true;
}

TEST(c_question, by_calls_answers_as_the_text_does) {
    const auto of = [](const char* rest) {
        json q = json::parse(rest);
        q["batch"] = json::parse(sauce);
        return q;
    };
    json log = json::parse(sauce);
    json logs = json::array();
    for (const auto& [celsius, grams] : {std::pair{107.0, 468.0}, {111.0, 446.0}, {115.0, 431.0}}) {
        log["cook"]["to_celsius"] = celsius;
        logs.push_back({{"batch", log}, {"grams", grams}});
    }
    const std::pair<const char*, json> asked[] = {
        {"cook_for", of(R"({"wanted": {"set_word": "ribbon", "celsius": 21}})")},
        {"cook_for", of(R"({"wanted": {"water_percent": 14.5, "within": 0.25}})")},
        {"rescue",
         of(R"({"wanted": {"set_word": "ribbon"}, "now": {"thermometer_celsius": 119, "additions_in": true},
                          "with": ["water", "whole milk"]})")},
        {"scale", of(R"({"yield": {"portions": 12, "grams_per_portion": 40, "loss_grams": 15}})")},
        {"travel", of(R"({"to": {"altitude_metres": 2240}})")},
        {"substitute",
         of(R"({"replace": "heavy cream 36 %", "by": [{"ingredient": "coconut cream", "at_most_grams": 400}],
                              "may_change": ["glucose syrup 42 DE"]})")},
        {"formulate", of(R"({"free": ["white sugar", {"line": "heavy cream 36 %", "at_most_grams": 400}],
                             "wanted": [{"set_word": "mounding"}], "yield": {"grams": 500}})")},
        {"sensitivity", of(R"({"uncertainties": {"thermometer_kelvin": 0.4}, "samples": 50, "seed": 3})")},
        {"learn_kitchen", json{{"logs", logs}}},
        {"cook_over_time",
         of(R"({"ph": 6, "stove": {"hob": "gas", "watts": 2800}, "steps": [{"heat_to_celsius": 108},
                                  {"add": [{"ingredient": "butter, unsalted", "grams": 20}]}, {"rest_minutes": 2}]})")},
    };
    std::vector<std::string> kinds;
    for (int32_t i = 0; const char* name = sirop_question_name(i); ++i) kinds.emplace_back(name);
    EXPECT_EQ(kinds.size(), 9U);
    EXPECT_EQ(sirop_question_name(-1), nullptr);
    std::size_t met = 0;
    for (const auto& kind : kinds)
        for (const auto& [name, content] : asked) {
            if (name != kind) continue;
            SCOPED_TRACE(name);
            ++met;
            json whole = {{"sirop_question", 1}, {"ask", name}};
            whole.update(content);
            const auto text = whole.dump();
            const auto [status, expected] = text_of(sirop_ask_json, text.data(), text.size());
            ASSERT_GE(status, 0) << expected;
            question q(name);
            tell(q, content, "");
            answer a;
            ASSERT_EQ(sirop_question_ask(q.it, &a.it), status) << q.refusal();
            EXPECT_TRUE(near(a.content(), json::parse(expected))) << a.content().dump(1) << expected;
            EXPECT_EQ(q.refusal(), "");
            EXPECT_EQ(a.report(), text_of(sirop_ask_report, text.data(), text.size()).text);
            // asked again, the same
            answer again;
            EXPECT_EQ(sirop_question_ask(q.it, &again.it), status);
            EXPECT_EQ(again.content(), a.content());
        }
    EXPECT_EQ(met, std::size(asked));
}

TEST(c_question, is_refused_with_a_reason_and_stays_as_it_was) {
    question q("cook_for");
    answer a;
    const auto ask = [&] { return sirop_question_ask(q.it, &a.it); };
    EXPECT_EQ(ask(), SIROP_E_BATCH);
    EXPECT_EQ(a.it, nullptr);
    EXPECT_NE(q.refusal().find("batch"), std::string::npos) << q.refusal();
    batch b(sauce);
    ASSERT_EQ(sirop_question_set_batch(q.it, "batch", b.it), SIROP_OK);
    EXPECT_EQ(q.refusal(), "");
    ASSERT_EQ(sirop_question_set_number(q.it, "wanted.water_percent", 15.0), SIROP_OK);
    ASSERT_GE(ask(), 0) << q.refusal();
    const double before = a.number("answer.thermometer_celsius");

    // Each leaves the question as it was, with a reason that names the key or the value.
    const std::string deep = [] {
        std::string keys = "wanted";
        for (int i = 0; i < 40; ++i) keys += ".a";
        return keys;
    }();
    for (const char* key : {"", ".", "wanted.", "wanted..celsius", "wanted.water_percent.more",
                            "wanted.water_percent.0", deep.c_str(), "with.1"}) {
        EXPECT_EQ(sirop_question_set_number(q.it, key, 1.0), SIROP_E_NAME) << key;
        EXPECT_EQ(q.refusal().rfind("key: ", 0), 0U) << q.refusal();
    }
    for (const char* key : {"ask", "sirop_question", "ask.0"}) {
        EXPECT_EQ(sirop_question_set_text(q.it, key, "scale"), SIROP_E_NAME) << key;
        EXPECT_NE(q.refusal().find("sirop_question_new"), std::string::npos) << q.refusal();
    }
    for (const double x : {std::nan(""), HUGE_VAL, -HUGE_VAL}) {
        EXPECT_EQ(sirop_question_set_number(q.it, "wanted.water_percent", x), SIROP_E_RANGE);
        EXPECT_NE(q.refusal().find("finite"), std::string::npos) << q.refusal();
    }
    EXPECT_EQ(sirop_question_set_number(q.it, nullptr, 1.0), SIROP_E_NULL);
    EXPECT_EQ(sirop_question_set_text(q.it, "wanted.set_word", nullptr), SIROP_E_NULL);
    EXPECT_EQ(sirop_question_set_batch(q.it, "batch", nullptr), SIROP_E_NULL);
    EXPECT_EQ(sirop_question_ask(q.it, nullptr), SIROP_E_NULL);
    EXPECT_NE(q.refusal(), "");
    answer same;
    ASSERT_GE(sirop_question_ask(q.it, &same.it), 0) << q.refusal();
    EXPECT_EQ(same.number("answer.thermometer_celsius"), before);

    // An object where a list belongs is named when it is asked, and can be set anew.
    question r("rescue");
    answer none;
    ASSERT_EQ(sirop_question_set_batch(r.it, "batch", b.it), SIROP_OK);
    ASSERT_EQ(sirop_question_set_text(r.it, "wanted.set_word", "ribbon"), SIROP_OK);
    ASSERT_EQ(sirop_question_set_number(r.it, "now.thermometer_celsius", 118.0), SIROP_OK);
    ASSERT_EQ(sirop_question_set_text(r.it, "with.first", "water"), SIROP_OK);
    EXPECT_EQ(sirop_question_ask(r.it, &none.it), SIROP_E_BATCH);
    EXPECT_EQ(r.refusal().rfind("with: ", 0), 0U) << r.refusal();
    EXPECT_EQ(sirop_question_set_text(r.it, "with", "water"), SIROP_OK);
    EXPECT_EQ(sirop_question_set_text(r.it, "with.0", "water"), SIROP_E_NAME);  // through a text
    EXPECT_EQ(sirop_question_ask(r.it, &none.it), SIROP_E_BATCH);
    EXPECT_EQ(r.refusal().rfind("with: ", 0), 0U) << r.refusal();

    // What the question does not know is named when it is asked.
    ASSERT_EQ(sirop_question_set_text(q.it, "mood", "sweet"), SIROP_OK);
    EXPECT_EQ(sirop_question_ask(q.it, &none.it), SIROP_E_BATCH);
    EXPECT_EQ(q.refusal().rfind("mood: unknown key", 0), 0U) << q.refusal();
    EXPECT_EQ(none.it, nullptr);

    sirop_question* made = nullptr;
    EXPECT_EQ(sirop_question_new("why", &made), SIROP_E_NAME);
    EXPECT_EQ(made, nullptr);
}

TEST(c_question, answers_count_their_lists_and_give_their_report) {
    batch b(sauce);
    answer a;
    ASSERT_GE(sirop_batch_predict(b.it, nullptr, &a.it), 0);
    int32_t cautions = 0, layers = 0, keys = 0, none = 0;
    ASSERT_GE(sirop_answer_count(a.it, "cautions", &cautions), 0);
    ASSERT_GE(sirop_answer_count(a.it, "neighbours.layers", &layers), 0);
    ASSERT_GE(sirop_answer_count(a.it, "", &keys), 0);
    EXPECT_EQ(static_cast<std::size_t>(cautions), a.content()["cautions"].size());
    EXPECT_EQ(layers, 2);  // the sauce and the sponge
    // the sponge is damper than the sauce, so together they keep less well
    EXPECT_NE(a.report().find("Keeping beside its neighbours"), std::string::npos) << a.report();
    EXPECT_EQ(static_cast<std::size_t>(keys), a.content().size());
    for (const char* key : {"title", "cooked.celsius", "no.such.key"}) {
        none = 7;
        EXPECT_EQ(sirop_answer_count(a.it, key, &none), SIROP_E_NAME) << key;
        EXPECT_EQ(none, -1);
    }
    const std::string text = sauce;
    EXPECT_EQ(a.report(), text_of(sirop_predict_report, text.data(), text.size(), nullptr).text);
}

TEST(c_batch_text, reads_back_as_the_same_batch) {
    const auto fig_paste =
        mixture_of({{SIROP_WATER, 30.3}, {SIROP_GLUCOSE, 31.9}, {SIROP_FRUCTOSE, 29.1}, {SIROP_FIBRE, 9.7}});
    const double* fig = fig_paste.data();
    batch b(sauce);
    ASSERT_EQ(sirop_batch_add_mixture(b.it, SIROP_PAN, "fig \"paste\"", fig, count, 20.0), SIROP_OK);
    ASSERT_EQ(sirop_batch_add_mixture(b.it, SIROP_OFF_HEAT, "honey", fig, count, 30.0), SIROP_OK);
    const auto text = b.text();
    const auto file = json::parse(text);
    EXPECT_EQ(file["sirop_batch"], 1);
    EXPECT_FALSE(file["pan"][0].contains("per_100_g"));  // the pantry's own
    EXPECT_NEAR(file["pan"][4]["per_100_g"]["fructose"].get<double>(), 29.1 / 1.01, 1e-12);
    EXPECT_EQ(file["off_heat"][0]["celsius"], 14.0);
    batch again(text);
    EXPECT_TRUE(near(json::parse(again.text()), file));
    answer a, c;
    ASSERT_EQ(sirop_batch_predict(b.it, "us 1918", &a.it), sirop_batch_predict(again.it, "us 1918", &c.it));
    auto first = a.content(), second = c.content();
    for (const char* key :
         {"notes", "remarks"}) {  // the second says that a composition replaces the pantry's honey
        first.erase(key);
        second.erase(key);
    }
    EXPECT_TRUE(near(first, second)) << first.dump(1) << second.dump(1);

    // What could not be read back is not taken.
    for (const char* name : {"", "  "})
        EXPECT_EQ(sirop_batch_add_mixture(b.it, SIROP_PAN, name, fig, count, 20.0), SIROP_E_NAME);
    EXPECT_EQ(sirop_batch_add_mixture(b.it, SIROP_PAN, "fig", fig, count + 1, 20.0), SIROP_E_RANGE);
    EXPECT_EQ(b.refusal().rfind("components: ", 0), 0U) << b.refusal();
    EXPECT_EQ(sirop_batch_add(b.it, SIROP_PAN, "heavy creme", 10.0, 20.0), SIROP_E_NAME);
    EXPECT_NE(b.refusal().find("heavy cream 36 %"), std::string::npos) << b.refusal();

    // A batch without a target has a text too, for questions that ask for the temperature.
    batch bare;
    ASSERT_EQ(sirop_batch_add(bare.it, SIROP_PAN, "honey", 100.0, 20.0), SIROP_OK);
    EXPECT_FALSE(json::parse(bare.text())["cook"].contains("to_celsius"));
}

}  // namespace
