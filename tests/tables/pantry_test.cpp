// The pantry against the food tables that it was made from, and the starch syrups against theirs.
#include <gtest/gtest.h>
#include <sirop/data/pantry.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <initializer_list>
#include <map>
#include <set>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "csv.hpp"

namespace {

using namespace sirop::core;
using namespace sirop_test;

// The pantry copies two printed decimals; the tolerance only covers their binary rounding.
constexpr double copied = 1e-9;
// Numbers computed for the pantry are rounded to 0.01 g, and one of a row takes up what rounding leaves over.
constexpr double rounded = 0.005 + 1e-9;
constexpr double rounded_and_closed = 0.02 + 1e-9;

double grams_of(const pantry_row& row, component c) {
    double grams = 0;
    for (const auto& part : row.parts)
        if (part.id == c) grams += part.grams();
    return grams;
}

const pantry_row& ingredient(std::string_view name) {
    const pantry_row* row = find_ingredient(name);
    if (row == nullptr) throw std::runtime_error("not in the pantry: " + std::string(name));
    return *row;
}

/// The food table has one column for fat, and one for protein.
double all_fat(const pantry_row& row) {
    return grams_of(row, component::fat) + grams_of(row, component::cocoa_butter) +
           grams_of(row, component::vegetable_fat);
}
double all_protein(const pantry_row& row) {
    return grams_of(row, component::protein) + grams_of(row, component::gelatin);
}

/// The food's number in the USDA tables, empty for a row from elsewhere.
std::string ndb_of(const pantry_row& row) {
    const std::size_t at = row.source.find("NDB ");
    return at == std::string_view::npos ? std::string() : std::string(row.source.substr(at + 4, 5));
}

/// The column of the release that the row names.
double printed(const pantry_row& row, const csv_row& food, const std::string& column) {
    const bool later = row.source.find("SR Legacy") != std::string_view::npos;
    return food.number(later ? column + "_2023" : column);
}

bool says(const pantry_row& row, std::string_view words) {
    return row.estimate.find(words) != std::string_view::npos;
}

/// Each pantry row from the USDA tables, with its food.
std::vector<std::pair<const pantry_row*, csv_row>> rows_with_foods() {
    std::map<std::string, csv_row> foods;
    for (const auto& food : read_csv("ingredients_usda.csv").rows) foods.emplace(food.text("ndb"), food);
    std::vector<std::pair<const pantry_row*, csv_row>> pairs;
    for (const auto& row : pantry)
        if (const std::string ndb = ndb_of(row); !ndb.empty()) {
            const auto food = foods.find(ndb);
            if (food == foods.end()) throw std::runtime_error("no food " + ndb + " for " + std::string(row.name));
            pairs.emplace_back(&row, food->second);
        }
    return pairs;
}

TEST(Pantry, WaterAndFatAreThoseOfTheFoodTable) {
    for (const auto& [row, food] : rows_with_foods()) {
        EXPECT_NEAR(grams_of(*row, component::water), printed(*row, food, "water"), copied) << row->name;
        EXPECT_NEAR(all_fat(*row), printed(*row, food, "fat"), copied) << row->name;
    }
}

TEST(Pantry, ProteinAndAshAreThoseOfTheFoodTableWhereThereIsNoCocoa) {
    int checked = 0;
    for (const auto& [row, food] : rows_with_foods()) {
        if (grams_of(*row, component::cocoa_solids) > 0) continue;
        ++checked;
        EXPECT_NEAR(all_protein(*row), printed(*row, food, "protein"), copied) << row->name;
        const double ash = grams_of(*row, component::minerals) + grams_of(*row, component::salt);
        EXPECT_NEAR(ash, printed(*row, food, "ash"), copied) << row->name;
    }
    EXPECT_EQ(checked, 73);
}

TEST(Pantry, CocoaSolidsCanHoldTheirProteinFibreAndAsh) {
    int checked = 0;
    for (const auto& [row, food] : rows_with_foods()) {
        const double cocoa = grams_of(*row, component::cocoa_solids);
        if (cocoa == 0) continue;
        ++checked;
        const double protein = printed(*row, food, "protein") - grams_of(*row, component::protein);
        const double ash = printed(*row, food, "ash") - grams_of(*row, component::minerals);
        EXPECT_GE(protein, 0) << row->name;
        EXPECT_GE(ash, 0) << row->name;
        EXPECT_GT(cocoa, protein + ash + food.number("fibre")) << row->name;
    }
    EXPECT_EQ(checked, 7);
}

// Milk protein comes from calcium; the protein column was not used for it.  Cocoa powder (NDB 19165) has 19.6 g of
// protein in 81.55 g of fat-free dry cocoa.  0.1 g: the three foods are different samples.
TEST(Pantry, MilkChocolateProteinFromCalciumAgreesWithItsProteinColumn) {
    const pantry_row& row = ingredient("milk chocolate");
    const double protein =
        grams_of(row, component::protein) + grams_of(row, component::cocoa_solids) * 19.6 / 81.55;
    EXPECT_NEAR(protein, 7.65, 0.1);
}

// The label's cocoa share is cocoa butter and cocoa solids.  Milk fat, at most 1 g here, is counted
// with the cocoa butter.
TEST(Pantry, DarkChocolatesHoldTheCocoaThatTheirNameSays) {
    const std::map<std::string, std::pair<double, double>> ranges = {{"dark chocolate 45-59 %", {45, 59}},
                                                                     {"dark chocolate 60-69 %", {60, 69}},
                                                                     {"dark chocolate 70-85 %", {70, 85}}};
    for (const auto& [name, range] : ranges) {
        const pantry_row& row = ingredient(name);
        const double cocoa = grams_of(row, component::cocoa_solids) + grams_of(row, component::cocoa_butter);
        EXPECT_GE(cocoa, range.first) << name;
        EXPECT_LE(cocoa, range.second) << name;
    }
}

TEST(Pantry, SugarsAreThoseOfTheFoodTableWhereItPrintsThem) {
    int copied_rows = 0;
    int scaled_rows = 0;
    for (const auto& [row, food] : rows_with_foods()) {
        if (!food.has("sucrose") || !food.has("glucose") || !food.has("fructose")) continue;
        if (says(*row, "lactose: all carbohydrate") || says(*row, "lactose: all sugar")) continue;
        const double sucrose = grams_of(*row, component::sucrose);
        const double glucose = grams_of(*row, component::glucose);
        const double fructose = grams_of(*row, component::fructose);
        const bool scaled = says(*row, "sugars scaled");
        double scale = 1.0;
        if (scaled) {
            ++scaled_rows;
            scale = (sucrose + glucose + fructose) /
                    (food.number("sucrose") + food.number("glucose") + food.number("fructose"));
            EXPECT_LT(scale, 1) << row->name;
            EXPECT_GT(scale, 0.88) << row->name;
        } else {
            ++copied_rows;
        }
        const double tolerance = scaled ? rounded_and_closed : copied;
        EXPECT_NEAR(sucrose, scale * food.number("sucrose"), tolerance) << row->name;
        EXPECT_NEAR(glucose, scale * food.number("glucose"), tolerance) << row->name;
        EXPECT_NEAR(fructose, scale * food.number("fructose"), tolerance) << row->name;
    }
    EXPECT_EQ(scaled_rows, 4);
    EXPECT_EQ(copied_rows, 33);
}

TEST(Pantry, SugarsThatAreSplitByEstimateKeepTheirPrintedTotal) {
    int checked = 0;
    for (const auto& [row, food] : rows_with_foods()) {
        if (food.has("sucrose") || says(*row, "lactose: all") || says(*row, "42 DE") ||
            !food.has("total_sugars") || food.number("total_sugars") == 0 || says(*row, "counted as agar") ||
            row->name == "sweetened condensed milk")
            continue;
        ++checked;
        const double sugars = grams_of(*row, component::sucrose) + grams_of(*row, component::glucose) +
                              grams_of(*row, component::fructose) + grams_of(*row, component::lactose);
        EXPECT_NEAR(sugars, printed(*row, food, "total_sugars"), copied) << row->name;
    }
    EXPECT_EQ(checked, 11);
}

TEST(Pantry, SaltStandsOnlyWhereItIsAddedAndIsMadeFromSodium) {
    const std::set<std::string_view> salted = {"salt", "butter, salted", "light corn syrup", "peanut butter"};
    for (const auto& [row, food] : rows_with_foods()) {
        const double expected = salted.contains(row->name) ? 2.542e-3 * food.number("sodium_mg") : 0;
        EXPECT_NEAR(grams_of(*row, component::salt), expected, rounded) << row->name;
    }
}

TEST(Pantry, EveryFoodOfTheDataFileIsUsed) {
    std::set<std::string> used;
    for (const auto& row : pantry) used.insert(ndb_of(row));
    for (const auto& food : read_csv("ingredients_usda.csv").rows)
        EXPECT_TRUE(used.contains(food.text("ndb"))) << food.place();
}

TEST(Pantry, HoldsEveryIngredientOfTheBatchFormat) {
    const auto names = split_csv_line(
        R"(water,white sugar,brown sugar,salt,lemon juice,corn starch,agar,gelatin,glucose syrup 28 DE,)"
        R"(glucose syrup 42 DE,glucose syrup 62 DE,high-maltose syrup,invert sugar syrup,honey,maple syrup,)"
        R"(light molasses,dark molasses,high-fructose syrup 42,high-fructose syrup 55,dextrose monohydrate,)"
        R"(fructose,lactose,sorbitol syrup,glycerol,skim milk,whole milk,half-and-half,heavy cream 36 %,)"
        R"(evaporated milk,sweetened condensed milk,sweetened condensed skim milk,skim milk powder,)"
        R"(whole milk powder,"butter, unsalted","butter, salted",dark chocolate 60-69 %,dark chocolate 70-85 %,)"
        R"(milk chocolate,white chocolate,cocoa powder,brewed espresso,raspberry puree,mango puree,)"
        R"(passion fruit juice,coconut milk,coconut oil,cocoa butter,sponge cake,pastry cream,ganache,)"
        R"(hazelnut praline)");
    ASSERT_EQ(names.size(), 51U);
    for (const auto& name : names) {
        const pantry_row* row = find_ingredient(name);
        ASSERT_NE(row, nullptr) << name;
        EXPECT_EQ(row->name, name);
    }
}

TEST(Pantry, EveryRowHasItsSourceAndSumsToOne) {
    for (const auto& row : pantry) {
        EXPECT_FALSE(row.source.empty()) << row.name;
        EXPECT_NEAR(sum_of_parts(row), 100, 0.05) << row.name;
        double sum = 0;
        for (const double share : composition_of(row)) sum += share;
        EXPECT_NEAR(sum, 1, 1e-14) << row.name;
    }
}

TEST(Pantry, CompositionIsPerGram) {
    const auto honey = composition_of(ingredient("honey"));
    EXPECT_NEAR(honey[index_of(component::water)], 0.171, 1e-12);
    EXPECT_NEAR(honey[index_of(component::fructose)], 0.4094, 1e-12);
    EXPECT_EQ(honey[index_of(component::fat)], 0);
    // A row that does not sum to 100 is divided by its sum.
    pantry_row half{};
    half.parts = {{{component::water, 10}, {component::sucrose, 40}}};
    EXPECT_NEAR(composition_of(half)[index_of(component::sucrose)], 0.8, 1e-15);
    EXPECT_NEAR(composition_of(half)[index_of(component::water)], 0.2, 1e-15);
}

TEST(Pantry, RowsWithoutASourceSayThatAllIsAnEstimate) {
    int checked = 0;
    for (const auto& row : pantry)
        if (row.source == "common practice, no source") {
            ++checked;
            EXPECT_TRUE(row.estimate.starts_with("all of it")) << row.name;
        }
    EXPECT_EQ(checked, 9);
}

TEST(Pantry, LayersOfADessertAreThereAndSayThatTheyAreCommonPractice) {
    for (const std::string_view name : {"sponge cake", "pastry cream", "ganache", "hazelnut praline"})
        EXPECT_EQ(ingredient(name).source, "common practice, no source") << name;
    // what the rows of two parts say of themselves, from the rows of their parts; 0.3 g: they are rounded
    const pantry_row &ganache = ingredient("ganache"), &chocolate = ingredient("dark chocolate 60-69 %"),
                     &cream = ingredient("heavy cream 36 %");
    for (const component c : {component::water, component::sucrose, component::lactose, component::protein,
                              component::cocoa_solids, component::fat, component::cocoa_butter})
        EXPECT_NEAR(grams_of(ganache, c), 0.5 * (grams_of(chocolate, c) + grams_of(cream, c)), 0.3)
            << data_of(c).name;
    // half caramelized sugar of 1 % water less, half nuts that lost most of theirs in the oven; per their dry mass
    const pantry_row &praline = ingredient("hazelnut praline"), &nuts = ingredient("hazelnut paste, unsweetened");
    const double share = grams_of(praline, component::vegetable_fat) / grams_of(nuts, component::vegetable_fat);
    EXPECT_NEAR(share, 0.52, 0.02);
    for (const component c : {component::protein, component::fibre, component::minerals, component::starch})
        EXPECT_NEAR(grams_of(praline, c), share * grams_of(nuts, c), 0.3) << data_of(c).name;
}

// Fat by its kind: cocoa butter comes with cocoa (white chocolate is made of it), vegetable fat with nuts and
// coconut; everything else is milk fat or not told apart.
TEST(Pantry, FatIsSplitByItsKind) {
    const std::set<std::string_view> vegetable = {"coconut milk",
                                                  "coconut cream",
                                                  "hazelnut paste, unsweetened",
                                                  "pistachio paste, unsweetened",
                                                  "coconut oil",
                                                  "hazelnut praline",
                                                  "ground almonds",
                                                  "ground walnuts",
                                                  "peanut butter"};
    const std::set<std::string_view> with_milk = {"milk chocolate", "white chocolate", "ganache"};
    for (const auto& row : pantry) {
        const bool cocoa = grams_of(row, component::cocoa_solids) > 0 || row.name == "white chocolate" ||
                           row.name == "cocoa butter";
        EXPECT_EQ(grams_of(row, component::cocoa_butter) > 0, cocoa) << row.name;
        EXPECT_EQ(grams_of(row, component::vegetable_fat) > 0, vegetable.contains(row.name)) << row.name;
        if (cocoa || vegetable.contains(row.name)) {
            EXPECT_EQ(grams_of(row, component::fat) > 0, with_milk.contains(row.name)) << row.name;
        }
    }
    // milk fat and milk protein of the chocolates in the ratio of whole milk powder (NDB 01090)
    const pantry_row& powder = ingredient("whole milk powder");
    for (const std::string_view name : {"milk chocolate", "white chocolate"})
        EXPECT_NEAR(grams_of(ingredient(name), component::fat),
                    grams_of(ingredient(name), component::protein) * grams_of(powder, component::fat) /
                        grams_of(powder, component::protein),
                    rounded_and_closed)
            << name;
}

TEST(Pantry, GellingAgentsAreComponents) {
    EXPECT_NEAR(grams_of(ingredient("gelatin"), component::gelatin), 85.6, copied);  // USDA NDB 19177, its protein
    EXPECT_EQ(grams_of(ingredient("gelatin"), component::protein), 0);
    EXPECT_NEAR(grams_of(ingredient("agar"), component::agar), 80.88, copied);  // NDB 11663, its carbohydrate
    for (const auto& row : pantry) {
        EXPECT_EQ(grams_of(row, component::agar) > 0, row.name == "agar") << row.name;
        EXPECT_EQ(grams_of(row, component::gelatin) > 0, row.name == "gelatin") << row.name;
    }
}

TEST(Pantry, NamesIgnoreCaseAndOuterBlanks) {
    const pantry_row* butter = &ingredient("butter, unsalted");
    EXPECT_EQ(find_ingredient("Butter, UNSALTED"), butter);
    EXPECT_EQ(find_ingredient("  butter, unsalted\t\n"), butter);
    EXPECT_EQ(find_ingredient("butter,unsalted"), nullptr);
    EXPECT_EQ(find_ingredient("butter"), nullptr);
    EXPECT_EQ(find_ingredient("butter, unsalted x"), nullptr);
    EXPECT_EQ(find_ingredient(""), nullptr);
    EXPECT_EQ(find_ingredient("   "), nullptr);
    EXPECT_EQ(find_ingredient("moon dust"), nullptr);
    EXPECT_EQ(find_ingredient(std::string_view("honey\0", 6)), nullptr);
}

const char* const chain_columns[] = {"DP1", "DP2", "DP3", "DP4", "DP5", "DP6", "DP7", "DP8plus"};
constexpr component chains[] = {component::glucose,       component::maltose,           component::maltotriose,
                                component::maltotetraose, component::maltopentaose,     component::maltohexaose,
                                component::maltoheptaose, component::higher_saccharides};

bool in_the_family(const csv_row& row) {
    return row.text("product").starts_with("glucose syrup") || row.text("product") == "maltodextrin";
}

TEST(Pantry, PhIsThatOfTheTableRowNamed) {
    std::map<std::string, csv_row> table;
    for (const auto& row : read_csv("ph_ingredients.csv").rows) table.emplace(row.text("ingredient"), row);
    int compared = 0, recalled = 0, unknown = 0;
    for (const auto& row : pantry) {
        const auto& ph = row.ph;
        if (!ph.known()) {
            ++unknown;
            EXPECT_TRUE(std::isnan(ph.middle())) << row.name;
            continue;
        }
        if (ph.from == from_memory) {
            ++recalled;
            continue;
        }
        const auto found = table.find(std::string(ph.from));
        ASSERT_NE(found, table.end()) << row.name;
        const std::string& printed = found->second.text("pH");
        std::size_t used = 0;
        EXPECT_EQ(std::stod(printed, &used), ph.low) << row.name;
        EXPECT_EQ(used == printed.size() ? ph.low : std::stod(printed.substr(used + 1)), ph.high) << row.name;
        EXPECT_EQ(found->second.text("conf"), std::string(1, ph.confidence)) << row.name;
        ++compared;
    }
    EXPECT_EQ(compared, 33);
    EXPECT_EQ(recalled, 32);
    EXPECT_GT(unknown, 0);
}

bool named(const pantry_row& row, std::initializer_list<std::string_view> words) {
    return std::any_of(words.begin(), words.end(),
                       [&](auto word) { return row.name.find(word) < row.name.size(); });
}

TEST(Pantry, KindSaysWhatTheNamesSay) {
    for (const auto& row : pantry) {
        EXPECT_EQ(has_dextrose_equivalent(row.kind), row.name.substr(0, 13) == "glucose syrup") << row.name;
        EXPECT_EQ(has_varying_solids(row.kind), named(row, {"syrup", "honey", "molasses", "treacle"})) << row.name;
        EXPECT_EQ(has_varying_fat(row.kind) && all_fat(row) > 0,
                  all_fat(row) > 0 && !named(row, {"chocolate"}) &&
                      named(row, {"cream", "creme", "milk", "half-and-half"}))
            << row.name;
    }
}

TEST(Pantry, AllergensAndCautionsAreThoseOfWhatIsInIt) {
    for (const auto& row : pantry) {
        EXPECT_GE(row.allergens.holds(allergen::milk), grams_of(row, component::lactose) > 0) << row.name;
        EXPECT_GE(row.allergens.holds(allergen::milk), named(row, {"butter,", "whey"})) << row.name;
        EXPECT_EQ(row.allergens.holds(allergen::nuts), named(row, {"hazelnut", "pistachio", "almond", "walnut"}))
            << row.name;
        EXPECT_EQ(row.cautions.holds(caution::not_for_infants), row.name == "honey") << row.name;
        EXPECT_EQ(row.cautions.holds(caution::laxative),
                  grams_of(row, component::sorbitol) + grams_of(row, component::glycerol) +
                          grams_of(row, component::isomalt) + grams_of(row, component::maltitol) >
                      0)
            << row.name;
        EXPECT_EQ(row.cautions.holds(caution::flammable), grams_of(row, component::ethanol) > 0) << row.name;
    }
    EXPECT_EQ(ingredient("sponge cake").allergens, allergen::gluten | allergen::eggs | allergen::milk);
    EXPECT_EQ(ingredient("dark chocolate 70-85 %").allergens, allergen::soybeans);
    EXPECT_TRUE(ingredient("glucose syrup 42 DE").allergens.empty());
    EXPECT_EQ(allergen_named("lupin").bits, 1U << 12U);
    EXPECT_TRUE(allergen_named("butter").empty());
}

TEST(StarchSyrup, HitsEveryRowOfTheTable) {
    std::size_t checked = 0;
    for (const auto& row : read_csv("glucose_syrup_saccharides.csv").rows) {
        if (!in_the_family(row)) continue;
        ++checked;
        double sum = 0;
        for (const char* column : chain_columns) sum += row.number(column);
        const auto solids = starch_syrup_solids(row.number("DE"));
        for (std::size_t i = 0; i < 8; ++i)
            EXPECT_NEAR(solids[index_of(chains[i])], row.number(chain_columns[i]) * 100 / sum, 1e-12)
                << row.place();
    }
    EXPECT_EQ(checked, starch_syrups.size());
    EXPECT_EQ(min_dextrose_equivalent, 10);
    EXPECT_EQ(max_dextrose_equivalent, 60);
}

TEST(StarchSyrup, StaysBetweenItsNeighboursAndSumsTo100) {
    const auto& table = starch_syrups;
    for (std::size_t k = 1; k < table.size(); ++k) {
        const double from = table[k - 1].dextrose_equivalent;
        const double to = table[k].dextrose_equivalent;
        const auto a = starch_syrup_solids(from);
        const auto b = starch_syrup_solids(to);
        for (int step = 0; step <= 10; ++step) {
            const double t = step / 10.0;
            const double equivalent = from + t * (to - from);
            const auto solids = starch_syrup_solids(equivalent);
            double sum = 0;
            for (std::size_t i = 0; i < component_count; ++i) {
                sum += solids[i];
                EXPECT_GE(solids[i], std::min(a[i], b[i]) - 1e-12) << equivalent;
                EXPECT_LE(solids[i], std::max(a[i], b[i]) + 1e-12) << equivalent;
                // Linear: every row of the table sums to 100, so the division by the sum changes nothing.
                EXPECT_NEAR(solids[i], (1 - t) * a[i] + t * b[i], 1e-11) << equivalent;
            }
            EXPECT_NEAR(sum, 100, 1e-12) << equivalent;
            EXPECT_EQ(solids[index_of(component::water)], 0);
        }
    }
}

TEST(StarchSyrup, PantrySyrupsAreTheirRowsAtTheirSolids) {
    const std::map<std::string, std::pair<double, double>> equivalent_and_solids = {
        {"maltodextrin 10 DE", {10, 95}},
        {"maltodextrin 15 DE", {15, 95}},
        {"glucose syrup 28 DE", {28, 80}},
        {"glucose syrup 42 DE", {42, 80.3}}};
    for (const auto& [name, known] : equivalent_and_solids) {
        const auto solids = starch_syrup_solids(known.first);
        for (std::size_t i = 0; i < 8; ++i)
            EXPECT_NEAR(grams_of(ingredient(name), chains[i]), solids[index_of(chains[i])] * known.second / 100,
                        rounded_and_closed)
                << name;
    }
    const std::map<std::string, std::string> special = {{"high maltose", "high-maltose syrup"},
                                                        {"high conversion", "glucose syrup 62 DE"}};
    std::size_t checked = 0;
    for (const auto& row : read_csv("glucose_syrup_saccharides.csv").rows) {
        const auto name = special.find(row.text("product"));
        if (name == special.end()) continue;
        ++checked;
        const pantry_row& syrup = ingredient(name->second);
        const double solids = row.number("solids_percent");
        EXPECT_NEAR(grams_of(syrup, component::water), 100 - solids, copied);
        for (std::size_t i = 0; i < 8; ++i) {
            const double percent = row.has(chain_columns[i]) ? row.number(chain_columns[i]) : 0;
            EXPECT_NEAR(grams_of(syrup, chains[i]), percent * solids / 100, rounded_and_closed) << syrup.name;
        }
    }
    EXPECT_EQ(checked, special.size());
}

}  // namespace
