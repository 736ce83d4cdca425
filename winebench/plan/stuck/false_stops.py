"""Clues that nothing stands still at all: the reading, the fruit's extract, sugar on the floor."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from winebench.model.recipe import SugarLine
from winebench.plan.as_read import end_words
from winebench.plan.days import day_words
from winebench.plan.readings import HOTTEST_SAMPLE_CELSIUS, LARGEST_RISE, SUGAR_IN, Seen
from winebench.plan.stuck.clue import Clue
from winebench.plan.stuck.standstill import STUCK_ABOVE_DRY

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

COLDEST_SAMPLE_CELSIUS = 10.0
"""A colder sample is hardly to be corrected (common practice)."""
GAS_LIFTS = 0.005
"""Bubbles lift a hydrometer by two to five points (common practice)."""
MUST_SHORT = 0.005
"""So far below its recipe a must was hardly stirred up when it was read (common practice)."""


def false_stops(batch: Batch, run: tuple[Seen, ...]) -> tuple[Clue, ...]:
    """Return the clues that the readings deceive, in the order in which to look.

    `run` is the readings that stand still or drag, oldest first, the last one of the wine at its
    end.
    """
    return (
        _instrument(run),
        _sample_warmth(batch, run[-1]),
        _gas(batch, run[-1]),
        _extract(batch, run[-1]),
        _sugar_on_the_floor(batch),
    )


def _instrument(run: tuple[Seen, ...]) -> Clue:
    in_brix = [s for s in run if s.reading.gravity and s.reading.gravity.scale != "SG"]
    if in_brix:
        text = (
            f"{in_brix[-1].outlook.raw} looks like one's, and a dry wine shows 6 to 8 °Brix; "
            "read it by hydrometer."
        )
        return Clue("instrument", "Refractometer", True, text)
    text = "read by hydrometer, as it must be once there is alcohol."
    return Clue("instrument", "Refractometer", False, text)


def _sample_warmth(batch: Batch, last: Seen) -> Clue:
    """Return what the newest reading's own warmth says: an older sample is gone, and so is what it
    was read at."""
    key, name = "sample-warmth", "Warm or cold sample"
    warm = last.reading.temperature
    if warm is None:
        text = (
            f"{last.outlook.raw} of {day_words(last.at, batch.now)} has no temperature, and 10 °C "
            "are up to 3 points; measure it."
        )
        return Clue(key, name, None, text)
    if not COLDEST_SAMPLE_CELSIUS <= warm.celsius <= HOTTEST_SAMPLE_CELSIUS:
        text = f"a sample at {warm.text} cannot be trusted; bring it to 10–35 °C."
        return Clue(key, name, True, text)
    day = day_words(last.at, batch.now)
    return Clue(key, name, False, f"corrected; the last, {day}, was read at {warm.text}.")


def _gas(batch: Batch, last: Seen) -> Clue:
    key, name = "sample-gas", "Gas in the sample"
    assert last.sg is not None
    if last.reading.degassed:
        return Clue(key, name, False, "the last was read with the gas out.")
    points = (last.sg - batch.highest_end) * 1000
    if last.sg - GAS_LIFTS > batch.dry_gravity + STUCK_ABOVE_DRY:
        text = (
            f"not noted, but it lifts by 5 points at most, and this stands {points:.0f} above its "
            "end."
        )
        return Clue(key, name, False, text)
    text = "not noted, and it lifts by 2 to 5 points; stir it out and read again."
    return Clue(key, name, None, text)


def _extract(batch: Batch, last: Seen) -> Clue:
    dry = batch.must.dry_gravity
    reckoned = max(dry.high or 0.0, batch.dry_gravity + 0.002)
    assert last.sg is not None
    points = max((last.sg - batch.highest_end) * 1000, 0.0)
    ends = f"it should end at {end_words(dry)}, and this is"
    if last.sg <= reckoned + STUCK_ABOVE_DRY:
        text = f"{ends} only {points:.0f} points above; it may be at its end."
        return Clue("extract", "Extract of the fruit", True, text)
    return Clue("extract", "Extract of the fruit", False, f"{ends} {points:.0f} points above.")


def _sugar_on_the_floor(batch: Batch) -> Clue:
    key, name = "floor-sugar", "Sugar on the floor"
    if not any(isinstance(line, SugarLine) for line in batch.project.recipe.lines):
        return Clue(key, name, False, "no sugar went in.")
    sgs = [seen.sg for seen in batch.ferment if seen.sg is not None]
    fed = any(step in batch.actions for step in SUGAR_IN)
    rise = max((b - a for a, b in pairwise(sgs)), default=0.0)
    if rise > LARGEST_RISE and not fed:
        text = f"the gravity once rose by {rise * 1000:.0f} points; sugar came up late."
        return Clue(key, name, True, text)
    read, recipe = batch.must_reading, batch.recipe.must.gravity.value
    if read is None or read.sg is None or recipe is None:
        text = "the must was not read before the yeast; stir from the floor, then read."
        return Clue(key, name, None, text)
    if recipe - read.sg >= MUST_SHORT:
        text = (
            f"the must read {read.sg:.3f} where its recipe gives {recipe:.3f}; some may have come "
            "up since."
        )
        return Clue(key, name, True, text)
    return Clue(key, name, False, f"the must read {read.sg:.3f}, as its sugar gives when stirred.")
