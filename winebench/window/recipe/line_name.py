"""The name of a recipe line: a click, Enter or F4 opens what is known of it."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt, Signal
from PySide6.QtGui import (
    QFontMetrics,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QApplication, QSizePolicy, QWidget

from winebench.window.recipe import columns
from winebench.window.theme import theme

_TWO_LINES = 36
"""Height of a row whose name takes two lines."""


class LineName(QWidget):
    """Paint the name and a mark that says whether the details below are open."""

    pressed = Signal()
    dragged = Signal(int)
    """The pointer drags the line; how far down the screen it is."""
    dropped = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.words = ""
        self.open = False
        self._under = False
        self._grabbed: QPoint | None = None
        self._drags = False
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setAccessibleDescription("Opens the form, what was measured, and more")

    def sizeHint(self) -> QSize:
        """Return the height of a row."""
        return QSize(120, columns.ROW_HEIGHT)

    def show_name(self, words: str, is_open: bool) -> None:
        """Show the name, and whether its details are open."""
        if (words, is_open) != (self.words, self.open):
            self.words, self.open = words, is_open
            self.setAccessibleName(f"{words}, details")
            self.setToolTip(f"{words}: form, measurements and more (F4); drag it to move the line")
            self._take_lines()
            self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Take a second line where the name needs one: its end tells two sugars apart."""
        super().resizeEvent(event)
        self._take_lines()

    def _take_lines(self) -> None:
        short = (
            QFontMetrics(theme().base_font()).horizontalAdvance(self.words) <= self._room.width()
        )
        self.setFixedHeight(columns.ROW_HEIGHT if short else _TWO_LINES)

    @property
    def _room(self) -> QRect:
        return self.rect().adjusted(4, 0, -14, 0)

    def enterEvent(self, event: object) -> None:
        """Show that it can be clicked."""
        del event
        self._under = True
        self.update()

    def leaveEvent(self, event: object) -> None:
        """Show the name plainly again."""
        del event
        self._under = False
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the name, elided where it is too long for two lines."""
        del event
        palette = theme().palette
        painter = QPainter(self)
        font = theme().base_font()
        font.setUnderline(self._under)
        painter.setFont(font)
        painter.setPen(palette.ink)
        room = self._room
        lines = 1 if self.height() == columns.ROW_HEIGHT else 2
        words = painter.fontMetrics().elidedText(
            self.words, Qt.TextElideMode.ElideRight, lines * room.width() - 12 * (lines - 1)
        )
        side = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        painter.drawText(room, int(side) | int(Qt.TextFlag.TextWordWrap), words)
        if self._under or self.open or self.hasFocus():
            painter.setPen(palette.muted)
            mark = "▴" if self.open else "▾"
            painter.drawText(QRect(room.right() + 1, 0, 12, self.height()), int(side), mark)
        if self.hasFocus():
            painter.setPen(QPen(palette.fruit, 1))
            painter.drawRect(self.rect().adjusted(0, 1, -1, -2))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Begin a click, or a drag."""
        super().mousePressEvent(event)
        if event.button() == Qt.MouseButton.LeftButton:
            self._grabbed, self._drags = event.position().toPoint(), False

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Take the line along once the pointer has gone far enough for a drag."""
        if self._grabbed is None:
            return
        apart = event.position().toPoint() - self._grabbed
        if self._drags or apart.manhattanLength() >= QApplication.startDragDistance():
            if not self._drags:
                self.setCursor(Qt.CursorShape.ClosedHandCursor)
            self._drags = True
            self.dragged.emit(round(event.globalPosition().y()))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Open or close the details, or let the dragged line go."""
        if event.button() != Qt.MouseButton.LeftButton or self._grabbed is None:
            return
        drags, self._grabbed, self._drags = self._drags, None, False
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        if drags:
            self.dropped.emit()
        else:
            self.pressed.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Open or close the details by Enter or Space."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.pressed.emit()
        else:
            super().keyPressEvent(event)
