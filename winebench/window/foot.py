"""The foot of the window: whether the work is safe, and the standing safety words."""

from __future__ import annotations

from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from winebench.window.parts.words import Elided
from winebench.window.theme import theme

_GLANCE_PX = 330


class Foot(QWidget):
    """Two lines of words side by side; the whole of each is in its tooltip."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.saved = Elided("", "muted", small=True)
        self.safety = Elided("", "muted", small=True, right=True)
        self.saved.keep_width(_GLANCE_PX)
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 3, 16, 3)
        row.setSpacing(16)
        row.addWidget(self.saved)
        row.addWidget(self.safety, 1)
        self.setMinimumHeight(24)

    def show_safety(self, sentences: tuple[str, ...]) -> None:
        """Show the standing reminders."""
        self.safety.say(" ".join(sentences))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the sunken ground."""
        del event
        QPainter(self).fillRect(self.rect(), theme().palette.sunken)
