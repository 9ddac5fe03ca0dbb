// A law that is known at a few points: straight between them, flat outside.
#pragma once

#include <array>
#include <cstddef>

#include "no_fast_math.hpp"

namespace sirop::formula {

template <std::size_t N>
struct broken_line {
    std::array<std::array<double, 2>, N> points;  ///< argument, rising, and value

    constexpr double at(double x) const {
        if (x <= points[0][0]) return points[0][1];
        for (std::size_t i = 1; i < N; ++i)
            if (x <= points[i][0])
                return points[i - 1][1] + (points[i][1] - points[i - 1][1]) * (x - points[i - 1][0]) /
                                              (points[i][0] - points[i - 1][0]);
        return points[N - 1][1];
    }
};

}  // namespace sirop::formula
