"""A text field bound to one place of the project: it edits as it is typed in.

The text stays as typed. What cannot be read yet is kept as a draft of the project, with the
reason beside the field. Then that holds again which held before the typing began: of "9 lb plums"
nobody means the nine litres that its beginning can be read as.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import count
from typing import Generic, TypeVar, cast

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QWidget

from winebench.model.edits import Edit, KeepDraft, Several
from winebench.units import UnitsError
from winebench.window.parts.one_line import OneLine

V = TypeVar("V")
_visits = count()
_COMES_BACK = (Qt.FocusReason.PopupFocusReason, Qt.FocusReason.ActiveWindowFocusReason)
"""The keyboard is away for a menu or another window only."""


@dataclass(frozen=True)
class Binding(Generic[V]):
    """What a field means: its place, how its text is read, and the edit that it makes.

    `empty` says whether no text means None; else an empty field goes back to what it held.
    """

    place: str
    label: str
    read: Callable[[str], V]
    edit: Callable[[V | None], Edit]
    empty: bool = False


class Field(OneLine):
    """A line edit that turns keystrokes into edits; never loses or rewrites what is typed."""

    edit_wanted = Signal(object)
    refused = Signal(str)
    """The sentence to show beside the field; empty when the text can be read again."""
    next_row_wanted = Signal(int)
    """Move to the same column one row down (+1) or up (-1)."""

    def __init__(self, name: str, parent: QWidget | None = None, *, cell: bool = False) -> None:
        super().__init__(parent)
        self._binding: Binding[object] | None = None
        self._shown = ""
        self._drafted = False
        self._visit = 0
        """Which stay of the keyboard this is: only keystrokes of one stay undo as one."""
        self._typing = 0
        """Which typing this is: it ends where the text is let stand, by Enter or by leaving."""
        self.refusal = ""
        self.setAccessibleName(name)
        self.setProperty("cell", cell)
        self.textEdited.connect(self._take)

    def bind(self, binding: Binding[V]) -> None:
        """Say what the field means; call `show_text` next."""
        self._binding = cast("Binding[object]", binding)

    def show_text(self, text: str, draft: str | None) -> None:
        """Show the project's text, or the draft kept for this place.

        Text that already means the same stays: "5,5" is not rewritten to "5.5".
        """
        self._shown = text
        self._drafted = draft is not None
        wanted = text if draft is None else draft
        if wanted != self.text() and not (draft is None and self._means_the_same(text)):
            self.setText(wanted)
            if not self.hasFocus():
                self.setCursorPosition(0)  # the beginning is what tells most
        room = self.width() - 12
        self.setToolTip(wanted if self.fontMetrics().horizontalAdvance(wanted) > room else "")
        self._judge()

    def _means_the_same(self, text: str) -> bool:
        binding, mine = self._binding, self.text().strip()
        if binding is None or not mine or not text:
            return self.hasFocus() and not mine and (binding is not None and not binding.empty)
        try:
            return binding.read(mine) == binding.read(text)
        except UnitsError:
            return False

    def _judge(self) -> None:
        sentence = ""
        binding = self._binding
        text = self.text().strip()
        if binding is not None and (text or not binding.empty):
            try:
                binding.read(text)
            except UnitsError as error:
                sentence = str(error)
        self._refuse(sentence)

    def _refuse(self, sentence: str) -> None:
        if sentence == self.refusal:
            return
        self.refusal = sentence
        self.setProperty("unread", bool(sentence))
        self.style().unpolish(self)
        self.style().polish(self)
        self.setAccessibleDescription(sentence)
        self.refused.emit(sentence)

    def _take(self, typed: str) -> None:
        binding = self._binding
        if binding is None:
            return
        text = typed.strip()
        try:
            value = None if binding.empty and not text else binding.read(text)
        except UnitsError as error:
            self._refuse(str(error))
            self._keep(typed)
            return
        self._refuse("")
        edits = [binding.edit(value)]
        if self._drafted:
            edits.append(KeepDraft(label=binding.label, place=binding.place, text=""))
        self._send(*edits)

    def _keep(self, typed: str) -> None:
        binding = self._binding
        if binding is not None:
            keep = KeepDraft(label=binding.label, place=binding.place, text=typed)
            self._send(keep, takes_back=self._typing_of(binding))

    def _send(self, *edits: Edit, takes_back: str = "") -> None:
        assert self._binding is not None
        stay = f"{self._typing_of(self._binding)}{self._visit}"
        several = Several(label=edits[0].label, merges_as=stay, takes_back=takes_back, edits=edits)
        self.edit_wanted.emit(several)

    def _typing_of(self, binding: Binding[object]) -> str:
        return f"{binding.place}#{self._typing}."

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Begin another step of undo: what is typed from here on is taken back by itself."""
        super().focusInEvent(event)
        self._visit = next(_visits)
        if event.reason() not in _COMES_BACK:
            self._typing = self._visit

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Bring back what the field held when it is left empty and needs a value."""
        super().focusOutEvent(event)
        if event.reason() not in _COMES_BACK:
            self.setCursorPosition(0)  # left at the end, a long text hides how it begins
        binding = self._binding
        if binding is not None and not self.text().strip() and not binding.empty:
            self.setText(self._shown)
            self._judge()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter and the arrows move between rows."""
        key = event.key()
        if self.hasSelectedText() and self.selectedText() == self.text():
            self._visit = next(_visits)  # typed anew, not typed on
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._visit = self._typing = next(_visits)  # what stands is meant
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Down):
            self.next_row_wanted.emit(1)
        elif key == Qt.Key.Key_Up:
            self.next_row_wanted.emit(-1)
        else:
            super().keyPressEvent(event)
