"""A choice of a few words, named, that a turn of the wheel over it does not change."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QPointF, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import QComboBox, QWidget

from winebench.window.parts.undo_keys import is_undo
from winebench.window.theme import theme


class Choice(QComboBox):
    """Pick one of some keys by their words; `chosen` fires for the person's choice only."""

    chosen = Signal(str)

    def __init__(
        self, name: str, options: Sequence[tuple[str, str]], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.view().setAccessibleName(name)
        for key, words in options:
            self.addItem(words, key)
        self.activated.connect(lambda place: self.chosen.emit(self.itemData(place)))

    def show_key(self, key: str) -> None:
        """Show the words of that key; a key of no option is shown as it is."""
        place = self.findData(key)
        if place < 0:
            self.addItem(key, key)
            place = self.count() - 1
        if place != self.currentIndex():
            self.setCurrentIndex(place)

    @property
    def key(self) -> str:
        """Return the key of what is shown."""
        return str(self.currentData())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Leave undo and redo to the sheet that the choice is on."""
        if is_undo(event):
            event.ignore()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the words, and the arrow that the style sheet takes away."""
        super().paintEvent(event)
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(theme().palette.muted, 1.6))
        x, y = self.width() - 12.0, self.height() / 2 - 1
        painter.drawPolyline([QPointF(x - 4, y - 1), QPointF(x, y + 3), QPointF(x + 4, y - 1)])

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to the page."""
        event.ignore()
