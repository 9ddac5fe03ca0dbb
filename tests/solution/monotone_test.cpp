// A dense random sweep: water at the boil falls with temperature, rises with pressure and with every component,
// and no inverse fails.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "sirop/base/limits.hpp"
#include "sirop/solution/mixture.hpp"
#include "sweep.hpp"

namespace {

using namespace sirop;
using namespace sirop::core;

TEST(Monotone, InTemperaturePressureAndEachComponentOverAMillionPoints) {
    std::mt19937_64 random(40);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    const std::size_t count = sirop_test::sweep(1000000);
    for (std::size_t i = 0; i < count; ++i) {
        mixture m;
        m[component::sucrose] = unit(random);
        for (const auto& c : components)
            if (c.id != component::water && unit(random) < 0.25) m[c.id] = std::pow(unit(random), 2);
        const double pa = 100.0 * (pressure_limit.low + (pressure_limit.high - pressure_limit.low) * unit(random));
        const double celsius = water_boils_celsius(pa) + std::pow(10.0, -2.0 + 3.9 * unit(random));
        const double kelvin = celsius + formula::zero_celsius;
        const double held = water_held(m, ln_activity_at_boil(celsius, pa), kelvin);
        ASSERT_TRUE(std::isfinite(held) && held > 0.0) << celsius << " C, " << pa << " Pa";
        const double hotter = celsius + 0.01;
        ASSERT_LT(water_held(m, ln_activity_at_boil(hotter, pa), hotter + formula::zero_celsius), held)
            << celsius << " C, " << pa << " Pa";
        ASSERT_LT(water_held(m, ln_activity_at_boil(celsius, 0.999 * pa), kelvin), held)
            << celsius << " C, " << pa;
        const auto& more = components[1 + i % (component_count - 1)];
        mixture richer = m;
        richer[more.id] += 0.1;
        const double with_more = water_held(richer, ln_activity_at_boil(celsius, pa), kelvin);
        if (more.isotherm.kind == isotherm_kind::none)
            ASSERT_EQ(with_more, held) << more.name;
        else
            ASSERT_GT(with_more, held) << more.name;
    }
}

}  // namespace
