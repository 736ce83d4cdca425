"""The answer's side of "Reach the targets": what to change and what then reads, or why not."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QTableWidget, QTableWidgetItem, QVBoxLayout, QWidget

from winebench.plan.outlook import Figure
from winebench.plan.solve import Answer
from winebench.window.parts.figure import figure_words
from winebench.window.parts.words import heading, label
from winebench.window.parts.wrapped_rows import wrap_rows
from winebench.window.theme import theme

_CHANGES = ("What", "Now", "Becomes", "The batch", "Poor to rich fruit")
_FIGURES = ("The must", "Held at", "Now", "Then", "Poor to rich fruit")
_SHARES = (0.22, 0.15, 0.19, 0.18)
"""Of the width; the last column takes the rest."""
_EMPTY = "Nothing is to be changed."


class ReachAnswer(QWidget):
    """A sentence, two tables and notes; follows each question at once."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.why_not = label(role="asking", wraps=True)
        self.changes = _table("What to change", _CHANGES)
        self.figures = _table("What then reads", _FIGURES)
        self.notes = label(role="muted", wraps=True)
        self._heads = [heading("What to change", 13), heading("What then reads", 13)]
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.why_not)
        column.addWidget(self._heads[0])
        column.addWidget(self.changes, 4)
        column.addWidget(self._heads[1])
        column.addWidget(self.figures, 6)
        column.addWidget(self.notes)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share the width among the columns."""
        super().resizeEvent(event)
        for view in (self.changes, self.figures):
            for place, share in enumerate(_SHARES):
                view.setColumnWidth(place, int((self.width() - 12) * share))

    def say(self, sentence: str) -> None:
        """Show why there is no answer."""
        self._show_sentence(sentence)
        self._fill(Answer(met=False))

    def show_answer(self, found: Answer) -> None:
        """Show what to change, or which two fight."""
        self._show_sentence(found.why_not)
        self._fill(found)

    def _show_sentence(self, sentence: str) -> None:
        self.why_not.setText(sentence)
        self.why_not.setAccessibleName(f"Cannot be met: {sentence}" if sentence else "")
        self.why_not.setVisible(bool(sentence))

    def _fill(self, found: Answer) -> None:
        changed = [each for each in found.changes if each.was != each.becomes]
        for part in (self._heads[0], self.changes):
            part.setVisible(found.met)
        rows = [
            (each.name, each.was, each.becomes, each.batch or "",
             f"{each.low} to {each.high}" if each.low else "")
            for each in changed
        ]  # fmt: skip
        _put(self.changes, _CHANGES, rows or ([(_EMPTY, "", "", "", "")] if found.met else []))
        if not rows and found.met:
            self.changes.setSpan(0, 0, 1, len(_CHANGES))
        self._heads[1].setText("What then reads" if found.met else "What it reads now")
        self.figures.setColumnHidden(_FIGURES.index("Then"), not found.met)
        _put(self.figures, _FIGURES, [
            (each.name, each.held_text,
             figure_words(each.before), figure_words(each.after), _range(each.after))
            for each in found.figures
        ])  # fmt: skip
        self.notes.setText("\n".join(found.notes))
        self.notes.setVisible(bool(found.notes))


def _range(figure: Figure) -> str:
    if figure.value is None or figure.low is None or figure.high is None:
        return ""
    digits = len(figure.text.partition(".")[2])
    low, high = f"{figure.low:.{digits}f}", f"{figure.high:.{digits}f}"
    return "" if low == high else f"{low} to {high}"


def _table(name: str, heads: Sequence[str]) -> QTableWidget:
    view = QTableWidget(0, len(heads))
    view.setAccessibleName(name)
    view.setHorizontalHeaderLabels(list(heads))
    wrap_rows(view)
    return view


def _put(view: QTableWidget, heads: Sequence[str], rows: Sequence[tuple[str, ...]]) -> None:
    """Show the rows; the keyboard stays in the row where it is."""
    row_now = view.currentRow()
    view.clearSpans()
    view.setRowCount(len(rows))
    for row, words in enumerate(rows):
        whole = ", ".join(f"{h} {w}" for h, w in zip(heads[1:], words[1:], strict=True) if w)
        for column, each in enumerate(words):
            item = QTableWidgetItem(each)
            item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
            if heads[column] in ("Becomes", "Then") and each != words[column - 1]:
                item.setFont(theme().heading_font(13))
            if column == 0:
                item.setData(Qt.ItemDataRole.AccessibleTextRole, f"{each}: {whole}")
            view.setItem(row, column, item)
    if 0 <= row_now < len(rows):
        view.setCurrentCell(row_now, 0)
