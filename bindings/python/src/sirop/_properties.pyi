# Made by make_generated.py from the library's catalogue.
from typing import Literal

from . import Estimate, Grams

ComponentName = Literal[
    "water", "sucrose", "glucose", "fructose", "galactose", "lactose", "maltose", "maltotriose", "maltotetraose",
    "maltopentaose", "maltohexaose", "maltoheptaose", "higher_saccharides", "sorbitol", "glycerol", "salt",
    "minerals", "protein", "starch", "fibre", "cocoa_solids", "fat", "acid", "cocoa_butter", "vegetable_fat",
    "agar", "gelatin", "isomalt", "maltitol"
]
PropertyName = Literal[
    "boiling_point_celsius", "water_activity", "boiling_point_second_model_celsius", "water_activity_second_model",
    "freezing_point_celsius", "ice_share", "density_g_per_ml", "refractive_index", "refractometer_reading_brix",
    "dry_substance_percent", "baume_cold", "baume_hot", "viscosity_pa_s", "gel_modulus_pa", "firmness_pa_s",
    "slump_to_half_seconds", "stands_millimetres", "pours_from_celsius", "glass_transition_celsius",
    "specific_heat_kj_per_kg_k", "enthalpy_kj_per_kg", "sucrose_supersaturation", "glucose_supersaturation",
    "lactose_supersaturation", "sucrose_supersaturation_in_mixture", "lactose_supersaturation_in_mixture",
    "sucrose_crystallizable_grams", "lactose_crystallizable_grams", "sucrose_saturation_celsius"
]

__all__ = [
    "boiling_point_second_model_celsius", "water_activity_second_model", "ice_share", "density_g_per_ml",
    "refractive_index", "refractometer_reading_brix", "dry_substance_percent", "baume_cold", "baume_hot",
    "viscosity_pa_s", "gel_modulus_pa", "firmness_pa_s", "slump_to_half_seconds", "stands_millimetres",
    "pours_from_celsius", "glass_transition_celsius", "specific_heat_kj_per_kg_k", "enthalpy_kj_per_kg",
    "sucrose_supersaturation", "glucose_supersaturation", "lactose_supersaturation",
    "sucrose_supersaturation_in_mixture", "lactose_supersaturation_in_mixture", "sucrose_crystallizable_grams",
    "lactose_crystallizable_grams", "sucrose_saturation_celsius"
]

def boiling_point_second_model_celsius(grams: Grams, pressure_hpa: float = 1013.25) -> Estimate:
    """boiling_point_second_model_celsius of a mixture, in °C.

    Unit: °C
    Range: any temperature; an extrapolation above 97 % solids of the syrup phase
    Uncertainty: none of its own: the other published models, inside the interval of the first
    Source: the same; sucrose by UNIQUAC (Peres & Macedo 1996), glucose and its like by Norrish (1966)"""
def water_activity_second_model(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """Water activity second model of a mixture, a plain number.

    Unit: 1
    Range: -30 to 170 °C; an extrapolation above 97 % solids of the syrup phase
    Uncertainty: none of its own: the other published models, inside the interval of the first
    Source: the same; sucrose by UNIQUAC (Peres & Macedo 1996), glucose and its like by Norrish (1966)"""
def ice_share(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """Ice share of a mixture, a plain number.

    Unit: 1
    Range: -30 to 100 °C; an extrapolation above 100 % solids of the syrup phase
    Uncertainty: in the estimate
    Source: the same, with the ice line"""
def density_g_per_ml(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """density_g_per_ml of a mixture, in g/ml.

    Unit: g/ml
    Range: -30 to 170 °C; an extrapolation above 85 % solids of the syrup phase
    Uncertainty: 0.003; sucrose 0.0003 to 60 %, 0.0006 at 80 %
    Source: ICUMSA SPS-4 (1994), Kell (1975), Choi & Okos (1986); additive volumes"""
def refractive_index(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """Refractive index of a mixture, a plain number.

    Unit: 1
    Range: -30 to 100 °C; an extrapolation above 85 % solids of the syrup phase
    Uncertainty: 0.0005; sucrose at 20 °C 0.00001
    Source: ICUMSA (1974) scale; Lorentz-Lorenz; IAPWS R9-97"""
def refractometer_reading_brix(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """refractometer_reading_brix of a mixture, in % sucrose.

    Unit: % sucrose
    Range: -30 to 100 °C; an extrapolation above 85 % solids of the syrup phase
    Uncertainty: 0.3; sucrose at 20 °C 0.01
    Source: the same; an instrument that does not correct for temperature"""
def dry_substance_percent(grams: Grams, pressure_hpa: float = 1013.25) -> Estimate:
    """dry_substance_percent of a mixture, in %.

    Unit: %
    Range: any temperature; an extrapolation above 100 % solids of the syrup phase
    Uncertainty: none: a ratio of masses
    Source: dissolved solids over dissolved solids and water"""
def baume_cold(grams: Grams, pressure_hpa: float = 1013.25) -> Estimate:
    """baume_cold of a mixture, in °Bé.

    Unit: °Bé
    Range: any temperature; an extrapolation above 85 % solids of the syrup phase
    Uncertainty: 0.3
    Source: 145 - 145/SG(20/20)"""
def baume_hot(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """baume_hot of a mixture, in °Bé.

    Unit: °Bé
    Range: -30 to 170 °C; an extrapolation above 85 % solids of the syrup phase
    Uncertainty: 0.3
    Source: 145 - 145/SG(T/20)"""
def viscosity_pa_s(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """viscosity_pa_s of a mixture, in Pa s.

    Unit: Pa s
    Range: -30 to 170 °C; an extrapolation above 75 % solids of the syrup phase
    Uncertainty: syrup 10 % to 75 %, then a factor: 8 at 90 %; in the estimate
    Source: MYEGA (Mauro et al. 2009) anchored at the glass; Krieger & Dougherty (1959) for what floats in it"""
def gel_modulus_pa(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """gel_modulus_pa of a mixture, in Pa.

    Unit: Pa
    Range: -30 to 170 °C; an extrapolation above 0 % solids of the syrup phase
    Uncertainty: a factor of 5 to 10; in the estimate
    Source: viscosity + 5 s x modulus; gels and networks by formula/texture.hpp, mostly our estimates"""
def firmness_pa_s(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """firmness_pa_s of a mixture, in Pa s.

    Unit: Pa s
    Range: -30 to 170 °C; an extrapolation above 75 % solids of the syrup phase
    Uncertainty: as viscosity and modulus; in the estimate
    Source: viscosity + 5 s x modulus; gels and networks by formula/texture.hpp, mostly our estimates"""
def slump_to_half_seconds(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """slump_to_half_seconds of a mixture, in s.

    Unit: s
    Range: -30 to 170 °C; an extrapolation above 75 % solids of the syrup phase
    Uncertainty: a factor of 2 beside that of the viscosity; infinite where it stands
    Source: Huppert (1982), Nye (1952); a layer 1 cm high, 4 cm wide"""
def stands_millimetres(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """stands_millimetres of a mixture, in mm.

    Unit: mm
    Range: -30 to 170 °C; an extrapolation above 0 % solids of the syrup phase
    Uncertainty: a factor of 5 to 10; in the estimate
    Source: height whose weight the yield stress carries, a tenth of the modulus (our estimate)"""
def pours_from_celsius(grams: Grams, pressure_hpa: float = 1013.25) -> Estimate:
    """pours_from_celsius of a mixture, in °C.

    Unit: °C
    Range: any temperature; an extrapolation above 75 % solids of the syrup phase
    Uncertainty: in the estimate
    Source: where its firmness falls to 10 Pa s as it is warmed (our choice)"""
def glass_transition_celsius(grams: Grams, pressure_hpa: float = 1013.25) -> Estimate:
    """glass_transition_celsius of a mixture, in °C.

    Unit: °C
    Range: any temperature; an extrapolation above 100 % solids of the syrup phase
    Uncertainty: 5 K
    Source: Gordon-Taylor, constants of Roos (1993)"""
def specific_heat_kj_per_kg_k(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """specific_heat_kj_per_kg_k of a mixture, in kJ/(kg K).

    Unit: kJ/(kg K)
    Range: -40 to 150 °C; an extrapolation above 75 % solids of the syrup phase
    Uncertainty: 0.4 at 60 %: the spread of published equations; in the estimate
    Source: Choi & Okos (1986); dissolved sugar as a liquid"""
def enthalpy_kj_per_kg(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """enthalpy_kj_per_kg of a mixture, in kJ/kg.

    Unit: kJ/kg
    Range: -40 to 150 °C; an extrapolation above 75 % solids of the syrup phase
    Uncertainty: a tenth
    Source: the integral of the specific heat from 0 °C"""
def sucrose_supersaturation(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """Sucrose supersaturation of a mixture, a plain number.

    Unit: 1
    Range: 0 to 100 °C; an extrapolation above 100 % solids of the syrup phase
    Uncertainty: 0.02 alone in water; beside other sugars unknown
    Source: Bubnik & Kadlec (1995); other sugars left out"""
def glucose_supersaturation(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """Glucose supersaturation of a mixture, a plain number.

    Unit: 1
    Range: 0 to 90 °C; an extrapolation above 100 % solids of the syrup phase
    Uncertainty: 0.05 alone in water
    Source: our fit of recalled tables, confidence low to medium; other sugars left out"""
def lactose_supersaturation(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """Lactose supersaturation of a mixture, a plain number.

    Unit: 1
    Range: 0 to 89 °C; an extrapolation above 100 % solids of the syrup phase
    Uncertainty: 0.05 alone in water
    Source: our fit of Hudson's data (in Lowe 1937); other sugars left out"""
def sucrose_supersaturation_in_mixture(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """Sucrose supersaturation in mixture of a mixture, a plain number.

    Unit: 1
    Range: 0 to 100 °C; an extrapolation above 97 % solids of the syrup phase
    Uncertainty: in the estimate
    Source: activity of the additive-water model, by which other sugars lower the solubility; the interval reaches to the sugar alone in the water"""
def lactose_supersaturation_in_mixture(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """Lactose supersaturation in mixture of a mixture, a plain number.

    Unit: 1
    Range: 0 to 89 °C; an extrapolation above 97 % solids of the syrup phase
    Uncertainty: in the estimate
    Source: activity of the additive-water model, by which other sugars lower the solubility; the interval reaches to the sugar alone in the water"""
def sucrose_crystallizable_grams(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """sucrose_crystallizable_grams of a mixture, in g.

    Unit: g
    Range: 0 to 100 °C; an extrapolation above 97 % solids of the syrup phase
    Uncertainty: in the estimate
    Source: activity of the additive-water model, by which other sugars lower the solubility; the interval reaches to the sugar alone in the water"""
def lactose_crystallizable_grams(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """lactose_crystallizable_grams of a mixture, in g.

    Unit: g
    Range: 0 to 89 °C; an extrapolation above 97 % solids of the syrup phase
    Uncertainty: in the estimate
    Source: activity of the additive-water model, by which other sugars lower the solubility; the interval reaches to the sugar alone in the water"""
def sucrose_saturation_celsius(grams: Grams, pressure_hpa: float = 1013.25) -> Estimate:
    """sucrose_saturation_celsius of a mixture, in °C.

    Unit: °C
    Range: any temperature; an extrapolation above 100 % solids of the syrup phase
    Uncertainty: 3 K; beside other sugars unknown
    Source: where sucrose_supersaturation is 1"""
