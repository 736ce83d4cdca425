"""The preview of a card: every item in a row of its own, and whose gallon it means."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from winebench.plan.handed_down.shapes import CardReading
from winebench.plan.typed.remarks import Way
from winebench.units import GallonCountry
from winebench.window.parts.flow import Flow
from winebench.window.parts.words import button, label
from winebench.window.recipe.card_row import COLUMNS, CardRow

_HEADS = ("On the card", "Read as", "To know or to settle")
_COUNTRIES: tuple[tuple[GallonCountry, str], ...] = (
    ("US", "US (3.79 L)"),
    ("imperial", "imperial (4.55 L)"),
)


class CardPreview(QWidget):
    """Shows a reading; rows keep their places and change their words."""

    way_wanted = Signal(object, object)
    """A Way, and the Row it is for or None."""
    answer_wanted = Signal(str, str)
    """What is asked about, and the answer."""
    gallon_wanted = Signal(str)
    row_pressed = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows: list[CardRow] = []
        self._shown = 0
        self._current = -1
        self.gallon_bar = QWidget()
        self.gallons: dict[GallonCountry, QPushButton] = {}
        self._make_gallon_bar()
        self._heads = QWidget()
        self._area = QScrollArea()
        self._page = QWidget()
        self._column = QVBoxLayout(self._page)
        self._arrange()

    def _make_gallon_bar(self) -> None:
        row = Flow(self.gallon_bar, gap=8)
        row.setContentsMargins(6, 0, 6, 4)
        asks = label("A gallon, pint or cup here is", "strong")
        asks.setMinimumHeight(28)
        row.addWidget(asks)
        for country, words in _COUNTRIES:
            act = partial(self._choose_gallon, country)
            made = button(words, f"The card's gallon is {words}", act, "choice")
            made.setCheckable(True)
            row.addWidget(made)
            self.gallons[country] = made

    def _choose_gallon(self, country: GallonCountry) -> None:
        self.gallon_wanted.emit(country if self.gallons[country].isChecked() else "")

    def _arrange(self) -> None:
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self._column.addStretch(1)
        self._page.setObjectName("page")
        self._area.setWidget(self._page)
        self._area.setWidgetResizable(True)
        self._area.setFrameShape(QFrame.Shape.NoFrame)
        self._area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._area.verticalScrollBar().rangeChanged.connect(self._align_heads)
        self._area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._area.setAccessibleName("How the card is read")
        heads = QHBoxLayout(self._heads)
        heads.setContentsMargins(36, 0, 6, 0)
        heads.setSpacing(10)
        for words, share in zip(_HEADS, COLUMNS, strict=True):
            head = label(words, "muted", small=True)
            head.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
            heads.addWidget(head, share)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.gallon_bar)
        column.addWidget(self._heads)
        column.addWidget(self._area, 1)

    def _align_heads(self, _least: int, most: int) -> None:
        """Keep the heads over their columns, which are narrower beside a scroll bar."""
        bar = self._area.verticalScrollBar().sizeHint().width() if most > 0 else 0
        heads = self._heads.layout()
        if heads is not None:
            heads.setContentsMargins(36, 0, 6 + bar, 0)

    def show_reading(self, reading: CardReading) -> None:
        """Show every row of the reading."""
        self.gallon_bar.setVisible(reading.asks_gallon)
        for country, made in self.gallons.items():
            made.setChecked(country == reading.gallon)
        self._heads.setVisible(bool(reading.rows))
        wanted = len(reading.rows) + len(reading.remarks)
        while len(self.rows) < wanted:
            self._add()
        for view, row in zip(self.rows, reading.rows, strict=False):
            view.show_row(row)
        for view, remark in zip(self.rows[len(reading.rows) :], reading.remarks, strict=False):
            view.show_whole(remark)
        for place, view in enumerate(self.rows):
            view.setVisible(place < wanted)
        self._shown = wanted

    def _add(self) -> None:
        view = CardRow()
        view.way_wanted.connect(partial(self._pass_way, view))
        view.answer_wanted.connect(partial(self._pass_answer, view))
        view.pressed.connect(partial(self._pass_press, view))
        self._column.insertWidget(len(self.rows), view)
        self.rows.append(view)

    def _pass_way(self, view: CardRow, way: Way) -> None:
        self.way_wanted.emit(way, view.row)

    def _pass_answer(self, view: CardRow, answer: str) -> None:
        if view.row is not None:
            self.answer_wanted.emit(view.row.asks, answer)

    def _pass_press(self, view: CardRow) -> None:
        if view.row is not None:
            self.row_pressed.emit(view.row)

    def show_current(self, place: int) -> None:
        """Show in which row the caret stands, -1 for none."""
        for number, view in enumerate(self.rows):
            view.show_current(number == place)
        if 0 <= place < self._shown and place != self._current:
            self._area.ensureWidgetVisible(self.rows[place], 0, 8)
        self._current = place

    def open_row(self, after: int = -1) -> CardRow | None:
        """Return the next row to settle behind that place, going round; None where none is."""
        views = self.rows[: self._shown]
        ordered = views[after + 1 :] + views[: after + 1]
        return next((v for v in ordered if v.row is not None and v.row.is_open), None)

    def settle(self, view: CardRow) -> bool:
        """Put the keyboard on what settles that row; return whether there is such."""
        control = view.first_control()
        self._area.ensureWidgetVisible(view, 0, 8)
        if control is not None:
            control.setFocus(Qt.FocusReason.TabFocusReason)
        return control is not None
