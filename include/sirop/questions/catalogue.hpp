// The catalogue: every property that can be asked of a mixture, with its unit, range, source and uncertainty as
// data. The tables of the docs, the C API and the example describe_syrup are made from it.
#pragma once

#include <array>
#include <string_view>

#include "../stability/graining.hpp"
#include "../texture/consistency.hpp"

namespace sirop::core {

struct property {
    std::string_view name;  ///< as asked for, with its unit
    std::string_view symbol;
    std::string_view unit;
    double celsius_low, celsius_high;  ///< inclusive; outside, not computed.  Equal where it does not matter
    double fitted_celsius_low, fitted_celsius_high;  ///< outside, extrapolated
    double fitted_solids_percent;                    ///< of the syrup phase; above, extrapolated
    std::string_view uncertainty;                    ///< of the value, in words; the estimate carries the numbers
    std::string_view source;
    estimate (*of)(const mixture& m, double celsius, double pressure_pa);
};

namespace detail {

/// A value of which the same error is stated everywhere.
inline estimate within(double value, double error) {
    return between(value, value - error, value + error);
}

inline estimate power(const estimate& log10) {
    return {std::pow(10.0, log10.value), std::pow(10.0, log10.low), std::pow(10.0, log10.high), log10.status};
}
inline estimate scaled(const estimate& e, double factor) {
    return {factor * e.value, factor * e.low, factor * e.high, e.status};
}
inline estimate viscosity_of(const mixture& m, double celsius, double) {
    return power(log10_viscosity(at_temperature(m, celsius), celsius));
}

inline constexpr double index_error = 6.0e-4;    // four sugars: worst 2.6e-4; honey: 5.7e-4
inline constexpr double brix_error = 0.3;        // the same in Brix
inline constexpr double density_error = 0.003;   // g/ml; sucrose, glucose, fructose, lactose are within 0.0007
inline constexpr double saturation_error = 3.0;  // K: half a point of solubility, other sugars left out

inline constexpr std::string_view gel_source =
    "viscosity + 5 s x modulus; gels and networks by formula/texture.hpp, mostly our estimates";
inline constexpr std::string_view graining_source =
    "activity of the additive-water model, by which other sugars lower the solubility; the interval reaches to "
    "the "
    "sugar alone in the water";

inline constexpr double everywhere = 0.0;
inline constexpr std::string_view water_source =
    "additive water (Zdanovskii, Stokes, Robinson); isotherms: docs/theory.md";

}  // namespace detail

inline constexpr auto
    catalogue =
        std::
            to_array<property>(
                {
                    // clang-format off
    {"boiling_point_celsius", "Tb", "°C", detail::everywhere, detail::everywhere, -1e9, 1e9, 97.0,
     "plain sucrose 0.2 K at 75 %, 0.5 K at 85 %, 2 K at 90 %, 5 K at 95 %; in the estimate", detail::water_source,
     [](const mixture& m, double, double pa) { return boiling_celsius(m, pa); }},
    {"water_activity", "aw", "1", -30.0, 170.0, -30.0, 150.0, 97.0,
     "sucrose is within 0.001 of measurements to 67 %; above 80 % the spread of two models; in the estimate", detail::water_source,
     [](const mixture& m, double t, double) { return water_activity(m, t); }},
    {"boiling_point_second_model_celsius", "Tb", "°C", detail::everywhere, detail::everywhere, -1e9, 1e9, 97.0,
     "none of its own: the other published models, inside the interval of the first",
     "the same; sucrose by UNIQUAC (Peres & Macedo 1996), glucose and its like by Norrish (1966)",
     [](const mixture& m, double, double pa) {
         return m.water() > 0.0 ? exactly(boiling_celsius(m, pa, curve::second)) : estimate{};
     }},
    {"water_activity_second_model", "aw", "1", -30.0, 170.0, -30.0, 150.0, 97.0,
     "none of its own: the other published models, inside the interval of the first",
     "the same; sucrose by UNIQUAC (Peres & Macedo 1996), glucose and its like by Norrish (1966)",
     [](const mixture& m, double t, double) {
         return m.water() > 0.0 ? exactly(std::exp(ln_activity(m, t + formula::zero_celsius, curve::second)))
                                : estimate{};
     }},
    {"freezing_point_celsius", "Tf", "°C", detail::everywhere, detail::everywhere, -1e9, 1e9, 60.0,
     "sugars are within 0.05 K of measurements to 40 %; in the estimate", "the same, with the ice line",
     [](const mixture& m, double, double) { return freezing_celsius(m); }},
    {"ice_share", "", "1", -30.0, 100.0, -10.0, 100.0, 100.0, "in the estimate", "the same, with the ice line",
     [](const mixture& m, double t, double) { return ice_share(m, t); }},
    {"density_g_per_ml", "rho", "g/ml", -30.0, 170.0, 0.0, 100.0, 85.0,
     "0.003; sucrose 0.0003 to 60 %, 0.0006 at 80 %",
     "ICUMSA SPS-4 (1994), Kell (1975), Choi & Okos (1986); additive volumes",
     [](const mixture& m, double t, double) { return detail::within(density(m, t), detail::density_error); }},
    {"refractive_index", "nD", "1", -30.0, 100.0, 0.0, 40.0, 85.0, "0.0006; sucrose at 20 °C 0.00001",
     "ICUMSA (1974) scale; Lorentz-Lorenz; IAPWS R9-97",
     [](const mixture& m, double t, double) { return detail::within(refractive_index(m, t), detail::index_error); }},
    {"refractometer_reading_brix", "Bx", "% sucrose", -30.0, 100.0, 0.0, 40.0, 85.0,
     "0.3; sucrose at 20 °C 0.01", "the same; an instrument that does not correct for temperature",
     [](const mixture& m, double t, double) { return detail::within(refractometer_reading(m, t), detail::brix_error); }},
    {"dry_substance_percent", "DS", "%", detail::everywhere, detail::everywhere, -1e9, 1e9, 100.0,
     "none: a ratio of masses", "dissolved solids over dissolved solids and water",
     [](const mixture& m, double, double) { return exactly(dry_substance(m)); }},
    {"baume_cold", "Bé", "°Bé", detail::everywhere, detail::everywhere, -1e9, 1e9, 85.0, "0.3",
     "145 - 145/SG(20/20)", [](const mixture& m, double, double) { return detail::within(baume_cold(m), 0.3); }},
    {"baume_hot", "Bé", "°Bé", -30.0, 170.0, 0.0, 100.0, 85.0, "0.3", "145 - 145/SG(T/20)",
     [](const mixture& m, double t, double) { return detail::within(baume_hot(m, t), 0.3); }},
    {"viscosity_pa_s", "eta", "Pa s", -30.0, 170.0, 0.0, 100.0, 75.0,
     "syrup 10 % to 75 %, then a factor: 8 at 90 %; in the estimate",
     "MYEGA (Mauro et al. 2009) anchored at the glass; Krieger & Dougherty (1959) for what floats in it",
     detail::viscosity_of},
    {"gel_modulus_pa", "G", "Pa", -30.0, 170.0, 0.0, 100.0, 0.0, "a factor of 5 to 10; in the estimate", detail::gel_source,
     [](const mixture& m, double t, double) { return gel_modulus(at_temperature(m, t), t); }},
    {"firmness_pa_s", "F", "Pa s", -30.0, 170.0, 0.0, 100.0, 75.0, "as viscosity and modulus; in the estimate", detail::gel_source,
     [](const mixture& m, double t, double) { return detail::power(log10_firmness(at_temperature(m, t), t)); }},
    {"slump_to_half_seconds", "", "s", -30.0, 170.0, 0.0, 100.0, 75.0,
     "a factor of 2 beside that of the viscosity; infinite where it stands", "Huppert (1982), Nye (1952); a layer 1 cm high, 4 cm wide",
     [](const mixture& m, double t, double) { return slump_to_half_seconds(at_temperature(m, t), t); }},
    {"stands_millimetres", "", "mm", -30.0, 170.0, 0.0, 100.0, 0.0, "a factor of 5 to 10; in the estimate",
     "height whose weight the yield stress carries, a tenth of the modulus (our estimate)",
     [](const mixture& m, double t, double) { return detail::scaled(standing_metres(at_temperature(m, t), t), 1000.0); }},
    {"pours_from_celsius", "", "°C", detail::everywhere, detail::everywhere, -1e9, 1e9, 75.0, "in the estimate",
     "where its firmness falls to 10 Pa s as it is warmed (our choice)",
     [](const mixture& m, double, double) { return pouring_celsius(m); }},
    {"glass_transition_celsius", "Tg", "°C", detail::everywhere, detail::everywhere, -1e9, 1e9, 100.0,
     "5 K; monosaccharides 12 K upward; chains 22 K down, 12 K up; in the estimate",
     "Gordon-Taylor, constants of Roos (1993); chains by their length",
     [](const mixture& m, double, double) { return glass_transition(m); }},
    {"specific_heat_kj_per_kg_k", "cp", "kJ/(kg K)", min_heat_celsius, max_heat_celsius, -40.0, 150.0, 75.0,
     "0.4 at 60 %: the spread of published equations; in the estimate", "Choi & Okos (1986); dissolved sugar as a liquid",
     [](const mixture& m, double t, double) { return specific_heat(m, t); }},
    {"enthalpy_kj_per_kg", "h", "kJ/kg", min_heat_celsius, max_heat_celsius, -40.0, 150.0, 75.0, "a tenth",
     "the integral of the specific heat from 0 °C",
     [](const mixture& m, double t, double) {
         const double h = enthalpy_joule(m, t) / m.total();
         return detail::within(h, 0.1 * std::fabs(h));
     }},
    {"sucrose_supersaturation", "S", "1", 0.0, 100.0, 0.0, 100.0, 100.0,
     "0.02 alone in water; beside other sugars unknown", "Bubnik & Kadlec (1995); other sugars left out",
     [](const mixture& m, double t, double) { return detail::within(sucrose_supersaturation(m, t), 0.02); }},
    {"glucose_supersaturation", "S", "1", 0.0, 90.0, 0.0, 90.0, 100.0, "0.05 alone in water",
     "our fit of recalled tables, confidence low to medium; other sugars left out",
     [](const mixture& m, double t, double) { return detail::within(glucose_supersaturation(m, t), 0.05); }},
    {"lactose_supersaturation", "S", "1", 0.0, 89.0, 0.0, 89.0, 100.0, "0.05 alone in water",
     "our fit of Hudson's data (in Lowe 1937); other sugars left out",
     [](const mixture& m, double t, double) { return detail::within(lactose_supersaturation(m, t), 0.05); }},
    {"sucrose_supersaturation_in_mixture", "S", "1", 0.0, 100.0, 0.0, 100.0, 97.0, "in the estimate", detail::graining_source,
     [](const mixture& m, double t, double) { return saturation_of(m, graining_sucrose, t).supersaturation; }},
    {"lactose_supersaturation_in_mixture", "S", "1", 0.0, 89.0, 0.0, 89.0, 97.0, "in the estimate", detail::graining_source,
     [](const mixture& m, double t, double) { return saturation_of(m, graining_lactose, t).supersaturation; }},
    {"sucrose_crystallizable_grams", "", "g", 0.0, 100.0, 0.0, 100.0, 97.0, "in the estimate", detail::graining_source,
     [](const mixture& m, double t, double) { return saturation_of(m, graining_sucrose, t).crystallizable_grams; }},
    {"lactose_crystallizable_grams", "", "g", 0.0, 89.0, 0.0, 89.0, 97.0, "in the estimate", detail::graining_source,
     [](const mixture& m, double t, double) { return saturation_of(m, graining_lactose, t).crystallizable_grams; }},
    {"sucrose_saturation_celsius", "Ts", "°C", detail::everywhere, detail::everywhere, -1e9, 1e9, 100.0,
     "3 K; beside other sugars unknown", "where sucrose_supersaturation is 1",
     [](const mixture& m, double, double) {
         return detail::within(sucrose_saturation_celsius(m), detail::saturation_error);
     }},
                    // clang-format on
                });

constexpr const property* find_property(std::string_view name) {
    for (const auto& p : catalogue)
        if (p.name == name) return &p;
    return nullptr;
}

/// A property of a mixture at a temperature in C and, where it matters, a pressure in Pa.  Not computed outside
/// its range of temperature; extrapolated outside the fitted one.
inline estimate evaluate(const property& p, const mixture& m, double celsius, double pressure_pa) {
    const bool at_any = p.celsius_low == p.celsius_high;
    if (!at_any && !(celsius >= p.celsius_low && celsius <= p.celsius_high)) return {};
    estimate e = p.of(m, celsius, pressure_pa);
    if (!e.computed()) return e;
    const bool fitted = (at_any || (celsius >= p.fitted_celsius_low && celsius <= p.fitted_celsius_high)) &&
                        !(100.0 * m.syrup_solids() > p.fitted_solids_percent);
    if (!fitted) e.status = worst(e.status, grade::extrapolated);
    return e;
}

}  // namespace sirop::core
