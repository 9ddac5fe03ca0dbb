// The cold-water test as physics: a drop of the batch at the temperature of the water, as firm as which plain
// sugar syrup?  So a stage of a table is a consistency, whatever is in the pan, and both ways.
#pragma once

#include "../data/stages.hpp"
#include "consistency.hpp"

namespace sirop::core {

/// Temperature of the water in the cold-water test, C (common practice, no source: cool tap water).
inline constexpr double cold_water_celsius = 20.0;

/// A plain sucrose syrup of a mass fraction of solids.
inline mixture plain_syrup(double solids) {
    mixture m;
    m[component::sucrose] = solids;
    m[component::water] = 1.0 - solids;
    return m;
}

/// Temperature, C, at which the driest plain syrup of the model boils at sea level.
inline double last_stage_celsius() {
    return best_boiling_celsius(plain_syrup(last_syrup_solids), formula::standard_atmosphere);
}

/// Mass fraction of solids of the plain sucrose syrup whose viscosity in the cold-water test is the firmness of
/// the batch; NaN if it would be thinner than water or drier than 99.5 %.
inline double plain_solids_of_consistency(double log10_firmness_pa_s) {
    return solve_monotone(
        [&](double s) { return syrup_log10_viscosity(plain_syrup(s), cold_water_celsius) - log10_firmness_pa_s; },
        0.8, 0.0, last_syrup_solids);
}

/// Plain sucrose syrup boiling at a temperature in C and a pressure in Pa; without water where it would be drier
/// than 99.5 % or does not boil.
inline mixture plain_syrup_boiling(double celsius, double pressure_pa) {
    mixture plain;
    plain[component::sucrose] = 1.0;
    const double ln_aw = ln_activity_at_boil(celsius, pressure_pa);
    if (!(ln_aw < 0.0)) return plain;
    const double water = water_held(plain, ln_aw, celsius + formula::zero_celsius);
    return 1.0 / (1.0 + water) <= last_syrup_solids ? plain.with_water(water) : plain;
}

/// Temperature, C, at which the plain sucrose syrup that boils at one temperature and pressure boils at another
/// pressure; NaN where plain_syrup_boiling has no water.  To sea level it is what a stage table means by the
/// kitchen's temperature, from sea level it is the kitchen's temperature for a table's.
inline double carried_celsius(double celsius, double from_pressure_pa, double to_pressure_pa) {
    const mixture plain = plain_syrup_boiling(celsius, from_pressure_pa);
    // Exactly as it stands where nothing is carried: a stage begins at its printed temperature.
    if (!(plain.water() > 0.0)) return not_a_number;
    return from_pressure_pa == to_pressure_pa ? celsius : best_boiling_celsius(plain, to_pressure_pa);
}

/// The stage that a table means by a temperature in a kitchen: that of the plain syrup that boils there, carried
/// to sea level.  Where water does not boil yet, as far below as here.  Colours follow the kitchen's own
/// temperature.  Past 99.5 % solids of plain syrup nothing can be carried: it is beyond what the model reaches.
inline stage_place stage_of_carried(const stage_table& table, double celsius, double pressure_pa, double carried) {
    if (std::isfinite(carried)) return find_stage_place(table, celsius, carried);
    const double above_water = celsius - water_boils_celsius(pressure_pa);
    if (above_water <= 0.0)
        return find_stage_place(table, celsius, water_boils_celsius(formula::standard_atmosphere) + above_water);
    return find_stage_place(table, celsius, std::fmax(celsius, last_stage_celsius()));
}
inline stage_place stage_of_temperature(const stage_table& table, double celsius, double pressure_pa) {
    return stage_of_carried(table, celsius, pressure_pa,
                            carried_celsius(celsius, pressure_pa, formula::standard_atmosphere));
}

/// Grams of water at which the mixture has a firmness in the cold-water test; NaN if no water content gives it.
inline double water_of_consistency(const mixture& m, double log10_firmness_pa_s) {
    const double solids = m.dissolved();
    if (!(solids > 0.0)) return not_a_number;
    // log firmness falls as water rises, on a logarithmic scale of water per solids
    const double u = solve_monotone(
        [&](double v) {
            grade ignored = grade::fine;
            return detail::log10_firmness_value(m.with_water(solids * std::exp(v)), cold_water_celsius,
                                                history::cooling, ignored) -
                   log10_firmness_pa_s;
        },
        std::log(0.2), std::log(1.0 / last_syrup_solids - 1.0), std::log(100.0));
    return solids * std::exp(u);
}

/// What the cold-water test found, against a table.
struct cold_water_stage {
    stage_place place;
    double plain_celsius = not_a_number;  ///< where the plain syrup of equal firmness boils at sea level
    grade status = grade::not_computed;   ///< of the firmness
};

/// The stage that a batch is: its drop in cold water is as firm as that of plain sugar syrup at this stage.
/// Stages of consistency end at hard crack: a colour is not felt in cold water.
inline cold_water_stage stage_in_cold_water(const mixture& contents, const stage_table& table) {
    const auto drop = log10_firmness(at_temperature(contents, cold_water_celsius), cold_water_celsius);
    if (!drop.computed()) return {};
    const stage_table firm = consistencies_of(table);
    const stage_place beyond{static_cast<int>(firm.rows.size()) - 1, static_cast<int>(table.rows.size())};
    const double solids = plain_solids_of_consistency(drop.value);
    if (std::isfinite(solids) && solids > 0.0) {
        const double plain = best_boiling_celsius(plain_syrup(solids), formula::standard_atmosphere);
        const auto place = find_stage_place(firm, plain);
        return {place.upper == beyond.lower + 1 ? beyond : place, plain, drop.status};
    }
    return {drop.value < 0.0 ? stage_place{-1, 0} : beyond, not_a_number, drop.status};
}

/// log10 of the firmness, Pa s, in cold water of the plain sugar syrup that boils at a temperature at sea level:
/// what a row of a table means as a consistency.  NaN below boiling water and beyond 99.5 % solids.
inline double firmness_of_plain(double sea_level_celsius) {
    const auto plain = plain_syrup_boiling(sea_level_celsius, formula::standard_atmosphere);
    return plain.water() > 0.0 ? syrup_log10_viscosity(plain, cold_water_celsius) : not_a_number;
}

/// Temperature, C, at which the pan has the consistency that plain sugar has at a temperature at sea level; NaN
/// where no boiling does it, or beyond 99.5 % solids.
inline double celsius_for_consistency(const mixture& pan, double plain_sea_level_celsius, double pressure_pa) {
    const double water = water_of_consistency(pan, firmness_of_plain(plain_sea_level_celsius));
    return std::isfinite(water) ? best_boiling_celsius(pan.with_water(water), pressure_pa) : not_a_number;
}

}  // namespace sirop::core
