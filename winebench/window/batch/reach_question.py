"""The question's side of "Reach the targets": what is held, at what, and what may change."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QLineEdit, QVBoxLayout, QWidget

from winebench.model.edits import KeepDraft
from winebench.model.project import Project
from winebench.plan.solve import Ask, Target, usual_values
from winebench.plan.solve.choices import Choice, choices, usual
from winebench.plan.solve.shapes import NAMES, TARGETS, UNITS
from winebench.plan.solve.targets import read_value, typed_text
from winebench.units import UnitsError
from winebench.window.parts.one_line import OneLine
from winebench.window.parts.words import heading, label
from winebench.window.recipe.row import draft

PLACE = "reach:"
"""Under which a value is kept until it is reached."""
_WIDE = 96


class ReachQuestion(QWidget):
    """Ticks and values; `changed` fires at every tick and key."""

    changed = Signal()
    edit_wanted = Signal(object)
    """Keeps a typed value with the project, so that closing the dialog loses none."""

    def __init__(self, project: Project, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self._usual = usual_values(project)
        self.holds: dict[Target, QCheckBox] = {}
        self.values: dict[Target, QLineEdit] = {}
        self.changes: dict[str, QCheckBox] = {}
        self._choices: dict[str, Choice] = {}
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(6)
        self._hold_rows()
        self._column.addSpacing(8)
        self._column.addWidget(heading("What may change", 13))
        self._changes = QVBoxLayout()
        self._changes.setSpacing(4)
        self._column.addLayout(self._changes)
        note = label("No more of them is changed than is needed, from the top.", "muted",
                     wraps=True, small=True)  # fmt: skip
        self._column.addWidget(note)
        self._column.addStretch(1)
        asked = usual(project)
        for target, tick in self.holds.items():
            tick.setChecked(target in asked.held)
        self._show_choices(asked.change)
        self._show_values()

    def _hold_rows(self) -> None:
        self._column.addWidget(heading("What is held", 13))
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(4)
        for row, target in enumerate(TARGETS):
            name = NAMES[target]
            tick = self.holds[target] = QCheckBox(name[0].upper() + name[1:])
            tick.setAccessibleName(f"Hold the {name}")
            tick.clicked.connect(lambda _on, target=target: self._held(target))
            value = self.values[target] = OneLine()
            unit = "" if target == "volume" else UNITS[target]
            value.setAccessibleName(f"The {name} to hold, {unit}".rstrip(", "))
            value.setFixedWidth(_WIDE)
            value.setMinimumHeight(28)
            value.textEdited.connect(lambda text, target=target: self._typed(target, text))
            grid.addWidget(tick, row, 0)
            grid.addWidget(value, row, 1)
            grid.addWidget(label(unit, "muted", small=True), row, 2)
        grid.setColumnStretch(2, 1)
        self._column.addLayout(grid)

    def show_project(self, project: Project) -> None:
        """Follow the project after an edit, undo or redo; the ticks stay."""
        self._project = project
        self._usual = usual_values(project)
        self._show_choices(frozenset(self.ticked()))
        self._show_values()

    def _show_choices(self, ticked: frozenset[str]) -> None:
        """Show what could change; other lines than before make other ticks."""
        found = {each.name: each for each in choices(self._project)}
        if list(found) != list(self._choices):
            for gone in self.changes.values():
                gone.hide()
                gone.deleteLater()
            self.changes = {name: self._tick(name) for name in found}
        self._choices = found
        for name, tick in self.changes.items():
            tick.setText(found[name].words)
            tick.setChecked(name in ticked)

    def _tick(self, name: str) -> QCheckBox:
        tick = QCheckBox()
        tick.clicked.connect(lambda _on, name=name: self._may_change(name))
        self._changes.addWidget(tick)
        return tick

    def _show_values(self) -> None:
        for target, field in self.values.items():
            kept = draft(self._project, f"{PLACE}{target}")
            text = typed_text(self._project, target, self._usual[target]) if kept is None else kept
            if text != field.text():
                field.setText(text)
                field.setCursorPosition(0)

    # --- what the person does ------------------------------------------------------------------

    def _held(self, target: Target) -> None:
        if target == "volume" and self.holds[target].isChecked() and "volume" in self.changes:
            self.changes["volume"].setChecked(False)
        self.changed.emit()

    def _may_change(self, name: str) -> None:
        """Of one kind only one changes; a volume that is found is not held."""
        if self.changes[name].isChecked():
            for other, tick in self.changes.items():
                if other != name and self._choices[other].kind == self._choices[name].kind:
                    tick.setChecked(False)
            if name == "volume":
                self.holds["volume"].setChecked(False)
        self.changed.emit()

    def _typed(self, target: Target, text: str) -> None:
        """Keep the value, and hold it: nobody types what is to be left aside."""
        self.holds[target].setChecked(True)
        usual_text = typed_text(self._project, target, self._usual[target])
        kept = "" if text == usual_text else text
        place = f"{PLACE}{target}"
        self.edit_wanted.emit(
            KeepDraft(label=f"{NAMES[target]} to reach", merges_as=place, place=place, text=kept)
        )
        self._held(target)

    # --- the question ----------------------------------------------------------------------------

    def ticked(self) -> tuple[str, ...]:
        """Return what may change."""
        return tuple(name for name, tick in self.changes.items() if tick.isChecked())

    def ask(self) -> Ask:
        """Return the question as it stands.

        Raises:
            UnitsError: a value that cannot be read, named with its target; one sentence.

        """
        held: dict[Target, float] = {}
        for target, tick in self.holds.items():
            if tick.isChecked():
                held[target] = self._value(target)
        return Ask(held, self.ticked())

    def _value(self, target: Target) -> float:
        text = self.values[target].text().strip()
        if text == typed_text(self._project, target, self._usual[target]):
            return self._usual[target]  # as it is, not as it is rounded to be shown
        try:
            return read_value(self._project, target, text)
        except UnitsError as problem:
            name = NAMES[target]
            raise UnitsError(f"{name[0].upper()}{name[1:]}: {problem}") from None

    def typed(self) -> dict[Target, float]:
        """Return what is held at a value that was typed here.

        Raises:
            UnitsError: a value that cannot be read, named with its target; one sentence.

        """
        return {
            target: self._value(target)
            for target, tick in self.holds.items()
            if tick.isChecked() and draft(self._project, f"{PLACE}{target}") is not None
        }

    def forgotten(self) -> tuple[KeepDraft, ...]:
        """Return the edits that forget the typed values, once they are reached."""
        return tuple(
            KeepDraft(label="reach the targets", place=f"{PLACE}{target}", text="")
            for target in self.values
            if draft(self._project, f"{PLACE}{target}") is not None
        )

    def focus_first(self) -> None:
        """Put the keyboard to the first thing that is held."""
        self.holds["gravity"].setFocus(Qt.FocusReason.OtherFocusReason)
