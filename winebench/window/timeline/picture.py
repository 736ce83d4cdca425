"""The curve above and the steps below it, on one time axis."""

from __future__ import annotations

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from winebench.window.timeline.rows_area import RowsArea

_CURVE, _ROWS = 6, 5
"""How they share the height."""
_LOW, _READABLE, _CURVE_LEAST = 440, 150, 76
"""Below the first a pane is low, px; what a curve wants, and what it makes do with there."""


class Picture(QWidget):
    """Give the rows as many whole ones as their share holds, and the curve what is left."""

    def __init__(self, curve: QWidget, rows: RowsArea, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._curve, self._rows = curve, rows
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(curve, _CURVE)
        column.addWidget(rows, _ROWS)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share another height."""
        super().resizeEvent(event)
        self._share()

    def fit(self, pane: int, taken: int, *, asks: bool) -> None:
        """Let both make do with less in a low pane; while the card asks, the curve gives way.

        `pane` is the height of the whole pane, `taken` what its other parts take, px.
        """
        low = pane < _LOW
        self._curve.setMinimumHeight(_CURVE_LEAST if low else _READABLE)
        self._rows.take_room(2 if low else 4)
        left = pane - taken - self._rows.minimumHeight()
        self._curve.setHidden(asks and left < _READABLE)  # lower it would say nothing
        self._share()

    def _share(self) -> None:
        parts = _ROWS if self._curve.isHidden() else _CURVE + _ROWS
        self._rows.share(self.height() * _ROWS // parts)
