"""A dialog with a list whose rows come one after the other, and a button that takes one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Generic, TypeVar

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from winebench.window.parts.words import button, label
from winebench.window.parts.wrapped_rows import wrap_rows

T = TypeVar("T")


class Listing(QDialog, Generic[T]):
    """What is listed may be slow to work out: the window never stands still meanwhile."""

    def __init__(self, title: str, columns: dict[str, int], words: str, parent: QWidget) -> None:
        """Make the list; `columns` are its headings with their widths, 0 for what is left."""
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(title)
        self.found: dict[int, T] = {}
        """What stands in each row that can be chosen."""
        self.list = QTableWidget(0, len(columns))
        self.said = label(wraps=True)
        self.leave = button("Close", f"Close: {title}", self.reject, "quiet")
        self.take = button("", "", self.take_chosen, "act")
        self._coming: Iterator[T] = iter(())
        self._timer = QTimer(self)
        self._timer.timeout.connect(self._next)
        self._arrange(title, columns, words)
        self.list.currentCellChanged.connect(self._tell)
        self.list.cellDoubleClicked.connect(self.take_chosen)

    def _arrange(self, title: str, columns: dict[str, int], words: str) -> None:
        view = self.list
        view.setAccessibleName(title)
        view.setHorizontalHeaderLabels(list(columns))
        wrap_rows(view)
        for place, width in enumerate(columns.values()):
            if width:
                view.setColumnWidth(place, width)
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addWidget(self.said, 1)
        foot.addWidget(self.leave)
        foot.addWidget(self.take)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 16, 20, 16)
        column.setSpacing(10)
        column.addWidget(label(words, "muted", wraps=True))
        column.addWidget(view, 1)
        column.addLayout(foot)
        self.take.setEnabled(False)
        self.take.setDefault(True)  # Enter in the list

    def begin(self, coming: Iterator[T]) -> None:
        """List what comes, one at a time."""
        self._coming = coming
        self._timer.start(0)

    @property
    def busy(self) -> bool:
        """Return whether more rows are to come."""
        return self._timer.isActive()

    def _next(self) -> None:
        try:
            found = next(self._coming, None)
        except (ValueError, ArithmeticError) as problem:
            self.said.setText(str(problem))
            self._timer.stop()
            return
        if found is None:
            self._timer.stop()
            self.end()
        else:
            self.add(found)

    def add_row(self, words: tuple[str, ...]) -> tuple[int, list[QTableWidgetItem]]:
        """Add a row of words; return its place and its items."""
        row = self.list.rowCount()
        self.list.insertRow(row)
        items = [QTableWidgetItem(each) for each in words]
        for column, item in enumerate(items):
            item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
            self.list.setItem(row, column, item)
        return row, items

    def choose_first(self, row: int) -> None:
        """Choose that row where none is chosen yet."""
        if self.list.currentRow() < 0:
            self.list.setCurrentCell(row, 0)
            self.list.setFocus()

    @property
    def chosen(self) -> T | None:
        """Return what stands in the chosen row."""
        return self.found.get(self.list.currentRow())

    def _tell(self, *_cells: int) -> None:
        found = self.chosen
        self.take.setEnabled(found is not None and self.can_take(found))
        if found is not None:
            self.said.setText(self.words_of(found))

    def take_chosen(self, *_cells: int) -> None:
        """Do with the chosen row what the button says."""
        found = self.chosen
        if found is not None and self.can_take(found) and self.taken(found):
            self._timer.stop()
            self.accept()

    def add(self, found: T) -> None:
        """Show one more."""
        raise NotImplementedError

    def end(self) -> None:
        """Say what there is to say when all are listed."""

    def can_take(self, found: T) -> bool:
        """Return whether the button may take it."""
        del found
        return True

    def words_of(self, found: T) -> str:
        """Return what is said below the list of a chosen row."""
        raise NotImplementedError

    def taken(self, found: T) -> bool:
        """Take it, and return whether the dialog is done with."""
        raise NotImplementedError
