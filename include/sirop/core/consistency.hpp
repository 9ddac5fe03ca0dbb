// How a batch flows: the viscosity of its syrup phase thickened by what floats in it, the word for the set, and
// the plain sugar syrup of equal consistency.
//
// Monotone in water and temperature; its interval is a factor.  Gels (set milk
// protein, agar, pectin, starch paste) are not modelled beyond the volume they fill.
#pragma once

#include <array>
#include <string_view>

#include "properties.hpp"

namespace sirop::core {

/// One word of the set, from a viscosity up to that of the next.
struct set_word {
    std::string_view word;
    double from_pa_s;
    std::string_view meaning;
};

inline constexpr std::array<set_word, 8> set_words = {{
    {"thin", 0.0, "runs like milk or oil"},
    {"pourable", 0.1, "pours and runs off the spoon"},
    {"ribbon", 2.0, "falls from the spoon in a ribbon, like honey"},
    {"mounding", 50.0, "mounds on the spoon and slumps within minutes"},
    {"soft set", 3.0e3, "a layer keeps its edge while it is served; flows over hours"},
    {"chewy", 1.0e5, "holds a cut edge for hours; bends and chews"},
    {"hard", 1.0e9, "hard to the bite; breaks when struck"},
    {"glassy", 1.0e12, "a glass that snaps"},
}};

constexpr const set_word& word_for(double viscosity_pa_s) {
    const set_word* found = &set_words[0];
    for (const auto& w : set_words)
        if (viscosity_pa_s >= w.from_pa_s) found = &w;
    return *found;
}

/// Temperature of the water in the cold-water test, C (common practice, no source: cool tap water).
inline constexpr double cold_water_celsius = 20.0;

namespace detail {

// Volumes that suspended matter takes up (casein micelles: from memory, confidence medium; starch: our estimate),
// and the crowding at which it locks: our estimates, confidence low.
inline constexpr double protein_swollen_cm3_per_gram = 4.0, starch_swelling = 3.0, solids_crowding = 0.64,
                        fat_crowding = 0.78, rigid_intrinsic = 2.5, liquid_drop_intrinsic = 1.0;

/// Share of milk fat that is solid: 1 at 0 C, 0 from 35 C on (our estimate; cocoa butter is harder, see docs).
constexpr double solid_fat_share(double celsius) {
    return celsius <= 0.0 ? 1.0 : (celsius >= 35.0 ? 0.0 : 1.0 - celsius / 35.0);
}

/// ln of the relative viscosity of a crowd.  Past 95 % of the locking volume the law would reach its pole: it goes
/// on with its slope there, and is flagged.
inline double crowd_ln(double phi, double phi_max, double intrinsic, grade& status) {
    const double last = 0.95 * phi_max;
    if (phi <= last) return formula::krieger_dougherty_ln(phi, phi_max, intrinsic);
    status = worst(status, grade::extrapolated);
    const double slope = intrinsic / (1.0 - last / phi_max);
    return formula::krieger_dougherty_ln(last, phi_max, intrinsic) + slope * (phi - last);
}

/// log10 of the factor by which fat and suspended solids thicken the syrup.
inline double thickening_log10(const mixture& m, double celsius, grade& status) {
    const double syrup = syrup_volume(m, celsius);
    const double fat = fat_volume(m, celsius);
    const double solids = particle_volume(m, celsius) + m[component::protein] * protein_swollen_cm3_per_gram +
                          starch_volume(m, celsius) * starch_swelling;
    const double phi_solids = solids / (solids + syrup);
    const double phi_fat = fat / (fat + solids + syrup);
    const double drop =
        liquid_drop_intrinsic + (rigid_intrinsic - liquid_drop_intrinsic) * solid_fat_share(celsius);
    return (crowd_ln(phi_solids, solids_crowding, rigid_intrinsic, status) +
            crowd_ln(phi_fat, fat_crowding, drop, status)) /
           std::log(10.0);
}

}  // namespace detail

/// How many decades the batch may be firmer than its viscosity says: what a gel of the milk protein could add (our
/// estimate from one mark: dulce de leche of 28.7 % water mounds), and cocoa butter, which sets below 34 C where
/// the law takes all fat for milk fat (our estimate: a ganache of a third fat is sliceable in the cold; common
/// practice, no source).
inline double setting_decades(const mixture& m, double celsius) {
    const double gel = std::fmin(2.5, 12.0 * m[component::protein] / (m[component::protein] + m.water()));
    if (!(m.fat() > 0.0) || celsius >= 34.0) return gel;
    const double from_cocoa = std::fmin(1.0, 2.0 * m[component::cocoa_solids] / m.fat());
    const double volume_share = fat_volume(m, celsius) / volume(m, celsius);
    const double cold = std::fmin(1.0, 1.0 - celsius / 34.0);
    return std::hypot(gel, 8.0 * from_cocoa * std::fmin(1.0, volume_share / 0.3) * cold);
}

/// log10 of the viscosity of the whole batch, Pa s, at a temperature in C; ice, if any, already in the mixture.
/// Interval, in quadrature: the syrup law, 9 % to 75 % solids, where it rests on data, growing to a factor of 3 at
/// 90 %; the glass transition, of which +-5 K enter as that grows, and for the share of chains, whose own is
/// estimated; half the thickening; upward also setting_decades.
inline estimate log10_viscosity(const mixture& m, double celsius) {
    const double w = m.syrup_solids();
    if (!(m.water() > 0.0)) return {};
    grade status = w <= 0.75 ? grade::fine : grade::extrapolated;
    const double syrup = syrup_log10_viscosity(m, celsius);
    const double thick = detail::thickening_log10(m, celsius, status);
    using ramp = std::array<std::array<double, 2>, 2>;
    const double law = detail::broken_line(ramp{{{0.75, 0.036}, {0.90, 0.5}}}, w);
    const double chains = m.dissolved() > 0.0 ? chain_share(m) : 0.0;
    const double glass =
        glass_error_kelvin * std::fmax(detail::broken_line(ramp{{{0.75, 0.0}, {0.85, 1.0}}}, w), chains);
    const double value = syrup + thick;
    const double up = syrup_log10_viscosity(m, celsius, glass) - syrup;
    const double down = syrup - syrup_log10_viscosity(m, celsius, -glass);
    return between(value, value - std::hypot(down, law, 0.5 * thick),
                   value + std::hypot(std::hypot(up, law, 0.5 * thick), setting_decades(m, celsius)), status);
}

/// A plain sucrose syrup of a mass fraction of solids.
inline mixture plain_syrup(double solids) {
    mixture m;
    m[component::sucrose] = solids;
    m[component::water] = 1.0 - solids;
    return m;
}

inline constexpr double last_syrup_solids = 0.995;

/// Mass fraction of solids of the plain sucrose syrup whose viscosity in the cold-water test is that of the batch;
/// NaN if it would be thinner than water or drier than 99.5 %.
inline double plain_solids_of_consistency(double log10_viscosity_pa_s) {
    return solve_monotone(
        [&](double s) { return syrup_log10_viscosity(plain_syrup(s), cold_water_celsius) - log10_viscosity_pa_s; },
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
    return boiling_celsius(plain_syrup_boiling(celsius, from_pressure_pa), to_pressure_pa).value;
}

/// Grams of water at which the mixture has a viscosity in the cold-water test; NaN if no water content gives it.
inline double water_of_consistency(const mixture& m, double log10_viscosity_pa_s) {
    const double solids = m.dissolved();
    if (!(solids > 0.0)) return not_a_number;
    // log viscosity falls as water rises, on a logarithmic scale of water per solids
    const double u = solve_monotone(
        [&](double v) {
            return log10_viscosity(m.with_water(solids * std::exp(v)), cold_water_celsius).value -
                   log10_viscosity_pa_s;
        },
        std::log(0.2), std::log(1.0 / last_syrup_solids - 1.0), std::log(100.0));
    return solids * std::exp(u);
}

}  // namespace sirop::core
