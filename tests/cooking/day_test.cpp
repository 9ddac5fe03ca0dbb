// A cook's day (invented): a sauce is planned, cooked wrong, rescued, taken to 1600 m, and planned again with
// honey. Every step asks through the same door as the programs do, and the numbers of one step are those of the
// next.
#include "c/c_calls.hpp"

namespace {

using json = nlohmann::json;
using sirop_test::text_of;

json answered(const sirop_test::written& w) {
    EXPECT_GE(w.status, 0) << w.text;
    return json::parse(w.text);
}
json ask(json question, const json& batch) {
    question["sirop_question"] = 1;
    question["batch"] = batch;
    const std::string text = question.dump();
    return answered(text_of(sirop_ask_json, text.data(), text.size()));
}
json predict(const json& batch) {
    const std::string text = batch.dump();
    return answered(text_of(sirop_predict_json, text.data(), text.size(), nullptr));
}
double number(const json& answer, const char* place) {
    return answer.at(json::json_pointer(place)).get<double>();
}

TEST(a_cooks_day, holds_together) {
    json sauce = {{"sirop_batch", 1},
                  {"title", "Fennel caramel for baked apricots (invented)"},
                  {"pan",
                   {{{"ingredient", "white sugar"}, {"grams", 200}},
                    {{"ingredient", "glucose syrup 42 DE"}, {"grams", 260}},
                    {{"ingredient", "heavy cream 36 %"}, {"grams", 280}}}},
                  {"cook", {{"to_celsius", 110}, {"altitude_metres", 120}}},
                  {"off_heat", {{{"ingredient", "butter, unsalted"}, {"grams", 30}}}},
                  {"serve", {{"celsius", 8}}},
                  {"pour", {{"celsius", 30}}}};

    // Morning: it shall be mounding at 8 C.
    const json plan = ask({{"ask", "cook_for"}, {"wanted", {{"set_word", "mounding"}, {"celsius", 8}}}}, sauce);
    const double target = plan["answer"]["thermometer_celsius"];
    sauce["cook"]["to_celsius"] = target;
    const json planned = predict(sauce);
    EXPECT_EQ(planned["set"]["word"], "mounding");
    EXPECT_EQ(planned, plan["prediction"]);  // the same numbers from program to program
    EXPECT_NEAR(number(planned, "/finished/grams"), number(plan, "/answer/finished_grams"), 1e-6);
    EXPECT_EQ(planned["graining"]["in_storage"]["risk"], "low");
    EXPECT_TRUE(planned["graining"]["ways_to_clear"].empty());

    // Noon: the telephone rang; it went 7 degrees too far.
    json overdone = sauce;
    overdone["cook"]["to_celsius"] = target + 7.0;
    const json stiff = predict(overdone);
    EXPECT_GT(number(stiff, "/set/firmness_pa_s"), 5.0 * number(planned, "/set/firmness_pa_s"));
    const double wanted_water = planned["finished"]["water_percent"];
    const json rescue = ask({{"ask", "rescue"},
                             {"wanted", {{"water_percent", wanted_water}}},
                             {"now", {{"thermometer_celsius", target + 7.0}}},
                             {"with", {"water", "whole milk"}}},
                            sauce);
    EXPECT_NEAR(number(rescue, "/answer/grams_now"), number(stiff, "/cooked/grams"), 1e-6);
    const json& water = rescue["answer"]["ways"][0];
    EXPECT_EQ(water["stir_in"], "water");
    EXPECT_NEAR(number(water, "/finished_water_percent"), wanted_water, 0.1);
    // with the water back in it is the planned sauce again, to the gram
    EXPECT_NEAR(number(water, "/finished_grams"), number(planned, "/finished/grams"), 0.01);
    EXPECT_NEAR(number(water, "/grams"), number(planned, "/cooked/grams") - number(stiff, "/cooked/grams"), 0.01);
    EXPECT_GT(number(rescue, "/answer/ways/1/grams"), number(water, "/grams"));  // milk is not all water

    // Afternoon: the same sauce in a kitchen at 1600 m, with a thermometer that reads 1.2 too high.
    json to = {{"altitude_metres", 1600}};
    const double boils =
        ask({{"ask", "travel"}, {"to", to}}, sauce)["answer"]["water_boils_celsius"].get<double>();
    to["thermometer_reads_in_boiling_water_celsius"] = boils + 1.2;
    const json travel = ask({{"ask", "travel"}, {"to", to}}, sauce);
    json there = sauce;
    there["cook"] = to;
    there["cook"]["to_celsius"] = travel["answer"]["thermometer_celsius"];
    const json cooked_there = predict(there);
    EXPECT_NEAR(number(cooked_there, "/cooked/water_percent"), number(planned, "/cooked/water_percent"), 1e-6);
    EXPECT_EQ(cooked_there["set"]["word"], planned["set"]["word"]);
    EXPECT_NEAR(number(travel, "/answer/thermometer_celsius") - number(travel, "/answer/real_celsius"), 1.2, 1e-9);
    EXPECT_LT(number(travel, "/answer/real_celsius"), target - 4.0);  // water boils 5 K lower there

    // Up there is no glucose syrup, but honey.
    const json swap = ask({{"ask", "substitute"},
                           {"replace", "glucose syrup 42 DE"},
                           {"by", {"honey", "maltodextrin 10 DE"}},
                           {"may_change", {"white sugar"}}},
                          there);
    json with_honey = there;
    with_honey["pan"] = swap["answer"]["pan"];
    with_honey["cook"]["to_celsius"] = swap["answer"]["thermometer_celsius"];
    const json honeyed = predict(with_honey);
    EXPECT_EQ(honeyed["set"]["word"], "mounding");
    EXPECT_NEAR(number(honeyed, "/set/firmness_pa_s") / number(cooked_there, "/set/firmness_pa_s"), 1.0, 1e-3);
    EXPECT_EQ(honeyed["finished"]["grams"], swap["prediction"]["finished"]["grams"]);
    EXPECT_NE(honeyed["graining"]["in_storage"]["risk"], "high");

    // Evening: for twelve portions of 55 g.
    const json scaled =
        ask({{"ask", "scale"}, {"yield", {{"portions", 12}, {"grams_per_portion", 55}, {"loss_grams", 9}}}},
            with_honey);
    EXPECT_NEAR(number(scaled, "/prediction/finished/grams"), 12 * 55 + 9, 1e-6);
    EXPECT_NEAR(number(scaled, "/prediction/finished/water_percent"), number(honeyed, "/finished/water_percent"),
                1e-9);
}

TEST(a_cooks_day, every_question_answers_as_a_page_with_its_cautions) {
    const json batch = {{"sirop_batch", 1},
                        {"title", "Sour cherry caramel (invented)"},
                        {"pan",
                         {{{"ingredient", "white sugar"}, {"grams", 200}},
                          {{"ingredient", "glucose syrup 42 DE"}, {"grams", 180}},
                          {{"ingredient", "heavy cream 36 %"}, {"grams", 250}}}},
                        {"cook", {{"to_celsius", 110}}}};
    json log = {{"batch", batch}, {"grams", 500}};
    json logs = json::array();
    for (const double grams : {492.0, 489.5, 491.2}) {
        log["grams"] = grams;
        logs.push_back(log);
        log["batch"]["cook"]["to_celsius"] = log["batch"]["cook"]["to_celsius"].get<double>() + 2.0;
    }
    const std::vector<json> questions = {
        {{"ask", "cook_for"}, {"wanted", {{"brix", 80}}}},
        {{"ask", "rescue"}, {"wanted", {{"set_word", "ribbon"}}}, {"now", {{"thermometer_celsius", 116}}}},
        {{"ask", "substitute"}, {"replace", "pan[1]"}, {"by", {"glucose syrup 28 DE"}}},
        {{"ask", "formulate"},
         {"free", {"white sugar", "heavy cream 36 %"}},
         {"wanted", {{{"set_word", "ribbon"}, {"celsius", 20}}}}},
        {{"ask", "scale"}, {"yield", {{"millilitres", 500}}}},
        {{"ask", "travel"}, {"to", {{"pressure_hpa", 850}}}},
        {{"ask", "sensitivity"}, {"samples", 200}},
    };
    for (auto q : questions) {
        q["sirop_question"] = 1;
        q["batch"] = batch;
        const std::string text = q.dump();
        const auto [status, page] = text_of(sirop_ask_report, text.data(), text.size());
        ASSERT_GE(status, 0) << q["ask"] << ": " << page;
        for (const char* part : {"QUESTION", "ANSWER", "because", "WHAT TO WATCH", "Hot sugar"})
            EXPECT_NE(page.find(part), std::string::npos) << q["ask"] << " lacks " << part;
        const json answer = ask(q, batch);
        EXPECT_EQ(answer["ask"], q["ask"]);
        EXPECT_FALSE(answer["answer"]["reason"].get<std::string>().empty());
        EXPECT_FALSE(answer["cautions"].empty());
    }
}

TEST(questions, bad_ones_are_refused_in_one_line_with_their_place) {
    const json batch = {
        {"sirop_batch", 1},
        {"pan", {{{"ingredient", "white sugar"}, {"grams", 200}}, {{"ingredient", "water"}, {"grams", 90}}}},
        {"cook", {{"to_celsius", 112}}}};
    const auto refused = [&](json q, const char* place) {
        if (!q.contains("sirop_question")) q["sirop_question"] = 1;
        if (!q.contains("batch")) q["batch"] = batch;
        const std::string text = q.dump();
        const auto [status, why] = text_of(sirop_ask_json, text.data(), text.size());
        EXPECT_EQ(status, SIROP_E_BATCH) << text;
        EXPECT_EQ(why.rfind(std::string(place) + ": ", 0), 0U) << why;
        EXPECT_EQ(why.find('\n'), std::string::npos) << why;
    };
    refused({}, "ask");
    refused({{"ask", 7}}, "ask");
    refused({{"ask", "guess"}}, "ask");
    refused({{"ask", "cook_for"}}, "wanted");
    refused({{"ask", "cook_for"}, {"wanted", json::object()}}, "wanted");
    refused({{"ask", "cook_for"}, {"wanted", {{"brix", 70}, {"water_percent", 3}}}}, "wanted");
    refused({{"ask", "cook_for"}, {"wanted", {{"brix", "much"}}}}, "wanted.brix");
    refused({{"ask", "cook_for"}, {"wanted", {{"brix", 99}}}}, "wanted.brix");
    refused({{"ask", "cook_for"}, {"wanted", {{"brix", 80}, {"celsius", 500}}}}, "wanted.celsius");
    refused({{"ask", "cook_for"}, {"wanted", {{"brix", 80}, {"within", -1}}}}, "wanted.within");
    refused({{"ask", "cook_for"}, {"wanted", {{"stage", "soft ball"}, {"table", "mars"}}}}, "wanted.table");
    refused({{"ask", "cook_for"}, {"wanted", {{"brix", 80}}}, {"colour", 1}}, "colour");
    refused({{"ask", "cook_for"}, {"wanted", {{"brix", 80}}}, {"sirop_question", 2}}, "sirop_question");
    refused({{"ask", "cook_for"}, {"wanted", {{"brix", 80}}}, {"batch", 3}}, "batch");
    refused({{"ask", "cook_for"}, {"wanted", {{"set_word", "ribbon"}, {"celsius", 20}, {"fahrenheit", 68}}}},
            "wanted.fahrenheit");
    refused({{"ask", "rescue"},
             {"wanted", {{"brix", 80}}},
             {"now", {{"thermometer_celsius", 112}, {"thermometer_fahrenheit", 233}}}},
            "now.thermometer_fahrenheit");
    refused({{"ask", "travel"}, {"to", json::object()}}, "to");
    refused({{"ask", "rescue"}, {"wanted", {{"brix", 80}}}, {"now", json::object()}}, "now");
    refused({{"ask", "rescue"}, {"wanted", {{"brix", 80}}}, {"now", {{"grams_left", 10}}}}, "now.grams_left");
    refused({{"ask", "rescue"}, {"wanted", {{"brix", 80}}}, {"now", {{"brix", 82}}}, {"with", "water"}}, "with");
    refused({{"ask", "substitute"}, {"replace", "salt"}, {"by", {"honey"}}}, "replace");
    refused({{"ask", "substitute"}, {"replace", "white sugar"}, {"by", {"gravel"}}}, "by[0].ingredient");
    refused({{"ask", "formulate"}, {"free", {"honey"}}}, "free[0]");
    refused({{"ask", "scale"}, {"yield", {{"grams", -4}}}}, "yield");
    refused({{"ask", "scale"}, {"yield", {{"portions", 4}}}}, "yield.portions");
    refused({{"ask", "travel"}, {"to", {{"altitude_metres", 99999}}}}, "to.altitude_metres");
    refused({{"ask", "sensitivity"}, {"samples", 1e9}}, "samples");
    refused({{"ask", "learn_kitchen"}, {"logs", 3}}, "logs");
    refused({{"ask", "learn_kitchen"}, {"logs", {{{"batch", {{"sirop_batch", 1}}}}}}}, "logs[0].batch.pan");
}

}  // namespace
