// The one root finder: a bracket grown from a guess, on a function shown to be monotone, closed by TOMS 748
// (Alefeld, Potra & Shi 1995, as in Boost.Math).  No allocation, no exception, no state.
#pragma once

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "estimate.hpp"

namespace sirop::core {

/// The x in [low, high] at which the monotone function f changes sign, or NaN if it does not.
template <class Function>
double solve_monotone(const Function& f, double guess, double low, double high) {
    namespace policies = boost::math::policies;
    using quiet = policies::policy<policies::domain_error<policies::ignore_error>,
                                   policies::evaluation_error<policies::ignore_error>>;
    double a = std::fmin(std::fmax(guess, low), high), fa = f(a);
    if (fa == 0.0) return a;
    double b = a, fb = fa;
    // One probe tells the direction; then the step doubles until the sign changes or the range ends.
    double step = 0.25;
    const double probe = a + step <= high ? a + step : a - step;
    const double fp = f(probe);
    const bool rising = (fp - fa) * (probe - a) > 0.0;
    const bool up = (fa < 0.0) == rising;
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
    std::uintmax_t evaluations = 100;
    const auto close_enough = [](double l, double r) {
        return std::fabs(r - l) <= 2.0 * std::numeric_limits<double>::epsilon() * std::fmax(1.0, std::fabs(l));
    };
    const auto bracket =
        up ? boost::math::tools::toms748_solve(f, a, b, fa, fb, close_enough, evaluations, quiet{})
           : boost::math::tools::toms748_solve(f, b, a, fb, fa, close_enough, evaluations, quiet{});
    return 0.5 * (bracket.first + bracket.second);
}

}  // namespace sirop::core
