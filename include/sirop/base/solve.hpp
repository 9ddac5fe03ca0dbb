// The one root finder: a bracket grown from a guess, on a function shown to be monotone, closed by TOMS 748
// (Alefeld, Potra & Shi 1995, as in Boost.Math).  No allocation, no exception, no state.
#pragma once

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <utility>

#include "estimate.hpp"

namespace sirop::core {

namespace detail {

/// A function of one number behind a pointer, so that the root finder is compiled once, not for each function: a
/// tenth of the size of the programs, and of the time to compile them, for two nanoseconds a call.
struct function_ref {
    const void* function;
    double (*call)(const void*, double);
    double operator()(double x) const { return call(function, x); }
};

inline double bracketed_root(const function_ref f, double guess, double low, double high) {
    namespace policies = boost::math::policies;
    using quiet = policies::policy<policies::domain_error<policies::ignore_error>,
                                   policies::evaluation_error<policies::ignore_error>>;
    if (!(low < high)) return not_a_number;
    // Two points give a direction and a secant; stepping a little beyond its root brackets a nearly straight
    // function at once.  Where it does not, the step doubles until the sign changes or the range ends.
    double a = std::fmin(std::fmax(guess, low), high), fa = f(a);
    double b = a + 0.25 <= high ? a + 0.25 : a - 0.25, fb = f(b);
    if (fa == 0.0) return a;
    const bool rising = (fb - fa) * (b - a) > 0.0;
    const bool up = (fa < 0.0) == rising;
    if (up != (b > a)) {
        std::swap(a, b);
        std::swap(fa, fb);
    }
    double step = std::fmax(0.01, 1.2 * std::fabs(fb * (b - a) / (fb - fa)));
    while ((fa < 0.0) == (fb < 0.0) && fb != 0.0) {
        if (up ? b >= high : b <= low) return not_a_number;
        a = b;
        fa = fb;
        b = up ? std::fmin(b + step, high) : std::fmax(b - step, low);
        fb = f(b);
        if (std::isnan(fb)) return not_a_number;
        step *= 2.0;
    }
    if (fb == 0.0) return b;
    // A bracket this narrow is closed by its chord: the error is of the order of its width squared.
    constexpr double narrow = 1.0e-8;
    std::uintmax_t evaluations = 100;
    const auto close_enough = [](double l, double r) { return r - l <= narrow * std::fmax(1.0, std::fabs(l)); };
    const auto [l, r] =
        up ? boost::math::tools::toms748_solve(f, a, b, fa, fb, close_enough, evaluations, quiet{})
           : boost::math::tools::toms748_solve(f, b, a, fb, fa, close_enough, evaluations, quiet{});
    const double fl = f(l), fr = f(r);
    return fl == fr ? l : l - fl * (r - l) / (fr - fl);
}

}  // namespace detail

/// The x in [low, high] at which the monotone function f changes sign, or NaN if it does not.
template <class Function>
double solve_monotone(const Function& f, double guess, double low, double high) {
    const auto call = [](const void* function, double x) { return (*static_cast<const Function*>(function))(x); };
    return detail::bracketed_root(detail::function_ref{&f, call}, guess, low, high);
}

/// The edge, within a step, of a property that holds at `yes` and not at `no`, on the side where it holds.
template <class Holds>
double edge_between(double no, double yes, double step, const Holds& holds) {
    while (std::fabs(yes - no) > step) {
        const double middle = 0.5 * (no + yes);
        (holds(middle) ? yes : no) = middle;
    }
    return yes;
}

}  // namespace sirop::core
