"""What an empty recipe says."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from winebench.window.parts.words import button, heading, label


class EmptyRecipe(QWidget):
    """Teach the first line; it can be clicked to try."""

    try_wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        column = QVBoxLayout(self)
        column.setContentsMargins(4, 16, 4, 8)
        column.setSpacing(6)
        column.addWidget(heading("Type what you have", 14))
        column.addWidget(
            label(
                "An amount and a name, then Enter: the must, its sugar and its acid are worked "
                "out while you type. Any kitchen measure will do.",
                "muted",
                wraps=True,
            )
        )
        for words in ("4 lb damsons", "1 1/2 lb sugar", "water", "1 packet yeast"):
            again = button(words, f"Type {words}", partial(self.try_wanted.emit, words))
            again.setProperty("role", "quiet")
            again.setStyleSheet("text-align: left;")
            column.addWidget(again)
