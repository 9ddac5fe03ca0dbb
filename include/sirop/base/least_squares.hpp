// Least squares between bounds, linear and not.  Needs Eigen.
#pragma once

#include <Eigen/Core>
#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include "../formula/no_fast_math.hpp"

namespace sirop::core {

enum class least_squares_status : unsigned char {
    solved,
    at_step_limit,  ///< x keeps the bounds, but a better one may exist
    bad_input       ///< a number that is not finite, a lower bound above its upper one, or sizes that do not fit
};

enum class bound_side : unsigned char { free, low, high };

struct bounded_solution {
    Eigen::VectorXd x;
    std::vector<bound_side> at;  ///< which bound each variable lies on
    int steps = 0;               ///< solves of a free set
    least_squares_status status = least_squares_status::bad_input;
};

/// Weight of the pull to the prior, over the longest column: it decides only what the equations leave open.
inline constexpr double usual_ridge = 1.0e-6;

/// The x in [low, high] (infinite bounds are allowed) that minimizes
/// |A x - b|^2 + (ridge x longest column of A)^2 |x - prior|^2.
/// Method: bounded-variable least squares, Stark & Parker, Computational Statistics 10 (1995) 129, after the NNLS
/// of Lawson & Hanson, Solving Least Squares Problems (1974), chapter 23; our transcription.  It starts at the
/// prior, moved between the bounds.  The free variables are solved by Householder QR with column pivots; a step
/// that would leave the bounds ends at the first of them; then the bound variable that the residual pulls inward
/// most is freed.  With a ridge above 0 the minimum is unique, each full step lowers the sum, and no set of free
/// variables comes back; rounding is caught by a limit on the steps.  Deterministic.
inline bounded_solution bounded_least_squares(const Eigen::MatrixXd& a, const Eigen::VectorXd& b,
                                              const Eigen::VectorXd& low, const Eigen::VectorXd& high,
                                              const Eigen::VectorXd& prior, double ridge = usual_ridge) {
    using Eigen::Index;
    const Index rows = a.rows(), n = a.cols();
    bounded_solution s;
    if (b.size() != rows || low.size() != n || high.size() != n || prior.size() != n || !a.allFinite() ||
        !b.allFinite() || !prior.allFinite() || !(std::isfinite(ridge) && ridge >= 0.0))
        return s;
    for (Index j = 0; j < n; ++j)
        if (!(low[j] <= high[j]) || !(low[j] < HUGE_VAL) || !(high[j] > -HUGE_VAL)) return s;

    double longest = 0.0;
    for (Index j = 0; j < n; ++j) longest = std::max(longest, a.col(j).norm());
    const double pull = ridge * (longest > 0.0 ? longest : 1.0);
    Eigen::MatrixXd all(rows + n, n);
    all << a, Eigen::MatrixXd::Identity(n, n) * pull;
    Eigen::VectorXd right(rows + n);
    right << b, prior * pull;
    const Eigen::VectorXd norms = all.colwise().norm();

    s.x = prior.cwiseMax(low).cwiseMin(high);
    s.at.assign(static_cast<std::size_t>(n), bound_side::free);
    const auto side = [&](Index j) -> bound_side& { return s.at[static_cast<std::size_t>(j)]; };
    for (Index j = 0; j < n; ++j)
        side(j) = s.x[j] == low[j] ? bound_side::low : (s.x[j] == high[j] ? bound_side::high : bound_side::free);

    const int most_steps = 50 + 20 * static_cast<int>(n);
    const double rounding = 64.0 * std::numeric_limits<double>::epsilon();
    std::vector<bool> in_vain(static_cast<std::size_t>(n), false);  // freed where x now is, and sent straight back
    Index freed = -1;
    while (true) {
        // Walk to the minimum over the free variables, binding those that meet a bound.
        while (true) {
            std::vector<Index> open;
            for (Index j = 0; j < n; ++j)
                if (side(j) == bound_side::free) open.push_back(j);
            if (open.empty()) break;
            if (++s.steps > most_steps) {
                s.status = least_squares_status::at_step_limit;
                return s;
            }
            const Eigen::MatrixXd part = all(Eigen::all, open);
            const Eigen::VectorXd step = part.colPivHouseholderQr().solve(right - all * s.x);
            double share = 1.0;
            Index blocked = -1;
            for (std::size_t k = 0; k < open.size(); ++k) {
                const Index j = open[k];
                const double d = step[static_cast<Index>(k)];
                const double room = d < 0.0 ? s.x[j] - low[j] : high[j] - s.x[j];
                if (!(std::fabs(d) * share > room)) continue;
                share = room / std::fabs(d);
                blocked = j;
            }
            for (std::size_t k = 0; k < open.size(); ++k) {
                const Index j = open[k];
                const double d = step[static_cast<Index>(k)];
                s.x[j] = std::min(std::max(s.x[j] + share * d, low[j]), high[j]);
                if (j == blocked) side(j) = d < 0.0 ? bound_side::low : bound_side::high;
                if (j == blocked) s.x[j] = d < 0.0 ? low[j] : high[j];
            }
            if (blocked >= 0 && blocked == freed && share == 0.0)
                in_vain[static_cast<std::size_t>(freed)] = true;  // by rounding alone
            else if (share > 0.0)
                std::fill(in_vain.begin(), in_vain.end(), false);
            if (blocked < 0) break;
        }
        // The bound variable that would lower the sum fastest, if any.
        const Eigen::VectorXd rest = right - all * s.x;
        const double noise = rounding * (right.norm() + norms.dot(s.x.cwiseAbs()));
        double most = noise;
        freed = -1;
        for (Index j = 0; j < n; ++j) {
            if (side(j) == bound_side::free || low[j] == high[j] || !(norms[j] > 0.0) ||
                in_vain[static_cast<std::size_t>(j)])
                continue;
            const double pulled = all.col(j).dot(rest) / norms[j];
            const double inward = side(j) == bound_side::low ? pulled : -pulled;
            if (inward > most) {
                most = inward;
                freed = j;
            }
        }
        if (freed < 0) break;
        side(freed) = bound_side::free;
    }
    s.status = least_squares_status::solved;
    return s;
}

struct descent {
    int most_rounds = 40;
    double least_step = 1.0e-8;  ///< a round that moves no variable by this is the last
    double slack = 0.0;          ///< the part of the sum by which rounding may raise it
};

/// Levenberg-Marquardt (Levenberg, Q. Appl. Math. 2 (1944) 164; Marquardt, J. SIAM 11 (1963) 431) with steps
/// between bounds: from x downhill in the sum of the squared residuals, to where no step lowers it.  Returns the
/// rounds.
///   residuals(x): std::optional<Eigen::VectorXd>, nothing where there are none; slopes(x, residuals): their
///   Jacobian; worth(residuals): the part of the sum that a round has to take off to be followed by another, below
///   0 if any.
/// Each step is the bounded least-squares solution of the linearized problem, damped in units of the columns of
/// the Jacobian; a variable that it leaves at a bound lies on it exactly.  A variable with equal bounds stays.
template <class Residuals, class Slopes, class Worth>
int descend(Eigen::VectorXd& x, const Eigen::VectorXd& low, const Eigen::VectorXd& high,
            const Residuals& residuals, const Slopes& slopes, const Worth& worth, const descent& how = {}) {
    std::optional<Eigen::VectorXd> here = residuals(x);
    if (!here) return 0;
    const Eigen::Index n = x.size();
    double damping = 1.0e-3;
    for (int round = 0; round < how.most_rounds; ++round) {
        const Eigen::MatrixXd j = slopes(x, *here);
        const double sum = here->squaredNorm();
        const Eigen::VectorXd scale = j.colwise().norm().transpose().cwiseMax(1.0e-3);
        Eigen::VectorXd right = Eigen::VectorXd::Zero(j.rows() + n);
        right.head(j.rows()) = -*here;
        bool moved = false;
        double change = 0.0;
        while (!moved && damping < 1.0e9) {
            Eigen::MatrixXd a(j.rows() + n, n);
            a << j, Eigen::MatrixXd(scale.asDiagonal()) * std::sqrt(damping);
            const auto step =
                bounded_least_squares(a, right, low - x, high - x, Eigen::VectorXd::Zero(n), 1.0e-12);
            if (step.status == least_squares_status::bad_input) return round;
            Eigen::VectorXd next = x + step.x;
            for (Eigen::Index i = 0; i < n; ++i)
                if (const auto side = step.at[static_cast<std::size_t>(i)]; side != bound_side::free)
                    next[i] = side == bound_side::low ? low[i] : high[i];
            change = step.x.cwiseAbs().maxCoeff();
            auto there = residuals(next);
            moved = there && there->squaredNorm() < sum * (1.0 + how.slack);
            if (moved) {
                x = next;
                here = std::move(there);
                damping = std::fmax(0.1 * damping, 1.0e-15);
            } else {
                damping *= 8.0;
                if (change < 0.1 * how.least_step) return round;
            }
        }
        if (!moved || change < how.least_step || sum - here->squaredNorm() < worth(*here) * sum) return round + 1;
    }
    return how.most_rounds;
}

}  // namespace sirop::core
