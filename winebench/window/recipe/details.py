"""What is known of a line beyond its amount: opened under it, closed by Escape."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QMarginsF, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCheckBox, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from winebench.model.edits import PutLine, changed
from winebench.model.project import Project
from winebench.model.recipe import FruitLine, Line
from winebench.window.parts.choice import Choice
from winebench.window.parts.field import Binding, Field
from winebench.window.parts.sunken import Sunken
from winebench.window.parts.words import button, label
from winebench.window.recipe.detail_fields import ChoiceDetail, TextDetail, details_of


class LineDetails(Sunken):
    """The fields of one line, two to a row; each edits as it is typed in."""

    edit_wanted = Signal(object)
    remove_wanted = Signal()
    closed = Signal()
    bare = QMarginsF(0, 1, 0, 3)

    def __init__(self, line: Line, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.line = line
        self.fields: dict[str, Field] = {}
        self.choices: dict[str, Choice] = {}
        self.prepared: QCheckBox | None = None
        self.refusal = label(wraps=True, small=True)
        self.refusal.hide()
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(8)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(1, 1)
        self._grid.setColumnStretch(4, 1)
        self._specs = details_of(line)
        for place, spec in enumerate(self._specs):
            self._add(place, spec, whole=spec is self._specs[-1])
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 8, 12, 8)
        column.setSpacing(4)
        column.addLayout(self._grid)
        column.addWidget(self.refusal)
        column.addLayout(self._foot())

    def _add(self, place: int, spec: TextDetail | ChoiceDetail, *, whole: bool) -> None:
        """Add one of two fields of a row, or one that has the `whole` row."""
        row, column = ((place + 1) // 2, 0) if whole else (place // 2, place % 2 * 3)
        caption = label(spec.words, "muted", small=True)
        self._grid.addWidget(caption, row, column)
        if isinstance(spec, ChoiceDetail):
            choice = Choice(spec.words, spec.options)
            choice.chosen.connect(lambda key, name=spec.key: self._choose(name, key))
            self.choices[spec.key] = choice
            control: QWidget = choice
        else:
            control = self._field(spec)
            if spec.unit:
                self._grid.addWidget(label(spec.unit, "muted", small=True), row, column + 2)
        caption.setBuddy(control)
        self._grid.addWidget(control, row, column + 1, 1, 5 if whole else 1)

    def _field(self, spec: TextDetail) -> Field:
        place = f"line:{self.line.id}:{spec.key}"
        words = f"change {spec.words.lower()}"

        def edit(value: Any) -> PutLine:
            return PutLine(label=words, line=spec.put(self.line, value))

        field = Field(" ".join(part for part in (spec.words, spec.unit or spec.hint) if part))
        field.setMinimumWidth(64)
        field.bind(Binding(place, words, spec.read, edit, empty=spec.empty))
        field.setPlaceholderText(spec.hint)
        field.edit_wanted.connect(self.edit_wanted)
        field.refused.connect(self._show_refusal)
        self.fields[spec.key] = field
        return field

    def _foot(self) -> QHBoxLayout:
        row = QHBoxLayout()
        if isinstance(self.line, FruitLine):
            self.prepared = QCheckBox("weighed without stones or peel")
            self.prepared.clicked.connect(lambda on: self._choose("prepared", on))
            self.prepared.setAccessibleName("Weighed without stones, peel and stalks")
            row.addWidget(self.prepared)
        row.addStretch(1)
        row.addWidget(button("Take it out", "Take the line out", self.remove_wanted.emit, "quiet"))
        row.addWidget(button("Close", "Close the details", self.closed.emit, "quiet"))
        return row

    def _choose(self, key: str, value: object) -> None:
        line = changed(self.line, **{key: value})
        self.edit_wanted.emit(PutLine(label=f"change the {key}", line=line))

    def _show_refusal(self, _sentence: str) -> None:
        refusals = [field.refusal for field in self.fields.values() if field.refusal]
        self.refusal.setText("\n".join(refusals))
        self.refusal.setVisible(bool(refusals))

    def show_line(self, line: Line, project: Project) -> None:
        """Show the line as it is now."""
        self.line = line
        drafts = {d.place: d.text for d in project.drafts}
        for spec in self._specs:
            if isinstance(spec, ChoiceDetail):
                self.choices[spec.key].show_key(getattr(line, spec.key))
            else:
                field = self.fields[spec.key]
                field.show_text(spec.text(line), drafts.get(f"line:{line.id}:{spec.key}"))
        if self.prepared is not None and isinstance(line, FruitLine):
            self.prepared.setChecked(line.prepared)

    def open(self) -> None:
        """Show the fields, the keyboard in the first."""
        self.show()
        first = next(iter([*self.choices.values(), *self.fields.values()]))
        first.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Close on Escape and F4."""
        if event.key() in (Qt.Key.Key_Escape, Qt.Key.Key_F4):
            self.closed.emit()
        else:
            super().keyPressEvent(event)
