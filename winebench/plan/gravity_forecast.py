"""The gravity forecast as steps ask for it: when a line is passed, and how sure that is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import isfinite
from typing import TYPE_CHECKING

from winebench.forecast.api import Crossing, Evidence, Forecast
from winebench.plan.days import Clock
from winebench.plan.evidence import evidence_of
from winebench.plan.learning.own_ferments import learned
from winebench.plan.steps.rule import Basis, Span, span
from winebench.plan.stuck.standstill import accepted_at, stuck, too_high

if TYPE_CHECKING:
    from winebench.forecast import Learned
    from winebench.plan.batch import Batch

Forecaster = Callable[[Evidence, tuple[float, ...], "Learned | None"], Forecast | None]


def forecaster(
    evidence: Evidence, below: tuple[float, ...], learned: Learned | None = None
) -> Forecast | None:
    """Return the forecast, at once; what makes it is loaded at first use."""
    from winebench.forecast import cached_forecast

    return cached_forecast(evidence, below, learned)


TO_GLASS = 1.030
"""Below this the must goes to glass (common practice)."""
FEED_FROM = 1.020
FEED_UNTIL = 1.010
"""Between these sugar that was kept back is fed, while the yeast is lively (common practice)."""
ALMOST_DRY = 1.005
"""From here on the malolactic choice is asked for (common practice)."""
NEARLY_DRY = 1.000
"""Below this it is racked a second time (common practice); it proves no wine dry."""
NAMES = {
    TO_GLASS: "rack to glass",
    FEED_FROM: "feed from here",
    FEED_UNTIL: "feed until here",
    NEARLY_DRY: "nearly dry",
}
# Days from the pitch at about 20 °C (common practice), used only until a forecast is there.
_USUAL_DAYS = {
    TO_GLASS: (4, 6, 10), FEED_FROM: (4, 7, 11), FEED_UNTIL: (5, 9, 14),
    ALMOST_DRY: (6, 11, 21), NEARLY_DRY: (8, 14, 30),
}  # fmt: skip
_USUAL_SHARE_DAYS = (2, 4, 6)
"""Likewise for a third and a half of the sugar."""
_LATEST_DAYS_BEYOND = 60.0
"""Stands for a late end that the forecast does not see: past it the wine is slow, not late (common
practice)."""


_MOST_DAYS = 730
"""After the pitch; nobody could rely on a later date (common practice)."""


@dataclass(frozen=True, slots=True)
class Passing:
    """When the gravity falls below a line, and what that rests on."""

    window: Span
    basis: Basis
    passed: bool
    """Whether a reading below the line is in the log."""


@dataclass(frozen=True, slots=True)
class Lines:
    """The course of the gravity as steps ask for it."""

    batch: Batch
    forecast: Forecast | None

    @property
    def stands_still(self) -> bool:
        """Return whether the ferment is stuck, so that no coming date would be honest."""
        return stuck(self.batch) is not None

    @property
    def may_stop(self) -> bool:
        """Return whether the readings look as if the ferment might stop before it is dry."""
        state = self.forecast.state if self.forecast else "fermenting"
        doubted = state in ("may be stuck", "stuck") and not self.stands_still
        return doubted and too_high(self.batch) is not None

    def no_date(self, line: float) -> str:
        """Return why there is no date for passing that line."""
        if self.stands_still:
            return "The ferment stands still, so there is no honest date; see to that first."
        end = self.batch.sweet_end
        if end is not None and self.hardly_below(line):
            return (
                f"The sugar makes {end.strength:.1f} %, and {end.words}: no date below "
                f"{line:.3f} would be honest."
            )
        return f"The forecast does not see the gravity pass {line:.3f}, so there is no honest date."

    def hardly_below(self, line: float) -> bool:
        """Return whether its yeast will probably stop, sweet, above that line."""
        end = self.batch.sweet_end
        return end is not None and end.likely and self.limit_above(line)

    def limit_above(self, line: float) -> bool:
        """Return whether its yeast may stop, at its limit, before the gravity is below that line.

        Sugar still to be fed makes no alcohol before it is in: until then the gravity falls on.
        """
        end = self.batch.sweet_end
        if end is None:
            return False
        return line <= (end.sg - end.to_feed if line >= FEED_UNTIL else end.sg)

    def below(self, line: float) -> Passing | None:
        """Return when the gravity passes below the line; None where no date is honest."""
        batch = self.batch
        first = next((s for s in _first_run_below(batch, line)), None)
        if first is not None:
            return Passing(Span(first, first, first), "reading", True)
        left = accepted_at(batch)
        if left is not None:
            return Passing(Span(left, left, left), "reading", True)
        if batch.pitch is None or self.stands_still or self.hardly_below(line):
            return None
        if self.forecast is None:
            return Passing(_usual(batch, line), "clock", False)
        found = min(self.forecast.crossings, key=lambda crossing: abs(crossing.below - line))
        window = _window(batch.clock, batch.pitch.likely, found)
        return None if window is None else Passing(window, "forecast", False)

    @property
    def dry(self) -> Span | None:
        """Return when it is dry by forecast or usual time, or was left sweet; None if never."""
        batch = self.batch
        left = accepted_at(batch)
        if left is not None:
            return Span(left, left, left)
        if batch.pitch is None or self.stands_still or self.hardly_below(batch.highest_end):
            return None
        if self.forecast is None:
            return _usual(batch, NEARLY_DRY)
        return _window(batch.clock, batch.pitch.likely, self.forecast.dry)


def _first_run_below(batch: Batch, line: float) -> list[datetime]:
    """Return when the readings went below the line for good: the last such run's first time."""
    run: list[datetime] = []
    for seen in reversed(batch.ferment):
        if seen.sg is None or seen.sg >= line:
            break
        run.append(seen.at)
    return run[-1:]


def _usual(batch: Batch, line: float) -> Span:
    assert batch.pitch is not None
    days = _USUAL_DAYS.get(line, _USUAL_SHARE_DAYS)
    count = batch.clock.days_after
    early, likely, late = (count(base, day) for base, day in zip(batch.pitch, days, strict=True))
    if batch.last is not None:  # it says that the line is still to be passed
        early, likely = max(early, batch.last.at), max(likely, batch.now)
        late = max(late, count(likely, 1))
    return span(early, likely, late)


def _window(clock: Clock, pitch: datetime, crossing: Crossing) -> Span | None:
    if not crossing.q50_h <= _MOST_DAYS * 24:
        return None
    late = crossing.q90_h
    if not isfinite(late):
        late = crossing.q50_h + _LATEST_DAYS_BEYOND * 24
    early, likely, latest = (
        full_hour(clock.hours_after(pitch, hours))
        for hours in (crossing.q10_h, crossing.q50_h, late)
    )
    return span(early, likely, latest)


def full_hour(at: datetime) -> datetime:
    """Return the nearest full hour: no forecast knows the minute."""
    up = timedelta(hours=at.minute >= 30)
    return at.replace(minute=0, second=0, microsecond=0) + up


def gravity_lines(batch: Batch, forecaster: Forecaster) -> Lines:
    """Return the course of the batch's gravity, asking the forecaster once."""
    if batch.pitch is None:
        return Lines(batch, None)
    return Lines(batch, forecaster(evidence_of(batch), watched(batch), learned(batch.project)))


def watched(batch: Batch) -> tuple[float, ...]:
    """Return the gravities whose passing some step waits for, from high to low."""
    shares = {round(batch.gravity_with_used(share), 4) for share in (1 / 3, 1 / 2)}
    return tuple(sorted(shares | {*NAMES, ALMOST_DRY}, reverse=True))
