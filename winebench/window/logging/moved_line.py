"""What the chosen entry of the log moved when it was logged, worked out off the window's thread."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from datetime import datetime
from threading import Thread
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from winebench.model.project import Project
from winebench.window.parts.words import Elided

if TYPE_CHECKING:
    from winebench.plan.moved_then import MovedThen

_REST_MS = 150
"""A selection that rests so long is looked at; arrows held down go past."""
_TOLD = 3
"""Steps that are told with their dates; the others are counted."""
NOTHING = "This entry moved no date."


class Question(NamedTuple):
    """An entry of a project, as seen now."""

    project: Project
    entry: str
    now: datetime


class _Answer(QObject):
    """Carries an answer to the window's thread."""

    ready = Signal(object, object)


def _work(question: Question, answer: _Answer) -> None:
    """Work it out; a late answer to a closed window goes nowhere."""
    from winebench.plan.moved_then import moved_then

    try:
        found: tuple[MovedThen, ...] = moved_then(*question)
    except (ValueError, ArithmeticError):  # a must outside what the trade's rules know
        found = ()
    with suppress(RuntimeError):  # the window is gone already
        answer.ready.emit(question, found)


class MovedLine(QWidget):
    """Say it in as many lines as it keeps room for: nothing under it moves."""

    told = Signal(str)
    """What is said of the entry that was asked about."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._wanted: Question | None = None
        self._running: Question | None = None
        self._answer = _Answer()
        self._answer.ready.connect(self._take)
        self._resting = QTimer(self)
        self._resting.setSingleShot(True)
        self._resting.setInterval(_REST_MS)
        self._resting.timeout.connect(self._begin)
        self._lines = [Elided(role="muted") for _ in range(_TOLD)]
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        for line in self._lines:
            column.addWidget(line)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("What the chosen entry moved")

    def ask(self, project: Project, entry: str, now: datetime) -> None:
        """Ask about an entry; the answer comes once the choice rests, a stale one never."""
        self._wanted = Question(project, entry, now)
        self._say(())
        self._resting.start()

    def forget(self) -> None:
        """Say nothing: no entry is chosen."""
        self._wanted = None
        self._resting.stop()
        self._say(())

    @property
    def words(self) -> tuple[str, ...]:
        """Return what is said, line by line."""
        return tuple(line.words for line in self._lines if line.words)

    def _begin(self) -> None:
        if self._wanted is not None and self._running is None:
            self._running = self._wanted
            # A Python thread: Qt waits for a pool of its own while it destroys the window.
            Thread(target=_work, args=(self._running, self._answer), daemon=True).start()

    def _take(self, question: Question, found: Sequence[MovedThen]) -> None:
        self._running = None
        if question is not self._wanted:
            self._begin()
            return
        self._say(_lines(found))
        self.told.emit(" ".join(self.words))

    def _say(self, lines: Sequence[str]) -> None:
        for number, line in enumerate(self._lines):
            line.say(lines[number] if number < len(lines) else "")
        self.setAccessibleDescription(" ".join(lines))


def _lines(found: Sequence[MovedThen]) -> tuple[str, ...]:
    """Return a line a step; where there are more than fit, the last line counts the rest."""
    said = [f"{each.name}: {each.moved.sentence}" for each in found]
    if len(said) > _TOLD:
        rest = [each.name for each in found[_TOLD - 1 :]]
        said[_TOLD - 1 :] = [f"and {len(rest)} more: {', '.join(rest)}"]
    return tuple(said) or (NOTHING,)
