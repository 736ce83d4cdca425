"""What is wanted of the wine: typed here, or left to the style."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from winebench.model.edits import Change, ChangeRecipe, Edit, KeepDraft, Several, changed
from winebench.model.project import Project
from winebench.model.recipe import Targets
from winebench.plan.outlook import Outlook
from winebench.plan.typed.numbers import (
    gravity_pair,
    months,
    number,
    number_pair,
    number_text,
    wanted_gravity,
)
from winebench.window.parts.field import Binding, Field
from winebench.window.parts.figure import FigureLabel
from winebench.window.parts.sunken import Sunken
from winebench.window.parts.words import label
from winebench.window.recipe.row import draft


class _Target(NamedTuple):
    key: str
    words: str
    unit: str
    read: Callable[[str], Any]
    text: Callable[[Targets], str]
    fields: Callable[[Any], dict[str, Any]]
    """What to replace in the targets; the value is None where the field was emptied."""
    hint: str = "style's"


def _ends(value: Any) -> tuple[Any, Any]:
    return (None, None) if value is None else value


def _range_text(low: str, high: str) -> str:
    return low if low == high or not high else f"{low}–{high}"


def _gravity_text(targets: Targets) -> str:
    low, high = targets.gravity_low, targets.gravity_high
    return _range_text(low.text if low else "", high.text if high else "")


def _acid_text(targets: Targets) -> str:
    low, high = targets.acid_low_g_per_l, targets.acid_high_g_per_l
    return _range_text(number_text(low), number_text(high))


def _tannin_text(targets: Targets) -> str:
    low, high = targets.tannin_low_g_per_l, targets.tannin_high_g_per_l
    return _range_text(number_text(low), number_text(high))


_TARGETS = (
    _Target(
        "gravity",
        "Gravity",
        "SG",
        gravity_pair,
        _gravity_text,
        lambda value: dict(zip(("gravity_low", "gravity_high"), _ends(value), strict=True)),
    ),
    _Target(
        "acidity",
        "Acidity",
        "g/L",
        number_pair(0.0, 30.0, "g/L"),
        _acid_text,
        lambda value: dict(
            zip(("acid_low_g_per_l", "acid_high_g_per_l"), _ends(value), strict=True)
        ),
    ),
    _Target(
        "strength",
        "or strength",
        "% vol",
        number(1.0, 22.0, "% vol"),
        lambda targets: number_text(targets.strength_percent),
        lambda value: {"strength_percent": value},
        "gravity's",
    ),
    _Target(
        "tannin",
        "Tannin",
        "g/L",
        number_pair(0.0, 5.0, "g/L"),
        _tannin_text,
        lambda value: dict(
            zip(("tannin_low_g_per_l", "tannin_high_g_per_l"), _ends(value), strict=True)
        ),
    ),
    _Target(
        "sweetness",
        "Bottled at",
        "SG",
        wanted_gravity,
        lambda targets: targets.final_gravity.text if targets.final_gravity else "",
        lambda value: {"final_gravity": value},
    ),
    _Target(
        "drink",
        "Drink from",
        "months",
        months(0.0, 120.0),
        lambda targets: number_text(targets.drink_months),
        lambda value: {"drink_months": value},
    ),
)
_REACHED = {"gravity": ("gravity", "strength"), "strength": ("gravity", "strength")}
"""The values of "Reach the targets" that a target decides, where it is not the one of its name."""
_BOTTLE = "make:bottle_ml"
_LEAST_WIDTH = 72
"""Of a field: two to a row fit into the narrowest pane."""
_LINES = 2
"""Of the grid, to a row of fields: themselves, and what is to be said of them."""


class TargetsPanel(Sunken):
    """The targets, two to a row; an empty field follows the style."""

    edit_wanted = Signal(object)
    workings_wanted = Signal(object)
    told = Signal(QWidget)
    """Something is said in that widget of what is being typed: it is to be seen."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project: Project | None = None
        self.fields: dict[str, Field] = {}
        self.refusals: dict[int, QLabel] = {}
        """Why what is typed in a row cannot be read, right under it."""
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(6)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(1, 1)
        self._grid.setColumnStretch(4, 1)
        for place, target in enumerate(_TARGETS):
            self._add(place, target.key, target.words, target.unit, self._binding(target))
            self.fields[target.key].setPlaceholderText(target.hint)
        read = number(50.0, 20000.0, "ml")
        bottle = Binding(_BOTTLE, "change the bottle", read, self._put_bottle)
        self._add(len(_TARGETS), "bottle", "A bottle holds", "mL", bottle)
        self.drink_from = FigureLabel(
            "Ready by this must, months after bottling", left=True, by_tab=True
        )
        self.drink_from.workings_wanted.connect(self.workings_wanted)
        row = len(_TARGETS) // 2 * _LINES
        self._grid.addWidget(label("this must", "muted", small=True), row, 3)
        self._grid.addWidget(self.drink_from, row, 4, 1, 2)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 8, 8, 8)
        column.addLayout(self._grid)

    def _add(self, place: int, key: str, words: str, unit: str, binding: Binding[Any]) -> None:
        field = Field(f"Wanted: {words}, {unit}" if key != "bottle" else "What a bottle holds, mL")
        field.bind(binding)
        field.edit_wanted.connect(self.edit_wanted)
        field.refused.connect(lambda _said, row=place // 2: self._show_refusal(row))
        field.setMinimumWidth(_LEAST_WIDTH)
        caption = label(words, "muted", small=True)
        caption.setBuddy(field)
        row, column = place // 2 * _LINES, place % 2 * 3
        if column == 0:
            said = self.refusals[place // 2] = label(wraps=True, small=True)
            said.hide()
            self._grid.addWidget(said, row + 1, 0, 1, 6)
        self._grid.addWidget(caption, row, column)
        self._grid.addWidget(field, row, column + 1)
        self._grid.addWidget(label(unit, "muted", small=True), row, column + 2)
        self.fields[key] = field

    def _binding(self, target: _Target) -> Binding[Any]:
        place = f"targets:{target.key}"
        words = f"change the wanted {target.words.removeprefix('or ').lower()}"

        def edit(value: Any) -> Edit:
            assert self._project is not None
            targets = changed(self._project.recipe.targets, **target.fields(value))
            put = ChangeRecipe(label=words, fields={"targets": targets})
            # What was typed to be reached before was of the former target.
            old = [each for each in _REACHED.get(target.key, (target.key,))
                   if draft(self._project, f"reach:{each}") is not None]  # fmt: skip
            forget = (KeepDraft(label=words, place=f"reach:{each}", text="") for each in old)
            return Several(label=words, edits=(put, *forget)) if old else put

        return Binding(place, words, target.read, edit, empty=True)

    def _put_bottle(self, value: float | None) -> Change:
        assert self._project is not None
        make = changed(self._project.make, bottle_ml=value)
        return Change(label="change the bottle", fields={"make": make})

    def show_project(self, project: Project) -> None:
        """Show the targets as they are now."""
        self._project = project
        for target in _TARGETS:
            text = target.text(project.recipe.targets)
            self.fields[target.key].show_text(text, draft(project, f"targets:{target.key}"))
        bottle = number_text(project.make.bottle_ml)
        self.fields["bottle"].show_text(bottle, draft(project, _BOTTLE))

    def show_outlook(self, outlook: Outlook) -> None:
        """Show when the wine is ready by what it is made of, beside when it is wanted."""
        self.drink_from.show_figure(outlook.bottles.drink_from)

    def focus_first(self) -> None:
        """Put the keyboard into the first field."""
        next(iter(self.fields.values())).setFocus(Qt.FocusReason.OtherFocusReason)

    def _show_refusal(self, row: int) -> None:
        fields = list(self.fields.values())[2 * row : 2 * row + 2]
        said, words = self.refusals[row], [each.refusal for each in fields if each.refusal]
        said.setText("\n".join(words))
        said.setVisible(bool(words))
        if words and any(each.hasFocus() for each in fields):
            self.told.emit(said)
