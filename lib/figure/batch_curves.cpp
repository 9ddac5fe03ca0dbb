#include "figure/batch_curves.hpp"

#include <algorithm>
#include <cmath>

namespace sirop::figure {
namespace {

std::vector<stage_window> stage_windows(const core::batch& b, const core::mixture& pan,
                                        const core::stage_table& table) {
    const double error = b.thermometer_error_kelvin, pa = b.pressure_pa;
    const double last = core::highest_answer_celsius(pan, pa);
    const double last_plain = core::highest_answer_celsius(core::plain_syrup(0.5), pa);
    const double stiffest =
        core::log10_firmness(pan.with_water(pan.dissolved() * (1.0 / core::last_syrup_solids - 1.0)),
                             core::cold_water_celsius)
            .value;
    // An edge of a stage, from its temperature at sea level; beyond the model it is the end of the scale.
    const auto plain_at = [&](double t) {
        const double plain = core::carried_celsius(t, formula::standard_atmosphere, pa);
        return error + (std::isfinite(plain) ? std::fmin(plain, last_plain) : t < 110.0 ? 0.0 : last_plain);
    };
    const auto mine_at = [&](double t) {
        const double mine = core::celsius_for_consistency(pan, t, pa), stiff = core::firmness_of_plain(t);
        const bool too_thin = std::isfinite(stiff) ? stiff < stiffest : t < 110.0;
        return error + (std::isfinite(mine) ? std::fmin(mine, last) : too_thin ? 0.0 : last);
    };
    std::vector<stage_window> windows;
    double before = 0.0;  // points of a table reach a little way, but not into each other
    for (std::size_t i = 0; i < table.consistencies; ++i) {  // no colours
        const auto& row = table.rows[i];
        const double reach = row.low_celsius == row.high_celsius ? core::stage_point_reach_celsius : 0.0;
        const double gap =
            i + 1 < table.rows.size() ? 0.5 * (table.rows[i + 1].low_celsius - row.high_celsius) : 99.0;
        const double low = std::fmax(row.low_celsius - reach, before);
        const double high = row.high_celsius + std::fmin(reach, gap);
        before = high;
        windows.push_back(
            {static_cast<int>(i) + 1, row.name, {plain_at(low), plain_at(high)}, {mine_at(low), mine_at(high)}});
    }
    return windows;
}

/// One temperature of the cook, on every curve.
void add_point(batch_curves& c, double celsius, const core::stage_table& table) {
    core::batch other = c.batch;
    other.thermometer_celsius = celsius;
    const auto p = core::predict(other, table);
    if (!p) return;
    const auto add = [&](curve_with_range& to, const core::estimate& e) {
        to.value.push_back({celsius, e.value});
        to.low.push_back({celsius, e.low});
        to.high.push_back({celsius, e.high});
    };
    add(c.water_percent, p->cooked.water_percent);
    if (p->set.log10_firmness.computed()) add(c.firmness, p->set.log10_firmness);
    if (!std::isfinite(other.pour_celsius)) return;
    const auto& finished = p->finished.contents;
    const auto poured =
        core::firmness_at({finished, finished, finished}, other.pour_celsius, core::history::warming);
    if (poured.computed()) c.poured_firmness.push_back({celsius, poured.value});
}

}  // namespace

axis batch_curves::temperatures(double left, double right) const {
    const double target = target_celsius(), low = std::floor(starts_celsius) - 1.0;
    const double beyond = target + std::fmax(8.0, 0.5 * (target - starts_celsius));
    const double high = std::ceil(std::fmin(beyond, std::fmax(last_celsius, target) + 1.0));
    return {low, std::fmax(high, low + 8.0), left, right};
}

core::outcome<batch_curves> curves_of(const core::batch& b, const core::stage_table& table) {
    const auto at_target = core::predict(b, table);
    if (!at_target) return at_target.why;
    const auto& cooked = at_target->cooked;
    const double error = b.thermometer_error_kelvin;
    batch_curves c{b,
                   *at_target,
                   std::string(table.name),
                   cooked.starts_to_boil_celsius + error,
                   cooked.highest_celsius + error,
                   stage_windows(b, at_target->pan, table)};
    // 1e-7 inside, so that rounding at either end does not refuse it
    const double from = c.starts_celsius + 1.0e-7;
    const double to = std::fmin(c.last_celsius - 1.0e-7, c.temperatures(0.0, 1.0).high);
    std::vector<double> readings{b.thermometer_celsius};
    for (int i = 0; i <= 120; ++i) readings.push_back(from + (to - from) * i / 120.0);
    std::sort(readings.begin(), readings.end());
    for (const double celsius : readings) add_point(c, celsius, table);
    for (double t = cooked.water_boils_celsius + 0.05; t < 200.0; t += 0.25) {
        const auto plain = core::plain_syrup_boiling(t, b.pressure_pa);
        if (plain.water() > 0.0)
            c.plain_water_percent.push_back({t + error, core::percent(plain.water(), plain.total())});
    }
    return c;
}

}  // namespace sirop::figure
