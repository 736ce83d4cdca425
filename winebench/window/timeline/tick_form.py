"""Tick a step off: when it was, what to write down, and why if it was held."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QWidget

from winebench.model.edits import PutEntry, new_id
from winebench.model.log import Action, Record
from winebench.model.project import Project
from winebench.plan.outlook import StepOutlook
from winebench.plan.typed.fields import Slip, check_year, read_moment
from winebench.window.logging.controls import caption, field
from winebench.window.parts.asking import AskingForm
from winebench.window.parts.words import button

_PAIRS = 3
"""Fields, each with its words before it, in one row."""


class TickForm(AskingForm):
    """A few fields in a row or two; Enter ticks the step off, Escape leaves it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._step: StepOutlook | None = None
        self._now: datetime | None = None
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 4, 0, 0)
        self._grid.setHorizontalSpacing(8)
        self._grid.setVerticalSpacing(4)

    def open_for(self, step: StepOutlook, now: datetime, project: Project) -> None:
        """Ask what is to be written down for the step; what was typed for it before stays."""
        self._now = now
        self._step = step
        self._build(step, project)
        self.show()
        self.focus_first()

    def _build(self, step: StepOutlook, project: Project) -> None:
        self._clear()
        self.ask_for(f"tick:{step.key}", project)
        if step.override == "reason":
            hint = "needed; it is printed on the batch card"
            self._add_field(0, 0, "override", "Why all the same", hint, span=2 * _PAIRS - 1)
        wanted = [(f"record:{r.name}", r.label, r.unit) for r in step.record]
        wanted += [("at", "When", "now, 18:30, 6 Oct"), ("note", "Note", "")]
        for place, (name, words, hint) in enumerate(wanted):
            self._add_field(1 + place // _PAIRS, place % _PAIRS, name, words, hint)
        row = 2 + len(wanted) // _PAIRS
        self.refusal.hide()
        self._grid.addWidget(self.refusal, row, 0, 1, 2 * _PAIRS)
        self._grid.addLayout(self._buttons(step), row + 1, 0, 1, 2 * _PAIRS)

    def _clear(self) -> None:
        for child in self.findChildren(QWidget, options=Qt.FindChildOption.FindDirectChildrenOnly):
            child.hide()
            if child is not self.refusal:
                child.deleteLater()
        while self._grid.count():
            self._grid.takeAt(0)

    def _add_field(
        self, row: int, pair: int, name: str, words: str, hint: str, *, span: int = 1
    ) -> None:
        typed = field(words, hint)
        self._grid.addWidget(caption(words, typed), row, 2 * pair)
        self._grid.addWidget(typed, row, 2 * pair + 1, 1, span)
        self.add(name, typed)

    def _buttons(self, step: StepOutlook) -> QHBoxLayout:
        row = QHBoxLayout()
        self.leave_it = button("Leave it", f"Leave {step.name} as it is", self.leave, "quiet")
        self.accept = button("Tick it off", f"Tick off {step.name}", self.submit, "act")
        row.addStretch(1)
        row.addWidget(self.leave_it)
        row.addWidget(self.accept)
        return row

    def submit(self) -> None:
        """Tick the step off, or say what is missing."""
        if self._step is None or self._now is None:
            return
        at = read_moment(self.text("at"), self._now)
        if not isinstance(at, Slip):
            at = check_year(self.text("at"), at, self._now) or at
        if isinstance(at, Slip):
            self.refuse(at.sentence, "at")
        elif self._step.override == "reason" and not self.text("override"):
            why = f"{self._step.name} is held. Write why you do it all the same."
            self.refuse(why, "override")
        else:
            put = PutEntry(label=f"tick off: {self._step.name}", entry=self._action(self._step, at))
            self.finish(put.label, put)

    def _action(self, step: StepOutlook, at: datetime) -> Action:
        records = tuple(
            Record(name=record.name, value=self.text(f"record:{record.name}"))
            for record in step.record
            if self.text(f"record:{record.name}")
        )
        return Action(
            id=new_id(),
            at=at,
            step=step.key,
            records=records,
            override=self.text("override"),
            note=self.text("note"),
        )
