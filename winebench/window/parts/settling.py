"""A dialog that closes leaves undo only what changed the batch, not what was half typed in it."""

from __future__ import annotations

from typing import Protocol

from PySide6.QtCore import SignalInstance

from winebench.model.edits import Edit, settle


class Edits(Protocol):
    """What takes edits: the document."""

    def edit(self, edit: Edit, /) -> None:
        """Make the edit."""
        ...


def settle_at(closed: SignalInstance, document: Edits, *places: str) -> None:
    """When `closed` fires, let undo go past drafts whose place begins so: nobody sees them go.

    What is typed stays for the next time; changes of the batch stay steps of undo.
    """

    def let_go(*_how: object) -> None:
        for place in places:
            document.edit(settle(place))

    closed.connect(let_go)
