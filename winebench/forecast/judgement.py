"""What the forecast says in words: passed, dry, stuck, which reading matters, when to read."""

from __future__ import annotations

from statistics import median

import numpy as np

from winebench.forecast.api import Crossing, Observation, State
from winebench.forecast.case import Case
from winebench.forecast.clock import Floats
from winebench.forecast.posterior import Posterior
from winebench.forecast.quantiles import medians, weighted

READINGS_APART_H = 48.0
DRY_SG = 1.000
STABLE_DIFFERENCE = 0.001
LATER_DIFFERENCE = 0.003
SURELY_LOW = 0.998
MAY_BE_STUCK = 0.5
STUCK = 0.85
SURELY_MOVING = 0.3
STANDSTILL_A_DAY = 0.002
"""Below this a fall over the last readings may be eyesight (common practice)."""
LATELY_H = 100.0
SLOPE_FROM_H = 12.0
SLOW_H = 28 * 24.0
LAST_THREE_SPAN_H = 36.0
SOONEST_H, LATEST_H = 12.0, 72.0
LEAN_SHARE = 0.10
"""Of the width of the band: a reading that moves the date by less is not leaned on."""
MOST_LEANED_ON = 4
WILD = 3.5
"""In standard deviations of what the other readings foretell."""
SLACK = 1e-9


def passed(case: Case, line: float, share: float) -> bool:
    """Tell whether a reading below `line` is borne out by the curve."""
    newest = [o.sg for o in _worked(case)[-2:]]
    if not newest and case.start_h > 0:
        newest = [case.setup.og]
    return share > 0.5 and any(sg < line for sg in newest)


def state(case: Case, chance_stuck: float, dry_h: float) -> State:
    """Return the state of the ferment in the words that the user sees."""
    worked = _worked(case)
    if not worked and case.start_h <= 0:
        return "before pitch"
    if _is_dry(case):
        return "dry"
    if len(worked) < 3 or worked[-1].hours - worked[-3].hours < LAST_THREE_SPAN_H:
        return "fermenting"
    still = _stands_still(worked)
    if still and chance_stuck > STUCK:
        return "stuck"
    if still and chance_stuck > MAY_BE_STUCK:
        return "may be stuck"
    if dry_h > SLOW_H and (not still or chance_stuck < SURELY_MOVING):
        return "slow, not stuck"
    return "fermenting"


def _stands_still(worked: list[Observation]) -> bool:
    """Tell whether the newest readings fall by less than two points a day: what falls faster is
    not stuck, whatever the odds.

    Either the last three say so, or the median of all slopes between readings of the last four days
    (Theil 1950, Sen 1968), which one wild reading does not move.
    """
    newest = worked[-1]
    lately = [o for o in worked if newest.hours - o.hours <= LATELY_H]
    slopes = [
        (first.sg - later.sg) / (later.hours - first.hours) * 24.0
        for at, first in enumerate(lately)
        for later in lately[at + 1 :]
        if later.hours - first.hours >= SLOPE_FROM_H
    ]
    first = worked[-3]
    whole = (first.sg - newest.sg) / (newest.hours - first.hours) * 24.0
    return min([whole] + ([median(slopes)] if slopes else [])) < STANDSTILL_A_DAY


def _worked(case: Case) -> list[Observation]:
    return [o for o in case.readings if o.hours > 0]


def _is_dry(case: Case) -> bool:
    """Tell whether the wine was found dry since sugar last went in, and has stayed so."""
    fed = max((e.hours for e in case.events if e.kind == "sugar"), default=0.0)
    worked = [o for o in _worked(case) if o.hours >= fed]
    return any(
        _settled(worked[:n]) and all(_alike(o, worked[n - 1]) for o in worked[n:])
        for n in range(2, len(worked) + 1)
    )


def _alike(later: Observation, found: Observation) -> bool:
    """Tell whether a later reading leaves a dry wine dry: another day's instrument error is no
    news."""
    return later.sg < DRY_SG and abs(later.sg - found.sg) <= LATER_DIFFERENCE


def _settled(worked: list[Observation]) -> bool:
    """Tell whether two readings 48 h apart, or three if above 0.998, are below 1.000 and alike."""
    tail: list[Observation] = []
    for reading in reversed(worked):
        if reading.sg >= DRY_SG or abs(reading.sg - worked[-1].sg) > STABLE_DIFFERENCE + SLACK:
            break
        tail.append(reading)
    if len(tail) < 2 or tail[0].hours - tail[-1].hours < READINGS_APART_H:
        return False
    return len(tail) >= 3 or tail[0].sg <= SURELY_LOW


def next_reading(case: Case, lines: tuple[Crossing, ...], now: State) -> float | None:
    """Return the hour at which a reading would narrow the next date most: its early end, within
    three days; nothing once dry."""
    if now == "dry":
        return None
    coming = [line.q10_h for line in lines if not line.passed]
    aim = min(coming) if coming else np.inf
    last = case.now + case.start_h
    return round(min(max(aim, last + SOONEST_H), last + LATEST_H), 1)


def leaning(case: Case, dry: Posterior, fall: Floats) -> tuple[int, ...]:
    """Return the readings without which the next date would move most, strongest first."""
    if not case.readings:
        return ()
    weights = dry.sample.weights
    low, middle, high = weighted(np.minimum(fall, 1e5), weights)
    moved = np.abs(medians(np.minimum(fall, 1e5), _without_each(dry)) - middle)
    order = sorted(range(len(moved)), key=lambda i: -moved[i])
    enough = [i for i in order if moved[i] > LEAN_SHARE * (high - low)]
    return tuple(case.index[i] for i in (enough or order[:1])[:MOST_LEANED_ON])


def _without_each(given: Posterior) -> Floats:
    """Return weights as if each reading had not been taken, particle x reading."""
    lifted = -given.terms - (-given.terms).max(axis=0)
    raw = given.sample.weights[:, None] * np.exp(lifted)
    return np.asarray(raw / raw.sum(axis=0))


def wild(case: Case, given: Posterior) -> tuple[int, ...]:
    """Return the readings that the others do not foretell."""
    if len(case.readings) < 3:
        return ()
    hours = np.array([o.hours for o in case.readings])
    sg = np.array([o.sg for o in case.readings])
    curves = given.curves.gravity(hours)
    weights = _without_each(given)
    mean = (weights * curves).sum(axis=0)
    spread = (weights * (curves - mean) ** 2).sum(axis=0)
    off = np.abs(sg - mean) / np.sqrt(spread + case.scales() ** 2)
    return tuple(sorted(case.index[i] for i in np.flatnonzero(off > WILD)))
