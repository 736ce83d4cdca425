"""Entries of the log in words: when, what, and what they say."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from winebench.model.log import Action, Entry, Reading
from winebench.model.project import Project
from winebench.plan.outlook import Outlook
from winebench.plan.picture_words import picture_words
from winebench.plan.records import noted_words
from winebench.plan.typed.readings import measured_words
from winebench.window.timeline.ticks import long_moment


class LogWords(NamedTuple):
    """One row of the log."""

    when: str
    what: str
    says: str


class Named(NamedTuple):
    """What the outlook calls steps, and says of ticks and readings by their ids."""

    steps: Mapping[str, str]
    noted: Mapping[str, tuple[str, ...]]
    readings: Mapping[str, str]


def named(outlook: Outlook, project: Project) -> Named:
    """Return the outlook's names and sentences, and the project's ticks in its words."""
    steps = {step.key: step.name for step in outlook.steps}
    fields = {step.key: step.record for step in outlook.steps}
    noted = {
        action.id: noted_words(action, fields.get(action.step, ()), project)
        for action in project.actions
    }
    readings = {r.id: r.words for r in outlook.readings}
    return Named(steps, noted, readings)


def words_of(entry: Entry, names: Named, year: int) -> LogWords:
    """Return the entry in words; the `year` that it is now goes without saying."""
    now = entry.at if entry.at.year == year else None
    when, pictures = long_moment(entry.at, now), picture_words(entry)
    if isinstance(entry, Reading):
        says = names.readings.get(entry.id, "")
        return LogWords(when, measured_words(entry), _joined(says, entry.note, pictures))
    if isinstance(entry, Action):
        parts = [*names.noted.get(entry.id, ())]
        if entry.override:
            parts.append(f"done all the same: {entry.override}")
        says = _joined(*parts, entry.note, pictures)
        return LogWords(when, names.steps.get(entry.step, entry.step), says)
    return LogWords(when, "Note", _joined(entry.text, entry.note, pictures))


def _joined(*parts: str) -> str:
    return " · ".join(filter(None, parts))
