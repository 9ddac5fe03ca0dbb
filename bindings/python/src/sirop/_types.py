"""What goes in and comes out: the dataclasses of numbers, and the names of the argument types."""

from __future__ import annotations

import os
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Mapping, Optional, Sequence, Union

if TYPE_CHECKING:
    from typing_extensions import Buffer, Self

    from ._properties import ComponentName, PropertyName  # the names that the library has
else:
    Buffer = Self = Any  # before Python 3.12 and 3.11
    PropertyName = ComponentName = str

__all__ = ["Estimate", "Range", "StagePlace", "GrainingEstimate"]

# What arguments may be.
Grams = Union[Mapping[str, float], Sequence[float], Buffer]
Numbers = Union[float, Sequence[float], Buffer]
Mixtures = Union[Sequence[Grams], Sequence[float], Buffer]
BatchLike = Union[Mapping[str, Any], str, bytes, "os.PathLike[str]"]


@dataclass(frozen=True)
class Estimate:
    """A number with its interval, which is the models' uncertainty. float() gives the value."""

    value: float
    low: float
    high: float
    #: 0 fine, 1 computed outside a fitted range; None where the answer has one status for the whole.
    status: Optional[int] = None

    @property
    def extrapolated(self) -> Optional[bool]:
        """True if it was computed outside the fitted range of a model; None if that is not known of this number."""
        return None if self.status is None else self.status == 1

    def __float__(self) -> float:
        return self.value


@dataclass(frozen=True)
class Range:
    """An inclusive range; `value in range` tests it."""

    low: float
    high: float

    def __contains__(self, value: float) -> bool:
        return self.low <= value <= self.high


@dataclass(frozen=True)
class StagePlace:
    """Where something lies in a stage table; str() gives its name, such as "between soft ball and firm ball".

    `lower` and `upper` are indices of stage_name: the same index in a stage, two between two stages. Below the first
    stage `lower` is -1, above a stage `upper` is the count of stages."""

    lower: int
    upper: int
    #: 0 fine, 1 computed outside a fitted range; negative where there is no answer
    status: int
    name: str

    def __str__(self) -> str:
        return self.name


@dataclass(frozen=True)
class GrainingEstimate:
    """Whether the sugar of a mixture may crystallize at a temperature. `risk`: 0 none, 1 low, 2 moderate, 3 high."""

    risk: int
    sucrose_supersaturation: Estimate
    lactose_supersaturation: Estimate
    #: of the dissolved sucrose and lactose
    crystallizable_percent: Estimate
    #: other sugars, of themselves and the sucrose
    hindering_percent: float
    status: int
