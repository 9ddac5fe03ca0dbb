// The words of the set against products that everybody knows, each judged by its own syrup, fat and protein.
#include <gtest/gtest.h>

#include <map>
#include <sstream>

#include "csv.hpp"
#include "expect.hpp"
#include "json/batch_file.hpp"
#include "pantry_mixtures.hpp"
#include "sirop/cooking/advice.hpp"

namespace {

using namespace sirop;
using namespace sirop::core;
using namespace sirop_test;

constexpr double room_celsius = 20.0;

std::vector<std::string> split(const std::string& text) {
    std::istringstream stream(text);
    std::vector<std::string> parts;
    for (std::string part; stream >> part;) {
        std::replace(part.begin(), part.end(), '_', ' ');
        parts.push_back(part);
    }
    return parts;
}

/// "name=number" (or text) pairs.
std::vector<std::pair<std::string, std::string>> pairs(const std::string& text) {
    std::vector<std::pair<std::string, std::string>> all;
    std::istringstream stream(text);
    for (std::string part; stream >> part;) {
        const auto at = part.find('=');
        if (at == std::string::npos) throw std::runtime_error("no = in " + part);
        all.emplace_back(part.substr(0, at), part.substr(at + 1));
    }
    return all;
}

/// 100 g: water, the parts, and the sugars by their shares of the rest.
mixture product(double water, const std::string& parts, const std::string& sugars) {
    mixture m;
    m[component::water] = water;
    for (const auto& [name, grams] : pairs(parts)) m[find_component(name).value()] += std::stod(grams);
    const double rest = 100.0 - m.total();
    double shares = 0.0;
    for (const auto& [name, share] : pairs(sugars)) {
        const double grams = rest * std::stod(share);
        shares += std::stod(share);
        if (name.rfind("de", 0) == 0) {
            add_syrup_solids(m, grams, std::stod(name.substr(2)));
        } else {
            m[find_component(name).value()] += grams;
        }
    }
    EXPECT_NEAR(shares, 1.0, 1e-9) << sugars;
    EXPECT_NEAR(m.total(), 100.0, 1e-9);
    return m;
}

/// The mixtures of a row of products.csv: one for each of its waters.
std::vector<mixture> mixtures_of(const csv_row& row) {
    std::string pantry_name;
    bool raw = false;
    for (const auto& [name, value] : pairs(row.text("parts"))) {
        if (name == "pantry") pantry_name = split(value).empty() ? "" : value;
        raw = raw || name == "raw";
    }
    std::replace(pantry_name.begin(), pantry_name.end(), '_', ' ');
    if (!pantry_name.empty()) return {of_pantry(pantry_name, raw)};
    std::vector<mixture> all;
    for (const auto& water : split(row.text("waters")))
        all.push_back(product(std::stod(water), row.text("parts"), row.text("sugars")));
    return all;
}

/// A cream caramel of that much water (common practice, no source).
mixture caramel_of(double water) {
    return product(water, "fat=15 protein=3", "sucrose=0.45 lactose=0.08 de42=0.47");
}

std::string word_of(double log10) {
    return std::string(word_for(std::pow(10.0, log10)).word);
}

TEST(products, get_the_word_that_describes_them) {
    std::size_t checked = 0;
    std::vector<std::string> disagreements;
    for (const auto& row : read_csv("products.csv").rows) {
        const auto mixtures = mixtures_of(row);
        const auto words = split(row.text("words"));
        const auto model = row.has("model_says") ? split(row.text("model_says")) : words;
        ASSERT_EQ(words.size(), mixtures.size()) << row.place();
        ASSERT_EQ(model.size(), mixtures.size()) << row.place();
        for (std::size_t i = 0; i < mixtures.size(); ++i) {
            SCOPED_TRACE(row.place() + " " + row.text("product") + ", " + row.text("texture"));
            ASSERT_NE(find_set_word(words[i]), nullptr) << words[i];
            const auto f = log10_firmness(mixtures[i], room_celsius);
            EXPECT_EQ(word_of(f.value), model[i])
                << "10^" << f.value << " Pa s at " << mixtures[i].water() << " % water";
            if (model[i] != words[i])
                disagreements.push_back(row.text("product") + " " + shortest(mixtures[i].water()));
            ++checked;
        }
    }
    EXPECT_EQ(checked, 20U);
    // taffy: the food table's water is calculated, not analysed; a syrup of 95 % solids has its glass transition
    // near room temperature by every published constant here.  caramel of 6 %: the dry end of a published range;
    // of 18 %: "runny" is here a ribbon, and the library one word firmer.
    EXPECT_EQ(disagreements, (std::vector<std::string>{"taffy 4.85", "caramel and fudge 6", "caramel 18"}));
}

TEST(products, water_activity_is_in_the_published_range) {
    // marks, most of them common practice or a supplier's, so the interval and the range have to overlap, no more
    int checked = 0;
    for (const auto& row : read_csv("products.csv").rows) {
        if (!row.has("water_activity")) continue;
        const auto& text = row.text("water_activity");
        const double low = std::stod(text), high = std::stod(text.substr(text.find('-') + 1));
        const auto mixtures = mixtures_of(row);
        // a range of water contents gives a range of activities: its ends
        const auto first = water_activity(mixtures.front(), room_celsius),
                   last = water_activity(mixtures.back(), room_celsius);
        EXPECT_LE(first.low, high) << row.place() << " " << first.value;
        // A known disagreement: maple syrup of 32.4 % water was reported at 0.87 to 0.88, but plain sucrose
        // of 32.7 % has 0.850 at 25 C (measured: sucrose_water_activity_25C.csv).
        const double missing = row.text("product") == "maple syrup" ? 0.018 : 0.0;
        EXPECT_GE(last.high, low - missing) << row.place() << " " << last.value;
        if (missing > 0.0) {
            EXPECT_NEAR(last.high, low - missing, 0.002) << row.place();
        }
        ++checked;
    }
    EXPECT_EQ(checked, 5);
}

TEST(products, are_judged_by_their_syrup_not_by_their_water) {
    // 20 % water with 20 % fat is a 74 % syrup and pours like thin honey; without fat it is an 80 % one and does
    // not
    const auto lean = product(20.0, "protein=2", "sucrose=0.5 de42=0.5");
    const auto rich = product(20.0, "protein=2 fat=20", "sucrose=0.5 de42=0.5");
    const double honey = log10_viscosity(of_pantry("honey"), room_celsius).value;
    EXPECT_NEAR(rich.syrup_solids(), 0.744, 0.002);
    EXPECT_LT(log10_viscosity(rich, room_celsius).value, honey);
    EXPECT_NEAR(lean.syrup_solids(), 0.796, 0.002);
    EXPECT_GT(log10_viscosity(lean, room_celsius).value, honey);
    // more fat: a thinner syrup still, though the drops crowd it
    const auto richer = product(20.0, "protein=2 fat=40", "sucrose=0.5 de42=0.5");
    EXPECT_LT(syrup_log10_viscosity(richer, room_celsius), syrup_log10_viscosity(rich, room_celsius) - 0.5);
}

TEST(caramel, is_clearly_harder_at_10_than_at_12_and_at_8_than_at_10_percent_water) {
    // Miller & Hartel, J. Food Eng. 153 (2015) 28, tell caramels of 12, 10 and 8 % water apart by hand
    const auto at = [](double water) { return log10_firmness(caramel_of(water), room_celsius); };
    EXPECT_GT(at(10.0).value, at(12.0).value + 1.0);
    EXPECT_GT(at(8.0).value, at(10.0).value + 1.0);
    // and by more than what is not known of either together would hide of the sign
    EXPECT_GT(at(8.0).low, at(12.0).high);
}

TEST(caramel, stops_flowing_cold_when_a_quarter_of_its_sugar_has_crystallized) {
    // Miller & Hartel 2015: cold flow vanishes at 25 to 30 % of the sugar.  The network law was calibrated on this
    // mark, so it is a regression, not a validation.  The piece: 1 cm high, 9 % water.
    const auto stands = [](double water, double share) {
        auto m = caramel_of(water);
        m.crystals(component::sucrose) = share * m.dissolved();
        m[component::sucrose] -= m.crystals(component::sucrose);
        return standing_metres(m, room_celsius).value;
    };
    EXPECT_LT(stands(9.0, 0.0), 0.01);
    EXPECT_LT(stands(9.0, 0.25), 0.01);
    EXPECT_GT(stands(9.0, 0.30), 0.01);
    // the law is not of one caramel: at other waters the mark moves little (not calibrated on)
    for (const double water : {8.0, 10.0, 12.0}) {
        EXPECT_LT(stands(water, 0.20), 0.01) << water;
        EXPECT_GT(stands(water, 0.32), 0.01) << water;
    }
    double previous = 0.0;
    for (double share = 0.0; share < 0.45; share += 0.05) {
        EXPECT_GT(stands(9.0, share), previous) << share;
        previous = stands(9.0, share);
    }
}

TEST(caramel, that_grained_is_short_not_hard) {
    // crystals take the sugar out of the syrup, so a grained caramel breaks instead of stretching (common
    // practice)
    const auto smooth = product(9.0, "fat=15 protein=3", "sucrose=0.8 lactose=0.08 de42=0.12");
    const auto grain = grained(smooth, room_celsius);
    EXPECT_GT(grain.crystals(component::sucrose), 20.0);
    EXPECT_LT(log10_viscosity(grain, room_celsius).value, log10_viscosity(smooth, room_celsius).value);
    EXPECT_GT(standing_metres(grain, room_celsius).value, standing_metres(smooth, room_celsius).value);
}

TEST(boiled_sweet, is_a_glass_at_room_temperature) {
    // commercial hard candies: Tg 28 to 49 C (Kawai et al. 2019, recalled); USDA NDB 19107 has 1.3 % water
    for (const double water : {1.3, 2.0, 3.0}) {
        const auto m = product(water, "", "sucrose=0.65 de42=0.35");
        EXPECT_GT(glass_celsius(m), 28.0) << water;
        EXPECT_EQ(word_of(log10_firmness(m, room_celsius).value), "glassy");
        EXPECT_EQ(word_of(log10_firmness(m, room_celsius).low), "glassy");
    }
    // and no glass in the pan
    EXPECT_LT(log10_firmness(product(2.0, "", "sucrose=0.65 de42=0.35"), 140.0).value, 3.0);
}

/// Each word's mark, as a batch: published (the pantry's rows name their food table) or common practice, no
/// source.
const std::map<std::string_view, mixture> marks = {
    {"whole milk", of_pantry("whole milk", true)},    // USDA NDB 01077
    {"maple syrup", of_pantry("maple syrup")},        // USDA NDB 19353
    {"honey", of_pantry("honey", true)},              // USDA NDB 19296
    {"dulce de leche", of_pantry("dulce de leche")},  // USDA NDB 01225
    // common practice, no source; boiled sweet 1.3 % water: USDA NDB 19107
    {"soft caramel of 12 % water", caramel_of(12.0)},
    {"caramel of 9 % water", caramel_of(9.0)},
    {"butterscotch of 5 % water", product(5.0, "fat=5 protein=0.1 salt=1", "sucrose=0.85 de42=0.15")},
    {"boiled sweet of 1.3 % water", product(1.3, "", "sucrose=0.65 de42=0.35")},
};

TEST(words, each_mark_is_in_its_band) {
    EXPECT_EQ(marks.size(), set_words.size());
    for (const auto& w : set_words) {
        const auto mark = marks.find(w.mark);
        ASSERT_NE(mark, marks.end()) << w.mark << " has no batch here";
        EXPECT_EQ(word_of(log10_firmness(mark->second, room_celsius).value), w.word) << w.mark;
    }
}

TEST(words, mean_for_a_layer_what_they_say) {
    // meanings of set_words, for syrups without a gel: 1 cm high, to half its height
    const auto seconds = [](double pa_s) {
        const auto m = plain_syrup(plain_solids_of_consistency(std::log10(pa_s)));
        return slump_to_half_seconds(m, room_celsius).value;
    };
    const auto from = [](const char* word) { return find_set_word(word)->from_pa_s; };
    EXPECT_LT(seconds(from("mounding")), 60.0);             // "slumps within a minute ...
    EXPECT_LT(seconds(from("soft set")), 3600.0);           // ... or minutes"
    EXPECT_GT(seconds(from("soft set")), serving_seconds);  // "keeps its edge while it is served;
    EXPECT_LT(seconds(from("chewy")), 24.0 * 3600.0);       // flows over hours"
    EXPECT_GT(seconds(from("chewy")), 3600.0);              // "holds a cut edge for hours"
    EXPECT_GT(seconds(from("hard")), 365.0 * 86400.0);
    // the same firmness as a gel: agar in water of a fifth of it in modulus gets the word, of a little less the
    // one before
    for (const auto& w : set_words) {
        if (w.from_pa_s < 50.0 || w.from_pa_s > 1.0e5) continue;  // thinner, water counts; firmer, no agar gel is
        for (const double more : {1.02, 0.98}) {
            mixture gel;
            gel[component::water] = 100.0;
            const double c = std::sqrt(more * w.from_pa_s / trying_seconds / 1.5e8);
            gel[component::agar] = 100.0 * c / (1.0 - c);
            EXPECT_EQ(word_of(log10_firmness(gel, 20.0).value) == w.word, more > 1.0) << w.word;
        }
    }
}

// ---- a spoonful of milk

TEST(milk, loosens_a_sauce_and_it_is_said_by_how_much) {
    batch b = cream_caramel(110.0);
    const auto p = predict_with_advice(b, stage_tables[0]);
    ASSERT_TRUE(p);
    // a tablespoon, 15 g, to 300 g
    EXPECT_NEAR(p->with_milk.milk_grams, 15.0 * p->finished.grams.value / 300.0, 1e-9);
    // by hand: the same milk in the finished batch
    mixture looser = p->finished.contents;
    const auto milk = *pantry_composition("whole milk");
    for (std::size_t i = 0; i < component_count; ++i) looser.grams[i] += p->with_milk.milk_grams * milk[i];
    looser.raw(component::protein) += p->with_milk.milk_grams * milk[index_of(component::protein)];
    EXPECT_NEAR(p->with_milk.log10_firmness.value, log10_firmness(looser, b.serve_celsius).value, 1e-9);
    EXPECT_EQ(p->with_milk.word, word_of(p->with_milk.log10_firmness.value));
    EXPECT_TRUE(holds(p->with_milk.log10_firmness, p->with_milk.log10_firmness.value));
    // a sauce of some 17 % water becomes two to ten times looser (common practice: it helps; the size is ours)
    const double factor = std::pow(10.0, p->set.log10_firmness.value - p->with_milk.log10_firmness.value);
    EXPECT_GT(factor, 2.0);
    EXPECT_LT(factor, 10.0);
    // the cook reads it
    const std::string page = lib::report(*p);
    EXPECT_NE(
        page.find(fixed(p->with_milk.milk_grams, 0) + " g stirred in makes it " + fixed(factor, 1) + " times"),
        std::string::npos)
        << page;
    // and the firmer it was, the more it loosens
    double previous = factor;
    for (const double t : {113.0, 116.0, 120.0}) {
        b.thermometer_celsius = t;
        const auto q = predict_with_advice(b, stage_tables[0]);
        const double by = std::pow(10.0, q->set.log10_firmness.value - q->with_milk.log10_firmness.value);
        EXPECT_GT(by, previous) << t;
        previous = by;
    }
}

}  // namespace
