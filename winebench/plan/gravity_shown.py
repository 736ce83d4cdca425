"""The forecast as it is shown: the curve with its band, when lines are passed, and in words."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, NamedTuple

from winebench.forecast.api import Forecast, State
from winebench.plan.days import (
    MONTHS,
    hour_words,
    part_of_day,
    rough_words,
    short_date,
    weekday,
)
from winebench.plan.gravity_forecast import FEED_FROM, NAMES, NEARLY_DRY, TO_GLASS, Passing
from winebench.plan.learning.own_ferments import learned, learned_words
from winebench.plan.outlook import CrossingOutlook, ForecastOutlook
from winebench.plan.stuck.standstill import accepted, stuck
from winebench.plan.stuck.sweet_end import SweetEnd

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

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
    fan = _fan(batch, found)
    crossings = [_crossing(batch, line) for line in NAMES]
    known = tuple(crossing for crossing in crossings if crossing is not None)
    return ForecastOutlook(
        times=tuple(clock.hours_after(pitch, hours) for hours in found.curve.h),
        low=fan.low,
        middle=fan.middle,
        high=fan.high,
        crossings=known,
        not_finishing=_not_finishing(batch, found),
        state=_state(batch, found),
        sentence=_sentence(batch, found, known),
        learned=learned_words(batch.project),
        going_by=_going_by(batch, found),
        may_end_at=None if batch.sweet_end is None else batch.sweet_end.at,
        supported=bool(batch.gravities),
        next_reading=batch.next_reading,
    )


class _Fan(NamedTuple):
    """The three lines of the curve as they are drawn."""

    low: tuple[float, ...]
    middle: tuple[float, ...]
    high: tuple[float, ...]


def _fan(batch: Batch, found: Forecast) -> _Fan:
    """Return the curve: as if it finishes, but with both ways where it may not.

    Where the ferment stands still, the middle goes on where the gravity stands, and the lower edge
    is the likely course if it goes on again.
    """
    both, last, pitch = found.curve_or_stop, batch.last, batch.pitch
    if batch.lines.stands_still and last is not None and last.sg is not None and pitch is not None:
        level = last.sg
        read = (last.at - pitch.likely).total_seconds() / 3600
        rows = zip(found.curve.h, found.curve.q50, both.q10, both.q50, both.q90, strict=True)
        lines = [
            (low, middle, high) if h < read else (min(on, level), level, max(high, level))
            for h, on, low, middle, high in rows
        ]
        return _Fan(*zip(*lines, strict=True))
    fan = both if batch.lines.may_stop else found.curve
    return _stopped(batch.sweet_end, _Fan(fan.q10, fan.q50, fan.q90))


def _stopped(end: SweetEnd | None, fan: _Fan) -> _Fan:
    """Return the curve with the limit of its yeast: no lower than there where that is likely."""
    if end is None:
        return fan
    # Sugar still to be fed lifts it once it is low enough; until then it falls as it will.
    until = FEED_FROM if end.to_feed else 2.0
    middle, high = (tuple(max(sg, end.sg) if sg < until else sg for sg in x) for x in fan[1:])
    return _Fan(fan.low, middle if end.likely else fan.middle, high)


def _not_finishing(batch: Batch, found: Forecast) -> float:
    """Return the chance of stopping: as the readings say, or at the limit of the yeast."""
    end = batch.sweet_end
    if end is None:
        return found.not_finishing
    return round(1.0 - (1.0 - found.not_finishing) * (1.0 - end.chance), 4)


def _crossing(batch: Batch, line: float) -> CrossingOutlook | None:
    passing = batch.lines.below(line)
    never = accepted(batch) is not None and (batch.last_sg or 0.0) >= line
    if passing is None or never:
        return None
    early, likely, late = passing.window
    return CrossingOutlook(
        below=line,
        name=NAMES[line],
        earliest=early,
        likely=likely,
        latest=late,
        passed=passing.passed,
        sentence=_beyond_limit(batch, line, crossing_words(line, passing, batch.now)),
    )


def _beyond_limit(batch: Batch, line: float, sentence: str) -> str:
    """Return the sentence with its condition, where the yeast's limit lies above that line."""
    end = batch.sweet_end
    if end is None or not batch.lines.limit_above(line):
        return sentence
    when, dot, check = sentence.partition(" · ")
    return f"{when}, if the yeast goes beyond its {end.limit:g} %{dot}{check}"


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


_LIKELY_TO_STOP = 0.4
"""From this chance on that it stops, "as it should" would not be true."""
_MAY_STOP = "It ferments on, but may stop before its end"
_UNREAD = "The yeast is in; no reading shows yet what it does"
_STATE_WORDS = {
    "before pitch": "Before the yeast is in, this is what such musts do",
    "fermenting": "It ferments as it should",
    "slow, not stuck": "It is slow, but it is not stuck",
    "may be stuck": "It may be slowing to a stop: read it again before any cure; the dates "
    "hold only if it goes on",
    "stuck": "It is stuck by all that the readings say; the curve stays where it stands, and its "
    "lower edge falls as it would if it went on",
    "dry": "It has fermented out, by the readings",
}


def _sentence(batch: Batch, found: Forecast, known: tuple[CrossingOutlook, ...]) -> str:
    left = accepted(batch)
    if left is not None:
        return f"It was left sweet at {left:.3f}; it must not move any more."
    state = _state(batch, found)
    unread = batch.pitched is not None and not batch.gravities
    words = [_UNREAD if unread else _STATE_WORDS[state]]
    stops, end = _not_finishing(batch, found), batch.sweet_end
    if state == "fermenting" and not unread and stops >= _LIKELY_TO_STOP:
        words = [_MAY_STOP]
    coming = [c for c in known if not c.passed and c.below in (TO_GLASS, NEARLY_DRY)]
    if coming and state not in ("stuck", "dry"):
        words.append(coming[0].sentence.split(" · ")[0])
    if end is not None and state not in ("stuck", "dry"):
        words.append(f"the sugar makes {end.strength:.1f} %, and {end.words}")
    if stops >= 0.05 and found.state != "dry":
        words.append(f"{_chance(stops)} that it stops before it is dry")
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
    if share < 0.4:
        return f"a chance of 1 in {round(1 / share)}"
    return f"{100 * share:.0f} % likely" if share < 0.95 else "more than 95 % likely"
