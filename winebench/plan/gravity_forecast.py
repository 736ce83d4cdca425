"""The project's readings as evidence, and the forecast as dates and sentences."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import isfinite
from typing import TYPE_CHECKING

from winebench.forecast.api import Crossing, Evidence, Forecast, State
from winebench.plan.days import (
    MONTHS,
    Clock,
    hour_words,
    part_of_day,
    rough_words,
    short_date,
    weekday,
)
from winebench.plan.evidence import evidence_of
from winebench.plan.learning.own_ferments import learned, learned_words
from winebench.plan.outlook import CrossingOutlook, ForecastOutlook
from winebench.plan.steps.rule import Basis, Span, span
from winebench.plan.stuck.standstill import accepted, accepted_at, stuck

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
FEED_FROM = 1.020
FEED_UNTIL = 1.010
NEARLY_DRY = 1.000
_NAMES = {
    TO_GLASS: "rack to glass",
    FEED_FROM: "feed from here",
    FEED_UNTIL: "feed until here",
    NEARLY_DRY: "nearly dry",
}
# Days from the pitch at about 20 °C (common practice), used only until a forecast is there.
_USUAL_DAYS = {
    TO_GLASS: (4, 6, 10), FEED_FROM: (4, 7, 11), FEED_UNTIL: (5, 9, 14), NEARLY_DRY: (8, 14, 30),
}  # fmt: skip
_USUAL_SHARE_DAYS = (2, 4, 6)
_LATEST_DAYS_BEYOND = 60.0


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

    def no_date(self, line: float) -> str:
        """Return why there is no date for passing that line."""
        if self.stands_still:
            return "The ferment stands still, so there is no honest date; see to that first."
        return f"The forecast does not see the gravity pass {line:.3f}, so there is no honest date."

    def below(self, line: float) -> Passing | None:
        """Return when the gravity passes below the line; None where no date is honest."""
        batch = self.batch
        first = next((s for s in _first_run_below(batch, line)), None)
        if first is not None:
            return Passing(Span(first, first, first), "reading", True)
        left = accepted_at(batch)
        if left is not None:
            return Passing(Span(left, left, left), "reading", True)
        if batch.pitch is None or self.stands_still:
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
        if batch.pitch is None or self.stands_still:
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
    if not isfinite(crossing.q50_h):
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
    return tuple(sorted(shares | set(_NAMES), reverse=True))


# --- words ------------------------------------------------------------------------------------


LEAST_FORETOLD = 1.020
"""Below this gravity there is nothing to ferment that a plan could follow."""


def forecast_outlook(batch: Batch) -> ForecastOutlook | None:
    """Return the forecast as it is shown, or None where there is none yet.

    A recipe without sugar has no course to foretell, until somebody reads its must.
    """
    found, pitched = batch.lines.forecast, batch.pitch
    if found is None or pitched is None:
        return None
    if batch.pitched is None and batch.original_gravity < LEAST_FORETOLD:
        return None
    pitch = pitched.likely
    clock = batch.clock
    crossings = [_crossing(batch, line) for line in _NAMES]
    known = tuple(crossing for crossing in crossings if crossing is not None)
    return ForecastOutlook(
        times=tuple(clock.hours_after(pitch, hours) for hours in found.curve.h),
        low=found.curve.q10,
        middle=found.curve.q50,
        high=found.curve.q90,
        crossings=known,
        not_finishing=found.not_finishing,
        state=_state(batch, found),
        sentence=_sentence(batch, found, known),
        learned=learned_words(batch.project),
        going_by=_going_by(batch, found),
        supported=bool(batch.gravities),
        next_reading=batch.next_reading,
    )


def _crossing(batch: Batch, line: float) -> CrossingOutlook | None:
    passing = batch.lines.below(line)
    never = accepted(batch) is not None and (batch.last_sg or 0.0) >= line
    if passing is None or never:
        return None
    early, likely, late = passing.window
    return CrossingOutlook(
        below=line,
        name=_NAMES[line],
        earliest=early,
        likely=likely,
        latest=late,
        passed=passing.passed,
        sentence=crossing_words(line, passing, batch.now),
    )


def crossing_words(line: float, passing: Passing, now: datetime) -> str:
    """Return like "1.030 about Friday evening, between Thursday noon and Sunday · check Friday"."""
    early, likely, late = passing.window
    if passing.passed:
        return f"{line:.3f} was passed by {hour_words(likely, now)}"
    if late < now:
        return f"{line:.3f} has probably been passed · check today"
    near = (late.date() - now.date()).days < 6 and early > now
    if near:
        between = f"between {rough_words(early)} and {rough_words(late)}"
        return f"{line:.3f} about {rough_words(likely)}, {between} · check {weekday(likely)}"
    if (late - early).days < 6 and (likely.date() - now.date()).days < 14:
        days = f"between {short_date(early)} and {short_date(late)}"
        return f"{line:.3f} about {short_date(likely)}, {part_of_day(likely)}, {days}"
    return f"{line:.3f} about {_date(likely)}, between {_date(early)} and {_date(late)}"


def _date(at: datetime) -> str:
    return f"{at.day} {MONTHS[at.month - 1]}"


_UNREAD = "The yeast is in; no reading shows yet what it does"
_STATE_WORDS = {
    "before pitch": "Before the yeast is in, this is what such musts do",
    "fermenting": "It ferments as it should",
    "slow, not stuck": "It is slow, but it is not stuck",
    "may be stuck": "It may be slowing to a stop: read it again before doing anything",
    "stuck": "It is stuck by all that the readings say",
    "dry": "It has fermented out, by the readings",
}


def _sentence(batch: Batch, found: Forecast, known: tuple[CrossingOutlook, ...]) -> str:
    left = accepted(batch)
    if left is not None:
        return f"It was left sweet at {left:.3f}; it must not move any more."
    state = _state(batch, found)
    unread = batch.pitched is not None and not batch.gravities
    words = [_UNREAD if unread else _STATE_WORDS[state]]
    coming = [c for c in known if not c.passed and c.below in (TO_GLASS, NEARLY_DRY)]
    if coming and state not in ("stuck", "dry"):
        words.append(coming[0].sentence.split(" · ")[0])
    if found.not_finishing >= 0.05 and found.state != "dry":
        words.append(f"{_chance(found.not_finishing)} that it stops before it is dry")
    words.append(_going_by(batch, found))
    return "; ".join(filter(None, words)) + "."


def _going_by(batch: Batch, found: Forecast) -> str:
    """Return what was learned in short, while it still bears on a date."""
    own = learned(batch.project)
    over = accepted(batch) is not None or _state(batch, found) in ("stuck", "dry")
    return "" if own is None or over else own.in_short


def _state(batch: Batch, found: Forecast) -> State:
    """Return the forecast's state; stuck once the readings have stood still for four days."""
    if stuck(batch) is not None:
        return "stuck"
    return "may be stuck" if found.state == "stuck" else found.state


def _chance(share: float) -> str:
    return f"a chance of 1 in {round(1 / share)}" if share < 0.4 else f"{share:.0%} likely"
