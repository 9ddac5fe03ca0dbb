// A batch as a figure: its boiling curve over the stages with the cook's path, and its set against the cook.
#pragma once

#include "figure/batch_curves.hpp"

namespace sirop::figure {

/// The SVG file of a batch by a stage table, or the reason of a refusal.
core::outcome<std::string> figure_of(const core::batch& b, const core::stage_table& table);

/// Where a panel lies on the page.
struct area {
    double left, right, top, bottom;
};
void draw_water(page& on, const batch_curves& c, const area& a);  ///< water left in the pan
void draw_set(page& on, const batch_curves& c, const area& a);  ///< set when it is served, and where it shall pour
void draw_legend(page& on, const batch_curves& c, double left, double right, double top);

/// Ticks in degrees Celsius below the frame, in Fahrenheit above it.
void draw_temperatures(page& on, const axis& x, const area& a, std::string_view what);

/// "106.5 °C", without a decimal that is 0.
std::string degrees(double celsius);
/// A power of ten as people write it: "0.1", "100", "10⁵".
std::string power_of_ten(int exponent);
/// A firmness of which two digits mean something at most.
std::string about_pa_s(double log10);

}  // namespace sirop::figure
