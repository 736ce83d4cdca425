"""What goes into a forecast and what comes out: shapes only, all immutable and hashable."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

EventKind = Literal["sugar", "dilution", "rack", "nutrient", "repitch", "temperature"]
State = Literal["before pitch", "fermenting", "slow, not stuck", "may be stuck", "stuck", "dry"]


@dataclass(frozen=True, slots=True)
class Observation:
    """One hydrometer reading, corrected to the instrument's own temperature.

    A reading at or before the pitch (`hours` <= 0) speaks of the original gravity only.
    """

    hours: float
    """Since the pitch."""
    sg: float
    celsius: float | None = None
    """Of the must when read; None where nobody looked."""


@dataclass(frozen=True, slots=True)
class Event:
    """Something done to the must that bends its curve."""

    hours: float
    """Since the pitch."""
    kind: EventKind
    amount: float = 0.0
    """sugar: g/L added; dilution: volume after over volume before; temperature: the new room, °C.
    The other kinds need none."""

    def __post_init__(self) -> None:
        if self.kind == "dilution" and self.amount <= 0:
            raise ValueError(
                f"a dilution at {self.hours:g} h needs volume after over volume before, above 0"
            )


@dataclass(frozen=True, slots=True)
class Setup:
    """What is known of the must at the pitch."""

    og: float
    og_sd: float = 0.004
    room_celsius: float = 20.0
    pulp: bool = True
    """Whether fruit still gives up sugar; False for strained juice."""
    nitrogen_mg_per_l: float | None = None
    extract_g_per_l: float | None = None
    """Dissolved matter that does not ferment."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """Everything that a forecast rests on; equal evidence gives the equal forecast."""

    setup: Setup
    observations: tuple[Observation, ...] = ()
    events: tuple[Event, ...] = ()


@dataclass(frozen=True, slots=True)
class Crossing:
    """When the gravity falls below a line: hours since the pitch, conditional on finishing.

    A time is `inf` where even a ferment that finishes may end above the line.
    """

    below: float
    q10_h: float
    q50_h: float
    q90_h: float
    passed: bool
    """Whether the readings say that it has happened."""


@dataclass(frozen=True, slots=True)
class Curve:
    """The gravity curve with its 10, 50 and 90 % lines."""

    h: tuple[float, ...]
    q10: tuple[float, ...]
    q50: tuple[float, ...]
    q90: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Forecast:
    """What to expect of a ferment. The bands are conditional on finishing: print
    `not_finishing` beside them."""

    crossings: tuple[Crossing, ...]
    """In the order asked for."""
    dry: Crossing
    """Below 1.000 with less than 0.001 left to fall in the next 48 h."""
    stable: Crossing
    """The earliest second of two readings 48 h apart that can show it."""
    not_finishing: float
    """Chance of stopping for good above 1.000, 0 to 1."""
    state: State
    next_reading_h: float | None
    """When a reading would help most; None once dry."""
    curve: Curve
    """Conditional on finishing, as the crossings are."""
    curve_or_stop: Curve
    """At the same hours, but mixed over finishing and stopping for good by their chances: the curve
    of a stuck ferment, whose fan holds the gravity at which it stands."""
    leans_on: tuple[int, ...]
    """Indexes of the readings that move the next date most, strongest first."""
    outliers: tuple[int, ...]
    """Indexes of the readings that do not fit: ask about them, they are not dropped."""
    expected_final_sg: float
