// A number with its first and second derivative by one variable.  A formula of formula/ that is given one gives
// the slope and the curvature of its result with the value, from the same lines.
#pragma once

#include "scalar.hpp"

namespace sirop::core {

template <class Scalar>
struct jet {
    Scalar value{}, first{}, second{};

    /// A function of it, from the function's value and two derivatives there.
    constexpr jet of(const Scalar& f, const Scalar& f1, const Scalar& f2) const {
        return {f, f1 * first, f1 * second + f2 * first * first};
    }

    friend constexpr jet operator-(const jet& a) { return {-a.value, -a.first, -a.second}; }
    friend constexpr jet operator+(const jet& a, const jet& b) {
        return {a.value + b.value, a.first + b.first, a.second + b.second};
    }
    friend constexpr jet operator-(const jet& a, const jet& b) {
        return {a.value - b.value, a.first - b.first, a.second - b.second};
    }
    friend constexpr jet operator*(const jet& a, const jet& b) {
        const Scalar cross = a.first * b.first;
        return {a.value * b.value, a.first * b.value + a.value * b.first,
                a.second * b.value + a.value * b.second + (cross + cross)};
    }
    friend constexpr jet operator/(const jet& a, const jet& b) {
        const Scalar by = 1.0 / b.value, ratio = a.value * by, slope = (a.first - ratio * b.first) * by;
        return {ratio, slope, (a.second - ratio * b.second - (slope + slope) * b.first) * by};
    }
    // Beside a number that does not move.
    friend constexpr jet operator+(const jet& a, const Scalar& b) { return {a.value + b, a.first, a.second}; }
    friend constexpr jet operator+(const Scalar& a, const jet& b) { return b + a; }
    friend constexpr jet operator-(const jet& a, const Scalar& b) { return {a.value - b, a.first, a.second}; }
    friend constexpr jet operator-(const Scalar& a, const jet& b) { return -b + a; }
    friend constexpr jet operator*(const jet& a, const Scalar& b) {
        return {a.value * b, a.first * b, a.second * b};
    }
    friend constexpr jet operator*(const Scalar& a, const jet& b) { return b * a; }
    friend constexpr jet operator/(const jet& a, const Scalar& b) { return a * Scalar(1.0 / b); }
    friend constexpr jet operator/(const Scalar& a, const jet& b) {
        const Scalar by = 1.0 / b.value, ratio = a * by, slope = -ratio * by;
        return b.of(ratio, slope, Scalar(-2.0 * slope * by));
    }

    friend jet exp(const jet& a) {
        using std::exp;
        const Scalar e = exp(a.value);
        return a.of(e, e, e);
    }
    friend jet log(const jet& a) {
        using std::log;
        const Scalar by = 1.0 / a.value;
        return a.of(log(a.value), by, Scalar(-by * by));
    }
    friend jet log1p(const jet& a) {
        using std::log1p;
        const Scalar by = 1.0 / (1.0 + a.value);
        return a.of(log1p(a.value), by, Scalar(-by * by));
    }
    friend jet sqrt(const jet& a) {
        using std::sqrt;
        const Scalar root = sqrt(a.value), slope = 0.5 / root;
        return a.of(root, slope, Scalar(-0.5 * slope / a.value));
    }
};

template <class Scalar>
constexpr auto value_of(const jet<Scalar>& x) {
    return value_of(x.value);
}

template <class Scalar>
struct constants<jet<Scalar>> : constants<Scalar> {};

}  // namespace sirop::core
