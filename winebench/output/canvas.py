"""A page to draw on, measured in millimetres from its upper left corner."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Literal, Self

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QPagedPaintDevice,
    QPageLayout,
    QPainter,
    QPen,
    QPolygonF,
)

from winebench.output.fonts import UNITS_PER_MM, page_font, text_width
from winebench.output.pages import OutputError, ready_for_pages

# Inks that stay apart in grey: each is a good step lighter than the one before.
INK = "#1F1A23"
FRUIT = "#8A2F55"
MUTED = "#6E6673"
RULE = "#B9B1BB"
FAINT = "#DCD6DE"
BAND = "#DDD8DF"
PAPER = "#FFFFFF"

Side = Literal["left", "right", "middle"]
Point = tuple[float, float]


class Canvas:
    """A painter over a paged device (PDF, printer, preview); use it in a `with`."""

    def __init__(self, device: QPagedPaintDevice) -> None:
        ready_for_pages()
        self._device = device
        layout = device.pageLayout()
        paper = layout.fullRect(QPageLayout.Unit.Millimeter)
        self.width = paper.width()
        self.height = paper.height()
        self.page = 1
        self._painter = QPainter()
        if not self._painter.begin(device):
            raise OutputError("The printer cannot be drawn on; choose another, or save a PDF.")
        units = UNITS_PER_MM * 25.4
        self._painter.scale(device.logicalDpiX() / units, device.logicalDpiY() / units)
        if layout.mode() == QPageLayout.Mode.StandardMode:
            inner = layout.paintRect(QPageLayout.Unit.Millimeter)
            self._painter.translate(-inner.x() * UNITS_PER_MM, -inner.y() * UNITS_PER_MM)
        self._painter.setRenderHint(QPainter.RenderHint.Antialiasing)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *problem: object) -> None:
        self._painter.end()

    @contextmanager
    def zoomed(self, zoom: float, corner: Point) -> Iterator[None]:
        """Draw smaller (or larger) for a while, measured from that corner as (0, 0)."""
        self._painter.save()
        self._painter.translate(_at(corner))
        self._painter.scale(zoom, zoom)
        try:
            yield
        finally:
            self._painter.restore()

    def new_page(self) -> None:
        """Go on to the next sheet."""
        self._device.newPage()
        self.page += 1

    def text(
        self,
        x: float,
        base: float,
        words: str,
        size: float,
        *,
        bold: bool = False,
        side: Side = "left",
        ink: str = INK,
    ) -> None:
        """Write one line with its baseline at `base`; `side` says which end `x` is."""
        length = text_width(words, size, bold)
        start = x - length * {"left": 0.0, "middle": 0.5, "right": 1.0}[side]
        self._painter.setFont(page_font(size, bold))
        self._painter.setPen(QColor(ink))
        self._painter.drawText(_at((start, base)), words)

    def line(
        self, start: Point, end: Point, ink: str = RULE, width: float = 0.15, dash: float = 0.0
    ) -> None:
        """Draw a line; `dash` is the length of its dashes in mm, 0 for a whole one."""
        self._painter.setPen(_pen(ink, width, dash))
        self._painter.drawLine(_at(start), _at(end))

    def path(
        self, points: Sequence[Point], ink: str = INK, width: float = 0.3, dash: float = 0.0
    ) -> None:
        """Draw a line through the points."""
        self._painter.setPen(_pen(ink, width, dash))
        self._painter.drawPolyline(QPolygonF([_at(point) for point in points]))

    def shape(self, points: Sequence[Point], fill: str | None, ink: str | None = None) -> None:
        """Draw a closed shape, filled or outlined."""
        self._painter.setPen(_pen(ink, 0.2) if ink else Qt.PenStyle.NoPen)
        self._painter.setBrush(QBrush(QColor(fill)) if fill else Qt.BrushStyle.NoBrush)
        self._painter.drawPolygon(QPolygonF([_at(point) for point in points]))
        self._painter.setBrush(Qt.BrushStyle.NoBrush)

    def box(
        self,
        corner: Point,
        size: Point,
        *,
        fill: str | None = None,
        ink: str | None = None,
        width: float = 0.15,
    ) -> None:
        """Draw a rectangle from its upper left corner."""
        self._painter.setPen(_pen(ink, width) if ink else Qt.PenStyle.NoPen)
        self._painter.setBrush(QBrush(QColor(fill)) if fill else Qt.BrushStyle.NoBrush)
        x, y = (value * UNITS_PER_MM for value in corner)
        self._painter.drawRect(QRectF(x, y, size[0] * UNITS_PER_MM, size[1] * UNITS_PER_MM))
        self._painter.setBrush(Qt.BrushStyle.NoBrush)

    def dot(self, centre: Point, radius: float, *, fill: str, ink: str) -> None:
        """Draw a round mark."""
        self._painter.setPen(_pen(ink, 0.25))
        self._painter.setBrush(QBrush(QColor(fill)))
        self._painter.drawEllipse(_at(centre), radius * UNITS_PER_MM, radius * UNITS_PER_MM)
        self._painter.setBrush(Qt.BrushStyle.NoBrush)


def _at(point: Point) -> QPointF:
    return QPointF(point[0] * UNITS_PER_MM, point[1] * UNITS_PER_MM)


def _pen(ink: str, width: float, dash: float = 0.0) -> QPen:
    pen = QPen(QColor(ink), width * UNITS_PER_MM)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    if dash:
        pen.setDashPattern([dash / width, 0.7 * dash / width])
    return pen
