"""One row of the preview of a card: as typed, as read, and what is to know or to settle."""

from __future__ import annotations

import re
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from winebench.plan.handed_down.shapes import Answer, Row, State
from winebench.plan.typed.remarks import Remark
from winebench.window.parts.flow import Flow
from winebench.window.parts.words import button, label
from winebench.window.recipe.card_mark import SPOKEN, CardMark
from winebench.window.theme import theme

COLUMNS = (6, 6, 9)
"""Shares of the width: on the card, read as, to know or to settle."""
_LONGEST = 96
_ANSWER_WORDS: dict[Answer, tuple[str, str]] = {
    "fruit": ("fruit", "a fruit of mine"),
    "sugar": ("sugar", "a sugar or syrup"),
    "additive": ("additive", "an additive"),
    "note": ("note", "a note, no ingredient"),
}


class CardRow(QWidget):
    """Shows one row after another in place; its buttons are kept while they are the same."""

    way_wanted = Signal(object)
    """A Way to write this row."""
    answer_wanted = Signal(str)
    pressed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.row: Row | None = None
        self.current = False
        self.mark = CardMark()
        self.typed = self._words("muted")
        self.read_as = self._words("")
        self.ways: list[QPushButton] = []
        self.answers: dict[Answer, QPushButton] = {}
        self._answer_box = QWidget()
        self._answer_flow = Flow(self._answer_box)
        self._notes = QVBoxLayout()
        self._notes.setSpacing(2)
        self._remarks: list[QWidget] = []
        self._arrange()

    @staticmethod
    def _words(role: str) -> QLabel:
        made = label(role=role, wraps=True)
        made.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        made.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        return made

    def _arrange(self) -> None:
        notes = QWidget()
        notes.setLayout(self._notes)
        notes.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._notes.setContentsMargins(0, 0, 0, 0)
        self._notes.addWidget(self._answer_box)
        self._answer_box.hide()
        row = QHBoxLayout(self)
        row.setContentsMargins(6, 5, 6, 5)
        row.setSpacing(10)
        row.addWidget(self.mark, 0, Qt.AlignmentFlag.AlignTop)
        for widget, share in zip((self.typed, self.read_as, notes), COLUMNS, strict=True):
            row.addWidget(widget, share)

    def show_row(self, row: Row) -> None:
        """Show the row as it is now."""
        if row == self.row:
            return
        before, self.row = self.row, row
        quiet = row.kind in ("title", "heading", "method")
        self.mark.show_state(row.state, quiet=quiet)
        self.typed.setText(_breakable(row.item.text))
        self.typed.setToolTip(row.item.text if len(row.item.text) > _LONGEST else "")
        self.read_as.setText(_breakable(row.read_as))
        self.read_as.setProperty("role", "muted" if quiet else "")
        self.read_as.style().polish(self.read_as)
        said = " ".join(remark.sentence for remark in row.remarks)
        spoken = f"{row.item.text}: {SPOKEN[row.state]}. {row.read_as}. {said}"
        self.setAccessibleName(spoken.strip())
        if before is None or before.options != row.options or before.asks != row.asks:
            self._make_answers(row)
        if before is None or (before.remarks, before.state) != (row.remarks, row.state):
            self._make_remarks(row.state, row.remarks)
        for answer, made in self.answers.items():
            made.setChecked(answer == row.answer)

    def show_whole(self, remark: Remark) -> None:
        """Show something about the card as a whole."""
        self.row = None
        self.mark.show_state("look", quiet=False)
        self.typed.setText("The card as a whole")
        self.read_as.setText("")
        self.setAccessibleName(f"The card as a whole: {remark.sentence}")
        self._make_answers(None)
        self._make_remarks("look", (remark,))

    def _make_remarks(self, state: State, remarks: tuple[Remark, ...]) -> None:
        for old in self._remarks:
            old.hide()
            old.deleteLater()
        self._remarks, self.ways = [], []
        for number, remark in enumerate(remarks):
            word = f"{SPOKEN[state]}: " if number == 0 else ""
            self._put(label(f"{word}{remark.sentence}", wraps=True, small=True))
            if remark.ways:
                self._put(self._ways_of(remark))

    def _put(self, widget: QWidget) -> None:
        self._notes.insertWidget(len(self._remarks), widget)
        self._remarks.append(widget)

    def _ways_of(self, remark: Remark) -> QWidget:
        box = QWidget()
        flow = Flow(box)
        for way in remark.ways:
            act = partial(self.way_wanted.emit, way)
            made = button(way.label, f"{way.label}: {remark.sentence}", act)
            flow.addWidget(made)
            self.ways.append(made)
        return box

    def _make_answers(self, row: Row | None) -> None:
        for old in self.answers.values():
            old.hide()
            old.deleteLater()
        self.answers = {}
        options = row.options if row is not None else ()
        self._answer_box.setVisible(bool(options))
        for answer in options:
            short, long = _ANSWER_WORDS[answer]
            words = short if len(options) > 1 else "Keep it as a note"
            name = f"{row.asks} is {long}" if row is not None else long
            made = button(words, name, partial(self._choose, answer), "choice")
            made.setCheckable(True)
            self._answer_flow.addWidget(made)
            self.answers[answer] = made

    def _choose(self, answer: Answer) -> None:
        """Answer; a second press takes the answer back."""
        self.answer_wanted.emit(answer if self.answers[answer].isChecked() else "")

    def first_control(self) -> QPushButton | None:
        """Return what settles the row first, or None."""
        return next(iter((*self.ways, *self.answers.values())), None)

    def show_current(self, current: bool) -> None:
        """Show whether the caret stands in the words of this row."""
        if current != self.current:
            self.current = current
            self.update()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take the caret to the row's words."""
        super().mousePressEvent(event)
        self.pressed.emit()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ground where the caret is, and the line below."""
        del event
        palette = theme().palette
        painter = QPainter(self)
        if self.current:
            painter.fillRect(self.rect(), palette.wash)
        painter.setPen(palette.rule)
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)


def _breakable(text: str) -> str:
    """Return the words short enough to show, long ones with places where they may break."""
    short = text if len(text) <= _LONGEST else f"{text[:_LONGEST].rstrip()} …"
    return re.sub(r"(\S{18})(?=\S)", "\\1\u200b", " ".join(short.split()))
