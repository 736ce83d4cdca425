"""What is written on the gravity curve: scales, thresholds, the flag of now."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal, Protocol

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen

from winebench.window.theme import theme
from winebench.window.timeline.axis import Number, TimeAxis
from winebench.window.timeline.curve_data import CurveData, Floats
from winebench.window.timeline.ticks import ticks

Align = Qt.AlignmentFlag
_LEFT = Align.AlignLeft | Align.AlignVCenter
_RIGHT = Align.AlignRight | Align.AlignVCenter
_GAP = 4.0
_NONE = np.empty(0)
Clear = Literal["all", "readings", "words"]
"""What words keep clear of: everything; readings, the likely course and words; words alone."""
_ALONG = 160
"""Points of a line that words keep clear of."""
LOW_PLOT = 140.0
"""A plot lower than this holds no more words than it must, px."""
_CENTRE = Align.AlignHCenter | Align.AlignVCenter


class GravityPixel(Protocol):
    """Where a gravity (or each of an array) is drawn, px from the top."""

    def __call__(self, gravity: Number, /) -> Number:
        """Return the pixel."""


class CurveNotes:
    """Paint beside and over the plotted lines, in pixels of the widget."""

    def __init__(
        self,
        painter: QPainter,
        plot: QRectF,
        axis: TimeAxis,
        to_y: GravityPixel,
        font: QFont,
    ) -> None:
        self._painter = painter
        self._plot = plot
        self._axis = axis
        self._to_y = to_y
        self._palette = theme().palette
        self._font = font
        self._small = theme().small_font(font)
        self._strong = QFont(font)
        self._strong.setWeight(QFont.Weight.DemiBold)
        self._small_strong = QFont(self._small)
        self._small_strong.setWeight(QFont.Weight.DemiBold)
        self._taken: list[QRectF] = []

    def paint_scales(self, low: float, high: float) -> None:
        """Paint the card, its grid, the gravities on the left and the days below."""
        painter, plot = self._painter, self._plot
        painter.setPen(QPen(self._palette.rule, 1.0))
        painter.setBrush(self._palette.card)
        painter.drawRoundedRect(plot.adjusted(-0.5, -0.5, 0.5, 0.5), 4, 4)
        grid = QPen(self._palette.rule, 1.0)
        colour = grid.color()
        colour.setAlphaF(0.55)
        grid.setColor(colour)
        painter.setFont(self._small)
        for gravity in gravity_marks(low, high, plot.height()):
            y = self._to_y(gravity)
            painter.setPen(grid)
            painter.drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y))
            painter.setPen(self._palette.muted)
            room = QRectF(0, y - 10, plot.left() - 6, 20)
            painter.drawText(room, int(_RIGHT), f"{gravity:.3f}")
        for tick in ticks(self._axis):
            x = self._axis.pixel(tick.seconds)
            painter.setPen(grid)
            painter.drawLine(QPointF(x, plot.top()), QPointF(x, plot.bottom()))
            painter.setPen(self._palette.muted)
            room = QRectF(x - 40, plot.bottom() + 2, 80, 18)
            painter.drawText(room, int(_CENTRE), tick.label)

    def paint_thresholds(self, data: CurveData) -> None:
        """Paint each threshold as a dotted line."""
        self._painter.setPen(QPen(self._palette.leaf, 1.6, Qt.PenStyle.DotLine))
        for y in (self._to_y(below) for below, _name in data.thresholds):
            if self._plot.top() <= y <= self._plot.bottom():
                left, right = QPointF(self._plot.left(), y), QPointF(self._plot.right(), y)
                self._painter.drawLine(left, right)

    def paint_names(self, data: CurveData) -> None:
        """Paint each threshold's gravity and name on its line, where nothing else runs.

        Where only the forecast's edges leave no room they run through it; over a reading, the
        likely course or other words nothing is written: the dotted line stands for itself then.
        """
        self._painter.setFont(self._small_strong)
        for below, name in data.thresholds:
            y = self._to_y(below)
            if not self._plot.top() + 17 <= y <= self._plot.bottom():
                continue
            words, room = self._named(f"{below:.3f}", name, y, data)
            if room is not None:
                self._painter.fillRect(room, self.veil())
                self._painter.setPen(self._palette.leaf)
                self._painter.drawText(room, int(_CENTRE), words)

    def _named(
        self, gravity: str, name: str, y: float, data: CurveData
    ) -> tuple[str, QRectF | None]:
        """Return a threshold's words and their room: in a low plot rather short than crossed."""
        said = f"{gravity} {name}"
        low = self._plot.height() < LOW_PLOT
        tries: tuple[tuple[str, Clear], ...] = (
            *(((said, "all"), (gravity, "all")) if low else ((said, "all"),)),
            (said, "readings"),
            (gravity, "readings"),
        )
        for top in (y - 17, y + 2):  # above its line, else below it
            for words, clear_of in tries:
                room = self.take_room(self._ends(words, top, data.now), data, clear_of)
                if room is not None:
                    return words, room
        return said, None

    def _ends(self, words: str, top: float, now: float) -> tuple[QRectF, ...]:
        """Return rooms for a threshold's words: at the right and left end of its line.

        At the left they rather stand beyond the line of now than have it run through them.
        """
        width = QFontMetricsF(self._small_strong).horizontalAdvance(words) + 8
        right = QRectF(self._plot.right() - width - 2, top, width, 15)
        left = right.translated(self._plot.left() + 2 - right.left(), 0)
        if right.bottom() > self._plot.bottom():
            return ()
        x = self._axis.pixel(now)
        if left.left() <= x <= left.right():
            return right, left.translated(x + _GAP - left.left(), 0), left
        return right, left

    def gravity_pixel(self, gravity: float) -> float:
        """Return where that gravity is drawn, px from the top."""
        return self._to_y(gravity)

    def take_room(
        self, rooms: Sequence[QRectF], data: CurveData, clear_of: Clear = "all"
    ) -> QRectF | None:
        """Return the first room that holds no more than may be written over, and keep it."""
        room = self._free(rooms, data, clear_of)
        if room is not None:
            self._taken.append(room)
        return room

    def _free(
        self, rooms: Sequence[QRectF], data: CurveData, clear_of: Clear = "all"
    ) -> QRectF | None:
        """Return the first of the rooms that no reading, forecast or words run through."""
        at, gravity = self._points(data, clear_of)
        x, y = self._axis.pixel(at), self._to_y(gravity)
        for room in rooms:
            across = (x >= room.left() - _GAP) & (x <= room.right() + _GAP)
            crossed = np.any(across & (y >= room.top() - _GAP) & (y <= room.bottom() + _GAP))
            if not crossed and not any(room.intersects(taken) for taken in self._taken):
                return room
        return None

    def _points(self, data: CurveData, clear_of: Clear) -> tuple[Floats, Floats]:
        """Return times and gravities that words are not to be written over."""
        if clear_of == "words":
            return _NONE, _NONE
        points = [(data.read_at, data.gravity), (data.at, data.middle)]
        points.append(self._along(data.read_at, data.gravity))
        other = data.other
        if other is not None:
            points.append((other.at, other.gravity))
            points += [(np.array([mark.at]), np.array([mark.gravity])) for mark in other.marks]
        if clear_of == "all":
            points += [(data.at, data.low), (data.at, data.high)]
            if other is not None:
                points.append(self._along(other.at, other.gravity))
        at, gravity = (np.concatenate(each) for each in zip(*points, strict=True))
        return at, gravity

    def _along(self, at: Floats, gravity: Floats) -> tuple[Floats, Floats]:
        """Return points of the line through those that is in view."""
        if not len(at):
            return _NONE, _NONE
        first, last = np.clip(at[[0, -1]], self._axis.start, self._axis.end)
        along = np.linspace(float(first), float(last), _ALONG)
        return along, np.interp(along, at, gravity)

    def veil(self) -> QColor:
        """Return the colour behind words over lines."""
        colour = QColor(self._palette.card)
        colour.setAlphaF(0.75)
        return colour

    def paint_now(self, now: float) -> None:
        """Paint the line of now and the flag on top of it."""
        if not self._axis.holds(now):
            return
        x, plot = self._axis.pixel(now), self._plot
        self._painter.setPen(QPen(self._palette.sky, 1.6))
        self._painter.drawLine(QPointF(x, plot.top()), QPointF(x, plot.bottom()))
        flag = QRectF(x - 20, plot.top() - 9, 40, 17)
        flag.moveLeft(min(max(flag.left(), plot.left()), plot.right() - flag.width()))
        self._painter.setPen(Qt.PenStyle.NoPen)
        self._painter.setBrush(self._palette.sky)
        self._painter.drawRoundedRect(flag, 3, 3)
        self._painter.setPen(self._palette.card)
        self._painter.setFont(self._small_strong)
        self._painter.drawText(flag, int(_CENTRE), "now")

    def paint_next_reading(self, data: CurveData) -> None:
        """Paint the dotted ring of a thing to come where the next reading is expected."""
        if data.next_reading is None or not len(data.at):
            return
        at = max(data.next_reading, data.now)
        if data.at[0] <= at <= data.at[-1]:
            y = self._to_y(float(np.interp(at, data.at, data.middle)))
            centre = QPointF(self._axis.pixel(at), y)
            if not self._plot.contains(centre):
                return
            self._painter.setPen(QPen(self._palette.ink, 1.4, Qt.PenStyle.DotLine))
            self._painter.setBrush(self._palette.card)
            self._painter.drawEllipse(centre, 4.5, 4.5)

    def paint_empty(self, words: str) -> None:
        """Write what the first reading will change, in the middle of an empty curve."""
        self._painter.setPen(self._palette.muted)
        self._painter.setFont(self._font)
        room = self._plot.adjusted(40, 8, -40, -8)
        self._painter.drawText(room, int(_CENTRE | Qt.TextFlag.TextWordWrap), words)

    def paint_focus(self) -> None:
        """Paint the frame that says the keys steer the curve."""
        self._painter.setPen(QPen(self._palette.fruit, 1.6))
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        self._painter.drawRoundedRect(self._plot.adjusted(1, 1, -1, -1), 4, 4)


def gravity_marks(low: float, high: float, height: float) -> tuple[float, ...]:
    """Return the gravities to write beside the scale, at least 30 px apart."""
    step = next((s for s in (10, 20, 50, 100) if s / 1000 / (high - low) * height >= 30), 200)
    first = math.ceil(low * 1000 / step - 1e-6) * step
    last = math.floor(high * 1000 + 1e-6)
    return tuple(points / 1000 for points in range(first, last + 1, step))
