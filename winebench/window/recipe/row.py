"""One line of the recipe: its name, as written, scaled, and how to measure it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from winebench.model.edits import DropLine
from winebench.model.project import Project
from winebench.model.recipe import Line, WaterLine
from winebench.plan.outlook import LineOutlook
from winebench.window.parts.caution import CautionList
from winebench.window.parts.field import Field
from winebench.window.parts.figure import FigureLabel
from winebench.window.parts.words import Elided, label
from winebench.window.recipe import columns
from winebench.window.recipe.amounts import amount_binding, amount_text
from winebench.window.recipe.line_name import LineName
from winebench.window.theme import theme

if TYPE_CHECKING:
    from winebench.window.recipe.details import LineDetails


_MEASURE_LINES = 6
"""What is to be measured is never cut: "crush and weigh 0.29 g, or 2.9 mL of a 10 % stock"."""


class LineRow(QWidget):
    """A row that changes in place; its cautions and details open under it."""

    edit_wanted = Signal(object)
    workings_wanted = Signal(object)
    step_wanted = Signal(str, int)
    """Go to the row so many below; id of this line."""
    move_wanted = Signal(str, int)
    """Put this line so many places further down."""
    dragged = Signal(str, int)
    """This line is dragged, and the pointer is so far down the screen."""
    dropped = Signal()
    details_opened = Signal(str)

    def __init__(self, line: Line, project: Project, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.line = line
        self._project = project
        self.name = LineName()
        self.written = Field("As written", cell=True)
        self.scaled = FigureLabel("Scaled")
        self.measure = Elided(lines=_MEASURE_LINES)
        self.refusal = label(wraps=True, small=True)
        self.cautions = CautionList()
        self.details: LineDetails | None = None
        self._arrange()
        self._connect()

    def _arrange(self) -> None:
        self.written.setFixedWidth(columns.WRITTEN)
        self.written.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.written.setFixedHeight(columns.ROW_HEIGHT)
        self.scaled.setFixedWidth(columns.SCALED)
        self.measure.keep_width(columns.MEASURE)
        self.refusal.hide()
        row = QHBoxLayout()
        row.setSpacing(columns.GAP)
        row.addWidget(self.name, 1)
        row.addWidget(self.written)
        row.addWidget(self.scaled)
        row.addWidget(self.measure)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 1)
        self._column.setSpacing(0)
        self._column.addLayout(row)
        self._column.addWidget(self.refusal)
        self._column.addWidget(self.cautions)

    def _connect(self) -> None:
        def current() -> Line | None:
            return self._project.line(self.line.id)

        self.written.bind(amount_binding(self.line, current, lambda: self._project.gallon))
        if isinstance(self.line, WaterLine):
            self.written.setPlaceholderText("to the mark")
        self.written.edit_wanted.connect(self.edit_wanted)
        self.written.refused.connect(self._show_refusal)
        self.written.next_row_wanted.connect(lambda by: self.step_wanted.emit(self.line.id, by))
        self.written.installEventFilter(self)
        self.name.pressed.connect(self.toggle_details)
        self.name.dragged.connect(lambda y: self.dragged.emit(self.line.id, y))
        self.name.dropped.connect(self.dropped)
        self.scaled.workings_wanted.connect(self.workings_wanted)
        self.cautions.edit_wanted.connect(self._repair)

    def _repair(self, edit: object) -> None:
        self.written.setFocus(Qt.FocusReason.OtherFocusReason)
        self.edit_wanted.emit(edit)

    def _show_refusal(self, sentence: str) -> None:
        self.refusal.setText(sentence)
        self.refusal.setVisible(bool(sentence))

    def show_line(self, line: Line, found: LineOutlook | None, project: Project) -> None:
        """Show the line as it is now."""
        self.line, self._project = line, project
        name = found.name if found else self.name.words
        self.name.show_name(name, self.details is not None and self.details.isVisibleTo(self))
        place = f"line:{line.id}:amount"
        self.written.setAccessibleName(f"{name}, as written")
        self.written.show_text(amount_text(line), draft(project, place))
        self.scaled.rename(f"{name}, scaled")
        self.scaled.show_figure(found.scaled if found else None)
        self.measure.say(_measure(found))
        self.cautions.show_cautions(found.cautions if found else ())
        if self.details is not None:
            self.details.show_line(line, project)

    # --- details, moving, taking out -------------------------------------------------------

    def toggle_details(self) -> None:
        """Open or close what is known of the line."""
        if self.details is None:
            from winebench.window.recipe.details import LineDetails  # seldom opened: late

            self.details = LineDetails(self.line)
            self.details.edit_wanted.connect(self.edit_wanted)
            self.details.closed.connect(self._close_details)
            self.details.remove_wanted.connect(self.remove)
            self._column.addWidget(self.details)
            self.details.show_line(self.line, self._project)
            self.details.open()
            self.details_opened.emit(self.line.id)
        elif self.details.isVisibleTo(self):
            self._close_details()
        else:
            self.details.open()
            self.details_opened.emit(self.line.id)
        self.name.show_name(self.name.words, self.details.isVisibleTo(self))

    def close_details(self) -> None:
        """Close the details if they are open; the keyboard stays where it is."""
        if self.details is not None:
            self.details.hide()
            self.name.show_name(self.name.words, False)

    def _close_details(self) -> None:
        self.close_details()
        self.written.setFocus(Qt.FocusReason.OtherFocusReason)

    def remove(self) -> None:
        """Take the line out of the recipe."""
        self.step_wanted.emit(self.line.id, 1)
        self.edit_wanted.emit(DropLine(label=f"take out {self.name.words}", id=self.line.id))

    def eventFilter(self, watched: object, event: QEvent) -> bool:
        """Handle the keys of a row while its amount has the keyboard."""
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            return self._take_key(event)
        return False

    def _take_key(self, event: QKeyEvent) -> bool:
        key, held = event.key(), event.modifiers()
        if key == Qt.Key.Key_F1:
            self.scaled.explain()
        elif key == Qt.Key.Key_F4:
            self.toggle_details()
        elif key == Qt.Key.Key_Delete and held & Qt.KeyboardModifier.ControlModifier:
            self.remove()
        elif key in (Qt.Key.Key_Up, Qt.Key.Key_Down) and held & Qt.KeyboardModifier.AltModifier:
            self.move_wanted.emit(self.line.id, 1 if key == Qt.Key.Key_Down else -1)
        else:
            return False
        return True

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the rule under the row."""
        del event
        painter = QPainter(self)
        painter.setPen(QPen(theme().palette.rule, 1))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)


def draft(project: Project, place: str) -> str | None:
    """Return the text kept for that place, or None."""
    return next((d.text for d in project.drafts if d.place == place), None)


def _measure(found: LineOutlook | None) -> str:
    if found is None:
        return ""
    off = found.measure_error_percent
    if off is None or abs(off) < 2.5 or "weigh" in found.measure:
        return found.measure
    return f"{found.measure} ({off:+.0f} %)".replace("-", "−")
