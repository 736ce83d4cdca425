"""The fields of a form, each with its words before it: two beside each other where words fit."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QWidget

from winebench.window.logging.controls import caption

_LEAST = 176
"""Room for about twenty letters: less is no field for words, px."""
_GAP = 8


class _Asked(NamedTuple):
    said: QLabel
    typed: QLineEdit
    wide: bool


class FieldGrid(QWidget):
    """One column or two, by the room there is; a field for many words has a row of its own."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._asked: list[_Asked] = []
        self._columns = 0
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(_GAP)
        self._grid.setVerticalSpacing(4)

    def add(self, words: str, typed: QLineEdit, *, wide: bool = False) -> None:
        """Take a field in as the last one; call `place` when all are there."""
        typed.setMinimumWidth(120)
        self._asked.append(_Asked(caption(words, typed), typed, wide))
        self._columns = 0

    def place(self) -> None:
        """Put the fields where there is room for them."""
        said = max((each.said.sizeHint().width() for each in self._asked), default=0)
        columns = 2 if self.width() >= 2 * (said + _LEAST) + 3 * _GAP else 1
        if columns == self._columns:
            return
        self._columns = columns
        while self._grid.count():
            self._grid.takeAt(0)
        row, column = 0, 0
        for each in self._asked:
            if each.wide and column:
                row, column = row + 1, 0
            span = 2 * columns - 1 if each.wide else 1
            self._grid.addWidget(each.said, row, 2 * column)
            self._grid.addWidget(each.typed, row, 2 * column + 1, 1, span)
            column += columns if each.wide else 1
            if column >= columns:
                row, column = row + 1, 0
        for side in range(2):
            self._grid.setColumnStretch(2 * side + 1, 1 if side < columns else 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Place the fields anew where another width has room for more or fewer."""
        super().resizeEvent(event)
        self.place()
