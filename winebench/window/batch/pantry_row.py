"""One thing of the shopping list: what is needed, what is in stock, what it costs."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QPushButton, QWidget

from winebench.model.edits import Change
from winebench.model.project import Project
from winebench.model.stock import PantryItem
from winebench.plan.outlook import ShoppingItem
from winebench.plan.shopping.items import past_keeping
from winebench.plan.shopping.pantry import (
    entry,
    left_out,
    pantry_leaving_out,
    pantry_with,
    pantry_without,
    thing_name,
)
from winebench.plan.shopping.pantry_typed import FIELDS, place_of
from winebench.plan.shopping.text import note_of, to_buy
from winebench.plan.shopping.typed_stock import amount_of, opened_by, price_in
from winebench.window.document import Document
from winebench.window.parts.field import Binding, Field
from winebench.window.parts.words import Elided, button, give_role, label
from winebench.window.recipe.row import draft

NOT_OWN = -1
"""Number of a row whose stock is noted in a row above it."""
_WORDS = {"have": "in stock", "pack": "a pack holds", "price": "price", "opened": "opened on"}
_WIDTHS = {"have": 110, "pack": 110, "price": 92, "opened": 100}
_COLUMNS = {"have": 2, "pack": 3, "price": 4, "opened": 6}
_OF, _BUY, _LEFT, _COST, COLUMNS = 5, 7, 8, 9, 10
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class PantryRow:
    """The widgets of one thing, to be put into a grid; its fields edit at every key."""

    def __init__(self, document: Document, what: str, nth: int, item: ShoppingItem | None) -> None:
        self._document = document
        self.key = (what, nth)
        self._unit = item.unit if item else "g"
        self.name = Elided(role="strong", lines=2)
        self.need, self.of = label(wraps=True), label(role="muted", wraps=True, small=True)
        self.had = label(role="muted")
        self.buy, self.left = label(role="strong", wraps=True), label(role="muted", wraps=True)
        self.cost = label(wraps=True)
        self.note = label(role="muted", wraps=True, small=True)
        self.fields = {} if nth == NOT_OWN else {name: self._field(name) for name in FIELDS}
        self.act = self._button(item)
        self.cost.setAlignment(_RIGHT)
        self._needed = item is not None
        self._item = item

    def _button(self, item: ShoppingItem | None) -> QPushButton:
        """Return what takes the thing off the list or the pantry, hidden where nothing may."""
        what, _nth = self.key
        name = thing_name(what)
        if item is None and left_out(self._document.project, what):
            return button("Put back", f"Put {name} back", lambda: self._leave(out=False), "quiet")
        if item is None:
            return button("Take out", f"Take {name} out", self._take_out, "quiet")
        made = button("Leave out", f"Leave {name} out", lambda: self._leave(out=True), "quiet")
        made.setVisible(item.suggested)
        return made

    def _leave(self, *, out: bool) -> None:
        what, _nth = self.key
        said = f"{'leave out' if out else 'put back'} {thing_name(what).lower()}"
        pantry = pantry_leaving_out(self._document.project, what, out=out)
        self._document.edit(Change(label=said, fields={"pantry": pantry}))

    def _field(self, name: str) -> Field:
        what, nth = self.key
        field = Field(f"{thing_name(what)}, {_WORDS[name]}")
        field.setMinimumHeight(26)
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
        return place_of(what, nth, name)

    def _reader(self, name: str) -> Callable[[str], Any]:
        if name in ("have", "pack"):
            return amount_of(self._unit)
        if name == "price":
            return lambda text: price_in(self._document.project.money, self._bare_of())(text)
        return lambda text: opened_by(self._document.now().date())(text)

    def _bare_of(self) -> str:
        """Return what a bare price is kept with: "a lb" where the batch is in pounds."""
        of = self._item.sold_by if self._item else ""
        return of if of in ("a lb", "a gal") else ""

    def _take_out(self) -> None:
        what, nth = self.key
        pantry = pantry_without(self._document.project, what, nth)
        said = f"take {thing_name(what).lower()} out of the pantry"
        self._document.edit(Change(label=said, fields={"pantry": pantry}))

    def put(self, grid: QGridLayout, row: int, share: float = 1.0) -> None:
        """Put the widgets into two rows of the grid: the figures, and what is to be said.

        On a small screen each column is that share as wide.
        """
        for name, field in self.fields.items():
            field.setFixedWidth(int(_WIDTHS[name] * share))
        grid.addWidget(self.name, row, 0)
        grid.addWidget(self.need, row, 1)
        for name, field in self.fields.items():
            grid.addWidget(field, row, _COLUMNS[name])
        if self.fields:
            grid.addWidget(self.of, row, _OF)
        else:
            grid.addWidget(self.had, row, _COLUMNS["have"], 1, _BUY - _COLUMNS["have"])
        if self._needed:
            grid.addWidget(self.buy, row, _BUY)
            grid.addWidget(self.left, row, _LEFT)
            grid.addWidget(self.cost, row, _COST)
            grid.addWidget(self.act, row + 1, 0, Qt.AlignmentFlag.AlignLeft)
        else:
            grid.addWidget(self.act, row, _BUY, 1, COLUMNS - _BUY, _RIGHT)
        grid.addWidget(self.note, row + 1, 1, 1, COLUMNS - 1)

    def widgets(self) -> list[QWidget]:
        """Return all that it put into the grid."""
        parts = [self.name, self.need, self.of, self.had, self.buy, self.left, self.cost, self.note]
        return [*parts, self.act, *self.fields.values()]

    def has_focus(self) -> bool:
        """Return whether the keyboard is in this row."""
        return any(widget.hasFocus() for widget in self.widgets())

    def take_focus(self) -> None:
        """Put the keyboard into the row's first field, else on its button."""
        first = next(iter(self.fields.values()), None) or self.act
        first.show()  # a widget made a moment ago is not shown yet, and could not take it
        first.setFocus(Qt.FocusReason.OtherFocusReason)

    def show(self, project: Project, item: ShoppingItem | None, day: date) -> None:
        """Show the thing as it is now; `item` is None where the batch does not need it."""
        what, nth = self.key
        self._item = item
        found = entry(project, what, max(nth, 0))
        for name, field in self.fields.items():
            field.show_text(_text(found, name), draft(project, self._place(name)))
            if name == "opened":
                ages = bool(item and item.keeping) or found.opened is not None
                field.setVisible(ages or field.text() != "")
        self.name.say(item.name if item else thing_name(what))
        if item is None:
            over = "no more for this batch" if project.done("pitch") else "not for this batch"
            out = "left out of the list" if found.left_out else over
            self.need.setText("counted above" if nth else out)
            self.note.hide()
            return
        self.need.setText(item.need)
        self.had.setText(item.stock_text or "stock and price: in the row above")
        typed = self.fields["price"].text().strip() if self.fields else ""
        self.of.setText(item.price_of or (item.sold_by if typed[-1:].isdigit() else ""))
        buy = to_buy(item, day)
        self.buy.setText(buy or "nothing")
        give_role(self.buy, "strong" if buy else "muted")
        self.left.setText(item.left_text)
        self.cost.setText(item.cost_text)
        words = note_of(item, day)
        give_role(self.note, "asking" if past_keeping(item, day) else "muted")
        self.note.setText(words)
        self.note.setVisible(bool(words))

    def refusals(self) -> list[str]:
        """Return what is typed and cannot be read: where, and why."""
        return [
            f"{field.accessibleName()}: {field.refusal} Until it can be read it is not counted."
            for field in self.fields.values()
            if field.refusal
        ]


def _text(item: PantryItem, name: str) -> str:
    typed = {"have": item.have, "pack": item.pack, "price": item.price, "opened": item.opened}[name]
    return typed.text.strip() if typed else ""
