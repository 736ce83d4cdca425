"""The gravity curve: what was read, what is expected, and how sure that is."""

from __future__ import annotations

import sys
from collections.abc import Sequence

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QEvent, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QToolTip, QWidget

from winebench.plan.outlook import ReadingOutlook
from winebench.window.theme import mix, theme
from winebench.window.timeline.axis import Number, TimeAxis
from winebench.window.timeline.callout import Callout
from winebench.window.timeline.curve_data import CurveData, in_view
from winebench.window.timeline.curve_notes import CurveNotes
from winebench.window.timeline.curve_other import OtherCurve, paint_other
from winebench.window.timeline.steering import Dragging, steer_by_key
from winebench.window.timeline.ticks import long_moment

TOP, BOTTOM, MARGIN = 12, 24, 20
MOST_MARKS = 150
EMPTY = "The first reading draws the curve and dates the steps below: press F2, type it, Enter."


class GravityCurve(pg.PlotWidget):  # type: ignore[misc]  # pyqtgraph carries no types
    """Plot gravity over the shared time axis; items are made once and only given new data."""

    def __init__(self, axis: TimeAxis, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.axis = axis
        self.data = CurveData()
        self.written: tuple[str, ...] = ()
        """The facts of the forecast that had room on the curve or beside it."""
        self._dragging = Dragging(axis)
        self._view = self.plotItem.vb
        self._prepare_view()
        self._make_items()
        self.setAccessibleName("Gravity curve")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumHeight(150)
        axis.changed.connect(self._follow_axis)
        theme().changed.connect(self._paint_anew)
        self._paint_anew()

    def _prepare_view(self) -> None:
        # Scales are painted as background: pyqtgraph would keep it as a picture, with old numbers.
        self.setCacheMode(self.CacheModeFlag.CacheNone)
        self.setViewportUpdateMode(self.ViewportUpdateMode.FullViewportUpdate)
        plot = self.plotItem
        for side in ("left", "bottom"):
            plot.hideAxis(side)
        plot.hideButtons()
        plot.setMenuEnabled(False)
        self._view.setMouseEnabled(x=False, y=False)
        self._view.disableAutoRange()
        self._view.setDefaultPadding(0.0)

    def _make_items(self) -> None:
        self._other = OtherCurve(self.plotItem, self.axis)
        # The band is one closed outline: its fill and its edge cost one path.
        self._band = pg.PlotCurveItem(antialias=True, fillLevel="enclosed")
        self._expected = pg.PlotCurveItem(antialias=True)
        self._past = pg.PlotDataItem(antialias=True)
        self._past.setClipToView(True)
        self._past.setDownsampling(auto=True, method="peak")
        self._whiskers = pg.ErrorBarItem(beam=0.0)
        self._marks = pg.ScatterPlotItem(symbol="o", size=8, antialias=True)
        for item in (self._band, self._expected, self._past, self._whiskers, self._marks):
            self.plotItem.addItem(item, ignoreBounds=True)

    def show_data(self, data: CurveData) -> None:
        """Show other readings or another forecast."""
        self.data = data
        around = np.concatenate([data.at, data.at[::-1]])
        self._band.setData(around, np.concatenate([data.low, data.high[::-1]]))
        self._expected.setData(data.at, data.middle)
        self._past.setData(data.read_at, data.gravity)
        self._other.show_data(data.other)
        self._view.setYRange(*data.gravity_range(), padding=0)
        self._style_forecast()
        self._show_marks()
        self.setAccessibleDescription(self._in_words())
        self.viewport().update()

    def _in_words(self) -> str:
        data = self.data
        over = f" {data.other.sentence}" if data.other else ""
        if not data.readings:
            return f"No reading yet. {data.sentence}{over}"
        latest = data.readings[-1]
        counted = "1 reading" if len(data.readings) == 1 else f"{len(data.readings)} readings"
        said = f"{counted}; the latest is {latest.corrected:.3f}, {long_moment(latest.at)}. "
        crossing = f" {data.crossing.sentence}." if data.crossing else ""
        return f"{said}{data.sentence}{crossing}{over}"

    def set_gutter(self, width: float) -> None:
        """Say how wide the room left of the plot is, px: the steps' names stand in it."""
        self.plotItem.layout.setContentsMargins(width, TOP, MARGIN, BOTTOM)
        self._place_axis(width)

    def _place_axis(self, gutter: float | None = None) -> None:
        left = self.axis.left if gutter is None else gutter
        self.axis.set_pixels(left, self.width() - MARGIN)

    def _follow_axis(self) -> None:
        self._view.setXRange(self.axis.start, self.axis.end, padding=0)
        self._show_marks()
        self.viewport().update()

    def _show_marks(self) -> None:
        """Give the marks only what is in view, thinned where they would touch."""
        data = self.data
        chosen = in_view(data.read_at, self.axis.start, self.axis.end, MOST_MARKS)
        x, y, reach = data.read_at[chosen], data.gravity[chosen], data.half_width[chosen]
        self._other.show_marks(data.other)
        self._marks.setData(x, y)
        self._whiskers.setData(x=x, y=y, top=reach, bottom=reach)

    def _paint_anew(self) -> None:
        palette = theme().palette
        self.setBackground(palette.page)
        self._past.setPen(self._pen(palette.fruit, 2.2))
        self._whiskers.setData(pen=self._pen(palette.ink, 1.4))
        self._marks.setPen(self._pen(palette.ink, 1.8))
        self._marks.setBrush(pg.mkBrush(palette.card))
        self._other.restyle(self._pen)
        self._style_forecast()
        self.viewport().update()

    def _pen(self, colour: QColor, width: float, dashes: Sequence[float] = ()) -> QPen:
        """Return a pen that the plot does not stretch; such pens count the screen's own dots."""
        pen = QPen(colour, width * self.devicePixelRatioF())
        pen.setCosmetic(True)
        if dashes:
            pen.setDashPattern(dashes)
        return pen

    def _style_forecast(self) -> None:
        """Draw a forecast without a reading behind it hollow: outlines only, and thinner."""
        palette = theme().palette
        supported = self.data.supported
        dashes = (4.0, 3.0) if supported else (2.0, 4.0)
        self._expected.setPen(self._pen(palette.fruit, 2.2 if supported else 1.3, dashes))
        # The fill alone is too faint to be seen by all: the edge has 3 to 1 on the card.
        edge = self._pen(mix(palette.card, palette.fruit, 0.65), 1.0)
        self._band.setPen(edge if supported else self._pen(palette.fruit, 1.0, (1.0, 2.0)))
        fill = QColor(palette.fruit)
        fill.setAlphaF(0.16 if supported else 0.0)
        self._band.setBrush(fill)

    def _plot_rect(self) -> QRectF:
        return QRectF(self._view.sceneBoundingRect())

    def _pixel_of_gravity(self, gravity: Number) -> Number:
        low, high = map(float, self._view.viewRange()[1])
        plot = self._plot_rect()
        return plot.bottom() - (gravity - low) / (high - low) * plot.height()

    def _notes(self, painter: QPainter) -> CurveNotes:
        plot = self._plot_rect()
        return CurveNotes(painter, plot, self.axis, self._pixel_of_gravity, self.font())

    def drawBackground(self, painter: QPainter, rect: QRectF) -> None:
        """Paint the scales and thresholds under the lines."""
        super().drawBackground(painter, rect)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        notes = self._notes(painter)
        notes.paint_scales(*self._view.viewRange()[1])
        notes.paint_thresholds(self.data)

    def drawForeground(self, painter: QPainter, rect: QRectF) -> None:
        """Paint now and the callout over the lines.

        An error is told here: left to the binding, one raised while a graphics view paints ends
        the whole program.
        """
        try:
            self._paint_foreground(painter)
        except Exception:
            sys.excepthook(*sys.exc_info())

    def _paint_foreground(self, painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        notes = self._notes(painter)
        notes.paint_now(self.data.now)
        notes.paint_names(self.data)
        notes.paint_next_reading(self.data)
        if self.data.readings or len(self.data.at):
            callout = Callout(painter, notes, self.axis, self._plot_rect(), self.font())
            self.written = callout.paint(self.data)
        else:
            notes.paint_empty(self.data.sentence if self.data.working else EMPTY)
        paint_other(painter, notes, self.data, self.axis, self._plot_rect(), self.font())
        if self.hasFocus():
            notes.paint_focus()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the axis under the plot."""
        super().resizeEvent(event)
        if hasattr(self, "axis"):  # the base class resizes while it is being made
            self._place_axis()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show that the keys steer the curve now."""
        super().focusInEvent(event)
        self.viewport().update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Show that they no longer do."""
        super().focusOutEvent(event)
        self.viewport().update()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom about the moment under the pointer; a sideways wheel pans."""
        turned = event.angleDelta()
        if abs(turned.x()) > abs(turned.y()):
            self.axis.pan(-turned.x() / 1200)
        else:
            self.axis.zoom(0.999 ** turned.y(), self.axis.seconds(event.position().x()))
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the time."""
        self._dragging.begin(event.position().x())
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag the time along with the pointer."""
        if event.buttons() & Qt.MouseButton.LeftButton:
            self._dragging.move(event.position().x())
        event.accept()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let the time go."""
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left and Right pan, plus and minus zoom."""
        if not steer_by_key(self.axis, event):
            event.ignore()

    def reading_at(self, position: QPointF) -> ReadingOutlook | None:
        """Return the reading within 10 px of a point of the widget, or None."""
        if not self.data.readings:
            return None
        nearest = int(np.argmin(np.abs(self.data.read_at - self.axis.seconds(position.x()))))
        x = self.axis.pixel(float(self.data.read_at[nearest]))
        y = self._pixel_of_gravity(float(self.data.gravity[nearest]))
        near = np.hypot(x - position.x(), y - position.y()) <= 10
        return self.data.readings[nearest] if near else None

    def _said_at(self, position: QPointF) -> str:
        """Return what the reading under that point means, of this batch or of the other."""
        reading = self.reading_at(position)
        if reading is not None:
            return "\n".join(filter(None, (reading.sentence, reading.doubt)))
        other = self.data.other
        if other is None:
            return ""
        x, y = self.axis.pixel(other.at), self._pixel_of_gravity(other.gravity)
        away = np.hypot(x - position.x(), y - position.y())
        nearest = int(np.argmin(away))
        return other.said[nearest] if away[nearest] <= 10 else ""

    def event(self, event: QEvent) -> bool:
        """Keep the lines as thick as they were on a screen of another density."""
        if event.type() == QEvent.Type.DevicePixelRatioChange and hasattr(self, "_marks"):
            self._paint_anew()
        return bool(super().event(event))

    def viewportEvent(self, event: QEvent) -> bool:
        """Tell what a reading means where the pointer rests."""
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            QToolTip.showText(event.globalPos(), self._said_at(QPointF(event.pos())), self)
            return True
        return bool(super().viewportEvent(event))
