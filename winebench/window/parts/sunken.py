"""A part of a pane on sunken ground with round corners."""

from __future__ import annotations

from typing import ClassVar

from PySide6.QtCore import QMarginsF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from winebench.window.theme import theme


class Sunken(QWidget):
    """Paints its ground in the palette of the day, and anew when that changes."""

    bare: ClassVar[QMarginsF] = QMarginsF()
    """What of the widget, at each side, the ground leaves bare."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        theme().changed.connect(self.update)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the sunken ground."""
        del event
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme().palette.sunken)
        painter.drawRoundedRect(QRectF(self.rect()).marginsRemoved(self.bare), 6, 6)
