"""sirop: from ingredients and cook temperature to the water, stage and set of a syrup, caramel or sauce.

The unit stands in every name; temperatures are points in °C.  Each property of the catalogue is a function of its
own, such as density_g_per_ml(grams, celsius): properties() lists them.  Functions may be called from any number of
threads at once.  Hot sugar burns and steam bursts: show people the cautions of an answer."""

from __future__ import annotations

from . import _properties
from ._answers import (Cooked, Finished, Graining, GrainingAt, GrowthLimit, Keeping, Prediction, Reply, SetAnswer,
                       Stage, WayToClear)
from ._arrays import Estimates, Indices, Ranges, Values
from ._batch import ask, ask_json, ask_report, predict, predict_card, predict_json, predict_report, report
from ._calls import status_text
from ._catalogue import (COMPONENTS, Property, accepted_range, argument_name, argument_names, component_name,
                         pressure_at_altitude_hpa, pressure_from_boiling_water_hpa, properties, property_name,
                         property_range, property_source, property_uncertainty, property_unit, version,
                         water_boils_celsius)
from ._errors import (BatchError, BufferTooSmallError, ExtrapolationWarning, GeneralError, ImpossibleError,
                      NullPointerError, OutOfMemoryError, RangeError, SiropError, UnknownNameError, error_class)
from ._handles import Answer, Batch, Question, question_name, question_names
from ._mixtures import (GrainingEstimate, boiling_point_celsius, freezing_point_celsius, graining_at,
                        property_estimate, water_activity, water_at_boil_grams)
from ._pantry import (Compositions, Ingredient, conversion_name, conversions, convert, convert_n,
                      glucose_syrup_grams, glucose_syrup_grams_n, ingredient_estimate, ingredient_grams,
                      ingredient_name, ingredient_source, ingredients)
from ._stages import (StagePlace, StagePlaces, TableStage, TextureWord, celsius_for_stage, celsius_for_stage_n,
                      growth_group, growth_limit, growth_limits, growth_limits_source, stage_name,
                      stage_of_mixture, stage_of_mixture_n, stage_of_temperature, stage_of_temperature_n,
                      stage_place_text, stage_range_celsius, stage_table_name, stage_table_source, stage_tables,
                      stages, texture_word, texture_word_firmness_pa_s, texture_word_meaning, texture_word_of,
                      texture_word_of_n, texture_words)
from ._twins import (Desserts, GrainingEstimates, Layers, boiling_point_celsius_n, freezing_point_celsius_n,
                     graining_at_n, layers_at_equilibrium, layers_at_equilibrium_n, pressure_at_altitude_hpa_n,
                     pressure_from_boiling_water_hpa_n, property_estimate_n, water_activity_n,
                     water_at_boil_grams_n, water_boils_celsius_n)
from ._properties import *  # noqa: F403  one function for each property of the catalogue
from ._types import BatchLike as BatchLike
from ._types import ComponentName as ComponentName
from ._types import Estimate, Range
from ._types import Grams as Grams
from ._types import Mixtures as Mixtures
from ._types import Numbers as Numbers
from ._types import PropertyName as PropertyName

__version__ = version()

__all__ = [
    "COMPONENTS", "Estimate", "Estimates", "Values", "Indices", "Range", "Ranges", "Property", "Ingredient",
    "Compositions", "TableStage", "StagePlace", "StagePlaces", "TextureWord", "GrowthLimit",
    "GrainingEstimate", "GrainingEstimates", "Layers", "Desserts", "Prediction", "Cooked", "Finished", "Stage",
    "SetAnswer", "Graining", "GrainingAt", "WayToClear", "Keeping", "Reply", "Batch", "Question", "Answer",
    "SiropError", "GeneralError", "RangeError", "UnknownNameError", "BufferTooSmallError", "BatchError",
    "NullPointerError", "OutOfMemoryError", "ImpossibleError", "ExtrapolationWarning", "error_class",
    "version", "status_text", "component_name", "argument_names", "argument_name", "accepted_range",
    "pressure_at_altitude_hpa", "pressure_from_boiling_water_hpa", "water_boils_celsius",
    "pressure_at_altitude_hpa_n", "pressure_from_boiling_water_hpa_n", "water_boils_celsius_n",
    "boiling_point_celsius", "water_at_boil_grams", "water_activity", "freezing_point_celsius",
    "boiling_point_celsius_n", "water_at_boil_grams_n", "water_activity_n", "freezing_point_celsius_n",
    "properties", "property_name", "property_unit", "property_source", "property_uncertainty",
    "property_range", "property_estimate", "property_estimate_n", "conversions", "conversion_name", "convert",
    "convert_n", "ingredients", "ingredient_name", "ingredient_source", "ingredient_estimate",
    "ingredient_grams", "glucose_syrup_grams", "glucose_syrup_grams_n", "stage_tables", "stage_table_name",
    "stage_table_source", "stages", "stage_name", "stage_range_celsius", "stage_of_temperature",
    "stage_of_temperature_n", "stage_of_mixture", "stage_of_mixture_n", "stage_place_text",
    "celsius_for_stage", "celsius_for_stage_n", "texture_words", "texture_word", "texture_word_meaning",
    "texture_word_firmness_pa_s", "texture_word_of", "texture_word_of_n", "graining_at", "graining_at_n",
    "layers_at_equilibrium", "layers_at_equilibrium_n", "growth_limits", "growth_limit", "growth_group",
    "growth_limits_source", "predict", "report", "predict_json", "predict_report", "predict_card", "ask", "ask_json",
    "ask_report", "question_names", "question_name",
]
__all__ += _properties.__all__
