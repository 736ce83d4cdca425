"""Room for the step's card: as high as the card needs, but never most of the pane."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QSizePolicy, QWidget

_MOST, _LEAST = 300, 150
_SHARE = 0.38
"""Of the pane's height, in px and as a share: the curve and the steps need the rest."""


class CardArea(QScrollArea):
    """Scroll the card only where it is higher than the room for it."""

    def __init__(self, card: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWidget(card)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        card.installEventFilter(self)

    def sizeHint(self) -> QSize:
        """Return the card's height at the width there is, at most its share of the pane."""
        card = self.widget()
        layout = card.layout() if card is not None else None
        if layout is None:
            return super().sizeHint()
        width = max(self.viewport().width(), layout.minimumSize().width())
        wraps = layout.hasHeightForWidth()
        height = layout.totalHeightForWidth(width) if wraps else layout.totalSizeHint().height()
        pane = self.parentWidget()
        share = int(pane.height() * _SHARE) if pane is not None else _MOST
        return QSize(width, min(height, _MOST, max(share, _LEAST)))

    def minimumSizeHint(self) -> QSize:
        """Return as much height as is wanted: the curve gives way first."""
        return QSize(200, self.sizeHint().height())

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Ask for other room when the card's words changed."""
        if event.type() == QEvent.Type.LayoutRequest:
            self.updateGeometry()
        return super().eventFilter(watched, event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Ask again: another width wraps the words otherwise."""
        super().resizeEvent(event)
        if event.oldSize().width() != event.size().width():
            self.updateGeometry()
