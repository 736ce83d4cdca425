"""Score the forecaster on simulated ferments of families it does not fit.

`python -m tests.bench.forecast_bench [--seed N] [--count N] [--family NAME ...]`

Prints, cell by cell, the median absolute error, the share of truths inside the 10-90 % band, its
median width and the mean interval score (Gneiting & Raftery 2007, J. Am. Stat. Assoc. 102:359; the
lower the better), beside three baselines; then arrests found, false alarms and the time of an
update against its numpy floor. Seeds 1-9 and the families `nitrogen` and `ceiling` were used for
tuning; report other seeds. `sigmoid` was looked at once, which made the late tail wider.
"""

from __future__ import annotations

import argparse
import time

import numpy as np

from tests.bench.baselines import BASELINES
from tests.bench.families import FAMILIES, HOURS, cohort
from tests.bench.readings import kitchen_log, true_crossing
from winebench.forecast import Evidence, forecast

LINES = (1.030, 1.000)
DAYS = (1, 2, 3, 4)
KINDS = ("ordinary", "ordinary", "slow-cold", "cold-snap")
ALARMS = ("may be stuck", "stuck")
OUTSIDE = 2 / 0.2
"""Weight of a miss in the interval score of an 80 % band."""


def cells(family: str, seed: int, count: int) -> dict[tuple[float, int], list[dict[str, float]]]:
    """Return one record a ferment whose crossing still lies ahead, by line and day."""
    found: dict[tuple[float, int], list[dict[str, float]]] = {
        (b, d): [] for b in LINES for d in DAYS
    }
    for turn, kind in enumerate(KINDS):
        truth = cohort(family, kind, seed * 10 + turn, count // len(KINDS))
        for row in range(len(truth.sg)):
            due = {below: true_crossing(truth, row, below) for below in LINES}
            for day in DAYS:
                log = kitchen_log(truth, row, day, seed)
                ahead = [b for b in LINES if log.observations[-1].hours < due[b] < 1e9]
                if not ahead:
                    continue
                given = forecast(log, LINES)
                for crossing in given.crossings:
                    if crossing.below in ahead:
                        record = _record(log, crossing, due[crossing.below])
                        found[crossing.below, day].append(record)
    return found


def _record(log: Evidence, crossing, due: float) -> dict[str, float]:
    low, middle, high = (
        min(h, 75 * 24) / 24 for h in (crossing.q10_h, crossing.q50_h, crossing.q90_h)
    )
    truth = due / 24
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


def print_cells(families: list[str], seed: int, count: int) -> None:
    """Print the table, and the cover of all cells together."""
    print("family    line  day    n  error  cover early  width  score | calendar  line  logistic")
    pooled: list[float] = []
    for family in families:
        for (below, day), records in cells(family, seed, count).items():
            if not records:
                continue
            column = {k: np.array([r[k] for r in records]) for k in records[0]}
            pooled.extend(column["inside"])
            print(
                f"{family:9s} {below:.3f} {day:3d} {len(records):5d} "
                f"{np.median(column['error']):6.2f} {column['inside'].mean() * 100:5.0f}% "
                f"{column['below'].mean() * 100:4.0f}% {np.median(column['width']):6.2f} "
                f"{column['score'].mean():6.2f} | "
                + " ".join(f"{np.median(column[name]):8.2f}" for name in BASELINES)
            )
    print(f"pooled cover {np.mean(pooled) * 100:.1f} % of {len(pooled)}")


def print_alarms(families: list[str], seed: int, count: int) -> None:
    """Print how soon an arrest is found, and how often an honest ferment is suspected."""
    for family in families:
        truth = cohort(family, "arrest", seed, count)
        caught = {3: 0, 5: 0}
        arrests = 0
        for row in range(count):
            stop = float(truth.arrested_h[row])
            if truth.sg[row, -1] < 1.003 or np.interp(stop, HOURS, truth.sg[row]) < 1.010:
                continue
            arrests += 1
            for days in caught:
                log = kitchen_log(truth, row, int(np.ceil(stop / 24)) + days, seed)
                caught[days] += forecast(log, LINES).state in ALARMS
        print(f"{family}: of {arrests} arrests found in 3 / 5 days", _percent(caught, arrests))
        for kind in ("slow-cold", "ordinary", "cold-snap"):
            print(
                f"{family}: false alarms, {kind}: {_false_alarms(family, kind, seed, count // 2)}"
            )


def _percent(caught: dict[int, int], of: int) -> str:
    return " / ".join(f"{100 * n / max(of, 1):.0f} %" for n in caught.values())


def _false_alarms(family: str, kind: str, seed: int, count: int) -> str:
    """Look on days 4, 6, 8, 11 and 15 of ferments that do finish; count looks and ferments."""
    truth = cohort(family, kind, seed + 5, count)
    looks = alarms = ferments = alarmed = 0
    for row in range(count):
        due = true_crossing(truth, row, 1.000)
        if due > 45 * 24:
            continue
        ferments += 1
        days = [day for day in (4, 6, 8, 11, 15) if day * 24 < due]
        shown = [forecast(kitchen_log(truth, row, d, seed), LINES).state in ALARMS for d in days]
        looks, alarms, alarmed = looks + len(days), alarms + sum(shown), alarmed + any(shown)
    return f"{alarms} of {looks} looks, {alarmed} of {ferments} ferments"


def print_speed() -> None:
    """Print the time of one update with ten readings, against a bare numpy floor."""
    truth = cohort("ceiling", "ordinary", 99, 4)
    log = kitchen_log(truth, 1, 9, 99)
    forecast(log)
    times = []
    for _ in range(15):
        begin = time.process_time()
        forecast(log)
        times.append(time.process_time() - begin)
    table = np.linspace(0, 1, 1400 * 40).reshape(1400, 40)
    begin = time.process_time()
    np.exp(table).cumsum(axis=1)
    floor = time.process_time() - begin
    print(
        f"one update, ten readings: median {np.median(times) * 1e3:.0f} ms, "
        f"best {min(times) * 1e3:.0f} ms; one table of 1400 curves alone {floor * 1e3:.1f} ms"
    )


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--seed", type=int, default=101)
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--family", nargs="+", choices=sorted(FAMILIES), default=list(FAMILIES))
    parser.add_argument("--only", choices=("cells", "alarms", "speed"))
    asked = parser.parse_args()
    if asked.only in (None, "cells"):
        print_cells(asked.family, asked.seed, asked.count)
    if asked.only in (None, "alarms"):
        print_alarms(asked.family, asked.seed, asked.count // 2)
    if asked.only in (None, "speed"):
        print_speed()


if __name__ == "__main__":
    main()
