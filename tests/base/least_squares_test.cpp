// Least squares between bounds: the conditions of its minimum, the minimum by trying every set of bounds, and
// descents to known minima of problems that are not linear.
#include "sirop/base/least_squares.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "sirop/base/estimate.hpp"
#include "sweep.hpp"

namespace {

using namespace sirop::core;
using sirop_test::random_numbers;
using sirop_test::sweep;

struct problem {
    Eigen::MatrixXd a;
    Eigen::VectorXd b, low, high, prior;
};

/// Some are wide, some repeat a column, some bounds are open, some closed on one value.
problem random_problem(random_numbers& random, std::size_t most_columns) {
    const auto n = static_cast<Eigen::Index>(1 + random.below(most_columns));
    const auto m = static_cast<Eigen::Index>(1 + random.below(10));
    problem p{Eigen::MatrixXd(m, n), Eigen::VectorXd(m), Eigen::VectorXd(n), Eigen::VectorXd(n),
              Eigen::VectorXd(n)};
    for (Eigen::Index i = 0; i < m; ++i) {
        for (Eigen::Index j = 0; j < n; ++j) p.a(i, j) = random.between(-1.0, 1.0);
        p.b[i] = random.between(-3.0, 3.0);
    }
    if (n > 1 && random.below(4) == 0) p.a.col(n - 1) = p.a.col(0);
    if (random.below(10) == 0) p.a.col(0).setZero();
    for (Eigen::Index j = 0; j < n; ++j) {
        p.low[j] = random.between(-1.0, 0.5);
        p.high[j] = p.low[j] + (random.below(10) == 0 ? 0.0 : random.between(0.1, 2.0));
        if (random.below(6) == 0) p.low[j] = -HUGE_VAL;
        if (random.below(6) == 0) p.high[j] = HUGE_VAL;
        p.prior[j] = random.between(-2.0, 2.0);
    }
    return p;
}

/// What is minimized, its rows of the ridge written out.
struct ridged {
    Eigen::MatrixXd a;
    Eigen::VectorXd b;
    explicit ridged(const problem& p, double ridge = usual_ridge) {
        const Eigen::Index m = p.a.rows(), n = p.a.cols();
        double longest = 0.0;
        for (Eigen::Index j = 0; j < n; ++j) longest = std::max(longest, p.a.col(j).norm());
        const double pull = ridge * (longest > 0.0 ? longest : 1.0);
        a.resize(m + n, n);
        a << p.a, Eigen::MatrixXd::Identity(n, n) * pull;
        b.resize(m + n);
        b << p.b, p.prior * pull;
    }
    double sum(const Eigen::VectorXd& x) const { return (a * x - b).squaredNorm(); }
};

TEST(bounded_least_squares, meets_the_conditions_of_karush_kuhn_and_tucker) {
    random_numbers random(20261);
    std::size_t at_bounds = 0, open = 0;
    for (std::size_t k = 0, count = sweep(10000); k < count; ++k) {
        const auto p = random_problem(random, 8);
        const auto s = bounded_least_squares(p.a, p.b, p.low, p.high, p.prior);
        ASSERT_EQ(s.status, least_squares_status::solved) << k;
        const ridged r(p);
        const Eigen::VectorXd gradient = r.a.transpose() * (r.a * s.x - r.b);
        // rounding of the sums in the gradient, at the size of what is summed
        const double size = r.a.norm() * (r.b.norm() + r.a.norm() * s.x.norm());
        const double tolerance = 1.0e-13 * size;
        for (Eigen::Index j = 0; j < s.x.size(); ++j) {
            ASSERT_GE(s.x[j], p.low[j]) << k;
            ASSERT_LE(s.x[j], p.high[j]) << k;
            const auto at = s.at[static_cast<std::size_t>(j)];
            if (at == bound_side::free) {
                EXPECT_NEAR(gradient[j], 0.0, tolerance) << k;
                ++open;
                continue;
            }
            ++at_bounds;
            EXPECT_EQ(s.x[j], at == bound_side::low ? p.low[j] : p.high[j]) << k;
            if (p.low[j] == p.high[j]) continue;  // held from both sides: no condition
            EXPECT_GE(at == bound_side::low ? gradient[j] : -gradient[j], -tolerance) << k;
        }
    }
    EXPECT_GT(at_bounds, sweep(10000));
    EXPECT_GT(open, sweep(10000));
}

/// The best over every choice of free, low and high, each free set solved by the normal equations.
double best_of_all_sets(const problem& p) {
    const ridged r(p);
    const Eigen::Index n = p.a.cols();
    double best = HUGE_VAL;
    int sets = 1;
    for (Eigen::Index j = 0; j < n; ++j) sets *= 3;
    for (int code = 0; code < sets; ++code) {
        Eigen::VectorXd x = Eigen::VectorXd::Zero(n);
        std::vector<Eigen::Index> open;
        int rest = code;
        for (Eigen::Index j = 0; j < n; ++j, rest /= 3) {
            if (rest % 3 == 0)
                open.push_back(j);
            else
                x[j] = rest % 3 == 1 ? p.low[j] : p.high[j];
        }
        if (!x.allFinite()) continue;
        if (!open.empty()) {
            const Eigen::MatrixXd part = r.a(Eigen::all, open);
            x(open) = part.householderQr().solve(r.b - r.a * x);
        }
        bool inside = true;
        for (Eigen::Index j = 0; j < n; ++j)
            inside = inside && x[j] >= p.low[j] - 1.0e-12 && x[j] <= p.high[j] + 1.0e-12;
        if (inside) best = std::min(best, r.sum(x));
    }
    return best;
}

TEST(bounded_least_squares, finds_what_trying_every_set_of_bounds_finds) {
    random_numbers random(7);
    for (std::size_t k = 0, count = sweep(2000); k < count; ++k) {
        const auto p = random_problem(random, 5);
        const auto s = bounded_least_squares(p.a, p.b, p.low, p.high, p.prior);
        ASSERT_EQ(s.status, least_squares_status::solved);
        const double best = best_of_all_sets(p), mine = ridged(p).sum(s.x);
        ASSERT_TRUE(std::isfinite(best));
        EXPECT_NEAR(mine, best, 1.0e-11 * (1.0 + best)) << k;  // rounding; points may lie 1e-12 outside above
    }
}

TEST(bounded_least_squares, leaves_what_is_open_at_the_prior_and_repeats_itself) {
    // two equal columns: only their sum is told, the change is shared
    const Eigen::MatrixXd a = Eigen::MatrixXd::Ones(2, 2);
    const Eigen::VectorXd b = Eigen::VectorXd::Constant(2, 10.0), low = Eigen::VectorXd::Zero(2);
    const Eigen::VectorXd high = Eigen::VectorXd::Constant(2, HUGE_VAL);
    Eigen::VectorXd prior(2);
    prior << 2.0, 6.0;
    const auto s = bounded_least_squares(a, b, low, high, prior);
    EXPECT_NEAR(s.x[0], 3.0, 1.0e-9);
    EXPECT_NEAR(s.x[1], 7.0, 1.0e-9);
    EXPECT_EQ(s.x, bounded_least_squares(a, b, low, high, prior).x);
    const Eigen::MatrixXd nothing = Eigen::MatrixXd::Zero(2, 2);
    EXPECT_EQ(bounded_least_squares(nothing, b, low, high, prior).x, prior);
}

TEST(bounded_least_squares, says_what_input_it_does_not_take) {
    const Eigen::MatrixXd a = Eigen::MatrixXd::Ones(2, 2);
    const Eigen::VectorXd two = Eigen::VectorXd::Ones(2), three = Eigen::VectorXd::Ones(3);
    const Eigen::VectorXd bad = Eigen::VectorXd::Constant(2, not_a_number);
    const auto status = [&](const auto& b, const auto& low, const auto& high, const auto& prior, double ridge) {
        return bounded_least_squares(a, b, low, high, prior, ridge).status;
    };
    EXPECT_EQ(status(two, two, two, two, 1e-6), least_squares_status::solved);
    EXPECT_EQ(status(three, two, two, two, 1e-6), least_squares_status::bad_input);
    EXPECT_EQ(status(bad, two, two, two, 1e-6), least_squares_status::bad_input);
    EXPECT_EQ(status(two, bad, two, two, 1e-6), least_squares_status::bad_input);
    EXPECT_EQ(status(two, two, Eigen::VectorXd(0.5 * two), two, 1e-6), least_squares_status::bad_input);
    EXPECT_EQ(status(two, two, two, two, -1.0), least_squares_status::bad_input);
}

// ---- not linear

Eigen::Vector2d pair(double a, double b) {
    return {a, b};
}
const auto always = [](const Eigen::VectorXd&) { return -1.0; };

/// Rosenbrock, Computer J. 3 (1960) 175: a bent valley with its minimum 0 at (1, 1).
std::optional<Eigen::VectorXd> valley(const Eigen::VectorXd& x) {
    return pair(10.0 * (x[1] - x[0] * x[0]), 1.0 - x[0]);
}
Eigen::MatrixXd valley_slopes(const Eigen::VectorXd& x, const Eigen::VectorXd&) {
    Eigen::MatrixXd j(2, 2);
    j << -20.0 * x[0], 10.0, -1.0, 0.0;
    return j;
}

TEST(descend, follows_a_bent_valley_to_its_minimum) {
    Eigen::VectorXd x = pair(-1.2, 1.0);
    const int rounds = descend(x, pair(-5.0, -5.0), pair(5.0, 5.0), valley, valley_slopes, always);
    EXPECT_LE(rounds, 40);
    EXPECT_NEAR(x[0], 1.0, 1.0e-7);  // its least step is 1e-8
    EXPECT_NEAR(x[1], 1.0, 1.0e-7);
}

TEST(descend, stops_on_the_bound_that_keeps_it_from_the_minimum) {
    // With x0 <= 0.5 the minimum is at x0 = 0.5, x1 = x0^2, by hand; with x1 held at 2 it is where the cubic
    // 400 x0^3 - 798 x0 - 2 is 0.
    Eigen::VectorXd x = pair(-1.2, 1.0);
    descend(x, pair(-5.0, -5.0), pair(0.5, 5.0), valley, valley_slopes, always);
    EXPECT_EQ(x[0], 0.5);
    EXPECT_NEAR(x[1], 0.25, 1.0e-7);
    x = pair(1.0, 2.0);
    descend(x, pair(-5.0, 2.0), pair(5.0, 2.0), valley, valley_slopes, always);
    EXPECT_EQ(x[1], 2.0);
    EXPECT_NEAR(400.0 * x[0] * x[0] * x[0] - 798.0 * x[0] - 2.0, 0.0, 1.0e-4);  // slope 1600 times 1e-8, with room
}

TEST(descend, never_climbs_and_never_leaves_the_bounds) {
    random_numbers random(11);
    std::size_t at_bounds = 0;
    for (std::size_t k = 0, count = sweep(500); k < count; ++k) {
        const double a = random.between(0.2, 3.0), b = random.between(-2.0, 2.0);
        const Eigen::VectorXd low = pair(random.between(-2.0, 0.0), random.between(-2.0, 0.0));
        const Eigen::VectorXd high = low + pair(random.between(0.1, 3.0), random.between(0.1, 3.0));
        const auto residuals = [&](const Eigen::VectorXd& x) -> std::optional<Eigen::VectorXd> {
            Eigen::VectorXd r(3);
            r << std::exp(a * x[0]) - 1.5, x[0] * x[1] - b, std::sin(x[1]) - 0.3;
            return r;
        };
        const auto slopes = [&](const Eigen::VectorXd& x, const Eigen::VectorXd&) {
            Eigen::MatrixXd j(3, 2);
            j << a * std::exp(a * x[0]), 0.0, x[1], x[0], 0.0, std::cos(x[1]);
            return j;
        };
        Eigen::VectorXd x = 0.5 * (low + high);
        const double before = residuals(x)->squaredNorm();
        descend(x, low, high, residuals, slopes, always, {2000, 1.0e-10, 0.0});
        const Eigen::VectorXd gradient = slopes(x, x).transpose() * *residuals(x);
        EXPECT_LE(residuals(x)->squaredNorm(), before);
        for (Eigen::Index i = 0; i < 2; ++i) {
            ASSERT_GE(x[i], low[i]);
            ASSERT_LE(x[i], high[i]);
            // the conditions of a minimum; the sum tells its place to the root of its rounding
            EXPECT_LE(x[i] > low[i] ? gradient[i] : 0.0, 1.0e-5) << k;
            EXPECT_GE(x[i] < high[i] ? gradient[i] : 0.0, -1.0e-5) << k;
            at_bounds += x[i] == low[i] || x[i] == high[i];
        }
    }
    EXPECT_GT(at_bounds, sweep(500) / 10);
}

TEST(descend, stays_where_there_is_nothing) {
    Eigen::VectorXd x = pair(1.0, 2.0);
    const auto nothing = [](const Eigen::VectorXd&) { return std::optional<Eigen::VectorXd>(); };
    EXPECT_EQ(descend(x, pair(0.0, 0.0), pair(3.0, 3.0), nothing, valley_slopes, always), 0);
    EXPECT_EQ(x, Eigen::VectorXd(pair(1.0, 2.0)));
}

}  // namespace
