// The numbers that the model is computed in: double, a float that stays a float, and a double that carries its
// slope.
#pragma once

#include <cmath>
#include <limits>
#include <type_traits>

#include "../formula/no_fast_math.hpp"

namespace sirop::core {

inline constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

/// A float for small machines.  The constants of the formulas are doubles, and a float beside a double would be
/// computed in double, which most microcontrollers must emulate; here the constant is rounded to float instead.
class single {
  public:
    constexpr single() = default;
    constexpr single(float x) : x_(x) {}                       // NOLINT(google-explicit-constructor)
    constexpr single(double x) : x_(static_cast<float>(x)) {}  // NOLINT(google-explicit-constructor)
    constexpr explicit operator float() const { return x_; }

    friend constexpr single operator-(single a) { return -a.x_; }
    friend constexpr single operator+(single a, single b) { return a.x_ + b.x_; }
    friend constexpr single operator-(single a, single b) { return a.x_ - b.x_; }
    friend constexpr single operator*(single a, single b) { return a.x_ * b.x_; }
    friend constexpr single operator/(single a, single b) { return a.x_ / b.x_; }
    constexpr single& operator+=(single b) { return *this = *this + b; }
    constexpr single& operator-=(single b) { return *this = *this - b; }
    constexpr single& operator*=(single b) { return *this = *this * b; }
    friend constexpr bool operator==(single a, single b) { return a.x_ == b.x_; }
    friend constexpr bool operator<(single a, single b) { return a.x_ < b.x_; }
    friend constexpr bool operator>(single a, single b) { return a.x_ > b.x_; }
    friend constexpr bool operator<=(single a, single b) { return a.x_ <= b.x_; }
    friend constexpr bool operator>=(single a, single b) { return a.x_ >= b.x_; }

    friend single exp(single a) { return __builtin_expf(a.x_); }
    friend single log(single a) { return __builtin_logf(a.x_); }
    friend single log1p(single a) { return __builtin_log1pf(a.x_); }
    friend single expm1(single a) { return exp(a) - 1.0; }  // enough for the guess that it is used in
    friend single sqrt(single a) { return __builtin_sqrtf(a.x_); }
    friend single pow(single a, single b) { return __builtin_powf(a.x_, b.x_); }

  private:
    float x_ = 0.0F;
};

/// A value and its slope with one input.  Comparisons are of the values: where the model has a kink, the slope is
/// that of the side that the model itself takes.
struct dual {
    double value = 0.0, slope = 0.0;

    constexpr dual() = default;
    constexpr dual(double v, double s = 0.0) : value(v), slope(s) {}  // NOLINT(google-explicit-constructor)

    friend constexpr dual operator-(dual a) { return {-a.value, -a.slope}; }
    friend constexpr dual operator+(dual a, dual b) { return {a.value + b.value, a.slope + b.slope}; }
    friend constexpr dual operator-(dual a, dual b) { return {a.value - b.value, a.slope - b.slope}; }
    friend constexpr dual operator*(dual a, dual b) {
        return {a.value * b.value, a.slope * b.value + a.value * b.slope};
    }
    friend constexpr dual operator/(dual a, dual b) {
        const double ratio = a.value / b.value;
        return {ratio, (a.slope - ratio * b.slope) / b.value};
    }
    constexpr dual& operator+=(dual b) { return *this = *this + b; }
    constexpr dual& operator-=(dual b) { return *this = *this - b; }
    constexpr dual& operator*=(dual b) { return *this = *this * b; }
    friend constexpr bool operator==(dual a, dual b) { return a.value == b.value; }
    friend constexpr bool operator<(dual a, dual b) { return a.value < b.value; }
    friend constexpr bool operator>(dual a, dual b) { return a.value > b.value; }
    friend constexpr bool operator<=(dual a, dual b) { return a.value <= b.value; }
    friend constexpr bool operator>=(dual a, dual b) { return a.value >= b.value; }

    friend dual exp(dual a) {
        const double e = std::exp(a.value);
        return {e, e * a.slope};
    }
    friend dual log(dual a) { return {std::log(a.value), a.slope / a.value}; }
    friend dual log1p(dual a) { return {std::log1p(a.value), a.slope / (1.0 + a.value)}; }
    friend dual expm1(dual a) { return {std::expm1(a.value), std::exp(a.value) * a.slope}; }
    friend dual sqrt(dual a) {
        const double root = std::sqrt(a.value);
        return {root, 0.5 / root * a.slope};
    }
    friend dual pow(dual a, double power) {
        return {std::pow(a.value, power), power * std::pow(a.value, power - 1.0) * a.slope};
    }
};

/// What the constants of a formula are kept in beside a scalar.
template <class Scalar>
struct constants {
    using type = Scalar;
};
template <>
struct constants<dual> {
    using type = double;
};
template <class Scalar>
using constant_of = typename constants<Scalar>::type;

/// The number without its slope.
constexpr double value_of(double x) {
    return x;
}
constexpr single value_of(single x) {
    return x;
}
constexpr double value_of(dual x) {
    return x.value;
}
/// The same, if that is what the other number is.
template <class Scalar, class Other>
constexpr Scalar number_in(const Other& x) {
    if constexpr (std::is_same_v<Scalar, Other>)
        return x;
    else
        return value_of(x);
}

/// Whether it is nothing, and no input makes it something.
constexpr bool is_nothing(double x) {
    return x == 0.0;
}
constexpr bool is_nothing(single x) {
    return x == 0.0;
}
constexpr bool is_nothing(dual x) {
    return x.value == 0.0 && x.slope == 0.0;
}

/// False for NaN.
template <class Scalar>
constexpr bool is_number(const Scalar& x) {
    return x >= Scalar(0.0) || x < Scalar(0.0);
}

template <class Scalar>
constexpr Scalar smaller(const Scalar& a, const Scalar& b) {
    return a < b ? a : b;
}
template <class Scalar>
constexpr Scalar larger(const Scalar& a, const Scalar& b) {
    return a > b ? a : b;  // b if a is not a number
}
template <class Scalar>
constexpr Scalar magnitude(const Scalar& a) {
    return a < Scalar(0.0) ? Scalar(-a) : a;
}

/// What the precision of a scalar allows.
template <class Scalar>
struct precision {
    static constexpr double least_elevation_kelvin = 1.0e-9;  ///< smallest boiling-point elevation told apart
    static constexpr double least_distance = 1.4e-11;         ///< -ln aw that is told from pure water
    static constexpr double least_log_water = -30.0, most_log_water = 40.0;  ///< ln of the water per gram
    static constexpr double logarithm_from_kelvin = 2.0;  ///< elevation from which ln(P/psat) does not cancel
    static constexpr double narrow = 1.0e-8;              ///< width of a bracket that its chord closes
    static constexpr double rounding = 1.0e-12;
    static constexpr double last_step = 2.0e-5;  ///< whose cube does not count
    static constexpr double last_error = 3.0e-13;
};
template <>
struct precision<single> {
    static constexpr double least_elevation_kelvin = 3.1e-5;  // one ulp of 373 K
    static constexpr double least_distance = 1.7e-6;
    static constexpr double least_log_water = -30.0, most_log_water = 13.0;  // wetter, ln aw rounds to 0
    static constexpr double logarithm_from_kelvin = 1.0e9;
    static constexpr double narrow = 1.0e-4;
    static constexpr double rounding = 2.4e-7;
    static constexpr double last_step = 2.0e-3;
    static constexpr double last_error = 3.0e-7;
};

}  // namespace sirop::core
