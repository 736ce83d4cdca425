"""The foot of the window: whether the work is safe, and the standing safety words."""

from __future__ import annotations

from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QWidget

from winebench.window.parts.words import Elided
from winebench.window.theme import theme

_MOST_SAVED = 330
"""Room for where the work is; a longer name of a file ends in "…", px."""


class Foot(QWidget):
    """Words side by side: where the work is, and the safety words in as many lines as they take."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.saved = Elided("", "muted", small=True)
        self.safety = Elided("", "muted", small=True, right=True, lines=3)
        self.show_saved("")
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 3, 16, 3)
        row.setSpacing(16)
        row.addWidget(self.saved)
        row.addWidget(self.safety, 1)
        self.setMinimumHeight(24)

    def show_saved(self, words: str) -> None:
        """Show where the work is, in no more room than that takes."""
        self.saved.say(words)
        self.saved.keep_width(min(self.saved.sizeHint().width(), _MOST_SAVED))

    def show_safety(self, sentences: tuple[str, ...]) -> None:
        """Show the standing reminders."""
        self.safety.say(" ".join(sentences))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the sunken ground."""
        del event
        QPainter(self).fillRect(self.rect(), theme().palette.sunken)
