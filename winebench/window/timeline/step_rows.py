"""The steps as rows on the shared time axis; one of them is selected."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QHelpEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QWheelEvent
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from winebench.plan.outlook import StepOutlook
from winebench.window.theme import theme
from winebench.window.timeline.axis import TimeAxis
from winebench.window.timeline.moments import Floats, done_seconds
from winebench.window.timeline.row_painter import RowPainter
from winebench.window.timeline.steering import Dragging, steer_by_key
from winebench.window.timeline.step_words import state_words

ROW_HEIGHT = 26


class StepRows(QWidget):
    """Paint one row a step; arrow keys and clicks select, drags and keys move the time."""

    selected = Signal(str)
    chosen = Signal(str)

    def __init__(self, axis: TimeAxis, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.axis = axis
        self.steps: tuple[StepOutlook, ...] = ()
        self.now = 0.0
        self.current = ""
        self._done: Mapping[str, Floats] = {}
        """When each step was done, s since 1970, in order; worked out once, not at every paint."""
        self._dragging = Dragging(axis)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Steps of the batch")
        axis.changed.connect(self.update)
        theme().changed.connect(self.update)

    def show_steps(
        self, steps: tuple[StepOutlook, ...], now: datetime, times: Mapping[str, datetime]
    ) -> None:
        """Show the steps that this batch needs; `times` says when each entry of the log was."""
        self.steps = tuple(step for step in steps if step.state != "skipped")
        self.now = now.timestamp()
        self._done = {step.key: done_seconds(step, times) for step in self.steps}
        self.setFixedHeight(len(self.steps) * ROW_HEIGHT)
        if self.current not in {step.key for step in self.steps}:
            self.current = ""
        self._describe()
        self.update()

    def select(self, key: str) -> None:
        """Select the step of that key and say so."""
        if key == self.current:
            return
        self.current = key
        self._describe()
        self.update()
        self.selected.emit(key)

    def row_rect(self, key: str) -> QRectF:
        """Return where the row of that step is, an empty rectangle if it has none."""
        row = self._row(key)
        return QRectF() if row is None else QRectF(0, row * ROW_HEIGHT, self.width(), ROW_HEIGHT)

    def _row(self, key: str) -> int | None:
        return next((i for i, step in enumerate(self.steps) if step.key == key), None)

    def _describe(self) -> None:
        row = self._row(self.current)
        if row is None:
            said = f"{len(self.steps)} steps; arrow keys choose one."
        else:
            step = self.steps[row]
            said = f"{row + 1} of {len(self.steps)}: {step.name}, {state_words(step)}, {step.when}."
            missing = "; ".join(one.text for one in step.conditions if not one.met)
            said += f" Waits for {missing}." if missing else ""
        self.setAccessibleDescription(said)

    def sizeHint(self) -> QSize:
        """Return room for the rows there are."""
        return QSize(400, len(self.steps) * ROW_HEIGHT)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the rows that the event touches, and the line of now through them."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        rows = RowPainter(painter, self.axis, self.now, self._done, self.width())
        first = max(event.rect().top() // ROW_HEIGHT, 0)
        last = event.rect().bottom() // ROW_HEIGHT + 1
        for row, step in enumerate(self.steps[first:last], first):
            area = QRectF(0, row * ROW_HEIGHT, self.width(), ROW_HEIGHT)
            chosen = step.key == self.current
            rows.paint_background(area, chosen=chosen, focused=chosen and self.hasFocus())
        rows.paint_now(0, self.height())
        for row, step in enumerate(self.steps[first:last], first):
            rows.paint(step, QRectF(0, row * ROW_HEIGHT, self.width(), ROW_HEIGHT))
        painter.end()

    def _step_at(self, position: QPointF) -> StepOutlook | None:
        row = int(position.y() // ROW_HEIGHT)
        return self.steps[row] if 0 <= row < len(self.steps) else None

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Select the row under the pointer and start to drag the time."""
        if event.button() == Qt.MouseButton.LeftButton:
            step = self._step_at(event.position())
            if step is not None:
                self.select(step.key)
            self._dragging.begin(event.position().x())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag the time along with the pointer."""
        if event.buttons() & Qt.MouseButton.LeftButton:
            self._dragging.move(event.position().x())

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Choose the step: go to its card."""
        step = self._step_at(event.position())
        if step is not None:
            self.chosen.emit(step.key)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom with Ctrl; otherwise let the rows scroll."""
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            about = self.axis.seconds(event.position().x())
            self.axis.zoom(0.999 ** event.angleDelta().y(), about)
            event.accept()
        else:
            event.ignore()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up, Down, Home and End select; Enter goes to the card; the rest steers the time."""
        row = self._row(self.current)
        last = len(self.steps) - 1
        to = {
            Qt.Key.Key_Up: (row if row is not None else 1) - 1,
            Qt.Key.Key_Down: (row if row is not None else -1) + 1,
            Qt.Key.Key_Home: 0,
            Qt.Key.Key_End: last,
        }.get(Qt.Key(event.key()))
        if to is not None and self.steps:
            self.select(self.steps[min(max(to, 0), last)].key)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.current:
            self.chosen.emit(self.current)
        elif not steer_by_key(self.axis, event):
            super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Tell a step's reason where the pointer rests."""
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            step = self._step_at(QPointF(event.pos()))
            if step is not None:
                lines = (step.name, step.when, step.reason)
                QToolTip.showText(event.globalPos(), "\n".join(filter(None, lines)), self)
            return True
        return super().event(event)
