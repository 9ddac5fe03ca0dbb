// The numbers of one batch along its cook: what the figure draws.
#pragma once

#include <string>
#include <vector>

#include "figure/svg.hpp"
#include "sirop/cooking/predict.hpp"

namespace sirop::figure {

/// From and to, C on the cook's thermometer; empty where the first is not below the second.
struct window {
    double from = 0.0, to = 0.0;
};

/// Where a stage lies: the table's plain sugar in this kitchen, and this batch as stiff.
struct stage_window {
    int number;  ///< of the row in its table, from 1
    std::string_view name;
    window plain, mine;
};

/// A quantity against the temperature, with its interval.
struct curve_with_range {
    line_of_points value, low, high;
};

/// Temperatures are those on the cook's thermometer; firmness is log10 of Pa s.
struct batch_curves {
    core::batch batch;
    core::prediction at_target;
    std::string table;
    double starts_celsius, last_celsius;
    std::vector<stage_window> stages;
    curve_with_range water_percent{}, firmness{};
    line_of_points plain_water_percent{}, poured_firmness{};

    double target_celsius() const { return batch.thermometer_celsius; }
    /// The temperatures that are shown, from the start of the boil to some way past the target, on the page.
    axis temperatures(double left, double right) const;
};

/// Asks the library all along the cook; the reason of a refusal if the batch has no answer.
core::outcome<batch_curves> curves_of(const core::batch& b, const core::stage_table& table);

}  // namespace sirop::figure
