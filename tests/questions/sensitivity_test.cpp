// Derivatives of the model against differences of the whole chain, linear propagation against Monte Carlo.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <sirop/questions/monte_carlo.hpp>
#include <string>
#include <vector>

#include "expect.hpp"
#include "pantry_mixtures.hpp"
#include "sweep.hpp"

namespace {

using namespace sirop;
using namespace sirop::core;
using namespace sirop_test;

ingredient_line glucose_syrup(double de, double grams) {
    return {"glucose syrup", starch_syrup_composition(de, 80.0), grams, 20.0};
}

batch cooked(const char* title, std::vector<ingredient_line> pan, std::vector<ingredient_line> off_heat,
             double thermometer_celsius) {
    batch b = batch_of(std::move(pan), thermometer_celsius, std::move(off_heat));
    b.title = title;
    return b;
}

/// Batches of the tests (invented).
batch plain_syrup_batch() {
    return cooked("plain syrup", {line("white sugar", 300), line("water", 150)}, {}, 112.0);
}
batch caramel() {
    return cooked("caramel with cream and butter",
                  {line("white sugar", 250), glucose_syrup(38.0, 60), line("heavy cream 36 %", 240)},
                  {line("butter, unsalted", 40)}, 118.0);
}
batch with_chocolate() {
    batch b = cooked("caramel with chocolate",
                     {line("white sugar", 200), line("glucose syrup 42 DE", 80), line("heavy cream 36 %", 200)},
                     {line("dark chocolate 60-69 %", 60, 30), line("butter, salted", 30)}, 111.0);
    b.serve_celsius = 18.0;
    return b;
}
batch at_altitude() {
    batch b = cooked("honey and milk at altitude",
                     {line("honey", 150), line("white sugar", 120), line("whole milk", 400), line("salt", 3)},
                     {line("light cream", 50)}, 106.0);
    b.thermometer_error_kelvin = 0.7;
    b.pressure_pa = 83000.0;
    b.serve_celsius = 22.0;
    return b;
}
batch that_flashes() {
    return cooked("warm cream on hot sugar",
                  {line("white sugar", 250), glucose_syrup(33.0, 150), line("water", 80)},
                  {line("heavy cream 36 %", 100, 85), line("milk chocolate", 150, 30)}, 165.0);
}
batch with_crystals() {
    return cooked("sugar stirred into a syrup",
                  {line("white sugar", 130), line("water", 100), line("lactose", 10)},
                  {line("white sugar", 300), line("skim milk powder", 60)}, 104.0);
}
batch frozen_sauce() {
    batch b = cooked(
        "sauce out of the freezer",
        {line("white sugar", 100), line("maple syrup", 100), line("half-and-half", 200), line("glycerol", 10)}, {},
        104.0);
    b.serve_celsius = -18.0;
    return b;
}
batch hard_candy() {
    return cooked("boiled sweets",
                  {line("white sugar", 300), line("high-maltose syrup", 150), line("light molasses", 20),
                   line("sorbitol syrup", 20), line("water", 100)},
                  {}, 156.0);
}
std::vector<batch> all_batches() {
    return {plain_syrup_batch(), caramel(),       with_chocolate(), at_altitude(),
            that_flashes(),      with_crystals(), frozen_sauce(),   hard_candy()};
}

/// Central difference, extrapolated twice by Richardson (h, h/2, h/4): the error left is of the order of h^6.
template <class Function>
double richardson(const Function& f, double h) {
    std::array<double, 3> d{};
    for (std::size_t i = 0; i < 3; ++i) {
        const double step = h / std::pow(2.0, static_cast<double>(i));
        d[i] = (f(step) - f(-step)) / (2.0 * step);
    }
    const double first = (4.0 * d[1] - d[0]) / 3.0, second = (4.0 * d[2] - d[1]) / 3.0;
    return (16.0 * second - first) / 15.0;
}

TEST(slopes, of_every_isotherm_are_its_derivatives) {
    // Floor: a difference of two values that are right to 1e-14 over the least step, h/4.  No step reaches over
    // the kinks at the ends of the fitted ranges (sucrose at 97 %, salt at 6 mol/kg).
    for (const auto& c : components)
        for (const double ln_aw : {-0.01, -0.1, -0.2, -0.35, -0.5, -0.7, -1.0, -1.7})
            for (const double celsius : {-15.0, 20.0, 70.0, 105.0, 125.0, 160.0}) {
                const double kelvin = celsius + formula::zero_celsius;
                const dual with_aw = water_held(c, dual(ln_aw, 1.0), dual(kelvin));
                const dual with_t = water_held(c, dual(ln_aw), dual(kelvin, 1.0));
                const double held = water_held(c, ln_aw, kelvin);
                EXPECT_EQ(with_aw.value, held);
                EXPECT_EQ(with_t.value, held);
                if (c.isotherm.kind == isotherm_kind::none) continue;
                const double step_aw = 0.01 * -ln_aw, step_t = 0.5;
                const double by_aw =
                    richardson([&](double x) { return water_held(c, ln_aw + x, kelvin); }, step_aw);
                const double by_t = richardson([&](double x) { return water_held(c, ln_aw, kelvin + x); }, step_t);
                EXPECT_NEAR(with_aw.slope, by_aw, 1.0e-7 * std::fabs(by_aw) + 1.0e-13 * held / step_aw)
                    << c.name << " " << ln_aw << " " << celsius;
                EXPECT_NEAR(with_t.slope, by_t, 1.0e-7 * std::fabs(by_t) + 1.0e-13 * held / step_t)
                    << c.name << " " << ln_aw << " " << celsius;
            }
}

/// Step of the difference of an input: small enough that no kink of a table lies within it.
double step_of(const uncertain_input& in) {
    switch (in.kind) {
        case input_kind::thermometer:
            return 0.1;
        case input_kind::pressure:
            return 2.0;
        case input_kind::weighing:
            return 0.004 * in.value;
        case input_kind::dextrose_equivalent:
            return 0.004;
        case input_kind::syrup_solids:
        case input_kind::fat:
            return 0.02 * std::fmin(in.value, 10.0);
    }
    return not_a_number;
}

// The issue asks 1e-6 relative.  Floor: both sides of the difference are right to about 1e-13 of the value (each
// is a chain of solves), divided by the step.  It matters only where an input moves nothing worth mention.
TEST(sensitivity, derivatives_agree_with_differences_of_the_whole_chain) {
    std::size_t compared = 0;
    double worst = 0.0;
    for (const auto& b : all_batches()) {
        const auto inputs = uncertain_inputs(b);
        const auto s = sensitivity_of(b, inputs);
        ASSERT_TRUE(s) << b.title << ": " << s.why.place << " " << s.why.reason;
        const auto value = outputs_of(b);
        ASSERT_TRUE(value) << b.title;
        for (std::size_t k = 0; k < output_count; ++k)
            EXPECT_NEAR(s->value[k], (*value)[k], 1.0e-12 * std::fabs((*value)[k])) << b.title;
        EXPECT_EQ(s->effects.size(), inputs.size());
        for (const auto& e : s->effects)
            for (const auto& o : output_table) {
                const std::size_t k = index_of(o.id);
                const double h = step_of(e.input);
                const double difference = richardson(
                    [&](double by) {
                        batch one = b;
                        core::detail::shift(one, e.input, by);
                        const auto out = outputs_of(one);
                        return out ? (*out)[k] : not_a_number;
                    },
                    h);
                const double floor = 1.0e-12 * std::fabs((*value)[k]) / h;
                EXPECT_NEAR(e.derivative[k], difference, 1.0e-6 * std::fabs(difference) + floor)
                    << b.title << ": " << o.name << " by " << e.input.name << " at " << e.input.place;
                if (std::fabs(difference) > 1.0e7 * floor) {
                    ++compared;
                    worst = std::fmax(worst, std::fabs(e.derivative[k] / difference - 1.0));
                }
            }
    }
    std::printf("    %zu derivatives well above the floor, worst %.2g relative\n", compared, worst);
    EXPECT_GE(compared, 150U);
}

// The derivative test above would not see a branch that no batch takes.
TEST(sensitivity, batches_of_the_tests_take_every_branch) {
    const auto at = [](const batch& b) { return finished_at(b, in_the_pan(b.pan), b.real_celsius()); };
    EXPECT_GT(at(that_flashes()).flashed_grams, 0.0);
    EXPECT_EQ(at(caramel()).flashed_grams, 0.0);
    EXPECT_GT(at(with_crystals()).contents.crystals(component::sucrose), 1.0);
    const auto chocolate = at(with_chocolate());
    EXPECT_GT(off_the_heat(with_chocolate().off_heat[0]).crystals(component::sucrose), 10.0);
    EXPECT_EQ(chocolate.contents.crystals(component::sucrose), 0.0);
    EXPECT_GT(at_temperature(at(frozen_sauce()).contents, -18.0).ice, 1.0);
    const auto solids = at(hard_candy()).contents.syrup_solids();
    EXPECT_GT(solids, 0.97);
}

// Nothing dissolved to speak of: the mix boils as water does, and its heat above that goes into steam.
TEST(sensitivity, derivatives_hold_where_free_water_flashes_off) {
    batch b;
    b.pan = {line("white sugar", 1.0e-9), line("water", 500)};
    b.off_heat = {line("clarified butter", 200, 115.0)};
    const mixture pan = in_the_pan(b.pan);
    const double celsius = water_boils_celsius(b.pressure_pa);
    const auto here = mix(pan, celsius, b.off_heat, b.pressure_pa);
    ASSERT_GT(here.flashed_grams, 0.0);
    ASSERT_EQ(here.celsius, celsius);
    const auto slope_of_left = [&](double by_grams, double by_pressure) {
        mixture_of<dual>::parts fat;
        for (std::size_t i = 0; i < component_count; ++i)
            fat[i] = {200.0 * b.off_heat[0].per_gram[i], by_grams * b.off_heat[0].per_gram[i]};
        additions_of<dual> added;
        added.add(as_it_arrives(fat, arrives_dry(b.off_heat[0].per_gram)), 115.0);
        return mix(in_scalar<dual>(pan), dual(celsius), added, dual(b.pressure_pa, by_pressure))
            .contents.water()
            .slope;
    };
    const auto left = [&](double grams, double pressure) {
        batch one = b;
        one.off_heat[0].grams += grams;
        return mix(pan, celsius, one.off_heat, b.pressure_pa + pressure).contents.water();
    };
    const double by_grams = richardson([&](double x) { return left(x, 0.0); }, 1.0);
    EXPECT_NEAR(slope_of_left(1.0, 0.0), by_grams, 1.0e-6 * std::fabs(by_grams));
    const double by_pressure = richardson([&](double x) { return left(0.0, x); }, 5.0);
    EXPECT_NEAR(slope_of_left(0.0, 1.0), by_pressure, 1.0e-6 * std::fabs(by_pressure));
}

std::vector<uncertain_input> scaled(std::vector<uncertain_input> inputs, double factor) {
    for (auto& in : inputs) in.standard_uncertainty *= factor;
    return inputs;
}

// At a twentieth of the usual uncertainties every output is straight, but for a second-order part that is a
// twentieth as large as at the usual ones.  n samples tell a standard deviation to 1/sqrt(2n) and a mean to
// 1/sqrt(n) of it; four of those are allowed (six in a hundred thousand by chance, for each of 24 numbers).
TEST(sensitivity, monte_carlo_agrees_with_the_linear_rule_where_it_is_smooth) {
    const std::size_t samples = std::max<std::size_t>(200, sweep(20000));
    const double n = static_cast<double>(samples);
    for (const auto& b : {caramel(), with_chocolate(), at_altitude()}) {
        const auto inputs = scaled(uncertain_inputs(b), 0.05);
        const auto s = sensitivity_of(b, inputs);
        const auto mc = monte_carlo(b, inputs, samples, 20240601);
        ASSERT_TRUE(s && mc);
        EXPECT_EQ(mc->not_computed, 0U);
        const auto check = check_linear(*s, *mc);
        for (const auto& o : output_table) {
            const std::size_t k = index_of(o.id);
            const double u = s->standard_uncertainty[k];
            const auto& of = mc->of[k];
            EXPECT_NEAR(of.standard_deviation / u, 1.0, 4.0 / std::sqrt(2.0 * n)) << b.title << " " << o.name;
            EXPECT_NEAR(of.standard_deviation_error / u, 1.0 / std::sqrt(2.0 * n), 0.3 / std::sqrt(2.0 * n));
            EXPECT_NEAR((of.mean - s->value[k]) / u, 0.0, 4.0 / std::sqrt(n)) << b.title << " " << o.name;
            // a percentile p of a normal sample: sqrt(p (1 - p)/n) over the density there, 0.05845
            const double percentile_error = std::sqrt(0.025 * 0.975 / n) / 0.05845;
            EXPECT_NEAR((of.low - s->value[k]) / u, -1.95996, 4.0 * percentile_error) << b.title << " " << o.name;
            EXPECT_NEAR((of.high - s->value[k]) / u, 1.95996, 4.0 * percentile_error) << b.title << " " << o.name;
            EXPECT_TRUE(check.holds[k]) << b.title << " " << o.name;
        }
        EXPECT_TRUE(check.notes.empty()) << b.title;
    }
}

TEST(sensitivity, reports_where_a_large_uncertainty_is_not_linear) {
    batch b = caramel();
    auto inputs = uncertain_inputs(b);
    inputs.resize(1);  // the thermometer alone
    inputs[0].standard_uncertainty = 6.0;
    const std::size_t samples = std::max<std::size_t>(2000, sweep(20000));
    const auto s = sensitivity_of(b, inputs);
    const auto mc = monte_carlo(b, inputs, samples, 5);
    ASSERT_TRUE(s && mc);
    const auto check = check_linear(*s, *mc);
    const std::size_t water = index_of(output::water_percent);
    EXPECT_FALSE(check.holds[water]);
    // water against temperature is a curve that opens upward: the mean lies above the best value
    EXPECT_GT(check.shift[water], 0.1);
    EXPECT_GT(mc->of[water].high - s->value[water], 1.2 * (s->value[water] - mc->of[water].low));
    ASSERT_FALSE(check.notes.empty());
    EXPECT_NE(check.notes[0].find("not linear"), std::string::npos) << check.notes[0];
    // and small, it is
    inputs[0].standard_uncertainty = 0.1;
    EXPECT_TRUE(check_linear(*sensitivity_of(b, inputs), *monte_carlo(b, inputs, samples, 5)).holds[water]);
}

TEST(sensitivity, counts_the_samples_that_do_not_boil) {
    batch b = plain_syrup_batch();
    b.thermometer_celsius = 0.2 + core::boiling_celsius(in_the_pan(b.pan), b.pressure_pa, curve::best);
    auto inputs = uncertain_inputs(b);
    inputs.resize(1);
    inputs[0].standard_uncertainty = 0.2;
    const auto mc = monte_carlo(b, inputs, 4000, 1);
    ASSERT_TRUE(mc);
    // below one standard uncertainty: 15.87 %, within four sampling errors
    const double expected = 0.158655 * 4000, error = std::sqrt(4000 * 0.158655 * 0.841345);
    EXPECT_NEAR(static_cast<double>(mc->not_computed), expected, 4.0 * error);
    const auto check = check_linear(*sensitivity_of(b, inputs), *mc);
    ASSERT_FALSE(check.notes.empty());
    EXPECT_NE(check.notes.back().find("could not be computed"), std::string::npos);
}

TEST(sensitivity, the_same_seed_gives_the_same_samples) {
    const auto b = caramel();
    const auto inputs = uncertain_inputs(b);
    const auto one = monte_carlo(b, inputs, 300, 9), two = monte_carlo(b, inputs, 300, 9),
               other = monte_carlo(b, inputs, 300, 10);
    ASSERT_TRUE(one && two && other);
    for (std::size_t k = 0; k < output_count; ++k) {
        EXPECT_EQ(one->of[k].mean, two->of[k].mean);
        EXPECT_EQ(one->of[k].high, two->of[k].high);
        EXPECT_NE(one->of[k].mean, other->of[k].mean);
    }
}

TEST(sensitivity, the_thermometer_decides_a_caramel) {
    const auto b = caramel();
    const auto s = sensitivity_of(b, uncertain_inputs(b));
    ASSERT_TRUE(s);
    EXPECT_EQ(s->effects[0].input.kind, input_kind::thermometer);
    for (const auto& o : output_table) {
        const std::size_t k = index_of(o.id);
        EXPECT_GT(s->effects[0].share_percent[k], 50.0) << o.name;
        double shares = 0.0, squares = 0.0;
        for (const auto& e : s->effects) {
            shares += e.share_percent[k];
            squares += e.contribution[k] * e.contribution[k];
            EXPECT_EQ(e.contribution[k], std::fabs(e.derivative[k]) * e.input.standard_uncertainty);
        }
        EXPECT_NEAR(shares, 100.0, 1.0e-9);
        EXPECT_NEAR(s->standard_uncertainty[k], std::sqrt(squares), 1.0e-12 * std::sqrt(squares));
    }
    const std::size_t set = index_of(output::log10_firmness);
    for (std::size_t i = 1; i < s->effects.size(); ++i)
        EXPECT_LE(s->effects[i].share_percent[set], s->effects[i - 1].share_percent[set]);
    // hotter is drier, stiffer and less active; thinner air makes the same temperature drier
    EXPECT_LT(s->effects[0].derivative[index_of(output::water_percent)], 0.0);
    EXPECT_LT(s->effects[0].derivative[index_of(output::water_activity)], 0.0);
    EXPECT_GT(s->effects[0].derivative[set], 0.0);
    for (const auto& e : s->effects)
        if (e.input.kind == input_kind::pressure) {
            EXPECT_GT(e.derivative[index_of(output::water_percent)], 0.0);
        }
}

TEST(inputs, are_found_by_what_the_lines_are) {
    const auto count = [](const std::vector<uncertain_input>& list, input_kind kind) {
        return std::count_if(list.begin(), list.end(), [&](const auto& in) { return in.kind == kind; });
    };
    batch b = with_chocolate();
    b.pan.push_back(line("honey", 20));
    b.off_heat.push_back(line("milk chocolate", 10));
    b.off_heat.push_back(line("whole milk", 400));
    b.off_heat.push_back(line("water", 0));
    const auto list = uncertain_inputs(b);
    EXPECT_EQ(count(list, input_kind::thermometer), 1);
    EXPECT_EQ(count(list, input_kind::pressure), 1);
    EXPECT_EQ(count(list, input_kind::weighing), 8);  // nothing of 0 g
    EXPECT_EQ(count(list, input_kind::dextrose_equivalent), 1);
    EXPECT_EQ(count(list, input_kind::syrup_solids), 2);  // glucose syrup and honey
    EXPECT_EQ(count(list, input_kind::fat), 2);           // cream and milk, not the chocolates
    const auto at = [&](const std::string& place) {
        const auto found =
            std::find_if(list.begin(), list.end(), [&](const auto& in) { return in.place == place; });
        EXPECT_NE(found, list.end()) << place;
        return found == list.end() ? uncertain_input{} : *found;
    };
    EXPECT_EQ(list[0].kind, input_kind::thermometer);
    EXPECT_EQ(list[0].standard_uncertainty, 1.0);
    EXPECT_EQ(at("pan[1].dextrose_equivalent").kind, input_kind::dextrose_equivalent);
    EXPECT_EQ(at("pan[1].dextrose_equivalent").name, "dextrose equivalent of glucose syrup 42 DE");
    EXPECT_NEAR(at("pan[1].dextrose_equivalent").value, 42.0, 0.05);  // the row is rounded to 0.01 g per 100 g
    EXPECT_EQ(at("off_heat[3].grams").standard_uncertainty, 2.0);
    EXPECT_EQ(at("off_heat[0].grams").standard_uncertainty, 1.0);
    EXPECT_NEAR(at("off_heat[3].fat_percent").standard_uncertainty, 0.25 * 3.25, 1.0e-3);
    b.thermometer_within_kelvin = 1.96;
    EXPECT_NEAR(uncertain_inputs(b)[0].standard_uncertainty, 1.0, 1.0e-4);
}

TEST(inputs, shift_a_composition_and_keep_its_sum) {
    const auto sum = [](const masses& m) {
        double total = 0.0;
        for (const double x : m) total += x;
        return total;
    };
    const masses syrup = starch_syrup_composition(38.0, 80.0), cream = *pantry_composition("heavy cream 36 %");
    const auto de = core::detail::shifted(syrup, input_kind::dextrose_equivalent, 5.5);
    const auto expected = starch_syrup_composition(43.5, 80.0);
    for (std::size_t i = 0; i < component_count; ++i) EXPECT_NEAR(de[i], expected[i], 1.0e-9);
    const auto drier = core::detail::shifted(syrup, input_kind::syrup_solids, 2.0);
    const auto table = starch_syrup_composition(38.0, 82.0);
    for (std::size_t i = 0; i < component_count; ++i) EXPECT_NEAR(drier[i], table[i], 1.0e-12);
    const auto fatter = core::detail::shifted(cream, input_kind::fat, 3.0);
    EXPECT_NEAR(core::detail::fat_share(fatter), core::detail::fat_share(cream) + 0.03, 1.0e-12);
    for (const auto& m : {de, drier, fatter}) EXPECT_NEAR(sum(m), 1.0, 1.0e-9);
    // beyond the table its end goes on
    for (const double by : {-40.0, 30.0})
        EXPECT_NEAR(sum(core::detail::shifted(syrup, input_kind::dextrose_equivalent, by)), 1.0, 1.0e-9);
}

TEST(sensitivity, refuses_with_a_place_and_a_reason) {
    const auto expect = [](const batch& b, const std::vector<uncertain_input>& inputs, const std::string& place) {
        const auto s = sensitivity_of(b, inputs);
        expect_no(s, place);
        EXPECT_FALSE(s.why.reason.empty());
        expect_no(monte_carlo(b, inputs, 100, 1), place);
    };
    const batch good = caramel();
    const auto inputs = uncertain_inputs(good);
    expect(good, {}, "inputs");
    auto bad = inputs;
    bad[1].standard_uncertainty = -1.0;
    expect(good, bad, "inputs[1].standard_uncertainty");
    bad[1].standard_uncertainty = not_a_number;
    expect(good, bad, "inputs[1].standard_uncertainty");
    bad = inputs;
    bad[2].line = 9;
    expect(good, bad, "inputs[2].line");
    bad = inputs;
    bad[2].kind = input_kind::dextrose_equivalent;  // of white sugar
    expect(good, bad, "inputs[2].kind");
    batch b = good;
    b.thermometer_celsius = 60.0;
    expect(b, inputs, "cook");
    b.thermometer_celsius = 240.0;
    expect(b, inputs, "cook");
    b = good;
    b.pan[1].grams = -1.0;
    expect(b, inputs, "pan[1].grams");
    b = good;
    b.pan = {line("water", 100)};
    expect(b, inputs, "pan");
    EXPECT_EQ(monte_carlo(good, inputs, 1, 1).why.place, "samples");
    EXPECT_EQ(monte_carlo(good, inputs, 1000001, 1).why.place, "samples");
}

}  // namespace
