"""The days to come as a list: on which the batch can be started, and on which not, and why."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from winebench.plan.days import MONTHS, WEEKDAYS
from winebench.plan.start_days import StartDay, start_days, start_edit
from winebench.window.batch.away import away_text
from winebench.window.document import Document
from winebench.window.parts.words import button, label
from winebench.window.parts.wrapped_rows import wrap_rows
from winebench.window.theme import theme

WEEKS = 8
_TEACH = (
    "Each day as if the must were made up on it. What cannot wait and falls in your days away "
    "stands beside it."
)
_NO_AWAY = (
    "No days away are noted, so every day is free: note them under Batch, Kitchen, room and "
    "instruments."
)


class StartDaysDialog(QDialog):
    """One row a day, worked out one after the other so that the window never stands still."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Days to start on")
        self._document = document
        self.days: dict[int, StartDay] = {}
        """The day of each row that is one; the others name a month."""
        self.list = QTableWidget(0, 3)
        self.said = label(wraps=True)
        self.leave = button("Close", "Close and leave the start as it is", self.reject, "quiet")
        self.start = button("Start on this day", "Start on the chosen day", self._start, "act")
        self._coming: Iterator[StartDay] = iter(())
        self._timer = QTimer(self)
        self._timer.timeout.connect(self._next)
        self._arrange()
        self.list.currentCellChanged.connect(self._tell)
        self.list.cellDoubleClicked.connect(self._start)
        document.replaced.connect(self.reject)
        self._begin()

    def _arrange(self) -> None:
        view = self.list
        view.setAccessibleName("Days to start on")
        view.setHorizontalHeaderLabels(["Day", "", "What falls in the days away"])
        wrap_rows(view)
        for place, width in enumerate((110, 80)):
            view.setColumnWidth(place, width)
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addWidget(self.said, 1)
        foot.addWidget(self.leave)
        foot.addWidget(self.start)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 16, 20, 16)
        column.setSpacing(10)
        away = self._document.project.away
        noted = f"{_TEACH} Away: {away_text(away)}." if away else _NO_AWAY
        column.addWidget(label(noted, "muted", wraps=True))
        column.addWidget(view, 1)
        column.addLayout(foot)
        self.start.setEnabled(False)
        self.resize(820, 600)

    @property
    def busy(self) -> bool:
        """Return whether more days are to come."""
        return self._timer.isActive()

    def _begin(self) -> None:
        self._coming = start_days(self._document.project, self._document.now(), weeks=WEEKS)
        self._timer.start(0)

    def _next(self) -> None:
        """Work out one more day and show it."""
        try:
            found = next(self._coming, None)
        except (ValueError, ArithmeticError) as problem:
            # Under way already, or a recipe that is none yet.
            self.said.setText(str(problem))
            self._timer.stop()
            return
        if found is None:
            self._timer.stop()
            return
        if not self.days or found.day.day == 1:
            self._add_month(found)
        self._add_day(found)

    def _add_month(self, found: StartDay) -> None:
        row = self._new_row()
        item = QTableWidgetItem(f"{MONTHS[found.day.month - 1]} {found.day.year}")
        item.setFont(theme().heading_font(13))
        item.setFlags(Qt.ItemFlag.NoItemFlags)
        item.setForeground(theme().palette.ink)
        self.list.setItem(row, 0, item)
        self.list.setSpan(row, 0, 1, 3)

    def _add_day(self, found: StartDay) -> None:
        row = self._new_row()
        palette = theme().palette
        weekday = WEEKDAYS[found.day.weekday()]
        words = (f"{weekday[:3]} {found.day.day}", "free" if found.free else "not free",
                 "" if found.free else found.sentence)  # fmt: skip
        for column, each in enumerate(words):
            item = QTableWidgetItem(each)
            item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
            if not found.free:
                item.setForeground(palette.muted)
            elif column == 1:
                item.setForeground(palette.leaf)
            self.list.setItem(row, column, item)
        self.days[row] = found
        if found.free and self.list.currentRow() < 0:
            self.list.setCurrentCell(row, 0)
            self.list.setFocus()

    def _new_row(self) -> int:
        row = self.list.rowCount()
        self.list.insertRow(row)
        return row

    def _chosen(self) -> StartDay | None:
        return self.days.get(self.list.currentRow())

    def _tell(self, *_cells: int) -> None:
        found = self._chosen()
        self.start.setEnabled(found is not None)
        if found is not None:
            parts = [found.sentence, found.fruit] if found.free else ["Not free.", found.fruit]
            self.said.setText(" ".join(filter(None, parts)))

    def _start(self, *_cell: int) -> None:
        found = self._chosen()
        if found is not None:
            self._timer.stop()
            self._document.edit(start_edit(found))
            self.accept()
