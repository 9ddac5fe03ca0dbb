// The one result type: a value, its interval and its status.
#pragma once

#include <algorithm>
#include <cmath>

#include "scalar.hpp"

#include "../formula/no_fast_math.hpp"

namespace sirop::core {

enum class grade : unsigned char {
    fine,          ///< computed inside every fitted range
    extrapolated,  ///< computed, but outside the fitted range of a model
    not_computed   ///< no number: NaN
};

constexpr grade worst(grade a, grade b) {
    return a < b ? b : a;
}

inline constexpr double normal_95 = 1.959963984540054;  ///< 95 % of a normal distribution lie so far to each side

struct estimate {
    double value = not_a_number;
    double low = not_a_number;
    double high = not_a_number;
    grade status = grade::not_computed;

    bool computed() const { return status != grade::not_computed; }
};

/// An estimate without an interval of its own.
inline estimate exactly(double value, grade status = grade::fine) {
    if (!std::isfinite(value)) return {};
    return {value, value, value, status};
}

/// An estimate from a best value and two sides, whichever of them is the lower.
inline estimate between(double value, double one_side, double other_side, grade status = grade::fine) {
    if (!std::isfinite(value)) return {};
    if (!std::isfinite(one_side)) one_side = value;
    if (!std::isfinite(other_side)) other_side = value;
    return {value, std::min({value, one_side, other_side}), std::max({value, one_side, other_side}), status};
}

}  // namespace sirop::core
