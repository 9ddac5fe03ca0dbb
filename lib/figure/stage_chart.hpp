// The stages of a published table in a kitchen, as rows and as a chart for its wall.
#pragma once

#include <string>
#include <vector>

#include "sirop/texture/stage_equivalent.hpp"

namespace sirop::figure {

struct chart_row {
    std::string_view english, french;                    ///< "-" where the table has none
    double low_celsius, high_celsius;                    ///< in this kitchen
    double water_percent_at_low, water_percent_at_high;  ///< of plain syrup; NaN beyond the model
    bool known;  ///< false: beyond the model, where the table's own temperature stands
};
std::vector<chart_row> chart_rows(const core::stage_table& table, double pressure_pa);

/// "113.0 - 116.0", or one number where both read alike.
std::string span_of(double low, double high, int decimals);

std::string stage_chart_page(const core::stage_table& table, double pressure_pa);

}  // namespace sirop::figure
