"""Where the must's sugar and acid come from: a bar cut into the shares of its lines."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from winebench.plan.outlook import LineOutlook
from winebench.window.theme import theme

_HEIGHT, _NAME, _BAR = 36, 112, 12
_LEAST = 0.02
"""A smaller share is not worth a word."""


class Share(NamedTuple):
    """One line's part of a whole."""

    name: str
    share: float


def sugar_shares(lines: tuple[LineOutlook, ...]) -> tuple[Share, ...]:
    """Return which lines the fermentable sugar comes from, largest first."""
    return _shares([Share(line.name, line.share_of_sugar or 0.0) for line in lines])


def acid_shares(lines: tuple[LineOutlook, ...]) -> tuple[Share, ...]:
    """Return which lines the acid comes from, largest first."""
    return _shares([Share(line.name, line.share_of_acid or 0.0) for line in lines])


def _shares(found: list[Share]) -> tuple[Share, ...]:
    return tuple(sorted((each for each in found if each.share >= _LEAST), key=lambda s: -s.share))


def words(shares: tuple[Share, ...]) -> str:
    """Return like "White sugar 71 %, damsons 29 %"."""
    said = ", ".join(f"{_short(each.name)} {each.share:.0%}".replace("%", " %") for each in shares)
    return said[:1].upper() + said[1:]


def _short(name: str) -> str:
    return name.partition(",")[0].lower()


class SharesBar(QWidget):
    """One bar with its words under it; parts differ by hatching, not by colour alone."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._name = name
        self.shares: tuple[Share, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        theme().changed.connect(self.update)

    def sizeHint(self) -> QSize:
        """Return the room for the bar and a line of words."""
        return QSize(300, _HEIGHT)

    def show_shares(self, shares: tuple[Share, ...]) -> None:
        """Show other shares."""
        if shares != self.shares:
            self.shares = shares
            self.setAccessibleName(f"{self._name}: {words(shares) or 'nothing yet'}")
            self.setToolTip(words(shares))
            self.update()
        self.setVisible(len(shares) > 1)  # one source alone is no news

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the name, the parts of the bar, and the words."""
        del event
        palette = theme().palette
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(theme().small_font())
        painter.setPen(palette.muted)
        side = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        painter.drawText(QRectF(4, 0, _NAME, 16), side, self._name)
        whole = QRectF(_NAME, 2, max(self.width() - _NAME - 8.0, 10.0), _BAR)
        self._paint_parts(painter, whole)
        room = QRectF(_NAME, 16, whole.width(), 18)
        said = painter.fontMetrics().elidedText(
            words(self.shares), Qt.TextElideMode.ElideRight, int(room.width())
        )
        painter.setPen(palette.muted)
        painter.drawText(room, side, said)

    def _paint_parts(self, painter: QPainter, whole: QRectF) -> None:
        palette = theme().palette
        painter.fillRect(whole, palette.sunken)
        looks = (
            QBrush(palette.wine),
            QBrush(palette.wine, Qt.BrushStyle.BDiagPattern),
            QBrush(palette.wine, Qt.BrushStyle.Dense5Pattern),
            QBrush(palette.wine, Qt.BrushStyle.HorPattern),
            QBrush(palette.wine, Qt.BrushStyle.CrossPattern),
        )
        left = whole.left()
        painter.setPen(QPen(palette.ink, 1.0))
        for place, each in enumerate(self.shares):
            part = QRectF(left, whole.top(), each.share * whole.width(), whole.height())
            painter.setBrush(looks[min(place, len(looks) - 1)])
            painter.drawRect(part)
            left = part.right()
