// The stage tables against their published rows, and the words for a temperature.
#include <gtest/gtest.h>
#include <sirop/data/stages.hpp>

#include <cmath>
#include <cstddef>
#include <iterator>
#include <limits>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>

#include "csv.hpp"

namespace {

using namespace sirop::core;
using sirop_test::read_csv;

const std::map<std::string, std::string> name_in_library = {
    {"MCGEE", "us 2004"},       {"us_household", "us household"}, {"LOWE1937", "us 1937"},
    {"FARMER1918", "us 1918"},  {"CANDYCOOK1917", "us 1917"},     {"BILHEUX", "fr pastry"},
    {"LAROUSSE", "fr classic"}, {"fr_household", "fr home"}};

const stage_table& table_of(std::string_view name) {
    const stage_table* table = find_stage_table(name);
    if (table == nullptr) throw std::runtime_error("no stage table " + std::string(name));
    return *table;
}

/// The data file writes the French names without accents.
std::string without_accents(std::string_view name) {
    std::string plain;
    for (std::size_t at; (at = name.find("é")) != std::string_view::npos; name.remove_prefix(at + 2))
        plain.append(name.substr(0, at)).append(1, 'e');
    return plain.append(name);
}

TEST(StageTables, HoldEveryPublishedRowInOrder) {
    std::map<std::string, std::size_t> rows_seen;
    for (const auto& row : read_csv("stage_tables.csv").rows) {
        const stage_table& table = table_of(name_in_library.at(row.text("table")));
        const std::size_t at = rows_seen[row.text("table")]++;
        ASSERT_LT(at, table.rows.size()) << row.place();
        const stage_row& stage = table.rows[at];
        EXPECT_EQ(without_accents(stage.name), row.text("stage")) << row.place();
        EXPECT_EQ(stage.low_celsius, row.number("T_lo_C")) << row.place();
        EXPECT_EQ(stage.high_celsius, row.number("T_hi_C")) << row.place();
        EXPECT_EQ(stage.basis, row.text("basis")) << row.place();
    }
    EXPECT_EQ(rows_seen.size(), published_stage_tables.size());
    for (const auto& [table, rows] : rows_seen)
        EXPECT_EQ(rows, table_of(name_in_library.at(table)).rows.size()) << table;
}

TEST(StageTables, MidpointOfEveryRowAnswersItsName) {
    for (const auto& row : read_csv("stage_tables.csv").rows) {
        const stage_table& table = table_of(name_in_library.at(row.text("table")));
        const double middle = (row.number("T_lo_C") + row.number("T_hi_C")) / 2;
        EXPECT_EQ(without_accents(stage_name(table, middle)), row.text("stage")) << row.place();
    }
}

TEST(StageTables, EveryGapIsNamedAsAGap) {
    int gaps = 0;
    for (const auto& table : published_stage_tables)
        for (std::size_t i = 1; i < table.rows.size(); ++i) {
            const stage_row& a = table.rows[i - 1];
            const stage_row& b = table.rows[i];
            // What single points stand for is no gap: 0.6 C above and below each.
            const double from = a.high_celsius + (a.low_celsius == a.high_celsius ? 0.6 : 0);
            const double to = b.low_celsius - (b.low_celsius == b.high_celsius ? 0.6 : 0);
            if (to - from < 0.01) continue;
            ++gaps;
            const std::string expected = "between " + std::string(a.name) + " and " + std::string(b.name);
            EXPECT_EQ(stage_name(table, (from + to) / 2), expected) << table.name;
        }
    EXPECT_EQ(gaps, 58);
}

TEST(StageTables, TheDefaultTableWordByWord) {
    const stage_table& table = stage_tables.front();
    EXPECT_EQ(table.name, "us 2004");
    EXPECT_EQ(stage_name(table, 101.99), "below thread");
    EXPECT_EQ(stage_name(table, -20), "below thread");
    EXPECT_EQ(stage_name(table, 102), "thread");
    EXPECT_EQ(stage_name(table, 112.99), "thread");
    EXPECT_EQ(stage_name(table, 113), "soft ball");  // ranges touch: the upper one has begun
    EXPECT_EQ(stage_name(table, 116), "soft ball");
    EXPECT_EQ(stage_name(table, std::nextafter(116.0, 117.0)), "between soft ball and firm ball");
    EXPECT_EQ(stage_name(table, 117), "between soft ball and firm ball");
    EXPECT_EQ(stage_name(table, std::nextafter(118.0, 117.0)), "between soft ball and firm ball");
    EXPECT_EQ(stage_name(table, 118), "firm ball");
    EXPECT_EQ(stage_name(table, 121), "hard ball");
    EXPECT_EQ(stage_name(table, 131), "between hard ball and soft crack");
    EXPECT_EQ(stage_name(table, 145), "between soft crack and hard crack");
    EXPECT_EQ(stage_name(table, 170.59), "light caramel");  // a point reaches 0.6 C either way
    EXPECT_EQ(stage_name(table, 169.41), "light caramel");
    EXPECT_EQ(stage_name(table, 170.61), "between light caramel and medium caramel / spun sugar");
    EXPECT_EQ(stage_name(table, 169.39), "between hard candy toffee and light caramel");
    EXPECT_EQ(stage_name(table, 169), "between hard candy toffee and light caramel");
    EXPECT_EQ(stage_name(table, 171), "between light caramel and medium caramel / spun sugar");
    EXPECT_EQ(stage_name(table, 205.5), "black caramel");
    EXPECT_EQ(stage_name(table, 206), "above black caramel");
}

// McGee prints 240 F; 250 F is 121.1 C, and the stage before it ends there.
TEST(StageTables, TheMisprintedHardBallIsCorrected) {
    const stage_row& hard_ball = table_of("us 2004").rows[3];
    ASSERT_EQ(hard_ball.name, "hard ball");
    EXPECT_NEAR(hard_ball.low_celsius, (250 - 32) / 1.8, 0.5);
    EXPECT_EQ(stage_name(table_of("us 2004"), 115.6), "soft ball");  // 240 F
}

TEST(StageTables, GapsOfTheOthers) {
    EXPECT_EQ(stage_name(table_of("us household"), 116.5), "between soft ball and firm ball");
    EXPECT_EQ(stage_name(table_of("us household"), 120.5), "between firm ball and hard ball");
    EXPECT_EQ(stage_name(table_of("us 1918"), 117), "between soft ball and hard ball");
    EXPECT_EQ(stage_name(table_of("fr pastry"), 140), "between petit cassé and caramel clair");
    EXPECT_EQ(stage_name(table_of("fr home"), 119), "below boulé");
    EXPECT_EQ(stage_name(table_of("fr home"), 191), "above caramel foncé");
}

TEST(StageTables, OfTwoNearPointsTheNearestWins) {
    const stage_table& pastry = table_of("fr pastry");  // grand filet 105, petit perlé ou lissé 106
    EXPECT_EQ(stage_name(pastry, 105.45), "grand filet");
    EXPECT_EQ(stage_name(pastry, 105.5), "petit perlé ou lissé");
    EXPECT_EQ(stage_name(pastry, 105.55), "petit perlé ou lissé");
}

TEST(StageTables, GoingUpNeverGoesBackAStage) {
    for (const auto& table : stage_tables) {
        std::ptrdiff_t last = -1;
        int named = 0;
        for (int i = 9000; i <= 21000; ++i) {
            const stage_row* row = find_stage(table, i / 100.0);
            if (row == nullptr) continue;
            ++named;
            const std::ptrdiff_t at = row - table.rows.data();
            EXPECT_GE(at, last) << table.name << " at " << i / 100.0;
            EXPECT_LE(at, last + 1) << table.name << " at " << i / 100.0;
            last = at;
        }
        EXPECT_GT(named, 100) << table.name;
        EXPECT_EQ(last + 1, std::ssize(table.rows)) << table.name;
    }
}

TEST(StageTables, WhatIsNoTemperatureHasNoStage) {
    const stage_table& table = stage_tables.front();
    constexpr double infinity = std::numeric_limits<double>::infinity();
    EXPECT_EQ(stage_name(table, std::numeric_limits<double>::quiet_NaN()), "");
    EXPECT_EQ(stage_name(table, -infinity), "below thread");
    EXPECT_EQ(stage_name(table, infinity), "above black caramel");
    EXPECT_EQ(stage_name(stage_table{"empty", "a test", "en", {}}, 120), "");
}

TEST(StageTables, PlacesAreTheRowsAroundATemperature) {
    for (const auto& table : stage_tables) {
        const int count = static_cast<int>(table.rows.size());
        int in_a_stage = 0, between = 0;
        for (double celsius = 60.0; celsius < 230.0; celsius += 0.05) {
            const auto place = find_stage_place(table, celsius);
            if (const auto* row = find_stage(table, celsius)) {
                EXPECT_EQ(place.lower, place.upper);
                EXPECT_EQ(&table.rows[static_cast<std::size_t>(place.lower)], row);
                EXPECT_EQ(stage_text(table, place), row->name);
                ++in_a_stage;
                continue;
            }
            ASSERT_EQ(place.upper, place.lower + 1) << table.name << " " << celsius;
            const auto row = [&](int i) { return table.rows[static_cast<std::size_t>(i)]; };
            EXPECT_TRUE(place.lower < 0 || row(place.lower).high_celsius < celsius);
            EXPECT_TRUE(place.upper == count || celsius < row(place.upper).low_celsius);
            between += place.lower >= 0 && place.upper < count;
        }
        EXPECT_GT(in_a_stage, 100) << table.name;
        EXPECT_GT(between, 100) << table.name;
        // not of this table: no words
        for (const auto& [lower, upper] : {std::pair{-1, -1}, {-1, 1}, {0, 2}, {1, 0}, {count, count}, {-2, 0}})
            EXPECT_EQ(stage_text(table, {lower, upper}), "") << lower << " " << upper;
        EXPECT_EQ(stage_text(table, {0, count}), "above " + std::string(table.rows[0].name));
    }
}

TEST(StageTables, AreFoundByNameWhateverTheCase) {
    for (const auto& table : stage_tables) EXPECT_EQ(find_stage_table(table.name), &table);
    EXPECT_EQ(find_stage_table(" US 2004 "), &stage_tables.front());
    EXPECT_EQ(find_stage_table("FR Pastry")->language, "fr");
    EXPECT_EQ(find_stage_table("us2004"), nullptr);
    EXPECT_EQ(find_stage_table("us"), nullptr);
    EXPECT_EQ(find_stage_table(""), nullptr);
}

TEST(StageTables, LanguageAndSourceStandWithEach) {
    for (const auto& table : stage_tables) {
        EXPECT_EQ(table.language, table.name.substr(0, 2) == "fr" ? "fr" : "en") << table.name;
        EXPECT_FALSE(table.source.empty()) << table.name;
    }
}

TEST(StageTables, TheConsensusIsTheMedianOfThePublishedTablesWithTheirSpread) {
    const stage_table& consensus = table_of("consensus");
    // by hand from stage_tables.csv: lower and upper median, least and greatest, tables
    const struct {
        const char* name;
        double low, high, lowest, highest;
        int tables;
    } by_hand[] = {{"thread", 110, 112.2, 102, 113, 3},       {"soft ball", 114.4, 115, 112.2, 125, 7},
                   {"firm ball", 117.9, 119, 117, 121, 6},    {"hard ball", 121.1, 126, 120, 135, 8},
                   {"soft crack", 132.1, 140, 125, 143.3, 8}, {"hard crack", 146, 154, 143.3, 155, 7},
                   {"light caramel", 155, 155, 155, 170, 3},  {"caramel", 170, 176.7, 168, 182.2, 7},
                   {"dark caramel", 188, 190, 185, 190, 3}};
    ASSERT_EQ(consensus.rows.size(), std::size(by_hand));
    for (std::size_t i = 0; i < consensus.rows.size(); ++i) {
        const auto& c = consensus_stages[i];
        const auto& hand = by_hand[i];
        EXPECT_EQ(c.row.name, hand.name);
        EXPECT_NEAR(c.row.low_celsius, hand.low, 0.051) << hand.name;
        EXPECT_NEAR(c.row.high_celsius, hand.high, 0.051) << hand.name;
        EXPECT_EQ(c.lowest_celsius, hand.lowest) << hand.name;
        EXPECT_EQ(c.highest_celsius, hand.highest) << hand.name;
        EXPECT_EQ(c.tables, hand.tables) << hand.name;
    }
}

TEST(StageTables, ConsistenciesEndAtTheLastCrackOrBall) {
    for (const auto& table : stage_tables) {
        ASSERT_GT(table.consistencies, 0U) << table.name;
        ASSERT_LE(table.consistencies, table.rows.size()) << table.name;
        for (const auto& row : table.rows) {
            const bool caramel = row.name.find("caramel") < row.name.size();
            if (!caramel && row.high_celsius > 155.0) continue;
            EXPECT_EQ(is_colour(table, row), caramel) << table.name << ": " << row.name;
        }
    }
}

}  // namespace
