"""A few fields that ask for something: what is typed is kept with the project at every key."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QWidget

from winebench.model.edits import Edit, KeepDraft, Several, settle
from winebench.model.project import Project
from winebench.window.parts.words import label

_SAID_LINES, _SAID_LINES_NARROW, _ROOMY = 3, 4, 600
"""Lines kept for why something is refused, in a form of at least so many px and in a narrower one:
nearly every sentence fits."""


class AskingForm(QWidget):
    """Enter takes what is typed, Escape leaves it; neither a crash nor Escape loses a key."""

    edit_wanted = Signal(object)
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.fields: dict[str, QLineEdit] = {}
        self._place = ""
        self._drafts: dict[str, str] = {}
        self._given: dict[str, str] = {}
        """What each field holds while nothing else is typed into it."""
        self._unsettled = False
        """Whether undo would take back what was typed here."""
        self.refusal = label(role="asking", wraps=True)
        room = self.refusal.sizePolicy()
        room.setRetainSizeWhenHidden(True)
        self.refusal.setSizePolicy(room)
        self._keep_room()

    def _keep_room(self) -> None:
        lines = _SAID_LINES if self.width() >= _ROOMY else _SAID_LINES_NARROW
        self.refusal.setMinimumHeight(lines * self.refusal.fontMetrics().lineSpacing())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep room for what may be refused: in another width it takes other lines."""
        super().resizeEvent(event)
        self._keep_room()

    def foot(self, *buttons: QPushButton) -> QHBoxLayout:
        """Return the lowest row: what is refused has its room there before it is said.

        So the fields and buttons stay where they are when it is.
        """
        row = QHBoxLayout()
        row.setSpacing(8)
        row.addWidget(self.refusal, 1)
        for each in buttons:
            row.addWidget(each, 0, Qt.AlignmentFlag.AlignBottom)
        return row

    def ask_for(self, place: str, project: Project) -> None:
        """Start without fields; what is typed belongs to that place of the project."""
        self._place = place
        self._drafts = {draft.place: draft.text for draft in project.drafts}
        self.fields = {}

    def add(self, name: str, typed: QLineEdit, text: str = "") -> None:
        """Take a field into the form, with what was typed into it before, else with `text`."""
        place = f"{self._place}:{name}"
        typed.setText(self._drafts.get(place, text))
        said = typed.accessibleName()
        typed.textEdited.connect(lambda now: self._keep(said, place, "" if now == text else now))
        self.fields[name] = typed
        self._given[name] = text

    def _keep(self, said: str, place: str, text: str) -> None:
        self._unsettled = True
        self.edit_wanted.emit(KeepDraft(label=said, merges_as=place, place=place, text=text))

    def follow(self, project: Project) -> None:
        """Show what is kept of each field now, as after undo and redo."""
        drafts = {draft.place: draft.text for draft in project.drafts}
        for name, typed in self.fields.items():
            kept = drafts.get(f"{self._place}:{name}", self._given[name])
            if self.isVisible() and kept != typed.text():
                typed.setText(kept)

    def text(self, name: str) -> str:
        """Return what is typed in that field; nothing where the form does not ask for it."""
        typed = self.fields.get(name)
        return "" if typed is None else typed.text().strip()

    def focus_first(self) -> None:
        """Put the keyboard into the first field."""
        first = next(iter(self.fields.values()))
        first.setFocus(Qt.FocusReason.OtherFocusReason)
        first.selectAll()

    def refuse(self, sentence: str, name: str) -> None:
        """Say what is wrong, the keyboard in the field where it is."""
        self.refusal.setText(sentence)
        self.refusal.show()
        self.fields[name].setFocus(Qt.FocusReason.OtherFocusReason)

    def finish(self, label_: str, *edits: Edit) -> None:
        """Close the form and make the edits; what was typed is needed no more."""
        forgotten = (
            KeepDraft(label=label_, place=f"{self._place}:{name}", text="") for name in self.fields
        )
        self.hide()
        several = (*edits, *forgotten)
        self.edit_wanted.emit(Several(label=label_, settles=f"{self._place}:", edits=several))

    def submit(self) -> None:
        """Take what is typed."""
        raise NotImplementedError

    def leave(self) -> None:
        """Close the form; what was typed stays for the next time."""
        self.hide()
        self.left.emit()

    def hideEvent(self, event: QHideEvent) -> None:
        """Let undo go past what was typed here: nobody would see it taken back."""
        super().hideEvent(event)
        if self._unsettled and not event.spontaneous():
            self._unsettled = False
            self.edit_wanted.emit(settle(f"{self._place}:"))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter takes, Escape leaves."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.submit()
        elif event.key() == Qt.Key.Key_Escape:
            self.leave()
        else:
            super().keyPressEvent(event)
