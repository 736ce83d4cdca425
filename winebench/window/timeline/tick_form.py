"""Tick a step off: when it was, what to write down, and why if it was held."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLineEdit, QWidget

from winebench.model.edits import new_id
from winebench.model.log import Action, Record
from winebench.plan.outlook import StepOutlook
from winebench.window.logging.controls import caption, field
from winebench.window.logging.typed import Slip, read_moment
from winebench.window.parts.words import button, label

_PAIRS = 3
"""Fields, each with its words before it, in one row."""


class TickForm(QWidget):
    """A few fields in a row or two; Enter ticks the step off, Escape leaves it."""

    ticked = Signal(object)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._step: StepOutlook | None = None
        self._now: datetime | None = None
        self.fields: dict[str, QLineEdit] = {}
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 4, 0, 0)
        self._grid.setHorizontalSpacing(8)
        self._grid.setVerticalSpacing(4)

    def open_for(self, step: StepOutlook, now: datetime) -> None:
        """Ask what is to be written down for the step; what was typed for it before stays."""
        self._now = now
        if self._step is None or self._step.key != step.key or not self._asks_same(step):
            self._build(step)
        self._step = step
        self.show()
        first = next(iter(self.fields.values()))
        first.setFocus(Qt.FocusReason.OtherFocusReason)

    def forget(self) -> None:
        """Start with empty fields the next time: another batch has the same steps."""
        self._step = None
        self.hide()

    def _asks_same(self, step: StepOutlook) -> bool:
        asked = self._step
        return asked is not None and (asked.record, asked.override) == (step.record, step.override)

    def _build(self, step: StepOutlook) -> None:
        self._clear()
        if step.override == "reason":
            hint = "needed; it is printed on the batch card"
            self._add_field(0, 0, "override", "Why all the same", hint, span=2 * _PAIRS - 1)
        wanted = [(f"record:{r.name}", r.label, r.unit) for r in step.record]
        wanted += [("at", "When", "now, 18:30, 6 Oct"), ("note", "Note", "")]
        for place, (name, words, hint) in enumerate(wanted):
            self._add_field(1 + place // _PAIRS, place % _PAIRS, name, words, hint)
        row = 2 + len(wanted) // _PAIRS
        self.refusal = label(role="asking", wraps=True)
        self.refusal.hide()
        self._grid.addWidget(self.refusal, row, 0, 1, 2 * _PAIRS)
        self._grid.addLayout(self._buttons(step), row + 1, 0, 1, 2 * _PAIRS)

    def _clear(self) -> None:
        for child in self.findChildren(QWidget, options=Qt.FindChildOption.FindDirectChildrenOnly):
            child.hide()
            child.deleteLater()
        while self._grid.count():
            self._grid.takeAt(0)
        self.fields = {}

    def _add_field(
        self, row: int, pair: int, name: str, words: str, hint: str, *, span: int = 1
    ) -> None:
        typed = field(words, hint)
        self._grid.addWidget(caption(words, typed), row, 2 * pair)
        self._grid.addWidget(typed, row, 2 * pair + 1, 1, span)
        self.fields[name] = typed

    def _buttons(self, step: StepOutlook) -> QHBoxLayout:
        row = QHBoxLayout()
        self.leave = button("Leave it", f"Leave {step.name} as it is", self._leave, "quiet")
        self.accept = button("Tick it off", f"Tick off {step.name}", self._submit, "act")
        row.addStretch(1)
        row.addWidget(self.leave)
        row.addWidget(self.accept)
        return row

    def _text(self, name: str) -> str:
        field = self.fields.get(name)
        return "" if field is None else field.text().strip()

    def _submit(self) -> None:
        if self._step is None or self._now is None:
            return
        at = read_moment(self._text("at"), self._now)
        if isinstance(at, Slip):
            self._refuse(at.sentence, "at")
        elif self._step.override == "reason" and not self._text("override"):
            why = f"{self._step.name} is held. Write why you do it all the same."
            self._refuse(why, "override")
        else:
            self._tick(self._step, at)

    def _tick(self, step: StepOutlook, at: datetime) -> None:
        records = tuple(
            Record(name=record.name, value=self._text(f"record:{record.name}"))
            for record in step.record
            if self._text(f"record:{record.name}")
        )
        action = Action(
            id=new_id(),
            at=at,
            step=step.key,
            records=records,
            override=self._text("override"),
            note=self._text("note"),
        )
        self.forget()
        self.ticked.emit(action)

    def _refuse(self, sentence: str, name: str) -> None:
        self.refusal.setText(sentence)
        self.refusal.show()
        self.fields[name].setFocus(Qt.FocusReason.OtherFocusReason)

    def _leave(self) -> None:
        self.hide()
        self.left.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter ticks the step off, Escape leaves it; what was typed is kept either way."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._submit()
        elif event.key() == Qt.Key.Key_Escape:
            self._leave()
        else:
            super().keyPressEvent(event)
