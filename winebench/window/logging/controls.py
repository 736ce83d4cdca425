"""The few controls that the timeline and the logging bar are made of, each with its name."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

from winebench.window.parts.one_line import OneLine
from winebench.window.parts.words import button, label


def choice(words: str, name: str, act: Callable[[], object]) -> QPushButton:
    """Return a button that stays pressed, for one of several."""
    made = button(words, name, act, "choice")
    made.setCheckable(True)
    return made


def field(name: str, hint: str, width: int | None = None) -> OneLine:
    """Return a field named `name`, with a hint in it while it is empty."""
    made = OneLine()
    made.setAccessibleName(name)
    made.setPlaceholderText(hint)
    made.setMinimumHeight(28)
    if width is not None:
        made.setFixedWidth(width)
    return made


def captioned(words: str, typed: QWidget) -> QWidget:
    """Return a field with its words before it, for a row that may break between such pairs."""
    made = QWidget()
    row = QHBoxLayout(made)
    row.setContentsMargins(0, 0, 8, 0)
    row.setSpacing(8)
    row.addWidget(caption(words, typed))
    row.addWidget(typed)
    return made


def caption(words: str, buddy: QWidget) -> QLabel:
    """Return the muted words before a field."""
    made = label(words, "muted")
    made.setBuddy(buddy)
    return made
