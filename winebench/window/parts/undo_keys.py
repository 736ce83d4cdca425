"""Undo belongs to the whole project: text fields leave its keys to the window."""

from __future__ import annotations

from typing import Protocol

from PySide6.QtGui import QKeyEvent, QKeySequence


class Undoes(Protocol):
    """What can take a step back and make it again: the document."""

    def undo(self) -> None:
        """Take the last step back."""
        ...

    def redo(self) -> None:
        """Make the step taken back again."""
        ...


def is_undo(event: QKeyEvent) -> bool:
    """Return whether the keys mean undo or redo."""
    standard = QKeySequence.StandardKey
    return event.matches(standard.Undo) or event.matches(standard.Redo)


def undone(event: QKeyEvent, document: Undoes) -> bool:
    """Undo or redo where the keys mean that, and return whether they did.

    A dialog stands before the window that else has the keys.
    """
    if event.matches(QKeySequence.StandardKey.Undo):
        document.undo()
    elif event.matches(QKeySequence.StandardKey.Redo):
        document.redo()
    else:
        return False
    return True
