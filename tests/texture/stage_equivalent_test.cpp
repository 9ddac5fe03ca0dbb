// Stages as consistencies: the published tables that were not used, physics, and what glucose syrup does.
#include "sirop/texture/stage_equivalent.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <map>
#include <vector>

#include "mixtures.hpp"
#include "pantry_mixtures.hpp"
#include "sirop/data/stages.hpp"

namespace {

using namespace sirop;
using namespace sirop::core;
using namespace sirop_test;

constexpr double sea_level = formula::standard_atmosphere;

const stage_table& table_of(std::string_view name) {
    const auto* table = find_stage_table(name);
    EXPECT_NE(table, nullptr) << name;
    return table != nullptr ? *table : stage_tables[0];
}

/// The row of the calibration table for a row of another: American tables by the French name that both give (the
/// same trade term), French tables by the English one; null where there is none.
const stage_row* counterpart(const stage_table& table, const stage_row& row) {
    for (const auto& known : table_of("us 2004").rows) {
        if (table.language == "en" && !row.other_language.empty() && known.other_language == row.other_language)
            return &known;
        if (table.language == "fr" && known.name == row.other_language) return &known;
    }
    return nullptr;
}

/// C by which plain sugar boiled to a temperature of another table misses the calibration table's stage of that
/// name: its drop in cold water is as firm as this table's stage or so far from it.  NaN beyond the model's end.
double misses_by(const stage_row& stage, double celsius) {
    const auto plain = plain_syrup_boiling(celsius, sea_level);
    if (!(plain.water() > 0.0)) return not_a_number;
    return degrees_outside(stage, stage_in_cold_water(plain, table_of("us 2004")).plain_celsius);
}

/// Of each row with a counterpart, by "table: stage", the greater miss of its two ends.
std::map<std::string, double> misses(std::string_view language) {
    std::map<std::string, double> all;
    for (const auto& table : stage_tables) {
        if (table.language != language || table.name == "us 2004" || table.name == "consensus") continue;
        for (const auto& row : table.rows) {
            const auto* stage = counterpart(table, row);
            if (stage == nullptr) continue;
            const double miss = std::fmax(misses_by(*stage, row.low_celsius), misses_by(*stage, row.high_celsius));
            if (std::isfinite(miss)) all[std::string(table.name) + ": " + std::string(row.name)] = miss;
        }
    }
    return all;
}

/// Those of more than 3 C are known by name and size (0.05 C: the tables print 0.1); the others are within it.
void expect_within_3_but_for(const std::map<std::string, double>& all,
                             const std::map<std::string, double>& known) {
    for (const auto& [stage, miss] : all) {
        std::cout << "  " << stage << ": " << std::round(10.0 * miss) / 10.0 << " C\n";
        const auto exception = known.find(stage);
        if (exception == known.end())
            EXPECT_LE(miss, 3.0 + 1e-6) << stage;
        else
            EXPECT_NEAR(miss, exception->second, 0.05) << stage;
    }
    for (const auto& [stage, miss] : known) EXPECT_TRUE(all.contains(stage)) << stage;
}

TEST(tables, of_america_agree_within_3_c_but_for_three_cracks) {
    // Calibration table: us 2004.  The four others (published 1917 to today) were not used.  They differ among
    // themselves by 1 to 3 C; three rows of the oldest two differ by more, all of them cracks.
    const auto all = misses("en");
    // For plain sugar the way through the drop's firmness leads back to its temperature, so the sizes are those of
    // the tables; that it does is what is tested.
    EXPECT_EQ(all.size(), 21U);
    EXPECT_EQ(std::count_if(all.begin(), all.end(), [](const auto& one) { return one.second <= 1.0 + 1e-6; }), 18);
    expect_within_3_but_for(all, {{"us 1937: hard crack", 4.0},    // 145 against 149..154
                                  {"us 1917: light crack", 3.1},   // 128.9 against 132..143
                                  {"us 1917: hard crack", 5.7}});  // 143.3 against 149..154
}

TEST(tables, of_france_run_differently) {
    // The French scales put other borders on the same names: known, and told to the user by the table's name.
    expect_within_3_but_for(misses("fr"), {{"fr pastry: petit cassé", 7.0},     // 125 against 132..143
                                           {"fr pastry: caramel clair", 15.0},  // a colour: 155 against 170
                                           {"fr classic: petit boulé", 9.0},    // 116..125 against 113..116
                                           {"fr classic: grand boulé", 5.0},    // 126..135 against 121..130
                                           {"fr home: grand cassé", 4.0},       // 145..150 against 149..154
                                           {"fr home: caramel clair", 15.0}});
}

TEST(tables, every_stage_of_each_is_found_again_from_its_consistency) {
    // Plain sugar boiled to the middle of a row, a drop of it in cold water: the table's own name.
    int stages = 0;
    for (const auto& table : stage_tables)
        for (const auto& row : table.rows) {
            const double middle = 0.5 * (row.low_celsius + row.high_celsius);
            const auto plain = plain_syrup_boiling(middle, sea_level);
            if (middle < 100.5 || !(plain.water() > 0.0) || is_colour(table, row)) continue;
            const auto found = stage_in_cold_water(plain, table);
            EXPECT_EQ(stage_text(table, found.place), row.name) << table.name;
            EXPECT_NEAR(found.plain_celsius, middle, 1e-6);
            EXPECT_NEAR(celsius_for_consistency(plain, middle, sea_level), middle, 1e-6);
            ++stages;
        }
    EXPECT_GE(stages, 55);  // colours are not among them
}

TEST(physics, of_plain_sugar_at_20_c) {
    // The viscosities of plain sugar boiled to the table's temperatures, log10 Pa s at 20 C: with this
    // curve 2.4, 3.6, 4.5, 5.4, 8.1, 9.0 (regression; one decimal, and the curve was refitted since: 0.1); with
    // Gordon-Taylor and the universal WLF law, nothing fitted, 2.5, 3.4, 4.1, 4.8, 7.3, 8.2 (computed, another
    // model): within 1.
    constexpr double rows[][3] = {{112.0, 2.4, 2.5}, {115.6, 3.6, 3.4}, {118.3, 4.5, 4.1},
                                  {121.1, 5.4, 4.8}, {129.4, 8.1, 7.3}, {132.0, 9.0, 8.2}};
    for (const auto& [celsius, mark, wlf] : rows) {
        EXPECT_NEAR(firmness_of_plain(celsius), mark, 0.1) << celsius;
        EXPECT_NEAR(firmness_of_plain(celsius), wlf, 1.0) << celsius;
    }
}

TEST(physics, cracks_are_the_glass_transition) {
    // Boiled to what temperature is plain sugar a glass at 20 C?  Gordon-Taylor with the constants of Roos (1993).
    const auto glass_at = [](double celsius) { return glass_celsius(plain_syrup_boiling(celsius, sea_level)); };
    const double glass = solve_monotone([&](double t) { return glass_at(t) - 20.0; }, 140.0, 110.0, 160.0);
    EXPECT_NEAR(glass, 141.0, 1.0);  // Tg is 23 C at 143 (regression)
    EXPECT_NEAR(glass_at(143.0), 23.0, 1.0);
    EXPECT_NEAR(firmness_of_plain(glass), 12.0, 1e-6);  // 1e12 Pa s is what a glass is
    // every hard crack is a glass at room temperature, and no ball comes near it
    for (const auto& table : stage_tables) {
        for (const auto& row : table.rows) {
            if (row.other_language == "grand cassé" || row.other_language == "hard crack") {
                EXPECT_GT(row.high_celsius, glass) << table.name << " " << row.name;
            }
            if (row.other_language == "gros boulé" || row.other_language == "hard ball") {
                EXPECT_LT(glass_at(row.high_celsius), 20.0 - glass_error_kelvin) << table.name << " " << row.name;
            }
        }
    }
    const auto& soft_crack = table_of("us 2004").rows[4];
    EXPECT_EQ(soft_crack.name, "soft crack");
    EXPECT_EQ(degrees_outside(soft_crack, glass), 0.0);
    // and firmness rises through the stages without a break
    double previous = -10.0;
    for (double t = 100.5; t < 175.0; t += 0.5) {
        EXPECT_GT(firmness_of_plain(t), previous) << t;
        previous = firmness_of_plain(t);
    }
}

/// 100 g of sugars, of which a part is glucose-syrup solids, and water.
mixture sugars(double syrup_share, double dextrose_equivalent = 42.0, double water = 50.0) {
    mixture m = made_of({{component::water, water}, {component::sucrose, 100.0 * (1.0 - syrup_share)}});
    add_syrup_solids(m, 100.0 * syrup_share, dextrose_equivalent);
    return m;
}

TEST(glucose_syrup, lowers_the_temperature_of_every_stage) {
    // Greer, School and Home Cooking (1920): with glucose syrup in the pan every stage comes at a lower
    // temperature. The sign is theirs; the sizes below are the library's (regression).
    int stages = 0;
    for (const auto& row : table_of("us 2004").rows) {
        if (!std::isfinite(firmness_of_plain(row.low_celsius))) continue;
        double previous = row.low_celsius;
        for (double share = 0.1; share <= 0.91; share += 0.1) {
            const double t = celsius_for_consistency(sugars(share), row.low_celsius, sea_level);
            EXPECT_LT(t, previous) << row.name << " " << share;
            // cooked to there it is that stage indeed
            const double water = water_at_boil(sugars(share), t, sea_level).value;
            EXPECT_NEAR(stage_in_cold_water(sugars(share).with_water(water), table_of("us 2004")).plain_celsius,
                        row.low_celsius, 1e-5);
            previous = t;
        }
        ++stages;
    }
    EXPECT_EQ(stages, 8);
    const auto lower_by = [](double t) { return t - celsius_for_consistency(sugars(0.5), t, sea_level); };
    EXPECT_NEAR(lower_by(113.0), 2.3, 0.2);
    EXPECT_NEAR(lower_by(121.0), 4.4, 0.3);
    EXPECT_NEAR(lower_by(149.0), 10.7, 0.5);
}

TEST(glucose_syrup, of_lower_equivalent_is_tougher_and_boils_cooler_for_equal_water) {
    double firmness = HUGE_VAL, boils = 0.0, activity = 1.0;
    for (double de = 20.0; de <= 60.0; de += 2.0) {
        const auto m = sugars(0.5, de, 12.0);
        const auto f = log10_firmness(m, 20.0);
        EXPECT_LT(f.value, firmness) << de;
        EXPECT_GT(boiling_celsius(m, sea_level).value, boils) << de;
        EXPECT_LT(water_activity(m, 20.0).value, activity) << de;
        firmness = f.value;
        boils = boiling_celsius(m, sea_level).value;
        activity = water_activity(m, 20.0).value;
    }
    // between 28 and 62 DE a factor in firmness of more than 2, less than 100 (regression)
    const double by =
        log10_firmness(sugars(0.5, 28.0, 12.0), 20.0).value - log10_firmness(sugars(0.5, 60.0, 12.0), 20.0).value;
    EXPECT_GT(by, std::log10(2.0));
    EXPECT_LT(by, 2.0);
}

TEST(cold_water, reads_gels_as_firmness) {
    // a drop that gels in the cold water is firmer than its syrup alone
    auto m = sugars(0.4, 42.0, 30.0);
    const auto bare = stage_in_cold_water(m, stage_tables[0]);
    m[component::protein] = 10.0;
    const auto milky = stage_in_cold_water(m, stage_tables[0]);
    EXPECT_GT(milky.plain_celsius, bare.plain_celsius + 1.0);
    m.raw(component::protein) = 10.0;
    const auto raw = stage_in_cold_water(m, stage_tables[0]);
    EXPECT_GT(raw.plain_celsius, bare.plain_celsius);
    EXPECT_LT(raw.plain_celsius, milky.plain_celsius);
}

TEST(cold_water, a_hotter_pan_is_no_earlier_stage_in_any_kitchen) {
    for (const auto& table : stage_tables)
        for (const double hpa : {300.0, 700.0, 815.0, 1013.25, 1100.0}) {
            int before = -1;
            for (double celsius = 60.0; celsius < 230.0; celsius += 0.1) {
                const auto place = stage_of_temperature(table, celsius, 100.0 * hpa);
                ASSERT_TRUE(place.known());
                const int at = place.lower + place.upper;  // rises from each place to the next
                ASSERT_GE(at, before) << table.name << ", " << celsius << " C, " << hpa << " hPa";
                before = at;
            }
            EXPECT_GT(before, static_cast<int>(table.rows.size()));
        }
}

TEST(cold_water, names_what_lies_beyond_the_table) {
    const auto& table = stage_tables[0];
    const mixture water = made_of({{component::water, 100.0}});
    const auto text_of = [&](const mixture& m) { return stage_text(table, stage_in_cold_water(m, table).place); };
    EXPECT_EQ(text_of(water), "below thread");
    // firmer than the driest plain syrup of the model: long chains with hardly any water
    const mixture paste = sugars(0.6, 20.0, 0.3);
    EXPECT_EQ(text_of(paste).rfind("above ", 0), 0U) << text_of(paste);
    EXPECT_TRUE(std::isnan(stage_in_cold_water(paste, table).plain_celsius));
    EXPECT_FALSE(stage_in_cold_water(paste.with_water(0.0), table).place.known());
    EXPECT_EQ(text_of(paste.with_water(0.0)), "");
    // below boiling water and beyond 99.5 % solids there is no plain sugar to compare with
    EXPECT_TRUE(std::isnan(celsius_for_consistency(sugars(0.5), 99.0, sea_level)));
    EXPECT_TRUE(std::isnan(celsius_for_consistency(sugars(0.5), 190.0, sea_level)));
    const mixture no_sugar = made_of({{component::fat, 10.0}});
    EXPECT_TRUE(std::isnan(water_of_consistency(no_sugar, 3.0)));
}

TEST(cold_water, at_altitude_the_same_stage_comes_cooler) {
    const double high = formula::standard_pressure(2000.0);
    for (const double share : {0.0, 0.3, 0.6})
        for (const double t : {113.0, 121.0, 132.0, 149.0}) {
            const double here = celsius_for_consistency(sugars(share), t, sea_level);
            const double there = celsius_for_consistency(sugars(share), t, high);
            EXPECT_LT(there, here - 6.0);  // water itself boils 6.7 C lower
            EXPECT_GT(there, here - 10.0);
        }
}

TEST(colours, follow_the_kitchens_temperature_at_any_pressure_and_never_the_firmness) {
    for (const auto& table : stage_tables)
        for (const auto& row : table.rows) {
            if (!is_colour(table, row)) continue;
            const double middle = 0.5 * (row.low_celsius + row.high_celsius);
            for (const double hpa : {700.0, 1013.25, 1100.0})
                EXPECT_EQ(stage_text(table, stage_of_temperature(table, middle, 100.0 * hpa)), row.name)
                    << table.name << " " << hpa;
        }
    // the stiffest syrups are above hard crack, and no colour
    const auto& table = table_of("us 2004");
    for (const double water : {1.0, 0.6})
        EXPECT_EQ(stage_text(table, stage_in_cold_water(sugars(0.0, 42.0, water), table).place),
                  "above hard crack");
}

}  // namespace
