"""What one entry of the log moved when it was logged: was, now, because, for whoever looks it up.

It is worked out on demand and for one entry, since each asks for two more plans. The recipe, the
room and the days away are those of today: a project keeps no word of what they were then.
"""

from __future__ import annotations

from datetime import datetime, timezone
from typing import NamedTuple

import msgspec

from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.plan.batch import Batch
from winebench.plan.days import Clock, settled, short_date
from winebench.plan.gravity_forecast import Forecaster, forecaster
from winebench.plan.moves import by_importance, moved_steps, moves_dates
from winebench.plan.outlook import Moved
from winebench.plan.shopping.pantry_typed import counted
from winebench.plan.step_outlooks import step_outlooks
from winebench.plan.steps import rules
from winebench.plan.work_out import recipe_outlook


class MovedThen(NamedTuple):
    """One step whose date an entry moved."""

    key: str
    name: str
    moved: Moved


def moved_then(
    project: Project, entry_id: str, now: datetime, forecaster: Forecaster = forecaster
) -> tuple[MovedThen, ...]:
    """Return the steps that this entry moved at its own time, by the log up to it.

    First the one that people care most when it is; none for notes, daily chores and entries that
    the log does not have. `now` gives the household's zone.

    Raises:
        ValueError: `now` has no offset.

    """
    settled(now)  # so that a time without an offset is refused, whatever the entry
    entry = next((one for one in project.log if one.id == entry_id), None)
    if entry is None or not moves_dates(entry):
        return ()
    project = counted(project)
    until = settled(entry.at)
    log = tuple(one for one in project.log if settled(one.at) <= until)
    # A zone without its changes of clock says nothing of that day's: the entry's own offset does.
    named = not isinstance(now.tzinfo, timezone)
    clock = Clock(entry.at.astimezone(now.tzinfo) if named else entry.at)
    recipe = recipe_outlook(project)
    then, before = (
        Batch(changed(project, log=some), clock, recipe, rules(), forecaster)
        for some in (log, tuple(one for one in log if one.id != entry_id))
    )
    steps = moved_steps(step_outlooks(then), before, then, entry, said_at=settled(now))
    return tuple(
        MovedThen(step.key, step.name, _dated(step.moved))
        for step in by_importance(steps)
        if step.moved is not None
    )


def _dated(moved: Moved) -> Moved:
    """Return the move by its dates: what was "tomorrow" then is not tomorrow now."""
    because = moved.because.replace("the last reading", "this reading")
    was, now = short_date(moved.was), short_date(moved.now)
    if was == now:
        was, now = (f"{day} {at:%H:%M}" for day, at in ((was, moved.was), (now, moved.now)))
    sentence = f"was {was} without it · became {now} · because {because}"
    return msgspec.structs.replace(moved, because=because, sentence=sentence)
