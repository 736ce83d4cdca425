"""Scroll the step rows, keeping the chosen one in view."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget

from winebench.window.timeline.step_rows import ROW_HEIGHT, StepRows

_ANY = 16777215
"""Qt's word for a height without a limit."""


class RowsArea(QScrollArea):
    """At least a few rows high; other room or another choice never hides the chosen row."""

    def __init__(self, rows: StepRows, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows = rows
        self.setWidget(rows)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalScrollBar().setSingleStep(ROW_HEIGHT)
        rows.selected.connect(self.show_chosen)
        rows.installEventFilter(self)
        self._least = 4
        self._share = _ANY
        self._pressed = False
        """Whether the pointer holds a row: that row is seen, and must not move away under it."""

    def show_chosen(self) -> None:
        """Scroll as little as shows the chosen row and a neighbour on each side."""
        if not self._pressed:
            self._show_with_margin(ROW_HEIGHT + ROW_HEIGHT // 2)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Learn when the pointer is pressed on the rows, before they do."""
        if event.type() in (QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonDblClick):
            self._pressed = True
        elif event.type() == QEvent.Type.MouseButtonRelease:
            self._pressed = False
        return super().eventFilter(watched, event)

    def _show_with_margin(self, margin: int) -> None:
        row = self._rows.row_rect(self._rows.current)
        if not row.isEmpty():
            self.ensureVisible(0, round(row.center().y()), 0, margin)
            bar = self.verticalScrollBar()
            bar.setValue(round(bar.value() / ROW_HEIGHT) * ROW_HEIGHT)

    def take_room(self, least: int | None = None) -> None:
        """Ask for at least that many rows, else as before, and for no more than there are."""
        self._least = self._least if least is None else least
        self._ask_for_room()

    def share(self, height: int) -> None:
        """Take no more of that height than whole rows fill: none is cut through."""
        self._share = height
        self._ask_for_room()

    def _ask_for_room(self) -> None:
        every = self._rows.sizeHint().height()
        self.setMinimumHeight(min(self._least * ROW_HEIGHT, every))
        whole_rows = self._share // ROW_HEIGHT * ROW_HEIGHT
        self.setMaximumHeight(min(max(whole_rows, self.minimumHeight()), every))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Bring the chosen row to the middle: what comes before and after shows beside it."""
        super().resizeEvent(event)
        self._show_with_margin(self.viewport().height() // 2)
