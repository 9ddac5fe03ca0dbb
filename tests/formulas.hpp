// All formulas, and what holds for each of them on another scalar than double.
#pragma once

// A formula on float rounds results of double arithmetic to float; the compilers say so for each line of it.
#if defined(__clang__)
#pragma clang diagnostic push
#pragma clang diagnostic ignored "-Wimplicit-float-conversion"
#elif defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wfloat-conversion"
#endif
#include <sirop/formula/density.hpp>
#include <sirop/formula/glass.hpp>
#include <sirop/formula/heat.hpp>
#include <sirop/formula/isotherm.hpp>
#include <sirop/formula/refraction.hpp>
#include <sirop/formula/solubility.hpp>
#include <sirop/formula/texture.hpp>
#include <sirop/formula/water.hpp>
#if defined(__clang__)
#pragma clang diagnostic pop
#elif defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

#include <gtest/gtest.h>

#include <Eigen/Core>
#include <string_view>

namespace sirop_test {

/// with_each(check) calls check(name, point, formula) for each formula.
/// Float carries 6e-8.  Tolerance 1e-5: the saturation line and the ice line subtract numbers a hundred times
/// larger than their difference.
template <class WithEach>
void expect_the_same_on_float(const WithEach& with_each) {
    with_each([](std::string_view name, double at, const auto& f) {
        const float value = f(static_cast<float>(at));
        const double exact = f(static_cast<double>(static_cast<float>(at)));
        EXPECT_NEAR(static_cast<double>(value) / exact, 1.0, 1.0e-5) << name;
    });
}

/// Tolerance 1e-13: Eigen's own exp and log may differ in the last bit.
template <class WithEach>
void expect_the_same_on_arrays(const WithEach& with_each) {
    with_each([](std::string_view name, double at, const auto& f) {
        Eigen::ArrayXd points(5);
        points << 0.98 * at, 0.99 * at, at, 1.01 * at, 1.02 * at;
        const Eigen::ArrayXd values = f(points);
        ASSERT_EQ(values.size(), 5) << name;
        for (Eigen::Index i = 0; i < 5; ++i) {
            const double alone = f(points[i]);
            EXPECT_NEAR(values[i] / alone, 1.0, 1.0e-13) << name << " at " << points[i];
        }
    });
}

}  // namespace sirop_test
