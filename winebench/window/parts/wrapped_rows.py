"""Table rows as high as their wrapped words need, with some air round them."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QTableWidget,
)

_AIR = 4
_SIDES = 20
"""What the style takes of a cell's width for its padding and margins."""


class Heights(QStyledItemDelegate):
    """Ask for the height of the words, wrapped at the width of their column."""

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        """Return the room that the words need at the column's width."""
        view = self.parent()
        assert isinstance(view, QTableView)
        span = view.columnSpan(index.row(), index.column())
        columns = range(index.column(), index.column() + span)
        width = sum(view.columnWidth(column) for column in columns)
        self.initStyleOption(option, index)
        room = QRect(0, 0, max(width - _SIDES, 1), 10_000)
        flags = Qt.TextFlag.TextWordWrap
        words = option.fontMetrics.boundingRect(room, flags, str(index.data() or " "))
        return QSize(width, words.height() + 2 * _AIR)


def make_rows(view: QTableView) -> None:
    """Make whole rows of the table: chosen as one, wrapped, with no grid and no numbers."""
    view.setItemDelegate(Heights(view))
    view.setStyleSheet(f"QTableView::item {{ padding: {_AIR}px 6px; }}")
    view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    view.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    view.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
    view.setTabKeyNavigation(False)
    view.setShowGrid(False)
    view.setWordWrap(True)
    view.verticalHeader().hide()
    view.verticalHeader().setMinimumSectionSize(24)
    header = view.horizontalHeader()
    header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft)
    header.setHighlightSections(False)
    header.setStretchLastSection(True)


def wrap_rows(view: QTableWidget) -> None:
    """Make a plain list of rows of the table, to be read only, as high as their words."""
    make_rows(view)
    view.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    view.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    view.horizontalHeader().sectionResized.connect(lambda *_: view.resizeRowsToContents())
