"""The timeline's heading: how much time to see, the table, the log, and a new reading."""

from __future__ import annotations

from PySide6.QtCore import QSize, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLayout, QPushButton, QWidget

from winebench.plan.outlook import Figure
from winebench.window.logging.controls import choice
from winebench.window.parts.words import button, heading
from winebench.window.timeline.moments import ZOOMS

_LONG, _SHORT, _SHORTEST = "Log a reading  F2", "Read  F2", "F2"
_SHORT_ZOOMS = {"two weeks": "2 weeks", "to bottling": "bottling", "a year": "year"}
_ROOMY, _TIGHT = 540, 440
"""Widths from which the words stand in full, or in short, px."""


class Heading(QWidget):
    """One row of buttons over the timeline."""

    zoom_wanted = Signal(str)
    page_wanted = Signal(str)
    reading_wanted = Signal()
    workings_wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._strength: Figure | None = None
        self.zooms = {name: self._zoom_button(name) for name in ZOOMS}
        self.strength = button("", "Workings of the strength so far", self._ask_workings, "quiet")
        self.table = choice("Table", "Show the timeline as a table", self._turn_table)
        self.log = choice("Log", "Show the log: readings, steps done, notes", self._turn_log)
        self.reading = button(_LONG, "Log a reading", self.reading_wanted.emit, "quiet")
        self._title = heading("Timeline")
        row = self._row = QHBoxLayout(self)
        row.setSizeConstraint(QLayout.SizeConstraint.SetNoConstraint)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(6)
        row.addWidget(self._title)
        for zoom in self.zooms.values():
            row.addWidget(zoom)
        row.addStretch(1)
        for widget in (self.strength, self.table, self.log, self.reading):
            row.addWidget(widget)

    def _zoom_button(self, name: str) -> QPushButton:
        return choice(name, f"Show {name}", lambda: self.zoom_wanted.emit(name))

    def _turn_table(self) -> None:
        self.page_wanted.emit("table" if self.table.isChecked() else "picture")

    def _turn_log(self) -> None:
        self.page_wanted.emit("log" if self.log.isChecked() else "picture")

    def _ask_workings(self) -> None:
        self.workings_wanted.emit(self._strength)

    def show_page(self, page: str) -> None:
        """Show which page is open: "picture", "table" or "log"."""
        self.table.setChecked(page == "table")
        self.log.setChecked(page == "log")
        for zoom in self.zooms.values():
            zoom.setVisible(page == "picture")  # table and log show all there is

    def show_zoom(self, name: str) -> None:
        """Show which zoom is in force; an empty name shows that none is."""
        for key, zoom in self.zooms.items():
            zoom.setChecked(key == name)

    def show_strength(self, figure: Figure) -> None:
        """Show the strength so far, where it is known."""
        if figure == self._strength:
            return
        self._strength = figure
        self.strength.setText(f"{figure.text} {figure.unit} so far")
        self.strength.setEnabled(figure.workings is not None)
        self._fit()

    def _fit(self) -> None:
        """Leave out, in a narrow pane, what is said elsewhere too."""
        known = self._strength is not None and self._strength.value is not None
        self.strength.setVisible(known and self.width() >= 760)
        self._title.setVisible(self.width() >= 640)
        roomy = self.width() >= _ROOMY
        short = _SHORT if self.width() >= _TIGHT else _SHORTEST
        self.reading.setText(_LONG if roomy else short)
        self.reading.setToolTip("" if roomy else "Log a reading")
        for name, zoom in self.zooms.items():
            zoom.setText(name if roomy else _SHORT_ZOOMS[name])
        self._row.setSpacing(6 if roomy else 3)

    def minimumSizeHint(self) -> QSize:
        """Return the least room that the buttons need."""
        return QSize(390, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the row to the pane."""
        super().resizeEvent(event)
        self._fit()
