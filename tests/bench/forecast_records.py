"""One forecast against its truth, and many of them in one line."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from tests.bench.baselines import BASELINES
from tests.bench.families import Truth
from tests.bench.readings import true_crossing
from winebench.forecast import Crossing, Evidence, Learned, forecast

LINES = (1.030, 1.000)
DAYS = (1, 2, 3, 4)
LATEST_DAY = 75.0
OUTSIDE = 2 / 0.2
"""Weight of a miss in the interval score of an 80 % band."""

Record = dict[str, float]
Cells = dict[tuple[float, int], list[Record]]

HEAD = "family      line  day    n  error  cover early  width  score | calendar  line  logistic"


def records(
    truth: Truth, row: int, log: Evidence, learned: Learned | None = None
) -> Iterator[tuple[float, Record]]:
    """Give the record of each line that lies ahead of the newest reading."""
    newest = log.observations[-1].hours
    due = {below: true_crossing(truth, row, below) for below in LINES}
    if not any(newest < hour < np.inf for hour in due.values()):
        return
    for crossing in forecast(log, LINES, learned).crossings:
        if newest < due[crossing.below] < np.inf:
            yield crossing.below, _record(log, crossing, due[crossing.below] / 24)


def _record(log: Evidence, crossing: Crossing, truth: float) -> Record:
    low, middle, high = (
        min(hours / 24, LATEST_DAY) for hours in (crossing.q10_h, crossing.q50_h, crossing.q90_h)
    )
    record = {
        "error": abs(middle - truth),
        "inside": float(low <= truth <= high),
        "below": float(truth < low),
        "width": high - low,
        "score": high - low + OUTSIDE * (max(low - truth, 0) + max(truth - high, 0)),
    }
    for name, guess in BASELINES.items():
        record[name] = abs(guess(log, crossing.below) / 24 - truth)
    return record


def in_words(found: list[Record]) -> str:
    """Return the figures of many records in the columns of `HEAD`."""
    column = {key: np.array([record[key] for record in found]) for key in found[0]}
    return (
        f"{len(found):5d} {np.median(column['error']):6.2f} {column['inside'].mean() * 100:5.0f}% "
        f"{column['below'].mean() * 100:4.0f}% {np.median(column['width']):6.2f} "
        f"{column['score'].mean():6.2f} | "
        + " ".join(f"{np.median(column[name]):8.2f}" for name in BASELINES)
    )
