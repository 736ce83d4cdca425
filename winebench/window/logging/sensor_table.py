"""A sensor's table into the log: read beside the window's work, shown, logged as one edit."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QProgressBar,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from winebench.model.log import Reading
from winebench.plan.sensor.table import (
    LARGEST,
    LeftOut,
    SensorTable,
    TableError,
    TableReader,
    table_text,
)
from winebench.plan.sensor.words import counted, ends, reading_words, said_of
from winebench.window.document import Document
from winebench.window.file_dialog import ask_for_files
from winebench.window.parts.fitting import fit_to_screen
from winebench.window.parts.words import button, label
from winebench.window.parts.wrapped_rows import wrap_rows
from winebench.window.theme import theme

_FILTER = "Tables (*.csv *.tsv *.txt);;All files (*)"
_SHOWN = 60
"""Rows left out that are named one by one."""
_ROWS_AT_ONCE = 500
"""So many are read between two looks at the keyboard: about 10 ms."""


def choose_table(document: Document, window: QWidget, fail: Callable[[str], object]) -> None:
    """Ask for a table and open it; `fail` is told in one sentence why it cannot be read."""
    ask_for_files(
        window,
        "Readings from a table",
        _FILTER,
        lambda paths: open_table(document, paths[0], window, fail),
        project=document.session.path,
    )


def open_table(
    document: Document, path: Path, window: QWidget, fail: Callable[[str], object]
) -> None:
    """Show what is in that table; `fail` is told in one sentence why it cannot be read."""
    try:
        if path.stat().st_size > LARGEST:
            fail(f'"{path}" is far too large for a table of readings; part it.')
            return
        text = table_text(path.read_bytes())
        reader = TableReader(document.project, text, document.now())
    except TableError as problem:
        fail(f'"{path.name}": {problem}.')
    except OSError as problem:
        fail(f'"{path}" cannot be read: {problem.strerror}.')
    else:
        SensorTableDialog(document, reader, path.name, window).open()


class SensorTableDialog(QDialog):
    """The first and last readings, what is left out and why; one edit logs the rest."""

    def __init__(self, document: Document, reader: TableReader, name: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(f"Readings from {name}")
        self._document = document
        self._reader = reader
        self.found: SensorTable | None = None
        self.view = QTableWidget(0, 3)
        self.progress = QProgressBar()
        self.said = label(wraps=True)
        self.leave = button("Close", "Close and log nothing", self.reject, "quiet")
        self.log = button("Log them", "Log all readings of the table", self._log, "act")
        self._timer = QTimer(self)
        self._timer.timeout.connect(self._read_on)
        self._arrange()
        document.replaced.connect(self.reject)
        self._timer.start(0)

    def _arrange(self) -> None:
        view = self.view
        view.setAccessibleName("What is in the table")
        view.setHorizontalHeaderLabels(["When", "What will be logged", "Note"])
        wrap_rows(view)
        view.setColumnWidth(0, 190)
        view.setColumnWidth(1, 300)
        self.progress.setAccessibleName("How much of the table is read")
        self.progress.setRange(0, 100)
        foot = QHBoxLayout()
        foot.setSpacing(8)
        foot.addWidget(self.progress, 1)
        foot.addStretch(1)
        foot.addWidget(self.leave)
        foot.addWidget(self.log)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 16, 20, 16)
        column.setSpacing(10)
        column.addWidget(self.said)
        column.addWidget(view, 1)
        column.addLayout(foot)
        self.said.setText("Reading the table …")
        self.log.setEnabled(False)
        fit_to_screen(self, 820, 600)

    @property
    def busy(self) -> bool:
        """Return whether the table is still being read."""
        return self._timer.isActive()

    def _read_on(self) -> None:
        try:
            more = self._reader.read_some(_ROWS_AT_ONCE)
        except TableError as problem:
            self._timer.stop()
            self.progress.hide()
            self.said.setText(f"Nothing can be logged: {problem}.")
            return
        self.progress.setValue(round(self._reader.share * 100))
        if not more:
            self._timer.stop()
            self._show(self._reader.table())

    def _show(self, found: SensorTable) -> None:
        self.found = found
        self.progress.hide()
        self.said.setText(" ".join(said_of(found)))
        first, last = ends(found)
        self._add_readings(first)
        between = len(found.readings) - len(first) - len(last)
        if between:
            self._add_line(f"… {counted(between, 'reading', 'readings')} between them …")
        self._add_readings(last)
        self._add_left_out("Cannot be read", found.unread)
        self._add_left_out("Outside this batch", found.outside)
        self.log.setEnabled(bool(found.readings))
        if found.readings:
            self.log.setText(f"Log {counted(len(found.readings), 'reading', 'readings')}")
            self.log.setFocus()

    def _add_readings(self, readings: Iterable[Reading]) -> None:
        for reading in readings:
            row = self._new_row()
            for place, words in enumerate(reading_words(reading)):
                self.view.setItem(row, place, _item(words))

    def _add_left_out(self, title: str, rows: tuple[LeftOut, ...]) -> None:
        if not rows:
            return
        self._add_line(f"{title}: {counted(len(rows), 'row', 'rows')}", heading=True)
        for left in rows[:_SHOWN]:
            row = self._new_row()
            self.view.setItem(row, 0, _item(f"row {left.row}", asks=True))
            self.view.setItem(row, 1, _item(left.sentence, asks=True))
            self.view.setItem(row, 2, _item(left.text, asks=True))
        if len(rows) > _SHOWN:
            self._add_line(f"… and {counted(len(rows) - _SHOWN, 'more row', 'more rows')}")

    def _add_line(self, words: str, *, heading: bool = False) -> None:
        row = self._new_row()
        item = _item(words)
        item.setFlags(Qt.ItemFlag.NoItemFlags)
        item.setForeground(theme().palette.ink if heading else theme().palette.muted)
        if heading:
            item.setFont(theme().heading_font(13))
        self.view.setItem(row, 0, item)
        self.view.setSpan(row, 0, 1, 3)

    def _new_row(self) -> int:
        row = self.view.rowCount()
        self.view.insertRow(row)
        return row

    def _log(self) -> None:
        if self.found is not None:
            self._document.edit(self.found.edit(self._document.project))
            self.accept()


def _item(words: str, *, asks: bool = False) -> QTableWidgetItem:
    item = QTableWidgetItem(words)
    item.setTextAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
    if asks:
        item.setBackground(theme().palette.straw_wash)
    return item
