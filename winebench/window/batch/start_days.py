"""The days to come as a list: on which the batch can be started, and on which not, and why."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from winebench.plan.days import MONTHS, WEEKDAYS
from winebench.plan.household.start_days import StartDay, start_days, start_edit
from winebench.window.batch.away import away_text
from winebench.window.document import Document
from winebench.window.parts.fitting import fit_to_screen
from winebench.window.parts.listing import Listing
from winebench.window.theme import theme

WEEKS = 8
_COLUMNS = {"Day": 110, "": 80, "What falls in the days away": 0}
_TEACH = (
    "Each day as if the must were made up on it. What cannot wait and falls in your days away "
    "stands beside it."
)
_NO_AWAY = (
    "No days away are noted, so every day is free: note them under Batch, Kitchen, room and "
    "instruments."
)


class StartDaysDialog(Listing[StartDay]):
    """One row a day."""

    def __init__(self, document: Document, parent: QWidget) -> None:
        away = document.project.away
        words = f"{_TEACH} Away: {away_text(away)}." if away else _NO_AWAY
        super().__init__("Days to start on", _COLUMNS, words, parent)
        self._document = document
        self.take.setText("Start on this day")
        self.take.setAccessibleName("Start on the chosen day")
        document.replaced.connect(self.reject)
        fit_to_screen(self, 820, 600)
        self.begin(start_days(document.project, document.now(), weeks=WEEKS))

    def add(self, found: StartDay) -> None:
        """Show one more day, under its month."""
        if not self.found or found.day.day == 1:
            self._add_month(found)
        weekday = WEEKDAYS[found.day.weekday()]
        words = (f"{weekday[:3]} {found.day.day}", "free" if found.free else "not free",
                 "" if found.free else found.sentence)  # fmt: skip
        row, items = self.add_row(words)
        palette = theme().palette
        for item in items:
            if not found.free:
                item.setForeground(palette.muted)
        if found.free:
            items[1].setForeground(palette.leaf)
        self.found[row] = found
        if found.free:
            self.choose_first(row)

    def _add_month(self, found: StartDay) -> None:
        row, (item,) = self.add_row((f"{MONTHS[found.day.month - 1]} {found.day.year}",))
        item.setFont(theme().heading_font(13))
        item.setFlags(Qt.ItemFlag.NoItemFlags)
        item.setForeground(theme().palette.ink)
        self.list.setSpan(row, 0, 1, 3)

    def words_of(self, found: StartDay) -> str:
        """Return what starting on that day would mean."""
        parts = [found.sentence, found.fruit] if found.free else ["Not free.", found.fruit]
        return " ".join(filter(None, parts))

    def taken(self, found: StartDay) -> bool:
        """Start on that day."""
        self._document.edit(start_edit(found))
        return True
