"""The curve above and the steps below it, on one time axis."""

from __future__ import annotations

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from winebench.window.timeline.rows_area import RowsArea

_CURVE, _ROWS = 6, 5
"""How they share the height."""


class Picture(QWidget):
    """Give the rows as many whole ones as their share holds, and the curve what is left."""

    def __init__(self, curve: QWidget, rows: RowsArea, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows = rows
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(curve, _CURVE)
        column.addWidget(rows, _ROWS)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share another height."""
        super().resizeEvent(event)
        self._rows.share(self.height() * _ROWS // (_CURVE + _ROWS))
