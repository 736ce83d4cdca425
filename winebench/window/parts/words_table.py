"""A table of words: its columns share the room there is, its rows are as high as their words."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QAbstractItemModel
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from winebench.window.parts.wrapped_rows import make_rows

_MOST_WRAPPED = 300
"""Rows; more of them would take longer to measure than a key may take."""
_ROW = 26


class Column(NamedTuple):
    """A share of the room, but never less than `least` px."""

    share: float
    least: int
    gives_way: bool = False
    """Whether it is left out where the others need its room."""


class WordsTable(QTableView):
    """Rows chosen whole; nothing is cut off where there are not thousands of them."""

    def __init__(self, name: str, columns: tuple[Column, ...], parent: QWidget | None = None):
        super().__init__(parent)
        self._columns = columns
        self.setAccessibleName(name)
        make_rows(self)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.verticalHeader().setDefaultSectionSize(_ROW)

    def setModel(self, model: QAbstractItemModel | None) -> None:
        """Show a model; how its rows are measured follows how many there are."""
        super().setModel(model)
        if model is not None:
            model.modelReset.connect(self._measure_rows)
            self._measure_rows()
            self._share_room()

    def _measure_rows(self) -> None:
        model = self.model()
        wraps = model is not None and model.rowCount() <= _MOST_WRAPPED
        mode = QHeaderView.ResizeMode
        header = self.verticalHeader()
        header.setSectionResizeMode(mode.ResizeToContents if wraps else mode.Fixed)
        if not wraps:
            header.setDefaultSectionSize(_ROW)

    def _share_room(self) -> None:
        room = self.viewport().width()
        narrow = room < sum(column.least for column in self._columns)
        for place, column in enumerate(self._columns):
            self.setColumnHidden(place, narrow and column.gives_way)
        for place, column in enumerate(self._columns[:-1]):
            self.setColumnWidth(place, max(round(room * column.share), column.least))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share another width out; less height does not hide the row that is chosen."""
        super().resizeEvent(event)
        if event.oldSize().width() != event.size().width():
            self._share_room()
            if self.verticalHeader().sectionResizeMode(0) != QHeaderView.ResizeMode.Fixed:
                self.resizeRowsToContents()
        if event.oldSize().height() > event.size().height() and self.currentIndex().isValid():
            self.scrollTo(self.currentIndex())
