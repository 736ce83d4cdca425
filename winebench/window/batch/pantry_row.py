"""One thing of the shopping list: what is needed, what is in stock, what it costs."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from winebench.model.edits import Change
from winebench.model.project import Project
from winebench.model.stock import PantryItem
from winebench.plan.outlook import ShoppingItem
from winebench.plan.shopping.items import PAST, past_keeping
from winebench.plan.shopping.pantry import entry, pantry_with, pantry_without, thing_name
from winebench.plan.shopping.typed_stock import amount_of, before, price_in
from winebench.plan.typed.numbers import number_text
from winebench.window.batch.days import day_text, read_day
from winebench.window.document import Document
from winebench.window.parts.field import Binding, Field
from winebench.window.parts.words import Elided, button, give_role, label
from winebench.window.recipe.row import draft

FIELDS = ("have", "pack", "price", "opened")
_WORDS = {"have": "in stock", "pack": "a pack holds", "price": "price", "opened": "opened on"}
_WIDTHS = {"have": 110, "pack": 110, "price": 76, "opened": 100}
_COLUMNS = {"have": 2, "pack": 3, "price": 4, "opened": 6}
_OF, _BUY, _LEFT, _COST, COLUMNS = 5, 7, 8, 9, 10
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class PantryRow:
    """The widgets of one thing, to be put into a grid; its fields edit at every key."""

    def __init__(self, document: Document, what: str, nth: int, item: ShoppingItem | None) -> None:
        self._document = document
        self.key = (what, nth)
        self._unit = item.unit if item else "g"
        self.name = Elided(role="strong")
        self.need, self.of = label(), label(role="muted", small=True)
        self.buy, self.left, self.cost = label(role="strong"), label(role="muted"), label()
        self.note = label(role="muted", wraps=True, small=True)
        self.fields = {name: self._field(name) for name in FIELDS}
        self.take_out = button("Take out", f"Take {thing_name(what)} out", self._take_out, "quiet")
        self.take_out.setVisible(item is None)
        self.cost.setAlignment(_RIGHT)
        self._needed = item is not None

    def _field(self, name: str) -> Field:
        what, nth = self.key
        field = Field(f"{thing_name(what)}, {_WORDS[name]}")
        field.setMinimumHeight(26)
        field.setFixedWidth(_WIDTHS[name])
        said = f"change: {thing_name(what).lower()}, {_WORDS[name]}"

        def edit(value: Any) -> Change:
            pantry = pantry_with(self._document.project, what, nth, **{name: value})
            if self._needed:  # its row stays without an entry of nothing
                pantry = tuple(each for each in pantry if each != PantryItem(what=what))
            return Change(label=said, fields={"pantry": pantry})

        field.bind(Binding(self._place(name), said, self._reader(name), edit, empty=True))
        field.edit_wanted.connect(self._document.edit)
        return field

    def _place(self, name: str) -> str:
        what, nth = self.key
        return f"pantry:{what}{f'#{nth}' if nth else ''}:{name}"

    def _reader(self, name: str) -> Callable[[str], Any]:
        if name in ("have", "pack"):
            return amount_of(self._unit)
        if name == "price":
            return lambda text: price_in(self._document.project.money)(text)
        return lambda text: read_day(text, before(self._document.now().date()))

    def _take_out(self) -> None:
        what, nth = self.key
        pantry = pantry_without(self._document.project, what, nth)
        said = f"take {thing_name(what).lower()} out of the pantry"
        self._document.edit(Change(label=said, fields={"pantry": pantry}))

    def put(self, grid: QGridLayout, row: int) -> None:
        """Put the widgets into two rows of the grid: the figures, and what is to be said."""
        grid.addWidget(self.name, row, 0)
        grid.addWidget(self.need, row, 1)
        for name, field in self.fields.items():
            grid.addWidget(field, row, _COLUMNS[name])
        grid.addWidget(self.of, row, _OF)
        if self._needed:
            grid.addWidget(self.buy, row, _BUY)
            grid.addWidget(self.left, row, _LEFT)
            grid.addWidget(self.cost, row, _COST)
        else:
            grid.addWidget(self.take_out, row, _BUY, 1, COLUMNS - _BUY, _RIGHT)
        grid.addWidget(self.note, row + 1, 1, 1, COLUMNS - 1)

    def widgets(self) -> list[QWidget]:
        """Return all that it put into the grid."""
        parts = [self.name, self.need, self.of, self.buy, self.left, self.cost, self.note]
        return [*parts, self.take_out, *self.fields.values()]

    def show(self, project: Project, item: ShoppingItem | None, day: date) -> None:
        """Show the thing as it is now; `item` is None where the batch does not need it."""
        what, nth = self.key
        found = entry(project, what, nth)
        for name, field in self.fields.items():
            field.show_text(_text(found, name), draft(project, self._place(name)))
        ages = bool(item and item.keeping) or found.opened is not None
        self.fields["opened"].setVisible(ages or self.fields["opened"].text() != "")
        self.name.say(item.name if item else thing_name(what))
        if item is None:
            self.need.setText("counted above" if nth else "not for this batch")
            self.note.hide()
            return
        self.need.setText(item.need)
        self.of.setText(item.price_of)
        self.buy.setText(item.buy_text or "nothing")
        give_role(self.buy, "strong" if item.buy_text else "muted")
        self.left.setText(item.left_text)
        self.cost.setText(item.cost_text)
        past = past_keeping(item, day)
        keeping = item.keeping if item.keeps_until else ""
        words = " ".join(filter(None, (keeping, PAST if past else "", *item.notes)))
        give_role(self.note, "asking" if past else "muted")
        self.note.setText(words)
        self.note.setVisible(bool(words))

    def refusals(self) -> list[str]:
        """Return what is typed and cannot be read: where, and why."""
        return [
            f"{field.accessibleName()}: {field.refusal}"
            for field in self.fields.values()
            if field.refusal
        ]


def _text(item: PantryItem, name: str) -> str:
    if name == "price":
        return number_text(item.price)
    if name == "opened":
        return day_text(item.opened) if item.opened else ""
    amount = item.have if name == "have" else item.pack
    return amount.text.strip() if amount else ""
