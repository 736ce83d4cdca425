"""Undo as earlier projects with a label; one field's keystrokes are one step."""

from __future__ import annotations

from collections import deque
from typing import NamedTuple

from winebench.model.project import Project

LONGEST = 2000


class Step(NamedTuple):
    """The project on the other side of a step, and the edit's label."""

    project: Project
    label: str


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
        self._back.append(Step(start, label))
        self._field = field

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
        other.append(Step(present, step.label))
        return step.project
