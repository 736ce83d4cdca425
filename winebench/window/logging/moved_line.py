"""What the chosen entry of the log moved when it was logged, worked out off the window's thread."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QVBoxLayout, QWidget

from winebench.model.project import Project
from winebench.window.parts.beside import Beside
from winebench.window.parts.words import Elided
from winebench.window.theme import theme

if TYPE_CHECKING:
    from winebench.plan.moved_then import MovedThen

_REST_MS = 150
"""A selection that rests so long is looked at; arrows held down go past."""
_TOLD, _LINES = 2, 2
"""Steps that are told with their dates, the others being counted; and lines for each."""
NOTHING = "This entry moved no date."


class Question(NamedTuple):
    """An entry of a project, as seen now."""

    project: Project
    entry: str
    now: datetime


def _work(question: Question) -> tuple[MovedThen, ...]:
    from winebench.plan.moved_then import moved_then

    try:
        return moved_then(*question)
    except (ValueError, ArithmeticError):  # a must outside what the trade's rules know
        return ()


class MovedLine(QWidget):
    """Say it in as many lines as it keeps room for: nothing under it moves."""

    told = Signal(str)
    """What is said of the entry that was asked about."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._wanted: Question | None = None
        self._beside = Beside(_work, self)
        self._beside.answered.connect(self._take)
        self._resting = QTimer(self)
        self._resting.setSingleShot(True)
        self._resting.setInterval(_REST_MS)
        self._resting.timeout.connect(self._begin)
        self._lines = [Elided(role="muted", lines=_LINES) for _ in range(_TOLD)]
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        for line in self._lines:
            column.addWidget(line)
        column.addStretch(1)
        self._keep_room()
        theme().changed.connect(self._keep_room)
        self.setAccessibleName("What the chosen entry moved")

    def _keep_room(self) -> None:
        """Be as high as all lines, said or not."""
        line = QFontMetrics(theme().base_font()).height()
        self.setFixedHeight(_TOLD * (_LINES * line + 2))

    def ask(self, project: Project, entry: str, now: datetime) -> None:
        """Ask about an entry; the answer comes once the choice rests, a stale one never."""
        question = Question(project, entry, now)
        if question == self._wanted:
            return
        self._wanted = question
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
        if self._wanted is not None and not self._beside.busy:
            self._beside.begin(self._wanted)

    def finish(self) -> None:
        """Wait for the work in hand, before the program ends."""
        self.forget()
        self._beside.finish()

    def _take(self, question: Question, found: Sequence[MovedThen] | None) -> None:
        if question is not self._wanted:
            if not self._resting.isActive():  # it rested while the other was worked out
                self._begin()
            return
        self._say(_lines(found) if found is not None else ())
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
        said[_TOLD - 1 :] = [f"And {len(rest)} more: {', '.join(rest)}."]
    return tuple(said) or (NOTHING,)
