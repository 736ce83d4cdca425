"""The last row: type "4 lb damsons" and Enter puts a line into the recipe."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from winebench.model.edits import Edit, KeepDraft, PutLine, Several
from winebench.model.project import Project
from winebench.model.recipe import Line
from winebench.plan.typed.names import Offer
from winebench.units import UnitsError
from winebench.window.parts.undo_keys import is_undo
from winebench.window.parts.words import button, label
from winebench.window.recipe.offer_list import OfferList
from winebench.window.recipe.row import draft

if TYPE_CHECKING:
    from winebench.plan.handed_down.shapes import CardReading
    from winebench.plan.typed.unknown import Unknown

PLACE = "new line"
TEACH = "+ fruit, sugar, additive …"


class NewLine(QWidget):
    """Reads a line in words; what the catalog does not know is asked about, once."""

    edit_wanted = Signal(object)
    back_wanted = Signal()
    card_wanted = Signal(str)
    """Read this text as a recipe card, where its questions can be answered."""
    used = Signal()
    """It is typed in, or says something: it is to be seen with all that it asks."""

    def __init__(
        self, offers: Callable[[], Sequence[Offer]], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._offers = offers
        self._project: Project | None = None
        self._unknown: Unknown | None = None
        self._offered_card = ""
        """The text that Enter pressed again takes to the reader of cards."""
        self._list: OfferList | None = None
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
        self._offered_card = ""
        self._complete(text)
        self._keep(text)
        self.used.emit()

    def _complete(self, text: str) -> None:
        """Offer what the line can become by the catalog's names."""
        from winebench.plan.typed.offers import completed

        if self._list is None:
            self._list = OfferList(self.field)
            self._list.view.installEventFilter(self)  # after the list's own: asked first
            self._list.highlighted.connect(self._keep)
            self._list.activated.connect(self._keep)
            self.field.setCompleter(self._list)
        self._list.offer(completed(text, self._offers()))

    def _keep(self, text: str) -> None:
        keep = KeepDraft(label="type a new line", merges_as=PLACE, place=PLACE, text=text)
        self.edit_wanted.emit(keep)

    def _take(self, text: str) -> None:
        """Put what was offered into the field; a line without an amount is begun with it."""
        bare = not self._has_amount(text)
        self.field.setText(f" {text}" if bare else text)
        self.field.setCursorPosition(0 if bare else len(text))
        self._keep(self.field.text())

    def _tab(self) -> bool:
        """Take the chosen or likeliest name, or add a line that is whole; else go on."""
        typed = self.field.text()
        offers = self._list
        chosen, first = (offers.chosen, offers.first) if offers is not None else ("", "")
        if offers is not None:
            offers.shut()
        if chosen or (first and (first != typed.strip() or not self._has_amount(first))):
            self._take(chosen or first)
            return True
        from winebench.plan.handed_down.in_one_row import is_whole

        gallon = self._project.gallon if self._project else None
        return is_whole(typed.strip(), gallon) and self.submit()

    @staticmethod
    def _has_amount(text: str) -> bool:
        from winebench.plan.typed.lines import amount_part

        return bool(amount_part(text))

    def _enter(self) -> None:
        """Take the name that is chosen in the open list, if one is, and add the line."""
        offers = self._list
        chosen = offers.chosen if offers is not None else ""
        if chosen:
            self.field.setText(chosen)
        if offers is not None:
            offers.shut()
        self.submit()

    def submit(self) -> bool:
        """Put the typed line or lines into the recipe, or say what is missing; True where put."""
        text = self.field.text().strip()
        if not text or self._project is None:
            return False
        if text == self._offered_card:
            self.card_wanted.emit(text)
            return False
        # Read when first wanted: the start waits for no grammar of recipes.
        from winebench.plan.handed_down.in_one_row import lines_in_row

        several = lines_in_row(text, self._project.gallon)
        return self._add_several(several) if several is not None else self._add_one(text)

    def _add_one(self, text: str, said: str = "") -> bool:
        from winebench.plan.cautions.poisons import refusal_of
        from winebench.plan.typed.lines import typed_line
        from winebench.plan.typed.offers import completed, known
        from winebench.plan.typed.unknown import Unknown

        try:
            found, remarks = typed_line(text, known())
        except UnitsError as error:
            self._say(str(error))
            return False
        if not isinstance(found, Unknown):
            words = (said, *(remark.sentence for remark in remarks))
            return self._add(PutLine(label="add a line", line=found), " ".join(filter(None, words)))
        danger = refusal_of(found)
        could_be = () if danger else completed(text, self._offers())
        if len(could_be) == 1:
            return self._add_one(could_be[0], f'"{text}" is taken as {could_be[0]}.')
        self._ask(None if danger else found)
        if danger:
            self._say(danger)
        return False

    def _add_several(self, reading: CardReading) -> bool:
        """Add all that stands in the row, or offer the reader of cards where something is asked."""
        from winebench.plan.handed_down.in_one_row import asked_of_row, row_edit

        assert self._project is not None
        asked = asked_of_row(reading)
        if asked:
            self._offered_card = self.field.text().strip()
            self._say(f"{asked} Enter again takes all of it to the reader of recipe cards.")
            return False
        edit, said = row_edit(reading, self._project)
        return self._add(edit, said)

    def _ask(self, unknown: Unknown | None) -> None:
        self._unknown = unknown
        self._answers.setVisible(unknown is not None)
        if unknown is not None:
            # The keyboard stays in the text: a Space typed on must not answer the question.
            self._say(f'"{unknown.name}" is not in the catalog; Tab goes to what it can be.')

    def _as_fruit(self) -> None:
        if self._unknown is not None:
            self._add_unknown(self._unknown.as_fruit())

    def _as_sugar(self) -> None:
        if self._unknown is not None:
            self._add_unknown(self._unknown.as_sugar())

    def _as_additive(self) -> None:
        if self._unknown is not None:
            self._add_unknown(self._unknown.as_additive())

    def _add_unknown(self, line: Line) -> None:
        self._add(PutLine(label="add a line", line=line))

    def _add(self, edit: Edit, said: str = "") -> bool:
        """Put it into the recipe and say what was decided; where it is refused, the text stays."""
        before = self._project
        forget = KeepDraft(label=edit.label, place=PLACE, text="")
        self.edit_wanted.emit(Several(label=edit.label, edits=(edit, forget)))
        self.field.setFocus(Qt.FocusReason.OtherFocusReason)
        if self._project is before:
            return False
        self.field.clear()
        self._ask(None)
        self._say(said)
        self.used.emit()
        return True

    def forget(self, text: str) -> None:
        """Empty the row of that text: it went into the recipe by way of the reader of cards."""
        if text and text == self.field.text().strip():
            self.edit_wanted.emit(KeepDraft(label="add lines", place=PLACE, text=""))
            self._say("")

    def _say(self, sentence: str) -> None:
        self.said.setText(sentence)
        self.said.setVisible(bool(sentence))
        self.field.setAccessibleDescription(sentence)
        if sentence:
            self.used.emit()

    def eventFilter(self, watched: object, event: QEvent) -> bool:
        """Enter adds, Tab takes a name, Up goes back to the rows; undo is the window's."""
        if not isinstance(event, QKeyEvent):
            return False
        if event.type() == QEvent.Type.ShortcutOverride:
            self._make_way(event)
            if is_undo(event):
                event.ignore()
                return True
            return False
        if event.type() != QEvent.Type.KeyPress:
            return False
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._enter()
            return True
        if event.key() == Qt.Key.Key_Tab:
            return self._tab()
        if event.key() == Qt.Key.Key_Up and watched is self.field:
            self.back_wanted.emit()
            return True
        return False

    def _make_way(self, event: QKeyEvent) -> None:
        """Shut the list before a key of the window's: what that opens has the keyboard then."""
        held = event.modifiers() & ~(
            Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier
        )
        if self._list is not None and (held or Qt.Key.Key_F1 <= event.key() <= Qt.Key.Key_F35):
            self._list.shut()
