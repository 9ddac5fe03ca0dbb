// Ingredient names as cooks type them: what resolves is what is meant, and what does not is suggested first.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "csv.hpp"
#include "json/batch_file.hpp"

namespace {

using namespace sirop;

std::vector<std::string> suggested(const std::string& typed) {
    std::vector<std::string> names;
    std::string list = lib::similar_names(typed);
    for (std::size_t at = 0; (at = list.find('"', at)) != std::string::npos;) {
        const std::size_t end = list.find('"', at + 1);
        names.push_back(list.substr(at + 1, end - at - 1));
        at = end + 1;
    }
    return names;
}

TEST(IngredientNames, NineteenOfTwentyResolveOrAreSuggestedFirst) {
    int asked = 0, right = 0;
    for (const auto& row : sirop_test::read_csv("ingredient_names.csv").rows) {
        ++asked;
        const std::string typed = row.text("typed"), meant = row.text("expected");
        ASSERT_NE(core::find_ingredient(meant), nullptr) << meant;
        const auto* known = core::find_ingredient(typed);
        const auto names = suggested(typed);
        const std::string first = known != nullptr ? std::string(known->name)
                                  : names.empty()  ? "nothing"
                                                   : names[0];
        if (first == meant)
            ++right;
        else
            std::printf("%s: %s is meant, %s comes first\n", typed.c_str(), meant.c_str(), first.c_str());
    }
    EXPECT_GE(asked, 200);
    EXPECT_GE(right, 0.95 * asked) << right << " of " << asked;
}

TEST(IngredientNames, ALooseNameListsItsKind) {
    EXPECT_EQ(suggested("cream"), (std::vector<std::string>{"heavy cream 36 %", "light whipping cream",
                                                            "light cream", "double cream 48 %"}));
    EXPECT_EQ(core::find_ingredient("cream"), nullptr);
    EXPECT_EQ(core::find_ingredient("sugar"), core::find_ingredient("white sugar"));
}

TEST(IngredientNames, NothingIsSuggestedForWhatIsLikeNothing) {
    for (const char* typed : {"", "   ", "zzzz", "%%%", "plutonium", "1234"})
        EXPECT_TRUE(suggested(typed).empty()) << typed;
    EXPECT_TRUE(suggested(std::string(5000, 'a')).empty());
}

TEST(IngredientNames, EachTradeNameLeadsToARowAndIsNoRow) {
    for (const auto& other : core::trade_names) {
        bool is_row = false, leads = false;
        for (const auto& row : core::pantry) {
            is_row = is_row || core::same_name(row.name, other.name);
            leads = leads || row.name == other.ingredient;
        }
        EXPECT_TRUE(leads) << other.name;
        EXPECT_FALSE(is_row) << other.name;
        for (const auto& again : core::trade_names)
            if (&again != &other && core::same_name(again.name, other.name)) {
                EXPECT_TRUE(again.only_suggested && other.only_suggested) << other.name;
            }
    }
}

}  // namespace
