"""The last row: type "4 lb damsons" and Enter puts a line into the recipe."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QStringListModel, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCompleter, QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from winebench.model.edits import KeepDraft, PutLine, Several
from winebench.model.project import Project
from winebench.model.recipe import Line
from winebench.plan.typed.names import Offer
from winebench.units import UnitsError
from winebench.window.parts.undo_keys import is_undo
from winebench.window.parts.words import button, label
from winebench.window.recipe.row import draft

if TYPE_CHECKING:
    from winebench.plan.typed.lines import Unknown

PLACE = "new line"
TEACH = "+ fruit, sugar, additive …"


class NewLine(QWidget):
    """Reads a line in words; what the catalog does not know is asked about, once."""

    edit_wanted = Signal(object)
    added = Signal(str)
    back_wanted = Signal()

    def __init__(
        self, offers: Callable[[], Sequence[Offer]], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._offers = offers
        self._project: Project | None = None
        self._unknown: Unknown | None = None
        self.field = QLineEdit()
        self.field.setProperty("cell", True)
        self.field.setPlaceholderText(TEACH)
        self.field.setAccessibleName("Add a line: amount and name, such as 4 lb damsons")
        self.field.setMinimumHeight(24)
        self.field.installEventFilter(self)
        self.field.textEdited.connect(self._typed)
        self.said = label(wraps=True, small=True)
        self._answers = QWidget()
        self._make_answers()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 2, 0, 2)
        column.setSpacing(2)
        for widget in (self.field, self.said, self._answers):
            column.addWidget(widget)
        self.said.hide()
        self._answers.hide()

    def _make_answers(self) -> None:
        row = QHBoxLayout(self._answers)
        row.setContentsMargins(4, 0, 0, 0)
        row.addWidget(label("Keep it as", "muted"))
        self.as_fruit = button("a fruit of mine", "Keep it as a fruit of mine", self._as_fruit)
        self.as_sugar = button("a sugar or syrup", "Keep it as a sugar or syrup", self._as_sugar)
        self.as_additive = button("an additive", "Keep it as an additive", self._as_additive)
        for answer in (self.as_fruit, self.as_sugar, self.as_additive):
            row.addWidget(answer)
        row.addStretch(1)

    def show_project(self, project: Project) -> None:
        """Bring back the text that was being typed when the project was put aside."""
        self._project = project
        kept = draft(project, PLACE) or ""
        if kept != self.field.text():
            self.field.setText(kept)
            self._ask(None)

    def _typed(self, text: str) -> None:
        self._ask(None)
        self._say("")
        self._complete(text)
        keep = KeepDraft(label="type a new line", merges_as=PLACE, place=PLACE, text=text)
        self.edit_wanted.emit(keep)

    def _complete(self, text: str) -> None:
        """Offer the catalog's names after the amount that is typed."""
        from winebench.plan.typed.lines import amount_part

        amount = amount_part(text)
        completer = self.field.completer()
        if completer is None:
            completer = QCompleter(self)
            completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
            completer.setFilterMode(Qt.MatchFlag.MatchContains)
            completer.setMaxVisibleItems(8)
            completer.setModel(QStringListModel(completer))
            completer.popup().setObjectName("offers")
            completer.popup().setAccessibleName("What the catalog knows")
            completer.popup().installEventFilter(self)  # after the completer's own: asked first
            completer.activated.connect(self._typed_by_choice)
            self.field.setCompleter(completer)
        model = completer.model()
        assert isinstance(model, QStringListModel)
        rest = text[len(amount) :].strip()
        names = [offer.name.lower() for offer in self._offers()] if amount and rest else []
        model.setStringList([f"{amount}{name}" for name in names])

    def _typed_by_choice(self, text: str) -> None:
        keep = KeepDraft(label="type a new line", merges_as=PLACE, place=PLACE, text=text)
        self.edit_wanted.emit(keep)

    def _enter(self) -> None:
        """Take the offer that is chosen in the open list, if one is, and add the line."""
        completer = self.field.completer()
        popup = None if completer is None else completer.popup()
        if popup is not None and popup.isVisible():
            chosen = popup.currentIndex()
            if chosen.isValid():
                self.field.setText(str(chosen.data()))
            popup.hide()
        self.submit()

    def submit(self) -> None:
        """Put the typed line into the recipe, or say what is missing."""
        text = self.field.text().strip()
        if not text:
            return
        # Read when first wanted: the start waits for no grammar of recipes.
        from winebench.plan.typed.lines import Unknown, typed_line
        from winebench.plan.typed.offers import known

        try:
            found, remarks = typed_line(text, known())
        except UnitsError as error:
            self._say(str(error))
            return
        if isinstance(found, Unknown):
            self._ask(found)
        else:
            self._add(found)
            self._say(" ".join(remark.sentence for remark in remarks))

    def _ask(self, unknown: Unknown | None) -> None:
        self._unknown = unknown
        self._answers.setVisible(unknown is not None)
        if unknown is not None:
            # The keyboard stays in the text: a Space typed on must not answer the question.
            self._say(f'"{unknown.name}" is not in the catalog; Tab goes to what it can be.')

    def _as_fruit(self) -> None:
        if self._unknown is not None:
            self._add(self._unknown.as_fruit())

    def _as_sugar(self) -> None:
        if self._unknown is not None:
            self._add(self._unknown.as_sugar())

    def _as_additive(self) -> None:
        if self._unknown is not None:
            self._add(self._unknown.as_additive())

    def _add(self, line: Line) -> None:
        put = PutLine(label="add a line", line=line)
        forget = KeepDraft(label="add a line", place=PLACE, text="")
        self.field.clear()
        self._say("")
        self._ask(None)
        self.edit_wanted.emit(Several(label="add a line", edits=(put, forget)))
        self.field.setFocus(Qt.FocusReason.OtherFocusReason)
        self.added.emit(line.id)

    def _say(self, sentence: str) -> None:
        self.said.setText(sentence)
        self.said.setVisible(bool(sentence))
        self.field.setAccessibleDescription(sentence)

    def eventFilter(self, watched: object, event: QEvent) -> bool:
        """Enter adds, Up goes back to the rows; undo is the window's."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            if is_undo(event):
                event.ignore()
                return True
            return False
        if event.type() != QEvent.Type.KeyPress or not isinstance(event, QKeyEvent):
            return False
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._enter()
            return True
        if event.key() == Qt.Key.Key_Up and watched is self.field:
            self.back_wanted.emit()
            return True
        return False
