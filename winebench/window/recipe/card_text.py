"""The text of a recipe card, with a wave under what has to be looked at."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtGui import QColor, QTextCharFormat, QTextCursor
from PySide6.QtWidgets import QPlainTextEdit, QTextEdit, QWidget

from winebench.plan.handed_down.shapes import CardReading, Row, State
from winebench.plan.typed.remarks import Way
from winebench.window.theme import theme

TEACH = """\
Type or paste the card as it stands, such as

3 lb plums, 2 lb sugar, 1 tsp acid blend
water to 1 gallon
SG 1.085
1 packet yeast
Stir daily for 5 days."""


class CardText(QPlainTextEdit):
    """Plain text; Tab leaves it, and each change can be undone here."""

    reached = Signal(int)
    """The caret stands in the row of that place; -1 in none."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._reading = CardReading(text="")
        self.setAccessibleName("The recipe card as handed down")
        self.setPlaceholderText(TEACH)
        self.setTabChangesFocus(True)
        self.setFont(theme().base_font())
        self.cursorPositionChanged.connect(self._tell_row)
        theme().changed.connect(self._underline)

    def show_reading(self, reading: CardReading) -> None:
        """Underline what the reading of this same text has to say something about."""
        self._reading = reading
        self._underline()
        self._tell_row()

    def _underline(self) -> None:
        found = []
        for row in self._reading.rows:
            if row.state != "read":
                selection = QTextEdit.ExtraSelection()
                selection.cursor = self._cursor(row.item.start, row.item.end)
                selection.format = _wave(row.state)
                found.append(selection)
        self.setExtraSelections(found)

    def _cursor(self, start: int, end: int) -> QTextCursor:
        """Return a cursor over text[start:end]; the document counts in UTF-16 units."""
        cursor = self.textCursor()
        text = self._reading.text
        cursor.setPosition(_units(text[:start]))
        cursor.setPosition(_units(text[:end]), QTextCursor.MoveMode.KeepAnchor)
        return cursor

    def _tell_row(self) -> None:
        here = self.textCursor().position()
        text = self._reading.text
        for place, row in enumerate(self._reading.rows):
            if _units(text[: row.item.start]) <= here <= _units(text[: row.item.end]):
                self.reached.emit(place)
                return
        self.reached.emit(-1)

    def go_to(self, row: Row) -> None:
        """Put the caret behind the row's words and show them."""
        cursor = self._cursor(row.item.start, row.item.end)
        cursor.setPosition(cursor.selectionEnd())
        self.setTextCursor(cursor)
        self.ensureCursorVisible()

    def take(self, way: Way, row: Row | None) -> None:
        """Write the way out: in the place of the row, or on a line of its own before the rows."""
        if row is None or way.apart:
            cursor = self._cursor(*[self._first_place()] * 2)
            cursor.insertText(f"{way.text}\n")
        elif way.text:
            self._cursor(row.item.start, row.item.end).insertText(way.text)
        else:
            self._take_out(row)

    def _first_place(self) -> int:
        """Return where the first ingredient's line starts: below title and heading."""
        text = self._reading.text
        for row in self._reading.rows:
            if row.kind not in ("title", "heading"):
                return text.rfind("\n", 0, row.item.start) + 1
        return 0

    def _take_out(self, row: Row) -> None:
        """Take the row's words out, with their line where nothing else stands on it."""
        text, start, end = self._reading.text, row.item.start, row.item.end
        first = text.rfind("\n", 0, start) + 1
        last = text.find("\n", end)
        last = len(text) if last < 0 else last + 1
        alone = not any(
            first <= other.item.start < last for other in self._reading.rows if other is not row
        )
        self._cursor(*((first, last) if alone else (start, end))).removeSelectedText()


def _units(text: str) -> int:
    return len(text) + sum(letter > "\uffff" for letter in text)


def _wave(state: State) -> QTextCharFormat:
    palette = theme().palette
    colour: QColor = palette.straw if state == "look" else palette.fruit
    made = QTextCharFormat()
    made.setUnderlineStyle(QTextCharFormat.UnderlineStyle.WaveUnderline)
    made.setUnderlineColor(colour)
    return made
