"""What daily readings can tell at best: the posterior under the true kinetics, beside the forecast.

`python -m tests.bench.forecast_floor [--seed N] [--count N] [--curves N]`

For each ferment, many curves of each family are drawn for the must that the maker knows (gravity
and room) and weighed by its readings. Printed for each family, day by day: the median absolute
error at each line of the forecast; of the posterior under the ferment's own family (nobody can do
better but by chance); under all families, told apart by the readings; and under all but its own,
which is what someone could reach who knew the five others exactly.
"""

from __future__ import annotations

import argparse
from dataclasses import replace

import numpy as np

from tests.bench.families import FAMILIES, Truth, cohort
from tests.bench.forecast_records import DAYS, LINES
from tests.bench.musts import HOURS, draw_conditions
from tests.bench.readings import kitchen_log, true_crossing
from winebench.forecast import Evidence, forecast

OG_SD = 0.002
ERROR_SD, DEGREES = 0.0017, 4.0
"""Of a reading, with its rounding, as Student-t: one in thirty is wild."""
LEAST_EFFECTIVE = 25
WAYS = ("forecast", "own", "all", "others")


def possible(family: str, setup, rng: np.random.Generator, curves: int):
    """Return gravities on `HOURS` and the crossing of each line of possible curves of a must."""
    c = draw_conditions(rng, curves, "ordinary")
    room = np.full(curves, float(setup.room_celsius)) + rng.uniform(-0.5, 0.5, curves)
    known = replace(
        c,
        og=setup.og + rng.normal(0, OG_SD, curves),
        room=room,
        must_celsius=c.must_celsius + (room - c.room)[:, None],
    )
    never = np.full(curves, np.inf)
    with np.errstate(invalid="ignore"):  # what has no end times what is used up
        sg, musts = FAMILIES[family](rng, known, never)
    truth = Truth(family, sg, musts, room, known.og, never, known.fed_h, known.fed_g_per_l)
    falls = [[true_crossing(truth, row, line) for row in range(curves)] for line in LINES]
    return sg, np.array(falls)


def weighed(sg: np.ndarray, log: Evidence) -> tuple[float, np.ndarray]:
    """Return the log evidence of the readings, and the weights of the curves.

    Where only a handful would count, the readings are trusted less.
    """
    fit = np.zeros(len(sg))
    for o in log.observations:
        at = int(o.hours / HOURS[1])
        share = o.hours / HOURS[1] - at
        read = sg[:, at] + (sg[:, at + 1] - sg[:, at]) * share
        fit -= 0.5 * (DEGREES + 1) * np.log1p(((o.sg - read) / ERROR_SD) ** 2 / DEGREES)
    best, trust = fit.max(), 1.0
    weights = np.exp(fit - best)
    evidence = float(best + np.log(weights.mean()))
    while weights.sum() ** 2 / (weights @ weights) < LEAST_EFFECTIVE and trust > 0.2:
        trust *= 0.85
        weights = np.exp(trust * (fit - best))
    return evidence, weights / weights.sum()


def median_of(falls: list[np.ndarray], weights: list[np.ndarray], evidence: list[float]) -> float:
    """Return the median of what crosses at all, over families weighed by their evidence."""
    shares = np.exp(np.array(evidence) - max(evidence))
    fall = np.concatenate(falls)
    weight = np.concatenate([w * share for w, share in zip(weights, shares, strict=True)])
    weight = np.where(np.isfinite(fall), weight, 0.0)
    order = np.argsort(fall)
    running = weight[order].cumsum()
    return float(fall[order][min(np.searchsorted(running, running[-1] / 2), len(fall) - 1)])


def errors(family: str, seed: int, count: int, curves: int) -> dict[tuple[str, float, int], list]:
    """Return the absolute errors in days, by way, line and day."""
    found: dict[tuple[str, float, int], list] = {}
    truth = cohort(family, "ordinary", seed * 10, count)
    for row in range(count):
        logs = {day: kitchen_log(truth, row, day, seed) for day in DAYS}
        rng = np.random.default_rng([seed, row])
        drawn = {name: possible(name, logs[1].setup, rng, curves) for name in FAMILIES}
        for day, log in logs.items():
            by = {name: weighed(sg, log) for name, (sg, _) in drawn.items()}
            said = forecast(log, LINES).crossings
            names = {
                "own": [family],
                "all": list(FAMILIES),
                "others": [name for name in FAMILIES if name != family],
            }
            for at, line in enumerate(LINES):
                due = true_crossing(truth, row, line)
                if not log.observations[-1].hours < due < np.inf:
                    continue
                medians = {"forecast": said[at].q50_h}
                for way, use in names.items():
                    medians[way] = median_of(
                        [drawn[n][1][at] for n in use],
                        [by[n][1] for n in use],
                        [by[n][0] for n in use],
                    )
                for way, median in medians.items():
                    found.setdefault((way, line, day), []).append(abs(median - due) / 24)
    return found


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--seed", type=int, default=1511)
    parser.add_argument("--count", type=int, default=12)
    parser.add_argument("--curves", type=int, default=1500)
    asked = parser.parse_args()
    every: dict[tuple[str, float, int], list[float]] = {}
    for family in FAMILIES:
        found = errors(family, asked.seed, asked.count, asked.curves)
        for line in LINES:
            for way in WAYS:
                cells = [float(np.median(found.get((way, line, day), [np.nan]))) for day in DAYS]
                for day, error in zip(DAYS, cells, strict=True):
                    every.setdefault((way, line, day), []).append(error)
                print(f"{family:11s} {line:.3f} {way:8s} " + " / ".join(f"{e:.2f}" for e in cells))
    for line in LINES:
        for way in WAYS:
            means = [float(np.nanmean(every[way, line, day])) for day in DAYS]
            print(f"{'mean':11s} {line:.3f} {way:8s} " + " / ".join(f"{e:.2f}" for e in means))


if __name__ == "__main__":
    main()
