// What the questions tell somebody at a stove: cautions first, the pan's weight beside each temperature, and of a
// rescue only what suits the batch, with what to check afterwards.  All batches invented.
#include <gtest/gtest.h>

#include "json/batch_file.hpp"
#include "questions/question.hpp"
#include "report/card.hpp"
#include "sirop/sirop.h"

namespace {

using namespace sirop;
using lib::json;

const std::string caramel = R"j({"sirop_batch": 1, "title": "Caramel (invented)", "pan": [
    {"ingredient": "white sugar", "grams": 200}, {"ingredient": "glucose syrup 42 DE", "grams": 120},
    {"ingredient": "heavy cream 36 %", "grams": 260}], "cook": {"to_celsius": 108, "altitude_metres": 520,
    "thermometer_reads_in_boiling_water_celsius": 99}, "off_heat": [{"ingredient": "butter, unsalted", "grams": 30}]})j";
const std::string fruit = R"j({"sirop_batch": 1, "title": "Fruit syrup (invented)", "pan": [
    {"ingredient": "raspberry puree", "grams": 300}, {"ingredient": "white sugar", "grams": 300}],
    "cook": {"to_celsius": 104}})j";
const std::string sweets = R"j({"sirop_batch": 1, "title": "Sweets (invented)", "pan": [
    {"ingredient": "white sugar", "grams": 300}, {"ingredient": "glucose syrup 42 DE", "grams": 200},
    {"ingredient": "water", "grams": 100}], "cook": {"to_celsius": 140}})j";

lib::reply asked(const std::string& question, const std::string& batch) {
    const auto text = R"({"sirop_question": 1, )" + question + R"(, "batch": )" + batch + "}";
    auto reply = lib::answer_question(std::string_view(text));
    EXPECT_TRUE(reply) << reply.why.place << ": " << reply.why.reason;
    return reply ? *std::move(reply.value) : lib::reply{};
}
const json& at(const json& value, std::initializer_list<const char*> keys) {
    const json* found = &value;
    for (const char* key : keys) {
        found = found->find(key);
        if (found == nullptr) {
            ADD_FAILURE() << key << " is missing";
            return value;
        }
    }
    return *found;
}
core::batch read(const std::string& text) {
    return *lib::read_batch(text);
}
/// Grams in the pan when a batch is cooked to a reading.
double pan_grams(const std::string& text, double reading) {
    auto b = read(text);
    b.thermometer_celsius = reading;
    return core::predict(b, core::stage_tables[0])->cooked.grams.value;
}
const json::list& ways_of(const lib::reply& r) {
    return *at(r.answer, {"answer", "ways"}).as<json::list>();
}
std::string joined(const json& texts) {
    std::string out;
    for (const auto& one : *texts.as<json::list>()) out += *one.as<std::string>() + "\n";
    return out;
}

TEST(at_the_stove, a_temperature_comes_with_the_weight_of_the_pan) {
    for (const char* question : {R"("ask": "cook_for", "wanted": {"set_word": "mounding"})",
                                 R"("ask": "cook_for", "wanted": {"brix": 80})",
                                 R"("ask": "cook_for", "wanted": {"water_percent": 12, "within": 0.1})"}) {
        const auto r = asked(question, caramel);
        const auto number = [&](const char* key) { return at(r.answer, {"answer", key}).number(); };
        for (const auto& [grams, celsius] : {std::pair{"pan_grams", "thermometer_celsius"},
                                             std::pair{"pan_grams_low", "thermometer_celsius_high"},
                                             std::pair{"pan_grams_high", "thermometer_celsius_low"}})
            EXPECT_NEAR(number(grams), pan_grams(caramel, number(celsius)), 1e-6) << question;
        const double width = number("thermometer_celsius_high") - number("thermometer_celsius_low");
        EXPECT_EQ(*at(r.answer, {"answer", "window_narrower_than_thermometer"}).as<bool>(), width < 2.0) << width;
        EXPECT_EQ(r.report.find("stop by weight") != std::string::npos, width < 2.0) << r.report;
    }
    // a thermometer that is worse makes a wide window narrow
    auto worse = caramel;
    worse.insert(worse.find("\"altitude"), "\"thermometer_within_celsius\": 4, ");
    EXPECT_TRUE(*at(asked(R"("ask": "cook_for", "wanted": {"set_word": "mounding"})", worse).answer,
                    {"answer", "window_narrower_than_thermometer"})
                     .as<bool>());
    for (const char* question :
         {R"("ask": "scale", "yield": {"grams": 1000})", R"("ask": "travel", "to": {"altitude_metres": 1600})"})
        EXPECT_NE(asked(question, caramel).report.find("then weigh"), std::string::npos) << question;
    EXPECT_NEAR(
        at(asked(R"("ask": "travel", "to": {"altitude_metres": 1600})", caramel).answer, {"answer", "pan_grams"})
            .number(),
        pan_grams(caramel, 108.0), 1e-6);
}

TEST(at_the_stove, a_rescue_offers_what_suits) {
    const auto names = [](const std::string& batch, const char* now) {
        std::string out;
        const auto r =
            asked(std::string(R"("ask": "rescue", "wanted": {"water_percent": 22}, "now": )") + now, batch);
        for (const auto& way : ways_of(r)) out += *at(way, {"stir_in"}).as<std::string>() + ";";
        return out;
    };
    EXPECT_EQ(names(caramel, R"({"thermometer_celsius": 118})"), "water;whole milk;heavy cream 36 %;");
    EXPECT_EQ(names(fruit, R"({"thermometer_celsius": 115})"), "water;");
    EXPECT_EQ(names(sweets, R"({"thermometer_celsius": 118})"), "water;");
    auto sour = caramel;  // acid by its composition
    sour.insert(sour.find("{\"ingredient\": \"heavy"),
                R"({"ingredient": "sour powder", "grams": 3, "per_100_g": {"acid": 100}}, )");
    EXPECT_EQ(names(sour, R"({"thermometer_celsius": 118})"), "water;");
}

TEST(at_the_stove, a_rescue_names_what_comes_with_the_liquid) {
    const char* question =
        R"("ask": "rescue", "wanted": {"water_percent": 30}, "now": {"thermometer_celsius": 112}, "with": ["whole milk"])";
    const auto r = asked(question, fruit);
    EXPECT_EQ(joined(at(ways_of(r).front(), {"allergens"})), "milk\n");
    const auto cautions = joined(at(r.answer, {"cautions"}));
    EXPECT_NE(cautions.find("whole milk brings milk"), std::string::npos) << cautions;
    EXPECT_NE(cautions.find("may curdle"), std::string::npos) << cautions;
    const auto own = joined(at(asked(R"("ask": "rescue", "wanted": {"water_percent": 22},
                                        "now": {"thermometer_celsius": 118})",
                                     caramel)
                                   .answer,
                               {"cautions"}));
    EXPECT_EQ(own.find("Allergen"), std::string::npos) << "it holds milk anyway: " << own;
    EXPECT_EQ(own.find("curdle"), std::string::npos);
}

TEST(at_the_stove, a_rescue_says_what_to_check) {
    // With the water back in, it is the batch that was cooked less: same weight at the same temperature.
    const auto r =
        asked(R"("ask": "rescue", "wanted": {"water_percent": 18}, "now": {"thermometer_celsius": 119})", caramel);
    const auto& water = ways_of(r).front();
    const double reading = at(water, {"check_thermometer_celsius"}).number();
    EXPECT_NEAR(at(water, {"check_grams"}).number(), pan_grams(caramel, reading), 0.01);
    EXPECT_NEAR(at(water, {"check_grams"}).number() - at(r.answer, {"answer", "grams_now"}).number(),
                at(water, {"grams"}).number(), 1e-6);
    // Boiling on ends where the batch cooked to that reading does.
    const auto on =
        asked(R"("ask": "rescue", "wanted": {"water_percent": 12}, "now": {"thermometer_celsius": 106})", caramel);
    const auto& boil = ways_of(on).front();
    const double to = at(boil, {"boil_to_thermometer_celsius"}).number();
    EXPECT_EQ(at(boil, {"check_thermometer_celsius"}).number(), to);
    EXPECT_NEAR(at(boil, {"check_grams"}).number(), pan_grams(caramel, to), 0.01);
    // The additions in, nothing boils again: only the weight is there to be checked.
    const auto in = asked(R"("ask": "rescue", "wanted": {"water_percent": 22},
                             "now": {"thermometer_celsius": 116, "additions_in": true})",
                          caramel);
    EXPECT_EQ(ways_of(in).front().find("check_thermometer_celsius"), nullptr);
    EXPECT_NEAR(at(ways_of(in).front(), {"check_grams"}).number(),
                at(ways_of(in).front(), {"finished_grams"}).number(), 1e-9);
}

TEST(at_the_stove, cautions_stand_before_the_answer) {
    const auto rescue =
        asked(R"("ask": "rescue", "wanted": {"water_percent": 22}, "now": {"thermometer_celsius": 118})", caramel);
    const auto first = [&](const char* text) { return rescue.report.find(text); };
    EXPECT_EQ(joined(at(rescue.answer, {"cautions"})).rfind(std::string(core::steam_caution), 0), 0u);
    EXPECT_LT(first("bursts into steam"), first("let it stop boiling"));
    EXPECT_LT(first("let it stop boiling"), first("stir in "));
    for (const char* question :
         {R"("ask": "cook_for", "wanted": {"brix": 80})", R"("ask": "scale", "yield": {"grams": 1000})",
          R"("ask": "travel", "to": {"altitude_metres": 1600})", R"("ask": "sensitivity")",
          R"("ask": "substitute", "replace": "pan[1]", "by": ["honey"])",
          R"("ask": "formulate", "free": ["white sugar"], "yield": {"grams": 500})",
          R"("ask": "rescue", "wanted": {"water_percent": 12}, "now": {"thermometer_celsius": 106})"}) {
        const auto r = asked(question, caramel);
        EXPECT_NE(joined(at(r.answer, {"cautions"})).find(core::first_aid), std::string::npos) << question;
        EXPECT_LT(r.report.find("medical"), r.report.find("ANSWER")) << r.report;
    }
    std::string report(20000, '\0');
    std::size_t needed = 0;
    ASSERT_GE(sirop_predict_report(caramel.data(), caramel.size(), nullptr, report.data(), report.size(), &needed),
              0);
    EXPECT_LT(report.find("medical"), report.find("COOK TO"));
}

}  // namespace
