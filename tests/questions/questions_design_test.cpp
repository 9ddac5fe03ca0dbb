// Substitution and formulation: what is told holds for the batch that is answered, or it is refused with its
// reason.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "expect.hpp"
#include "mixtures.hpp"
#include "pantry_mixtures.hpp"
#include "sirop/cooking/advice.hpp"
#include "sirop/questions/formulate.hpp"
#include "sirop/questions/substitute.hpp"
#include "sweep.hpp"

namespace {

using namespace sirop::core;
using namespace sirop_test;

// --- sweetness ------------------------------------------------------------

TEST(sweetness, is_that_of_sucrose_gram_for_gram_and_adds_up) {
    mixture m = made_of({{component::water, 60.0}, {component::sucrose, 30.0}});
    m.crystals(component::sucrose) = 10.0;
    EXPECT_DOUBLE_EQ(sweetness_percent(m).value, 40.0);
    m[component::fat] = 100.0;
    EXPECT_DOUBLE_EQ(sweetness_percent(m).value, 20.0);
    m[component::fructose] = 10.0;
    EXPECT_DOUBLE_EQ(sweetness_grams(m).value, 54.0);
    EXPECT_DOUBLE_EQ(sweetness_grams(m).low, 52.0);
    EXPECT_DOUBLE_EQ(sweetness_grams(m).high, 57.0);
    for (const auto& c : components)
        EXPECT_TRUE(c.sweetness.low <= c.sweetness.value && c.sweetness.value <= c.sweetness.high) << c.name;
    EXPECT_FALSE(sweetness_percent(mixture{}).computed());
}

// --- substitution ------------------------------------------------------------

/// Invented batches.
batch caramel() {
    batch b = batch_of({line("white sugar", 180), line("brown sugar", 60), line("glucose syrup 42 DE", 120),
                        line("heavy cream 36 %", 260), line("water", 40)},
                       114.0, {line("butter, unsalted", 30)});
    b.serve_celsius = 18.0;
    return b;
}
batch chocolate_sauce() {
    batch b = batch_of({line("white sugar", 90), line("glucose syrup 42 DE", 80), line("whole milk", 200)}, 105.0,
                       {line("milk chocolate", 120), line("cocoa powder", 10)});
    b.pour_celsius = 40.0;
    return b;
}

substitution ask(batch b, line_place at, std::vector<replacement> with) {
    substitution q;
    q.plan = std::move(b);
    q.replaced = at;
    q.with = std::move(with);
    return q;
}

/// What every answer has to hold, whatever was replaced.
void expect_sound(const substitution& q, const substitution_answer& s) {
    // set: the firmness by the main job, on the new batch as it stands
    auto after = predict(s.plan, stage_tables[0]), before = predict(q.plan, stage_tables[0]);
    ASSERT_TRUE(after) << after.why.reason;
    ASSERT_TRUE(before);
    EXPECT_NEAR(after->set.log10_firmness.value, before->set.log10_firmness.value,
                std::log10(data_of(measure::firmness_pa_s).usual_within));
    EXPECT_NEAR(after->set.log10_firmness.value, s.after.log10_firmness, 1.0e-9);
    EXPECT_EQ(after->set.word, s.after.word);
    EXPECT_GE(s.cook.thermometer_celsius, s.cook.low_celsius);
    EXPECT_LE(s.cook.thermometer_celsius, s.cook.high_celsius);
    // sweetness, graining, yield: as told, and within what is allowed
    EXPECT_NEAR(s.after.sweetness_percent, sweetness_percent(after->finished.contents).value, 1.0e-7);
    EXPECT_LE(std::fabs(s.after.sweetness_percent / s.before.sweetness_percent - 1.0), sweetness_may_move);
    EXPECT_LE(std::fabs(s.after.dry_grams / s.before.dry_grams - 1.0), yield_may_move);
    EXPECT_EQ(s.after.risk, std::max(after->graining_at_serving.risk, after->graining_in_storage.risk));
    EXPECT_TRUE(s.after.risk < graining_risk::high || s.before.risk == graining_risk::high);
    EXPECT_NEAR(s.after.water_activity, after->keeping_in_storage.water_activity.value, 1.0e-9);
    EXPECT_NEAR(s.after.fat_percent, after->finished.fat_percent.value, 1.0e-7);
    EXPECT_NEAR(s.after.grams, after->finished.grams.value, 1.0e-7 * s.after.grams);
    // masses: what goes in comes out, but for the water
    mixture in = in_the_pan(s.plan.pan);
    in += in_the_pan(s.plan.off_heat);
    EXPECT_NEAR(in.total() - in.water(), s.after.dry_grams, 1.0e-9 * in.total());
    const auto expect_placed = [&](const auto& told) {
        const auto* placed = detail::find_line(s.plan, told.place);
        ASSERT_NE(placed, nullptr);
        EXPECT_EQ(placed->name, told.name);
        EXPECT_EQ(placed->grams, told.grams);
    };
    for (const auto& r : s.replacements) {
        EXPECT_GE(r.grams, 0.0);
        expect_placed(r);
    }
    for (const auto& c : s.changed) expect_placed(c);
    const std::size_t lines_before = q.plan.pan.size() + q.plan.off_heat.size();
    EXPECT_EQ(s.plan.pan.size() + s.plan.off_heat.size(), lines_before - 1 + q.with.size());
    EXPECT_GE(s.trades.size(), 12u);
    EXPECT_EQ(s.residuals.size(), kept_amounts.size());
    EXPECT_FALSE(s.reasons.empty());
}

void expect_done(const substitution& q) {
    const auto s = substitute(q);
    ASSERT_TRUE(s) << s.why.place << ": " << s.why.reason;
    expect_sound(q, *s);
}

TEST(substitute, part_of_the_sugar_by_glucose_syrup) {
    expect_done(ask(caramel(), {batch_list::pan, 1}, {{line("glucose syrup 62 DE")}}));
}
TEST(substitute, all_of_the_sugar_by_glucose_syrup_and_fructose) {
    auto b = caramel();
    b.pan.erase(b.pan.begin() + 1);
    expect_done(ask(b, {batch_list::pan, 0}, {{line("glucose syrup 42 DE")}, {line("fructose")}}));
}
TEST(substitute, glucose_syrup_by_honey) {
    expect_done(ask(caramel(), {batch_list::pan, 2}, {{line("honey")}}));
}
TEST(substitute, cream_by_milk_and_butter) {
    const auto q = ask(caramel(), {batch_list::pan, 3}, {{line("whole milk")}, {line("butter, unsalted")}});
    expect_done(q);
    // the fat of the cream, nearly
    const auto s = substitute(q);
    EXPECT_NEAR(s->residuals[2].after_grams / s->residuals[2].before_grams, 1.0, 0.05);
}
TEST(substitute, milk_chocolate_by_dark) {
    auto q = ask(chocolate_sauce(), {batch_list::off_heat, 0}, {{line("dark chocolate 60-69 %")}});
    expect_done(q);
    q.may_change = {{{batch_list::pan, 0}}, {{batch_list::off_heat, 1}}};
    expect_done(q);
    // what may change lets it come nearer in sweetness
    const auto fewer = substitute(ask(q.plan, q.replaced, q.with)), more = substitute(q);
    EXPECT_LT(std::fabs(more->residuals[0].after_grams - more->residuals[0].before_grams),
              std::fabs(fewer->residuals[0].after_grams - fewer->residuals[0].before_grams));
}

TEST(substitute, by_the_same_composition_changes_nothing) {
    auto twin = line("glucose syrup 42 DE");
    twin.name = "bench syrup (invented)";
    const auto b = caramel();
    const auto s = substitute(ask(b, {batch_list::pan, 2}, {{twin}}));
    ASSERT_TRUE(s) << s.why.reason;
    EXPECT_NEAR(s->replacements[0].grams, 120.0, 1.0e-6);
    EXPECT_NEAR(s->cook.thermometer_celsius, b.thermometer_celsius, 1.0e-6);
    // beside lines that may change, too; and two twins share
    auto q = ask(b, {batch_list::pan, 2}, {{twin}, {twin}});
    q.with[1].line.name = "other syrup (invented)";
    q.may_change = {{{batch_list::pan, 0}}, {{batch_list::off_heat, 0}}};
    const auto shared = substitute(q);
    ASSERT_TRUE(shared) << shared.why.reason;
    EXPECT_NEAR(shared->replacements[0].grams, 60.0, 1.0e-6);
    EXPECT_NEAR(shared->replacements[1].grams, 60.0, 1.0e-6);
    EXPECT_NEAR(shared->changed[0].grams, 180.0, 1.0e-6);
    EXPECT_NEAR(shared->changed[1].grams, 30.0, 1.0e-6);
    EXPECT_EQ(shared->plan.pan.size(), b.pan.size() + 1);
}

TEST(substitute, does_not_mind_order_or_size) {
    const auto q = ask(caramel(), {batch_list::pan, 3},
                       {{line("whole milk")}, {line("butter, unsalted")}, {line("skim milk powder")}});
    const auto s = substitute(q);
    ASSERT_TRUE(s) << s.why.reason;
    auto turned = q;
    std::reverse(turned.with.begin(), turned.with.end());
    const auto other = substitute(turned);
    ASSERT_TRUE(other) << other.why.reason;
    for (std::size_t i = 0; i < 3; ++i)
        EXPECT_NEAR(s->replacements[i].grams, other->replacements[2 - i].grams, 1.0e-6);
    EXPECT_NEAR(s->cook.thermometer_celsius, other->cook.thermometer_celsius, 1.0e-6);
    for (const double factor : {0.01, 37.0, 1.0e4}) {
        auto other_size = q;
        other_size.plan = sized(q.plan, factor);
        const auto scaled = substitute(other_size);
        ASSERT_TRUE(scaled) << scaled.why.reason;
        for (std::size_t i = 0; i < 3; ++i)
            EXPECT_NEAR(scaled->replacements[i].grams / factor, s->replacements[i].grams, 1.0e-6);
        EXPECT_NEAR(scaled->cook.thermometer_celsius, s->cook.thermometer_celsius, 1.0e-6);
    }
}

void expect_refused(const substitution& q, const char* place, std::initializer_list<const char*> words) {
    expect_no(substitute(q), place, words);
}

TEST(substitute, refuses_lines_that_are_not_there) {
    const std::vector<replacement> honey = {{line("honey")}};
    expect_refused(ask(caramel(), {batch_list::pan, 5}, honey), "replace", {"pan[5]", "it has 5"});
    expect_refused(ask(caramel(), {batch_list::off_heat, 1}, honey), "replace", {"off_heat[1]", "it has 1"});
    expect_refused(ask(caramel(), {batch_list::pan, 2}, {{line("Glucose syrup 42 de ")}}), "with[0]",
                   {"is the ingredient to be replaced"});
    expect_refused(ask(caramel(), {batch_list::pan, 2}, {}), "with", {"0 replacements", "1 to 4"});
    expect_refused(ask(caramel(), {batch_list::pan, 2}, std::vector<replacement>(5, honey[0])), "with",
                   {"5 replacements", "1 to 4"});
    expect_refused(ask(caramel(), {batch_list::pan, 2}, {{line("honey"), 0.0}}), "with[0].at_most_grams",
                   {"above 0"});
    expect_refused(ask(caramel(), {batch_list::pan, 2}, {{ingredient_line{"nothing", {}, 0.0}}}), "with[0]",
                   {"composition"});
    auto q = ask(caramel(), {batch_list::pan, 2}, honey);
    q.may_change = {{{batch_list::pan, 2}}};
    expect_refused(q, "may_change[0]", {"is the line that is replaced"});
    q.may_change = {{{batch_list::pan, 0}}, {{batch_list::pan, 0}}};
    expect_refused(q, "may_change[1]", {"named twice"});
    q.may_change = {{{batch_list::pan, 0}, 20.0, 10.0}};
    expect_refused(q, "may_change[0]", {"from 20 to 10 g"});
    q = ask(caramel(), {batch_list::pan, 2}, honey);
    q.plan.thermometer_celsius = 90.0;
    expect_refused(q, "cook", {"90.0 °C", "accepted range"});
    q.plan.pan[2].grams = 0.0;
    expect_refused(q, "replace", {"0 g"});
}

TEST(substitute, says_why_it_cannot_be_done) {
    // not sweet enough
    auto b = caramel();
    b.pan.erase(b.pan.begin() + 1);
    expect_refused(ask(b, {batch_list::pan, 0}, {{line("maltodextrin 10 DE")}}), "with",
                   {"white sugar by maltodextrin 10 DE cannot be done because", "sweetness would go from",
                    "something sweeter"});
    expect_refused(ask(b, {batch_list::pan, 0}, {{line("glucose syrup 28 DE")}}), "with",
                   {"cannot be done because", "sweetness would go from"});
    // the same for a bound, which is named
    expect_refused(ask(b, {batch_list::pan, 0}, {{line("fructose"), 15.0}}), "with",
                   {"cannot be done because", "sweetness", "fructose is at its bound of 15.0 g"});
    // it would grain
    const batch safe = batch_of(
        {line("white sugar", 150), line("glucose syrup 42 DE", 220), line("heavy cream 36 %", 100)}, 114.0);
    ASSERT_LT(predict(safe, stage_tables[0])->graining_in_storage.risk, graining_risk::high);
    expect_refused(ask(safe, {batch_list::pan, 1}, {{line("white sugar")}}), "with",
                   {"cannot be done because", "risk of graining rises from", "to high", "invert sugar"});
    // hardly anything is left of it
    const batch milk = batch_of(
        {line("sweetened condensed milk", 300), line("glucose syrup 42 DE", 30), line("water", 60)}, 104.0);
    expect_refused(ask(milk, {batch_list::pan, 0}, {{line("sweetened condensed skim milk"), 90.0}}), "with",
                   {"cannot be done because", "yield without water", "at its bound of 90 g"});
    // no water to boil off
    const batch toffee = batch_of({line("white sugar", 200), line("whole milk", 100)}, 115.0);
    expect_refused(ask(toffee, {batch_list::pan, 1}, {{line("clarified butter")}}), "with",
                   {"cannot be done because pan:", "water"});
    // water that stays makes it too thin at any temperature
    const batch ganache = batch_of({line("white sugar", 60), line("glucose syrup 42 DE", 60), line("water", 30)},
                                   118.0, {line("dark chocolate 70-85 %", 300)});
    expect_refused(ask(ganache, {batch_list::off_heat, 0}, {{line("whole milk"), 900.0}}), "with",
                   {"cannot be done because wanted:", "cannot be had"});
}

// --- formulation ------------------------------------------------------------

const char* const pan_pool[] = {
    "white sugar", "glucose syrup 42 DE", "heavy cream 36 %", "whole milk", "water",
    "honey",       "invert sugar syrup",  "butter, unsalted", "salt",       "raspberry puree"};
const char* const off_heat_pool[] = {"butter, unsalted", "dark chocolate 60-69 %", "heavy cream 36 %",
                                     "cocoa butter"};

/// A batch that exists, what it has as targets, and a start beside it.
struct planted {
    formulation question;
    batch truth;
};

std::optional<planted> plant(random_numbers& random) {
    planted p;
    auto& q = p.question;
    auto& b = p.truth;
    b.serve_celsius = random.between(4.0, 25.0);
    b.store_celsius = random.below(2) == 0 ? b.serve_celsius : random.between(4.0, 20.0);
    b.pressure_pa = random.between(8.5e4, 1.02e5);
    b.thermometer_error_kelvin = random.below(3) == 0 ? random.between(-2.0, 2.0) : 0.0;
    b.pan = {line("white sugar", random.between(60.0, 250.0))};
    for (std::size_t i = 1; i < std::size(pan_pool); ++i)
        if (i == 4 || random.below(2) == 0)
            b.pan.push_back(line(pan_pool[i], std::string_view(pan_pool[i]) == "salt"
                                                  ? random.between(0.5, 4.0)
                                                  : random.between(20.0, 200.0)));
    for (const char* name : off_heat_pool)
        if (random.below(4) == 0) b.off_heat.push_back(line(name, random.between(5.0, 80.0)));
    const cook_path path(b);
    const double celsius = path.boils_celsius + random.between(2.0, 22.0);
    if (find_pan_fault(path) || celsius > path.last_celsius - 1.0) return std::nullopt;
    b.thermometer_celsius = celsius + b.thermometer_error_kelvin;
    const mixture finished = path.finished_at(celsius);
    const auto f = measures_of(b, finished);

    q.kitchen = b;
    q.kitchen.thermometer_celsius = not_a_number;
    const auto perturb = [&](const std::vector<ingredient_line>& from, std::vector<formula_line>& to) {
        for (const auto& l : from) {
            formula_line line{l};
            line.is_free = random.below(4) != 0;
            if (line.is_free) {
                line.line.grams *= random.between(0.7, 1.4);
                line.at_least_grams = 0.4 * l.grams;
                line.at_most_grams = random.below(5) == 0 ? HUGE_VAL : 2.5 * l.grams;
            }
            to.push_back(line);
        }
    };
    perturb(b.pan, q.pan);
    perturb(b.off_heat, q.off_heat);
    q.sets.push_back(random.below(4) == 0
                         ? wanted_word(f.word)
                         : wanted_number(measure::firmness_pa_s, std::pow(10.0, f.log10_firmness)));
    if (random.below(2) == 0) {
        const double warm = b.serve_celsius + random.between(10.0, 40.0);
        grade ignored = grade::fine;
        const double there = detail::log10_firmness_value(finished, warm, history::cooling, ignored);
        q.sets.push_back(random.below(2) == 0
                             ? wanted_word(word_for(std::pow(10.0, there)).word, warm)
                             : wanted_number(measure::firmness_pa_s, std::pow(10.0, there), warm));
    }
    if (random.below(3) != 0) q.sweetness_percent = number_target{f.sweetness_percent, 1.0};
    if (random.below(3) != 0) q.fat_percent = number_target{f.fat_percent, 1.0};
    if (random.below(2) == 0) q.graining_at_most = f.risk;
    if (random.below(2) == 0) q.water_activity_at_most = f.water_activity + 0.002;
    if (random.below(3) != 0) {
        const bool grams = random.below(2) == 0;
        q.yield =
            yield_target{grams ? f.grams : f.millilitres, grams ? yield_unit::grams : yield_unit::millilitres};
    }
    return p;
}

/// Each target again, from the main job on the batch that was answered.
void expect_met(const formulation& q, const formulation_answer& a) {
    const auto p = predict(a.plan, stage_tables[0]);
    ASSERT_TRUE(p) << p.why.reason;
    const mixture& finished = p->finished.contents;
    for (std::size_t i = 0; i < q.sets.size(); ++i) {
        const double v = measured(q.sets[i], finished, p->cooked.contents, a.plan.serve_celsius);
        const auto band = band_of(q.sets[i]);
        EXPECT_GE(v, band->low - 1.0e-9);
        EXPECT_LE(v, band->high + 1.0e-9);
        EXPECT_NEAR(v, a.targets[i].value, 1.0e-8);
    }
    const auto near = [&](const char* what, double value, const std::optional<number_target>& t) {
        if (t) {
            EXPECT_NEAR(value, t->value, t->within + 1.0e-9) << what;
        }
    };
    near("sweetness", sweetness_percent(finished).value, q.sweetness_percent);
    near("fat", p->finished.fat_percent.value, q.fat_percent);
    if (q.graining_at_most) {
        EXPECT_LE(std::max(p->graining_at_serving.risk, p->graining_in_storage.risk), *q.graining_at_most);
    }
    if (q.water_activity_at_most) {
        EXPECT_LE(p->keeping_in_storage.water_activity.value, *q.water_activity_at_most + 1.0e-9);
    }
    if (q.yield) {
        const double v =
            q.yield->unit == yield_unit::grams ? p->finished.grams.value : p->finished.millilitres.value;
        EXPECT_NEAR(v, q.yield->amount, 0.01 * q.yield->within_percent * q.yield->amount * (1.0 + 1.0e-9));
    }
    for (const auto& t : a.targets) EXPECT_TRUE(t.met) << t.wanted_text << ": " << t.value_text;
}

void expect_lines(const std::vector<formula_line>& asked, const std::vector<ingredient_line>& got) {
    ASSERT_EQ(asked.size(), got.size());
    for (std::size_t i = 0; i < asked.size(); ++i) {
        EXPECT_EQ(asked[i].line.name, got[i].name);
        if (!asked[i].is_free) {
            EXPECT_EQ(asked[i].line.grams, got[i].grams);
            continue;
        }
        EXPECT_GE(got[i].grams, asked[i].at_least_grams) << got[i].name;
        EXPECT_LE(got[i].grams, asked[i].at_most_grams) << got[i].name;
    }
}

TEST(formulate, finds_a_batch_for_the_properties_of_a_batch) {
    random_numbers random(404);
    std::size_t asked = 0, failed = 0;
    for (const std::size_t count = sweep(300); asked < count;) {
        const auto p = plant(random);
        if (!p) continue;
        ++asked;
        SCOPED_TRACE(asked);
        const auto a = formulate(p->question);
        if (!a) {
            ++failed;
            ADD_FAILURE() << a.why.place << ": " << a.why.reason;
            continue;
        }
        expect_met(p->question, *a);
        expect_lines(p->question.pan, a->plan.pan);
        expect_lines(p->question.off_heat, a->plan.off_heat);
        EXPECT_GE(a->plan.thermometer_celsius, a->low_celsius - 1.0e-6);
        EXPECT_LE(a->plan.thermometer_celsius, a->high_celsius + 1.0e-6);
    }
    EXPECT_EQ(failed, 0u);
}

TEST(substitute, is_sound_or_says_why_not_for_any_batch) {
    random_numbers random(31);
    std::size_t asked = 0, done = 0;
    for (const std::size_t count = sweep(400); asked < count;) {
        const auto p = plant(random);
        if (!p) continue;
        ++asked;
        SCOPED_TRACE(asked);
        const bool off_heat = !p->truth.off_heat.empty() && random.below(3) == 0;
        const auto& lines = off_heat ? p->truth.off_heat : p->truth.pan;
        auto q =
            ask(p->truth, {off_heat ? batch_list::off_heat : batch_list::pan, random.below(lines.size())}, {});
        for (std::size_t i = 0, many = 1 + random.below(3); i < many; ++i) {
            const char* name = pan_pool[random.below(std::size(pan_pool))];
            if (!same_name(name, lines[q.replaced.index].name)) q.with.push_back({line(name)});
        }
        if (q.with.empty()) q.with.push_back({line("fructose")});
        if (const line_place sugar{batch_list::pan, 0}; random.below(3) == 0 && !(q.replaced == sugar))
            q.may_change = {{sugar, 10.0, 400.0}};
        const auto s = substitute(q);
        if (s) {
            ++done;
            expect_sound(q, *s);
        } else {
            EXPECT_EQ(s.why.place, "with");
            EXPECT_NE(s.why.reason.find(" cannot be done because "), std::string::npos) << s.why.reason;
        }
    }
    if (asked >= 100) {
        EXPECT_GT(10 * done, asked);  // it is not refusals alone
    }
}

formula_line kept(const char* name, double grams) {
    return {line(name, grams)};
}
formula_line open_line(const char* name, double guess, double at_least = 0.0, double at_most = HUGE_VAL) {
    return {line(name, guess), true, at_least, at_most};
}

/// An invented order: ten portions of a sauce that pours warm and mounds cold.
formulation order() {
    formulation q;
    q.kitchen.serve_celsius = 20.0;
    q.kitchen.store_celsius = 5.0;
    q.pan = {open_line("white sugar", 100), open_line("glucose syrup 42 DE", 100),
             kept("heavy cream 36 %", 137.25), open_line("water", 50, 20.0), kept("salt", 1.23)};
    q.off_heat = {open_line("butter, unsalted", 30)};
    q.sets = {wanted_word("ribbon"), wanted_word("pourable", 45.0)};
    q.sweetness_percent = number_target{38.0, 1.0};
    q.fat_percent = number_target{20.0, 1.0};
    q.graining_at_most = graining_risk::low;
    q.water_activity_at_most = 0.85;
    q.yield = portions_of(10, 40);
    return q;
}

TEST(formulate, fills_an_order) {
    const auto q = order();
    const auto a = formulate(q);
    ASSERT_TRUE(a) << a.why.place << ": " << a.why.reason;
    expect_met(q, *a);
    expect_lines(q.pan, a->plan.pan);
    expect_lines(q.off_heat, a->plan.off_heat);
    EXPECT_EQ(a->targets.size(), 7u);
    // the grams are those that a cook weighs, and the temperature that a thermometer shows
    for (const auto* lines : {&a->plan.pan, &a->plan.off_heat})
        for (const auto& l : *lines) {
            if (l.name == "salt" || l.name == "heavy cream 36 %") continue;
            const double per_gram = l.grams >= 50.0 ? 1.0 : 10.0;
            EXPECT_NEAR(l.grams * per_gram, std::round(l.grams * per_gram), 1.0e-9) << l.name;
        }
    const double tenths = 10.0 * a->plan.thermometer_celsius;
    EXPECT_NEAR(tenths, std::round(tenths), 1.0e-9);
    // it says the same again, and a tenfold order is ten times as much
    EXPECT_EQ(formulate(q)->reason, a->reason);
    auto tenfold = q;
    for (auto* lines : {&tenfold.pan, &tenfold.off_heat})
        for (auto& l : *lines) {
            l.line.grams *= 10.0;
            l.at_least_grams *= 10.0;
        }
    tenfold.yield = portions_of(100, 40);
    const auto more = formulate(tenfold);
    ASSERT_TRUE(more) << more.why.reason;
    for (std::size_t i = 0; i < q.pan.size(); ++i)  // but for what is rounded
        EXPECT_NEAR(more->plan.pan[i].grams, 10.0 * a->plan.pan[i].grams, 5.5) << q.pan[i].line.name;
}

TEST(formulate, does_with_what_is_free) {
    auto q = order();
    // nothing: only the temperature is sought
    for (auto* lines : {&q.pan, &q.off_heat})
        for (auto& l : *lines) l.is_free = false;
    q.sets = {wanted_word("mounding")};
    q.sweetness_percent.reset();
    q.fat_percent.reset();
    q.graining_at_most.reset();
    q.water_activity_at_most.reset();
    q.yield.reset();
    const auto a = formulate(q);
    ASSERT_TRUE(a) << a.why.reason;
    expect_met(q, *a);
    expect_lines(q.pan, a->plan.pan);
    EXPECT_EQ(a->measures.word, "mounding");
    EXPECT_LT(a->low_celsius, a->high_celsius);
    // no set: the cook stays near the temperature given, and there is no window
    q = order();
    q.sets.clear();
    q.kitchen.thermometer_celsius = 108.0;
    const auto b = formulate(q);
    ASSERT_TRUE(b) << b.why.reason;
    expect_met(q, *b);
    EXPECT_TRUE(std::isnan(b->low_celsius));
    EXPECT_NEAR(b->plan.thermometer_celsius, 108.0, 10.0);
}

void expect_unmet(const formulation& q, const char* place, std::initializer_list<const char*> words) {
    expect_no(formulate(q), place, words);
}
/// An order of which one thing is changed.
template <class Change>
void expect_unmet(const Change& change, const char* place, std::initializer_list<const char*> words) {
    auto q = order();
    change(q);
    expect_unmet(q, place, words);
}

TEST(formulate, names_what_cannot_be_met_and_what_binds) {
    auto q = order();
    q.off_heat[0].at_most_grams = 32.0;
    q.fat_percent = number_target{45.0, 1.0};
    expect_unmet(q, "wanted.fat_percent",
                 {"cannot be done because fat of 45.0 % within 1 is not met: the nearest found is",
                  "off_heat[0], butter, unsalted, is at its most, 32.0 g"});
    q = order();
    q.sweetness_percent = number_target{70.0, 1.0};
    q.fat_percent.reset();
    expect_unmet(q, "wanted.sweetness_percent", {"cannot be done because sweetness of 70.0 %"});
    // fixed grams alone are more than the yield
    q = order();
    q.yield = portions_of(1, 40);
    expect_unmet(q, "wanted.yield_grams", {"a yield of 40 g within 2 %", "at its least"});
    // one temperature cannot be both
    q = order();
    q.sets = {wanted_word("hard"), wanted_word("thin", 21.0)};
    expect_unmet(q, "wanted.set_word", {"cannot be done because", "is not met: the nearest found is"});
    q = order();
    q.water_activity_at_most = 0.3;
    expect_unmet(q, "wanted.water_activity_at_most", {"a water activity of at most 0.3 at 5 °C", "also missed"});
}

TEST(formulate, refuses_questions_that_are_none) {
    expect_unmet([](formulation& q) { q.pan[0].at_least_grams = 50.0, q.pan[0].at_most_grams = 40.0; }, "pan[0]",
                 {"from 50 to 40 g", "accepted"});
    expect_unmet([](formulation& q) { q.pan[0].line.grams = -1.0; }, "pan[0].grams",
                 {"-1 is outside the accepted range"});
    expect_unmet([](formulation& q) { q.sets.push_back(wanted_word("soft set", 5.0)); }, "sets",
                 {"3 are given; up to 2"});
    expect_unmet([](formulation& q) { q.sets[0].name = "runny"; }, "sets[0].set_word",
                 {"\"runny\" is not a word"});
    expect_unmet([](formulation& q) { q.fat_percent->within = 0.0; }, "fat_percent.within", {"above 0"});
    expect_unmet([](formulation& q) { q.sweetness_percent->value = not_a_number; }, "sweetness_percent",
                 {"0 to 200"});
    expect_unmet([](formulation& q) { q.water_activity_at_most = 1.5; }, "water_activity_at_most",
                 {"1.5 is outside"});
    expect_unmet([](formulation& q) { q.yield->amount = 0.0; }, "yield", {"above 0"});
    expect_unmet([](formulation& q) { q.kitchen.pressure_pa = 1.0; }, "cook.pressure_hpa", {"accepted range"});
    formulation empty;
    empty.pan = {open_line("white sugar", 100), open_line("water", 50)};
    expect_unmet(empty, "wanted", {"names nothing"});
    empty.yield = portions_of(1, 100);
    empty.pan = {kept("butter, unsalted", 100)};
    empty.pan[0].line = line("clarified butter", 100);
    expect_unmet(empty, "pan", {"nothing dissolved"});
}

}  // namespace
