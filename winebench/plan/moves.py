"""What the newest entry in the log did to the dates, or a correction: was, now, because.

A project keeps no word of what it showed before: an older reading may have been corrected since,
the recipe changed, or days away set. So "was" is never said of what once stood there, only of the
same project, at the same moment, without that entry: whatever else changed is in both. Who knows
the log as it was before an edit hands it over, and an older entry corrected then says its own.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import NamedTuple

import msgspec

from winebench.model.edits import changed
from winebench.model.log import Action, Entry, Note, Reading
from winebench.model.project import Project
from winebench.plan.batch import Batch
from winebench.plan.days import day_words, part_of_day, weekday
from winebench.plan.outlook import Moved, StepOutlook
from winebench.plan.readings import LARGEST_RISE, SUGAR_IN, Seen
from winebench.plan.stability import equal_run
from winebench.plan.step_outlooks import state_of
from winebench.plan.steps import rules
from winebench.plan.steps.read_gravity import expected_at
from winebench.plan.stuck.keys import FEED
from winebench.plan.stuck.standstill import EYE, POINT

LEAST = timedelta(hours=6)
WITHIN_DAY = timedelta(hours=9)
"""Within one day only a move from one end of it to the other changes anybody's plans."""
LEAST_SHARE = 0.05
"""A far date has to move by this share of its distance to be worth a word."""
OPEN_STATES = ("due", "held", "expected", "missed")
_CARED_FOR = ("pitch", "restart", "transfer", "second-rack", "bottle", "declare-stable",
              "lift-fruit", "stabilise", "second-nitrogen", "sugar-feed")  # fmt: skip
"""Steps from the one that people care most when it is."""
COOL_CELSIUS, WARM_CELSIUS = 18.0, 25.0


def before_newest(project: Project) -> tuple[Project, Entry] | None:
    """Return the project without the newest entry that can move a date, and that entry.

    Notes and daily chores move nothing, so what the entry before them did stays said; but each
    dose that a starter gets dates the next one, and what follows. None
    where the log holds no other.
    """
    for entry in reversed(project.log):
        if moves_dates(entry):
            return changed(project, log=tuple(e for e in project.log if e is not entry)), entry
    return None


class Correction(NamedTuple):
    """An older entry that was changed or taken out."""

    before: Project
    """The project with the log as it was."""
    old: Entry
    new: Entry | None
    """None where it was taken out."""


def correction(project: Project, log_before: tuple[Entry, ...]) -> Correction | None:
    """Return what was changed or taken out since that log; None where one was added, or nothing.

    Notes and daily chores move nothing.
    """
    old, new = ({entry.id: entry for entry in log} for log in (log_before, project.log))
    if not new.keys() <= old.keys():
        return None
    other = [entry for key, entry in old.items() if new.get(key) != entry]
    found = next(filter(moves_dates, other), None)
    if found is None:
        return None
    return Correction(changed(project, log=log_before), found, new.get(found.id))


class Together(NamedTuple):
    """Several entries that were logged at once, as a few days of back-dated lines."""

    before: Project
    """The project with the log as it was."""
    moving: int
    """How many of them can move a date."""


def together(project: Project, log_before: tuple[Entry, ...]) -> Together | None:
    """Return what came since that log where it is more than one entry, and nothing else changed.

    Notes and daily chores move nothing, and are not counted.
    """
    known = set(log_before)
    come = [entry for entry in project.log if entry not in known]
    if len(project.log) != len(log_before) + len(come):
        return None
    count = sum(map(moves_dates, come))
    return Together(changed(project, log=log_before), count) if count > 1 else None


def moves_dates(entry: Entry) -> bool:
    """Return whether an entry can move a date: it is no note, and no daily chore."""
    return not isinstance(entry, Note) and not _chore(entry)


def _chore(entry: Entry) -> bool:
    if not isinstance(entry, Action):
        return False
    rule = rules().get(entry.step)
    return rule is not None and rule.repeats and entry.step != FEED


def moved_steps(
    steps: tuple[StepOutlook, ...],
    former: Batch,
    batch: Batch,
    entry: Entry,
    said_at: datetime | None = None,
) -> tuple[StepOutlook, ...]:
    """Return the steps, each open one that the entry moved saying was, now and because.

    `former` is the same batch at the same moment without that entry. Done steps and daily
    chores never say it: the first never move, the second always do. `said_at` is when it is told,
    where that is not the moment of planning.
    """
    because = _because(former, batch, entry, said_at or batch.now)
    return tuple(_with_move(step, former, " without it", because) for step in steps)


def moved_by_correction(
    steps: tuple[StepOutlook, ...], former: Batch, batch: Batch, found: Correction
) -> tuple[StepOutlook, ...]:
    """Return the steps, each open one that the correction moved saying was, now and because."""
    because = _corrected(former, batch, found)
    return tuple(_with_move(step, former, "", because) for step in steps)


def moved_together(
    steps: tuple[StepOutlook, ...], former: Batch, batch: Batch, found: Together
) -> tuple[StepOutlook, ...]:
    """Return the steps, each open one that all those entries together moved saying so."""
    because = f"{found.moving} entries were logged at once"
    return tuple(_with_move(step, former, " without them", because) for step in steps)


def by_importance(steps: Iterable[StepOutlook]) -> tuple[StepOutlook, ...]:
    """Return the steps that moved, first the one whose date people plan their days around."""
    moved = (step for step in steps if step.moved is not None)
    return tuple(sorted(moved, key=lambda step: _rank(step.key)))


def _rank(key: str) -> int:
    """Return the place of that step; those that nobody waits for keep their order at the end."""
    return _CARED_FOR.index(key) if key in _CARED_FOR else len(_CARED_FOR)


def _with_move(step: StepOutlook, former: Batch, how: str, because: str) -> StepOutlook:
    if step.repeats or step.state not in OPEN_STATES or step.likely is None:
        return step
    was = former.plan(step.key).window
    if was is None or state_of(former, former.rules[step.key]) not in OPEN_STATES:
        return step
    # Both are judged from now on: a window that already lies behind did not move by lying there.
    # Each is told by its own date all the same: what was due yesterday was not due today.
    now = former.now
    before, after = max(was.likely, now), max(step.likely, now)
    distance = max(before - now, after - now)
    if abs(after - before) < max(LEAST, distance * LEAST_SHARE):
        return step
    if before.date() == after.date() and abs(after - before) < WITHIN_DAY:
        return step
    sentence = f"{_words(was.likely, step.likely, now, how)} · because {because}"
    moved = Moved(was=was.likely, now=step.likely, because=because, sentence=sentence)
    return msgspec.structs.replace(step, moved=moved)


def _words(before: datetime, after: datetime, now: datetime, how: str) -> str:
    if before.date() == after.date():
        day = _day(after, now)
        return f"was {day} {part_of_day(before)}{how} · now {day} {part_of_day(after)}"
    return f"was {_day(before, now)}{how} · now {_day(after, now)}"


def _day(at: datetime, now: datetime) -> str:
    apart = (at.date() - now.date()).days
    return weekday(at) if 1 < apart < 7 else day_words(at, now)


def _because(former: Batch, batch: Batch, entry: Entry, said_at: datetime) -> str:
    if isinstance(entry, Action):
        rule = batch.rules.get(entry.step)
        return f"this was ticked: {batch.name_of(rule.key).lower() if rule else entry.step}"
    if not isinstance(entry, Reading):
        return "the log changed"
    called = _called(batch, entry, said_at)
    seen = next((s for s in batch.readings if s.reading.id == entry.id), None)
    if seen is None or seen.sg is None:
        return f"{called} was logged"
    sweetened = batch.last_time("sweeten")
    if sweetened is not None and seen.at > sweetened:
        return f"{called} {_since_sweetened(batch, seen, sweetened)}"
    if _first_since_feed(batch, seen):
        return f"{called}, the first since the sugar was fed, is {seen.sg:.3f}"
    expected = expected_at(former, seen.at)
    apart = None if expected is None else round((seen.sg - expected) * 1000)
    unfallen = _unfallen(batch, seen, said_at)
    if unfallen and (apart is None or apart >= 2):
        return f"{called} {unfallen}"
    if apart is None:
        return f"{called} is {seen.sg:.3f}"
    if abs(apart) < 2:
        met = _newly_met(former, batch)
        return f"{called} shows it: {met}" if met else f"{called} narrows the forecast"
    noun = "point" if abs(apart) == 1 else "points"
    came = f"{called} came in {abs(apart)} {noun} {'high' if apart > 0 else 'low'}"
    return f"{_warmth(entry, apart)}{came}"


def _corrected(former: Batch, batch: Batch, found: Correction) -> str:
    """Return like "the reading of Monday was corrected to 1.044, from 1.054"."""
    day = day_words(batch.clock.local(found.old.at), batch.now)
    if isinstance(found.old, Action):
        rule = batch.rules.get(found.old.step)
        name = rule.name.lower() if rule else found.old.step
        return f"“{name}” of {day} was {'changed' if found.new else 'taken out'}"
    was, now = _sg_of(former, found.old), _sg_of(batch, found.new)
    what = f"the reading of {day}"
    if found.new is None:
        return f"{what}{f', {was},' if was else ''} was taken out"
    if was and now and was != now:
        return f"{what} was corrected to {now}, from {was}"
    return f"{what} was corrected"


def _sg_of(batch: Batch, entry: Entry | None) -> str:
    """Return the corrected gravity of that reading, or "" where it has none."""
    sgs = (one.sg for one in batch.readings if entry is not None and one.reading.id == entry.id)
    sg = next(sgs, None)
    return f"{sg:.3f}" if sg is not None else ""


def _called(batch: Batch, entry: Reading, said_at: datetime) -> str:
    """Return what that reading is called: the last one, or by its day where it was logged late."""
    if batch.readings and batch.readings[-1].reading.id == entry.id:
        return "the last reading"
    return f"the reading of {day_words(batch.clock.local(entry.at), said_at)}"


def _since_sweetened(batch: Batch, seen: Seen, sweetened: datetime) -> str:
    """Return what a reading of the sweetened wine shows, which no forecast of the ferment knows."""
    before = [one for one in batch.gravities if sweetened < one.at < seen.at]
    if not before or before[-1].sg is None or seen.sg is None:
        return f"is the first since the sweetening: {seen.sg:.3f}"
    apart = seen.sg - before[-1].sg
    if abs(apart) <= POINT + EYE:
        return f"equals the one before, at {seen.sg:.3f}"
    return f"is {abs(apart) * 1000:.0f} points {'above' if apart > 0 else 'below'} the one before"


def _first_since_feed(batch: Batch, seen: Seen) -> bool:
    """Return whether sugar went in between that reading and the one before it."""
    fed = batch.last_time(*SUGAR_IN)
    if fed is None or seen.at <= fed:
        return False
    return not any(fed < one.at < seen.at for one in batch.gravities)


def _unfallen(batch: Batch, seen: Seen, said_at: datetime) -> str:
    """Return what a reading shows that has not fallen since the one before it, or ""."""
    before = [one for one in batch.steady if one.at < seen.at and one.sg is not None]
    if not before or before[-1].sg is None or seen.sg is None:
        return ""
    rise = seen.sg - before[-1].sg
    if rise > LARGEST_RISE:
        return f"is {rise * 1000:.0f} points above the one before"
    if rise < -POINT - EYE:
        return ""
    since = equal_run((*before, seen))[0]
    return f"shows no fall since {day_words(since.at, said_at)}, at {seen.sg:.3f}"


def _newly_met(former: Batch, batch: Batch) -> str:
    """Return which condition of a stable wine that reading met, or ""."""
    pairs = zip(former.stability.conditions, batch.stability.conditions, strict=True)
    met = [now.text.split(" (")[0] for was, now in pairs if now.met and not was.met]
    return met[0] if met else ""


def _warmth(entry: Reading, apart: int) -> str:
    """Return the must's temperature where it explains the way the reading is off, or ""."""
    if entry.temperature is None:
        return ""
    slow = apart > 0 and entry.temperature.celsius < COOL_CELSIUS
    fast = apart < 0 and entry.temperature.celsius > WARM_CELSIUS
    return f"the must ran at {entry.temperature.text} and " if slow or fast else ""
