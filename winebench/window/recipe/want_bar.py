"""One figure of the must on a bar: the wanted band, the likely value and its range."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from winebench.plan.outlook import Figure, Want
from winebench.window.parts.explaining import Explaining
from winebench.window.parts.figure import tabular
from winebench.window.theme import theme

_NAME, _NUMBER, _WANT = 112, 60, 124
_UNKNOWN = "not known"
HEIGHT = 18
"""Six of them, as high as four once were: lines and vessels stay in view."""


def verdict(want: Want) -> str:
    """Return where the figure lies, in words: "below", "above", "as wanted" or ""."""
    value = want.actual.value
    if value is None or (want.want_low is None and want.want_high is None):
        return ""
    if want.want_low is not None and value < want.want_low:
        return "below what is wanted"
    if want.want_high is not None and value > want.want_high:
        return "above what is wanted"
    return "as wanted"


class WantBar(Explaining):
    """Painted in one go; a click, F1 or Enter asks for the workings."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.want: Want | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setAccessibleName("A figure of the must")
        theme().changed.connect(self.update)

    def sizeHint(self) -> QSize:
        """Return the size of a bar in a narrow pane."""
        return QSize(440, HEIGHT)

    def show_want(self, want: Want) -> None:
        """Show the figure as it is now."""
        if want == self.want:
            return
        self.want = want
        said = verdict(want)
        words = f"{want.name}: {want.actual.text}, {want.want_text}"
        self.setAccessibleName(f"{words}, {said}" if said else words)
        self.update()

    def _track(self) -> QRectF:
        width = max(self.width() - _NAME - _NUMBER - _WANT - 24, 60)
        return QRectF(_NAME + 4, HEIGHT / 2 - 3, width, 6)

    def _x(self, value: float) -> float:
        track, want = self._track(), self.want
        assert want is not None
        span = (want.scale_high - want.scale_low) or 1.0
        share = min(max((value - want.scale_low) / span, 0.0), 1.0)
        return track.left() + share * track.width()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint name, bar, number and what is wanted."""
        del event
        if self.want is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_band(painter)
        self._paint_value(painter)
        self._paint_words(painter)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(theme().palette.fruit, 1))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5), 4, 4)

    def _paint_band(self, painter: QPainter) -> None:
        palette, want = theme().palette, self.want
        assert want is not None
        track = self._track()
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(palette.rule)
        painter.drawRoundedRect(track, 3, 3)
        if want.want_low is None and want.want_high is None:
            return
        left = track.left() if want.want_low is None else self._x(want.want_low)
        right = track.right() if want.want_high is None else self._x(want.want_high)
        band = QRectF(left, HEIGHT / 2 - 7, max(right - left, 4.0), 14)
        painter.setPen(QPen(palette.leaf, 1.0))
        painter.setBrush(palette.leaf_wash)
        painter.drawRoundedRect(band, 4, 4)

    def _paint_value(self, painter: QPainter) -> None:
        palette, want = theme().palette, self.want
        assert want is not None
        figure, y = want.actual, HEIGHT / 2
        if figure.value is None:
            return
        painter.setPen(QPen(palette.fruit, 3.0, c=Qt.PenCapStyle.RoundCap))
        if figure.low is not None and figure.high is not None:
            painter.drawLine(QPointF(self._x(figure.low), y), QPointF(self._x(figure.high), y))
        x = self._x(figure.value)
        painter.setPen(QPen(palette.page, 1.0))
        painter.setBrush(palette.fruit)
        points = ((x, y - 7), (x + 6, y), (x, y + 7), (x - 6, y))
        painter.drawPolygon(QPolygonF([QPointF(*point) for point in points]))

    def _paint_words(self, painter: QPainter) -> None:
        palette, want = theme().palette, self.want
        assert want is not None
        middle = Qt.AlignmentFlag.AlignVCenter
        strong = tabular(theme().heading_font(13))
        painter.setFont(strong)
        painter.setPen(palette.ink)
        painter.drawText(QRectF(4, 0, _NAME, HEIGHT), int(middle), want.name)
        after = self._track().right() + 8
        number = QRectF(after, 0, _NUMBER - 8, HEIGHT)
        if want.actual.value is not None:
            painter.drawText(number, int(middle | Qt.AlignmentFlag.AlignRight), want.actual.text)
        painter.setFont(theme().small_font())
        if want.actual.value is None:
            painter.setPen(palette.muted)
            wide = number.adjusted(-12, 0, 8, 0)
            painter.drawText(wide, int(middle | Qt.AlignmentFlag.AlignRight), _UNKNOWN)
        painter.setPen(palette.muted)
        room = QRectF(number.right() + 12, 0, _WANT, HEIGHT)
        fitted = painter.fontMetrics().elidedText(
            want.want_text, Qt.TextElideMode.ElideRight, int(room.width())
        )
        painter.drawText(room, int(middle), fitted)

    def event(self, event: QEvent) -> bool:
        """Follow the focus."""
        if event.type() in (QEvent.Type.FocusIn, QEvent.Type.FocusOut):
            self.update()
        return super().event(event)

    @property
    def shown_figure(self) -> Figure | None:
        """Return the figure of the must."""
        return self.want.actual if self.want else None
