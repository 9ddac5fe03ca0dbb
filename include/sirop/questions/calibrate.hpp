// Learn this kitchen: from logged cooks, by how much the thermometer is off and how much sticks to the pan.  Both
// are fitted to what the pan weighed or the refractometer read (weighted least squares, Levenberg and Marquardt's
// step, derivatives of the model from slopes.hpp), with their uncertainty; predictions can then use them.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "cook_for.hpp"

namespace sirop::core {

/// One cook, as it was done: the batch with what the thermometer showed and the pressure of that day, and what was
/// measured of the finished batch.
struct cook_log {
    batch cook;
    double grams = not_a_number;        ///< of what was got out of the pan, additions included; NaN: not weighed
    double brix = not_a_number;         ///< of its syrup phase at 20 C; NaN: not read
    double grams_error = not_a_number;  ///< standard error; NaN: the larger of 2 g and 0.5 %
    double brix_error = not_a_number;   ///< standard error; NaN: 0.5
    double reading_error_kelvin = not_a_number;  ///< standard error of reading the thermometer; NaN: 0.3
};

/// Our estimates.  Reading: a scale read to half a kelvin, and the moment at which the pan leaves the heat.
/// Without it a thin syrup, of which a kelvin boils off a tenth, would seem to tell the offset to some hundredths
/// of a kelvin.
inline constexpr double usual_grams_error = 2.0, usual_grams_error_share = 0.005, usual_brix_error = 0.5,
                        usual_reading_error_kelvin = 0.3;

/// The accepted answers, and from where a measurement counts as an outlier or as a contradiction (our choices).
inline constexpr double most_offset_kelvin = 15.0, most_loss_share = 0.20, outlier_errors = 3.5,
                        contradiction_errors = 10.0;

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

/// The first log that cannot be, if any.
inline std::optional<refusal> find_log_fault(const std::vector<cook_log>& logs) {
    for (std::size_t i = 0; i < logs.size(); ++i) {
        const auto& l = logs[i];
        const std::string place = "logs[" + std::to_string(i) + "].";
        if (auto fault = find_fault(l.cook)) return refusal{place + fault->place, fault->reason};
        const cook_path path(l.cook);
        if (auto fault = find_pan_fault(path)) return refusal{place + fault->place, fault->reason};
        const double shown = l.cook.thermometer_celsius - l.cook.thermometer_error_kelvin;
        if (shown + most_offset_kelvin <= path.boils_celsius || shown - most_offset_kelvin >= path.last_celsius)
            return refusal{place + l.cook.target_place,
                           both_scales(l.cook.thermometer_celsius) + " is more than " +
                               fixed(most_offset_kelvin, 0) + " K off the range of this pan, " +
                               both_scales(path.boils_celsius) + " to " + both_scales(path.last_celsius)};
        const auto check_error = [&](double error, const char* name) -> std::optional<refusal> {
            if (std::isnan(error) || (error > 0.0 && std::isfinite(error))) return std::nullopt;
            return refusal{place + name, shortest(error) + " is not accepted; a standard error above 0 is"};
        };
        if (auto fault = check_error(l.grams_error, "grams_error")) return fault;
        if (auto fault = check_error(l.brix_error, "brix_error")) return fault;
        if (!std::isnan(l.reading_error_kelvin) &&
            !(l.reading_error_kelvin >= 0.0 && l.reading_error_kelvin <= most_offset_kelvin))
            return refusal{place + "reading_error_kelvin",
                           shortest(l.reading_error_kelvin) + " is outside the accepted range, 0 to 15 K"};
        if (!std::isnan(l.grams)) {
            double in = path.pan.total(), dry = in - path.pan.water();
            for (const auto& line : l.cook.off_heat) {
                in += line.grams;
                dry += line.grams * (1.0 - line.per_gram[index_of(component::water)]);
            }
            if (!(l.grams > 0.0))
                return refusal{place + "grams", shortest(l.grams) + " is not accepted; more than 0 g is"};
            if (l.grams > in)
                return refusal{place + "grams", shortest(l.grams) + " g is more than went in, " + fixed(in, 1) +
                                                    " g; check the scale, or whether the pan was weighed with it"};
            if (l.grams < (1.0 - most_loss_share) * dry)
                return refusal{place + "grams", shortest(l.grams) + " g is less than four fifths of the " +
                                                    fixed(dry, 1) +
                                                    " g that cannot boil off; check the masses of this log"};
        }
        if (!std::isnan(l.brix) && !(l.brix > 0.0 && on_brix_scale(l.brix)))
            return refusal{place + "brix",
                           shortest(l.brix) + " is outside the accepted range, above 0 to 95 Brix"};
    }
    return std::nullopt;
}

/// Weighted sums of the linearized problem in (offset, loss).
struct normal_equations {
    double aa = 0.0, al = 0.0, ll = 0.0;  ///< J^T J
    double ga = 0.0, gl = 0.0;            ///< J^T (measured - predicted)
    double chi_square = 0.0;

    void add(double r, double a, double l) {
        aa += a * a;
        al += a * l;
        ll += l * l;
        ga += a * r;
        gl += l * r;
        chi_square += r * r;
    }
};

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
    }

    const std::vector<kitchen_log>& logs() const { return logs_; }
    std::size_t measurements() const { return measurements_; }
    bool has_masses() const { return masses_ > 0; }
    double most_loss() const { return most_loss_; }
    void reweight(double offset) {
        for (auto& l : logs_) l.reweight(offset);
    }

    double chi_square(double offset, double loss) const {
        double sum = 0.0;
        for (const auto& l : logs_) {
            const auto s = l.at(offset);
            const double grams = l.weighed() ? (l.log->grams - (s.grams - loss)) * l.grams_weight : 0.0;
            if (l.weighed()) sum += square(grams);
            if (l.read()) sum += square((l.log->brix - s.brix) * l.brix_weight - l.brix_share * grams);
        }
        return std::isfinite(sum) ? sum : HUGE_VAL;
    }
    /// The loss that fits best at an offset.
    double best_loss(double offset) const {
        double sum = 0.0, weights = 0.0;
        for (const auto& l : logs_)
            if (l.weighed()) {
                const double weight = square(l.grams_weight);
                sum += weight * (l.at(offset).grams - l.log->grams);
                weights += weight;
            }
        return weights > 0.0 ? std::fmin(std::fmax(sum / weights, 0.0), most_loss_) : 0.0;
    }
    normal_equations linearized(double offset, double loss) const {
        normal_equations n;
        for (const auto& l : logs_) {
            const auto s = l.with_slopes(offset);  // the real temperature falls as the offset rises
            std::array<double, 3> row{};           // residual, and the prediction's slopes with offset and loss
            if (l.weighed()) {
                row = {l.log->grams - (s.grams - loss), -s.grams_by_kelvin, -1.0};
                for (double& x : row) x *= l.grams_weight;
                n.add(row[0], row[1], row[2]);
            }
            if (l.read())
                n.add((l.log->brix - s.brix) * l.brix_weight - l.brix_share * row[0],
                      -s.brix_by_kelvin * l.brix_weight - l.brix_share * row[1], -l.brix_share * row[2]);
        }
        return n;
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
    static double square(double x) { return x * x; }

    std::vector<kitchen_log> logs_;
    double most_loss_ = HUGE_VAL;
    std::size_t masses_ = 0, measurements_ = 0;
};

/// Offset and loss of least squares inside their bounds.
struct kitchen_minimum {
    double offset = 0.0, loss = 0.0, chi_square = HUGE_VAL;
    std::size_t iterations = 0;
};

/// The best of a grid of offsets, so that the steps from there end in the deepest valley.
inline kitchen_minimum grid_minimum(const kitchen_problem& problem) {
    kitchen_minimum best;
    for (int i = -15; i <= 15; ++i) {
        const double offset = i, loss = problem.best_loss(offset);
        const double sum = problem.chi_square(offset, loss);
        if (sum < best.chi_square) best = {offset, loss, sum, 0};
    }
    return best;
}

/// Levenberg and Marquardt's steps, downhill and inside the bounds.
inline void descend(const kitchen_problem& problem, kitchen_minimum& best) {
    best.chi_square = problem.chi_square(best.offset, best.loss);
    double damping = 1.0e-3;
    for (int i = 0; i < 100; ++i, ++best.iterations) {
        const auto n = problem.linearized(best.offset, best.loss);
        // A parameter at its bound that would go beyond it stays there.
        const bool offset_free = !(best.offset >= most_offset_kelvin && n.ga > 0.0) &&
                                 !(best.offset <= -most_offset_kelvin && n.ga < 0.0) && n.aa > 0.0;
        const bool loss_free =
            !(best.loss >= problem.most_loss() && n.gl > 0.0) && !(best.loss <= 0.0 && n.gl < 0.0) && n.ll > 0.0;
        const double aa = n.aa * (1.0 + damping), ll = n.ll * (1.0 + damping);
        double by_offset = offset_free ? n.ga / aa : 0.0, by_loss = loss_free ? n.gl / ll : 0.0;
        if (offset_free && loss_free) {
            const double determinant = aa * ll - n.al * n.al;
            by_offset = (n.ga * ll - n.gl * n.al) / determinant;
            by_loss = (n.gl * aa - n.ga * n.al) / determinant;
        }
        const double offset =
            std::fmin(std::fmax(best.offset + by_offset, -most_offset_kelvin), most_offset_kelvin);
        const double loss = std::fmin(std::fmax(best.loss + by_loss, 0.0), problem.most_loss());
        const double sum = problem.chi_square(offset, loss);
        const bool settled = std::fabs(offset - best.offset) <= 1.0e-10 && std::fabs(loss - best.loss) <= 1.0e-9;
        if (sum <= best.chi_square * (1.0 + 1.0e-12)) {
            best.offset = offset;
            best.loss = loss;
            best.chi_square = sum;
            damping = std::fmax(0.1 * damping, 1.0e-12);
        } else {
            damping *= 10.0;
        }
        if (settled) break;
    }
}

/// The weights depend a little on the answer, so both are brought to agree.
inline kitchen_minimum minimize(kitchen_problem& problem) {
    kitchen_minimum best = grid_minimum(problem);
    if (!std::isfinite(best.chi_square)) return best;
    descend(problem, best);
    for (int i = 0; i < 50; ++i) {
        const double before = best.offset, loss = best.loss;
        problem.reweight(best.offset);
        descend(problem, best);
        if (std::fabs(best.offset - before) <= 1.0e-9 && std::fabs(best.loss - loss) <= 1.0e-8) break;
    }
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
    fit.residuals = problem.residuals(best.offset, best.loss);
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

    const auto n = problem.linearized(best.offset, best.loss);
    const double determinant = n.aa * n.ll - n.al * n.al;
    constexpr double too_much_alike = 1.0e-8;
    if (!(n.aa > 0.0))
        return refusal{"logs",
                       "no log depends on the thermometer: none boils and stays inside the model; log "
                       "cooks that boil down"};
    if (problem.has_masses() && !(determinant > too_much_alike * n.aa * n.ll))
        return refusal{"logs",
                       "are too much alike to tell a thermometer offset from a loss in the pan; log other "
                       "temperatures or batches, or a Brix"};
    const double inflate = fit.reduced_chi_square > 1.0 ? std::sqrt(fit.reduced_chi_square) : 1.0;
    const double u_offset = inflate * std::sqrt(problem.has_masses() ? n.ll / determinant : 1.0 / n.aa);
    fit.offset_kelvin = detail::learned_at(best.offset, u_offset, -most_offset_kelvin, most_offset_kelvin);
    if (problem.has_masses()) {
        fit.loss_grams =
            detail::learned_at(best.loss, inflate * std::sqrt(n.aa / determinant), 0.0, problem.most_loss());
        fit.correlation = -n.al / std::sqrt(n.aa * n.ll);
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
        fit.notes.emplace_back(best.loss <= 0.0 ? "The loss is at its bound of 0 g: the pans held more than they "
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
