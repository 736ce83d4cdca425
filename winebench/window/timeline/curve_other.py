"""Draw another batch under this one's curve: muted, dashed, with diamonds, its name at its end."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen

from winebench.window.theme import theme
from winebench.window.timeline.axis import TimeAxis
from winebench.window.timeline.curve_data import CurveData, in_view
from winebench.window.timeline.curve_notes import LOW_PLOT, Clear, CurveNotes
from winebench.window.timeline.other_data import OtherData

DASHES = (5.0, 4.0)
MOST_MARKS = 60
_TICK = 6.0
_HEIGHT = 15.0
_WIDE, _NARROW, _LEAST = 0.35, 0.22, 100.0
"""The room for words, as shares of the plot's width; the lesser where they cross a line; px."""
_BACK = (0.0, 0.1, 0.2, 0.3)
"""Shares of its line, from its end, at which to look for room for the name."""


class OtherCurve:
    """The plot's items for another batch, and the words painted beside them."""

    def __init__(self, plot: pg.PlotItem, axis: TimeAxis) -> None:
        self._axis = axis
        self.line = pg.PlotDataItem(antialias=True)
        self.line.setClipToView(True)
        self.line.setDownsampling(auto=True, method="peak")
        self.marks = pg.ScatterPlotItem(symbol="d", size=8, antialias=True)
        for item in (self.line, self.marks):
            plot.addItem(item, ignoreBounds=True)

    def show_data(self, data: OtherData | None) -> None:
        """Draw that batch, or none."""
        at, gravity = (data.at, data.gravity) if data else (np.empty(0), np.empty(0))
        self.line.setData(at, gravity)
        self.show_marks(data)

    def show_marks(self, data: OtherData | None) -> None:
        """Give the marks what is in view, thinned where they would touch."""
        if data is None:
            self.marks.setData([], [])
            return
        chosen = in_view(data.at, self._axis.start, self._axis.end, MOST_MARKS)
        self.marks.setData(data.at[chosen], data.gravity[chosen])

    def restyle(self, pen: Callable[..., QPen]) -> None:
        """Take the palette's colours; `pen` makes a pen of a colour, a width and dashes."""
        palette = theme().palette
        self.line.setPen(pen(palette.muted, 1.5, DASHES))
        self.marks.setPen(pen(palette.muted, 1.2))
        self.marks.setBrush(pg.mkBrush(palette.card))


def paint_other(
    painter: QPainter,
    notes: CurveNotes,
    data: CurveData,
    axis: TimeAxis,
    plot: QRectF,
    font: QFont,
) -> None:
    """Write the other batch's name at its end, and mark its milestones on its line.

    `font` is the widget's own; words are written smaller.
    """
    other = data.other
    if other is None:
        return
    palette = theme().palette
    painter.setFont(theme().small_font(font))
    painter.setPen(QPen(palette.muted, 1.2))
    for mark in other.marks:
        if axis.holds(mark.at):
            x, y = axis.pixel(mark.at), notes.gravity_pixel(mark.gravity)
            painter.drawLine(QPointF(x, y - _TICK), QPointF(x, y + _TICK))
    _paint_name(painter, notes, data, other, axis, plot)
    for mark in other.marks if plot.height() >= LOW_PLOT else ():
        if axis.holds(mark.at):
            at = QPointF(axis.pixel(mark.at), notes.gravity_pixel(mark.gravity))
            _write(painter, notes, data, mark.words, at, plot, palette.muted)


def _paint_name(
    painter: QPainter,
    notes: CurveNotes,
    data: CurveData,
    other: OtherData,
    axis: TimeAxis,
    plot: QRectF,
) -> None:
    """Write the name at the last point, or where the line leaves the view."""
    first, last = np.clip(other.at[[0, -1]], axis.start, axis.end)
    words = f"‹ {other.name}" if other.at[-1] < axis.start else other.name
    if other.at[0] > axis.end:
        words = f"{other.name} ›"
    font = QFont(painter.font())
    font.setItalic(True)
    painter.save()
    painter.setFont(font)
    # At its end, or else further back along the line, where there is room.
    along = [float(last - share * (last - first)) for share in _BACK]
    points = [
        QPointF(axis.pixel(at), notes.gravity_pixel(float(np.interp(at, other.at, other.gravity))))
        for at in along
    ]
    ink = theme().palette.ink
    levels: tuple[Clear, ...] = ("all", "readings", "words")
    any(
        _write(painter, notes, data, words, point, plot, ink, clear_of)
        for clear_of in levels
        for point in points
    )
    painter.restore()


def _write(
    painter: QPainter,
    notes: CurveNotes,
    data: CurveData,
    words: str,
    at: QPointF,
    plot: QRectF,
    colour: QColor,
    clear_of: Clear = "all",
) -> bool:
    """Write words beside a point where there is room; return whether there was."""
    metrics = QFontMetricsF(painter.font())
    most = plot.width() * (_WIDE if clear_of == "all" else _NARROW)
    words = metrics.elidedText(words, Qt.TextElideMode.ElideRight, max(most, _LEAST))
    width = metrics.horizontalAdvance(words) + 8
    x, y = at.x(), at.y()
    rooms = [
        QRectF(left, top, width, _HEIGHT)
        for left, top in (
            (x + 8, y - _HEIGHT / 2),
            (x + 4, y - _HEIGHT - 6),
            (x - width - 4, y - _HEIGHT - 6),
            (x - width - 4, y + 6),
            (x + 4, y + 6),
            (x - width / 2, y - 2 * _HEIGHT - 8),
            (x - width / 2, y + _HEIGHT + 8),
        )
    ]
    if clear_of == "words":  # nothing near is free: higher up covers the least
        rooms.insert(0, QRectF(x - width - 4, y - 3 * _HEIGHT - 8, width, _HEIGHT))
    inside = [room for room in rooms if plot.adjusted(1, 1, -1, -1).contains(room)]
    room = notes.take_room(inside, data, clear_of)
    if room is None:
        return False
    painter.fillRect(room, notes.veil())
    painter.setPen(colour)
    painter.drawText(room, int(Qt.AlignmentFlag.AlignCenter), words)
    return True
