"""One sentence across the page: what went wrong and the ways on; nothing is ever modal.

It lies over the foot of the page, so that nothing moves away under a hand that is about to click.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from winebench.window.parts.severity import SeverityMark
from winebench.window.parts.words import button, label
from winebench.window.theme import theme

Way = tuple[str, Callable[[], object]]
_NEWS_MS = 8000


class Banner(QWidget):
    """Shows the newest sentence until it is put away or overtaken.

    A warning is overtaken for a while only: what holds on is shown again under what passes.
    """

    covers = Signal(int)
    """How much of the page's foot it lies over, px; nothing once it is put away."""

    def __init__(self, page: QWidget) -> None:
        super().__init__(page)
        self._page = page
        page.installEventFilter(self)
        self.sentence = ""
        self.passing = False
        """Whether what is shown is news that goes by itself."""
        self._warning: tuple[str, tuple[Way, ...]] | None = None
        """What still holds, also while something else is shown."""
        self._mark = SeverityMark("caution")
        self._label = label(wraps=True)
        self._ways: list[QPushButton] = []
        self._away = button("×", "Put the message away", self.put_away, "quiet")
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self.put_away)
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(16, 4, 8, 4)
        self._row.setSpacing(8)
        self._row.addWidget(self._mark)
        self._row.addWidget(self._label, 1)
        self._row.addWidget(self._away)
        self.hide()

    def say(self, sentence: str, *ways: Way) -> None:
        """Show the sentence, with a button for each way on; it stays until put away."""
        self._show(sentence, ways)
        self.passing = False
        self._timer.stop()

    def warn(self, sentence: str, *ways: Way) -> None:
        """Show what holds until it is retracted or put away, whatever else is said meanwhile."""
        self._warning = (sentence, ways)
        self.say(sentence, *ways)

    def retract(self, sentence: str) -> None:
        """Put that warning away: it holds no more."""
        if self._warning is not None and self._warning[0] == sentence:
            self._warning = None
        if self.sentence == sentence:
            self.put_away()

    def clear(self) -> None:
        """Put everything away, as when another project takes the place of what it is about."""
        self._warning = None
        self.put_away()

    def tell(self, sentence: str, *ways: Way) -> None:
        """Show good news; it goes by itself."""
        self._show(sentence, ways)
        self.passing = True
        self._mark.show_severity("note")
        self._timer.start(_NEWS_MS)

    def _show(self, sentence: str, ways: tuple[Way, ...]) -> None:
        self.sentence = sentence
        self._mark.show_severity("caution")
        self._label.setText(sentence)
        self.setAccessibleName(sentence)
        for old in self._ways:
            old.hide()
            old.deleteLater()
        self._ways = []
        for place, (words, act) in enumerate(ways):
            made = button(words, words, partial(self._take, act), "quiet")
            self._row.insertWidget(2 + place, made, 0, Qt.AlignmentFlag.AlignVCenter)
            self._ways.append(made)
        self.show()
        self._row.activate()  # new buttons take their room before the words are broken into lines
        self._place()
        self.raise_()

    def _place(self) -> None:
        """Lie along the bottom of the page, as high as the sentence needs."""
        width = self._page.width()
        height = max(self._row.heightForWidth(width), self._row.sizeHint().height())
        self.setGeometry(0, self._page.height() - height, width, height)
        self.covers.emit(height)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Stay along the bottom when the page changes its size."""
        if event.type() == QEvent.Type.Resize and not self.isHidden():
            self._place()
        return super().eventFilter(watched, event)

    def _take(self, act: Callable[[], object]) -> None:
        if self._warning is None or self._warning[0] != self.sentence:
            self.put_away()  # a warning goes when it is solved: a dialog may be left again
        act()

    def put_away(self) -> None:
        """Hide the message; a warning that it lay over is seen again."""
        self._timer.stop()
        under, self._warning = self._warning, None
        if under is not None and under[0] != self.sentence:
            self.warn(under[0], *under[1])
            return
        self.sentence = ""
        self.hide()
        self.covers.emit(0)

    @property
    def ways(self) -> tuple[QPushButton, ...]:
        """Return the buttons of the ways on."""
        return tuple(self._ways)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Put the message away on Escape."""
        if event.key() == Qt.Key.Key_Escape:
            self.put_away()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the ground and the rule above it."""
        del event
        palette = theme().palette
        painter = QPainter(self)
        painter.fillRect(self.rect(), palette.straw_wash)
        painter.setPen(QPen(palette.straw, 1))
        painter.drawLine(0, 0, self.width(), 0)
