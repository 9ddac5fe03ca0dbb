// The one root finder: a bracket grown from a guess, on a function shown to be monotone.  On float, double and
// slopes; no allocation, no exception, no state, a fixed bound on every loop.
#pragma once

#include "scalar.hpp"

namespace sirop::core {

/// A function of one number behind a pointer, so that the root finder is compiled once, not for each function: a
/// tenth of the size of the programs, and of the time to compile them, for two nanoseconds a call.
template <class Scalar>
struct function_ref {
    const void* function;
    Scalar (*call)(const void*, Scalar);
    Scalar operator()(Scalar x) const { return call(function, x); }
};

/// The x in [low, high] at which a monotone function changes sign, or NaN if it does not.  A bracket grown from
/// the guess; then false position by the Illinois rule (Dowell & Jarratt, BIT 11 (1971) 168), with a bisection
/// whenever three steps have not halved the bracket; the last bracket is closed by its chord, whose error is of
/// the order of its width squared.  At most 150 evaluations.
template <class Scalar>
[[gnu::noinline]] Scalar bracketed_root(const function_ref<Scalar> f, Scalar guess, Scalar low, Scalar high) {
    const Scalar zero = 0.0, nan = not_a_number;
    if (!(low < high)) return nan;
    // Two points give a direction and a secant; stepping a little beyond its root brackets a nearly straight
    // function at once.  Where it does not, the step doubles until the sign changes or the range ends.
    Scalar a = smaller(larger(guess, low), high), fa = f(a);
    Scalar b = a + 0.25 <= high ? a + 0.25 : a - 0.25, fb = f(b);
    if (fa == zero) return a;
    const bool rising = (fb > fa) == (b > a);
    const bool up = (fa < zero) == rising;
    if (up != (b > a)) {
        const Scalar x = a, fx = fa;
        a = b, fa = fb;
        b = x, fb = fx;
    }
    Scalar step = larger(Scalar(1.2 * magnitude(Scalar(fb * (b - a) / (fb - fa)))), Scalar(0.01));
    if (!(step < Scalar(1.0e6))) step = 4.0;  // where the function is flat the chord says nothing
    for (int i = 0; (fa < zero) == (fb < zero) && !(fb == zero); ++i) {
        if (i == 48 || (up ? b >= high : b <= low)) return nan;
        a = b, fa = fb;
        b = up ? smaller(Scalar(b + step), high) : larger(Scalar(b - step), low);
        fb = f(b);
        if (!is_number(fb)) return nan;
        step *= 2.0;
    }
    Scalar weighted = fa;  // fa, halved each time that a has stayed
    Scalar goal = 0.5 * magnitude(Scalar(b - a));
    int slow = 0;
    for (int i = 0; i < 100 && !(fb == zero); ++i) {
        const Scalar width = magnitude(Scalar(b - a));
        const Scalar narrow = precision<Scalar>::narrow * larger(magnitude(b), Scalar(1.0));
        if (width <= narrow) break;
        if (width <= goal) {
            goal = 0.5 * width;
            slow = 0;
        }
        Scalar x = b - fb * (b - a) / (fb - weighted);
        // So near that b is the root: a little beyond it, which closes the bracket.
        if (magnitude(Scalar(x - b)) < 0.4 * narrow) x = a > b ? b + 0.4 * narrow : b - 0.4 * narrow;
        const bool inside = (x > a && x < b) || (x > b && x < a);
        if (!inside || slow == 3) {
            x = 0.5 * (a + b);
            slow = 0;
        } else {
            ++slow;
        }
        const Scalar fx = f(x);
        if (!is_number(fx)) return nan;
        if ((fx < zero) == (fb < zero)) {
            weighted = 0.5 * weighted;
        } else {
            a = b, fa = fb;
            weighted = fa;
        }
        b = x, fb = fx;
    }
    const Scalar root = b - fb * (b - a) / (fb - fa);
    return (root >= a && root <= b) || (root >= b && root <= a) ? root : b;
}

/// The x in [low, high] at which the monotone function f changes sign, or NaN if it does not.  A slope comes from
/// the rule for implicit functions: f carries its own slopes with the input and, where x is given one, with x.
template <class Scalar, class Function>
Scalar solve_monotone(const Function& f, Scalar guess, Scalar low, Scalar high) {
    if constexpr (std::is_same_v<Scalar, dual>) {
        const double root = solve_monotone<double>([&](double x) { return Scalar(f(Scalar(x))).value; },
                                                   guess.value, low.value, high.value);
        const double by_input = Scalar(f(Scalar(root))).slope;
        const double by_both = Scalar(f(Scalar(root, 1.0))).slope;
        return {root, -by_input / (by_both - by_input)};
    } else {
        const auto call = [](const void* function, Scalar x) -> Scalar {
            return (*static_cast<const Function*>(function))(x);
        };
        return bracketed_root(function_ref<Scalar>{&f, call}, guess, low, high);
    }
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
