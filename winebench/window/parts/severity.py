"""The mark of a caution: its shape says how grave it is, colour only repeats it."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from winebench.plan.outlook import Severity
from winebench.window.theme import theme

SPOKEN: dict[Severity, str] = {
    "stop": "Stop",
    "hold": "Held",
    "caution": "Caution",
    "note": "Note",
}


class SeverityMark(QWidget):
    """An octagon (stop), two bars (held), a triangle (caution) or a ring (note)."""

    def __init__(self, severity: Severity, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.severity = severity
        self.setFixedSize(QSize(20, 20))
        theme().changed.connect(self.update)

    def show_severity(self, severity: Severity) -> None:
        """Show another severity."""
        if severity != self.severity:
            self.severity = severity
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the shape of the severity."""
        del event
        palette = theme().palette
        colour = palette.fruit if self.severity == "stop" else palette.straw
        if self.severity == "note":
            colour = palette.muted
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(colour, 1.6, j=Qt.PenJoinStyle.RoundJoin))
        {
            "stop": self._octagon,
            "hold": self._bars,
            "caution": self._triangle,
            "note": self._ring,
        }[self.severity](painter)

    def _octagon(self, painter: QPainter) -> None:
        points = ((7, 2), (13, 2), (18, 7), (18, 13), (13, 18), (7, 18), (2, 13), (2, 7))
        painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in points]))
        self._exclaim(painter, 6.0, 11.5, 14.3)

    def _bars(self, painter: QPainter) -> None:
        painter.setBrush(painter.pen().color())
        painter.drawRect(QRectF(5, 4, 3, 12))
        painter.drawRect(QRectF(12, 4, 3, 12))

    def _triangle(self, painter: QPainter) -> None:
        painter.drawPolygon(QPolygonF([QPointF(10, 2.5), QPointF(18, 17), QPointF(2, 17)]))
        self._exclaim(painter, 7.5, 12.0, 14.6)

    def _ring(self, painter: QPainter) -> None:
        painter.drawEllipse(QPointF(10, 10), 7.5, 7.5)
        painter.drawLine(QPointF(10, 9.5), QPointF(10, 14))
        painter.drawPoint(QPointF(10, 6.5))

    def _exclaim(self, painter: QPainter, top: float, bottom: float, dot: float) -> None:
        painter.drawLine(QPointF(10, top), QPointF(10, bottom))
        painter.drawPoint(QPointF(10, dot))
