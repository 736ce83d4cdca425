"""What comes next, written on the gravity curve or, where that is full, beside its scale."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen

from winebench.plan.outlook import CrossingOutlook
from winebench.window.parts.breaking import broken
from winebench.window.theme import theme
from winebench.window.timeline.axis import TimeAxis
from winebench.window.timeline.curve_data import CurveData
from winebench.window.timeline.curve_notes import CurveNotes

_LINE, _APART = 17.0, 2.0
"""Height of a line, and what stands between facts beside the scale, px."""
_SIDES, _AIR = 12.0, 5.0
_NARROW = 190.0
"""A box of that many px for its words finds room where a wider one crosses the curve."""
_SCALE = 46.0
"""Room for the gravities beside the plot, px."""
_EDGE = 8.0
"""Where the steps' names begin, px."""
_MOST = 4
"""Lines that one fact may take."""


class _Line(NamedTuple):
    words: str
    font: QFont
    strong: bool
    begins: bool
    """Whether a fact begins with this line."""


class Callout:
    """Paint the next crossing, its range and how it goes, without covering what is drawn."""

    def __init__(
        self, painter: QPainter, notes: CurveNotes, axis: TimeAxis, plot: QRectF, font: QFont
    ) -> None:
        self._painter = painter
        self._notes = notes
        self._axis = axis
        self._plot = plot
        self._small = theme().small_font(font)
        self._strong = QFont(font)
        self._strong.setWeight(QFont.Weight.DemiBold)

    def paint(self, data: CurveData) -> tuple[str, ...]:
        """Paint it in a box on the plot, with a line to its place, or beside the scale.

        The next crossing goes before how it goes, which may stand beside the scale without it.
        Return the facts that had room.
        """
        crossing, course = data.crossing_said(), data.course_said()
        said = crossing + course
        if not said or self._paint_in_box(said, data):
            return said
        if crossing and self._paint_in_box(crossing, data):
            return crossing + self._paint_beside(course)
        beside = self._paint_beside(said, max(len(crossing), 1))
        for count in range(len(crossing) or len(said), 0, -1):
            if beside or self._paint_in_box(said[:count], data):
                return beside or said[:count]
        return self._paint_beside(said)

    def _paint_in_box(self, said: tuple[str, ...], data: CurveData) -> bool:
        """Paint it where it covers nothing, top right or bottom left; return whether it could."""
        for lines, width in self._shapes(said):
            size = QSizeF(width + 2 * _SIDES, 2 * _AIR + _LINE * len(lines))
            inner = self._plot.adjusted(10, 12, -10, -8)
            upper = QRectF(QPointF(inner.right() - size.width(), inner.top()), size)
            lower = QRectF(QPointF(inner.left(), inner.bottom() - size.height()), size)
            inside = [room for room in (upper, lower) if inner.contains(room)]
            box = self._notes.take_room(inside, data)
            if box is None:
                continue
            if data.crossing is not None:
                self._paint_leader(data.crossing, box)
            self._painter.setPen(QPen(theme().palette.rule, 1.0))
            self._painter.setBrush(theme().palette.card)
            self._painter.drawRoundedRect(box, 6, 6)
            self._write(lines, box.adjusted(_SIDES, _AIR, 0, 0))
            return True
        return False

    def _shapes(self, said: tuple[str, ...]) -> Iterator[tuple[list[_Line], float]]:
        """Yield the lines whole, then broken to a narrower box; each with its width in px."""
        for width in (self._plot.width(), _NARROW):
            lines = self._lines(said, width)
            yield (
                lines,
                max(QFontMetricsF(line.font).horizontalAdvance(line.words) for line in lines),
            )

    def _lines(self, said: tuple[str, ...], width: float) -> list[_Line]:
        fonts = (self._strong, *[self._small] * (len(said) - 1))
        return [
            _Line(part, font, strong=place == 0, begins=number == 0)
            for place, (words, font) in enumerate(zip(said, fonts, strict=True))
            for number, part in enumerate(broken(words, font, width, _MOST))
        ]

    def _paint_beside(self, said: tuple[str, ...], least: int = 1) -> tuple[str, ...]:
        """Paint it left of the scale, and return as many facts as had room, or none."""
        room = QRectF(self._plot)
        room.setLeft(_EDGE)
        room.setRight(self._plot.left() - _SCALE)
        for count in range(len(said), least - 1, -1):
            lines = self._lines(said[:count], room.width())
            if len(lines) * _LINE + count * _APART <= room.height():
                self._write(lines, room, _APART)
                return said[:count]
        return ()

    def _write(self, lines: list[_Line], room: QRectF, apart: float = 0.0) -> None:
        palette = theme().palette
        side = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        area = QRectF(room.left(), room.top(), room.width(), _LINE)
        for line in lines:
            if line.begins and area.top() > room.top():
                area.translate(0, apart)
            self._painter.setFont(line.font)
            self._painter.setPen(palette.ink if line.strong else palette.muted)
            self._painter.drawText(area, side, line.words)
            area.translate(0, _LINE)

    def _paint_leader(self, crossing: CrossingOutlook, box: QRectF) -> None:
        likely = crossing.likely.timestamp()
        if not self._axis.holds(likely):
            return
        point = QPointF(self._axis.pixel(likely), self._notes.gravity_pixel(crossing.below))
        if point.y() < box.bottom() + 8:
            return
        foot = min(max(point.x() + 24, box.left() + 8), box.right() - 8)
        muted = theme().palette.muted
        self._painter.setPen(QPen(muted, 1.0))
        self._painter.drawLine(QPointF(foot, box.bottom()), point)
        self._painter.setBrush(muted)
        self._painter.drawEllipse(point, 2.0, 2.0)
