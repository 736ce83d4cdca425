"""Correct one entry of the log in place."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtWidgets import QVBoxLayout, QWidget

from winebench.model.edits import PutEntry
from winebench.model.log import Entry
from winebench.model.project import Project
from winebench.window.logging.controls import field
from winebench.window.logging.corrected import Trouble, corrected, fields_of
from winebench.window.logging.field_grid import FieldGrid
from winebench.window.parts.asking import AskingForm
from winebench.window.parts.words import button

_WIDE = ("note", "text", "override")
"""Fields for more than a few words."""


class EntryForm(AskingForm):
    """The entry's fields; Enter keeps the correction, Escape leaves the entry as it was."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._entry: Entry | None = None
        self._now = datetime.min
        self._body = FieldGrid()
        self.keep = button("Keep the correction", "Keep the correction", self.submit, "act")
        self.leave_it = button("Leave it", "Leave the entry as it was", self.leave, "quiet")
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 4, 0, 4)
        self._column.addWidget(self._body)
        self._column.addLayout(self.foot(self.leave_it, self.keep))

    def open_for(self, entry: Entry, now: datetime, project: Project) -> None:
        """Show the entry's fields with what is in them now."""
        self._entry, self._now = entry, now
        self._project = project
        self.refusal.hide()
        self.ask_for(f"correct:{entry.id}", project)
        body = FieldGrid()
        for name, words, text, hint in fields_of(entry, project):
            typed = field(words, hint)
            self.add(name, typed, text)
            body.add(words, typed, wide=name in _WIDE)
        self._column.replaceWidget(self._body, body)
        body.show()  # in a form that is open already: what is not shown takes no keyboard
        self._body.deleteLater()
        self._body = body
        self.show()
        self.focus_first()

    @property
    def entry_id(self) -> str:
        """Return which entry is corrected, "" before the first."""
        return self._entry.id if self._entry else ""

    def submit(self) -> None:
        """Keep the correction, or say what cannot be read."""
        if self._entry is None:
            return
        texts = {name: typed.text() for name, typed in self.fields.items()}
        answer = corrected(self._entry, texts, self._now, self._project)
        if isinstance(answer, Trouble):
            self.refuse(answer.sentence, answer.field)
            return
        self.finish("correct an entry", PutEntry(label="correct an entry", entry=answer))
        self.left.emit()
