"""The chosen step: when, why, what it waits for, what a delay costs, and its tick."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QColor, QFontMetrics, QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from winebench.model.project import Project
from winebench.plan.outlook import ClueOutlook, StepOutlook
from winebench.window.parts.words import Elided, button, give_role, heading, label
from winebench.window.theme import theme
from winebench.window.timeline.step_figures import StepFigures
from winebench.window.timeline.step_words import (
    basis_words,
    clues_aloud,
    clues_html,
    conditions_aloud,
    conditions_html,
    headline,
    refusal,
)
from winebench.window.timeline.tick_form import TickForm

_SEPARATOR = "     "
_ROOMY = 700
"""The width from which a name, its time and the buttons stand in one row, px."""
READ_GRAVITY = "read-gravity"
"""The one step that a logged reading does, not a tick."""


class StepCard(QFrame):
    """Show one step; emit the edit that ticks it off."""

    edit_wanted = Signal(object)
    log_wanted = Signal(str)
    reading_wanted = Signal()
    workings_wanted = Signal(object)
    left = Signal()
    """The keyboard has nothing more to do here."""
    explained = Signal()
    """What dates the step was asked for."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("stepCard")
        self.step: StepOutlook | None = None
        self._clues: tuple[ClueOutlook, ...] = ()
        self.project: Project | None = None
        """What the step belongs to; text typed for a tick is kept with it."""
        self._now: datetime | None = None
        self._narrow = False
        self.name = heading("", 14)
        self.when = Elided(role="muted", lines=2)
        self.moved = label(role="muted", wraps=True)
        self.reason = label(wraps=True)
        self.waits = label(wraps=True)
        self.waits.setTextFormat(Qt.TextFormat.RichText)
        self.clues = label(wraps=True)
        self.clues.setTextFormat(Qt.TextFormat.RichText)
        self.slips = label(wraps=True)
        self.remember = label(wraps=True)
        self.figures = StepFigures()
        self.basis = label(wraps=True)
        self.workings = button("workings F1", "Show what dates this step", self._fill, "quiet")
        self.workings.setCheckable(True)
        self.workings.clicked.connect(self.explained)
        self.entry = button("in the log ›", "Show it in the log", self._show_entry, "quiet")
        self.tick = button("Tick it off…", "Tick this step off", self._open_form)
        self.form = TickForm()
        self.answer = label(role="asking", wraps=True)
        self._arrange()
        theme().changed.connect(self._fill)

    def _arrange(self) -> None:
        head = self._head = QHBoxLayout()
        head.setSpacing(8)
        head.addWidget(self.name)
        head.addWidget(self.when, 1)
        for widget in self._buttons():
            head.addWidget(widget)
        column = self._column = QVBoxLayout(self)
        column.setContentsMargins(20, 8, 12, 10)
        column.setSpacing(4)
        column.addLayout(head)
        for line in (self.moved, self.reason):
            column.addWidget(line)
        column.addLayout(self._facts())
        column.addWidget(self.answer)
        column.addWidget(self.form)
        column.addStretch(1)
        self.form.hide()
        self.answer.hide()
        self.form.edit_wanted.connect(self.edit_wanted)
        self.figures.workings_wanted.connect(self.workings_wanted)
        self.form.left.connect(lambda: self.tick.setFocus(Qt.FocusReason.OtherFocusReason))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Put the time under the name where it has no room beside it."""
        super().resizeEvent(event)
        self._place_time()

    def _place_time(self) -> None:
        short = self.width() < _ROOMY
        self.workings.setText("F1" if short else "workings F1")
        self.entry.setText("log ›" if short else "in the log ›")
        narrow = short or self.width() < self._in_one_row()
        if narrow == self._narrow:
            return
        self._narrow = narrow
        self.name.setWordWrap(narrow)
        self._head.setStretchFactor(self.name, 1 if narrow else 0)
        (self._head if narrow else self._column).removeWidget(self.when)
        if narrow:
            self._column.insertWidget(1, self.when)
        else:
            self._head.insertWidget(1, self.when, 1)

    def _in_one_row(self) -> int:
        """Return the width that the name, its time in full and the buttons take, px."""
        name = QFontMetrics(self.name.font()).horizontalAdvance(self.name.text())
        shown = [each for each in self._buttons() if not each.isHidden()]
        words = self.when.sizeHint().width() + sum(each.sizeHint().width() for each in shown)
        edges = self._column.contentsMargins()
        return name + words + self._head.spacing() * (1 + len(shown)) + edges.left() + edges.right()

    def _buttons(self) -> tuple[QPushButton, ...]:
        return self.workings, self.entry, self.tick

    def _facts(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(1, 1)
        self._captions: dict[QWidget, QLabel] = {}
        named = (
            ("Waits for", self.waits),
            ("Clues", self.clues),
            ("If it slips", self.slips),
            ("Remember", self.remember),
            ("Worked out", self.figures),
            ("Dated by", self.basis),
        )
        for row, (words, line) in enumerate(named):
            said = label(words, "muted")
            grid.addWidget(said, row, 0, Qt.AlignmentFlag.AlignTop)
            grid.addWidget(line, row, 1)
            self._captions[line] = said
        return grid

    @property
    def asks(self) -> bool:
        """Return whether something is asked or answered under the step's words."""
        return not self.form.isHidden() or not self.answer.isHidden()

    def show_step(
        self, step: StepOutlook | None, now: datetime, clues: tuple[ClueOutlook, ...] = ()
    ) -> None:
        """Show a step as it stands now; an opened form stays while the step is the same.

        `clues` is what the log says of a standstill that this step sees to.
        """
        another = (step and step.key) != (self.step and self.step.key)
        same = step == self.step and clues == self._clues
        self.step, self._now, self._clues = step, now, clues
        if another:
            self.form.hide()
            self.answer.hide()
        if not same or step is None:
            self._fill()

    def _fill(self) -> None:
        step = self.step
        self.setVisible(step is not None)
        if step is None:
            return
        self.name.setText(step.name)
        self.when.say(headline(step))
        self._say(self.moved, step.moved.sentence if step.moved else "")
        self._say(self.reason, step.reason)
        self._say(self.waits, conditions_html(step.conditions, theme().palette))
        self.waits.setAccessibleName(conditions_aloud(step.conditions))
        self._say(self.clues, clues_html(self._clues, theme().palette))
        self.clues.setAccessibleName(clues_aloud(self._clues))
        self._say(self.slips, _SEPARATOR.join(step.if_slips))
        self._say(self.remember, step.reminder)
        self.figures.show_figures(step.figures)
        self._show_row(self.figures, bool(step.figures))
        self._say(self.basis, basis_words(step) if self.workings.isChecked() else "")
        self._fill_buttons(step)
        self._place_time()
        self.setAccessibleName(f"{step.name}, {headline(step)}")
        self.update()

    def _say(self, line: QLabel, words: str) -> None:
        line.setText(words)
        self._show_row(line, bool(words))

    def _show_row(self, line: QWidget, shown: bool) -> None:
        line.setVisible(shown)
        if line in self._captions:
            self._captions[line].setVisible(shown)

    def _fill_buttons(self, step: StepOutlook) -> None:
        tickable = step.state not in ("done", "skipped") or step.repeats
        if self.tick.hasFocus() and not tickable:
            self.left.emit()
        self.tick.setVisible(tickable)
        words = "Tick it off all the same…" if step.override == "reason" else "Tick it off…"
        self.tick.setText("Log a reading  F2" if step.key == READ_GRAVITY else words)
        give_role(self.tick, "act" if step.state in ("due", "missed") else "")
        self.tick.setAccessibleName(f"{self.tick.text().rstrip('…')}: {step.name}")
        self.entry.setVisible(bool(step.entry_ids))

    def _open_form(self) -> None:
        if self.step is None or self._now is None or self.project is None:
            return
        if self.step.key == READ_GRAVITY:
            self.reading_wanted.emit()
            return
        if self.step.override == "never":
            self.answer.setText(refusal(self.step))
            self.answer.show()
            return
        self.answer.hide()
        self.form.open_for(self.step, self._now, self.project)

    def _show_entry(self) -> None:
        if self.step is not None and self.step.entry_ids:
            self.log_wanted.emit(self.step.entry_ids[-1])

    def explain(self) -> None:
        """Show where the date comes from; asked again, it stays and comes into sight."""
        if self.workings.isChecked():
            self.explained.emit()
        else:
            self.workings.click()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """F1 shows where the date comes from, and puts it away again."""
        if event.key() == Qt.Key.Key_F1:
            self.workings.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the card, and on its left the stripe that repeats the step's state."""
        super().paintEvent(event)
        if self.step is None:
            return
        painter = QPainter(self)
        painter.fillRect(QRectF(0, 6, 4, self.height() - 12), self._stripe(self.step))
        painter.end()

    def _stripe(self, step: StepOutlook) -> QColor:
        palette = theme().palette
        colours = {
            "due": palette.fruit,
            "missed": palette.fruit,
            "held": palette.straw,
            "done": palette.leaf,
        }
        return colours.get(step.state, palette.muted)
