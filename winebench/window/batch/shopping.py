"""Shopping and pantry: what the batch needs, what is in stock, what to buy and what it costs."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QGuiApplication, QKeyEvent
from PySide6.QtWidgets import (
    QDialog,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from winebench.model.edits import Change
from winebench.output.label_count import labels_sentence
from winebench.plan.outlook import LaterDose, Outlook, ShoppingItem
from winebench.plan.shopping.pantry import beside_the_list
from winebench.plan.shopping.text import LATER, missing, shopping_lines
from winebench.plan.shopping.typed_stock import money_name
from winebench.window.batch.new_thing import NewThing
from winebench.window.batch.pantry_row import COLUMNS, NOT_OWN, PantryRow
from winebench.window.document import Document
from winebench.window.parts.field import Binding, Field
from winebench.window.parts.settling import settle_at
from winebench.window.parts.undo_keys import undone
from winebench.window.parts.words import button, heading, label
from winebench.window.recipe.row import draft

_HEADS = (
    "",
    "Needed",
    "In stock",
    "A pack holds",
    "Price",
    "",
    "Opened",
    "To buy",
    "Left over",
    "Cost",
)
_WIDTHS = (170, 146, 110, 110, 92, 44, 100, 134, 90, 84)
_BESIDE = 64
"""Margins of the page and the bar at its side."""
_TEACH = (
    "What the batch needs at its size, less what is in stock. A bare price is of what stands "
    "beside it; or write it, such as 3.50 a lb. When a pack was opened may be a day, a month or a "
    "year."
)
_MONEY = "batch:money"
Key = tuple[str, int]
"""Name of a thing and the number of its pantry entry."""


class ShoppingDialog(QDialog):
    """A sheet of fields that take effect as they are typed; Escape closes it."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Shopping and pantry")
        self._document = document
        self.rows: dict[Key, PantryRow] = {}
        self._built: object = None
        """What the rows were made for."""
        self.money = self._money_field()
        self.new = NewThing(document)
        self.new.added.connect(self._go_to)
        self.refusal = label(wraps=True)
        room = self.refusal.sizePolicy()
        room.setRetainSizeWhenHidden(True)  # no field moves from under a pointer
        self.refusal.setSizePolicy(room)
        self.refusal.hide()
        self.new.refused.connect(self._say)
        self.looks = label(role="muted", wraps=True)
        self.cost = label(role="strong", wraps=True)
        self.copied = label(role="muted")
        self._area = QScrollArea()
        self._sheet = QWidget()
        self._grid = QGridLayout(self._sheet)
        self._heads: list[QWidget] = []
        self._arrange()
        document.outlook_changed.connect(self._show)
        document.replaced.connect(self.reject)
        settle_at(self.finished, document, "pantry:", _MONEY)
        if document.outlook is not None:
            self._show(document.outlook)
        first = next(iter(self.rows.values()), None)
        (first.take_focus if first else self.new.setFocus)()

    def _money_field(self) -> Field:
        field = Field("Prices are in")
        said = "change: prices are in"
        field.bind(
            Binding(
                _MONEY,
                said,
                money_name,
                lambda value: Change(label=said, fields={"money": value or ""}),
                empty=True,
            )
        )
        field.edit_wanted.connect(self._document.edit)
        field.setPlaceholderText("EUR, $ …")
        field.setFixedWidth(84)
        field.setMinimumHeight(26)
        return field

    def _arrange(self) -> None:
        grid = self._grid
        grid.setContentsMargins(0, 0, 8, 0)
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(3)
        screen = self.screen().availableSize()
        self.resize(min(1240, screen.width() - 40), min(700, screen.height() - 60))
        share = min((self.width() - _BESIDE - 8 * COLUMNS) / sum(_WIDTHS), 1.0)
        for column, width in enumerate(_WIDTHS):
            grid.setColumnMinimumWidth(column, int(width * share))
        self._share = share
        grid.setColumnStretch(0, 1)
        area = self._area
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setWidgetResizable(True)
        area.setWidget(self._sheet)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        top = QHBoxLayout()
        top.setSpacing(8)
        top.addWidget(label(_TEACH, "muted", wraps=True), 1)
        prices = label("Prices are in", "muted")
        prices.setBuddy(self.money)
        top.addWidget(prices)
        top.addWidget(self.money)
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addWidget(self.copied, 1)
        foot.addWidget(button("Copy as text", "Copy the shopping list as text", self.copy))
        foot.addWidget(button("Close", "Close", self.accept))
        also = QHBoxLayout()
        also.setSpacing(8)
        in_stock = label("&Also in stock", "muted")
        in_stock.setBuddy(self.new)
        also.addWidget(in_stock)
        also.addWidget(self.new)
        also.addWidget(label("Enter puts it into the pantry", "muted", small=True), 1)
        self.new.setFixedWidth(300)
        page = QVBoxLayout(self)
        page.setContentsMargins(20, 16, 20, 16)
        page.setSpacing(10)
        page.addLayout(top)
        page.addLayout(also)  # above what grows and shrinks with each key: it stays where it is
        page.addWidget(area, 1)
        for said in (self.refusal, self.looks, self.cost):
            page.addWidget(said)
        page.addLayout(foot)

    def _show(self, outlook: Outlook) -> None:
        project = self._document.project
        items = _rows_of(outlook)
        beside = list(beside_the_list(project, [what for what, _nth in items]))
        suggested = frozenset(key for key, item in items.items() if item.suggested)
        out = frozenset(item.what for item in project.pantry if item.left_out)
        wanted = ([*items, *beside], suggested, out)
        if wanted != self._built:
            self._built = wanted
            self._build(items, beside)
        for key, row in self.rows.items():
            row.show(project, items.get(key), outlook.at.date())
        self.money.show_text(project.money, draft(project, _MONEY))
        self.new.show_draft()
        refusals = [self.money.refusal] if self.money.refusal else []
        refusals += [said for row in self.rows.values() for said in row.refusals()]
        self.refusal.setText("\n".join(refusals))
        self.refusal.setVisible(bool(refusals))
        cost = outlook.bottles.cost
        self.cost.setText(cost.sentence if cost else "")
        looks = (*missing(outlook), labels_sentence(project, outlook.bottles.bottles))
        self.looks.setText("\n".join(filter(None, looks)))
        self.looks.setVisible(bool(self.looks.text()))
        self.copied.clear()

    def _build(self, items: dict[Key, ShoppingItem], beside: list[Key]) -> None:
        """Make the rows anew: the recipe or the pantry has other things than before."""
        held = next((key for key, row in self.rows.items() if row.has_focus()), None)
        for row in self.rows.values():
            for widget in row.widgets():
                widget.deleteLater()
        for each in self._heads:
            each.deleteLater()
        self.rows = {
            key: PantryRow(self._document, *key, items.get(key)) for key in (*items, *beside)
        }
        self._heads = [label(words, "muted", small=True) for words in _HEADS]
        for column, head in enumerate(self._heads):
            side = (
                Qt.AlignmentFlag.AlignRight if column == COLUMNS - 1 else Qt.AlignmentFlag.AlignLeft
            )
            self._grid.addWidget(head, 0, column, side)
        later = next((key for key, item in items.items() if isinstance(item, LaterDose)), None)
        titles = {later: LATER, next(iter(beside), None): "Also in stock, or left out"}
        place = 1
        for key, row in self.rows.items():
            if key in titles:
                also = heading(titles[key], 13)
                also.setContentsMargins(0, 10, 0, 2)
                self._heads.append(also)
                self._grid.addWidget(also, place, 0, 1, COLUMNS)
                place += 1
            row.put(self._grid, place, self._share)
            place += 2
        for former in range(self._grid.rowCount()):
            self._grid.setRowStretch(former, 0)
        self._grid.setRowStretch(place, 1)
        self._connect()
        if held is not None:  # its row may be gone, or somewhere else
            next_to = self.rows.get(held) or next(iter(self.rows.values()), None)
            (next_to.take_focus if next_to else self.new.setFocus)()

    def _connect(self) -> None:
        """Let Enter and the arrows go from row to row in one column."""
        rows = list(self.rows.values())
        for number, row in enumerate(rows):
            for name in row.fields:
                row.fields[name].next_row_wanted.connect(
                    lambda by, number=number, name=name: self._step(rows, number, by, name)
                )

    def _step(self, rows: list[PantryRow], number: int, by: int, name: str) -> None:
        """Go to the next row, in that direction, that has such a field."""
        beyond = rows[number + 1 :] if by > 0 else rows[:number][::-1]
        fields = (row.fields[name] for row in beyond if name in row.fields)
        field = next((each for each in fields if each.isVisible()), None)
        if field is not None:
            field.setFocus(Qt.FocusReason.TabFocusReason)

    def _go_to(self, what: str) -> None:
        row = self.rows.get((what, 0))
        if row is not None:
            row.take_focus()
            # Its place is known once the sheet is laid out anew.
            QTimer.singleShot(0, self, lambda: self._area.ensureWidgetVisible(row.name, 0, 40))

    def _say(self, sentence: str) -> None:
        self.refusal.setText(sentence)
        self.refusal.setVisible(True)

    def copy(self) -> None:
        """Put the list on the clipboard as plain text."""
        outlook = self._document.outlook
        if outlook is not None:
            labels = labels_sentence(self._document.project, outlook.bottles.bottles)
            QGuiApplication.clipboard().setText("\n".join(shopping_lines(outlook, labels)))
            self.copied.setText("Copied: paste it into a message.")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Undo and redo here too."""
        if not undone(event, self._document):
            super().keyPressEvent(event)


def _rows_of(outlook: Outlook) -> dict[Key, ShoppingItem]:
    """Return what the batch needs by its row, what goes in later after the rest."""
    rows: dict[Key, ShoppingItem] = {(item.what, 0): item for item in outlook.shopping}
    for dose in outlook.later:
        rows[dose.what, NOT_OWN if (dose.what, 0) in rows else 0] = dose
    return rows
