"""What the gravity curve draws, as plain arrays: readings, forecast, thresholds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime

import numpy as np
import numpy.typing as npt

from winebench.plan.gravity_forecast import NAMES, NEARLY_DRY, TO_GLASS
from winebench.plan.gravity_shown import LEAST_FORETOLD
from winebench.plan.outlook import CrossingOutlook, ForecastOutlook, Outlook, ReadingOutlook
from winebench.window.timeline.other_data import OtherData

Floats = npt.NDArray[np.float64]
_NOTHING = np.empty(0)
MOST_CURVE_POINTS = 200
"""More would cost repaint time and show nothing: the curve is smooth and about 700 px wide."""
_THRESHOLDS = tuple((below, NAMES[below]) for below in (TO_GLASS, NEARLY_DRY))
"""Drawn in every batch; those of a sugar feed only where one is planned."""
_FEED = "sugar-feed"


@dataclass(frozen=True)
class CurveData:
    """Readings and forecast as arrays, x in seconds since 1970, y in SG at 20 °C."""

    now: float = 0.0
    readings: tuple[ReadingOutlook, ...] = ()
    """Those with a corrected gravity, in order of time; the arrays below go with them."""
    read_at: Floats = field(default_factory=lambda: _NOTHING)
    gravity: Floats = field(default_factory=lambda: _NOTHING)
    half_width: Floats = field(default_factory=lambda: _NOTHING)
    at: Floats = field(default_factory=lambda: _NOTHING)
    """Times of the forecast, from the latest reading on."""
    low: Floats = field(default_factory=lambda: _NOTHING)
    middle: Floats = field(default_factory=lambda: _NOTHING)
    high: Floats = field(default_factory=lambda: _NOTHING)
    supported: bool = False
    working: bool = False
    """Whether the forecast is still being worked out."""
    thresholds: tuple[tuple[float, str], ...] = _THRESHOLDS
    crossing: CrossingOutlook | None = None
    """The next threshold to be passed."""
    sentence: str = ""
    going_by: str = ""
    """The maker's own finished batches in short, where the forecast learned from them."""
    next_reading: float | None = None
    """When to read again, s."""
    other: OtherData | None = None
    """Another batch that is laid over this one."""

    def crossing_said(self) -> tuple[str, ...]:
        """Return the lines of the next crossing: when, its range, and when to check."""
        said = self.crossing.sentence if self.crossing and not self.working else ""
        head, between, spread = said.partition(", between ")
        when, *check = (between[2:] + spread).split(" · ")
        return tuple(filter(None, (head, when, *check)))

    def course_said(self) -> tuple[str, ...]:
        """Return how it goes, what the forecast goes by, and the chance that it stops early."""
        if self.working:
            return ()
        told = (self.crossing.sentence.split(" · ")[0] if self.crossing else "", self.going_by)
        state = [part for part in self.sentence.rstrip(".").split("; ") if part not in told]
        return tuple(filter(None, (self.going_by, *state)))

    def gravity_range(self) -> tuple[float, float]:
        """Return the gravities to show, on whole hundredths so that the scale rarely jumps."""
        parts = [self.gravity, self.low, self.high, np.array([0.994, 1.034])]
        if self.other is not None:
            parts.append(self.other.gravity)
        values = np.concatenate(parts)
        low, high = float(values.min()), float(values.max())
        return float(np.floor((low - 0.003) * 100) / 100), float(
            np.ceil((high + 0.004) * 100) / 100
        )


def curve_data(outlook: Outlook, other: OtherData | None = None) -> CurveData:
    """Return the outlook's readings and forecast ready to draw, and the batch laid over them."""
    readings = tuple(r for r in outlook.readings if r.corrected is not None)
    readings = tuple(sorted(readings, key=lambda reading: reading.at))
    forecast = outlook.forecast
    read_at = _seconds([reading.at for reading in readings])
    from_time = float(read_at[-1]) if len(read_at) else -np.inf
    at, low, middle, high = _curve(forecast, from_time)
    crossings = _crossings(outlook)
    return CurveData(
        now=outlook.at.timestamp(),
        readings=readings,
        read_at=read_at,
        gravity=np.array([reading.corrected for reading in readings], dtype=float),
        half_width=np.array([reading.half_width for reading in readings], dtype=float),
        at=at,
        low=low,
        middle=middle,
        high=high,
        supported=forecast is not None and forecast.supported,
        working=forecast is None and _has_sugar(outlook),
        thresholds=_thresholds(crossings),
        crossing=next((c for c in crossings if not c.passed), None),
        next_reading=_moment(forecast.next_reading) if forecast else None,
        other=other,
        sentence=forecast.sentence if forecast else "The forecast is being worked out.",
        going_by=forecast.going_by if forecast else "",
    )


def _has_sugar(outlook: Outlook) -> bool:
    """Return whether the must has a course to foretell, which then is being worked out."""
    return bool(outlook.readings) or (outlook.must.gravity.value or 1.0) >= LEAST_FORETOLD


def _thresholds(crossings: tuple[CrossingOutlook, ...]) -> tuple[tuple[float, str], ...]:
    """Return the lines to draw: a gravity that may never be passed is a threshold all the same."""
    lines = dict(_THRESHOLDS) | {c.below: c.name for c in crossings}
    return tuple(sorted(lines.items(), reverse=True))


def _crossings(outlook: Outlook) -> tuple[CrossingOutlook, ...]:
    """Return the crossings that matter to this batch, in order of gravity."""
    known = outlook.forecast.crossings if outlook.forecast else ()
    feeds = any(step.key == _FEED and step.state != "skipped" for step in outlook.steps)
    always = [below for below, _name in _THRESHOLDS]
    return tuple(crossing for crossing in known if feeds or crossing.below in always)


def _curve(
    forecast: ForecastOutlook | None, from_time: float
) -> tuple[Floats, Floats, Floats, Floats]:
    if forecast is None:
        return _NOTHING, _NOTHING, _NOTHING, _NOTHING
    at = _seconds(forecast.times)
    chosen = np.flatnonzero(at >= from_time)
    if len(chosen) > MOST_CURVE_POINTS:
        chosen = chosen[np.linspace(0, len(chosen) - 1, MOST_CURVE_POINTS).astype(int)]
    low, middle, high = (
        np.array(line, dtype=float)[chosen]
        for line in (forecast.low, forecast.middle, forecast.high)
    )
    return at[chosen], low, middle, high


def _moment(moment: datetime | None) -> float | None:
    return None if moment is None else moment.timestamp()


def _seconds(moments: Sequence[datetime]) -> Floats:
    return np.array([moment.timestamp() for moment in moments], dtype=float)


def in_view(at: Floats, start: float, end: float, most: int) -> npt.NDArray[np.intp]:
    """Return which points to draw as marks: those in view, one for each of `most` columns."""
    first, last = np.searchsorted(at, (start, end))
    chosen = np.arange(first, last)
    if len(chosen) <= most:
        return chosen
    column = ((at[chosen] - start) / (end - start) * most).astype(int)
    _, keep = np.unique(column, return_index=True)
    return chosen[keep]
