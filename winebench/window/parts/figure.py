"""A worked-out number on the page: right-aligned, tabular digits, its workings one click away."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from winebench.plan.outlook import Figure
from winebench.window.parts.explaining import Explaining
from winebench.window.theme import theme


def tabular(font: QFont) -> QFont:
    """Return the font with digits of one width."""
    font.setFeature(QFont.Tag("tnum"), 1)
    return font


def figure_words(figure: Figure) -> str:
    """Return the figure with its unit, as it is shown: "9.92 kg"."""
    if figure.value is None or not figure.text_unit or figure.text_unit in ("SG", ""):
        return figure.text
    return (
        figure.text
        if figure.text.endswith(figure.text_unit)
        else f"{figure.text} {figure.text_unit}"
    )


class FigureLabel(Explaining):
    """Show a figure; a click, F1, Enter or Space asks for its workings.

    It paints itself at a fixed place, so that a new figure costs a repaint and no layout.
    """

    def __init__(
        self,
        name: str,
        parent: QWidget | None = None,
        *,
        strong: bool = True,
        left: bool = False,
        with_unit: bool = True,
        by_tab: bool = False,
    ) -> None:
        super().__init__(parent)
        self.figure: Figure | None = None
        self.words = ""
        self._name = name
        self._strong = strong
        self._side = Qt.AlignmentFlag.AlignLeft if left else Qt.AlignmentFlag.AlignRight
        self._with_unit = with_unit
        self._under = False
        self._explained = False
        policy = Qt.FocusPolicy.StrongFocus if by_tab else Qt.FocusPolicy.ClickFocus
        self.setFocusPolicy(policy)
        self.setAccessibleName(name)
        theme().changed.connect(self.update)

    def rename(self, name: str) -> None:
        """Say of what the figure is."""
        self._name = name
        self._announce()

    def show_figure(self, figure: Figure | None) -> None:
        """Show the figure, or nothing."""
        self.figure = figure
        words = ""
        if figure is not None:
            words = figure_words(figure) if self._with_unit else figure.text
        if words != self.words:
            self.words = words
            self._announce()
            self.update()
        explained = figure is not None and figure.workings is not None
        if explained != self._explained:
            self._explained = explained
            hand, arrow = Qt.CursorShape.PointingHandCursor, Qt.CursorShape.ArrowCursor
            self.setCursor(hand if explained else arrow)

    def _announce(self) -> None:
        self.setAccessibleName(f"{self._name}: {self.words}" if self.words else self._name)

    def sizeHint(self) -> QSize:
        """Return the size that its words need."""
        width = QFontMetricsF(self._face()).horizontalAdvance(self.words or "00.00 kg")
        return QSize(int(width) + 10, 24)

    def _face(self) -> QFont:
        font = tabular(theme().base_font())
        if self._strong:
            font.setWeight(QFont.Weight.DemiBold)
        return font

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the words; underlined under the pointer, ringed when focused."""
        del event
        palette = theme().palette
        painter = QPainter(self)
        font = self._face()
        explained = self.figure is not None and self.figure.workings is not None
        font.setUnderline(explained and self._under)
        painter.setFont(font)
        painter.setPen(palette.ink if self._strong else palette.muted)
        room = QRectF(self.rect()).adjusted(2, 0, -2, 0)
        painter.drawText(room, int(self._side | Qt.AlignmentFlag.AlignVCenter), self.words)
        if self.hasFocus():
            painter.setPen(QPen(palette.fruit, 1.0))
            painter.drawRoundedRect(QRectF(self.rect()).adjusted(0.5, 1.5, -0.5, -1.5), 3, 3)

    def event(self, event: QEvent) -> bool:
        """Follow the pointer and the focus."""
        if event.type() in (QEvent.Type.Enter, QEvent.Type.Leave):
            self._under = event.type() == QEvent.Type.Enter
            self.update()
        elif event.type() in (QEvent.Type.FocusIn, QEvent.Type.FocusOut):
            self.update()
        return super().event(event)

    @property
    def shown_figure(self) -> Figure | None:
        """Return the figure that is shown."""
        return self.figure
