// One thing on three sides: by the best estimate, and at the two ends that an uncertainty leaves open.  What
// depends on it is found on each side (map), and the three results make an estimate.
#pragma once

#include <algorithm>
#include <cmath>
#include <type_traits>
#include <utility>

#include "estimate.hpp"

namespace sirop::core {

/// The ends keep their names through a calculation: low is what came of the low end, whichever result is the
/// lower.
template <class T>
struct sides {
    T value{}, low{}, high{};

    /// A function of the best estimate and of each end.
    template <class Function>
    constexpr auto map(const Function& f) const -> sides<std::decay_t<decltype(f(value))>> {
        return {f(value), f(low), f(high)};
    }
    /// A function of this and of another on the same side.
    template <class Other, class Function>
    constexpr auto map(const sides<Other>& other, const Function& f) const
        -> sides<std::decay_t<decltype(f(value, other.value))>> {
        return {f(value, other.value), f(low, other.low), f(high, other.high)};
    }
};

/// The three numbers of an estimate.
constexpr sides<double> sides_of(const estimate& e) {
    return {e.value, e.low, e.high};
}

/// The estimate of a number on three sides, whichever end gives the lower.  An end without a number is left out;
/// not computed without a best value.
inline estimate estimate_of(const sides<double>& s, grade status = grade::fine) {
    return between(s.value, s.low, s.high, status);
}

/// The same where a side without a number lies beyond the end of a model or a scale: it reaches to that end, and
/// is flagged.
inline estimate estimate_to_the_end(sides<double> s, double end, grade status = grade::fine) {
    for (double* side : {&s.low, &s.high})
        if (!std::isfinite(*side)) {
            *side = end;
            status = worst(status, grade::extrapolated);
        }
    return estimate_of(s, status);
}

/// An estimate of its own uncertainty for the best side, and the value alone at the two ends of another's.
struct estimate_and_ends {
    estimate best;
    double low = not_a_number, high = not_a_number;
};
template <class T, class Estimate, class Value>
estimate_and_ends estimate_and_ends_of(const sides<T>& s, const Estimate& estimated, const Value& value) {
    return {estimated(s.value), value(s.low), value(s.high)};
}

/// The interval of the best estimate, widened in quadrature by what its value is on the other sides: two
/// uncertainties that have nothing to do with each other.  The grade is that of the best estimate.
inline estimate in_quadrature(const estimate_and_ends& s) {
    estimate e = s.best;
    if (!e.computed()) return e;
    double down = e.value - e.low, up = e.high - e.value;
    for (const double other : {s.low - e.value, s.high - e.value}) {
        if (other > 0.0) up = std::hypot(up, other);
        if (other < 0.0) down = std::hypot(down, other);
    }
    e.low = e.value - down;
    e.high = e.value + up;
    return e;
}

/// The interval of the best estimate, stretched until it holds the values of the other sides; an infinite side
/// stays infinite.  The grade is that of the best estimate.
inline estimate stretched(const estimate_and_ends& s) {
    estimate e = s.best;
    if (!e.computed()) return e;
    for (const double other : {s.low, s.high}) {
        e.low = std::fmin(e.low, other);
        e.high = std::fmax(e.high, other);
    }
    return e;
}

}  // namespace sirop::core
