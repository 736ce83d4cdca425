"""One of today's things: what, until when, and the button that does it."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QBrush, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from winebench.plan.outlook import TodayItem
from winebench.window.parts.severity import SeverityMark
from winebench.window.parts.words import Elided, button, give_role
from winebench.window.theme import theme

_BUTTONS = {"do": "Done", "read": "1.0__  F2", "held": "Why", "stop": "Why"}
_SPOKEN = {"do": "Done", "read": "Log a reading", "held": "Show why", "stop": "Show why"}


class TodayCard(QWidget):
    """Shows an item; another item of the same kind is shown in place."""

    act_wanted = Signal(object)
    show_wanted = Signal(str)
    """Show the step of that key."""
    workings_wanted = Signal(str)
    """Show what dates the step of that key."""

    def __init__(self, item: TodayItem, asks: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.item = item
        self.asks = asks
        self._title = Elided("", "strong")
        self._detail = Elided("", "muted", small=True, lines=2)
        self._mark = SeverityMark("hold")
        self.button: QPushButton = button("", "", self._act)
        self._arrange()
        self._show_kind(item.kind)
        self._show_words()
        theme().changed.connect(self.update)

    def _arrange(self) -> None:
        words = QVBoxLayout()
        words.setSpacing(0)
        words.addStretch(1)
        words.addWidget(self._title)
        words.addWidget(self._detail)
        words.addStretch(1)
        row = QHBoxLayout(self)
        row.setContentsMargins(10, 2, 6, 2)
        row.setSpacing(8)
        row.addWidget(self._mark)
        row.addLayout(words, 1)
        row.addWidget(self.button)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def show_item(self, item: TodayItem, asks: bool) -> None:
        """Show the item; `asks` says whether doing it asks for something to write down."""
        if (item, asks) == (self.item, self.asks):
            return
        before, self.item, self.asks = self.item.kind, item, asks
        if item.kind != before:
            self._show_kind(item.kind)
        self._show_words()
        self.update()

    def take_lines(self, most: int) -> None:
        """Tell it in up to that many lines."""
        self._detail.take_lines(most)

    def _show_kind(self, kind: str) -> None:
        self._mark.show_severity("stop" if kind == "stop" else "hold")
        self._mark.setVisible(kind in ("stop", "held"))
        give_role(self.button, "act" if kind in ("do", "read") else "quiet")

    def _show_words(self) -> None:
        item = self.item
        self._title.say(item.title)
        self._detail.say(item.detail)
        asks = self.asks and item.kind == "do"
        self.button.setText("Done…" if asks else _BUTTONS[item.kind])
        self.button.setAccessibleName(f"{_SPOKEN[item.kind]}: {item.title}")
        self.setAccessibleName(f"{item.title}, {item.detail}")

    def _act(self) -> None:
        if self.item.kind in ("do", "read"):
            self.act_wanted.emit(self.item)
        else:
            self.show_wanted.emit(self.item.step)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """F1 shows the step with what dates it."""
        if event.key() == Qt.Key.Key_F1:
            self.explain()
        else:
            super().keyPressEvent(event)

    def explain(self) -> None:
        """Ask for what dates the step."""
        self.workings_wanted.emit(self.item.step)

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
