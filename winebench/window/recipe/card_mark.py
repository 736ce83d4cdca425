"""The mark before a row of a card: its shape says how the row stands, colour only repeats it."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from winebench.plan.handed_down.shapes import State
from winebench.window.theme import theme

SPOKEN: dict[State, str] = {
    "read": "Read",
    "look": "Note",
    "asked": "Question",
    "wrong": "Cannot be",
}


class CardMark(QWidget):
    """A tick (read), a triangle (note), a question mark, or a cross in an octagon (cannot be)."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.state: State = "read"
        self.quiet = False
        """Whether there is nothing to mark: words that are only kept."""
        self.setFixedSize(QSize(20, 20))
        theme().changed.connect(self.update)

    def show_state(self, state: State, *, quiet: bool) -> None:
        """Show another state."""
        if (state, quiet) != (self.state, self.quiet):
            self.state, self.quiet = state, quiet
            self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the shape of the state."""
        del event
        palette = theme().palette
        colours = {
            "read": palette.leaf,
            "look": palette.straw,
            "asked": palette.fruit,
            "wrong": palette.fruit,
        }
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        join, cap = Qt.PenJoinStyle.RoundJoin, Qt.PenCapStyle.RoundCap
        painter.setPen(QPen(colours[self.state], 1.8, Qt.PenStyle.SolidLine, cap, join))
        if self.state == "read" and not self.quiet:
            painter.drawPolyline([QPointF(4, 10.5), QPointF(8, 14.5), QPointF(16, 5.5)])
        elif self.state == "look":
            painter.drawPolygon(QPolygonF([QPointF(10, 2.5), QPointF(18, 17), QPointF(2, 17)]))
            painter.drawLine(QPointF(10, 8), QPointF(10, 12))
            painter.drawPoint(QPointF(10, 14.6))
        elif self.state == "asked":
            painter.drawEllipse(QPointF(10, 10), 8, 8)
            font = theme().heading_font(12)
            painter.setFont(font)
            painter.drawText(QRectF(self.rect()), Qt.AlignmentFlag.AlignCenter, "?")
        elif self.state == "wrong":
            points = ((7, 2), (13, 2), (18, 7), (18, 13), (13, 18), (7, 18), (2, 13), (2, 7))
            painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in points]))
            painter.drawLine(QPointF(7, 7), QPointF(13, 13))
            painter.drawLine(QPointF(13, 7), QPointF(7, 13))
