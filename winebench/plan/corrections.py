"""A corrected tick: judged by its step as it stood at that time, without the entry itself."""

from __future__ import annotations

from typing import NamedTuple

from winebench.model.edits import changed
from winebench.model.log import Action
from winebench.model.project import Project
from winebench.plan.days import settled
from winebench.plan.outlook import Condition
from winebench.plan.records import Refused, refused
from winebench.plan.scribbles.gates import step_at
from winebench.plan.steps import rules
from winebench.plan.steps.noting import still_held


class Misnoted(NamedTuple):
    """The record that cannot be as it was corrected, why, and whether a reason opens it."""

    name: str
    sentence: str
    reason_opens: bool = False


ALL_THE_SAME = 'If it is right, write why in the note, behind "because".'


def judged(was: Action, now: Action, project: Project) -> Misnoted | None:
    """Return the first record that was changed into what cannot be so, or wants a reason first.

    What was not changed stays as it is, as does what held the step already. An amount is judged
    with what the rest of the log gave until then.
    """
    kept = {record.name: record.value for record in was.records}
    typed = tuple(one for one in now.records if one.value != kept.get(one.name, ""))
    if not typed:
        return None
    if now.step not in rules():  # a file may name a step that is none here
        return _never(refused(typed, (), project))
    rest = changed(project, log=tuple(entry for entry in project.log if entry.id != was.id))
    step = step_at(rest, settled(now.at), now.step)
    problem = _never(refused(typed, step.record, rest))
    if problem is not None or now.override:
        return problem
    before = {_plain(one) for one in still_held(step, was.records, rest)}
    held = [one for one in still_held(step, now.records, rest) if _plain(one) not in before]
    if not held:
        return None
    name = next((one.name for one in typed if one.name in held[0].notes), typed[0].name)
    words = held[0].text.rstrip(".")
    return Misnoted(name, f"It would be held: {words}. {ALL_THE_SAME}", reason_opens=True)


def _never(problem: Refused | None) -> Misnoted | None:
    return None if problem is None else Misnoted(*problem)


def _plain(condition: Condition) -> str:
    """Return the condition's words without what was noted."""
    return condition.text.partition(" (")[0].partition(":")[0]
