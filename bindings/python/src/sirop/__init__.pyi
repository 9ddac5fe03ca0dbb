# Made by make_generated.py from the package and the library's catalogue.
import os
from array import array
from dataclasses import dataclass
from typing import Any, ClassVar, Dict, Iterator, Literal, Mapping, Optional, Sequence, Tuple, Type, Union

from typing_extensions import Buffer, Self

ComponentName = Literal[
    "water", "sucrose", "glucose", "fructose", "galactose", "lactose", "maltose", "maltotriose", "maltotetraose",
    "maltopentaose", "maltohexaose", "maltoheptaose", "higher_saccharides", "sorbitol", "glycerol", "salt",
    "minerals", "protein", "starch", "fibre", "cocoa_solids", "fat", "acid", "cocoa_butter", "vegetable_fat",
    "agar", "gelatin"
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
Grams = Union[Mapping[str, float], Sequence[float], Buffer]
Numbers = Union[float, Sequence[float], Buffer]
Mixtures = Union[Sequence[Grams], Sequence[float], Buffer]
BatchLike = Union[Mapping[str, Any], str, bytes, "os.PathLike[str]"]

__version__: str
from ._properties import boiling_point_second_model_celsius as boiling_point_second_model_celsius
from ._properties import water_activity_second_model as water_activity_second_model
from ._properties import ice_share as ice_share
from ._properties import density_g_per_ml as density_g_per_ml
from ._properties import refractive_index as refractive_index
from ._properties import refractometer_reading_brix as refractometer_reading_brix
from ._properties import dry_substance_percent as dry_substance_percent
from ._properties import baume_cold as baume_cold
from ._properties import baume_hot as baume_hot
from ._properties import viscosity_pa_s as viscosity_pa_s
from ._properties import gel_modulus_pa as gel_modulus_pa
from ._properties import firmness_pa_s as firmness_pa_s
from ._properties import slump_to_half_seconds as slump_to_half_seconds
from ._properties import stands_millimetres as stands_millimetres
from ._properties import pours_from_celsius as pours_from_celsius
from ._properties import glass_transition_celsius as glass_transition_celsius
from ._properties import specific_heat_kj_per_kg_k as specific_heat_kj_per_kg_k
from ._properties import enthalpy_kj_per_kg as enthalpy_kj_per_kg
from ._properties import sucrose_supersaturation as sucrose_supersaturation
from ._properties import glucose_supersaturation as glucose_supersaturation
from ._properties import lactose_supersaturation as lactose_supersaturation
from ._properties import sucrose_supersaturation_in_mixture as sucrose_supersaturation_in_mixture
from ._properties import lactose_supersaturation_in_mixture as lactose_supersaturation_in_mixture
from ._properties import sucrose_crystallizable_grams as sucrose_crystallizable_grams
from ._properties import lactose_crystallizable_grams as lactose_crystallizable_grams
from ._properties import sucrose_saturation_celsius as sucrose_saturation_celsius
COMPONENTS: Tuple[str, ...]

@dataclass(frozen=True)
class Estimate:
    """A number with its interval, which is the models' uncertainty. float() gives the value."""
    value: float
    low: float
    high: float
    status: Optional[int] = ...
    @property
    def extrapolated(self) -> Optional[bool]:
        """True if it was computed outside the fitted range of a model; None if that is not known of this number."""
    def __float__(self) -> float: ...

@dataclass(frozen=True)
class Estimates:
    """Estimates of n mixtures, as four arrays; `estimates[i]` is one Estimate.

    An element whose status is negative has no answer and is NaN in the other arrays. numpy.asarray(estimates.value)
    looks at the same memory."""
    value: array[float]
    low: array[float]
    high: array[float]
    status: array[int]
    def __len__(self) -> int: ...
    def __getitem__(self, index: int) -> Estimate: ...
    def __iter__(self) -> Iterator[Estimate]: ...
    def raise_for_errors(self) -> Self:
        """Raises the exception of the first element without an answer; else gives back the same object."""

@dataclass(frozen=True)
class Values:
    """n plain numbers and their statuses, as two arrays; `values[i]` is one number, NaN where there is no answer."""
    value: array[float]
    status: array[int]
    def __len__(self) -> int: ...
    def __getitem__(self, index: int) -> float: ...
    def __iter__(self) -> Iterator[float]: ...
    def raise_for_errors(self) -> Self:
        """Raises the exception of the first element without an answer; else gives back the same object."""

@dataclass(frozen=True)
class Indices:
    """n whole numbers and their statuses, as two arrays; `indices[i]` is one of them, -1 where there is no answer."""
    value: array[int]
    status: array[int]
    def __len__(self) -> int: ...
    def __getitem__(self, index: int) -> int: ...
    def __iter__(self) -> Iterator[int]: ...
    def raise_for_errors(self) -> Self:
        """Raises the exception of the first element without an answer; else gives back the same object."""

@dataclass(frozen=True)
class Range:
    """An inclusive range; `value in range` tests it."""
    low: float
    high: float
    def __contains__(self, value: float) -> bool: ...

@dataclass(frozen=True)
class Ranges:
    """n ranges and their statuses, as three arrays; `ranges[i]` is one Range, of NaN where there is no answer."""
    low: array[float]
    high: array[float]
    status: array[int]
    def __len__(self) -> int: ...
    def __getitem__(self, index: int) -> Range: ...
    def __iter__(self) -> Iterator[Range]: ...
    def raise_for_errors(self) -> Self:
        """Raises the exception of the first element without an answer; else gives back the same object."""

@dataclass(frozen=True)
class Property:
    """A property of the catalogue: where it is answered, how well, and from which source."""
    name: str
    unit: str
    source: str
    uncertainty: str
    celsius: Range
    fitted_solids_percent: float
    @property
    def depends_on_temperature(self) -> bool:
        """False if its value is the same at any temperature."""
    def facts(self) -> str:
        """Unit, range, uncertainty and source, one a line."""
    def documentation(self) -> str:
        """The docstring of its function."""

@dataclass(frozen=True)
class Ingredient:
    """A row of the pantry: where its composition comes from, and what in it is an estimate ("" if nothing)."""
    name: str
    source: str
    estimate: str
    per_100_g: Dict[str, float]

@dataclass(frozen=True)
class Compositions:
    """n compositions: the grams of all components of the first, then those of the next, as mixture functions take them.

    `compositions[i]` is one, by the names of its components. One whose status is negative has no answer and is NaN."""
    grams: array[float]
    status: array[int]
    def __len__(self) -> int: ...
    def __getitem__(self, index: int) -> Dict[str, float]: ...
    def __iter__(self) -> Iterator[Dict[str, float]]: ...
    def raise_for_errors(self) -> Self:
        """Raises the exception of the first element without an answer; else gives back the same object."""

@dataclass(frozen=True)
class TableStage:
    """A stage of a table, and its temperatures in °C: of plain sugar syrup at sea level."""
    name: str
    celsius: Range

@dataclass(frozen=True)
class StagePlace:
    """Where something lies in a stage table; str() gives its name, such as "between soft ball and firm ball".

    `lower` and `upper` are indices of stage_name: the same index in a stage, two between two stages. Below the first
    stage `lower` is -1, above a stage `upper` is the count of stages."""
    lower: int
    upper: int
    status: int
    name: str
    def __str__(self) -> str: ...

@dataclass(frozen=True)
class StagePlaces:
    """n places in a stage table, as three arrays; `places[i]` is one StagePlace, and str(places[i]) its name.

    An element whose status is negative has no answer: both indices are -1, and its name is ""."""
    lower: array[int]
    upper: array[int]
    status: array[int]
    table: Optional[str] = ...
    def __len__(self) -> int: ...
    def __getitem__(self, index: int) -> StagePlace: ...
    def __iter__(self) -> Iterator[StagePlace]: ...
    def raise_for_errors(self) -> Self:
        """Raises the exception of the first element without an answer; else gives back the same object."""

@dataclass(frozen=True)
class TextureWord:
    """A word of the set, what it means, and the firmness, in Pa s, from which and up to which it is said."""
    word: str
    meaning: str
    firmness_pa_s: Range

@dataclass(frozen=True)
class GrowthLimit:
    """A water activity below which a group does not grow."""
    water_activity: Optional[float]
    group: Optional[str]

@dataclass(frozen=True)
class GrainingEstimate:
    """Whether the sugar of a mixture may crystallize at a temperature. `risk`: 0 none, 1 low, 2 moderate, 3 high."""
    risk: int
    sucrose_supersaturation: Estimate
    lactose_supersaturation: Estimate
    crystallizable_percent: Estimate
    hindering_percent: float
    status: int

@dataclass(frozen=True)
class GrainingEstimates:
    """Graining of n mixtures: an array for each number, Estimates for each estimate; `[i]` is one GrainingEstimate.

    An element whose status is negative has no answer: risk -1, and NaN."""
    risk: array[int]
    sucrose_supersaturation: Estimates
    lactose_supersaturation: Estimates
    crystallizable_percent: Estimates
    hindering_percent: array[float]
    status: array[int]
    def __len__(self) -> int: ...
    def __getitem__(self, index: int) -> GrainingEstimate: ...
    def __iter__(self) -> Iterator[GrainingEstimate]: ...
    def raise_for_errors(self) -> Self:
        """Raises the exception of the first element without an answer; else gives back the same object."""

@dataclass(frozen=True)
class Layers:
    """Layers that touch, at equilibrium: their common water activity, and what each gains (negative: gives)."""
    water_activity: Estimate
    water_gained_grams: Tuple[Estimate, ...]

@dataclass(frozen=True)
class Desserts:
    """n desserts of layers at equilibrium; `desserts[i]` is one, as Layers.

    `water_gained_grams` has Estimates of all desserts for each layer: water_gained_grams[0] is of the first layers. A
    dessert whose status is negative has no answer and is NaN."""
    water_activity: Estimates
    water_gained_grams: Tuple[Estimates, ...]
    status: array[int]
    def __len__(self) -> int: ...
    def __getitem__(self, index: int) -> Layers: ...
    def __iter__(self) -> Iterator[Layers]: ...
    def raise_for_errors(self) -> Self:
        """Raises the exception of the first element without an answer; else gives back the same object."""

@dataclass(frozen=True)
class Prediction:
    """The answer to a batch. `raw` is the whole answer as it came, with keys that this class may not know."""
    title: str
    status: str
    cooked: Cooked
    finished: Finished
    stage: Stage
    set: SetAnswer
    graining: Graining
    keeping: Keeping
    cautions: Tuple[str, ...]
    notes: Tuple[str, ...]
    raw: Dict[str, Any]

@dataclass(frozen=True)
class Cooked:
    """When the cook ends. Temperatures are real ones, but for thermometer_celsius. None: cannot be given."""
    celsius: Optional[float]
    thermometer_celsius: Optional[float]
    pressure_hpa: Optional[float]
    water_boils_celsius: Optional[float]
    starts_to_boil_celsius: Optional[float]
    highest_celsius: Optional[float]
    water_activity: Optional[float]
    water_percent: Optional[Estimate]
    solids_percent: Optional[Estimate]
    grams: Optional[Estimate]
    water_boiled_off_grams: Optional[Estimate]

@dataclass(frozen=True)
class Finished:
    """After the additions, at serving temperature. None: cannot be given; a note says why."""
    grams: Optional[Estimate]
    water_percent: Optional[Estimate]
    fat_percent: Optional[Estimate]
    water_flashed_grams: Optional[Estimate]
    water_activity_at_serving: Optional[Estimate]
    syrup_solids_percent: Optional[Estimate]
    brix_of_syrup_phase: Optional[Estimate]
    glass_transition_celsius: Optional[Estimate]
    freezing_celsius: Optional[Estimate]
    millilitres: Optional[Estimate]
    mixed_celsius: Optional[float]
    undissolved_sugar_grams: Optional[float]
    sucrose_supersaturation: Optional[float]
    lactose_supersaturation: Optional[float]

@dataclass(frozen=True)
class Stage:
    """Names of the stage table used."""
    table: Optional[str]
    by_temperature: Optional[str]
    by_consistency: Optional[str]
    sea_level_celsius: Optional[float]
    plain_syrup_celsius: Optional[float]
    finished_by_consistency: Optional[str]

@dataclass(frozen=True)
class SetAnswer:
    """How it sits at the serving temperature."""
    celsius: Optional[float]
    viscosity_pa_s: Optional[Estimate]
    gel_modulus_pa: Optional[Estimate]
    firmness_pa_s: Optional[Estimate]
    word: Optional[str]
    word_if_thinner: Optional[str]
    word_if_thicker: Optional[str]
    slump_to_half_seconds: Optional[Estimate]
    stands_millimetres: Optional[Estimate]
    pours_from_celsius: Optional[Estimate]
    pour_celsius: Optional[float]
    pours: Optional[str]
    holds_a_cut: Optional[str]
    too_hard_to_cut: Optional[bool]
    freezer_celsius: Optional[float]
    freezer_ice_percent_of_water: Optional[float]
    freezer_word: Optional[str]
    milk_grams: Optional[float]
    firmness_with_milk_pa_s: Optional[Estimate]
    word_with_milk: Optional[str]

@dataclass(frozen=True)
class Graining:
    """Whether it may grain, at serving and in storage, and what would clear that."""
    at_serving: GrainingAt
    in_storage: GrainingAt
    ways_to_clear: Tuple[WayToClear, ...]

@dataclass(frozen=True)
class GrainingAt:
    """Whether sugar may crystallize at one temperature, and why."""
    celsius: Optional[float]
    risk: Optional[str]
    reason: Optional[str]
    sucrose_supersaturation: Optional[Estimate]
    lactose_supersaturation: Optional[Estimate]
    crystallizable_percent: Optional[Estimate]
    hindering_percent: Optional[float]

@dataclass(frozen=True)
class WayToClear:
    """A change of the batch after which the sugar stays dissolved."""
    change: Optional[str]
    grams: Optional[float]
    thermometer_celsius: Optional[float]
    sentence: Optional[str]

@dataclass(frozen=True)
class Keeping:
    """Screening figures for keeping; not a shelf life: follow your food code and a tested process."""
    celsius: Optional[float]
    water_activity: Optional[Estimate]
    equilibrium_relative_humidity_percent: Optional[Estimate]
    can_grow: Optional[str]
    too_cold_for_growth: bool
    limits: Tuple[GrowthLimit, ...]
    limits_source: Optional[str]

@dataclass(frozen=True)
class Reply:
    """The answer to a question. `answer` has the keys of the JSON answer, which depend on the question.

    `prediction` is that of the batch as it is to be cooked, where there is one; `raw` is the whole reply."""
    ask: str
    title: str
    status: str
    question: str
    answer: Dict[str, Any]
    prediction: Optional[Prediction]
    cautions: Tuple[str, ...]
    notes: Tuple[str, ...]
    raw: Dict[str, Any]

class Batch:
    """A batch that is put together by calls instead of a batch file.

    Without a pressure it is 1013.25 hPa, and it is served at 20 °C. A `with` block closes it."""
    def __init__(self) -> None: ...
    def close(self) -> None:
        """Gives its memory back; what is closed cannot be used any more. Closing twice does nothing."""
    def __enter__(self) -> Self: ...
    def __exit__(self, *exception: object) -> None: ...
    def refusal(self) -> str:
        """Why the last call on it was refused, in one line; "" if it was not."""
    @classmethod
    def read(cls, text: BatchLike) -> Batch:
        """The batch of a batch file: a mapping, JSON text, or the path of a file."""
    def add(self, ingredient: str, grams: float, celsius: float = 20.0, where: Union[str, int] = 'pan') -> Batch:
        """Adds an ingredient of the pantry: to the "pan", "off_heat", or to the "neighbours" that touch it.

        `celsius` counts off the heat only. Gives back the batch, so that calls can be chained."""
    def add_mixture(self, name: str, grams: Grams, celsius: float = 20.0, where: Union[str, int] = 'pan') -> Batch:
        """Adds an ingredient of any composition: the grams of each component."""
    def set(self, field: str, value: float) -> Batch:
        """Sets "thermometer_celsius" (what it shows when the cook ends), "pressure_hpa", "serve_celsius" ..."""
    def text(self) -> str:
        """The batch as a batch file, which Batch.read and predict take."""
    def answer(self, table: Optional[str] = None) -> Answer:
        """What the batch will be when it is cold, to be asked key by key."""
    def predict(self, table: Optional[str] = None) -> Prediction:
        """What the batch will be when it is cold, as sirop.predict gives it."""

class Question:
    """A question (docs/questions.md) that is put together by calls: its kind, then its keys joined by dots.

    Such as "wanted.water_percent" or "with.0": a list grows by its next index. A `with` block closes it."""
    def __init__(self, kind: str) -> None: ...
    def close(self) -> None:
        """Gives its memory back; what is closed cannot be used any more. Closing twice does nothing."""
    def __enter__(self) -> Self: ...
    def __exit__(self, *exception: object) -> None: ...
    def refusal(self) -> str:
        """Why the last call on it was refused, in one line; "" if it was not."""
    def set_number(self, key: str, value: float) -> Question:
        """Sets a key to a number; one that was set before is replaced. Gives back the question."""
    def set_truth(self, key: str, yes: bool) -> Question:
        """Sets a key to true or false."""
    def set_text(self, key: str, text: str) -> Question:
        """Sets a key to a text, such as the name of an ingredient or a word of the set."""
    def set_batch(self, key: str, batch: Batch) -> Question:
        """Sets a key to a copy of a batch; the question's own is "batch"."""
    def set(self, key: str, value: Union[bool, float, str, Batch]) -> Question:
        """Sets a key to a number, a text, a truth or a batch, whichever the value is."""
    def ask(self) -> Answer:
        """The answer, to be asked key by key; the question can be changed and asked again."""
    def reply(self) -> Reply:
        """The answer, as sirop.ask gives it."""

class Answer:
    """The answer to a batch or a question, to be asked by the keys of the JSON answer joined by dots.

    Such as "cooked.water_percent_low", "set.word" or "cautions.0"; that to a question has "answer.reason" and
    "prediction.set.word". `status` is 1 if it is an extrapolation."""
    status: int
    def __init__(self, pointer: int, status: int) -> None: ...
    def close(self) -> None:
        """Gives its memory back; what is closed cannot be used any more. Closing twice does nothing."""
    def __enter__(self) -> Self: ...
    def __exit__(self, *exception: object) -> None: ...
    def number(self, key: str) -> float:
        """The number of a key; true is 1, false is 0. Raises ImpossibleError where the answer says null."""
    def count(self, key: str = '') -> int:
        """How many there are under a key: elements of a list, keys of an object."""
    def report(self) -> str:
        """The whole answer as a report for the cook, with its cautions."""
    def text(self, key: str = '') -> str:
        """The text of a key, and of anything else its JSON text; without a key the whole answer."""

class SiropError(Exception):
    """Any failure that the library reports. `code` is the status code of the C API."""
    code: ClassVar[int]
    def __str__(self) -> str: ...

class GeneralError(SiropError, RuntimeError):
    """A failure without a code of its own, or with one that this package does not know."""
    code: ClassVar[int]

class RangeError(SiropError, ValueError):
    """An argument is outside its range, infinite or not a number."""
    code: ClassVar[int]

class UnknownNameError(SiropError, KeyError):
    """No such component, ingredient, table, property or argument."""
    code: ClassVar[int]

class BufferTooSmallError(SiropError, BufferError):
    """A text did not fit its buffer. The package makes its buffers large enough, so this is not expected."""
    code: ClassVar[int]

class BatchError(SiropError, ValueError):
    """The batch file or the question is refused. The message is the reason: place, value, what is accepted."""
    code: ClassVar[int]

class NullPointerError(SiropError, TypeError):
    """A required pointer is null. The package passes none, so this is not expected."""
    code: ClassVar[int]

class OutOfMemoryError(SiropError, MemoryError):
    """The library could not get the memory that it needs."""
    code: ClassVar[int]

class ImpossibleError(SiropError, ValueError):
    """The question has no answer within the model."""
    code: ClassVar[int]

class ExtrapolationWarning(UserWarning):
    """The result was computed outside the fitted range of a model."""

def error_class(code: int) -> Type[SiropError]:
    """The exception class of a negative status code; an unknown code is a general failure."""
def version() -> str:
    """The version of the library that runs, such as "0.1.0"."""
def status_text(status: int) -> str:
    """What a status code means, in English."""
def component_name(component: int) -> Optional[str]:
    """The name of a component as the batch file writes it; None for an index that does not exist."""
def argument_names() -> Tuple[str, ...]:
    """The names of all arguments that have an accepted range, such as "pressure_hpa"."""
def argument_name(index: int) -> Optional[str]:
    """The names of the arguments that have an accepted range, from 0 on; None after the last."""
def accepted_range(argument: str) -> Range:
    """The inclusive range that an argument accepts, such as "pressure_hpa", "altitude_metres" or "grams"."""
def pressure_at_altitude_hpa(altitude_metres: float) -> float:
    """Air pressure, in hPa, at an altitude in metres: the standard atmosphere (ISO 2533)."""
def pressure_from_boiling_water_hpa(water_boils_celsius: float) -> float:
    """Air pressure, in hPa, of a kitchen where water really boils at that temperature in °C (IAPWS-IF97)."""
def water_boils_celsius(pressure_hpa: float) -> float:
    """Temperature, in °C, at which water boils at that pressure in hPa (IAPWS-IF97)."""
def pressure_at_altitude_hpa_n(altitude_metres: Numbers) -> Values:
    """pressure_at_altitude_hpa of n altitudes."""
def pressure_from_boiling_water_hpa_n(water_boils_celsius: Numbers) -> Values:
    """pressure_from_boiling_water_hpa of n temperatures."""
def water_boils_celsius_n(pressure_hpa: Numbers) -> Values:
    """water_boils_celsius of n pressures."""
def boiling_point_celsius(grams: Grams, pressure_hpa: float = 1013.25) -> Estimate:
    """Temperature, in °C, at which the mixture with its own water boils.

    Unit: °C
    Range: any temperature; an extrapolation above 97 % solids of the syrup phase
    Uncertainty: plain sucrose 0.2 K at 75 %, 0.5 K at 85 %, 2 K at 90 %, 5 K at 95 %; in the estimate
    Source: additive water (Zdanovskii, Stokes, Robinson); isotherms: docs/theory.md"""
def water_at_boil_grams(grams: Grams, celsius: float, pressure_hpa: float = 1013.25) -> Estimate:
    """Grams of water that the solids hold when they boil at that temperature. Their own water does not count."""
def water_activity(grams: Grams, celsius: float) -> Estimate:
    """Water activity of the mixture, 0 to 1, at a temperature in °C; all its water is taken as liquid.

    Unit: 1
    Range: -30 to 170 °C; an extrapolation above 97 % solids of the syrup phase
    Uncertainty: sucrose is within 0.001 of measurements to 67 %; above 80 % the spread of two models; in the estimate
    Source: additive water (Zdanovskii, Stokes, Robinson); isotherms: docs/theory.md"""
def freezing_point_celsius(grams: Grams) -> Estimate:
    """Temperature, in °C, at which ice begins to form in the mixture.

    Unit: °C
    Range: any temperature; an extrapolation above 60 % solids of the syrup phase
    Uncertainty: sugars are within 0.05 K of measurements to 40 %; in the estimate
    Source: the same, with the ice line"""
def boiling_point_celsius_n(grams: Mixtures, pressure_hpa: Numbers = 1013.25, components: Optional[int] = None) -> Estimates:
    """boiling_point_celsius of n mixtures.

    `grams`: an array of n rows, a sequence of mixtures, or all masses one after the other, `components` for each
    mixture. Other arguments: one number for all, or n of them."""
def water_at_boil_grams_n(grams: Mixtures, celsius: Numbers, pressure_hpa: Numbers = 1013.25, components: Optional[int] = None) -> Estimates:
    """water_at_boil_grams of n mixtures; arguments as in boiling_point_celsius_n."""
def water_activity_n(grams: Mixtures, celsius: Numbers, components: Optional[int] = None) -> Estimates:
    """water_activity of n mixtures; arguments as in boiling_point_celsius_n."""
def freezing_point_celsius_n(grams: Mixtures, components: Optional[int] = None) -> Estimates:
    """freezing_point_celsius of n mixtures; arguments as in boiling_point_celsius_n."""
def properties() -> Tuple[Property, ...]:
    """The catalogue: every property with its unit, range, uncertainty and source."""
def property_name(index: int) -> Optional[str]:
    """The names of the catalogue's properties, from 0 on; None after the last."""
def property_unit(property: Union[PropertyName, str]) -> str:
    """The unit of a property; "1" for a plain number."""
def property_source(property: Union[PropertyName, str]) -> str:
    """The published source of a property."""
def property_uncertainty(property: Union[PropertyName, str]) -> str:
    """How far off a property is, in words; each estimate has its own low and high."""
def property_range(property: Union[PropertyName, str]) -> Tuple[Range, float]:
    """The temperatures in °C in which a property is answered, and the solids of the syrup phase, in percent, above
    which the answer is an extrapolation. Equal temperatures: it does not depend on one."""
def property_estimate(property: Union[PropertyName, str], grams: Grams, celsius: float = 20.0, pressure_hpa: float = 1013.25) -> Estimate:
    """A property of the catalogue, by its name, for a mixture at a temperature in °C.

    `celsius` is ignored where the property does not depend on it; the pressure matters to boiling points only."""
def property_estimate_n(property: Union[PropertyName, str], grams: Mixtures, celsius: Numbers = 20.0, pressure_hpa: Numbers = 1013.25, components: Optional[int] = None) -> Estimates:
    """A property of the catalogue, by its name, for n mixtures; arguments as in boiling_point_celsius_n."""
def conversions() -> Tuple[str, ...]:
    """The names of all conversions, such as "brix_to_density_kg_m3"."""
def conversion_name(index: int) -> Optional[str]:
    """The names of the conversions, from 0 on; None after the last."""
def convert(conversion: str, value: float) -> float:
    """Converts a number of one scale to another; the name of the conversion carries both units.

    Of plain sucrose at 20 °C where a concentration is meant."""
def convert_n(conversion: str, values: Numbers) -> Values:
    """convert of n numbers."""
def ingredients() -> Tuple[Ingredient, ...]:
    """The pantry: every ingredient that a batch file may name."""
def ingredient_name(index: int) -> Optional[str]:
    """The names of the pantry, from 0 on; None after the last."""
def ingredient_source(ingredient: str) -> str:
    """Where the composition of an ingredient comes from."""
def ingredient_estimate(ingredient: str) -> str:
    """What in the composition of an ingredient is an estimate; "" if nothing."""
def ingredient_grams(ingredient: str) -> Dict[str, float]:
    """The grams of each component in 100 g of an ingredient, those of which it has none left out."""
def glucose_syrup_grams(dextrose_equivalent: float, solids_percent: float = 80.0) -> Dict[str, float]:
    """The grams of each component in 100 g of a glucose syrup between the tabulated ones."""
def glucose_syrup_grams_n(dextrose_equivalent: Numbers, solids_percent: Numbers = 80.0) -> Compositions:
    """glucose_syrup_grams of n syrups; each argument is one number for all, or n."""
def stage_tables() -> Tuple[str, ...]:
    """The names of all stage tables; the first, "us 2004", is the default."""
def stage_table_name(index: int) -> Optional[str]:
    """The names of the stage tables, from 0 on; None after the last."""
def stage_table_source(table: Optional[str] = None) -> str:
    """Where a stage table was published."""
def stages(table: Optional[str] = None) -> Tuple[TableStage, ...]:
    """The stages of a table, "us 2004" if None."""
def stage_name(index: int, table: Optional[str] = None) -> Optional[str]:
    """The names of a table's stages, from 0 on; None after the last."""
def stage_range_celsius(stage: str, table: Optional[str] = None) -> Range:
    """The temperatures, in °C, of a stage: of plain sugar syrup at sea level."""
def stage_of_temperature(celsius: float, pressure_hpa: float = 1013.25, table: Optional[str] = None) -> StagePlace:
    """Which stage a table means by a temperature in °C in a kitchen; str() of it is its name."""
def stage_of_temperature_n(celsius: Numbers, pressure_hpa: Numbers = 1013.25, table: Optional[str] = None) -> StagePlaces:
    """stage_of_temperature of n temperatures, or in n kitchens; each argument is one number for all, or n."""
def stage_of_mixture(grams: Grams, table: Optional[str] = None) -> StagePlace:
    """The stage that a mixture is by its consistency in cold water."""
def stage_of_mixture_n(grams: Mixtures, table: Optional[str] = None, components: Optional[int] = None) -> StagePlaces:
    """stage_of_mixture of n mixtures; `grams` as in boiling_point_celsius_n."""
def stage_place_text(lower: int, upper: int, table: Optional[str] = None) -> str:
    """The name of a place in a table, such as "between soft ball and firm ball"; the indices as in a StagePlace."""
def celsius_for_stage(stage: str, grams: Grams, pressure_hpa: float = 1013.25, table: Optional[str] = None) -> Range:
    """The temperatures, in °C, between which a mixture, boiled down, has the consistency of a stage."""
def celsius_for_stage_n(stage: str, grams: Mixtures, pressure_hpa: Numbers = 1013.25, table: Optional[str] = None, components: Optional[int] = None) -> Ranges:
    """celsius_for_stage of n mixtures; `grams` and `pressure_hpa` as in boiling_point_celsius_n."""
def texture_words() -> Tuple[TextureWord, ...]:
    """The words of the set, from the thinnest to the hardest."""
def texture_word(index: int) -> Optional[str]:
    """The words of the set, from the thinnest, 0, on; None after the last."""
def texture_word_meaning(index: int) -> Optional[str]:
    """What a word of the set means; None for an index that does not exist."""
def texture_word_firmness_pa_s(index: int) -> Range:
    """The firmness, in Pa s, from which and up to which a word of the set is said."""
def texture_word_of(firmness_pa_s: float) -> int:
    """The index of the word for a firmness in Pa s, such as the property firmness_pa_s."""
def texture_word_of_n(firmness_pa_s: Numbers) -> Indices:
    """texture_word_of of n firmnesses."""
def graining_at(grams: Grams, celsius: float) -> GrainingEstimate:
    """Whether the sugar of a mixture may crystallize at a temperature in °C."""
def graining_at_n(grams: Mixtures, celsius: Numbers, components: Optional[int] = None) -> GrainingEstimates:
    """graining_at of n mixtures; arguments as in boiling_point_celsius_n."""
def layers_at_equilibrium(grams: Mixtures, celsius: float, components: Optional[int] = None) -> Layers:
    """Where the water goes between layers that touch, at a temperature in °C; `grams`: one mixture for each layer."""
def layers_at_equilibrium_n(grams: Union[Sequence[Mixtures], Mixtures], celsius: Numbers, layers: Optional[int] = None, components: Optional[int] = None) -> Desserts:
    """layers_at_equilibrium of n desserts of as many layers each.

    `grams`: an array of n x layers x components, a sequence of sequences of mixtures, or all layers one after the
    other as boiling_point_celsius_n takes mixtures, `layers` for each dessert. `celsius`: one for all, or n."""
def growth_limits() -> Tuple[GrowthLimit, ...]:
    """The published limits of growth. Screening figures: follow your food code and a tested process."""
def growth_limit(index: int) -> GrowthLimit:
    """A published limit of growth: the group, and the water activity below which it does not grow."""
def growth_group(index: int) -> Optional[str]:
    """The groups of the published limits of growth, from the highest water activity, 0, on; None after the last."""
def growth_limits_source() -> str:
    """Where the limits of growth were published."""
def predict(batch: BatchLike, table: Optional[str] = None) -> Prediction:
    """What a batch will be when it is cold.

    `batch`: a batch file as a mapping, as JSON text, or as the path of a file (a path object, or a text that ends in
    .json). Raises BatchError with the reason if it is refused. Show people the answer's `cautions`."""
def report(batch: BatchLike, table: Optional[str] = None) -> str:
    """The same as predict_report."""
def predict_json(batch: BatchLike, table: Optional[str] = None) -> str:
    """What a batch will be when it is cold, as JSON text. `table`: the stage table, "us 2004" if None."""
def predict_report(batch: BatchLike, table: Optional[str] = None) -> str:
    """What a batch will be when it is cold, as a report for the cook, with its cautions."""
def ask(question: BatchLike) -> Reply:
    """Answers a question (docs/questions.md): to which temperature, how to rescue, what instead, and so on.

    `question`: a mapping, JSON text, or the path of a file, as for predict. Raises BatchError with the reason if it is
    refused. Show people the reply's `cautions`."""
def ask_json(question: BatchLike) -> str:
    """Answers a question, such as to which temperature to cook, as JSON text."""
def ask_report(question: BatchLike) -> str:
    """Answers a question, such as to which temperature to cook, as a report for the cook, with its cautions."""
def question_names() -> Tuple[str, ...]:
    """The kinds of all questions, such as "cook_for"."""
def question_name(index: int) -> Optional[str]:
    """The kinds of questions, from 0 on; None after the last."""
