// Monte Carlo beside the linear rule of sensitivity.hpp: the same inputs drawn normally, each sample through the
// full model.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "sensitivity.hpp"

namespace sirop::core {

struct spread {
    double mean = not_a_number;
    double standard_deviation = not_a_number;
    double standard_deviation_error = not_a_number;  ///< sampling error of it, from the fourth moment
    double low = not_a_number, high = not_a_number;  ///< 2.5 and 97.5 percentiles
};

struct monte_carlo_answer {
    std::array<spread, output_count> of{};
    std::size_t samples = 0;
    std::size_t not_computed = 0;  ///< not boiling there, beyond the model, or less than nothing of something
};

/// Linear propagation against Monte Carlo.
struct linear_check {
    outputs ratio{};  ///< standard deviation of the samples over the linear one
    outputs shift{};  ///< mean of the samples less the best value, in linear standard uncertainties
    std::array<bool, output_count> holds{};  ///< within 10 %, or within four sampling errors of that
    std::vector<std::string> notes;          ///< where it does not hold
};

namespace detail {

/// Normal numbers that are the same everywhere: splitmix64 and the polar method.
class normal_numbers {
  public:
    explicit normal_numbers(std::uint64_t seed) : state_(seed) {}

    double next() {
        if (has_second_) {
            has_second_ = false;
            return second_;
        }
        // The polar method (Marsaglia & Bray, SIAM Rev. 6 (1964) 260): a point within the unit circle.
        double x, y, square;
        do {
            x = 2.0 * uniform() - 1.0;
            y = 2.0 * uniform() - 1.0;
            square = x * x + y * y;
        } while (square > 1.0 || square == 0.0);
        const double factor = std::sqrt(-2.0 * std::log(square) / square);
        second_ = factor * y;
        has_second_ = true;
        return factor * x;
    }

  private:
    std::uint64_t bits() {
        std::uint64_t z = (state_ += 0x9e3779b97f4a7c15U);
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31U);
    }
    /// In (0, 1].
    double uniform() { return (static_cast<double>(bits() >> 11U) + 1.0) * 0x1p-53; }

    std::uint64_t state_;
    double second_ = 0.0;
    bool has_second_ = false;
};

/// Sorts the samples.
inline spread spread_of(std::vector<double>& x) {
    spread s;
    if (x.size() < 2) return s;
    std::make_heap(x.begin(), x.end());  // a fraction of the code of std::sort
    std::sort_heap(x.begin(), x.end());
    const double n = static_cast<double>(x.size());
    double sum = 0.0, second = 0.0, fourth = 0.0;
    for (const double v : x) sum += v;
    s.mean = sum / n;
    for (const double v : x) {
        const double square = (v - s.mean) * (v - s.mean);
        second += square;
        fourth += square * square;
    }
    s.standard_deviation = std::sqrt(second / (n - 1.0));
    const double variance = second / n;
    const double kurtosis = variance > 0.0 ? fourth / n / (variance * variance) : 3.0;
    s.standard_deviation_error = s.standard_deviation * std::sqrt(std::fmax(kurtosis - 1.0, 0.0) / (4.0 * n));
    const auto percentile = [&](double p) {
        const double at = p * (n - 1.0);
        const auto i = std::min(static_cast<std::size_t>(at), x.size() - 2);
        return x[i] + (at - static_cast<double>(i)) * (x[i + 1] - x[i]);
    };
    s.low = percentile(0.025);
    s.high = percentile(0.975);
    return s;
}

}  // namespace detail

inline constexpr std::size_t most_samples = 1000000;

/// The same inputs drawn normally, each sample through the full model.  The same seed gives the same answer.
inline outcome<monte_carlo_answer> monte_carlo(const batch& b, const std::vector<uncertain_input>& inputs,
                                               std::size_t samples, std::uint64_t seed) {
    if (auto fault = detail::find_input_fault(b, inputs)) return *fault;
    if (samples < 2 || samples > most_samples)
        return refusal{"samples", std::to_string(samples) + " is outside the accepted range, 2 to " +
                                      std::to_string(most_samples)};
    monte_carlo_answer answer;
    answer.samples = samples;
    std::array<std::vector<double>, output_count> drawn;
    for (auto& list : drawn) list.reserve(samples);
    detail::normal_numbers random(seed);
    for (std::size_t i = 0; i < samples; ++i) {
        batch one = b;
        for (const auto& in : inputs) detail::shift(one, in, in.standard_uncertainty * random.next());
        const auto r = outputs_of(one);
        if (!r) {
            ++answer.not_computed;
            continue;
        }
        for (std::size_t k = 0; k < output_count; ++k) drawn[k].push_back((*r)[k]);
    }
    for (std::size_t k = 0; k < output_count; ++k) answer.of[k] = detail::spread_of(drawn[k]);
    return answer;
}

/// Whether the linear rule tells the spread, and where it does not.
inline linear_check check_linear(const sensitivity& linear, const monte_carlo_answer& sampled) {
    constexpr double accepted = 0.10, sampling_errors = 4.0;
    linear_check check;
    for (const auto& r : output_table) {
        const std::size_t k = index_of(r.id);
        const double u = linear.standard_uncertainty[k];
        const spread& s = sampled.of[k];
        if (!(u > 0.0)) {  // nothing moves it, to first order: then nothing may move it at all
            check.ratio[k] = check.shift[k] = not_a_number;
            check.holds[k] = s.standard_deviation <= 1.0e-9 * std::fabs(linear.value[k]);
        } else {
            const double n = static_cast<double>(sampled.samples - sampled.not_computed);
            check.ratio[k] = s.standard_deviation / u;
            check.shift[k] = (s.mean - linear.value[k]) / u;
            check.holds[k] =
                std::fabs(check.ratio[k] - 1.0) <= accepted + sampling_errors * s.standard_deviation_error / u &&
                std::fabs(check.shift[k]) <= accepted + sampling_errors * check.ratio[k] / std::sqrt(n);
        }
        if (!check.holds[k])
            check.notes.push_back(
                std::string(r.words)
                    .append(": not linear over these uncertainties (spread ")
                    .append(fixed(check.ratio[k], 2))
                    .append(" times the linear one, mean shifted by ")
                    .append(fixed(check.shift[k], 2))
                    .append(" of it); the percentiles of the samples hold, the shares are rough."));
    }
    if (sampled.not_computed > 0)
        check.notes.push_back(
            std::to_string(sampled.not_computed)
                .append(" of ")
                .append(std::to_string(sampled.samples))
                .append(" samples could not be computed (the pan does not boil there, or is beyond "
                        "the model): the spread leaves them out."));
    return check;
}

}  // namespace sirop::core
