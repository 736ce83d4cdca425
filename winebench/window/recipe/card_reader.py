"""The reader of handed-down recipe cards: type or paste at left, see at right how it is read."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QDialog, QHBoxLayout, QSplitter, QVBoxLayout, QWidget

from winebench.model.edits import Edit
from winebench.model.project import Project
from winebench.plan.figures import with_country
from winebench.plan.handed_down.into_project import card_edit
from winebench.plan.handed_down.judge import judged
from winebench.plan.handed_down.read_card import read_card
from winebench.plan.handed_down.shapes import Answer, CardReading, Row
from winebench.plan.typed.remarks import Way
from winebench.store.card_draft import CardDraft, load_card, save_card
from winebench.units import GallonCountry
from winebench.window.document import Document
from winebench.window.parts.words import button, label
from winebench.window.recipe.card_preview import CardPreview
from winebench.window.recipe.card_text import CardText

_SOON_MS = 300
"""So long after the first key that is not kept yet is the card kept."""
_UNKEPT = (
    "The card cannot be kept for the next time: the program's own folder cannot be written. "
    "Use it now, or copy it elsewhere before you close this."
)
Start = Callable[[CardReading], bool]
"""Starts a new batch from the card; returns whether it could."""


class CardReader(QDialog):
    """Reads while one types; nothing becomes a recipe before a button says so."""

    def __init__(self, document: Document, start: Start, parent: QWidget, typed: str = "") -> None:
        """Open on the card that was left here, or on what was typed in a row of the recipe."""
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Read a recipe card")
        self._document = document
        self._start = start
        kept = load_card()
        self._answers = cast("dict[str, Answer]", dict(kept.answers))
        self._gallon = (document.project.gallon if typed else None) or kept.gallon
        left = kept.text if typed and kept.text.strip() != typed else ""
        self._before = left or kept.before
        self._came_to = -1
        """The place of the question that the last answer led to."""
        self.reading = CardReading(text="")
        self.text = CardText()
        self.preview = CardPreview()
        self.said = label(role="muted", wraps=True)
        self.bring_back = button("Bring back the last card", "Bring back the last card that was "
                                 "used", self._bring_back, "quiet")  # fmt: skip
        self.next_open = button("Next question (F8)", "Go to the next question", self.go_on)
        QShortcut(QKeySequence("F8"), self, self.go_on)  # at once; a button's own key is slow
        self.start_new = button(
            "Start a new batch from this", "Start a new batch from this card", self._new, "act"
        )
        self.add = button("Add to this recipe", "Add to this recipe", self._add)
        self.cancel = button("Cancel", "Close; the text is kept for the next time", self.reject)
        self._keeping = QTimer(self)
        self._keeping.setSingleShot(True)
        self._keeping.setInterval(_SOON_MS)
        self._keeping.timeout.connect(self._keep)
        self._arrange()
        self._connect()
        self.text.setPlainText(typed or kept.text)
        self._read()
        self.text.setFocus()

    def _arrange(self) -> None:
        halves = QSplitter(Qt.Orientation.Horizontal)
        halves.setChildrenCollapsible(False)
        halves.addWidget(self.text)
        halves.addWidget(self.preview)
        halves.setStretchFactor(0, 4)
        halves.setStretchFactor(1, 8)
        self.text.setMinimumWidth(220)
        self.preview.setMinimumWidth(420)
        buttons = QHBoxLayout()
        buttons.addWidget(self.bring_back)
        buttons.addWidget(self.next_open)
        buttons.addStretch(1)
        for each in (self.cancel, self.add, self.start_new):
            buttons.addWidget(each)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 12, 16, 12)
        column.setSpacing(8)
        column.addWidget(halves, 1)
        column.addWidget(self.said)
        column.addLayout(buttons)
        self.setMinimumSize(760, 440)
        room = self.screen().availableGeometry()
        self.resize(min(1200, room.width() - 40), min(660, room.height() - 60))
        halves.setSizes([400, 800])

    def _connect(self) -> None:
        self.text.textChanged.connect(self._read)
        self.text.reached.connect(self.preview.show_current)
        self.preview.way_wanted.connect(self._take)
        self.preview.answer_wanted.connect(self._answer)
        self.preview.gallon_wanted.connect(self._choose_gallon)
        self.preview.row_pressed.connect(self._go_to)

    # --- reading -----------------------------------------------------------------------------

    def _read(self) -> None:
        text = self.text.toPlainText()
        self.reading = judged(read_card(text, self._answers, self._gallon))
        self.text.show_reading(self.reading)
        self.preview.show_reading(self.reading)
        ready = not self.reading.is_open and any(row.line for row in self.reading.rows)
        for each in (self.start_new, self.add):
            each.setEnabled(ready)
        self.start_new.setDefault(False)
        self.next_open.setVisible(self.reading.is_open)
        self.bring_back.setVisible(not text.strip() and bool(self._before))
        self.said.setText(self._words())
        if not self._keeping.isActive():  # steady typing must not put the keeping off for ever
            self._keeping.start()

    def _words(self) -> str:
        rows = self.reading.rows
        if not rows:
            return "Nothing is saved before you say so; the text stays here when you close this."
        opened = sum(row.is_open for row in rows)
        if self.reading.asks_gallon and self.reading.gallon is None:
            return "Whose gallon is it? The card as a whole is judged after the last question."
        if opened:
            each = "1 line is" if opened == 1 else f"{opened} lines are"
            return f"{each} still to settle; the card as a whole is judged after that."
        lines = sum(row.line is not None for row in rows)
        if not lines:
            return "No ingredient is read yet."
        count = "1 ingredient" if lines == 1 else f"{lines} ingredients"
        marked = sum(row.state == "look" for row in rows) + len(self.reading.remarks)
        look = f"; look at the {marked} marked first" if marked else ""
        return f"Everything is read: {count}{look}. {self._mixed()}".strip()

    def _mixed(self) -> str:
        """Say where adding to the open recipe would mix two volumes."""
        project = self._document.project
        basis = self.reading.basis
        if not project.recipe.lines or basis is None:
            return ""
        own = project.recipe.basis.litres(project.gallon)
        if abs(basis.litres(self.reading.gallon) / own - 1.0) < 0.02:
            return ""
        return (
            f"The open recipe is for {with_country(project.recipe.basis, project.gallon)}, "
            f"the card for {with_country(basis, self.reading.gallon)}: "
            "added, its amounts stay as they are."
        )

    # --- settling ----------------------------------------------------------------------------

    def _take(self, way: Way, row: Row | None) -> None:
        place = self.reading.rows.index(row) if row in self.reading.rows else -1
        self.text.take(way, row)
        self._go_on(max(place - 1, -1))  # another row may have taken its place

    def _answer(self, name: str, answer: str) -> None:
        if answer:
            self._answers[name] = cast("Answer", answer)
        else:
            self._answers.pop(name, None)
        self._read()

    def _choose_gallon(self, country: str) -> None:
        self._gallon = cast("GallonCountry", country) if country else None
        self._read()

    def _go_to(self, row: Row) -> None:
        self.text.go_to(row)
        self.text.setFocus(Qt.FocusReason.OtherFocusReason)

    def go_on(self) -> None:
        """Put the keyboard on what settles the next question.

        An answer takes it there by itself: that question is not passed over.
        """
        here = self._here()
        self._go_on(here - 1 if 0 <= here == self._came_to else here)
        self._came_to = -1

    def _here(self) -> int:
        """Return the place of the row that has the keyboard, -1 where none has."""
        focus, views = self.focusWidget(), self.preview.rows
        return next((n for n, view in enumerate(views) if focus and view.isAncestorOf(focus)), -1)

    def _go_on(self, after: int) -> None:
        if self.reading.asks_gallon and self.reading.gallon is None:
            next(iter(self.preview.gallons.values())).setFocus(Qt.FocusReason.TabFocusReason)
            return
        view = self.preview.open_row(after)
        if view is None:
            (self.start_new if self.start_new.isEnabled() else self.text).setFocus()
            return
        self._came_to = self.preview.rows.index(view)
        if view.row is not None:
            self.text.go_to(view.row)
        if not self.preview.settle(view):
            self.text.setFocus(Qt.FocusReason.OtherFocusReason)

    # --- what becomes of it ------------------------------------------------------------------

    def _new(self) -> None:
        if self._start(self.reading):
            self._used()

    def _add(self) -> None:
        before = self._document.project
        self._document.edit(self._edit(before))
        if self._document.project != before:
            self._used()

    def _edit(self, project: Project) -> Edit:
        return card_edit(self.reading, project, self._document.now())

    def _used(self) -> None:
        """Close with an empty card; the used one can be brought back."""
        self._before = self.text.toPlainText()
        self.text.textChanged.disconnect(self._read)
        self.text.clear()
        self._answers, self._gallon = {}, None
        self.accept()

    def _bring_back(self) -> None:
        self.text.setPlainText(self._before)
        self.text.setFocus()

    def _keep(self) -> None:
        answers = {name: str(answer) for name, answer in self._answers.items()}
        text = self.text.toPlainText()
        card = CardDraft(text=text, answers=answers, gallon=self._gallon, before=self._before)
        if not save_card(card):
            self.said.setText(_UNKEPT)

    def done(self, result: int) -> None:
        """Keep the text, however the dialog closes."""
        self._keeping.stop()
        self._keep()
        super().done(result)
