"""Plain words on the page: labels and buttons that are named for a screen reader."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QLabel, QPushButton, QSizePolicy, QWidget

from winebench.window.theme import theme


def label(words: str = "", role: str = "", *, wraps: bool = False, small: bool = False) -> QLabel:
    """Return a label in the role "muted", "fruit", "strong" or plain ink."""
    made = QLabel(words)
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setProperty("role", role)
    made.setWordWrap(wraps)
    if small:
        made.setFont(theme().small_font())
    return made


def heading(words: str, pixels: float = 15) -> QLabel:
    """Return a semibold heading."""
    made = label(words)
    made.setFont(theme().heading_font(pixels))
    return made


def button(words: str, name: str, act: Callable[[], object], role: str = "") -> QPushButton:
    """Return a button; `name` says in full what it does, `role` is "act", "quiet" or plain."""
    made = QPushButton(words)
    made.setProperty("role", role)
    made.setAccessibleName(name)
    made.setMinimumHeight(28)
    made.setAutoDefault(True)  # Enter presses the focused button
    made.clicked.connect(lambda: act())
    return made


def give_role(widget: QWidget, role: str) -> None:
    """Set the role that the style sheets look for, and show it."""
    if widget.property("role") != role:
        widget.setProperty("role", role)
        widget.style().unpolish(widget)
        widget.style().polish(widget)
        widget.updateGeometry()


class Elided(QWidget):
    """One line of words that gives way: it ends in "…" where they do not fit.

    It paints itself, so that other words cost a repaint and no layout of the page.
    """

    def __init__(
        self, words: str = "", role: str = "", *, small: bool = False, right: bool = False
    ) -> None:
        super().__init__()
        self._words = ""
        self._side = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
        self._role = role
        self._small = small
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        theme().changed.connect(self.update)
        self.say(words)

    def keep_width(self, pixels: int) -> Elided:
        """Take that much room, whatever the words are."""
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Preferred)
        self.setFixedWidth(pixels)
        return self

    @property
    def words(self) -> str:
        """Return the words in full."""
        return self._words

    def say(self, words: str) -> None:
        """Show other words."""
        if words != self._words:
            self._words = words
            self.setAccessibleName(words)
            self.update()

    def _face(self) -> QFont:
        font = theme().small_font() if self._small else theme().base_font()
        if self._role in ("strong", "fruit"):
            font.setWeight(QFont.Weight.DemiBold)
        return font

    def sizeHint(self) -> QSize:
        """Return the size that the whole words need."""
        metrics = QFontMetrics(self._face())
        return QSize(metrics.horizontalAdvance(self._words) + 2, metrics.height() + 2)

    def minimumSizeHint(self) -> QSize:
        """Return the height of the line; it may be as narrow as need be."""
        return QSize(0, QFontMetrics(self._face()).height() + 2)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint as much of the words as fits."""
        del event
        palette = theme().palette
        colours = {"muted": palette.muted, "fruit": palette.fruit}
        painter = QPainter(self)
        painter.setFont(self._face())
        painter.setPen(colours.get(self._role, palette.ink))
        fitted = painter.fontMetrics().elidedText(
            self._words, Qt.TextElideMode.ElideRight, self.width()
        )
        side = self._side | Qt.AlignmentFlag.AlignVCenter
        painter.drawText(self.rect(), int(side), fitted)
        tip = self._words if fitted != self._words else ""
        if tip != self.toolTip():
            self.setToolTip(tip)
