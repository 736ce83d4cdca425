"""The recipe's lines one under the other; rows are kept by id and change in place."""

from __future__ import annotations

from itertools import count

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from winebench.model.edits import PutLine
from winebench.model.project import Project
from winebench.plan.outlook import Outlook
from winebench.window.parts.words import Elided
from winebench.window.recipe import columns
from winebench.window.recipe.row import LineRow

_drags = count()


class LineTable(QWidget):
    """All rows and their heading."""

    edit_wanted = Signal(object)
    workings_wanted = Signal(object)
    after_last_wanted = Signal()
    """Enter in the last row: go on to the line that adds another."""

    dragged = Signal(int)
    """A line is dragged, and the pointer is so far down the screen."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: dict[str, LineRow] = {}
        self._order: tuple[str, ...] = ()
        self._project: Project | None = None
        self._drag_number = next(_drags)
        self._for = Elided("", "muted", small=True, right=True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(self._heading())
        self._column = QVBoxLayout()
        self._column.setSpacing(0)
        column.addLayout(self._column)

    def _heading(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(columns.GAP)
        row.setContentsMargins(4, 2, 0, 2)
        inset = 4  # of the text in its field
        row.addWidget(Elided("Goes in", "muted", small=True), 1)
        for words, width in (
            (Elided("as written", "muted", small=True, right=True), columns.WRITTEN - inset),
            (self._for, columns.SCALED + inset - 2),
            (Elided("measure", "muted", small=True), columns.MEASURE + 2),
        ):
            row.addWidget(words.keep_width(width))
        return row

    def show_outlook(self, project: Project, outlook: Outlook) -> None:
        """Show the lines as they are now."""
        self._project = project
        self._head_size(outlook.make_text)
        order = tuple(line.id for line in project.recipe.lines)
        if order != self._order:
            self._put_in_order(project, order)
        found = {line.id: line for line in outlook.lines}
        for line in project.recipe.lines:
            self.rows[line.id].show_line(line, found.get(line.id), project)

    def _head_size(self, made: str) -> None:
        """Head the column with the size made, in the longest words that its width shows whole."""
        short = made.replace("gallons", "gal").replace("gallon", "gal")
        for words in (f"for {made}", f"for {short}", short, "to make"):
            self._for.say(words)
            if self._for.sizeHint().width() <= self._for.width():
                break
        self._for.setAccessibleName(f"for {made}")

    def _put_in_order(self, project: Project, order: tuple[str, ...]) -> None:
        for line_id in [line_id for line_id in self.rows if line_id not in order]:
            gone = self.rows.pop(line_id)
            gone.hide()
            gone.deleteLater()
        for place, line in enumerate(project.recipe.lines):
            row = self.rows.get(line.id)
            if row is not None and type(row.line) is not type(line):
                row.hide()
                row.deleteLater()
                row = None
            if row is None:
                row = self.rows[line.id] = LineRow(line, project)
                self._connect(row)
            self._column.insertWidget(place, row)
            row.show()  # a layout would show it a moment later: too late for the keyboard
        self._order = order

    def _connect(self, row: LineRow) -> None:
        row.edit_wanted.connect(self.edit_wanted)
        row.workings_wanted.connect(self.workings_wanted)
        row.step_wanted.connect(self._step)
        row.move_wanted.connect(self._move)
        row.details_opened.connect(self._close_others)
        row.dragged.connect(self._drag)
        row.dragged.connect(lambda _id, y: self.dragged.emit(y))
        row.dropped.connect(self._drop)

    def _step(self, line_id: str, by: int) -> None:
        place = self._order.index(line_id) + by
        if place >= len(self._order):
            self.after_last_wanted.emit()
        else:
            self.focus_row(self._order[max(place, 0)])

    def focus_row(self, line_id: str) -> None:
        """Put the keyboard into that row's amount."""
        field = self.rows[line_id].written
        field.setFocus(Qt.FocusReason.TabFocusReason)
        field.selectAll()

    def _move(self, line_id: str, by: int) -> None:
        place = self._order.index(line_id) + by
        if self._project is None or not 0 <= place < len(self._order):
            return
        line = self._project.line(line_id)
        rest = [other for other in self._order if other != line_id]
        before = rest[place] if place < len(rest) else ""
        if line is not None:
            self.edit_wanted.emit(PutLine(label="move a line", line=line, before=before))
            self.focus_row(line_id)

    def _drag(self, line_id: str, screen_y: int) -> None:
        """Move the dragged line past each line whose middle the pointer has passed."""
        y = self.mapFromGlobal(QPoint(0, screen_y)).y()
        rest = [self.rows[other] for other in self._order if other != line_id]
        place = sum(row.geometry().center().y() < y for row in rest)
        line = self._project.line(line_id) if self._project else None
        if line is None or place == self._order.index(line_id):
            return
        before = rest[place].line.id if place < len(rest) else ""
        stay = f"drag#{self._drag_number}"
        self.edit_wanted.emit(
            PutLine(label="move a line", merges_as=stay, line=line, before=before)
        )

    def _drop(self) -> None:
        """End the drag: what is dragged next is undone by itself."""
        self._drag_number = next(_drags)

    def _close_others(self, line_id: str) -> None:
        for other, row in self.rows.items():
            if other != line_id:
                row.close_details()

    @property
    def focused_row(self) -> LineRow | None:
        """Return the row that has the keyboard, or None."""
        focus = self.window().focusWidget()  # it stays so while a menu is open over it
        if focus is None:
            return None
        return next((row for row in self.rows.values() if row.isAncestorOf(focus)), None)
