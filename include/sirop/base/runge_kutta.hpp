// One step of a system of ordinary differential equations.
#pragma once

#include <array>
#include <cstddef>

#include "../formula/no_fast_math.hpp"

namespace sirop::core {

/// The state after a step, by the classical rule of fourth order (Kutta 1901).  `slope_of` gives the slope of a
/// state.  No allocation, no state of its own, on any scalar: a library's stepper throws, and cannot be compiled
/// for small machines.
template <class Scalar, std::size_t N, class Slope>
std::array<Scalar, N> runge_kutta_step(const std::array<Scalar, N>& y, const Scalar& step, const Slope& slope_of) {
    const auto ahead = [&](const std::array<Scalar, N>& slope, const Scalar& by) {
        std::array<Scalar, N> there = y;
        for (std::size_t i = 0; i < N; ++i) there[i] += by * slope[i];
        return there;
    };
    const auto a = slope_of(y);
    const auto b = slope_of(ahead(a, 0.5 * step));
    const auto c = slope_of(ahead(b, 0.5 * step));
    const auto d = slope_of(ahead(c, step));
    std::array<Scalar, N> mean{};
    for (std::size_t i = 0; i < N; ++i) mean[i] = (a[i] + 2.0 * (b[i] + c[i]) + d[i]) / 6.0;
    return ahead(mean, step);
}

}  // namespace sirop::core
