// Names are plain text on one line: the finder itself, and the C++ doors.
#include "sirop/base/plain_text.hpp"

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "sirop/questions.hpp"
#include "unfit_characters.hpp"

using namespace sirop;

namespace {

TEST(plain_text, EveryCodePoint) {
    const auto unfit = test::unfit_code_points();
    for (char32_t c = 0; c <= 0x10FFFF; ++c) {
        const bool surrogate = c >= 0xD800 && c < 0xE000;  // never UTF-8
        const auto text = test::around("a", c, "b");
        const auto fault = core::find_text_fault("here", text);
        ASSERT_EQ(fault.has_value(), surrogate || unfit.count(c) > 0) << std::hex << static_cast<unsigned>(c);
        if (!fault) {
            ASSERT_EQ(core::escaped(text), text);
            continue;
        }
        ASSERT_EQ(fault->place, "here");
        test::expect_clean(fault->reason);
        const auto named = fault->reason.find(" holds " + test::code_point_name(c) + ", ");
        ASSERT_EQ(named == std::string::npos, surrogate) << fault->reason;
    }
}

TEST(plain_text, WhatIsNotUtf8) {
    for (const char* text : {"\xFF", "a\x80", "\xC2", "\xC2 ", "\xC0\x8A", "\xE0\x80\x8A", "\xF0\x80\x80\x8A",
                             "\xED\xA0\x80", "\xE2\x80", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\x9B[31m"}) {
        const auto fault = core::find_text_fault("here", text);
        ASSERT_TRUE(fault.has_value()) << text;
        EXPECT_NE(fault->reason.find("is not UTF-8"), std::string::npos) << fault->reason;
        test::expect_clean(fault->reason);
    }
    EXPECT_FALSE(core::find_text_fault("here", ""));
    EXPECT_FALSE(core::find_text_fault("here", "Crème brûlée \"à la\" 糖 \U0001F36F, 36 % \\ \u200D"));
}

TEST(plain_text, IsCutBetweenCharacters) {
    EXPECT_EQ(core::escaped("ab\ncd"), "ab\\u000Acd");
    EXPECT_EQ(core::escaped("ab\xFF"), "ab\\xFF");
    EXPECT_EQ(core::escaped("éé", 4), "éé");
    EXPECT_EQ(core::escaped("éé", 3), "é...");
    EXPECT_EQ(core::escaped("a\n", 6), "a...");
}

batch sauce(const std::string& title = "Sauce (invented)") {
    return batch(title)
        .pan("white sugar", grams(100))
        .pan("heavy cream 36 %", grams(120))
        .off_heat("butter, unsalted", grams(10))
        .cook_to(celsius(108));
}

void expect_refused(const batch& b, const std::string& place) {
    const auto answer = predict(b);
    ASSERT_FALSE(answer) << place;
    EXPECT_EQ(answer.why.place, place);
    EXPECT_NE(answer.why.reason.find("; names are plain text on one line"), std::string::npos)
        << answer.why.reason;
    test::expect_clean(answer.why.reason);
    EXPECT_FALSE(cook_for(b, wanted::water(mass_fraction(0.15)))) << place;
}

TEST(plain_text, EveryNameOfABatch) {
    ASSERT_TRUE(predict(sauce()));
    const mixture syrup{{component::sucrose, grams(80)}, {component::water, grams(20)}};
    for (const char32_t c : test::unfit_code_points()) {
        const auto bad = test::around("Sauce", c, "WHAT TO WATCH");
        expect_refused(sauce(bad), "title");
        expect_refused(sauce().pan(bad, grams(5), syrup), "pan[2].ingredient");
        expect_refused(sauce().pan(bad, grams(5)), "batch");
        expect_refused(sauce().neighbour(bad, grams(5)), "batch");
    }
    // found in the pantry, as outer blanks do not count
    expect_refused(sauce().pan("water\n", grams(5)), "pan[2].ingredient");
    expect_refused(sauce().off_heat("water\n", grams(5)), "off_heat[1].ingredient");
    expect_refused(sauce().neighbour("honey\n", grams(5)), "neighbours[0].ingredient");
    auto noted = sauce().plan();
    noted.notes = {"a\nb"};
    EXPECT_EQ(core::predict(noted, core::stage_tables[0]).why.place, "notes");
    const auto table = predict(sauce(), "us\n2004");
    ASSERT_FALSE(table);
    test::expect_clean(table.why.reason);
}

TEST(plain_text, WhatIsWanted) {
    for (const char* name : {"ribbon\n", "rib\u202Ebon"}) {
        const auto answer = core::cook_for(sauce().plan(), core::wanted_word(name, 20.0));
        ASSERT_FALSE(answer);
        EXPECT_EQ(answer.why.place, "wanted.set_word");
        test::expect_clean(answer.why.reason);
    }
}

}  // namespace
