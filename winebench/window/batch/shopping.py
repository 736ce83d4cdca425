"""Shopping and pantry: what the batch needs, what is in stock, what to buy and what it costs."""

from __future__ import annotations

from PySide6.QtCore import Qt
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
from winebench.plan.outlook import Outlook
from winebench.plan.shopping.pantry import beside_the_list
from winebench.plan.shopping.text import LATER, shopping_lines
from winebench.window.batch.pantry_row import COLUMNS, FIELDS, PantryRow
from winebench.window.document import Document
from winebench.window.parts.field import Binding, Field
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
    "Opened on",
    "To buy",
    "Left over",
    "Cost",
)
_WIDTHS = (170, 146, 110, 110, 76, 44, 100, 134, 90, 84)
_TEACH = (
    "What the batch needs at its size, less what is in stock. A price is of one pack; where no "
    "pack is named, of 1 kg, of 1 L, or of one."
)
_MONEY = "batch:money"


class ShoppingDialog(QDialog):
    """A sheet of fields that take effect as they are typed; Escape closes it."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Shopping and pantry")
        self._document = document
        self.rows: dict[tuple[str, int], PantryRow] = {}
        self.money = self._money_field()
        self.refusal = label(wraps=True)
        self.later = label(role="muted", wraps=True)
        self.cost = label(role="strong", wraps=True)
        self.copied = label(role="muted")
        self._sheet = QWidget()
        self._grid = QGridLayout(self._sheet)
        self._heads: list[QWidget] = []
        self._arrange()
        document.outlook_changed.connect(self._show)
        document.replaced.connect(self.reject)
        if document.outlook is not None:
            self._show(document.outlook)
        self._focus_first()

    def _money_field(self) -> Field:
        field = Field("Prices are in")
        said = "change: prices are in"
        field.bind(
            Binding(
                _MONEY,
                said,
                str.strip,
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
        for column, width in enumerate(_WIDTHS):
            grid.setColumnMinimumWidth(column, width)
        grid.setColumnStretch(0, 1)
        area = QScrollArea()
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
        page = QVBoxLayout(self)
        page.setContentsMargins(20, 16, 20, 16)
        page.setSpacing(10)
        page.addLayout(top)
        page.addWidget(area, 1)
        for said in (self.refusal, self.later, self.cost):
            page.addWidget(said)
        page.addLayout(foot)
        room = self.screen().availableSize()
        self.resize(min(1240, room.width() - 40), min(640, room.height() - 60))

    def _show(self, outlook: Outlook) -> None:
        project = self._document.project
        items = {(item.what, 0): item for item in outlook.shopping}
        beside = list(beside_the_list(project, [item.what for item in outlook.shopping]))
        if list(self.rows) != [*items, *beside]:
            self._build(outlook, beside)
        for key, row in self.rows.items():
            row.show(project, items.get(key), outlook.at.date())
        self.money.show_text(project.money, draft(project, _MONEY))
        refusals = [said for row in self.rows.values() for said in row.refusals()]
        self.refusal.setText("\n".join(refusals))
        self.refusal.setVisible(bool(refusals))
        cost = outlook.bottles.cost
        self.cost.setText(cost.sentence if cost else "")
        doses = "\n".join(dose.sentence for dose in outlook.later)
        self.later.setText(f"{LATER}:\n{doses}")
        self.later.setVisible(bool(doses))
        self.copied.clear()

    def _build(self, outlook: Outlook, beside: list[tuple[str, int]]) -> None:
        """Make the rows anew: the recipe or the pantry has other things than before."""
        for row in self.rows.values():
            for widget in row.widgets():
                widget.deleteLater()
        for each in self._heads:
            each.deleteLater()
        items = {(item.what, 0): item for item in outlook.shopping}
        self.rows = {
            key: PantryRow(self._document, *key, items.get(key)) for key in (*items, *beside)
        }
        self._heads = [label(words, "muted", small=True) for words in _HEADS]
        for column, head in enumerate(self._heads):
            side = (
                Qt.AlignmentFlag.AlignRight if column == COLUMNS - 1 else Qt.AlignmentFlag.AlignLeft
            )
            self._grid.addWidget(head, 0, column, side)
        place = 1
        for key, row in self.rows.items():
            if beside and key == beside[0]:
                also = heading("Also in stock", 13)
                self._heads.append(also)
                self._grid.addWidget(also, place, 0, 1, COLUMNS)
                place += 1
            row.put(self._grid, place)
            place += 2
        self._grid.setRowStretch(place, 1)
        self._connect()

    def _connect(self) -> None:
        """Let Enter and the arrows go from row to row in one column."""
        rows = list(self.rows.values())
        for number, row in enumerate(rows):
            for name in FIELDS:
                row.fields[name].next_row_wanted.connect(
                    lambda by, number=number, name=name: self._step(rows, number, by, name)
                )

    def _step(self, rows: list[PantryRow], number: int, by: int, name: str) -> None:
        """Go to the next row, in that direction, that has such a field."""
        beyond = rows[number + 1 :] if by > 0 else rows[:number][::-1]
        field = next((row.fields[name] for row in beyond if row.fields[name].isVisible()), None)
        if field is not None:
            field.setFocus(Qt.FocusReason.TabFocusReason)

    def _focus_first(self) -> None:
        for row in self.rows.values():
            row.fields["have"].setFocus(Qt.FocusReason.OtherFocusReason)
            return

    def copy(self) -> None:
        """Put the list on the clipboard as plain text."""
        outlook = self._document.outlook
        if outlook is not None:
            QGuiApplication.clipboard().setText("\n".join(shopping_lines(outlook)))
            self.copied.setText("Copied: paste it into a message.")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Undo and redo here too."""
        if not undone(event, self._document):
            super().keyPressEvent(event)
