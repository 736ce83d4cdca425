"""Whether a wine is dry and stable, or able to ferment again in the bottle."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, NamedTuple

from winebench.plan.days import later, settled, short_date
from winebench.plan.figures import by_rule
from winebench.plan.outlook import Condition, Figure
from winebench.plan.readings import Seen
from winebench.plan.steps.rule import waits
from winebench.plan.stuck.standstill import EYE, POINT, accepted, accepted_at

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

STABLE_DAYS = 14
STABLE_READINGS = 3
DAYS_APART = 2
"""Equal readings closer together than this say little (common practice)."""
WARM_CELSIUS = 18.0
CLEAR_ENOUGH = 3
LEAST_SUGAR_G_PER_L = 2.0
"""Below this a wine counts as dry (common practice)."""
MOST_SUGAR_G_PER_L = 60.0
"""Above this it is must rather than wine: nobody thinks of bottles yet."""
CELLAR_CELSIUS = 20.0


class Stability(NamedTuple):
    """The five conditions of a dry and stable wine, and the readings that speak of them."""

    run: tuple[Seen, ...]
    conditions: tuple[Condition, ...]

    @property
    def met(self) -> bool:
        """Return whether all five are met."""
        return all(condition.met for condition in self.conditions)


def equal_run(seen: tuple[Seen, ...]) -> tuple[Seen, ...]:
    """Return the newest readings that equal the last one within a point, oldest first."""
    if not seen or seen[-1].sg is None:
        return ()
    run: list[Seen] = []
    for one in reversed(seen):
        if one.sg is None or abs(one.sg - seen[-1].sg) > POINT + EYE:
            break
        run.append(one)
    return tuple(reversed(run))


def stability(batch: Batch) -> Stability:
    """Return the five conditions as the readings before any sweetening show them.

    Sugar or acid that goes in sets the clock back; a wine that was declared stable is judged
    by the readings up to that day, and by any fall after it.
    """
    run = equal_run(_readings_that_count(batch))
    equal = (
        len(run) >= STABLE_READINGS
        and (run[-1].at - run[0].at).total_seconds() >= STABLE_DAYS * 86400
    )
    return Stability(
        run,
        (
            waits(_equal_words(run), equal and not _fell_since(batch, run)),
            waits(f"{WARM_CELSIUS:.0f} °C or warmer meanwhile", _warm(batch, run)),
            waits("the last of them read without gas in it", bool(run) and _degassed(batch, run)),
            waits(_expected_words(batch), bool(run) and low_enough(batch, run[-1])),
            waits("clear enough to read print through it", _clear(run)),
        ),
    )


def _readings_that_count(batch: Batch) -> tuple[Seen, ...]:
    since = later(batch.last_time("sugar-feed"), accepted_at(batch))
    declared = batch.done("declare-stable")
    until = settled(declared.at) if declared else None
    return tuple(
        seen
        for seen in batch.ferment
        if (since is None or seen.at > since) and (until is None or seen.at <= until)
    )


def _fell_since(batch: Batch, run: tuple[Seen, ...]) -> bool:
    """Return whether a later reading, before any sweetening, is more than a point lower."""
    if not run or run[-1].sg is None:
        return False
    return any(
        seen.sg is not None and seen.sg < run[-1].sg - POINT - EYE
        for seen in batch.ferment
        if seen.at > run[-1].at
    )


def _equal_words(run: tuple[Seen, ...]) -> str:
    words = "three readings equal within a point over 14 days"
    if not run:
        return f"{words} (none yet)"
    days = (run[-1].at - run[0].at).days
    return f"{words} ({len(run)} so far, over {days} days)"


def _warm(batch: Batch, run: tuple[Seen, ...]) -> bool:
    known = [s.reading.temperature.celsius for s in run if s.reading.temperature]
    # A thermometer in the sample beats what the maker said of the room.
    return bool(run) and min(known, default=batch.project.room.celsius) >= WARM_CELSIUS


def _degassed(batch: Batch, run: tuple[Seen, ...]) -> bool:
    degassed = batch.last_time("degas")
    return run[-1].reading.degassed or (degassed is not None and degassed <= run[-1].at)


def _expected_words(batch: Batch) -> str:
    left = accepted(batch)
    if left is not None:
        return f"at the {left:.3f} that it was left sweet at"
    return f"at or below the {batch.highest_end:.3f} that this must should end at"


def low_enough(batch: Batch, seen: Seen) -> bool:
    """Return whether that reading is at the gravity that the must ends at."""
    left = accepted(batch)
    return seen.sg is not None and seen.sg <= (left or batch.highest_end) + EYE


def _clear(run: tuple[Seen, ...]) -> bool:
    looks = [seen.reading.clear for seen in run if seen.reading.clear is not None]
    return bool(looks) and looks[-1] >= CLEAR_ENOUGH


def sugar_left_g_per_l(batch: Batch) -> float | None:
    """Return the sugar that yeast could still take, g/L, by the last gravity; None if unread.

    In proportion: the must's fermentable sugar times the share of the fall still to come.
    """
    last = batch.last_sg
    sugar = batch.recipe.must.sugar.value
    whole = batch.original_gravity - batch.dry_gravity
    if last is None or sugar is None or whole <= 0:
        return None
    return max(0.0, float(sugar) * (last - batch.dry_gravity) / whole)


def pressure_if_bottled(batch: Batch) -> Figure | None:
    """Return what the sugar left would do in a closed bottle; None where it would do nothing."""
    left = sugar_left_g_per_l(batch)
    if left is None or not LEAST_SUGAR_G_PER_L <= left <= MOST_SUGAR_G_PER_L:
        return None
    sugar = round(left, 1)
    return by_rule("bottle-pressure", "bar", 1, sugar_g_per_l=sugar, celsius=CELLAR_CELSIUS)


def pressure_words(batch: Batch) -> str:
    """Return that pressure in a sentence, or "" where there is none to fear."""
    pressure, left = pressure_if_bottled(batch), sugar_left_g_per_l(batch)
    if pressure is None or left is None:
        return ""
    return (
        f"Bottled now, about {left:.0f} g/L of sugar could ferment on and reach "
        f"{pressure.text} bar: still-wine bottles burst."
    )


def waits_for_equal(batch: Batch, found: Stability) -> bool:
    """Return whether one more equal reading is what a nearly stable wine waits for."""
    run = found.run
    return len(run) > 1 and low_enough(batch, run[-1]) and not found.conditions[0].met


def next_equal_reading(batch: Batch, run: tuple[Seen, ...]) -> datetime:
    """Return when one more equal reading would tell most: the 14 days over, or two days on."""
    closing = batch.clock.days_after(run[0].at, STABLE_DAYS)
    if len(run) < STABLE_READINGS:
        closing = max(closing, batch.clock.days_after(run[-1].at, DAYS_APART))
    return max(closing, batch.now)


def third_reading_due(batch: Batch, run: tuple[Seen, ...]) -> str:
    """Return like "The last equal reading due on Friday 23 October"."""
    due = next_equal_reading(batch, run)
    count = "The last" if len(run) >= STABLE_READINGS - 1 else "Two more"
    return f"{count} equal reading due on {short_date(due)}"
