"""What the scribbled lines were taken for, row by row."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import (
    QTableWidget,
    QTableWidgetItem,
    QWidget,
)

from winebench.plan.scribbles import Scribble
from winebench.window.parts.wrapped_rows import wrap_rows
from winebench.window.theme import theme

_WIDEST, _AIR = "Wed 30 Nov 2026 20:00", 24
_NUMBER = Qt.ItemDataRole.UserRole


class Preview(QTableWidget):
    """Two columns: when, and what will be logged or what is asked."""

    line_chosen = Signal(int)
    """The number of the line whose row was chosen."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(0, 2, parent)
        self.setAccessibleName("What will be logged")
        self.setHorizontalHeaderLabels(["When", "What will be logged"])
        wrap_rows(self)
        self.setColumnWidth(0, QFontMetrics(theme().base_font()).horizontalAdvance(_WIDEST) + _AIR)
        self.cellClicked.connect(self._choose)

    def show_lines(self, lines: tuple[Scribble, ...]) -> None:
        """Show these lines; the rows keep their places."""
        self.setRowCount(len(lines))
        for row, line in enumerate(lines):
            self._put(row, 0, line, line.when or f"line {line.number}: when?")
            self._put(row, 1, line, says(line))

    def show_line(self, number: int) -> None:
        """Mark the row of that line, where it has one."""
        for row in range(self.rowCount()):
            item = self.item(row, 0)
            if item is not None and item.data(_NUMBER) == number:
                self.selectRow(row)
                self.scrollToItem(item)
                return
        self.clearSelection()

    def _put(self, row: int, column: int, line: Scribble, words: str) -> None:
        item = QTableWidgetItem(words)
        item.setData(_NUMBER, line.number)
        item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        palette = theme().palette
        if line.trouble:
            item.setBackground(palette.straw_wash)
        if line.known or line.heading:
            item.setForeground(palette.muted)
        self.setItem(row, column, item)

    def _choose(self, row: int, _column: int) -> None:
        item = self.item(row, 0)
        if item is not None:
            self.line_chosen.emit(item.data(_NUMBER))


def says(line: Scribble) -> str:
    """Return what a line was taken for, or what is asked about it."""
    if line.trouble:
        return f"? {line.trouble}"
    if line.heading:
        return "the day of the lines below"
    words = [*line.what, *(f"~ {doubt}" for doubt in line.doubts)]
    return "\n".join([*words, "in the log already"] if line.known else words)
