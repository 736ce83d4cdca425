"""Several days of scribbled lines at the left, what they were taken for at the right."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QCloseEvent, QHideEvent, QTextCursor
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QPlainTextEdit,
    QPushButton,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from winebench.model.edits import KeepDraft, Several, settle
from winebench.plan.scribbles import Scribble, Scribbles, keep_unread, scribbles
from winebench.plan.typed.when import DayOrder
from winebench.window.document import Document
from winebench.window.logging.scribbles_preview import Preview
from winebench.window.parts.fitting import fit_to_screen
from winebench.window.parts.flow import Flow
from winebench.window.parts.words import button, label
from winebench.window.recipe.row import draft

PLACE = "log:scribbles"
_PAUSE_MS, _KEPT_MS = 150, 300
"""So long after the last key are the lines read; after the first, what is typed is kept."""
_HINT = (
    "Mon 8am 1.064 22C\nTue: stirred, smelled fine\n3 Nov 1.052 70F\nyesterday evening lifted the "
    "bag, lost 0.3 L\nday 6 1.034"
)
_TEACH = (
    "One line for each time, as you would scribble it. A line without a day has that of the line "
    "above; a day without a year is the latest one."
)
_ORDERS: tuple[tuple[DayOrder, str, str], ...] = (
    ("day-first", "The day comes first, always", "In all lines the day comes before the month"),
    ("month-first", "The month comes first, always", "In all lines the month comes before the day"),
)


class ScribblesDialog(QDialog):
    """Type or paste; the questions come one at a time; one edit logs it all.

    What is typed is kept with the project as it is typed: Escape only puts it aside.
    """

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Log several days")
        self._document = document
        self._batch = document.project.id
        self._order: DayOrder = ""
        self.found = Scribbles(())
        self._asked: Scribble | None = None
        self.text = QPlainTextEdit()
        self.preview = Preview()
        self.question = label(role="asking", wraps=True)
        self.answers: list[QPushButton] = []
        self._answer_row = Flow(gap=8)
        self.summary = label(role="muted", wraps=True)
        self.keep_rest = button(
            "Keep open lines as notes",
            "Keep every line that cannot be read as a note, word for word",
            self._keep_rest,
            "quiet",
        )
        self.aside = button("Aside", "Put it aside; what is typed stays", self.reject, "quiet")
        self.log = button("Log it", "Log all lines", self._log, "act")
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(_PAUSE_MS)
        self._timer.timeout.connect(self.read)
        self._keeping = QTimer(self)
        self._keeping.setSingleShot(True)
        self._keeping.setInterval(_KEPT_MS)
        self._keeping.timeout.connect(lambda: self._keep_draft(self.text.toPlainText()))
        self._arrange()
        self.text.setPlainText(draft(document.project, PLACE) or "")
        self.text.moveCursor(QTextCursor.MoveOperation.End)
        self.text.textChanged.connect(self._timer.start)
        self.text.textChanged.connect(self._keep_soon)
        self.text.cursorPositionChanged.connect(self._follow)
        self.preview.line_chosen.connect(self._go_to)
        document.replaced.connect(self.close)
        self.read()

    def _arrange(self) -> None:
        self.text.setAccessibleName("Your lines")
        self.text.setPlaceholderText(_HINT)
        self.text.setTabChangesFocus(True)
        self.text.setLineWrapMode(QPlainTextEdit.LineWrapMode.NoWrap)
        sides = QSplitter(Qt.Orientation.Horizontal)
        sides.setChildrenCollapsible(False)
        sides.addWidget(self.text)
        sides.addWidget(self.preview)
        sides.setSizes([380, 560])
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addWidget(self.summary, 1)
        for widget in (self.keep_rest, self.aside, self.log):
            foot.addWidget(widget)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 16, 20, 16)
        column.setSpacing(10)
        column.addWidget(label(_TEACH, "muted", wraps=True))
        column.addWidget(sides, 1)
        column.addWidget(self.question)
        column.addLayout(self._answer_row)
        column.addLayout(foot)
        fit_to_screen(self, 980, 560)

    def _keep_soon(self) -> None:
        if not self._keeping.isActive():  # steady typing must not put the keeping off for ever
            self._keeping.start()

    # --- reading -----------------------------------------------------------------------------

    def read(self) -> None:
        """Read the lines anew and show what they were taken for."""
        self._timer.stop()
        if self._document.project.id != self._batch:
            return
        text = self.text.toPlainText()
        self._keep_draft(text)
        try:
            self.found = scribbles(self._document.project, text, self._document.now(), self._order)
        except (ValueError, ArithmeticError) as problem:
            self.found = Scribbles(())
            self._show(str(problem))
            return
        self._show("")

    def _keep_draft(self, text: str) -> None:
        if self._document.project.id != self._batch:
            return
        if text != (draft(self._document.project, PLACE) or ""):
            keep = KeepDraft(
                label="type several days",
                merges_as=PLACE,
                place=PLACE,
                text=text if text.strip() else "",
            )
            self._document.edit(keep)

    def _show(self, problem: str) -> None:
        self.preview.show_lines(self.found.lines)
        self._follow()
        count, left = len(self.found.entries), len(self.found.open)
        entries = f"{count} {'entry' if count == 1 else 'entries'}"
        said = f"{entries} to log" if count else "Nothing to log yet" if not left else ""
        asked = f"{left} {'line' if left == 1 else 'lines'} to answer first" if left else ""
        self.summary.setText(problem or " · ".join(filter(None, (said, asked))))
        self.log.setEnabled(bool(count) and not left)
        self.log.setText(f"Log {entries}" if count else "Log it")
        self.keep_rest.setVisible(left > 0)

    # --- questions ---------------------------------------------------------------------------

    def _follow(self) -> None:
        """Ask about the line with the cursor, else about the first that is open."""
        number = self.text.textCursor().blockNumber() + 1
        self.preview.show_line(number)
        here = next((line for line in self.found.open if line.number == number), None)
        self._ask(here or next(iter(self.found.open), None))

    def _go_to(self, number: int) -> None:
        block = self.text.document().findBlockByNumber(number - 1)
        if block.isValid() and block.blockNumber() != self.text.textCursor().blockNumber():
            self.text.setTextCursor(QTextCursor(block))

    def _ask(self, line: Scribble | None) -> None:
        if line == self._asked and (line is None or self.answers):
            self.question.setVisible(line is not None)
            return
        self._asked = line
        for old in self.answers:
            self._answer_row.removeWidget(old)
            old.hide()
            old.deleteLater()
        self.answers = []
        while self._answer_row.count():
            self._answer_row.takeAt(0)
        self.question.setVisible(line is not None)
        if line is None:
            return
        self.question.setText(f"Line {line.number}: {line.trouble}")
        for offer in line.offers:
            name = f"{offer.label}, for line {line.number}"
            self._add_answer(offer.label, name, partial(self._answer, line.number, offer.line))
        if self.found.order_asked and "could be" in line.trouble:
            for order, words, name in _ORDERS:
                self._add_answer(words, name, partial(self._choose_order, order))

    def _add_answer(self, words: str, name: str, act: partial[None]) -> None:
        made = button(words, name, act)
        self.answers.append(made)
        self._answer_row.addWidget(made)

    def _answer(self, number: int, line: str) -> None:
        """Put the line as meant in place of what was typed; the text's own undo takes it back."""
        block = self.text.document().findBlockByNumber(number - 1)
        cursor = QTextCursor(block)
        cursor.movePosition(QTextCursor.MoveOperation.EndOfBlock, QTextCursor.MoveMode.KeepAnchor)
        cursor.insertText(line)
        self.read()
        self._focus_next()

    def _choose_order(self, order: DayOrder) -> None:
        self._order = order
        self.read()
        self._focus_next()

    def _focus_next(self) -> None:
        """Put the keyboard on the next answer, or on the way out where none is open."""
        target = self.answers[0] if self.answers else self.log
        target.setFocus(Qt.FocusReason.OtherFocusReason)

    def _keep_rest(self) -> None:
        project, now = self._document.project, self._document.now()
        kept = keep_unread(project, self.text.toPlainText(), now, self._order)
        cursor = QTextCursor(self.text.document())
        cursor.select(QTextCursor.SelectionType.Document)
        cursor.insertText(kept)
        self.read()
        self._focus_next()

    # --- leaving -----------------------------------------------------------------------------

    def _log(self) -> None:
        self.read()
        if not self.found.entries or self.found.open:
            return
        logged = self.found.edit()
        forget = KeepDraft(label=logged.label, place=PLACE, text="")
        self._document.edit(settle(PLACE))  # undo brings the whole text back, not its last key
        before = self._document.project
        self._document.edit(Several(label=logged.label, edits=(*logged.edits, forget)))
        if self._document.project is before:  # refused, and said so: what is typed stays here
            return
        self._batch = ""  # what is typed here is logged now, and no draft any more
        self.accept()

    def done(self, result: int) -> None:
        """Keep what was typed a moment ago, however the dialog is left."""
        if self._batch:
            self.read()
        super().done(result)

    def hideEvent(self, event: QHideEvent) -> None:
        """Let undo go past what was typed here: nobody would see it taken back."""
        super().hideEvent(event)
        if self._batch and not event.spontaneous():
            self._document.edit(settle(PLACE))

    def closeEvent(self, event: QCloseEvent) -> None:
        """Keep what was typed a moment ago."""
        if self._batch:
            self.read()
        super().closeEvent(event)
