"""The marks on the step rows. Shape and pattern carry the meaning, colour repeats it.

done: a disc with a tick; due: a ring with a heavy edge; missed: a ring with a stroke through
it; held: a hatched bar with a diamond; expected: a dashed hollow bar with a diamond.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QPolygonF

from winebench.window.theme import Palette

BAR_HEIGHT = 14.0
SHORTEST_BAR = 14.0
RADIUS = 7.0
SMALL_RADIUS = 5.0


def paint_done(painter: QPainter, centre: QPointF, palette: Palette, radius: float) -> None:
    """Paint the disc with a tick of a step that was done."""
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(palette.leaf)
    painter.drawEllipse(centre, radius, radius)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(_pen(palette.card, 1.8 if radius > SMALL_RADIUS else 1.4))
    tick = QPainterPath(centre + QPointF(-0.45, 0.05) * radius)
    tick.lineTo(centre + QPointF(-0.1, 0.4) * radius)
    tick.lineTo(centre + QPointF(0.48, -0.35) * radius)
    painter.drawPath(tick)


def paint_due(painter: QPainter, centre: QPointF, palette: Palette) -> None:
    """Paint the heavy ring of a step that is to be done now."""
    painter.setPen(_pen(palette.fruit, 2.4))
    painter.setBrush(palette.card)
    painter.drawEllipse(centre, RADIUS, RADIUS)


def paint_missed(painter: QPainter, centre: QPointF, palette: Palette) -> None:
    """Paint the crossed ring of a step whose latest time has passed."""
    paint_due(painter, centre, palette)
    stroke = QPointF(RADIUS, -RADIUS) * 0.5
    painter.drawLine(centre - stroke, centre + stroke)


def paint_coming(painter: QPainter, centre: QPointF, palette: Palette) -> None:
    """Paint the small dotted ring of a daily chore still to come."""
    painter.setPen(_pen(palette.muted, 1.2, Qt.PenStyle.DotLine))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawEllipse(centre, SMALL_RADIUS, SMALL_RADIUS)


def paint_run(painter: QPainter, left: QPointF, right: QPointF, palette: Palette) -> None:
    """Paint the line through a chore that was done more often than there is room to show."""
    painter.setPen(_pen(palette.leaf, 3.0))
    painter.drawLine(left, right)


def paint_window(painter: QPainter, left: float, right: float, y: float, palette: Palette) -> None:
    """Paint the thin line, with ends, of the time within which a due step is best done."""
    painter.setPen(_pen(palette.fruit, 1.4))
    painter.drawLine(QPointF(left, y), QPointF(right, y))
    for end in (left, right):
        painter.drawLine(QPointF(end, y - 3), QPointF(end, y + 3))


def paint_held_bar(painter: QPainter, bar: QRectF, at: QPointF | None, palette: Palette) -> None:
    """Paint the hatched bar of a step that a gate holds; the diamond is the likely time.

    Where the bar would be hidden behind its diamond, the diamond alone is filled.
    """
    if bar.width() < SHORTEST_BAR:
        _paint_diamond(painter, at or bar.center(), palette.straw, palette.straw)
        return
    _paint_bar(painter, bar, _pen(palette.straw, 1.4), QBrush(Qt.BrushStyle.NoBrush))
    _hatch(painter, bar, palette.straw)
    if at is not None:
        _paint_diamond(painter, at, palette.straw, palette.card)


def paint_expected_bar(
    painter: QPainter, bar: QRectF, at: QPointF | None, palette: Palette
) -> None:
    """Paint the dashed hollow bar of a step that is only dated by the plan.

    Where the bar would be hidden behind its diamond, the hollow diamond stands alone.
    """
    if bar.width() < SHORTEST_BAR:
        _paint_diamond(painter, at or bar.center(), palette.fruit, palette.card)
        return
    pen = _pen(palette.fruit, 1.4)
    pen.setDashPattern([3.0, 2.4])
    _paint_bar(painter, bar, pen, QBrush(Qt.BrushStyle.NoBrush))
    if at is not None:
        _paint_diamond(painter, at, palette.fruit, palette.card)


def _paint_bar(painter: QPainter, bar: QRectF, pen: QPen, brush: QBrush) -> None:
    painter.setPen(pen)
    painter.setBrush(brush)
    corner = min(5.0, bar.width() / 2)
    painter.drawRoundedRect(bar, corner, corner)


def _hatch(painter: QPainter, bar: QRectF, colour: QColor) -> None:
    """Draw slanting lines: Qt's own hatch pattern turns to mush at 200 %."""
    painter.save()
    path = QPainterPath()
    path.addRoundedRect(bar, min(5.0, bar.width() / 2), min(5.0, bar.width() / 2))
    painter.setClipPath(path, Qt.ClipOperation.IntersectClip)
    painter.setPen(_pen(colour, 1.0))
    x = bar.left() - bar.height()
    while x < bar.right():
        painter.drawLine(QPointF(x, bar.bottom()), QPointF(x + bar.height(), bar.top()))
        x += 6.0
    painter.restore()


def _paint_diamond(painter: QPainter, centre: QPointF, edge: QColor, fill: QColor) -> None:
    painter.setPen(_pen(edge, 1.6))
    painter.setBrush(fill)
    corners = [QPointF(0, -7), QPointF(5, 0), QPointF(0, 7), QPointF(-5, 0)]
    painter.drawPolygon(QPolygonF([centre + corner for corner in corners]))


def _pen(colour: QColor, width: float, style: Qt.PenStyle = Qt.PenStyle.SolidLine) -> QPen:
    return QPen(colour, width, style, Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin)
