"""Paint one step's row: its name, and its mark or bar where the time axis puts it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFont, QPainter, QPen

from winebench.plan.outlook import StepOutlook
from winebench.window.theme import theme
from winebench.window.timeline import marks
from winebench.window.timeline.axis import TimeAxis
from winebench.window.timeline.moments import Floats, step_moment, step_span
from winebench.window.timeline.ticks import short_day

_URGENT = ("due", "held", "missed")
_GAP = 8.0
_TOUCHING = 2 * marks.SMALL_RADIUS + 1
"""Marks of a chore done often stand at least so far apart, px."""


class RowPainter:
    """Paint rows with one painter; the palette is taken once for all of them."""

    def __init__(
        self,
        painter: QPainter,
        axis: TimeAxis,
        now: float,
        done: Mapping[str, Floats],
        width: float,
    ) -> None:
        self._painter = painter
        self._axis = axis
        self._now = now
        self._done = done
        self._right = min(axis.right, width)
        self._palette = theme().palette
        self._font = QFont(painter.font())
        self._strong = QFont(self._font)
        self._strong.setWeight(QFont.Weight.DemiBold)
        self._small = theme().small_font(self._font)

    def paint_background(self, area: QRectF, *, chosen: bool, focused: bool) -> None:
        """Paint the rule under a row, and the wash and edge of the chosen one."""
        if chosen:
            self._painter.fillRect(area.adjusted(0, 0, 0, -1), self._palette.wash)
            edge = QRectF(area.left(), area.top(), 3, area.height() - 1)
            self._painter.fillRect(edge, self._palette.fruit)
        self._painter.setPen(QPen(self._palette.rule, 1.0))
        y = area.bottom() - 0.5
        self._painter.drawLine(QPointF(area.left(), y), QPointF(area.right(), y))
        if focused:
            self._painter.setPen(QPen(self._palette.fruit, 1.0))
            self._painter.setBrush(Qt.BrushStyle.NoBrush)
            self._painter.drawRect(area.adjusted(0.5, 0.5, -0.5, -1.5))

    def paint_now(self, top: float, bottom: float) -> None:
        """Paint the line of now through the rows."""
        if self._axis.holds(self._now):
            x = self._axis.pixel(self._now)
            self._painter.setPen(QPen(self._palette.sky, 1.6))
            self._painter.drawLine(QPointF(x, top), QPointF(x, bottom))

    def paint(self, step: StepOutlook, area: QRectF) -> None:
        """Paint the name and the marks of one step."""
        self._paint_name(step, area)
        plot = QRectF(self._axis.left, area.top(), self._right - self._axis.left, area.height())
        self._painter.save()
        self._painter.setClipRect(plot.adjusted(-2, 0, 2, 0))
        self._paint_marks(step, plot)
        self._painter.restore()
        said = self._elsewhere(step)
        if said:
            self._paint_aside(said, plot)

    def _paint_name(self, step: StepOutlook, area: QRectF) -> None:
        faint = step.state == "later" or (step.state == "held" and step.likely is None)
        urgent = step.state in _URGENT and not faint
        self._painter.setFont(self._strong if urgent else self._font)
        self._painter.setPen(self._palette.muted if faint else self._palette.ink)
        room = QRectF(_GAP, area.top(), self._axis.left - 2 * _GAP, area.height())
        self._text(step.name, room, Qt.AlignmentFlag.AlignLeft)

    def _paint_marks(self, step: StepOutlook, plot: QRectF) -> None:
        y = plot.center().y() - 0.5
        if step.repeats:
            self._paint_repeats(step, y)
        elif step.done_at is not None:
            self._paint_done(step.done_at, y, marks.RADIUS)
        if step.state == "due":
            self._paint_due(step, y)
        elif step.state == "missed":
            late = step.latest or step.likely
            if late is not None:
                marks.paint_missed(self._painter, self._at(late, y), self._palette)
        elif step.state in ("held", "expected"):
            self._paint_bar(step, y)

    def _paint_repeats(self, step: StepOutlook, y: float) -> None:
        drawn, runs = self._apart(self._done[step.key])
        for left, right in runs:
            marks.paint_run(self._painter, QPointF(left, y), QPointF(right, y), self._palette)
        for x in drawn:
            marks.paint_done(self._painter, QPointF(x, y), self._palette, marks.SMALL_RADIUS)
        coming = _in_order(step.repeat_times)
        for x in self._apart(coming[coming >= self._now])[0]:
            marks.paint_coming(self._painter, QPointF(x, y), self._palette)

    def _apart(self, seconds: Floats) -> tuple[list[float], list[tuple[float, float]]]:
        """Return where to draw marks that do not touch, and the runs where some were left out.

        The last in view is always drawn: it says until when.
        """
        first = int(np.searchsorted(seconds, self._axis.start))
        last = int(np.searchsorted(seconds, self._axis.end, side="right"))
        places: list[float] = self._axis.pixel(seconds[first:last])[::-1].tolist()
        drawn: list[float] = []
        runs: list[tuple[float, float]] = []
        left_out = False
        for x in places:
            if drawn and drawn[-1] - x < _TOUCHING:
                left_out = True
                continue
            if left_out:
                runs.append((x, drawn[-1]))
            drawn.append(x)
            left_out = False
        if left_out:
            runs.append((places[-1], drawn[-1]))
        return drawn, runs

    def _paint_done(self, moment: datetime, y: float, radius: float) -> None:
        if self._axis.holds(moment.timestamp()):
            marks.paint_done(self._painter, self._at(moment, y), self._palette, radius)

    def _paint_due(self, step: StepOutlook, y: float) -> None:
        span = step_span(step)
        if span is not None and not step.repeats:
            left, right = (self._axis.pixel(moment.timestamp()) for moment in span)
            marks.paint_window(self._painter, left, right, y, self._palette)
        if self._axis.holds(self._now):
            centre = QPointF(self._axis.pixel(self._now), y)
            marks.paint_due(self._painter, centre, self._palette)

    def _paint_bar(self, step: StepOutlook, y: float) -> None:
        span = step_span(step)
        if span is None or step.repeats:
            return
        left, right = (self._axis.pixel(moment.timestamp()) for moment in span)
        left, right = max(left, self._axis.left - 40), min(right, self._right + 40)
        if right < self._axis.left or left > self._right:
            return
        bar = QRectF(left, y - marks.BAR_HEIGHT / 2, right - left, marks.BAR_HEIGHT)
        at = None if step.likely is None else self._at(step.likely, y)
        paint = marks.paint_held_bar if step.state == "held" else marks.paint_expected_bar
        paint(self._painter, bar, at, self._palette)

    def _at(self, moment: datetime, y: float) -> QPointF:
        return QPointF(self._axis.pixel(moment.timestamp()), y)

    def _elsewhere(self, step: StepOutlook) -> str:
        """Return what to write of a step that has no mark in view."""
        if step.state == "later":
            return step.when
        if step.state == "due" and self._axis.holds(self._now):
            return ""
        moments = [m for m in (step_moment(step), *(step_span(step) or ())) if m is not None]
        if step.repeats:
            moments += (self._axis.moment(at) for at in _ends(self._done[step.key]))
            moments += step.repeat_times
        if not moments:
            return step.when
        if min(moments).timestamp() > self._axis.end:
            about = "" if step.state == "done" else "about "
            return f"{about}{self._day(step_moment(step) or min(moments))} ›"
        if max(moments).timestamp() < self._axis.start:
            return f"‹ {self._day(max(moments))}"
        return ""

    def _day(self, at: datetime) -> str:
        return short_day(at, datetime.fromtimestamp(self._now, at.tzinfo))

    def _paint_aside(self, said: str, plot: QRectF) -> None:
        """Write where the step is, on the side of the view where it would be."""
        earlier = said.startswith("‹")
        side = Qt.AlignmentFlag.AlignLeft if earlier else Qt.AlignmentFlag.AlignRight
        self._painter.setFont(self._small)
        self._painter.setPen(self._palette.muted)
        self._text(said, plot.adjusted(4, 0, -4, 0), side)

    def _text(self, text: str, room: QRectF, side: Qt.AlignmentFlag) -> None:
        fitted = self._painter.fontMetrics().elidedText(
            text, Qt.TextElideMode.ElideRight, int(room.width())
        )
        self._painter.drawText(room, int(side | Qt.AlignmentFlag.AlignVCenter), fitted)


def _in_order(moments: Sequence[datetime]) -> Floats:
    return np.sort(np.array([moment.timestamp() for moment in moments], dtype=float))


def _ends(seconds: Floats) -> list[float]:
    """Return the first and the last, none where there are none."""
    return seconds[[0, -1]].tolist() if len(seconds) else []
