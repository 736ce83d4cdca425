"""Three plain ways to guess the same dates, to be beaten."""

from __future__ import annotations

import numpy as np

from winebench.forecast import Evidence

CALENDAR_H = {1.030: 5 * 24.0, 1.000: 21 * 24.0}
"""Lift the fruit on day 5, dry after three weeks (common practice)."""
LATEST_H = 75 * 24.0


def calendar(evidence: Evidence, below: float) -> float:
    return CALENDAR_H[below]


def line(evidence: Evidence, below: float) -> float:
    """Straight through the last two readings; the calendar's guess where it does not fall."""
    before, last = evidence.observations[-2:]
    pace = (before.sg - last.sg) / (last.hours - before.hours)
    if pace <= 0:
        return LATEST_H
    return min(last.hours + max(last.sg - below, 0) / pace, LATEST_H)


def logistic(evidence: Evidence, below: float) -> float:
    """Least squares of a logistic fall to 0.993 over a grid of middle and pace."""
    hours = np.array([o.hours for o in evidence.observations])
    sg = np.array([o.sg for o in evidence.observations])
    og, end = evidence.setup.og, 0.993
    middle = np.linspace(24, 400, 95)[:, None, None]
    pace = np.geomspace(6, 120, 40)[None, :, None]
    fall = (og - end) / (1 + np.exp(np.clip(-(hours - middle) / pace, -50, 50)))
    miss = ((og - fall - sg) ** 2).sum(axis=2)
    i, j = np.unravel_index(miss.argmin(), miss.shape)
    share = (og - below) / (og - end)
    return float(min(middle[i, 0, 0] + pace[0, j, 0] * np.log(share / (1 - share)), LATEST_H))


BASELINES = {"calendar": calendar, "line": line, "logistic": logistic}
