// Learn this kitchen: from logged cooks, by how much the thermometer is off and how much sticks to the pan.  Both
// are fitted to what the pan weighed or the refractometer read (weighted least squares, Levenberg and Marquardt's
// step, derivatives of the model from slopes.hpp), with their uncertainty; predictions can then use them.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "../base/least_squares.hpp"
#include "cook_log.hpp"

namespace sirop::core {

struct learned {
    double value = not_a_number;
    double standard_uncertainty = not_a_number;
    double low = not_a_number, high = not_a_number;  ///< 95 % interval
    bool determined = false;                         ///< false: no log tells it
    bool at_bound = false;                           ///< the best fit lies beyond what is accepted
};

struct log_residual {
    std::size_t log = 0;
    bool is_brix = false;  ///< else grams
    double measured = not_a_number, predicted = not_a_number;
    double standard_error = not_a_number;  ///< of the measurement and of the reading of the thermometer
    double normalized = not_a_number;      ///< (measured - predicted) / standard error
    bool outlier = false;
};

struct kitchen_fit {
    learned offset_kelvin;  ///< by how much the thermometer reads too high, beside what the batches say of it
    learned loss_grams;     ///< what sticks to pan and tools
    double correlation = not_a_number;         ///< of the two
    double reduced_chi_square = not_a_number;  ///< NaN without a degree of freedom
    std::size_t measurements = 0, degrees_of_freedom = 0;
    std::size_t iterations = 0;
    std::vector<log_residual> residuals;
    std::vector<std::string> notes;
};

namespace detail {

/// A log ready to be compared: its pan and the range of real temperatures that the model has for it.
struct kitchen_log {
    const cook_log* log;
    std::size_t index;
    cook_path path;
    double put_in_grams, grams_error, brix_error, reading_error;
    /// Standard errors with that of the reading, which the mass and the Brix of one log share,
    double whole_grams_error, whole_brix_error;
    /// and the numbers that make independent unit errors of the two (Cholesky's factor of their covariance).
    double grams_weight, brix_weight, brix_share = 0.0;

    struct state {
        double grams, brix, grams_by_kelvin = 0.0, brix_by_kelvin = 0.0;
    };

    kitchen_log(const cook_log& l, std::size_t i) : log(&l), index(i), path(l.cook) {
        put_in_grams = path.pan.total();
        for (const auto& line : l.cook.off_heat) put_in_grams += line.grams;
        grams_error = std::isnan(l.grams_error) ? std::fmax(usual_grams_error, usual_grams_error_share * l.grams)
                                                : l.grams_error;
        brix_error = std::isnan(l.brix_error) ? usual_brix_error : l.brix_error;
        reading_error = std::isnan(l.reading_error_kelvin) ? usual_reading_error_kelvin : l.reading_error_kelvin;
        whole_grams_error = grams_error;
        whole_brix_error = brix_error;
        grams_weight = 1.0 / grams_error;
        brix_weight = 1.0 / brix_error;
    }
    bool weighed() const { return !std::isnan(log->grams); }
    bool read() const { return !std::isnan(log->brix); }

    /// Where the pan does not boil it keeps its water; hotter than the model goes it is as at its end.
    double real_celsius(double offset) const {
        const double celsius = log->cook.thermometer_celsius - log->cook.thermometer_error_kelvin - offset;
        return std::fmin(std::fmax(celsius, path.boils_celsius), path.last_celsius);
    }
    state at(double offset) const {
        const mixture m = path.finished_at(real_celsius(offset));
        return {m.total(), read() ? brix_of_syrup(m) : 0.0};
    }
    state with_slopes(double offset) const {
        const double celsius = real_celsius(offset);
        additions_of<dual> added;
        for (const auto& line : log->cook.off_heat) added.add(in_scalar<dual>(off_the_heat(line)), line.celsius);
        const bool moves = celsius > path.boils_celsius && celsius < path.last_celsius;
        const auto m = finished_at(in_scalar<dual>(path.pan), dual(celsius, moves ? 1.0 : 0.0), added,
                                   dual(log->cook.pressure_pa))
                           .contents;
        const dual grams = m.total(), brix = read() ? brix_of_syrup(m) : dual(0.0);
        return {grams.value, brix.value, grams.slope, brix.slope};
    }
    /// The error of the reading counts by the slope at an offset.
    void reweight(double offset) {
        const auto there = with_slopes(offset);
        const double grams = there.grams_by_kelvin * reading_error, brix = there.brix_by_kelvin * reading_error;
        whole_grams_error = std::hypot(grams_error, grams);
        whole_brix_error = std::hypot(brix_error, brix);
        const double shared = weighed() && read() ? grams * brix / whole_grams_error : 0.0;
        const double alone = weighed() && read() ? std::hypot(brix_error, brix * grams_error / whole_grams_error)
                                                 : whole_brix_error;
        grams_weight = 1.0 / whole_grams_error;
        brix_weight = 1.0 / alone;
        brix_share = shared / alone;
    }
};

/// What is minimized, in x: offset in kelvin, loss in grams.
class kitchen_problem {
  public:
    explicit kitchen_problem(const std::vector<cook_log>& logs) {
        for (std::size_t i = 0; i < logs.size(); ++i)
            if (!std::isnan(logs[i].grams) || !std::isnan(logs[i].brix)) logs_.emplace_back(logs[i], i);
        for (const auto& l : logs_) {
            if (l.weighed()) most_loss_ = std::fmin(most_loss_, most_loss_share * l.put_in_grams);
            masses_ += l.weighed() ? 1 : 0;
            measurements_ += (l.weighed() ? 1U : 0U) + (l.read() ? 1U : 0U);
        }
        if (masses_ == 0) most_loss_ = 0.0;
        high_ << most_offset_kelvin, most_loss_;
        low_ << -most_offset_kelvin, 0.0;
    }

    const std::vector<kitchen_log>& logs() const { return logs_; }
    std::size_t measurements() const { return measurements_; }
    bool has_masses() const { return masses_ > 0; }
    double most_loss() const { return most_loss_; }
    const Eigen::VectorXd& low() const { return low_; }
    const Eigen::VectorXd& high() const { return high_; }
    void reweight(double offset) {
        for (auto& l : logs_) l.reweight(offset);
    }

    /// Measured less predicted, in independent unit errors; nothing where the model has no number.
    std::optional<Eigen::VectorXd> errors(const Eigen::VectorXd& x) const {
        Eigen::VectorXd r(static_cast<Eigen::Index>(measurements_));
        Eigen::Index i = 0;
        for (const auto& l : logs_) {
            const auto s = l.at(x[0]);
            const double grams = l.weighed() ? (l.log->grams - (s.grams - x[1])) * l.grams_weight : 0.0;
            if (l.weighed()) r[i++] = grams;
            if (l.read()) r[i++] = (l.log->brix - s.brix) * l.brix_weight - l.brix_share * grams;
        }
        if (!r.allFinite()) return std::nullopt;
        return r;
    }
    /// Their slopes with offset and loss.
    Eigen::MatrixXd slopes(const Eigen::VectorXd& x) const {
        Eigen::MatrixXd j(static_cast<Eigen::Index>(measurements_), 2);
        Eigen::Index i = 0;
        for (const auto& l : logs_) {
            const auto s = l.with_slopes(x[0]);  // the real temperature falls as the offset rises
            Eigen::RowVector2d grams = Eigen::RowVector2d::Zero();
            if (l.weighed()) {
                grams << s.grams_by_kelvin * l.grams_weight, l.grams_weight;
                j.row(i++) = grams;
            }
            if (l.read()) {
                j.row(i) = -l.brix_share * grams;
                j(i++, 0) += s.brix_by_kelvin * l.brix_weight;
            }
        }
        return j;
    }
    /// The loss that fits best at an offset.
    double best_loss(double offset) const {
        double sum = 0.0, weights = 0.0;
        for (const auto& l : logs_)
            if (l.weighed()) {
                const double weight = l.grams_weight * l.grams_weight;
                sum += weight * (l.at(offset).grams - l.log->grams);
                weights += weight;
            }
        return weights > 0.0 ? std::fmin(std::fmax(sum / weights, 0.0), most_loss_) : 0.0;
    }
    std::vector<log_residual> residuals(double offset, double loss) const {
        std::vector<log_residual> list;
        for (const auto& l : logs_) {
            const auto s = l.at(offset);
            const auto add = [&](bool is_brix, double measured, double predicted, double error) {
                const double normalized = (measured - predicted) / error;
                list.push_back({l.index, is_brix, measured, predicted, error, normalized,
                                std::fabs(normalized) > outlier_errors});
            };
            if (l.weighed()) add(false, l.log->grams, s.grams - loss, l.whole_grams_error);
            if (l.read()) add(true, l.log->brix, s.brix, l.whole_brix_error);
        }
        return list;
    }

  private:
    std::vector<kitchen_log> logs_;
    double most_loss_ = HUGE_VAL;
    std::size_t masses_ = 0, measurements_ = 0;
    Eigen::VectorXd low_{2}, high_{2};
};

/// Offset and loss of least squares inside their bounds.
struct kitchen_minimum {
    Eigen::VectorXd x = Eigen::VectorXd::Zero(2);
    double chi_square = HUGE_VAL;
    std::size_t iterations = 0;
};

/// From the best of a grid of offsets, in the deepest valley, downhill.  The weights depend a little on the
/// answer, so both are brought to agree.
inline kitchen_minimum minimize(kitchen_problem& problem) {
    kitchen_minimum best;
    Eigen::VectorXd x(2);
    for (int i = -15; i <= 15; ++i) {
        x << i, problem.best_loss(i);
        const auto r = problem.errors(x);
        if (!r || !(r->squaredNorm() < best.chi_square)) continue;
        best.x = x;
        best.chi_square = r->squaredNorm();
    }
    if (!std::isfinite(best.chi_square)) return best;
    const auto go_down = [&] {
        best.iterations += static_cast<std::size_t>(descend(
            best.x, problem.low(), problem.high(), [&](const Eigen::VectorXd& at) { return problem.errors(at); },
            [&](const Eigen::VectorXd& at, const Eigen::VectorXd&) { return problem.slopes(at); },
            [](const Eigen::VectorXd&) { return -1.0; }, {100, 1.0e-10, 1.0e-12}));
    };
    go_down();
    for (int i = 0; i < 50; ++i) {
        const Eigen::VectorXd before = best.x;
        problem.reweight(best.x[0]);
        go_down();
        if ((best.x - before).cwiseAbs().maxCoeff() <= 1.0e-9) break;
    }
    if (const auto r = problem.errors(best.x)) best.chi_square = r->squaredNorm();
    return best;
}

inline learned learned_at(double value, double u, double least, double most) {
    learned l;
    l.value = value;
    l.standard_uncertainty = u;
    l.low = std::fmax(value - normal_95 * u, least);
    l.high = std::fmin(value + normal_95 * u, most);
    l.determined = true;
    l.at_bound = value <= least || value >= most;
    return l;
}

inline std::string log_place(const log_residual& r) {
    return "logs[" + std::to_string(r.log) + "]." + (r.is_brix ? "brix" : "grams");
}

}  // namespace detail

/// Fits the thermometer's offset and the loss in the pan to logged cooks.  Brix alone tells the offset only.  The
/// uncertainty is that of the stated errors, and of the scatter about the fit where that is larger.  An error of
/// the model itself, which all logs share, is not in it: in plain sugar syrup +-0.2 K of boiling point to 75 %
/// solids. Refused, with the log named: a log that cannot be, fewer than two that tell anything, logs that
/// contradict each other, or that are too much alike to tell the offset from the loss.
inline outcome<kitchen_fit> learn_kitchen(const std::vector<cook_log>& logs) {
    if (auto fault = detail::find_log_fault(logs)) return *fault;
    detail::kitchen_problem problem(logs);
    if (problem.logs().size() < 2)
        return refusal{"logs", std::to_string(problem.logs().size()) + " of " + std::to_string(logs.size()) +
                                   " logs have grams or Brix measured; at least 2 are needed"};
    const auto best = detail::minimize(problem);
    if (!std::isfinite(best.chi_square))
        return refusal{"logs",
                       "no thermometer offset within 15 K gives a Brix on the scale for every log; leave out the "
                       "Brix of those cooked hottest"};

    kitchen_fit fit;
    fit.measurements = problem.measurements();
    fit.iterations = best.iterations;
    const std::size_t parameters = problem.has_masses() ? 2 : 1;
    fit.degrees_of_freedom = fit.measurements > parameters ? fit.measurements - parameters : 0;
    fit.residuals = problem.residuals(best.x[0], best.x[1]);
    if (fit.degrees_of_freedom > 0)
        fit.reduced_chi_square = best.chi_square / static_cast<double>(fit.degrees_of_freedom);
    const auto worst_residual = std::max_element(
        fit.residuals.begin(), fit.residuals.end(),
        [](const auto& a, const auto& b) { return std::fabs(a.normalized) < std::fabs(b.normalized); });
    if (fit.reduced_chi_square > contradiction_errors * contradiction_errors)
        return refusal{detail::log_place(*worst_residual),
                       shortest(worst_residual->measured) + " contradicts the other logs: the best fit has " +
                           fixed(worst_residual->predicted, 1) + " there, " +
                           fixed(std::fabs(worst_residual->normalized), 0) +
                           " standard errors away; check this log or leave it out"};

    const Eigen::Matrix2d n = [&] {
        const Eigen::MatrixXd j = problem.slopes(best.x);
        return Eigen::Matrix2d(j.transpose() * j);
    }();
    const double by_offset = n(0, 0), by_loss = n(1, 1), determinant = by_offset * by_loss - n(0, 1) * n(0, 1);
    constexpr double too_much_alike = 1.0e-8;
    if (!(by_offset > 0.0))
        return refusal{"logs",
                       "no log depends on the thermometer: none boils and stays inside the model; log "
                       "cooks that boil down"};
    if (problem.has_masses() && !(determinant > too_much_alike * by_offset * by_loss))
        return refusal{"logs",
                       "are too much alike to tell a thermometer offset from a loss in the pan; log other "
                       "temperatures or batches, or a Brix"};
    const double inflate = fit.reduced_chi_square > 1.0 ? std::sqrt(fit.reduced_chi_square) : 1.0;
    const double u_offset = inflate * std::sqrt(problem.has_masses() ? by_loss / determinant : 1.0 / by_offset);
    fit.offset_kelvin = detail::learned_at(best.x[0], u_offset, -most_offset_kelvin, most_offset_kelvin);
    if (problem.has_masses()) {
        fit.loss_grams =
            detail::learned_at(best.x[1], inflate * std::sqrt(by_offset / determinant), 0.0, problem.most_loss());
        fit.correlation = -n(0, 1) / std::sqrt(by_offset * by_loss);
    } else {
        fit.notes.emplace_back("The loss in the pan is not determined: no log has a mass.");
    }
    if (fit.degrees_of_freedom == 0)
        fit.notes.emplace_back("As many measurements as unknowns: the fit cannot be checked; log more cooks.");
    if (fit.reduced_chi_square > 1.0)
        fit.notes.push_back("The logs scatter " + fixed(inflate, 1) +
                            " times as much as their stated errors; the uncertainties are widened by that.");
    if (fit.offset_kelvin.at_bound)
        fit.notes.emplace_back("The offset is at its bound of 15 K: check the thermometer in boiling water.");
    if (fit.loss_grams.determined && fit.loss_grams.at_bound)
        fit.notes.emplace_back(best.x[1] <= 0.0 ? "The loss is at its bound of 0 g: the pans held more than they "
                                                  "should; check the scale, or the masses that went in."
                                                : "The loss is at its bound, a fifth of the smallest batch.");
    for (const auto& r : fit.residuals)
        if (r.outlier)
            fit.notes.push_back(detail::log_place(r) + ": " + shortest(r.measured) + " is " +
                                fixed(std::fabs(r.normalized), 1) + " standard errors from the fit, " +
                                fixed(r.predicted, 1) + "; check it.");
    return fit;
}

/// The batch as this kitchen will cook it: the thermometer's offset, and its 95 % half width (at most the 10 K
/// that a batch may state).
inline batch apply(const kitchen_fit& fit, batch b) {
    if (!fit.offset_kelvin.determined) return b;
    b.thermometer_error_kelvin += fit.offset_kelvin.value;
    b.thermometer_within_kelvin =
        std::fmin(normal_95 * fit.offset_kelvin.standard_uncertainty, thermometer_within_limit.high);
    return b;
}

/// What comes out of the pan: predicted grams less the loss, the interval in quadrature.  As predicted where the
/// loss is not determined.
inline estimate expected_yield(const kitchen_fit& fit, const estimate& finished_grams) {
    if (!fit.loss_grams.determined || !finished_grams.computed()) return finished_grams;
    const auto& loss = fit.loss_grams;
    const double value = finished_grams.value - loss.value;
    const double down = std::hypot(finished_grams.value - finished_grams.low, loss.high - loss.value);
    const double up = std::hypot(finished_grams.high - finished_grams.value, loss.value - loss.low);
    return {std::fmax(value, 0.0), std::fmax(value - down, 0.0), std::fmax(value + up, 0.0),
            finished_grams.status};
}

}  // namespace sirop::core
