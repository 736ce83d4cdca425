"""A vessel with its wine in it: how full, where the foam line is, and whether it fits."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from winebench.plan.outlook import Figure, VesselOutlook
from winebench.window.parts.explaining import Explaining
from winebench.window.theme import theme

_WIDTH, _HEIGHT = 64, 74


def pail(area: QRectF) -> QPainterPath:
    """Return the outline of an open pail."""
    slant = area.width() * 0.14
    path = QPainterPath(area.topLeft())
    path.lineTo(area.left() + slant, area.bottom())
    path.lineTo(area.right() - slant, area.bottom())
    path.lineTo(area.topRight())
    path.closeSubpath()
    return path


def jug(area: QRectF) -> QPainterPath:
    """Return the outline of a jug with a narrow neck."""
    middle, neck = area.center().x(), area.width() * 0.14
    shoulder = area.top() + area.height() * 0.34
    path = QPainterPath(QPointF(middle - neck, area.top()))
    path.lineTo(middle - neck, area.top() + area.height() * 0.14)
    path.cubicTo(
        QPointF(middle - neck, shoulder - 6),
        QPointF(area.left(), shoulder - 8),
        QPointF(area.left(), shoulder + 4),
    )
    path.lineTo(area.left(), area.bottom() - 6)
    path.quadTo(area.bottomLeft(), QPointF(area.left() + 6, area.bottom()))
    path.lineTo(area.right() - 6, area.bottom())
    path.quadTo(area.bottomRight(), QPointF(area.right(), area.bottom() - 6))
    path.lineTo(area.right(), shoulder + 4)
    path.cubicTo(
        QPointF(area.right(), shoulder - 8),
        QPointF(middle + neck, shoulder - 6),
        QPointF(middle + neck, area.top() + area.height() * 0.14),
    )
    path.lineTo(middle + neck, area.top())
    path.closeSubpath()
    return path


class VesselDrawing(Explaining):
    """Draw one vessel, its words beside it; a click, F1 or Enter asks for its workings."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.vessel: VesselOutlook | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        theme().changed.connect(self.update)

    def sizeHint(self) -> QSize:
        """Return the room for the drawing and two or three lines of words."""
        return QSize(236, _HEIGHT + 24)

    def show_vessel(self, vessel: VesselOutlook) -> None:
        """Show the vessel as it is now."""
        if vessel != self.vessel:
            self.vessel = vessel
            weight = vessel.weight
            weighs = f", weighs about {weight.text} {weight.text_unit}" if weight else ""
            said = f"{vessel.name}: {vessel.headline}{weighs}"
            self.setAccessibleName(f"{said}; {vessel.detail}")
            self.setToolTip(f"{said}\n{vessel.detail}")
            self.update()

    @property
    def shown_figure(self) -> Figure | None:
        """Return how much is in the vessel."""
        return self.vessel.fill if self.vessel else None

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the caption, the vessel and the words; a ring round them when focused."""
        del event
        vessel = self.vessel
        if vessel is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        palette = theme().palette
        painter.setFont(theme().small_font())
        painter.setPen(palette.muted)
        waits = vessel.role == "secondary" and vessel.stage == "to come"
        caption = "In the {}, after the fruit" if waits else "In the {}"
        room = QRectF(4, 0, self.width() - 8, 18)
        words = painter.fontMetrics().elidedText(
            caption.format(vessel.name), Qt.TextElideMode.ElideRight, int(room.width())
        )
        painter.drawText(room, int(Qt.AlignmentFlag.AlignVCenter), words)
        self._paint_vessel(painter, vessel, QRectF(6.5, 22.5, _WIDTH, _HEIGHT - 4))
        self._paint_words(painter, vessel, _WIDTH + 18)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(palette.fruit, 1.0))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 4, 4)

    def _paint_vessel(self, painter: QPainter, vessel: VesselOutlook, area: QRectF) -> None:
        palette = theme().palette
        outline = pail(area) if vessel.role == "primary" else jug(area)
        full = max(vessel.capacity_l, 0.001)
        share = min(vessel.fill_l / full, 1.0)
        top = area.bottom() - share * area.height()
        painter.save()
        painter.setClipPath(outline)
        painter.fillRect(QRectF(area.left(), top, area.width(), area.bottom() - top), palette.wine)
        painter.restore()
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(palette.ink if vessel.fits else palette.straw, 1.4))
        painter.drawPath(outline)
        if vessel.foam_line_l is not None:
            y = area.bottom() - min(vessel.foam_line_l / full, 1.0) * area.height()
            painter.setPen(QPen(palette.straw, 1.6, Qt.PenStyle.DashLine))
            painter.drawLine(QPointF(area.left() - 5, y), QPointF(area.right() + 5, y))
        if vessel.fill_l > vessel.capacity_l:
            self._paint_overflow(painter, area)

    def _paint_overflow(self, painter: QPainter, area: QRectF) -> None:
        painter.setPen(QPen(theme().palette.fruit, 2))
        for x in (area.left() + 10, area.center().x(), area.right() - 10):
            painter.drawLine(QPointF(x, area.top() - 2), QPointF(x, area.top() - 7))

    def _paint_words(self, painter: QPainter, vessel: VesselOutlook, left: float) -> None:
        palette = theme().palette
        wrap = int(Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignTop)
        painter.setFont(theme().heading_font(13))
        painter.setPen(palette.ink)
        room = QRectF(left, 26, self.width() - left - 2, _HEIGHT)
        painter.drawText(room, wrap, vessel.headline)
        used = painter.boundingRect(room, wrap, vessel.headline).height()
        painter.setFont(theme().small_font())
        painter.setPen(palette.muted)
        painter.drawText(room.adjusted(0, used + 2, 0, 0), wrap, vessel.detail)
