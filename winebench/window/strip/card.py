"""One of today's things: what, until when, and the button that does it."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QBrush, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from winebench.plan.outlook import TodayItem
from winebench.window.parts.severity import SeverityMark
from winebench.window.parts.words import Elided, button
from winebench.window.theme import theme

_BUTTONS = {"do": "Done", "read": "1.0__  F2", "held": "Why", "stop": "Why"}


class TodayCard(QWidget):
    """Shows an item; another item of the same kind is shown in place."""

    act_wanted = Signal(object)
    show_wanted = Signal(str)
    """Show the step of that key."""

    def __init__(self, item: TodayItem, asks: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.item = item
        self.asks = asks
        self._title = Elided("", "strong")
        self._detail = Elided("", "muted", small=True)
        self._mark = SeverityMark("stop" if item.kind == "stop" else "hold")
        role = "act" if item.kind in ("do", "read") else "quiet"
        self.button: QPushButton = button(_BUTTONS[item.kind], "", self._act, role)
        self._arrange()
        self.show_item(item, asks)
        theme().changed.connect(self.update)

    def _arrange(self) -> None:
        words = QVBoxLayout()
        words.setSpacing(0)
        words.addWidget(self._title)
        words.addWidget(self._detail)
        row = QHBoxLayout(self)
        row.setContentsMargins(10, 2, 6, 2)
        row.setSpacing(8)
        row.addWidget(self._mark)
        self._mark.setVisible(self.item.kind in ("stop", "held"))
        row.addLayout(words, 1)
        row.addWidget(self.button)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def show_item(self, item: TodayItem, asks: bool) -> None:
        """Show the item; `asks` says whether doing it asks for something to write down."""
        if (item, asks) == (self.item, self.asks) and self._title.words:
            return
        self.item, self.asks = item, asks
        self._title.say(item.title)
        self._detail.say(item.detail)
        if item.kind == "do":
            self.button.setText("Done…" if asks else "Done")
        spoken = {"do": "Done", "read": "Log a reading", "held": "Show why", "stop": "Show why"}
        self.button.setAccessibleName(f"{spoken[item.kind]}: {item.title}")
        self.setAccessibleName(f"{item.title}, {item.detail}")
        self.update()

    def _act(self) -> None:
        if self.item.kind in ("do", "read"):
            self.act_wanted.emit(self.item)
        else:
            self.show_wanted.emit(self.item.step)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Show the step in the timeline."""
        if event.button() == Qt.MouseButton.LeftButton:
            self.show_wanted.emit(self.item.step)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the card; held is hatched, late has a heavy edge."""
        del event
        palette, kind = theme().palette, self.item.kind
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        area = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        edge, width = palette.rule, 1.0
        if kind == "held":
            edge = palette.straw
        elif kind == "stop" or self.item.late:
            edge, width = palette.fruit, 2.0
        painter.setBrush(palette.straw_wash if kind == "held" else palette.card)
        painter.setPen(QPen(edge, width))
        painter.drawRoundedRect(area, 7, 7)
        if kind == "held":
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QBrush(palette.straw, Qt.BrushStyle.BDiagPattern))
            painter.drawRoundedRect(QRectF(1, 1, 5, self.height() - 2), 2, 2)
