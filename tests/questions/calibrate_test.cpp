// Learning a kitchen: planted offsets and losses come back, with the uncertainty that is stated.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <sirop/questions/calibrate.hpp>
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

constexpr double planted_offset = 1.5, planted_loss = 6.0;

/// Batches that a kitchen logs (invented), each at the temperature shown.
batch syrup(double shown) {
    return batch_of({line("white sugar", 300), line("water", 600)}, shown);
}
batch honey_milk(double shown) {
    batch b = batch_of({line("honey", 150), line("white sugar", 120), line("whole milk", 400)}, shown);
    b.pressure_pa = 97000.0;
    return b;
}

enum class measured { mass, brix, both };

/// A log of what the main job says of the batch at its real temperature.
cook_log cooked(batch b, measured what, double offset = planted_offset, double loss = planted_loss) {
    cook_log log;
    log.cook = b;
    b.thermometer_error_kelvin += offset;
    const auto p = predict(b, stage_tables[0]);
    EXPECT_TRUE(p) << p.why.place << ": " << p.why.reason;
    if (!p) return log;
    if (what != measured::brix) log.grams = p->finished.grams.value - loss;
    if (what != measured::mass) log.brix = p->finished.brix_of_syrup_phase.value;
    return log;
}
std::vector<cook_log> eight_logs(double offset = planted_offset, double loss = planted_loss) {
    return {cooked(cream_caramel(112), measured::mass, offset, loss),
            cooked(syrup(105), measured::both, offset, loss),
            cooked(honey_milk(104), measured::brix, offset, loss),
            cooked(cream_caramel(120), measured::mass, offset, loss),
            cooked(syrup(112), measured::brix, offset, loss),
            cooked(honey_milk(108), measured::mass, offset, loss),
            cooked(syrup(104.5), measured::mass, offset, loss),
            cooked(cream_caramel(109), measured::both, offset, loss)};
}
std::vector<cook_log> with_noise(std::vector<cook_log> logs, std::uint64_t seed) {
    core::detail::normal_numbers random(seed);
    for (auto& l : logs) {
        l.cook.thermometer_celsius += 0.3 * random.next();
        l.grams += std::fmax(2.0, 0.005 * l.grams) * random.next();
        l.brix += 0.5 * random.next();
    }
    return logs;
}
kitchen_fit fitted(const std::vector<cook_log>& logs) {
    const auto fit = learn_kitchen(logs);
    EXPECT_TRUE(fit) << fit.why.place << ": " << fit.why.reason;
    return fit ? *fit : kitchen_fit{};
}

// Without noise least squares has the planted values for its root: what is left is that of the solves.
TEST(kitchen, recovers_what_was_planted_without_noise) {
    for (const double offset : {-4.0, -0.3, 0.0, 1.5, 3.3})
        for (const double loss : {0.5, 6.0, 20.0}) {
            const auto fit = fitted(eight_logs(offset, loss));
            EXPECT_NEAR(fit.offset_kelvin.value, offset, 1.0e-6);
            EXPECT_NEAR(fit.loss_grams.value, loss, 1.0e-6);
            EXPECT_LT(fit.reduced_chi_square, 1.0e-10);
            EXPECT_EQ(fit.measurements, 10U);
            EXPECT_EQ(fit.degrees_of_freedom, 8U);
            EXPECT_FALSE(fit.offset_kelvin.at_bound || fit.loss_grams.at_bound);
            EXPECT_TRUE(fit.notes.empty());
        }
}

// 9 of 10 repeats are asked, a 95 % interval is stated.  If it is right, fewer than 180 of 200 cover the planted
// value with a probability of 0.1 % (binomial, 0.95); if it covered only 85 %, 180 or more would with 2.5 %.
// The other side: the stated uncertainty is the scatter of the answers, but for its sampling error (four of
// 1/sqrt(2n)) and the widening where a set of logs happens to scatter more than stated (up to 15 %).
TEST(kitchen, covers_the_planted_values_in_nine_of_ten_noisy_repeats) {
    const std::size_t repeats = std::max<std::size_t>(20, sweep(200));
    const auto exact = eight_logs();
    std::size_t offsets = 0, losses = 0;
    double squares = 0.0, stated = 0.0;
    for (std::size_t i = 0; i < repeats; ++i) {
        const auto fit = fitted(with_noise(exact, 1000 + i));
        offsets += fit.offset_kelvin.low <= planted_offset && planted_offset <= fit.offset_kelvin.high ? 1 : 0;
        losses += fit.loss_grams.low <= planted_loss && planted_loss <= fit.loss_grams.high ? 1 : 0;
        squares += std::pow(fit.offset_kelvin.value - planted_offset, 2);
        stated += std::pow(fit.offset_kelvin.standard_uncertainty, 2);
    }
    const double n = static_cast<double>(repeats);
    std::printf("    %zu repeats: offset covered %zu, loss %zu; scatter %.3f K, stated %.3f K\n", repeats, offsets,
                losses, std::sqrt(squares / n), std::sqrt(stated / n));
    EXPECT_GE(10 * offsets, 9 * repeats);
    EXPECT_GE(10 * losses, 9 * repeats);
    EXPECT_NEAR(std::sqrt(squares / stated), 1.0, 0.15 + 4.0 / std::sqrt(2.0 * n));
}

TEST(kitchen, brix_alone_tells_the_offset_and_says_that_it_does_not_tell_the_loss) {
    const auto fit = fitted({cooked(syrup(104), measured::brix), cooked(honey_milk(106), measured::brix),
                             cooked(cream_caramel(110), measured::brix)});
    EXPECT_NEAR(fit.offset_kelvin.value, planted_offset, 1.0e-6);
    EXPECT_FALSE(fit.loss_grams.determined);
    EXPECT_TRUE(std::isnan(fit.loss_grams.value));
    EXPECT_TRUE(std::isnan(fit.correlation));
    EXPECT_EQ(fit.degrees_of_freedom, 2U);
    EXPECT_TRUE(mentions(fit.notes, "loss in the pan is not determined"));
}

TEST(kitchen, masses_alone_tell_both) {
    const auto fit = fitted({cooked(syrup(104.5), measured::mass), cooked(syrup(112), measured::mass),
                             cooked(cream_caramel(110), measured::mass), cooked(honey_milk(103), measured::mass)});
    EXPECT_NEAR(fit.offset_kelvin.value, planted_offset, 1.0e-6);
    EXPECT_NEAR(fit.loss_grams.value, planted_loss, 1.0e-6);
    EXPECT_GT(std::fabs(fit.correlation), 0.1);
    EXPECT_LT(std::fabs(fit.correlation), 1.0);
}

// The uncertainty against one that is worked out here: a second logged cook like the first halves the variance of
// a Brix-only fit, and the slope is that of the whole chain by differences.
TEST(kitchen, states_the_uncertainty_that_the_slopes_and_errors_give) {
    auto first = cooked(syrup(106), measured::brix), second = first;
    first.brix_error = second.brix_error = 0.3;
    first.reading_error_kelvin = second.reading_error_kelvin = 0.0;
    const auto slope_at = [](double offset) {
        const auto brix = [](double x) { return cooked(syrup(106), measured::brix, x).brix; };
        return std::fabs(brix(offset + 0.01) - brix(offset - 0.01)) / 0.02;
    };
    // tolerance: the error of the difference, (0.01 K)^2 times a curvature of about 1/K^2
    const auto fit = fitted({first, second});
    const double u = fit.offset_kelvin.standard_uncertainty;
    EXPECT_NEAR(u / (0.3 / slope_at(planted_offset) / std::sqrt(2.0)), 1.0, 1.0e-4);
    EXPECT_NEAR(fit.offset_kelvin.high - fit.offset_kelvin.low, 2.0 * 1.959964 * u, 1.0e-6);
    // the reading of the thermometer comes in quadrature
    first.reading_error_kelvin = second.reading_error_kelvin = 0.4;
    EXPECT_NEAR(fitted({first, second}).offset_kelvin.standard_uncertainty / std::hypot(u, 0.4 / std::sqrt(2.0)),
                1.0, 1.0e-4);
    first.reading_error_kelvin = second.reading_error_kelvin = 0.0;
    // two readings 2 Brix apart scatter by more than they state: widened by the root of chi-square
    second.brix += 2.0;
    const auto apart = fitted({first, second});
    EXPECT_NEAR(apart.reduced_chi_square, 2.0 * 1.0 / (0.3 * 0.3), 1.0e-6);
    EXPECT_NEAR(apart.offset_kelvin.standard_uncertainty / (std::sqrt(apart.reduced_chi_square) * 0.3 /
                                                            slope_at(apart.offset_kelvin.value) / std::sqrt(2.0)),
                1.0, 1.0e-4);
    EXPECT_TRUE(mentions(apart.notes, "widened"));
}

TEST(kitchen, slopes_of_the_measures_agree_with_differences) {
    for (const auto& log : eight_logs()) {
        const core::detail::kitchen_log ready(log, 0);
        for (const double offset : {-2.0, 0.0, 1.5}) {
            const auto s = ready.with_slopes(offset);
            const auto difference = [&](auto member, double h) {
                return (ready.at(offset - h).*member - ready.at(offset + h).*member) / (2.0 * h);
            };
            const auto slope = [&](auto member) {
                return (4.0 * difference(member, 0.01) - difference(member, 0.02)) / 3.0;
            };
            using state = core::detail::kitchen_log::state;
            const double grams = slope(&state::grams), brix = slope(&state::brix);
            EXPECT_NEAR(s.grams_by_kelvin, grams, 1.0e-6 * std::fabs(grams)) << offset;
            EXPECT_NEAR(s.brix_by_kelvin, brix, 1.0e-6 * std::fabs(brix)) << offset;
        }
    }
}

TEST(kitchen, does_not_mind_the_order_of_logs_and_repeats_itself) {
    auto logs = with_noise(eight_logs(), 7);
    const auto first = fitted(logs), again = fitted(logs);
    EXPECT_EQ(first.offset_kelvin.value, again.offset_kelvin.value);
    EXPECT_EQ(first.loss_grams.standard_uncertainty, again.loss_grams.standard_uncertainty);
    std::reverse(logs.begin(), logs.end());
    std::rotate(logs.begin(), logs.begin() + 3, logs.end());
    const auto other = fitted(logs);
    EXPECT_NEAR(other.offset_kelvin.value, first.offset_kelvin.value, 1.0e-7);
    EXPECT_NEAR(other.loss_grams.value, first.loss_grams.value, 1.0e-6);
    EXPECT_NEAR(other.offset_kelvin.standard_uncertainty, first.offset_kelvin.standard_uncertainty, 1.0e-7);
}

TEST(kitchen, adds_to_what_the_batches_say_of_the_thermometer) {
    auto logs = eight_logs();
    for (auto& l : logs) {  // the same cooks, with half a kelvin of the offset already known
        l.cook.thermometer_error_kelvin = 0.5;
    }
    EXPECT_NEAR(fitted(logs).offset_kelvin.value, planted_offset - 0.5, 1.0e-6);
}

TEST(kitchen, names_an_outlier_and_refuses_a_contradiction) {
    auto logs = with_noise(eight_logs(), 3);
    logs[3].grams -= 24.0;  // about ten standard errors
    const auto fit = fitted(logs);
    EXPECT_TRUE(mentions(fit.notes, "logs[3].grams"));
    std::size_t outliers = 0;
    for (const auto& r : fit.residuals) {
        outliers += r.outlier ? 1 : 0;
        EXPECT_NEAR(r.normalized, (r.measured - r.predicted) / r.standard_error, 1.0e-12);
        EXPECT_EQ(r.outlier, std::fabs(r.normalized) > 3.5);
    }
    EXPECT_EQ(outliers, 1U);
    EXPECT_GT(fit.reduced_chi_square, 1.0);
    logs[3].grams -= 90.0;
    logs[3].grams_error = 1.0;
    const auto refused = learn_kitchen(logs);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.why.place.substr(0, 5), "logs[");
    EXPECT_NE(refused.why.reason.find("contradicts"), std::string::npos) << refused.why.reason;
}

TEST(kitchen, flags_what_ends_at_a_bound) {
    // the pans weigh more than they should: a loss below 0
    auto fit = fitted(eight_logs(1.5, -4.0));
    EXPECT_EQ(fit.loss_grams.value, 0.0);
    EXPECT_TRUE(fit.loss_grams.at_bound);
    EXPECT_TRUE(mentions(fit.notes, "bound of 0 g"));
    // a thermometer 17 K off
    std::vector<cook_log> far = {cooked(syrup(106), measured::brix, 0.0), cooked(syrup(108), measured::brix, 0.0)};
    for (auto& l : far) l.cook.thermometer_celsius += 17.0;
    fit = fitted(far);
    EXPECT_EQ(fit.offset_kelvin.value, 15.0);
    EXPECT_TRUE(fit.offset_kelvin.at_bound);
    EXPECT_TRUE(mentions(fit.notes, "bound of 15 K"));
}

void expect_refused(const std::vector<cook_log>& logs, const std::string& place, const char* reason) {
    expect_no(learn_kitchen(logs), place, {reason});
}

TEST(kitchen, refuses_bad_logs_with_their_place) {
    const auto good = eight_logs();
    const auto with = [&](auto&& change) {
        auto logs = good;
        change(logs[2]);
        return logs;
    };
    constexpr double infinity = std::numeric_limits<double>::infinity();
    expect_refused(with([](cook_log& l) { l.grams = 671.0; }), "logs[2].grams", "more than went in, 670.0 g");
    expect_refused(with([](cook_log& l) { l.grams = 0.0; }), "logs[2].grams", "more than 0 g");
    expect_refused(with([](cook_log& l) { l.grams = -5.0; }), "logs[2].grams", "-5");
    expect_refused(with([&](cook_log& l) { l.grams = infinity; }), "logs[2].grams", "more than went in");
    expect_refused(with([](cook_log& l) { l.grams = 150.0; }), "logs[2].grams", "cannot boil off");
    expect_refused(with([](cook_log& l) { l.brix = 96.0; }), "logs[2].brix", "95");
    expect_refused(with([](cook_log& l) { l.brix = -1.0; }), "logs[2].brix", "95");
    expect_refused(with([](cook_log& l) { l.brix_error = 0.0; }), "logs[2].brix_error", "above 0");
    expect_refused(with([&](cook_log& l) { l.grams_error = infinity; }), "logs[2].grams_error", "above 0");
    expect_refused(with([](cook_log& l) { l.reading_error_kelvin = -0.1; }), "logs[2].reading_error_kelvin",
                   "0 to 15");
    expect_refused(with([](cook_log& l) { l.cook.pan[1].grams = -1.0; }), "logs[2].pan[1].grams", "outside");
    expect_refused(with([](cook_log& l) { l.cook.pan.clear(); }), "logs[2].pan", "is empty");
    expect_refused(with([](cook_log& l) { l.cook.pan = {line("water", 100)}; }), "logs[2].pan", "dissolved");
    expect_refused(with([](cook_log& l) { l.cook.thermometer_celsius = 60.0; }), "logs[2].cook", "15 K");
    expect_refused(with([](cook_log& l) { l.cook.thermometer_celsius = not_a_number; }), "logs[2].cook",
                   "outside");
    expect_refused({}, "logs", "at least 2");
    expect_refused({good[0]}, "logs", "at least 2");
    auto unmeasured = good;
    for (std::size_t i = 1; i < unmeasured.size(); ++i) unmeasured[i].grams = unmeasured[i].brix = not_a_number;
    expect_refused(unmeasured, "logs", "1 of 8 logs");
    // the same cook weighed twice cannot tell an offset from a loss
    expect_refused({good[0], good[0]}, "logs", "too much alike");
}

TEST(kitchen, is_used_by_the_predictions) {
    const auto fit = fitted(with_noise(eight_logs(), 11));
    batch next = cream_caramel(115);
    next.thermometer_error_kelvin = 0.25;
    const batch here = apply(fit, next);
    EXPECT_EQ(here.thermometer_error_kelvin, 0.25 + fit.offset_kelvin.value);
    EXPECT_NEAR(here.thermometer_within_kelvin, 0.5 * (fit.offset_kelvin.high - fit.offset_kelvin.low), 1.0e-12);
    const auto p = predict(here, stage_tables[0]);
    ASSERT_TRUE(p);
    EXPECT_NEAR(p->cooked.celsius, 115.0 - here.thermometer_error_kelvin, 1.0e-12);
    const auto out = expected_yield(fit, p->finished.grams);
    EXPECT_NEAR(out.value, p->finished.grams.value - fit.loss_grams.value, 1.0e-12);
    EXPECT_LT(out.low, out.value);
    EXPECT_GE(out.high - out.low, p->finished.grams.high - p->finished.grams.low);
    // without masses: as predicted
    const auto blind = fitted({cooked(syrup(104), measured::brix), cooked(syrup(108), measured::brix)});
    EXPECT_EQ(expected_yield(blind, p->finished.grams).value, p->finished.grams.value);
}

}  // namespace
