"""The strip on top of the window: today, and what it asks of the maker."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QMenu, QSizePolicy, QVBoxLayout, QWidget

from winebench.plan.days import short_date
from winebench.plan.outlook import Outlook, StepOutlook, TodayItem
from winebench.window.parts.words import Elided, button
from winebench.window.strip.card import TodayCard
from winebench.window.theme import theme

_LEAST, _MOST, _DAY = 292, 460, 120
_LARGE = 1000
"""In a window this wide there is room for a third line under a title, px."""
_LOW = 52
"""The height of a title and one line under it; more where a card's words take more, px."""


class TodayStrip(QWidget):
    """Cards side by side; those that find no room are in the menu at the end."""

    done_wanted = Signal(object)
    """The TodayItem to be ticked off."""
    reading_wanted = Signal()
    show_wanted = Signal(str)
    workings_wanted = Signal(str)
    """Show what dates the step of that key."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.cards: list[TodayCard] = []
        self._spare: list[TodayCard] = []
        self._items: tuple[TodayItem, ...] = ()
        self._steps: dict[str, StepOutlook] = {}
        self._today = Elided("Today", "fruit")
        self._date = Elided("", "strong")
        self.quiet = Elided("", "muted")
        self.more = button("", "More for today", self._show_more, "quiet")
        self.setAccessibleName("Today")
        self._arrange()
        theme().changed.connect(self.update)

    def _arrange(self) -> None:
        day = QVBoxLayout()
        day.setSpacing(0)
        day.addStretch(1)
        day.addWidget(self._today)
        day.addWidget(self._date)
        day.addStretch(1)
        for words in (self._today, self._date):
            words.keep_width(_DAY)
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(16, 5, 12, 6)
        self._row.setSpacing(10)
        self._row.addLayout(day)
        self._row.addWidget(self.quiet, 1)
        self._row.addStretch(0)
        self._row.addWidget(self.more)
        self.setMinimumHeight(_LOW)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def show_outlook(self, outlook: Outlook) -> None:
        """Show what is for today as it is now."""
        self._date.say(short_date(outlook.at))
        self._date.keep_width(max(self._date.sizeHint().width(), _DAY))
        self._steps = {step.key: step for step in outlook.steps}
        self._items = outlook.today
        self._show_cards()
        self.quiet.say("" if self._items else _quiet_words(outlook.steps, outlook.at))
        self._fit()

    def _asks(self, item: TodayItem) -> bool:
        step = self._steps.get(item.step)
        return step is not None and wants_words(step)

    def _show_cards(self) -> None:
        """Show the items in the cards that are there; making a card costs more than a repaint."""
        chosen = next((card for card in self.cards if card.button.hasFocus()), None)
        before = (chosen.item.step, chosen.item.kind) if chosen else None
        while len(self.cards) > len(self._items):
            self._spare.append(self.cards.pop())
            self._spare[-1].hide()
        while len(self.cards) < len(self._items):
            self.cards.append(self._spare.pop() if self._spare else self._new_card())
        for card, item in zip(self.cards, self._items, strict=True):
            card.show_item(item, self._asks(item))
        if chosen and (chosen.isHidden() or (chosen.item.step, chosen.item.kind) != before):
            self.setFocus()  # where Space does nothing: it must not do what came in its place

    def _new_card(self) -> TodayCard:
        card = TodayCard(self._items[len(self.cards)], asks=False)
        card.act_wanted.connect(self._act)
        card.show_wanted.connect(self.show_wanted)
        card.workings_wanted.connect(self.workings_wanted)
        card.setMaximumWidth(_MOST)
        self._row.insertWidget(1 + len(self.cards), card, 1)
        return card

    def _act(self, item: TodayItem) -> None:
        if item.kind == "read":
            self.reading_wanted.emit()
        else:
            self.done_wanted.emit(item)

    def focus_first(self) -> None:
        """Put the keyboard on the first card's button; with none, where a key changes nothing."""
        first = self.cards[0].button if self.cards else self
        first.setFocus(Qt.FocusReason.OtherFocusReason)

    def do_first(self) -> None:
        """Press the first card's button."""
        if self.cards:
            self.cards[0].button.click()

    def _fit(self) -> None:
        """Show as many cards as have room; the rest goes into the menu."""
        room = self.width() - self._date.width() - 40
        places = max(room // (_LEAST + 10), 1)
        if len(self.cards) > places:
            places = max((room - 90) // (_LEAST + 10), 1)
        for place, card in enumerate(self.cards):
            card.take_lines(3 if self.width() >= _LARGE else 2)
            card.setVisible(place < places)
        hidden = len(self.cards) - places
        self.more.setVisible(hidden > 0)
        self.more.setText(f"{hidden} more ›")
        self.more.setAccessibleName(f"{hidden} more for today")
        self.quiet.setVisible(not self.cards)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show as many cards as have room now."""
        super().resizeEvent(event)
        self._fit()

    def _show_more(self) -> None:
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for card in self.cards:
            if not card.isVisibleTo(self):
                action = menu.addAction(f"{card.item.title}: {card.item.detail}")
                key = card.item.step
                action.triggered.connect(lambda _on=False, key=key: self.show_wanted.emit(key))
        menu.popup(self.more.mapToGlobal(self.more.rect().bottomLeft()))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the wash and the rules above and below."""
        del event
        painter = QPainter(self)
        painter.fillRect(self.rect(), theme().palette.wash)
        painter.setPen(QPen(theme().palette.rule, 1))
        painter.drawLine(0, self.height() - 1, self.width(), self.height() - 1)


def wants_words(step: StepOutlook) -> bool:
    """Return whether ticking the step off asks for words: a record, or why it is done early.

    A daily chore is ticked at once; what was noticed can be added in the log.
    """
    return step.override != "free" or bool(step.record and not step.repeats)


def _quiet_words(steps: tuple[StepOutlook, ...], now: datetime) -> str:
    coming = [s for s in steps if s.state in ("expected", "held") and s.likely and s.likely > now]
    if not coming:
        return "Nothing is due today."
    first = min(coming, key=lambda step: step.likely or now)
    return f"Nothing is due today. Next: {first.name}, {first.when}."
