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
    """Shows the newest sentence until it is put away or overtaken."""

    covers = Signal(int)
    """How much of the page's foot it lies over, px; nothing once it is put away."""

    def __init__(self, page: QWidget) -> None:
        super().__init__(page)
        self._page = page
        page.installEventFilter(self)
        self.sentence = ""
        self.passing = False
        """Whether what is shown is news that goes by itself."""
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
        self._place()
        self.show()
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
        self.put_away()
        act()

    def put_away(self) -> None:
        """Hide the message."""
        self._timer.stop()
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
