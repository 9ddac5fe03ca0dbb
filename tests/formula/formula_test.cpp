// The published formulas against published values.  Where the values were computed from the formula's own
// equation, the check is a regression and says so: it guards the numbers, it does not validate the model.
#include "formulas.hpp"

#include <gtest/gtest.h>

#include <Eigen/Core>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <map>
#include <sirop/base/scalar.hpp>
#include <sirop/solution/properties.hpp>
#include <string>
#include <string_view>
#include <utility>

#include "csv.hpp"
#include "mixtures.hpp"
#include "published.hpp"
#include "sweep.hpp"

namespace {

namespace formula = sirop::formula;
using sirop::core::component;
using sirop_test::bisect;
using sirop_test::csv_row;
using sirop_test::deviations;
using sirop_test::kelvin;
using sirop_test::mole_fraction_at;
using sirop_test::read_csv;
using sirop_test::solution;

constexpr double sucrose_molar_mass = 342.297, glucose_molar_mass = 180.156, glycerol_molar_mass = 92.094;

/// Half a unit of the last printed decimal, with room for the binary rounding of the printed number.
double half_unit(const std::string& printed) {
    const std::size_t point = printed.find('.');
    const std::size_t decimals = point == std::string::npos ? 0 : printed.size() - point - 1;
    return 0.5 * std::pow(10.0, -static_cast<double>(decimals)) * (1.0 + 1.0e-6);
}

double mole_fraction_of_molality(double molality) {
    return molality / (molality + 1000.0 / formula::water_molar_mass);
}

/// Boiling-point elevation at 1 atm of a solution whose ln aw is a function of T in K.
template <class LnActivity>
double elevation(const LnActivity& ln_activity) {
    const double water_boils = formula::saturation_temperature(formula::standard_atmosphere);
    return bisect(
        [&](double rise) {
            const double t = water_boils + rise;
            return ln_activity(t) - std::log(formula::standard_atmosphere / formula::saturation_pressure(t));
        },
        0.0, 200.0);
}

double viscosity_mpa_s(const sirop::core::mixture& m, double celsius) {
    const double solids = m.dissolved() / (m.dissolved() + m.water());
    return 1000.0 * std::pow(10.0, formula::syrup_log10_viscosity(
                                       kelvin(celsius), kelvin(sirop::core::glass_celsius(m)), solids,
                                       (m.dissolved() - m[component::sucrose]) / m.dissolved(), 0.0));
}

// ---- water and air ----

// IAPWS R7-97(2012), tables 35 and 36; tolerance: half a unit of the last of the nine printed digits.
TEST(Water, SaturationVerificationValues) {
    EXPECT_NEAR(1.0e-6 * formula::saturation_pressure(300.0), 0.353658941e-2, 0.5e-11);
    EXPECT_NEAR(1.0e-6 * formula::saturation_pressure(500.0), 0.263889776e1, 0.5e-8);
    EXPECT_NEAR(1.0e-6 * formula::saturation_pressure(600.0), 0.123443146e2, 0.5e-7);
    EXPECT_NEAR(formula::saturation_temperature(0.1e6), 372.755919, 0.5e-6);
    EXPECT_NEAR(formula::saturation_temperature(1.0e6), 453.035632, 0.5e-6);
    EXPECT_NEAR(formula::saturation_temperature(10.0e6), 584.149488, 0.5e-6);
}

// The table was computed by another implementation of IF97; tolerance: half a unit of its last printed decimal,
// which is six digits or more.
TEST(Water, SaturationPressureTable) {
    deviations relative("saturation pressure, relative");
    for (const csv_row& row : read_csv("water_saturation.csv").rows) {
        const double pressure = formula::saturation_pressure(kelvin(row.number("T_C")));
        EXPECT_NEAR(pressure, row.number("psat_Pa"), half_unit(row.text("psat_Pa"))) << row.place();
        relative.add(pressure / row.number("psat_Pa") - 1.0, row.text("T_C") + " C");
    }
    EXPECT_LE(relative.worst(), 5.0e-6);
}

// Tolerance 0.013 %: by so much Clapeyron's equation, with densities from another paper, differs from the
// enthalpies of IF97 regions 1 and 2 (worst at 160 C).  The header states this number.
TEST(Water, LatentHeatTable) {
    deviations relative("latent heat, relative");
    for (const csv_row& row : read_csv("water_saturation.csv").rows)
        relative.add(
            0.001 * formula::latent_heat(kelvin(row.number("T_C"))) / row.number("latent_heat_kJ_per_kg") - 1.0,
            row.text("T_C") + " C");
    EXPECT_EQ(relative.count(), 21U);
    EXPECT_LE(relative.worst(), 1.3e-4);
}

// Tolerance 1e-12: the two closed forms invert each other but for rounding, which the critical point amplifies.
TEST(Water, SaturationRoundTrip) {
    const std::size_t count = sirop_test::sweep(200000);
    sirop_test::random_numbers random(20240501);
    for (std::size_t i = 0; i < count; ++i) {
        const double pressure = std::exp(random.between(std::log(611.3), std::log(22.0e6)));
        const double back = formula::saturation_pressure(formula::saturation_temperature(pressure));
        ASSERT_NEAR(back / pressure, 1.0, 1.0e-12) << pressure << " Pa";
    }
}

// Central difference over 0.01 K: its own error is about 1e-9 relative.
TEST(Water, SaturationSlopeIsTheDerivative) {
    for (double t = 274.0; t < 640.0; t += 1.0) {
        const double difference =
            (formula::saturation_pressure(t + 0.005) - formula::saturation_pressure(t - 0.005)) / 0.01;
        EXPECT_NEAR(formula::saturation_slope(t) / difference, 1.0, 3.0e-8) << t;
    }
}

// ISO 2533:1975; tolerance: half a unit of the last printed decimal, 0.0005 hPa and 0.0005 C.  The boiling points
// in the table were computed with IF97.
TEST(Air, StandardAtmosphere) {
    deviations hpa("standard atmosphere, hPa");
    for (const csv_row& row : read_csv("standard_atmosphere.csv").rows) {
        const double pascal = formula::standard_pressure(row.number("H_m"));
        hpa.add(0.01 * pascal - row.number("p_hPa"), row.text("H_m") + " m");
        EXPECT_NEAR(kelvin(row.number("water_boiling_C")), formula::saturation_temperature(pascal), 0.00051)
            << row.place();
    }
    EXPECT_LE(hpa.worst(), 0.00051);
}

// The short form of Robinson & Stokes, equal to the exact integral to 2e-5 in ln aw up to 10 K (its own note).
TEST(Water, IceLine) {
    deviations aw("ice line, aw");
    for (const csv_row& row : read_csv("water_activity_from_freezing_points.csv").rows)
        aw.add(std::exp(formula::ice_ln_activity(kelvin(row.number("Tf_C")))) - row.number("aw_at_Tf"),
               row.place());
    EXPECT_EQ(aw.count(), 91U);
    EXPECT_LE(aw.worst(), 2.0e-5);
    EXPECT_EQ(formula::ice_ln_activity(formula::zero_celsius), 0.0);
}

// ---- isotherms ----

// Regression: the table was computed from the same equation.  Tolerance: half a unit of its one decimal.
TEST(Sucrose, SolidsAtTheBoil) {
    for (const csv_row& row : read_csv("sucrose_solids_at_boil.csv").rows) {
        const double t = kelvin(row.number("T_C"));
        const double ln_aw = std::log(formula::standard_atmosphere / formula::saturation_pressure(t));
        // From 0 to 97.5 %, short of the equation's false minimum when cold.
        const double percent = bisect(
            [&](double w) {
                return ln_aw - formula::starzak_peacock_ln_activity(mole_fraction_at(w, sucrose_molar_mass), t);
            },
            0.0, 97.5);
        EXPECT_NEAR(percent, row.number("mass_percent"), 0.05) << row.place();
    }
}

// Regression: columns computed from the equations named in the file.  Tolerance 0.001 K, and 0.0051 K for the
// column with two decimals: printed digits, and the last digits of the molar mass and the gas constant.
TEST(Sucrose, BoilingPointModels) {
    deviations starzak("Starzak & Peacock, K"), uniquac("UNIQUAC, K"), norrish("Norrish, K");
    for (const csv_row& row : read_csv("sucrose_boiling_point_models.csv").rows) {
        const double x = mole_fraction_at(row.number("mass_percent"), sucrose_molar_mass);
        const std::string where = row.text("mass_percent") + " %";
        starzak.add(elevation([&](double t) { return formula::starzak_peacock_ln_activity(x, t); }) -
                        row.number("starzak_peacock_K"),
                    where);
        uniquac.add(elevation([&](double t) {
                        return formula::uniquac_ln_activity(x, t, formula::uniquac_sucrose);
                    }) - row.number("uniquac_K"),
                    where);
        if (row.has("norrish_K"))
            norrish.add(elevation([&](double) { return formula::norrish_ln_activity(x, -6.47); }) -
                            row.number("norrish_K"),
                        where);
    }
    EXPECT_EQ(starzak.count(), 56U);
    EXPECT_EQ(norrish.count(), 53U);
    EXPECT_LE(starzak.worst(), 0.001);
    EXPECT_LE(uniquac.worst(), 0.001);
    EXPECT_LE(norrish.worst(), 0.0051);
}

// Robinson & Stokes 1961, isopiestic, to 6 mol/kg (recalled, confidence high).  Tolerance 0.0012: the equation is
// a fit from dilute to nearly dry and 0..150 C; in terms of boiling point 0.0012 is 0.03 K.
TEST(Sucrose, WaterActivityAt25C) {
    deviations aw("sucrose aw at 25 C"), phi("UNIQUAC osmotic coefficient of sucrose");
    for (const csv_row& row : read_csv("sucrose_water_activity_25C.csv").rows) {
        const double m = row.number("m_mol_per_kg"), x = mole_fraction_of_molality(m);
        aw.add(std::exp(formula::starzak_peacock_ln_activity(x, 298.15)) - row.number("aw_1961"),
               row.text("m_mol_per_kg") + " mol/kg");
        if (m <= 5.0)
            phi.add(-formula::uniquac_ln_activity(x, 298.15, formula::uniquac_sucrose) /
                            (0.001 * formula::water_molar_mass * m) -
                        row.number("phi_book"),
                    row.text("m_mol_per_kg") + " mol/kg");
    }
    EXPECT_EQ(aw.count(), 23U);
    EXPECT_LE(aw.worst(), 0.0012);
    // 0.013: what the table of UNIQUAC parameters states of itself.
    EXPECT_LE(phi.worst(), 0.013);
}

// CRC Handbook, 102nd ed.  The freezing points are printed to 0.01 K, which is 1e-4 in aw, so 3e-5 of rms are the
// table's own.  Rms tolerances: glucose 1e-4, as the UNIQUAC parameters state; sucrose 2e-4; maltose 2.5e-4, since
// it borrows the sucrose curve.  Maltose above 20 % is left out: there the table follows sucrose suspiciously.
TEST(Sugars, WaterActivityAtFreezingPoints) {
    deviations glucose("glucose aw"), sucrose("sucrose aw"), maltose("maltose aw, to 20 %");
    for (const csv_row& row : read_csv("water_activity_from_freezing_points.csv").rows) {
        const double percent = row.number("mass_percent"), t = kelvin(row.number("Tf_C"));
        const std::string solute = row.text("solute"), where = row.text("mass_percent") + " %";
        if (solute == "glucose") {
            const double x = mole_fraction_at(percent, glucose_molar_mass);
            glucose.add(
                std::exp(formula::uniquac_ln_activity(x, t, formula::uniquac_glucose)) - row.number("aw_at_Tf"),
                where);
        } else if (solute == "sucrose" || percent <= 20.0) {
            const double x = mole_fraction_at(percent, sucrose_molar_mass);
            (solute == "sucrose" ? sucrose : maltose)
                .add(std::exp(formula::starzak_peacock_ln_activity(x, t)) - row.number("aw_at_Tf"), where);
        }
    }
    EXPECT_EQ(glucose.count(), 26U);
    EXPECT_EQ(sucrose.count(), 32U);
    EXPECT_EQ(maltose.count(), 21U);
    EXPECT_LE(glucose.rms(), 1.0e-4);
    EXPECT_LE(sucrose.rms(), 2.0e-4);
    EXPECT_LE(maltose.rms(), 2.5e-4);
    EXPECT_LE(sucrose.worst(), 5.0e-4);
    EXPECT_LE(glucose.worst(), 3.0e-4);
}

// Starzak & Mathlouthi, Food Chem. 96 (2006) 346, state that the minimum of the activity coefficient of water lies
// at 96 %; tolerance: their rounding.  Below 82 C aw itself has a false minimum: 0.161 at 98.05 % at 25 C
// (computed, a regression).
TEST(Sucrose, MinimaOfStarzakPeacock) {
    double least_gamma = 2.0, at_gamma = 0.0, least_aw = 2.0, at_aw = 0.0;
    for (double percent = 90.0; percent < 98.9; percent += 0.005) {
        const double x = mole_fraction_at(percent, sucrose_molar_mass);
        const double ln_aw = formula::starzak_peacock_ln_activity(x, 298.15);
        if (const double gamma = std::exp(ln_aw) / (1.0 - x); gamma < least_gamma) {
            least_gamma = gamma;
            at_gamma = percent;
        }
        if (std::exp(ln_aw) < least_aw) {
            least_aw = std::exp(ln_aw);
            at_aw = percent;
        }
    }
    EXPECT_NEAR(at_gamma, 96.0, 0.5);
    EXPECT_NEAR(least_aw, 0.161, 0.0005);
    EXPECT_NEAR(at_aw, 98.05, 0.01);
}

TEST(Sugars, UniquacParametersAreThoseOfTheTable) {
    const auto table = read_csv("uniquac_sugars.csv");
    ASSERT_EQ(table.rows.size(), 2U);
    const auto compare = [](const csv_row& row, auto pair) {
        EXPECT_EQ(pair.r_sugar, row.number("r_sugar"));
        EXPECT_EQ(pair.q_sugar, row.number("q_sugar"));
        EXPECT_EQ(pair.sugar_water_0, row.number("a_sw_0"));
        EXPECT_EQ(pair.sugar_water_1, row.number("a_sw_1"));
        EXPECT_EQ(pair.water_sugar_0, row.number("a_ws_0"));
        EXPECT_EQ(pair.water_sugar_1, row.number("a_ws_1"));
    };
    for (const csv_row& row : table.rows)
        if (row.text("pair") == "glucose")
            compare(row, formula::uniquac_glucose);
        else
            compare(row, formula::uniquac_sucrose);
}

// Robinson & Stokes, Electrolyte Solutions (recalled, confidence high).  Tolerance 0.003: stated of the equation
// against this table by the file.  The column phi_pitzer is the same equation with A = 0.3915: regression, 0.0005.
TEST(Salt, OsmoticCoefficient) {
    deviations book("NaCl osmotic coefficient"), pitzer("NaCl, Pitzer column");
    for (const csv_row& row : read_csv("sodium_chloride_activity_25C.csv").rows) {
        const double m = row.number("m_mol_per_kg");
        const double phi = formula::sodium_chloride_osmotic_coefficient(m);
        book.add(phi - row.number("phi_book"), row.text("m_mol_per_kg") + " mol/kg");
        pitzer.add(phi - row.number("phi_pitzer"), row.text("m_mol_per_kg") + " mol/kg");
        // 0.0001: the osmotic coefficient's 0.0005 in aw
        EXPECT_NEAR(std::exp(formula::sodium_chloride_ln_activity(m)), row.number("aw_pitzer"), 1.0e-4)
            << row.place();
    }
    EXPECT_EQ(book.count(), 12U);
    EXPECT_LE(book.worst(), 0.003);
    EXPECT_LE(pitzer.worst(), 0.0005);
}

// Model against model: the values of Zhang, Grace & Sun 2022, in which aw falls as it warms, against the heat of
// dilution; within 0.025, rms 0.0095.
TEST(Glycerol, AgainstAnotherModel) {
    deviations aw("glycerol aw");
    for (const csv_row& row : read_csv("glycerol_activity.csv").rows)
        for (const auto& [column, t] : {std::pair{"aw_25C", 298.15}, std::pair{"aw_100C", 373.15}}) {
            const double x = mole_fraction_at(row.number("mass_percent"), glycerol_molar_mass);
            aw.add(std::exp(formula::glycerol_ln_activity(x, t)) - row.number(column),
                   row.text("mass_percent") + " %, " + column);
        }
    EXPECT_EQ(aw.count(), 18U);
    EXPECT_LE(aw.rms(), 0.0095);
    EXPECT_LE(aw.worst(), 0.025);
}

// Our fit to them: boiling points at 1 atm of 50 to 90 % (recalled, confidence medium-high), printed to 1 K and
// less; within 0.5 K.
TEST(Glycerol, BoilingPoints) {
    for (const auto& [percent, celsius] :
         {std::pair{50.0, 106.0}, {60.0, 109.0}, {70.0, 113.6}, {80.0, 121.0}, {90.0, 138.0}}) {
        const double x = mole_fraction_at(percent, glycerol_molar_mass);
        EXPECT_NEAR(elevation([x](double t) { return formula::glycerol_ln_activity(x, t); }) +
                        formula::saturation_temperature(formula::standard_atmosphere),
                    kelvin(celsius), 0.5)
            << percent;
    }
}

// Flory & Huggins: a chain of one unit without interaction is an ideal solution, and the dilute limit counts
// chains (van 't Hoff).  Tolerances: rounding; the second-order term.
TEST(Chains, LimitsOfFloryHuggins) {
    for (const double f : {0.01, 0.3, 0.9})
        EXPECT_NEAR(formula::flory_huggins_ln_activity(f, 1.0, 0.0), std::log(1.0 - f), 1.0e-15);
    for (const double n : {1.0, 18.0, 115.0})
        EXPECT_NEAR(formula::flory_huggins_ln_activity(1.0e-6, n, 0.5) / (-1.0e-6 / n), 1.0, 1.0e-8);
    // ln(1/2) + (1 - 1/20)/2 + 0.4/4, by hand
    EXPECT_NEAR(formula::flory_huggins_ln_activity(0.5, 20.0, 0.4), -0.11814718055994531, 1.0e-15);
}

// The monolayer is full where k aw = 1/(1 + sqrt(c)): a known property of the BET form.
TEST(Solids, GabMonolayer) {
    for (const double c : {10.0, 15.0, 20.0})
        EXPECT_NEAR(formula::gab_water(1.0 / (1.0 + std::sqrt(c)) / 0.8, 6.5, c, 0.8), 0.065, 1.0e-15);
}

// ---- density, refraction, heat, solubility ----

// ICUMSA SPS-4 (1994): its check values are printed to two decimals; tolerance half of the last.
TEST(Density, IcumsaCheckValues) {
    for (const auto& [percent, printed] : sirop_test::icumsa_densities)
        EXPECT_NEAR(formula::sucrose_density(0.01 * percent, 20.0), printed, 0.005) << percent;
}

// The coefficients as published, power by power; tolerance: rounding.
TEST(Density, IcumsaCoefficients) {
    const auto table = read_csv("density_icumsa_coefficients.csv");
    ASSERT_EQ(table.rows.size(), 6U);
    for (double w = 0.0; w <= 1.0; w += 0.05)
        for (double t = 0.0; t <= 100.0; t += 10.0) {
            double sum = formula::water_density(t);
            for (const csv_row& row : table.rows)
                for (int k = 0; k < 5; ++k)
                    if (const std::string column = std::string(1, 't').append(std::to_string(k)); row.has(column))
                        sum += std::pow(0.01 * (t - 20.0), k) * row.number(column) *
                               std::pow(w, row.number("power_of_w"));
            EXPECT_NEAR(formula::sucrose_density(w, t), sum, 1.0e-9) << w << " " << t;
        }
    // IAPWS SR1-86(1992), saturated liquid at 373.1243 K (recalled, confidence high); 0.005: its last digits
    EXPECT_NEAR(formula::water_density(373.1243 - formula::zero_celsius), 958.365, 0.005);
    EXPECT_NEAR(formula::water_density(0.01), 999.789 + 0.05, 0.01);  // at 1 atm 0.05 denser than at saturation
}

// CRC Handbook, 102nd ed.: a compilation of 1966, printed to 0.1 kg/m3.  Tolerance 0.3 kg/m3 to 60 % and 0.6 at
// 80 %: what the older measurements differ from ICUMSA, 0.05 and 0.1 Brix.
TEST(Density, CrcSucrose) {
    deviations thin("CRC sucrose density to 60 %, kg/m3"), thick("CRC sucrose density at 80 %, kg/m3");
    deviations index("CRC sucrose refractive index");
    for (const csv_row& row : read_csv("concentrative_properties_20C.csv").rows) {
        if (row.text("solute") != "sucrose") continue;
        const double w = 0.01 * row.number("mass_percent");
        (w < 0.61 ? thin : thick)
            .add(formula::sucrose_density(w, 20.0) - 1000.0 * row.number("density_g_per_cm3"),
                 row.text("mass_percent") + " %");
        index.add(formula::sucrose_refractive_index(w) - row.number("nD"), row.text("mass_percent") + " %");
    }
    EXPECT_EQ(thin.count(), 19U);
    EXPECT_EQ(thick.count(), 1U);
    EXPECT_LE(thin.worst(), 0.3);
    EXPECT_LE(thick.worst(), 0.6);
    // printed to 1e-4; the compilation differs from the ICUMSA scale by as much
    EXPECT_LE(index.worst(), 1.5e-4);
}

// ICUMSA 1974, official to 85 %, last digit 1e-5: the tolerance.  Beyond, the table is unofficial and has four
// decimals; the header states 2.4e-4.
TEST(Refraction, Icumsa1974) {
    deviations official("refractive index to 85 %"), beyond("refractive index, 86 to 95 %");
    for (const csv_row& row : read_csv("refractive_index_20C.csv").rows)
        (row.number("brix") < 85.5 ? official : beyond)
            .add(formula::sucrose_refractive_index(0.01 * row.number("brix")) - row.number("nD20"),
                 row.text("brix") + " %");
    EXPECT_EQ(official.count(), 86U);
    EXPECT_EQ(beyond.count(), 10U);
    EXPECT_LE(official.worst(), 1.0e-5);
    EXPECT_LE(beyond.worst(), 2.4e-4);
}

// Solved back for n.
TEST(Refraction, LorentzLorenz) {
    for (const double n : {1.333, 1.42, 1.5}) {
        const double l = formula::lorentz_lorenz(n);
        EXPECT_NEAR(std::sqrt((1.0 + 2.0 * l) / (1.0 - l)), n, 1.0e-14);
    }
}

// Regression: the column was computed from the same polynomial; tolerance half a unit of its last decimal.
TEST(Solubility, Sucrose) {
    deviations points("sucrose solubility, points");
    for (const csv_row& row : read_csv("solubility_sucrose.csv").rows)
        if (row.has("modern"))
            points.add(100.0 * formula::sucrose_solubility(row.number("T_C")) - row.number("modern"),
                       row.text("T_C") + " C");
    EXPECT_EQ(points.count(), 21U);
    EXPECT_LE(points.worst(), 0.0051);
}

// Hudson's data as reprinted in Lowe, Experimental Cookery (1937); the header states 0.45 points for its fit, the
// tolerance is the next half point.
TEST(Solubility, Lactose) {
    deviations points("lactose solubility, points");
    for (const csv_row& row : read_csv("solubility_other_sugars.csv").rows)
        if (row.text("sugar") == "lactose")
            points.add(100.0 * formula::lactose_solubility(row.number("T_C")) - row.number("mass_percent"),
                       row.text("T_C") + " C");
    EXPECT_EQ(points.count(), 8U);
    EXPECT_LE(points.worst(), 0.5);
}

// Choi & Okos (1986) as printed by ASHRAE: copied, so equal.
TEST(Heat, CoefficientsAreThoseOfTheTable) {
    const std::map<std::string, formula::heat_capacity_law> laws = {
        {"water", formula::heat_water},     {"carbohydrate", formula::heat_carbohydrate},
        {"protein", formula::heat_protein}, {"fat", formula::heat_fat},
        {"fiber", formula::heat_fibre},     {"ash", formula::heat_ash}};
    std::size_t found = 0;
    for (const csv_row& row : read_csv("choi_okos_components.csv").rows) {
        const auto law = laws.find(row.text("component"));
        if (row.text("property") != "cp" || law == laws.end()) continue;
        ++found;
        EXPECT_EQ(law->second.a0, row.number("a0")) << row.place();
        EXPECT_EQ(law->second.a1, row.number("a1")) << row.place();
        EXPECT_EQ(law->second.a2, row.number("a2")) << row.place();
    }
    EXPECT_EQ(found, laws.size());
}

// Simpson's rule is exact for a quadratic; tolerance: rounding.
TEST(Heat, EnthalpyIsTheIntegral) {
    const auto& law = formula::heat_carbohydrate;
    const auto cp = [&](double t) { return 1000.0 * (law.a0 + law.a1 * t + law.a2 * t * t); };
    for (const double t : {-40.0, 25.0, 150.0})
        EXPECT_NEAR(formula::specific_enthalpy(t, law), t / 6.0 * (cp(0.0) + 4.0 * cp(0.5 * t) + cp(t)), 1.0e-9);
}

// ---- viscosity ----

// International Critical Tables, to 60 %.  Tolerances: rms 5 %, worst 11 %, the size of the table's own
// irregularity (its 60 % row at 15 C).  Two more points are out of line and known: the model is 14.1 % above the
// table at 40 % and 0 C, and 11.8 % at 5 C.  There the table also lies 11.5 and 8 % below Genotelle's equation of
// 1978, and its next row, 10 C, does not: the step between them is the table's.
TEST(Viscosity, InternationalCriticalTables) {
    deviations all("ICT viscosity, relative"), rest("ICT viscosity without the two points, relative");
    const std::map<std::string, double> out_of_line = {{"40 % 0 C", 0.141}, {"40 % 5 C", 0.1185}};
    std::size_t found = 0;
    for (const csv_row& row : read_csv("viscosity_sucrose.csv").rows) {
        const std::string where = row.text("mass_percent") + " % " + row.text("T_C") + " C";
        const double deviation =
            viscosity_mpa_s(solution(component::sucrose, row.number("mass_percent")), row.number("T_C")) /
                row.number("viscosity_mPa_s") -
            1.0;
        all.add(deviation, where);
        if (const auto known = out_of_line.find(where); known != out_of_line.end()) {
            ++found;
            EXPECT_NEAR(deviation, known->second, 0.0005) << where;
        } else {
            rest.add(deviation, where);
        }
    }
    EXPECT_EQ(all.count(), 60U);
    EXPECT_EQ(found, out_of_line.size());
    EXPECT_LE(all.rms(), 0.05);
    EXPECT_LE(rest.worst(), 0.11);
}

// CRC Handbook, 102nd ed., at 20 C; the 32 % row of sucrose is misprinted in the source.  Tolerances as above; for
// glucose the worst is 9.2 % at 60 %, and the formula's share of monosaccharides was fitted to this column.
TEST(Viscosity, CrcAt20C) {
    deviations sucrose("CRC sucrose viscosity, relative"), glucose("CRC glucose viscosity, relative");
    for (const csv_row& row : read_csv("concentrative_properties_20C.csv").rows) {
        const double percent = row.number("mass_percent");
        const bool is_sucrose = row.text("solute") == "sucrose";
        if (!row.has("viscosity_mPa_s") || (is_sucrose && percent == 32.0)) continue;
        const auto m = solution(is_sucrose ? component::sucrose : component::glucose, percent);
        (is_sucrose ? sucrose : glucose)
            .add(viscosity_mpa_s(m, 20.0) / row.number("viscosity_mPa_s") - 1.0, row.text("mass_percent") + " %");
    }
    EXPECT_EQ(sucrose.count(), 18U);
    EXPECT_EQ(glucose.count(), 21U);
    for (const deviations* d : {&sucrose, &glucose}) {
        EXPECT_LE(d->rms(), 0.05);
        EXPECT_LE(d->worst(), 0.11);
    }
}

// The anchor of the form: 1e12 Pa s at the glass transition, whatever the composition.  Tolerance: rounding.
TEST(Viscosity, GlassTransitionIsTenToTheTwelve) {
    for (double w = 0.0; w <= 1.0; w += 0.1)
        for (const double share : {0.0, 0.5, 1.0})
            for (const double glass : {136.0, 240.0, 335.15})
                EXPECT_NEAR(formula::syrup_log10_viscosity(glass, glass, w, share, 1.0 - share), 12.0, 1.0e-13);
}

// Einstein's limit, and half way to the closest packing.
TEST(Viscosity, KriegerDougherty) {
    EXPECT_NEAR(formula::krieger_dougherty_ln(1.0e-7, 0.64, 2.5) / 2.5e-7, 1.0, 1.0e-6);
    EXPECT_NEAR(formula::krieger_dougherty_ln(0.32, 0.64, 2.5), 2.5 * 0.64 * std::log(2.0), 1.0e-14);
}

// ---- scalars ----

template <class Scalar>
Scalar constant(const Scalar& like, double value) {
    return Scalar(like * 0.0 + value);
}

/// Each formula as a function of one argument, about a point inside its range.
template <class Try>
void with_each_formula(const Try& check) {
    using namespace formula;
    check("saturation_pressure", 380.0, [](const auto& x) { return saturation_pressure(x); });
    check("saturation_temperature", 9.0e4, [](const auto& x) { return saturation_temperature(x); });
    check("saturation_slope", 380.0, [](const auto& x) { return saturation_slope(x); });
    check("latent_heat", 380.0, [](const auto& x) { return latent_heat(x); });
    check("ice_ln_activity", 255.0, [](const auto& x) { return ice_ln_activity(x); });
    check("standard_pressure", 1500.0, [](const auto& x) { return standard_pressure(x); });
    check("starzak_peacock_ln_activity by x", 0.3,
          [](const auto& x) { return starzak_peacock_ln_activity(x, constant(x, 390.0)); });
    check("starzak_peacock_ln_activity by T", 390.0,
          [](const auto& t) { return starzak_peacock_ln_activity(constant(t, 0.3), t); });
    check("norrish_ln_activity", 0.2, [](const auto& x) { return norrish_ln_activity(x, -6.47); });
    check("uniquac_ln_activity by x", 0.3,
          [](const auto& x) { return uniquac_ln_activity(x, constant(x, 350.0), uniquac_glucose); });
    check("uniquac_ln_activity by T", 350.0,
          [](const auto& t) { return uniquac_ln_activity(constant(t, 0.3), t, uniquac_glucose); });
    check("flory_huggins_ln_activity", 0.6, [](const auto& x) { return flory_huggins_ln_activity(x, 18.0, 0.5); });
    check("sodium_chloride_osmotic_coefficient", 3.0,
          [](const auto& m) { return sodium_chloride_osmotic_coefficient(m); });
    check("sodium_chloride_ln_activity", 3.0, [](const auto& m) { return sodium_chloride_ln_activity(m); });
    check("glycerol_ln_activity by x", 0.4,
          [](const auto& x) { return glycerol_ln_activity(x, constant(x, 320.0)); });
    check("glycerol_ln_activity by T", 320.0,
          [](const auto& t) { return glycerol_ln_activity(constant(t, 0.4), t); });
    check("gab_water", 0.6, [](const auto& a) { return gab_water(a, 9.5, 20.0, 0.73); });
    check("water_density", 40.0, [](const auto& t) { return water_density(t); });
    check("sucrose_density by w", 0.6, [](const auto& w) { return sucrose_density(w, constant(w, 40.0)); });
    check("sucrose_density by t", 40.0, [](const auto& t) { return sucrose_density(constant(t, 0.6), t); });
    check("sucrose_refractive_index", 0.6, [](const auto& w) { return sucrose_refractive_index(w); });
    check("lorentz_lorenz", 1.4, [](const auto& n) { return lorentz_lorenz(n); });
    check("sucrose_solubility", 40.0, [](const auto& t) { return sucrose_solubility(t); });
    check("lactose_solubility", 40.0, [](const auto& t) { return lactose_solubility(t); });
    check("specific_enthalpy", 40.0, [](const auto& t) { return specific_enthalpy(t, heat_fat); });
    check("syrup_log10_viscosity by T", 320.0, [](const auto& t) {
        return syrup_log10_viscosity(t, constant(t, 250.0), constant(t, 0.8), constant(t, 0.3), constant(t, 0.4));
    });
    check("syrup_log10_viscosity by Tg", 250.0, [](const auto& g) {
        return syrup_log10_viscosity(constant(g, 320.0), g, constant(g, 0.8), constant(g, 0.3), constant(g, 0.4));
    });
    check("syrup_log10_viscosity by w", 0.8, [](const auto& w) {
        return syrup_log10_viscosity(constant(w, 320.0), constant(w, 250.0), w, constant(w, 0.3),
                                     constant(w, 0.4));
    });
    check("syrup_log10_viscosity by share", 0.3, [](const auto& s) {
        return syrup_log10_viscosity(constant(s, 320.0), constant(s, 250.0), constant(s, 0.8), s,
                                     constant(s, 0.4));
    });
    check("syrup_log10_viscosity by chains", 0.4, [](const auto& s) {
        return syrup_log10_viscosity(constant(s, 320.0), constant(s, 250.0), constant(s, 0.8), constant(s, 0.3),
                                     s);
    });
    check("krieger_dougherty_ln", 0.3,
          [](const auto& phi) { return krieger_dougherty_ln(phi, 0.64, constant(phi, 2.5)); });
}

TEST(Scalars, Float) {
    sirop_test::expect_the_same_on_float([](const auto& check) { with_each_formula(check); });
}

TEST(Scalars, EigenArrays) {
    sirop_test::expect_the_same_on_arrays([](const auto& check) { with_each_formula(check); });
}

// Central difference over 1e-5 of the argument: its own error is about 1e-9 of the value over the slope.
TEST(Scalars, DerivativesByDuals) {
    using sirop::core::dual;
    with_each_formula([](std::string_view name, double at, const auto& f) {
        const dual result = f(dual(at, 1.0));
        const double step = 1.0e-5 * at;
        const double above = f(at + step), below = f(at - step), middle = f(at);
        const double slope = (above - below) / (2.0 * step);
        EXPECT_NEAR(result.value / middle, 1.0, 1.0e-14) << name;
        EXPECT_NE(slope, 0.0) << name;
        EXPECT_NEAR(result.slope, slope, 1.0e-7 * std::fabs(slope) + 1.0e-9 * std::fabs(middle / at)) << name;
    });
}

}  // namespace
