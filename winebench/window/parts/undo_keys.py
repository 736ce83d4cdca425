"""Undo belongs to the whole project: text fields leave its keys to the window."""

from __future__ import annotations

from PySide6.QtGui import QKeyEvent, QKeySequence


def is_undo(event: QKeyEvent) -> bool:
    """Return whether the keys mean undo or redo."""
    standard = QKeySequence.StandardKey
    return event.matches(standard.Undo) or event.matches(standard.Redo)
