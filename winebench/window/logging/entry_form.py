"""Correct one entry of the log in place."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from winebench.model.edits import PutEntry
from winebench.model.log import Entry
from winebench.plan.typed import Scale
from winebench.window.logging.controls import caption, field
from winebench.window.logging.corrected import Trouble, corrected, fields_of
from winebench.window.parts.words import button, label


class EntryForm(QWidget):
    """The entry's fields; Enter keeps the correction, Escape leaves the entry as it was."""

    edit_wanted = Signal(object)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._entry: Entry | None = None
        self._now = datetime.min
        self._scale: Scale = "C"
        self.fields: dict[str, QLineEdit] = {}
        self._body = QWidget()
        self.trouble = label(role="asking", wraps=True)
        self.keep = button("Keep the correction", "Keep the correction", self._submit, "act")
        self.leave = button("Leave it", "Leave the entry as it was", self._leave, "quiet")
        buttons = QHBoxLayout()
        buttons.addStretch(1)
        buttons.addWidget(self.leave)
        buttons.addWidget(self.keep)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 4, 0, 4)
        self._column.addWidget(self._body)
        self._column.addWidget(self.trouble)
        self._column.addLayout(buttons)

    def open_for(self, entry: Entry, now: datetime, scale: Scale) -> None:
        """Show the entry's fields with what is in them now."""
        self._entry, self._now, self._scale = entry, now, scale
        self.trouble.hide()
        body = QWidget()
        grid = QGridLayout(body)
        grid.setContentsMargins(0, 0, 0, 0)
        self.fields = {}
        for place, (name, words, text) in enumerate(fields_of(entry)):
            typed = field(words, "")
            typed.setText(text)
            grid.addWidget(caption(words, typed), place // 2, place % 2 * 2)
            grid.addWidget(typed, place // 2, place % 2 * 2 + 1)
            self.fields[name] = typed
        self._column.replaceWidget(self._body, body)
        self._body.deleteLater()
        self._body = body
        self.show()
        first = next(iter(self.fields.values()))
        first.setFocus(Qt.FocusReason.OtherFocusReason)
        first.selectAll()

    def _submit(self) -> None:
        if self._entry is None:
            return
        texts = {name: typed.text() for name, typed in self.fields.items()}
        answer = corrected(self._entry, texts, self._now, self._scale)
        if isinstance(answer, Trouble):
            self.trouble.setText(answer.sentence)
            self.trouble.show()
            self.fields[answer.field].setFocus(Qt.FocusReason.OtherFocusReason)
            return
        self.hide()
        if answer != self._entry:
            self.edit_wanted.emit(PutEntry(label="correct an entry", entry=answer))
        self.left.emit()

    def _leave(self) -> None:
        self.hide()
        self.left.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter keeps, Escape leaves."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._submit()
        elif event.key() == Qt.Key.Key_Escape:
            self._leave()
        else:
            super().keyPressEvent(event)
