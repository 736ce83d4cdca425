"""What a kitchen would have read off a true curve: noise, rounding, gaps, wild readings."""

from __future__ import annotations

import numpy as np

from tests.bench.families import Truth
from tests.bench.musts import HOURS
from winebench.forecast import Event, Evidence, Observation, Setup

NOISE = 0.0015
WILD_SHARE = 0.03


def true_crossing(truth: Truth, row: int, below: float) -> float:
    """Return the hour of the last true crossing, inf if there is none: sugar may lift it again."""
    under = truth.sg[row] < below
    under &= (truth.fed_h[row] < HOURS) | np.isinf(truth.fed_h[row])
    if not under.any():
        return float("inf")
    at = int(under.argmax())
    if at == 0:
        return 0.0
    high, low = truth.sg[row, at - 1], truth.sg[row, at]
    return float(HOURS[at - 1] + (high - below) / (high - low) * (HOURS[at] - HOURS[at - 1]))


def kitchen_log(
    truth: Truth, row: int, days: int, seed: int, gaps: float = 0.0, wild_share: float = WILD_SHARE
) -> Evidence:
    """Return the log of one ferment with a reading a day to day `days`, and what it was fed.

    `gaps` is the share of days without a reading.
    """
    rng = np.random.default_rng([seed, row, 77])
    logs_celsius = rng.random() < 0.5
    step = 0.001 if rng.random() < 0.7 else 0.002
    observations = []
    for day in range(days + 1):
        hour = max(day * 24 + float(rng.uniform(-3, 3)), 0.0) if day else 0.0
        noise, wild = rng.normal(0, NOISE), rng.random() < wild_share
        slip = rng.choice([-1, 1]) * rng.uniform(0.004, 0.010)
        missing = rng.random() < gaps
        if day and missing:
            continue
        sg = float(np.interp(hour, HOURS, truth.sg[row])) + noise + (slip if wild else 0.0)
        must = float(np.interp(hour, HOURS, truth.must_celsius[row]))
        celsius = round(must + rng.normal(0, 0.4), 1) if logs_celsius else None
        observations.append(Observation(hour, round(round(sg / step) * step, 4), celsius))
    setup = Setup(round(float(truth.og_plan[row]), 3), room_celsius=round(float(truth.room[row])))
    fed_h = float(truth.fed_h[row])
    told = observations and fed_h < observations[-1].hours
    fed = (Event(fed_h, "sugar", round(float(truth.fed_g_per_l[row]))),) if told else ()
    return Evidence(setup, tuple(observations), fed)
