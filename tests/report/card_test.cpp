// The card: cautions first, short, readable at any width, true to the prediction, and no line to laugh at.
#include "report/card.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "batches.hpp"
#include "report/page.hpp"
#include "sirop/sirop.h"

namespace {

using namespace sirop;
using core::batch;
using sirop_test::line;

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string one; std::getline(in, one);) lines.push_back(one);
    return lines;
}

core::prediction predicted(const batch& b) {
    const auto p = core::predict_with_advice(b, core::stage_tables[0]);
    EXPECT_TRUE(p) << p.why.place << ": " << p.why.reason;
    return p ? *p : core::prediction{};
}

/// The words of a text, however its lines are broken.
std::string flat(const std::string& text) {
    std::istringstream in(text);
    std::string out;
    for (std::string word; in >> word;) out += word + ' ';
    return out;
}

std::string line_labelled(const lib::card& c, std::string_view label) {
    for (const auto& l : c.lines)
        if (l.label == label) return l.text;
    return {};
}

/// Eight ingredients, additions that burst, a thermometer that is off: whatever lengthens a card.  Invented.
batch long_batch() {
    batch b;
    b.title = "Chewy toffee with eight ingredients (invented)";
    b.pan = {line("white sugar", 230.0),
             line("glucose syrup 42 DE", 320.0),
             line("heavy cream 36 %", 400.0),
             line("whole milk", 150.0),
             line("salt", 4.25),
             line("honey", 62.5)};
    b.off_heat = {line("butter, unsalted", 60.0), line("raspberry puree", 30.0)};
    b.thermometer_celsius = 117.6;
    b.thermometer_error_kelvin = -0.6;
    b.pressure_pa = 95000.0;
    return b;
}

TEST(card, of_eight_ingredients_has_25_lines_at_most) {
    const auto b = long_batch();
    for (const double celsius : {106.0, 112.0, 117.6, 125.0, 138.0}) {
        auto at = b;
        at.thermometer_celsius = celsius;
        auto card = lib::card_of(at, predicted(at));
        card.cautions.resize(2);  // what the heat and an ingredient need a word about comes on top
        const auto text = lib::card_text(card, 72);
        EXPECT_LE(lines_of(text).size(), 25u) << text;
    }
}

TEST(card, wraps_at_its_width_and_loses_no_word) {
    auto b = long_batch();
    b.title = "Pâte à tartiner à la crème fraîche, Beurre-noisette-und-Zuckerrübensirup-Karamell (invented)";
    const auto card = lib::card_of(b, predicted(b));
    const auto whole = flat(lib::card_text(card, 200));
    for (const std::size_t width : {24u, 32u, 40u, 56u, 72u, 80u, 200u}) {
        const auto text = lib::card_text(card, width);
        for (const auto& one : lines_of(text)) {
            EXPECT_LE(lib::width_of(one), width) << one;
            EXPECT_FALSE(one.ends_with(' ')) << one;
        }
        for (const auto& l : card.lines)
            EXPECT_TRUE(width < 32 || flat(text).find(flat(l.text)) != std::string::npos) << l.text << text;
    }
}

TEST(card, says_the_caution_before_anything_to_do) {
    const auto b = long_batch();
    const auto card = lib::card_of(b, predicted(b));
    ASSERT_GE(card.cautions.size(), 2u);
    // and what the heat does, and the ingredients need: as the prediction has them
    const auto p = predicted(b);
    auto more = core::heat_cautions(p.cooked.contents, p.cooked.celsius);
    for (auto& one : core::ingredient_cautions(b, p.finished.contents)) more.push_back(one);
    EXPECT_FALSE(more.empty());
    for (const auto& one : more) EXPECT_EQ(std::count(card.cautions.begin(), card.cautions.end(), one), 1) << one;
    EXPECT_NE(card.cautions[0].find(core::first_aid), std::string::npos);
    EXPECT_NE(card.cautions[1].find("Steam"), std::string::npos);
    for (const std::size_t width : {32u, 72u}) {
        const auto text = lib::card_text(card, width);
        const auto lines = lines_of(text);
        EXPECT_EQ(lines[width < 50 ? 2 : 1].rfind("Hot sugar", 0), 0u) << text;  // beneath the title
        EXPECT_LT(text.find("bursts"), text.find("230 g white sugar"));
        EXPECT_LT(text.find("medical help"), text.find("230 g white sugar"));
    }
    EXPECT_LE(lines_of(lib::card_text(card, 72))[2].size(), 72u);
    EXPECT_NE(lines_of(lib::card_text(card, 72))[2].find("medical help."), std::string::npos)
        << "not in two lines";
    auto dry = b;
    dry.off_heat.clear();
    for (const auto& one : lib::card_of(dry, predicted(dry)).cautions)
        EXPECT_EQ(one.find("Steam bursts"), std::string::npos);
}

/// What the card says is what the prediction says, at the target and one degree beside it.
TEST(card, is_true_to_the_prediction) {
    auto random = sirop_test::random_numbers(20);
    int coarse_ones = 0, pouring = 0;
    for (int i = 0; i < 24; ++i) {
        auto b = sirop_test::random_batch(random);
        const double boils = core::best_boiling_celsius(core::in_the_pan(b.pan), b.pressure_pa);
        b.thermometer_celsius = boils + b.thermometer_error_kelvin + random.between(1.5, 25.0);
        const auto p = core::predict_with_advice(b, core::stage_tables[0]);
        if (!p) continue;
        const auto card = lib::card_of(b, *p);
        EXPECT_EQ(card.amounts.size(), b.pan.size() + b.off_heat.size());
        const auto weigh = line_labelled(card, "then weigh");
        EXPECT_EQ(weigh.rfind(core::fixed(p->cooked.grams.value, 0) + " g", 0), 0u) << weigh;
        std::string words[2];
        for (int side = 0; side < 2; ++side) {
            auto beside = b;
            beside.thermometer_celsius += side == 0 ? -1.0 : 1.0;
            const auto then = core::predict(beside, core::stage_tables[0]);
            words[side] = then ? then->set.word : p->set.word;
            EXPECT_NE(line_labelled(card, "1 °C off").find(words[side]), std::string::npos) << words[side];
        }
        const bool coarse = words[0] != p->set.word || words[1] != p->set.word;
        coarse_ones += coarse;
        EXPECT_EQ(weigh.find("stop by weight") != std::string::npos, coarse) << weigh;

        const auto all = lib::card_text(card, 72);
        EXPECT_EQ(all.find("years"), std::string::npos) << all;
        EXPECT_EQ(all.find("infinity"), std::string::npos) << all;
        EXPECT_EQ(all.find("not a number"), std::string::npos) << all;
        const auto pours = line_labelled(card, "pours, cuts");
        if (pours.rfind("pours from ", 0) == 0) {
            ++pouring;
            const double from = std::stod(pours.substr(11));
            EXPECT_GT(from, b.serve_celsius) << pours;
            EXPECT_LT(from, p->finished.mixed_celsius) << pours;
        }
    }
    EXPECT_GT(coarse_ones, 2);
    EXPECT_GT(pouring, 2);
}

TEST(card, says_by_how_much_a_thermometer_is_off) {
    auto b = long_batch();
    EXPECT_NE(line_labelled(lib::card_of(b, predicted(b)), "true").find("0.6 °C too low"), std::string::npos);
    b.thermometer_error_kelvin = 0.0;
    b.thermometer_within_kelvin = 1.5;
    const auto card = lib::card_of(b, predicted(b));
    EXPECT_EQ(line_labelled(card, "true"), "");
    EXPECT_NE(line_labelled(card, "1.5 °C off"), "");
    EXPECT_EQ(card.stop.text, "117.6 °C = 243.7 °F");
}

TEST(card, writes_amounts_as_a_recipe_does) {
    EXPECT_EQ(lib::amount_text(230.0), "230 g");
    EXPECT_EQ(lib::amount_text(62.5), "62.5 g");
    EXPECT_EQ(lib::amount_text(113.636), "113.6 g");
    EXPECT_EQ(lib::amount_text(4.25), "4.25 g");
    EXPECT_EQ(lib::amount_text(0.0), "0 g");
    EXPECT_EQ(lib::amount_text(1000.0), "1000 g");
}

TEST(card, comes_from_c_and_refuses_other_widths) {
    const std::string text =
        R"({"sirop_batch": 1, "pan": [{"ingredient": "honey", "grams": 90}], "cook": {"to_celsius": 118}})";
    std::string out(8000, '\0');
    std::size_t needed = 7;
    const auto call = [&](std::int32_t columns) {
        return sirop_predict_card(text.data(), text.size(), nullptr, columns, out.data(), out.size(), &needed);
    };
    ASSERT_GE(call(32), SIROP_OK) << out.c_str();
    EXPECT_EQ(out.substr(0, 6), "Batch\n");
    EXPECT_EQ(needed, std::string(out.c_str()).size() + 1);
    for (const std::int32_t columns : {-1, 0, 23, 201, 2147483647}) {
        EXPECT_EQ(call(columns), SIROP_E_RANGE) << columns;
        EXPECT_EQ(needed, 0u);
    }
    EXPECT_EQ(sirop_predict_card(nullptr, 0, nullptr, 72, out.data(), out.size(), &needed), SIROP_E_NULL);
    EXPECT_EQ(sirop_predict_card(text.data(), text.size(), "none", 72, out.data(), out.size(), &needed),
              SIROP_E_NAME);
}

}  // namespace
