"""A field for what is in stock and on neither list: names, amounts with them, Enter."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from winebench.model.edits import Change, KeepDraft, Several, changed
from winebench.plan.shopping.pantry import entry, pantry_with
from winebench.plan.shopping.pantry_typed import pantry_things
from winebench.units import UnitsError
from winebench.window.document import Document
from winebench.window.parts.one_line import OneLine
from winebench.window.recipe.row import draft

_PLACE = "pantry:new"
_HINT = "5 lb white sugar, 30 corks, oak chips …"


class NewThing(OneLine):
    """Enter puts what is typed into the pantry; until then it is kept as a draft."""

    added = Signal(str)
    """Key or name of what was put in."""
    refused = Signal(str)
    """Why it was not put in."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.setAccessibleName("Put into the pantry")
        self.setPlaceholderText(_HINT)
        self.setMinimumHeight(26)
        self.textEdited.connect(self._keep)

    def show_draft(self) -> None:
        """Show what was typed and not yet put in."""
        kept = draft(self._document.project, _PLACE) or ""
        if kept != self.text():
            self.setText(kept)

    def _keep(self, typed: str) -> None:
        said = "put into the pantry"
        keep = KeepDraft(label=said, place=_PLACE, text=typed)
        self._document.edit(Several(label=said, merges_as=_PLACE, edits=(keep,)))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter puts it in."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._put_in()
        else:
            super().keyPressEvent(event)

    def _put_in(self) -> None:
        try:
            things = pantry_things(self.text())
        except UnitsError as problem:
            self.refused.emit(str(problem))
            return
        project = self._document.project
        for what, have in things:
            pantry = pantry_with(project, what, have=have or entry(project, what).have)
            project = changed(project, pantry=pantry)
        said = "put into the pantry"
        edits = (
            Change(label=said, fields={"pantry": project.pantry}),
            KeepDraft(label=said, place=_PLACE, text=""),
        )
        self._document.edit(Several(label=said, edits=edits))
        self.added.emit(things[0][0])
