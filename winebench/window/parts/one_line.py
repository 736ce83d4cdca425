"""A line edit that leaves undo to the window: one undo for the whole project."""

from __future__ import annotations

from typing import cast

from PySide6.QtCore import QEvent
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit

from winebench.window.parts.undo_keys import is_undo


class OneLine(QLineEdit):
    """What is typed is kept with the project key by key, so its undo is the project's."""

    def event(self, event: QEvent) -> bool:
        """Let the window's shortcut have the keys of undo and redo."""
        if event.type() == QEvent.Type.ShortcutOverride and is_undo(cast(QKeyEvent, event)):
            event.ignore()
            return False
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Let a dialog that stands before the window have them too."""
        if is_undo(event):
            event.ignore()
        else:
            super().keyPressEvent(event)
