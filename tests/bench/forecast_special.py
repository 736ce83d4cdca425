"""Cells beyond plain daily readings: sugar fed, readings missing or wild, a maker's own batches."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from tests.bench.families import Truth, cohort
from tests.bench.forecast_records import DAYS, HEAD, LINES, Cells, in_words, records
from tests.bench.houses import ALIKE, BATCHES
from tests.bench.musts import HOURS
from tests.bench.readings import kitchen_log, true_crossing
from winebench.forecast import Evidence, Finished, finished, learn

GAPS, WILD = 0.35, 0.12
"""Share of days without a reading, and of readings 4 to 10 points off."""
AFTER_H = (18, 42)
"""A told addition is looked at from the first daily reading that follows it by so much."""


def _print(title: str, cells: dict[str, Cells]) -> None:
    print(f"{title}\n{HEAD}")
    for name, found in cells.items():
        for (below, day), rows in found.items():
            if rows:
                print(f"{name:10s} {below:.3f} {day:3d} {in_words(rows)}")


def print_fed(families: list[str], seed: int, count: int) -> None:
    """Print the cells one day after sugar went in and the log was told so.

    Not for `sigmoid`, whose pace goes by time alone, so that sugar fed late would hardly ferment.
    """
    found: dict[str, Cells] = {}
    for family in [family for family in families if family != "sigmoid"]:
        truth = cohort(family, "fed", seed, count)
        cells: Cells = {(below, 1): [] for below in LINES}
        for row in range(count):
            day = int(np.ceil((truth.fed_h[row] + AFTER_H[0] + 3) / 24))
            log = kitchen_log(truth, row, day, seed)
            if log.observations[-1].hours > truth.fed_h[row] + AFTER_H[0]:
                for below, record in records(truth, row, log):
                    cells[below, 1].append(record)
        found[family] = cells
    _print("the day after a told addition of 15 to 35 g/L on day 2.5 to 4.6", found)


def print_gaps(families: list[str], seed: int, count: int) -> None:
    """Print the cells where a third of the days lack a reading and an eighth are wild."""
    found: dict[str, Cells] = {}
    for family in families:
        truth = cohort(family, "ordinary", seed + 3, count)
        cells: Cells = {(below, day): [] for below in LINES for day in DAYS}
        for row in range(count):
            for day in DAYS:
                log = kitchen_log(truth, row, day, seed, GAPS, WILD)
                if len(log.observations) < 2:
                    continue  # nothing was read since the pitch
                for below, record in records(truth, row, log):
                    cells[below, day].append(record)
        found[family] = cells
    _print(f"{GAPS:.0%} of the days without a reading, {WILD:.0%} of the readings wild", found)


def print_houses(families: list[str], seed: int, count: int) -> None:
    """Print each maker's sixth batch, without and with what the five before it taught."""
    found: dict[str, Cells] = {}
    for family in families:
        truth = cohort(family, "houses", seed, count * BATCHES)
        alone: Cells = {(below, day): [] for below in LINES for day in DAYS}
        taught: Cells = {(below, day): [] for below in LINES for day in DAYS}
        for last in range(BATCHES - 1, len(truth.sg), BATCHES):
            own = learn(_past(truth, last, seed))
            for day in DAYS:
                log = kitchen_log(truth, last, day, seed)
                for cells, learned in ((alone, None), (taught, own)):
                    for below, record in records(truth, last, log, learned):
                        cells[below, day].append(record)
        found |= {f"{family[:5]} none": alone, f"{family[:5]} five": taught}
    _print(f"a maker's sixth batch; of its variance {ALIKE:.0%} is the maker's", found)


def _past(truth: Truth, last: int, seed: int) -> Iterator[Finished]:
    """Give what the five batches before `last` taught, those that finished within eight weeks."""
    for row in range(last - BATCHES + 1, last):
        due = true_crossing(truth, row, 1.000)
        if due < 56 * 24:
            yield finished(_whole_log(truth, row, due, seed))


def _whole_log(truth: Truth, row: int, due: float, seed: int) -> Evidence:
    end = HOURS[-1] / 24 - 1
    return kitchen_log(truth, row, int(min(due / 24 + 4, end)), seed)
