"""Plain words on the page: labels and buttons that are named for a screen reader."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QEvent, QRect, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QLabel, QPushButton, QSizePolicy, QWidget

from winebench.window.parts.breaking import broken
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
        # A frame takes its padding from the style only when told that the style has changed.
        QCoreApplication.sendEvent(widget, QEvent(QEvent.Type.StyleChange))
        widget.updateGeometry()


_MOST_KNOWN = 8
"""Widths whose lines are remembered: a layout asks for a few, a repaint for the same again."""


class Elided(QWidget):
    """Words that give way: they end in "…" where they do not fit, whole in the tooltip.

    They paint themselves, so that other words cost a repaint and no layout of the page, unless
    they take more lines (up to `lines`) than those before.
    """

    def __init__(
        self,
        words: str = "",
        role: str = "",
        *,
        small: bool = False,
        right: bool = False,
        lines: int = 1,
    ) -> None:
        super().__init__()
        self._words = ""
        self._side = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
        self._role = role
        self._small = small
        self._most = lines
        self._known: dict[tuple[str, int], tuple[str, ...]] = {}
        """Lines of the words as they are now, by face and width."""
        self._taken = 1
        """How many lines the words take at this width."""
        policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(lines > 1)
        self.setSizePolicy(policy)
        theme().changed.connect(self.update)
        self.say(words)

    def keep_width(self, pixels: int) -> Elided:
        """Take that much room, whatever the words are."""
        policy = QSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(self._most > 1)
        self.setSizePolicy(policy)
        self.setFixedWidth(pixels)
        return self

    def take_lines(self, most: int) -> None:
        """Take up to that many lines."""
        if most != self._most:
            self._most = most
            self._known.clear()
            self._count_lines()
            self.update()

    @property
    def words(self) -> str:
        """Return the words in full."""
        return self._words

    def say(self, words: str) -> None:
        """Show other words."""
        if words != self._words:
            self._words = words
            self._known.clear()
            self.setAccessibleName(words)
            self._count_lines()
            self.update()

    def _face(self) -> QFont:
        font = theme().small_font() if self._small else theme().base_font()
        if self._role in ("strong", "fruit"):
            font.setWeight(QFont.Weight.DemiBold)
        return font

    def _lines(self, face: QFont, width: int) -> tuple[str, ...]:
        place = face.key(), width
        if place not in self._known:
            if len(self._known) > _MOST_KNOWN:
                self._known.clear()
            self._known[place] = broken(self._words, face, width, self._most)
        return self._known[place]

    def _count_lines(self) -> None:
        if self._most == 1:
            return
        taken = len(self._lines(self._face(), self.width()))
        if taken != self._taken:
            self._taken = taken
            self.updateGeometry()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Break the words at another width."""
        super().resizeEvent(event)
        self._count_lines()

    def sizeHint(self) -> QSize:
        """Return the size that the whole words need in one line."""
        metrics = QFontMetrics(self._face())
        return QSize(metrics.horizontalAdvance(self._words) + 2, metrics.height() + 2)

    def minimumSizeHint(self) -> QSize:
        """Return the height of the line; it may be as narrow as need be."""
        return QSize(0, QFontMetrics(self._face()).height() + 2)

    def hasHeightForWidth(self) -> bool:
        """Return whether the words may take more lines."""
        return self._most > 1

    def heightForWidth(self, width: int) -> int:
        """Return the height of as many lines as the words take."""
        face = self._face()
        lines = len(self._lines(face, width))
        return QFontMetrics(face).height() * lines + 2

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint as much of the words as fits."""
        del event
        palette = theme().palette
        colours = {"muted": palette.muted, "fruit": palette.fruit}
        painter = QPainter(self)
        face = self._face()
        painter.setFont(face)
        painter.setPen(colours.get(self._role, palette.ink))
        lines = self._lines(face, self.width())
        side = self._side | Qt.AlignmentFlag.AlignVCenter
        height = painter.fontMetrics().height()
        top = (self.height() - height * len(lines)) // 2
        for place, line in enumerate(lines):
            painter.drawText(QRect(0, top + place * height, self.width(), height), int(side), line)
        tip = "" if "".join(lines).replace(" ", "") == self._words.replace(" ", "") else self._words
        if tip != self.toolTip():
            self.setToolTip(tip)
