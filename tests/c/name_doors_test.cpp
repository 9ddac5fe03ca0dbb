// A name, a title or any text with control characters or marks of direction is refused at every door of the C API:
// batch files, questions as text, and handles.
#include <string>
#include <vector>

#include "c_calls.hpp"
#include "json/batch_file.hpp"
#include "unfit_characters.hpp"

namespace {

using namespace sirop_test;

// Invented.
json sauce() {
    return json::parse(R"({"sirop_batch": 1, "title": "Sauce",
        "pan": [{"ingredient": "white sugar", "grams": 100}, {"ingredient": "heavy cream 36 %", "grams": 120}],
        "off_heat": [{"ingredient": "butter, unsalted", "grams": 10}], "cook": {"to_celsius": 108},
        "neighbours": [{"ingredient": "sponge cake", "grams": 50}]})");
}

written report(const std::string& text) {
    return text_of(sirop_predict_report, text.data(), text.size(), nullptr);
}
written ask(const std::string& text) {
    return text_of(sirop_ask_report, text.data(), text.size());
}

void expect_refused(const written& r, const std::string& place, char32_t c) {
    ASSERT_EQ(r.status, SIROP_E_BATCH) << place << ' ' << test::code_point_name(c) << ": " << r.text;
    EXPECT_EQ(r.text.rfind(place + ": ", 0), 0U) << r.text;
    EXPECT_NE(r.text.find(" holds " + test::code_point_name(c) + ", "), std::string::npos) << r.text;
    test::expect_clean(r.text);
}

TEST(name_doors, BatchFile) {
    ASSERT_GE(report(sauce().dump()).status, SIROP_OK) << report(sauce().dump()).text;
    const json composition = {{"sucrose", 60}, {"water", 40}};
    for (const char32_t c : test::unfit_code_points())
        for (const bool escapes : {true, false}) {
            if (c == 0 && !escapes) continue;  // a NUL in the file itself is refused before
            const std::string bad = test::around("Sauce", c, "WHAT TO WATCH");
            const auto text_of = [&](const json& b) { return b.dump(-1, ' ', escapes); };
            auto b = sauce();
            b["title"] = bad;
            expect_refused(report(text_of(b)), "title", c);
            for (const std::string list : {"pan", "off_heat", "neighbours"}) {
                b = sauce();
                b[list].push_back({{"ingredient", bad}, {"grams", 5}, {"per_100_g", composition}});
                const auto place = list + "[" + std::to_string(b[list].size() - 1) + "].ingredient";
                expect_refused(report(text_of(b)), place, c);
                b[list].back().erase("per_100_g");
                expect_refused(report(text_of(b)), place, c);
            }
            b = sauce();
            b[bad] = 1;
            const auto key = report(text_of(b));
            EXPECT_EQ(key.status, SIROP_E_BATCH);
            test::expect_clean(key.text);
        }
    auto b = sauce();
    b["pan"][0]["ingredient"] = "white sugar\n";  // the pantry's, as outer blanks do not count
    expect_refused(report(b.dump()), "pan[0].ingredient", '\n');
}

TEST(name_doors, EveryTitle) {
    const auto& unfit = test::unfit_code_points();
    const std::string before = R"({"sirop_batch":1,"title":"a)",
                      after = R"(b","pan":[{"ingredient":"honey","grams":9}],"cook":{"to_celsius":110}})";
    for (char32_t c = 0; c <= 0xFFFF; ++c) {
        if (c == '"' || c == '\\') continue;
        char escape[16];
        std::snprintf(escape, sizeof escape, "\\u%04x", static_cast<unsigned>(c));
        const auto read = sirop::lib::read_batch(before + escape + after);
        const bool surrogate = c >= 0xD800 && c < 0xE000;
        ASSERT_EQ(static_cast<bool>(read), unfit.count(c) == 0 && !surrogate) << escape;
        if (!read) test::expect_clean(sirop::lib::one_line(read.why));
        ASSERT_EQ(read ? read->title : "", read ? test::around("a", c, "b") : "");
        if (c < 0x20) continue;  // a syntax error
        ASSERT_EQ(static_cast<bool>(sirop::lib::read_batch(test::around(before, c, after.c_str()))),
                  static_cast<bool>(read))
            << escape;
    }
}

TEST(name_doors, Questions) {
    for (const char32_t c : test::unfit_code_points()) {
        const std::string bad = test::around("hon", c, "ey");
        const json swap = {{"sirop_question", 1}, {"ask", "substitute"}, {"batch", sauce()}};
        const auto with = [&](json question, const json& more) {
            question.update(more);
            return ask(question.dump());
        };
        expect_refused(with(swap, {{"replace", bad}, {"by", {"honey"}}}), "replace", c);
        expect_refused(with(swap, {{"replace", "pan[0]"}, {"by", {bad}}}), "by[0]", c);
        expect_refused(with(swap, {{"replace", "pan[0]"}, {"by", {{{"ingredient", bad}}}}}), "by[0].ingredient",
                       c);
        expect_refused(with(swap, {{"replace", "pan[0]"}, {"by", {"honey"}}, {"may_change", {bad}}}),
                       "may_change[0]", c);
        const json cook = {{"sirop_question", 1}, {"ask", "cook_for"}, {"batch", sauce()}};
        expect_refused(with(cook, {{"wanted", {{"set_word", bad}}}}), "wanted.set_word", c);
        expect_refused(with(cook, {{"wanted", {{"stage", bad}}}}), "wanted.stage", c);
        expect_refused(with(cook, {{"wanted", {{"stage", "soft ball"}, {"table", bad}}}}), "wanted.table", c);
        expect_refused(with(cook, {{"ask", bad}}), "ask", c);
        const json free = {{"sirop_question", 1}, {"ask", "formulate"}, {"batch", sauce()}};
        expect_refused(with(free, {{"free", {bad}}}), "free[0]", c);
        expect_refused(with(free, {{"free", {"pan[0]"}}, {"graining_at_most", bad}}), "graining_at_most", c);
        const auto key = with(cook, {{bad, 1}});
        EXPECT_EQ(key.status, SIROP_E_BATCH);
        test::expect_clean(key.text);
    }
}

TEST(name_doors, Handles) {
    const batch b;
    const question q("cook_for");
    const std::vector<double> grams = {20.0, 60.0};
    const auto refused = [](int32_t status, const auto& handle, const std::string& argument) {
        EXPECT_EQ(status, SIROP_E_NAME);
        const std::string why = handle.refusal();
        EXPECT_EQ(why.rfind(argument + ": ", 0), 0U) << why;
        EXPECT_NE(why.find("names are plain text on one line"), std::string::npos) << why;
        test::expect_clean(why);
    };
    for (const char32_t c : test::unfit_code_points()) {
        if (c == 0) continue;  // ends the argument
        for (const auto& bad : {test::around("water", c, ""), test::around("wat", c, "er")}) {
            for (const int32_t where : {SIROP_PAN, SIROP_OFF_HEAT, SIROP_NEIGHBOURS}) {
                refused(sirop_batch_add(b.it, where, bad.c_str(), 5.0, 20.0), b, "ingredient");
                refused(sirop_batch_add_mixture(b.it, where, bad.c_str(), grams.data(), grams.size(), 20.0), b,
                        "name");
            }
            refused(sirop_question_set_text(q.it, "wanted.set_word", bad.c_str()), q, "text");
            EXPECT_EQ(sirop_batch_set(b.it, bad.c_str(), 1.0), SIROP_E_NAME);
            test::expect_clean(b.refusal());
            sirop_answer* answer = nullptr;
            EXPECT_EQ(sirop_batch_predict(b.it, bad.c_str(), &answer), SIROP_E_NAME);
            test::expect_clean(b.refusal());
            EXPECT_EQ(sirop_question_set_number(q.it, ("ask." + bad).c_str(), 1.0), SIROP_E_NAME);
            test::expect_clean(q.refusal());
        }
    }
    refused(sirop_batch_add(b.it, SIROP_PAN, "caf\xE9", 5.0, 20.0), b, "ingredient");
    sirop_answer* answer = nullptr;  // nothing of all that was kept
    EXPECT_EQ(sirop_batch_predict(b.it, nullptr, &answer), SIROP_E_BATCH);
    EXPECT_NE(b.refusal().find("pan"), std::string::npos) << b.refusal();
}

}  // namespace
