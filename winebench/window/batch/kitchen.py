"""The kitchen, the room and the instruments: everything takes effect as it is typed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCheckBox, QDialog, QGridLayout, QVBoxLayout, QWidget

from winebench.model.edits import Change, changed
from winebench.model.project import Project
from winebench.model.recipe import Owned
from winebench.output.label_sheets import SHEETS, sheet_of
from winebench.plan.gallons_changed import gallons_changed
from winebench.plan.kitchen import fraction_text
from winebench.plan.typed.fields import in_scale
from winebench.plan.typed.numbers import number, number_text
from winebench.plan.typed.spoons import owned_text, read_owned, read_spoons, spoons_text
from winebench.plan.typed.vessels import read_shelf, shelf_example, shelf_text
from winebench.units import Temperature
from winebench.window.batch.away import away_text, read_away
from winebench.window.batch.start import read_start, start_text
from winebench.window.document import Document
from winebench.window.parts.choice import Choice
from winebench.window.parts.field import Binding, Field
from winebench.window.parts.fitting import fit_to_screen
from winebench.window.parts.scrolled import Scrolled
from winebench.window.parts.settling import settle_at
from winebench.window.parts.undo_keys import undone
from winebench.window.parts.words import button, heading, label
from winebench.window.recipe.row import draft

_GALLONS = (("US", "US"), ("imperial", "imperial"))
_PAPERS = (("A4", "A4"), ("Letter", "US Letter"))
_BY = (("spoon", "spoons"), ("scale", "a scale"))

_SAID_LINES = 2
_SHELF_WIDTH = 460
"""px: six vessels are to be seen at once."""
_LISTS = ("away", "kitchen.spoons_owned", "kitchen.spoons", "kitchen.shelf")
"""Fields of several things, empty where there are none."""


class KitchenDialog(QDialog):
    """A sheet of fields without an OK button; Escape closes it, undo takes things back."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Kitchen, room and instruments")
        self._document = document
        self.fields: dict[str, Field] = {}
        self.choices: dict[str, Choice] = {}
        self._texts: dict[str, Callable[[Project], str]] = {}
        self._keys: dict[str, Callable[[Project], str]] = {}
        self.refusal = label(wraps=True)
        self.refusal.setAlignment(Qt.AlignmentFlag.AlignTop)
        # Its room is kept free, so that no field moves from under a pointer.
        self.refusal.setMinimumHeight(_SAID_LINES * self.refusal.fontMetrics().lineSpacing())
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(10)
        self._grid.setVerticalSpacing(6)
        self._fill()
        sheet = QWidget()
        rows = QVBoxLayout(sheet)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(10)
        rows.addLayout(self._grid)
        self.weekends = self._tick("weekends", "Put steps that may wait on a weekend")
        self.reminders = self._tick("reminders", "Remind me of this batch on the desktop")
        rows.addWidget(self.weekends)
        rows.addWidget(self.reminders)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 16, 20, 16)
        column.setSpacing(10)
        column.addWidget(Scrolled(sheet))
        column.addWidget(self.refusal)
        closing = button("Close", "Close", self.accept)
        column.addWidget(closing, 0, Qt.AlignmentFlag.AlignRight)
        document.edited.connect(self._show)
        settle_at(self.finished, document, "batch:")
        self._show()
        wanted = self.sizeHint()
        fit_to_screen(self, wanted.width(), wanted.height())

    def _fill(self) -> None:
        self._head("The batch")
        self._field("start", "Must made up", "", read_start(self._document.now), self._start, True)
        self._field("away", "Days away", "", read_away(self._document.now), self._away, True)
        self._pick("gallon", "A gallon is", _GALLONS, lambda p: p.gallon or "")
        self._pick("paper", "Paper", _PAPERS, lambda p: p.paper)
        sheets = tuple((sheet.key, sheet.name) for sheet in SHEETS.values())
        self._pick("label.sheet", "Label sheets", sheets, _sheet)
        self._head("The room")
        self._field("room", "The must stands at", "", self._degrees("room"), lambda p: p.room.text)
        self._head("Measuring")
        self._pick("kitchen.by", "Small things by", _BY, lambda p: p.kitchen.by)
        self._field("kitchen.spoons_owned", "Measuring spoons", "", read_owned, _owned_spoons, True)
        for key, words, unit, read in (
            ("scale_step_g", "The scale shows steps of", "g", number(0.001, 100.0, "g")),
            ("tablet_g", "A sulfite tablet weighs", "g", number(0.05, 10.0, "g")),
        ):
            text = _number_of("kitchen", key)
            self._field(f"kitchen.{key}", words, unit, read, text)
        words = "A level teaspoon weighs"
        self._field("kitchen.spoons", words, "", read_spoons, self._spoons, True)
        self._field("kitchen.shelf", "Vessels on the shelf", "", self._read_shelf, _shelf, True)
        self.fields["kitchen.shelf"].setMinimumWidth(_SHELF_WIDTH)
        self._head("The hydrometer")
        self._field(
            "hydrometer.calibrated",
            "Made for",
            "",
            self._degrees("hydrometer"),
            lambda p: p.hydrometer.calibrated.text,
        )
        adds = _number_of("hydrometer", "adds")
        self._field("hydrometer.adds", "Reads too high by", "SG in water", _adds, adds)

    def _start(self, project: Project) -> str:
        return start_text(project.start)

    def _away(self, project: Project) -> str:
        return away_text(project.away)

    def _spoons(self, project: Project) -> str:
        return spoons_text(project.kitchen.spoons)

    def _read_shelf(self, text: str) -> tuple[Owned, ...]:
        return read_shelf(text, self._document.project.gallon)

    def _degrees(self, of: str) -> Callable[[str], Temperature]:
        """Return a reader of temperatures; a bare number is in the scale that the field shows."""

        def read(text: str) -> Temperature:
            project = self._document.project
            shown = project.room if of == "room" else project.hydrometer.calibrated
            return Temperature(in_scale(text, "F" if shown.fahrenheit else "C"))

        return read

    def _head(self, words: str) -> None:
        self._grid.addWidget(heading(words, 13), self._grid.rowCount(), 0, 1, 3)

    def _row(self, words: str, unit: str, control: QWidget, columns: int = 1) -> None:
        row = self._grid.rowCount()
        caption = label(words, "muted")
        caption.setBuddy(control)
        self._grid.addWidget(caption, row, 0)
        self._grid.addWidget(control, row, 1, 1, columns)
        if unit:
            self._grid.addWidget(label(unit, "muted"), row, 2)
        control.setMinimumHeight(28)
        control.setMinimumWidth(190)

    def _field(
        self,
        key: str,
        words: str,
        unit: str,
        read: Callable[[str], Any],
        text: Callable[[Project], str],
        empty: bool = False,
    ) -> None:
        place, said = f"batch:{key}", f"change: {words.lower()}"
        field = Field(f"{words} {unit}".strip())
        edit = self._edit(key, said, () if key in _LISTS else None)
        field.bind(Binding(place, said, read, edit, empty=empty))
        field.edit_wanted.connect(self._document.edit)
        field.refused.connect(self._show_refusal)
        self.fields[key], self._texts[key] = field, text
        self._row(words, unit, field, 2 if key in _LISTS else 1)

    def _edit(self, key: str, said: str, none: object) -> Callable[[Any], Change]:
        """Return the edit that puts a value into the project, or into a part of it."""
        part, _dot, name = key.rpartition(".")

        def edit(value: Any) -> Change:
            value = none if value is None else value
            if not part:
                return Change(label=said, fields={name: value})
            whole = changed(getattr(self._document.project, part), **{name: value})
            return Change(label=said, fields={part: whole})

        return edit

    def _pick(
        self,
        key: str,
        words: str,
        options: tuple[tuple[str, str], ...],
        chosen: Callable[[Project], str],
    ) -> None:
        choice = Choice(words, options)
        edit = self._edit(key, f"change: {words.lower()}", None)
        choice.chosen.connect(lambda value: self._choose(key, edit(value)))
        self.choices[key], self._keys[key] = choice, chosen
        self._row(words, "", choice)

    def _choose(self, key: str, edit: Change) -> None:
        before = self._document.project
        self._document.edit(edit)
        now = self._document.project.gallon
        if key == "gallon" and now is not None:
            self.refusal.setText(gallons_changed(before, now))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Undo and redo here too."""
        if not undone(event, self._document):
            super().keyPressEvent(event)

    def _tick(self, key: str, words: str) -> QCheckBox:
        made = QCheckBox(words)
        made.clicked.connect(
            lambda on: self._document.edit(Change(label=words.lower(), fields={key: bool(on)}))
        )
        return made

    def _show(self, _changes: object = None) -> None:
        project = self._document.project
        for key, field in self.fields.items():
            field.show_text(self._texts[key](project), draft(project, f"batch:{key}"))
        for key, choice in self.choices.items():
            choice.show_key(self._keys[key](project))
        self.fields["start"].setPlaceholderText("now; or 6 Oct 18:30")
        smallest = fraction_text(project.kitchen.smallest_teaspoon)
        hint = f"down to {smallest} tsp; or 1/4, 1/2, 1 tsp, 1 tbsp"
        self.fields["kitchen.spoons_owned"].setPlaceholderText(hint)
        self.fields["kitchen.spoons"].setPlaceholderText("tartaric acid 4.7 g, ...")
        self.fields["kitchen.shelf"].setPlaceholderText(shelf_example(project))
        self.fields["away"].setPlaceholderText("none; or 10 Oct to 14 Oct")
        self.weekends.setChecked(project.weekends)
        self.reminders.setChecked(project.reminders)

    def _show_refusal(self, _sentence: str) -> None:
        refusals = [field.refusal for field in self.fields.values() if field.refusal]
        self.refusal.setText("\n".join(refusals))


def _number_of(part: str, key: str) -> Callable[[Project], str]:
    return lambda project: number_text(getattr(getattr(project, part), key))


def _shelf(project: Project) -> str:
    return shelf_text(project.kitchen.shelf)


def _owned_spoons(project: Project) -> str:
    return owned_text(project.kitchen.spoons_owned)


def _sheet(project: Project) -> str:
    known = project.label.sheet in SHEETS
    return sheet_of(project).key if known else project.label.sheet


def _adds(text: str) -> float:
    sign = -1.0 if text.strip().startswith(("-", "−")) else 1.0
    return sign * number(0.0, 0.05)(text.strip().lstrip("+-−"))
