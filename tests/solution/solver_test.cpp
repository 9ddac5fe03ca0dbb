// The quick solves against slow ones that share nothing with them but the laws: each law inverted inside a
// bracket, and the mixture's equation inside another.  How often the quick way needs a bracket itself is counted.
#include <gtest/gtest.h>
#include <sirop/base/limits.hpp>
#include <sirop/solution/mixture.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdio>

#include "mixtures.hpp"
#include "sweep.hpp"

namespace {

using namespace sirop::core;
namespace formula = sirop::formula;
using namespace sirop_test;

double bracketed(const component_data& c, double ln_aw, double kelvin) {
    return detail::by_law(
        c.isotherm, ln_aw, kelvin,
        [&](const auto& law, const auto&, double least_log_water) {
            return detail::bracketed_water(law, ln_aw, 0.2, least_log_water);
        },
        [&](const auto& known) { return known(ln_aw); });
}

/// ln of what a mixture holds over its water, in liquid and glass.
double off_by(const mixture& m, double ln_aw, double kelvin) {
    const double ln_liquid = ln_aw - glass_ln_activity(m, m.water(), kelvin);
    if (!(ln_liquid < 0.0)) return 100.0 + ln_liquid;  // the glass alone does more
    double held = 0.0;
    for (const auto& c : components)
        if (m[c.id] > 0.0) held += m[c.id] * bracketed(c, ln_liquid, kelvin);
    return std::log(held / m.water());
}

/// One to six solutes and solids in random amounts, in 3 to 99 % of the whole.
mixture random_mixture(random_numbers& random) {
    mixture m;
    const std::size_t parts = 1 + random.below(6);
    while (m.dissolved() + m.sum(phase::suspended) <= 0.0)
        for (std::size_t i = 0; i < parts; ++i)
            m[components[1 + random.below(component_count - 1)].id] += std::pow(10.0, random.between(-3.0, 0.0));
    const double solids = random.between(0.03, 0.99);
    m[component::water] = (m.dissolved() + m.sum(phase::suspended)) * (1.0 - solids) / solids;
    return m;
}

/// What was asked, what was answered by the quick and the slow way, and how often a bracket was needed.
struct tally {
    std::size_t asked = 0, answered = 0, by_bracket = 0;
    double worst = 0.0;

    template <class Search>
    void ask(const mixture& m, const Search& search) {
        ++asked;
        detail::solids_of<double> solids(m);
        const auto from = detail::begin(search, solids, m.water());
        const double quick = detail::balance(
            search, solids.glass, [&](double ln, double t, double error) { return solids.held(ln, t, error); },
            m.water(), curve::best, from, solids.brackets);
        const auto off = [&](double u) {
            const auto state = search.at(std::exp(u));
            return off_by(m, state.ln_aw, state.kelvin);
        };
        const double low = std::log(search.least()), high = std::log(search.most());
        if (off(low) <= 0.0) {
            ASSERT_EQ(quick, 0.0) << describe(m);
            return;
        }
        const double slow = std::exp(solve_monotone(off, 0.0, low, high));
        ASSERT_EQ(std::isnan(quick), std::isnan(slow)) << describe(m);
        if (std::isnan(slow)) return;
        ++answered;
        by_bracket += solids.brackets_used() > 0;
        worst = std::max(worst, std::fabs(quick / slow - 1.0));
        ASSERT_NEAR(quick / slow, 1.0, 1.0e-9) << describe(m) << search.kelvin();
    }
    void report(const char* name) const {
        std::printf("    %s: %zu of %zu answered, worst %.1e of the distance, %zu with a bracket\n", name,
                    answered, asked, worst, by_bracket);
        EXPECT_LE(by_bracket, answered / 100) << name;
        EXPECT_GE(answered, asked / 2) << name;
    }
};

TEST(Solves, AreThoseOfTheBrackets) {
    const std::size_t count = sweep(100000);
    random_numbers random(20240401);
    tally boils, evaporates, freezes;
    for (std::size_t i = 0; i < count && !HasFatalFailure(); ++i) {
        const mixture m = random_mixture(random);
        boils.ask(m,
                  detail::boiling_search<double>{100.0 * random.between(pressure_limit.low, pressure_limit.high)});
        evaporates.ask(m, detail::activity_search<double>{random.between(243.15, 423.15)});
        freezes.ask(m, detail::freezing_search{});
    }
    boils.report("boiling");
    evaporates.report("evaporating");
    freezes.report("freezing");
}

// One component at a time, to the driest and the most dilute.
TEST(Solves, OfALawAreThoseOfTheBracket) {
    const std::size_t count = sweep(200000);
    random_numbers random(20240402);
    std::size_t by_bracket = 0;
    double worst = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        const auto& c = components[1 + random.below(component_count - 1)];
        const double ln_aw = -std::exp(random.between(-16.0, 2.5)), kelvin = random.between(243.15, 523.15);
        if (c.isotherm.kind == isotherm_kind::none) continue;
        detail::holding<double> at{};
        const double quick = detail::find_water(c.isotherm, ln_aw, kelvin, precision<double>::last_step, at);
        by_bracket += at.brackets > 0;
        const double slow = bracketed(c, ln_aw, kelvin);
        worst = std::max(worst, std::fabs(quick / slow - 1.0));
        ASSERT_NEAR(quick / slow, 1.0, 1.0e-9) << c.name << ' ' << ln_aw << ' ' << kelvin;
    }
    std::printf("    worst %.1e, %zu of %zu with a bracket\n", worst, by_bracket, count);
    EXPECT_LE(by_bracket, count / 1000);
}

}  // namespace
