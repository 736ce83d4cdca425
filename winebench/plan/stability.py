"""Whether a wine is dry and stable, or able to ferment again in the bottle."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING, NamedTuple

from winebench.plan.as_read import end_words
from winebench.plan.days import MONTHS, later, settled, short_date
from winebench.plan.outlook import Condition
from winebench.plan.readings import RACKINGS, SUGAR_IN, Seen
from winebench.plan.record_values import value_of
from winebench.plan.steps.noting import noted_with
from winebench.plan.steps.rule import noted, waits
from winebench.plan.stuck.standstill import EYE, POINT, accepted, accepted_at, stuck
from winebench.plan.sugar_by_fall import LEAST_SUGAR_G_PER_L, sugar_by_fall

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

STABLE_DAYS = 14
STABLE_READINGS = 3
"""Three equal readings over two weeks or more (common practice)."""
DAYS_APART = 2
"""Equal readings closer together than this say little (common practice)."""
WARM_CELSIUS = 18.0
"""Colder than this, yeast may only rest (common practice)."""
CLEAR_ENOUGH = 3
"""Of the clearness from 0 to 4: print can be seen through it (common practice)."""


class Stability(NamedTuple):
    """The five conditions of a dry and stable wine, and the readings that speak of them."""

    run: tuple[Seen, ...]
    since: datetime | None
    """When the clock of the 14 days started: with the first of them, or the last racking."""
    conditions: tuple[Condition, ...]
    above_end: bool
    """Whether it stands still, warm and for long enough, above where the must should end."""

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

    Sugar, acid or another wine that goes in, and a racking with its air, set the clock back; a wine
    that was declared stable is judged by the readings up to that day (a fall, or a racking, after
    it takes the declaration back: `rounds`).
    """
    racked = _racked(batch)
    every = equal_run(_readings_that_count(batch, racked))
    run = _since_warm(batch, every)
    since = later(run[0].at if run else None, racked)
    days = (run[-1].at - since).total_seconds() / 86400 if run and since else 0.0
    equal = waits(
        _equal_words(every, run, days, racked), len(run) >= STABLE_READINGS and days >= STABLE_DAYS
    )
    warm = _warm(batch, run)
    low = bool(run) and low_enough(batch, run[-1])
    above_end = equal.met and warm.met and not low and stuck(batch) is None
    return Stability(
        run,
        since,
        (
            equal,
            warm,
            waits("the last of them read without gas in it", bool(run) and _degassed(batch, run)),
            _tested(batch) if above_end else waits(_expected_words(batch), low),
            waits("a wine clear enough to read print through it", _clear(run)),
        ),
        above_end,
    )


def _declared_at(batch: Batch) -> datetime | None:
    declared = batch.done("declare-stable")
    return settled(declared.at) if declared else None


def _racked(batch: Batch) -> datetime | None:
    """Return the last racking before the wine was declared stable: each brings air."""
    until = _declared_at(batch)
    ticks = (settled(tick.at) for key in RACKINGS for tick in batch.actions.get(key, ()))
    return later(*(at for at in ticks if until is None or at <= until))


def _readings_that_count(batch: Batch, racked: datetime | None) -> tuple[Seen, ...]:
    until = _declared_at(batch)
    seen = batch.ferment
    changed = batch.actions.get("sweeten")
    changed_at = settled(changed[-1].at) if changed else None
    if changed_at is not None and (until is None or changed_at <= until):
        seen = tuple(one for one in batch.gravities if one.at > changed_at)
    # A reading of the day before a racking is of the same wine; its days count from the racking.
    after_racking = batch.clock.days_after(racked, -1) if racked else None
    since = later(batch.last_time(*SUGAR_IN), accepted_at(batch), after_racking)
    return tuple(
        one
        for one in seen
        if (since is None or one.at > since) and (until is None or one.at <= until)
    )


def _equal_words(
    every: tuple[Seen, ...], run: tuple[Seen, ...], days: float, racked: datetime | None
) -> str:
    """Return the condition with what counts so far, and why the equal ones before it do not."""
    words = "three readings equal within a point over 14 days"
    if len(run) < len(every):
        cold = every[len(every) - len(run) - 1]
        shown = cold.reading.temperature.text if cold.reading.temperature else ""
        words += f", counted anew after the {shown} of {cold.at.day} {MONTHS[cold.at.month - 1]}: "
        words += f"below {WARM_CELSIUS:.0f} °C yeast may only rest"
    if not run:
        return f"{words} (none yet)"
    since = " since the racking" if racked is not None and racked > run[0].at else ""
    return f"{words} ({len(run)} so far, over {max(int(days), 0)} days{since})"


def read_cold(seen: Seen) -> bool:
    """Return whether that sample was colder than yeast works at."""
    temperature = seen.reading.temperature
    return temperature is not None and temperature.celsius < WARM_CELSIUS


def _since_warm(batch: Batch, run: tuple[Seen, ...]) -> tuple[Seen, ...]:
    """Return the equal readings since the last cold one, once it stands warm: the others say
    little, and hold nothing back. A declaration with its reason answers for the cold."""
    declared = batch.done("declare-stable")
    if not run or read_cold(run[-1]) or (declared is not None and declared.override):
        return run
    last_cold = max((place for place, seen in enumerate(run) if read_cold(seen)), default=-1)
    return run[last_cold + 1 :]


def rests_in_cold_room(batch: Batch, run: tuple[Seen, ...]) -> bool:
    """Return whether it is at its end in a room so cold that its yeast may only rest."""
    cold = batch.project.room.celsius < WARM_CELSIUS and batch.done("declare-stable") is None
    return cold and bool(run) and low_enough(batch, run[-1])


def warm_it_words() -> str:
    """Return what brings a wine on that is at its end in the cold."""
    return f"Warm it to 20 °C, set the room to that, and read it {STABLE_DAYS} days later."


def _warm(batch: Batch, run: tuple[Seen, ...]) -> Condition:
    """Return the condition that yeast could have worked: a cold wine only seems to be at its end.

    Until it is declared stable the room counts as well as the samples, which are often warmed to
    be read; after that it may age in the cold: a declaration that needed no reason was made in
    a warm room, whatever the room is set to since. Whoever declares it stable all the same, with
    the reason why, answers for the warmth; for nothing else, and never for sugar that the cold may
    have left: it would ferment on in the bottle.
    """
    room, declared = batch.project.room, batch.done("declare-stable")
    known = [s.reading.temperature.celsius for s in run if s.reading.temperature]
    words = f"{WARM_CELSIUS:.0f} °C or warmer meanwhile"
    # A reason given with it answers for a cold room: that declaration does not show it was warm.
    if declared is None or declared.override:
        known.append(room.celsius)
        words += f" (the room is set to {room.text})" if room.celsius < WARM_CELSIUS else ""
    warm = bool(run) and min(known, default=WARM_CELSIUS) >= WARM_CELSIUS
    answered = declared is not None and bool(declared.override) and _nothing_to_ferment(batch, run)
    return waits(words, warm or answered)


def _nothing_to_ferment(batch: Batch, run: tuple[Seen, ...]) -> bool:
    """Return whether no sugar is left to fear, by the lowest end reckoned or by a test."""
    if not run or run[-1].sg is None:
        return False
    return _tested_dry(batch) or sugar_by_fall(batch, run[-1].sg).high < LEAST_SUGAR_G_PER_L


def _degassed(batch: Batch, run: tuple[Seen, ...]) -> bool:
    degassed = batch.last_time("degas")
    return run[-1].reading.degassed or (degassed is not None and degassed <= run[-1].at)


def _expected_words(batch: Batch) -> str:
    left = accepted(batch)
    if left is not None:
        return f"a gravity at the {left:.3f} that it was left sweet at"
    end = end_words(batch.must.dry_gravity)
    return f"a gravity no higher than the {end} that this must should end at"


def _tested(batch: Batch) -> Condition:
    """Return the condition of its end where it stands still above it: a test for sugar decides."""
    return noted(
        f"{_expected_words(batch)}, or {LEAST_SUGAR_G_PER_L:.0f} g/L of sugar or less by a test",
        "sugar",
        met=_tested_dry(batch),
        least=0.0,
        below=LEAST_SUGAR_G_PER_L + EYE,
    )


def _tested_dry(batch: Batch) -> bool:
    """Return whether the declaration notes a test that found no sugar to speak of."""
    declared = batch.done("declare-stable")
    sugar = value_of(noted_with(declared, "sugar"), "g/L", batch.project) if declared else None
    return sugar is not None and sugar < LEAST_SUGAR_G_PER_L + EYE


def low_enough(batch: Batch, seen: Seen) -> bool:
    """Return whether that reading is at the gravity that the must ends at."""
    left = accepted(batch)
    return seen.sg is not None and seen.sg <= (left or batch.highest_end) + EYE


def _clear(run: tuple[Seen, ...]) -> bool:
    looks = [seen.reading.clear for seen in run if seen.reading.clear is not None]
    return bool(looks) and looks[-1] >= CLEAR_ENOUGH


def waits_for_equal(batch: Batch, found: Stability) -> bool:
    """Return whether one more equal reading is what a nearly stable wine waits for."""
    run = found.run
    return len(run) > 1 and low_enough(batch, run[-1]) and not found.conditions[0].met


def next_equal_reading(batch: Batch, found: Stability) -> datetime:
    """Return when one more equal reading would tell most: the 14 days over, or two days on."""
    run, since = found.run, found.since or batch.now
    closing = batch.clock.days_after(since, STABLE_DAYS)
    if len(run) < STABLE_READINGS:
        closing = max(closing, batch.clock.days_after(run[-1].at, DAYS_APART))
    return max(closing, batch.now)


def third_reading_due(batch: Batch, found: Stability) -> str:
    """Return like "The last equal reading due on Friday 23 October"."""
    due = next_equal_reading(batch, found)
    last = len(found.run) >= STABLE_READINGS - 1
    what = "The last equal reading" if last else "Two more equal readings, the next"
    return f"{what} due on {short_date(due)}"
