"""The timeline as a table: the same facts for a screen reader, or for who would rather read."""

from __future__ import annotations

from datetime import datetime
from typing import NamedTuple

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtWidgets import QWidget

from winebench.plan.outlook import CrossingOutlook, Outlook, ReadingOutlook, StepOutlook
from winebench.plan.overlaid import Moment, OtherBatch, over_this
from winebench.window.parts.words_table import Column, WordsTable
from winebench.window.timeline.other_data import pitch_of
from winebench.window.timeline.step_words import state_words
from winebench.window.timeline.ticks import long_moment

Index = QModelIndex | QPersistentModelIndex
_HEADINGS = ("What", "State", "When", "Between", "Because")
_COLUMNS = (
    Column(0.2, 104),
    Column(0.12, 96),
    Column(0.18, 92),
    Column(0.19, 92, gives_way=True),
    Column(0.31, 132),
)
"""The one that gives way is on the card of the step that is chosen."""


class Row(NamedTuple):
    """One fact of the timeline, as written in the five columns; `key` where it is a step."""

    cells: tuple[str, ...]
    key: str = ""


def rows_of(outlook: Outlook, other: OtherBatch | None = None) -> tuple[Row, ...]:
    """Return every fact that the curve and the step rows show, and of the batch laid over them."""
    crossings = outlook.forecast.crossings if outlook.forecast else ()
    now = outlook.at
    return (
        *(_step_row(step, now) for step in outlook.steps),
        *(_crossing_row(crossing, now) for crossing in crossings),
        *_learned_rows(outlook),
        *(_reading_row(reading, now) for reading in reversed(outlook.readings)),
        *(_other_rows(outlook, other) if other else ()),
    )


def _other_rows(outlook: Outlook, other: OtherBatch) -> tuple[Row, ...]:
    """Return the other batch's facts in order of time, one reading a day."""
    pitch = pitch_of(outlook)
    if pitch is None:
        return ()
    daily = {each.moment.day: each for each in reversed(other.readings)}
    facts = [(each.moment, f"Reading {each.moment.words}", each.sg) for each in daily.values()]
    done = [(each, each.words, None) for each in other.milestones]
    ordered = sorted((*facts, *done), key=lambda fact: fact[0].since_pitch)
    return tuple(
        _other_row(other.name, moment, name, sg, over_this(moment, pitch), outlook.at)
        for moment, name, sg in ordered
    )


def _other_row(
    batch: str, moment: Moment, name: str, sg: float | None, at: datetime, now: datetime
) -> Row:
    value = "" if sg is None else f"{sg:.3f} corrected; "
    said = f"{value}{moment.on} in that batch, laid over this one by days since the yeast"
    return Row((f"{name}, {batch}", f"day {moment.day}", _moment(at, now), "", said))


def _moment(at: datetime | None, now: datetime) -> str:
    return "" if at is None else long_moment(at, now)


def _between(earliest: datetime | None, latest: datetime | None, now: datetime) -> str:
    """Return both ends in words, or the one that there is."""
    if earliest is None or latest is None:
        return (
            f"from {_moment(earliest, now)}"
            if earliest
            else f"by {_moment(latest, now)}"
            if latest
            else ""
        )
    return f"{_moment(earliest, now)} to {_moment(latest, now)}"


def _step_row(step: StepOutlook, now: datetime) -> Row:
    if step.done_at is not None:
        times = (_moment(step.done_at, now), "")
    else:
        times = (step.when, _between(step.earliest, step.latest, now))
    return Row((step.name, state_words(step), *times, step.reason), step.key)


def _crossing_row(crossing: CrossingOutlook, now: datetime) -> Row:
    state = "passed" if crossing.passed else "expected"
    name = f"Gravity passes {crossing.below:.3f}, {crossing.name}"
    between = _between(crossing.earliest, crossing.latest, now)
    return Row((name, state, _moment(crossing.likely, now), between, crossing.sentence))


def _learned_rows(outlook: Outlook) -> tuple[Row, ...]:
    said = outlook.forecast.learned if outlook.forecast else ""
    return (Row(("What the forecast goes by", "learned", "", "", said)),) if said else ()


def _reading_row(reading: ReadingOutlook, now: datetime) -> Row:
    name = f"Reading {reading.raw}" + (f" at {reading.temperature}" if reading.temperature else "")
    said = reading.words
    return Row((name, "read", _moment(reading.at, now), "", said))


class FactsModel(QAbstractTableModel):
    """The rows of an outlook for a table view."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: tuple[Row, ...] = ()

    def show_outlook(self, outlook: Outlook, other: OtherBatch | None = None) -> None:
        """Show another outlook; the view keeps its place when no row came or went."""
        rows = rows_of(outlook, other)
        if rows == self.rows:
            return
        if len(rows) == len(self.rows):
            self.rows = rows
            last = self.index(len(rows) - 1, len(_HEADINGS) - 1)
            self.dataChanged.emit(self.index(0, 0), last)
        else:
            self.beginResetModel()
            self.rows = rows
            self.endResetModel()

    def rowCount(self, parent: Index | None = None) -> int:
        """Return how many facts there are."""
        return 0 if parent is not None and parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index | None = None) -> int:
        """Return how many columns there are."""
        return 0 if parent is not None and parent.isValid() else len(_HEADINGS)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """Return a cell's words."""
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
        wanted = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole)
        return self.rows[index.row()].cells[index.column()] if role in wanted else None

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> object:
        """Return a column's heading."""
        across = orientation == Qt.Orientation.Horizontal
        shown = across and role == Qt.ItemDataRole.DisplayRole
        return _HEADINGS[section] if shown else None


class FactsTable(WordsTable):
    """Show the facts, one row each, chosen by arrow keys."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Timeline as a table", _COLUMNS, parent)
        self.facts = FactsModel(self)
        self.setModel(self.facts)

    def choose(self, key: str) -> None:
        """Choose the row of that step, where it has one."""
        row = next((n for n, each in enumerate(self.facts.rows) if key and each.key == key), None)
        if row is not None:
            self.selectRow(row)

    def step_at(self, row: int) -> str:
        """Return the key of the step in that row, or an empty string."""
        return self.facts.rows[row].key if 0 <= row < len(self.facts.rows) else ""
