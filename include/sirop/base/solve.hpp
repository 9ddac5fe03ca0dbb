// The one root finder: a bracket grown from a guess, on a function shown to be monotone.  On float, double and
// slopes; no allocation, no exception, no state, a fixed bound on every loop.
#pragma once

#include "scalar.hpp"

namespace sirop::core {

namespace detail {

/// exp(x), to x^6/720 where x is small: for steps that a next one corrects.
template <class Number>
Number near_exp(const Number& x) {
    using std::exp;
    if (!(magnitude(x) < Number(0.1))) return exp(x);
    return 1.0 + x * (1.0 + x * (0.5 + x * (1.0 / 6.0 + x * (1.0 / 24.0 + x * (1.0 / 120.0)))));
}
/// ln(x), to (x - 1)^7/7 where x is near 1.
template <class Number>
Number near_log(const Number& x) {
    using std::log;
    const Number d = x - 1.0;
    if (!(magnitude(d) < Number(0.05))) return log(x);
    return d * (1.0 - d * (0.5 - d * (1.0 / 3.0 - d * (0.25 - d * (0.2 - d * (1.0 / 6.0))))));
}

}  // namespace detail

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

/// A root with its slope, by the rule for implicit functions: f carries its own slopes with the input and, where x
/// is given one, with x.
template <class Function>
dual with_slope_of_root(const Function& f, double root) {
    const double by_input = dual(f(dual(root))).slope, by_both = dual(f(dual(root, 1.0))).slope;
    return {root, -by_input / (by_both - by_input)};
}

/// The x in [low, high] at which the monotone function f changes sign, or NaN if it does not.
template <class Scalar, class Function>
Scalar solve_monotone(const Function& f, Scalar guess, Scalar low, Scalar high) {
    if constexpr (std::is_same_v<Scalar, dual>) {
        return with_slope_of_root(f, solve_monotone<double>([&](double x) { return Scalar(f(Scalar(x))).value; },
                                                            guess.value, low.value, high.value));
    } else {
        const auto call = [](const void* function, Scalar x) -> Scalar {
            return (*static_cast<const Function*>(function))(x);
        };
        return bracketed_root(function_ref<Scalar>{&f, call}, guess, low, high);
    }
}

/// A value, and nearly its slope.
template <class Scalar, class Number = Scalar>
struct sloped {
    Scalar value{};
    Number slope{};
};

/// The same for a positive x, by Newton's rule in its logarithm, from a guess that errs by about a share `error`,
/// for a function whose slope (by that logarithm) is nearly known; NaN where that does not find it.  f(x, error)
/// is to give the value to 3e-5 times the cube of the error that x has as a root.  What the slope and its change
/// lack is told from the last step, so that each step nearly cubes the error; the last is taken without looking
/// back.
template <class Number, class Function>
Number newton_root(const Function& f, Number x, Number error, const Number& low, const Number& high) {
    const Number nan = not_a_number, most = 2.0;
    Number last_off{}, last_inverse{}, last_step{}, lack_error{};
    for (int i = 0; i < 12; ++i) {
        if (!(x > low && x < high)) return nan;
        const auto at = f(x, error);
        Number inverse = 1.0 / at.slope, bend = 0.0;
        if (i > 0) {
            const Number gap = at.value - last_off;
            const Number lack = last_step / (gap * (0.5 * (inverse + last_inverse)));
            if (lack > Number(0.2) && lack < Number(5.0)) {
                bend = lack * (inverse - last_inverse) / gap;
                inverse *= lack;
            }
        }
        // ln x as a function of the value, along its slope and curvature to nought
        Number step = -at.value * (inverse - 0.5 * at.value * bend);
        if (!is_number(step)) return nan;
        step = smaller(larger(step, Number(-most)), most);
        x *= detail::near_exp(step);
        // What the step may lack: curvature, a lack that the last step has not told, and what f errs by.
        const Number size = magnitude(step), ratio = size / error, within = 3.0e-5 * error * error * error;
        if (size * (0.05 * error + ratio * ratio + lack_error) + within < Number(precision<Number>::last_error))
            return x;
        error = larger(size, Number(precision<Number>::rounding));
        lack_error = within / error;
        last_off = at.value, last_inverse = 1.0 / at.slope, last_step = step;
    }
    return nan;
}

/// Where a search of a positive number begins, and by what share that may err.
template <class Number>
struct beginning {
    Number guess, error;
};

/// The positive x up to `most` at which a falling function is 0; 0 where it is none above `least`, NaN where it is
/// still positive at the end.  As newton_root, and inside a bracket where that fails.
template <class Scalar, class Off>
Scalar falling_root(const Off& off, const beginning<constant_of<Scalar>>& from, const constant_of<Scalar>& least,
                    const constant_of<Scalar>& most, int& brackets) {
    using Number = constant_of<Scalar>;
    using std::exp;
    using std::log;
    const Number zero = 0.0;
    Number root = newton_root(off, from.guess, from.error, least, most);
    if (!is_number(root)) {
        ++brackets;
        if (off(Number(1.2 * least), zero).value <= zero) return Scalar(0.0);  // a little more, for the rounding
        root = exp(solve_monotone([&](const Number& u) -> Number { return off(Number(exp(u)), zero).value; },
                                  Number(log(from.guess)), Number(log(least)), Number(log(most))));
    }
    if constexpr (std::is_same_v<Scalar, dual>)
        return is_number(root) ? with_slope_of_root([&](const dual& x) { return off(x, 0.0).value; }, root) : root;
    else
        return root;
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
