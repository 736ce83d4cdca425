"""Undo as earlier projects with a label; one field's keystrokes are one step."""

from __future__ import annotations

from collections import deque
from itertools import pairwise
from typing import NamedTuple

from winebench.model.edits import changed
from winebench.model.project import Draft, Project

LONGEST = 2000


class Step(NamedTuple):
    """The project on the other side of a step, the edit's label, and the field it was made in."""

    project: Project
    label: str
    field: str


class History:
    """The steps back and forth from the present project."""

    def __init__(self) -> None:
        self._back: deque[Step] = deque(maxlen=LONGEST)
        self._forth: list[Step] = []
        self._field = ""

    def push(self, before: Project, after: Project, label: str, field: str) -> None:
        """Enter an edit; of the same non-empty field as the one before, it joins that step."""
        self._forth.clear()
        if field and field == self._field and self._back:
            start = self._back.pop().project
            if start == after:  # typed, then typed back: nothing is left to undo
                self._field = ""
                return
        else:
            start = before
        self._back.append(Step(start, label, field))
        self._field = field

    def before(self, field: str) -> Project | None:
        """Return the project as it was before the last steps of fields that begin so, if any."""
        found = None
        for step in reversed(self._back):
            if not step.field.startswith(field):
                break
            found = step.project
        return found

    def settle(self, present: Project, place: str) -> None:
        """Make typing into drafts whose place begins so no step any more.

        Every step keeps what is there of them at present: undo and redo change none of it.
        """
        mine = _drafts(present, place)
        behind, ahead = (
            [step._replace(project=_with_drafts(step.project, mine, place)) for step in steps]
            for steps in (self._back, self._forth)
        )
        self._back = deque(_that_differ(behind, present), maxlen=LONGEST)
        self._forth = _that_differ(ahead, present)
        self._field = ""

    def part(self) -> None:
        """Let the next edit be a step of its own."""
        self._field = ""

    def back(self, present: Project) -> Project | None:
        """Return the project one step earlier, or None at the beginning."""
        return self._cross(self._back, self._forth, present)

    def forth(self, present: Project) -> Project | None:
        """Return the project one step later, or None at the end."""
        return self._cross(self._forth, self._back, present)

    @property
    def undo_label(self) -> str:
        """Return the label of the step that undo takes back, or empty."""
        return self._back[-1].label if self._back else ""

    @property
    def redo_label(self) -> str:
        """Return the label of the step that redo makes again, or empty."""
        return self._forth[-1].label if self._forth else ""

    @property
    def can_undo(self) -> bool:
        """Return whether there is a step to take back."""
        return bool(self._back)

    @property
    def can_redo(self) -> bool:
        """Return whether there is a step to make again."""
        return bool(self._forth)

    def _cross(
        self, source: deque[Step] | list[Step], other: deque[Step] | list[Step], present: Project
    ) -> Project | None:
        self._field = ""
        if not source:
            return None
        step = source.pop()
        other.append(step._replace(project=present))
        return step.project


def _drafts(project: Project, place: str) -> tuple[Draft, ...]:
    return tuple(draft for draft in project.drafts if draft.place.startswith(place))


def _with_drafts(project: Project, mine: tuple[Draft, ...], place: str) -> Project:
    """Return the project with just these drafts of all whose place begins so."""
    if _drafts(project, place) == mine:
        return project
    others = tuple(draft for draft in project.drafts if not draft.place.startswith(place))
    return changed(project, drafts=others + mine)


def _that_differ(steps: list[Step], present: Project) -> list[Step]:
    """Return the steps that still change something, the nearest to the present last."""
    kept: list[Step] = []
    for step, after in pairwise((*steps, Step(present, "", ""))):
        if not _same(step.project, after.project):
            kept.append(step)
    return kept


def _same(one: Project, other: Project) -> bool:
    """Return whether no part was replaced; equal drafts may be other values.

    Parts are compared by identity, as an edit leaves what it does not change: no long log is
    gone through for it.
    """
    parts = (name for name in one.__struct_fields__ if name != "drafts")
    untouched = all(getattr(one, name) is getattr(other, name) for name in parts)
    return untouched and set(one.drafts) == set(other.drafts)
