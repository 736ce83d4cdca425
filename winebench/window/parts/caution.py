"""A caution beside what causes it, with each way out as a verb."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from winebench.plan.outlook import Caution, Repair
from winebench.window.parts.severity import SPOKEN, SeverityMark
from winebench.window.parts.words import button, give_role, label
from winebench.window.theme import theme


class CautionCard(QWidget):
    """One caution; shows another of the same key in place."""

    edit_wanted = Signal(object)

    def __init__(self, caution: Caution, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.caution = caution
        self._mark = SeverityMark(caution.severity)
        self._sentence = label(role="strong", wraps=True)
        self._detail = label(role="muted", wraps=True, small=True)
        self.repairs: list[QPushButton] = []
        self._repair_column = QVBoxLayout()
        self._repair_column.setSpacing(0)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self._arrange()
        self._show(caution, anew=True)
        theme().changed.connect(self.update)

    def _arrange(self) -> None:
        words = QVBoxLayout()
        words.setSpacing(0)
        words.addWidget(self._sentence)
        words.addWidget(self._detail)
        row = self._row = QHBoxLayout(self)
        row.setSpacing(8)
        row.addWidget(self._mark, 0, Qt.AlignmentFlag.AlignVCenter)
        row.addLayout(words, 1)
        row.addLayout(self._repair_column)

    def show_caution(self, caution: Caution) -> None:
        """Show the caution as it is now."""
        if caution != self.caution:
            self._show(caution, anew=False)

    def _show(self, caution: Caution, *, anew: bool) -> None:
        labels = [repair.label for repair in caution.repairs]
        plain = caution.severity == "note"
        margins = (12, 0, 4, 2) if plain else (12, 4, 4, 5)
        self._row.setContentsMargins(*margins)
        self._sentence.setFont(theme().small_font() if plain else theme().base_font())
        give_role(self._sentence, "muted" if plain else "strong")
        if anew or labels != [repair.label for repair in self.caution.repairs]:
            self._make_repairs(caution.repairs)
        self.caution = caution
        for made, words in zip(self.repairs, labels, strict=True):
            made.setAccessibleName(f"{words}: {caution.sentence}")
        self._mark.show_severity(caution.severity)
        self._sentence.setText(caution.sentence)
        self._detail.setText(caution.detail)
        self._detail.setVisible(bool(caution.detail))
        self.setAccessibleName(f"{SPOKEN[caution.severity]}: {caution.sentence} {caution.detail}")

    def _make_repairs(self, repairs: tuple[Repair, ...]) -> None:
        for old in self.repairs:
            old.hide()
            old.deleteLater()
        self.repairs = []
        for place, repair in enumerate(repairs):
            made = button(repair.label, "", partial(self._do, place), "quiet")
            self._repair_column.addWidget(made)
            self.repairs.append(made)

    def _do(self, place: int) -> None:
        self.edit_wanted.emit(self.caution.repairs[place].edit)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ground and its edge; a note has none."""
        del event
        if self.caution.severity == "note":
            return
        palette = theme().palette
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setBrush(palette.straw_wash)
        painter.setPen(QPen(palette.straw, 1.0))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 1.5, -0.5, -1.5), 6, 6)


class CautionList(QWidget):
    """The cautions of one place, kept by key; more than `most` wait behind a button."""

    edit_wanted = Signal(object)

    def __init__(self, parent: QWidget | None = None, *, most: int = 20) -> None:
        super().__init__(parent)
        self.cards: dict[str, CautionCard] = {}
        self._put_by: dict[str, CautionCard] = {}
        """Cards of cautions that hold no more: while an amount is typed they come and go."""
        self._most = most
        self._all_shown = False
        self._order: tuple[str, ...] = ()
        self.more = button("", "Show the other cautions", self._toggle, "quiet")
        self.more.hide()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(2)
        self._column.addWidget(self.more, 0, Qt.AlignmentFlag.AlignLeft)
        self.hide()

    def show_cautions(self, cautions: tuple[Caution, ...]) -> None:
        """Show these cautions; cards of known keys stay and change their words."""
        order = tuple(caution.key for caution in cautions)
        for key in [key for key in self.cards if key not in order]:
            gone = self._put_by[key] = self.cards.pop(key)
            gone.hide()
        for caution in cautions:
            card = self.cards.get(caution.key) or self._put_by.pop(caution.key, None)
            if card is None:
                card = CautionCard(caution)
                card.edit_wanted.connect(self.edit_wanted)
            else:
                card.show_caution(caution)
            self.cards[caution.key] = card
        if order != self._order:
            self._order = order
            for place, key in enumerate(order):
                self._column.insertWidget(place, self.cards[key])
            self._share_room()
        self.setVisible(bool(cautions))

    def _toggle(self) -> None:
        self._all_shown = not self._all_shown
        self._share_room()

    def _share_room(self) -> None:
        """Show the first cautions, or all of them where that was asked for."""
        for place, key in enumerate(self._order):
            self.cards[key].setVisible(self._all_shown or place < self._most)
        hidden = len(self._order) - self._most
        self.more.setVisible(hidden > 0)
        self.more.setText("fewer ▴" if self._all_shown else f"{hidden} more to know ▾")
