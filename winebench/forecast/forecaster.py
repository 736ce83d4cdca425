"""Put the forecast together: the same path for no reading, one and many."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from winebench.forecast.api import Crossing, Curve, Evidence, Forecast
from winebench.forecast.case import Case, put_in_order
from winebench.forecast.clock import Floats
from winebench.forecast.judgement import (
    DRY_SG,
    READINGS_APART_H,
    leaning,
    next_reading,
    passed,
    state,
    wild,
)
from winebench.forecast.learned import Learned
from winebench.forecast.posterior import Ahead, Posterior, chance_of_stuck, weigh
from winebench.forecast.quantiles import systematic, weighted

STILL_SG = 0.001
"""The most that a wine may fall in 48 h and still be called stable."""
HALVINGS = 14
CURVE_POINTS = 110
CURVE_H = 960.0
FAN_CURVES = 256
NARROWEST_H = 1.0
"""No band is ever narrower, on either side of its middle."""


def forecast(
    evidence: Evidence,
    below: tuple[float, ...] = (1.030, 1.000),
    learned: Learned | None = None,
) -> Forecast:
    """Return when the gravity falls below each of `below`, and all else the readings tell.

    `learned` is what the maker's own finished ferments say; without it the usual prior holds.
    """
    case = put_in_order(evidence)
    dry, stuck = weigh(case, "dry", learned), weigh(case, "stuck", learned)
    chance = chance_of_stuck(case, dry, stuck)
    ahead = Ahead(case, dry)
    falls = [ahead.stretch(dry.curves.crossing(line)) for line in below]
    crossings = tuple(
        _crossing(line, fall, dry, case) for line, fall in zip(below, falls, strict=True)
    )
    still = _still_from(case, dry, ahead)
    dry_line = _crossing(DRY_SG, still, dry, case)
    stable_line = _crossing(DRY_SG, still + READINGS_APART_H, dry, case)
    now = state(case, chance, dry_line.q50_h - case.start_h)
    done = now == "dry"
    dry_line = _with_passed(dry_line, done)
    stable_line = _with_passed(stable_line, done)
    coming = [fall for fall, line in zip(falls, crossings, strict=True) if not line.passed]
    likelier = stuck if chance > 0.5 else dry
    finishing, mixed = _curves(case, dry, stuck, ahead, chance)
    return Forecast(
        crossings=crossings,
        dry=dry_line,
        stable=stable_line,
        not_finishing=round(chance, 4),
        state=now,
        next_reading_h=next_reading(case, (*crossings, dry_line), now),
        curve=finishing,
        curve_or_stop=mixed,
        leans_on=leaning(case, dry, coming[0] if coming else still),
        outliers=wild(case, likelier),
        expected_final_sg=round(float(dry.sample.weights @ dry.curves.end), 4),
    )


@lru_cache(maxsize=256)
def cached_forecast(
    evidence: Evidence,
    below: tuple[float, ...] = (1.030, 1.000),
    learned: Learned | None = None,
) -> Forecast:
    """Return `forecast(evidence, below, learned)`, remembered for the newest few hundred logs."""
    return forecast(evidence, below, learned)


def gravity_at(given: Forecast, hours: float) -> tuple[float, float, float]:
    """Return the 10, 50 and 90 % gravity to expect at `hours` since the pitch."""
    curve = given.curve
    low, middle, high = (
        float(np.interp(hours, curve.h, line)) for line in (curve.q10, curve.q50, curve.q90)
    )
    return low, middle, high


def _crossing(line: float, fall: Floats, dry: Posterior, case: Case) -> Crossing:
    weights = dry.sample.weights
    low, middle, high = weighted(fall, weights)
    share = float(weights[fall <= case.now].sum())
    gone = passed(case, line, share)
    middle = max(middle, NARROWEST_H)
    low, high = min(low, middle - NARROWEST_H), max(high, middle + NARROWEST_H)
    start = case.start_h
    return Crossing(
        below=line,
        q10_h=round(max(low, 0.0) + start, 2),
        q50_h=round(max(middle, 0.0) + start, 2),
        q90_h=round(max(high, 0.0) + start, 2),
        passed=gone,
    )


def _with_passed(line: Crossing, done: bool) -> Crossing:
    return Crossing(line.below, line.q10_h, line.q50_h, line.q90_h, done)


def _still_from(case: Case, dry: Posterior, ahead: Ahead) -> Floats:
    """Return when each curve is below 1.000 with less than 0.001 to fall in 48 h."""
    curves = dry.curves
    crossed = ahead.stretch(curves.crossing(DRY_SG))
    piece = curves.stretches[-1]
    # By the curve's own equation a small fall at R left takes the work
    # (kappa ln(R / (R - fall)) + (1 + burst' + drag max(1 - R / knee, 0)) fall) exp(gamma D / 0.1)
    # / rate, burst' what the end of the burst slows by then: the more the less is left; halving
    # finds where it comes to 48 h.
    p = curves.p
    deep = np.exp(-curves.slow * (piece.drop + piece.left))
    given = READINGS_APART_H * curves.clock.rates[:, -1] * piece.rate * deep / ahead.tail
    whole = (piece.drop + piece.left) ** 2
    plain = 1 + p.burst * whole / (whole + p.break_**2)
    left, moving = np.full_like(given, 1.001 * STILL_SG), np.maximum(piece.left, STILL_SG)
    for _ in range(HALVINGS):
        between = (left + moving) / 2
        drag = plain + p.drag * np.maximum(1 - between / p.knee, 0)
        work = drag * STILL_SG - p.kappa * np.log1p(-STILL_SG / between)
        still = work >= given
        left, moving = np.where(still, between, left), np.where(still, moving, between)
    left = np.minimum(left, piece.left)
    settled = ahead.stretch(curves.hour_of_drop(piece, piece.drop + piece.left - left))
    return np.maximum(crossed, settled)


def _curves(
    case: Case, dry: Posterior, stuck: Posterior, ahead: Ahead, chance: float
) -> tuple[Curve, Curve]:
    """Return the curve of finishing, and the one mixed with stopping, which has this `chance`."""
    last = max(CURVE_H, case.now + 336)
    hours = last * (np.arange(CURVE_POINTS) / (CURVE_POINTS - 1)) ** 1.5
    rows = systematic(dry.sample.weights, FAN_CURVES)
    finishing = dry.curves.rows(rows).gravity(ahead.shrink(hours[None, :], rows))
    at = hours + case.start_h
    stopping = round(chance * FAN_CURVES)
    if not stopping:
        same = _fan(at, finishing)
        return same, same
    rows = systematic(stuck.sample.weights, stopping)
    kept = _evenly(FAN_CURVES - stopping)
    mixed = np.concatenate([finishing[kept], stuck.curves.rows(rows).gravity(hours)])
    return _fan(at, finishing), _fan(at, mixed)


def _evenly(count: int) -> np.ndarray:
    return ((np.arange(count) + 0.5) * FAN_CURVES / max(count, 1)).astype(np.intp)


def _fan(at: Floats, sg: Floats) -> Curve:
    """Return the 10, 50 and 90 % lines of equally likely curves, one a row."""
    ordered = np.sort(sg, axis=0)
    low, middle, high = (ordered[round(share * (len(sg) - 1))] for share in (0.1, 0.5, 0.9))
    return Curve(
        h=tuple(np.round(at, 2).tolist()),
        q10=tuple(np.round(low, 5).tolist()),
        q50=tuple(np.round(middle, 5).tolist()),
        q90=tuple(np.round(high, 5).tolist()),
    )
