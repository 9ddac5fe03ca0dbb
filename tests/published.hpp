// What the tests of published data and the validation report share: units, a solver of their own, deviations.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <string>
#include <utility>

#include "sirop/formula/water.hpp"

namespace sirop_test {

inline double kelvin(double celsius) {
    return celsius + sirop::formula::zero_celsius;
}

inline double mole_fraction_at(double mass_percent, double molar_mass) {
    return 1.0 / (1.0 + (100.0 - mass_percent) / mass_percent * molar_mass / sirop::formula::water_molar_mass);
}

/// Where a function that is negative at `low` and positive at `high` changes sign: plain bisection, so that the
/// library's own solver does not check itself.
template <class Function>
double bisect(const Function& f, double low, double high) {
    for (int i = 0; i < 100; ++i) {
        const double middle = 0.5 * (low + high);
        (f(middle) < 0.0 ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

/// ICUMSA SPS-4 (1994), check values: mass % of sucrose, kg/m3 at 20 C.
inline constexpr std::array<std::array<double, 2>, 7> icumsa_densities = {{{10.0, 1038.12},
                                                                           {20.0, 1080.98},
                                                                           {40.0, 1176.52},
                                                                           {60.0, 1286.61},
                                                                           {70.0, 1347.48},
                                                                           {80.0, 1412.20},
                                                                           {90.0, 1480.52}}};

/// Deviations of a model from a table, printed at the end of each test that owns one.
class deviations {
  public:
    explicit deviations(std::string what) : what_(std::move(what)) {}
    ~deviations() {
        std::printf("    %s: %zu points, bias %.3g, rms %.3g, worst %.3g%s\n", what_.c_str(), count_, bias(),
                    rms(), worst_, where_.empty() ? "" : (" (" + where_ + ")").c_str());
    }
    deviations(const deviations&) = delete;
    deviations& operator=(const deviations&) = delete;

    void add(double deviation, const std::string& where = "") {
        ++count_;
        sum_ += deviation;
        squares_ += deviation * deviation;
        if (!(std::fabs(deviation) <= std::fabs(worst_))) {
            worst_ = deviation;
            where_ = where;
        }
    }
    std::size_t count() const { return count_; }
    double bias() const { return sum_ / static_cast<double>(count_); }
    double rms() const { return std::sqrt(squares_ / static_cast<double>(count_)); }
    double worst() const { return std::fabs(worst_); }

  private:
    std::string what_, where_;
    std::size_t count_ = 0;
    double sum_ = 0.0, squares_ = 0.0, worst_ = 0.0;
};

}  // namespace sirop_test
