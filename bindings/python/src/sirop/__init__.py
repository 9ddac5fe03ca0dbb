"""sirop: from ingredients and cook temperature to the water, stage and set of a syrup, caramel or sauce.

The unit stands in every name; temperatures are points in °C.  Each property of the catalogue is a function of its
own, such as density_g_per_ml(grams, celsius): properties() lists them.  Functions may be called from any number of
threads at once.  Hot sugar burns and steam bursts: show people the cautions of an answer."""

from __future__ import annotations

from . import _properties
from ._answers import (Cooked, Finished, Graining, GrainingAt, GrowthLimit, Keeping, Prediction, Reply, SetAnswer,
                       Stage, WayToClear)
from ._arrays import (Estimates, Layers, boiling_point_celsius_n, freezing_point_celsius_n, layers_at_equilibrium,
                      property_estimate_n, water_activity_n, water_at_boil_grams_n)
from ._batch import ask, ask_json, ask_report, predict, predict_json, predict_report, report
from ._calls import status_text
from ._catalogue import (COMPONENTS, Property, accepted_range, component_name, pressure_at_altitude_hpa,
                         pressure_from_boiling_water_hpa, properties, property_name, property_range,
                         property_source, property_uncertainty, property_unit, version, water_boils_celsius)
from ._errors import (BatchError, BufferTooSmallError, ExtrapolationWarning, GeneralError, ImpossibleError,
                      NullPointerError, OutOfMemoryError, RangeError, SiropError, UnknownNameError, error_class)
from ._handles import Answer, Batch
from ._mixtures import (GrainingEstimate, boiling_point_celsius, freezing_point_celsius, graining_at,
                        property_estimate, water_activity, water_at_boil_grams)
from ._pantry import (Ingredient, conversion_name, conversions, convert, glucose_syrup_grams, ingredient_estimate,
                      ingredient_grams, ingredient_name, ingredient_source, ingredients)
from ._stages import (SetWord, TableStage, celsius_for_stage, growth_limit, growth_limits, set_word,
                      set_word_firmness_pa_s, set_word_meaning, set_word_of, set_words, stage_name,
                      stage_of_mixture, stage_of_temperature, stage_range_celsius, stage_table_name,
                      stage_table_source, stage_tables, stages)
from ._types import BatchLike, ComponentName, Estimate, Grams, Mixtures, Numbers, PropertyName, Range

__version__ = version()

__all__ = [
    "COMPONENTS", "Estimate", "Estimates", "Range", "Property", "Ingredient", "TableStage", "SetWord",
    "GrowthLimit", "GrainingEstimate", "Layers", "Prediction", "Cooked", "Finished", "Stage", "SetAnswer",
    "Graining", "GrainingAt", "WayToClear", "Keeping", "Reply", "Batch", "Answer", "SiropError", "GeneralError",
    "RangeError", "UnknownNameError", "BufferTooSmallError", "BatchError", "NullPointerError", "OutOfMemoryError",
    "ImpossibleError", "ExtrapolationWarning", "error_class", "version", "status_text", "component_name",
    "accepted_range", "pressure_at_altitude_hpa", "pressure_from_boiling_water_hpa", "water_boils_celsius",
    "boiling_point_celsius", "water_at_boil_grams", "water_activity", "freezing_point_celsius",
    "boiling_point_celsius_n", "water_at_boil_grams_n", "water_activity_n", "freezing_point_celsius_n",
    "properties", "property_name", "property_unit", "property_source", "property_uncertainty", "property_range",
    "property_estimate", "property_estimate_n", "conversions", "conversion_name", "convert", "ingredients",
    "ingredient_name", "ingredient_source", "ingredient_estimate", "ingredient_grams", "glucose_syrup_grams",
    "stage_tables", "stage_table_name", "stage_table_source", "stages", "stage_name", "stage_range_celsius",
    "stage_of_temperature", "stage_of_mixture", "celsius_for_stage", "set_words", "set_word", "set_word_meaning",
    "set_word_firmness_pa_s", "set_word_of", "graining_at", "layers_at_equilibrium", "growth_limits",
    "growth_limit", "predict", "report", "predict_json", "predict_report", "ask", "ask_json", "ask_report",
]

# One function for each property of the catalogue.
globals().update(_properties.FUNCTIONS)
__all__ += _properties.__all__
