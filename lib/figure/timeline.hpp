// A cook over time as a figure: temperature and water left against the minutes, the steps marked.
#pragma once

#include <string>

#include "figure/svg.hpp"

namespace sirop::figure {

struct timeline_step {
    double ends_minutes, celsius;
    std::string says;
};

/// Temperatures in C, water in mass % of the pan, both over minutes.
struct timeline {
    std::string title;
    line_of_points celsius, water_percent;
    std::vector<timeline_step> steps;
};

/// The SVG file, an A4 sheet lying, in black and white.
std::string figure_of(const timeline& t);

}  // namespace sirop::figure
