"""Room for the step's card: the same for every step, more only while the card asks something."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QSize, Qt, QTimer
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QSizePolicy, QWidget

from winebench.window.timeline.step_card import StepCard

_LEAST, _MOST = 72, 200
_SHARE, _ASKING_SHARE = 0.265, 0.66
"""Heights in px, and of the pane: what nearly every card needs, and what a form may take."""


class CardArea(QScrollArea):
    """Keep one height whatever the step is, so that no row moves away under the pointer.

    A card that needs more is scrolled; a form that was opened on it may take most of the pane.
    """

    def __init__(self, card: StepCard, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._card = card
        self._asking = False
        self.clear = 0
        """So much of its room something lies over, px: the card does without it."""
        self.setWidget(card)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.verticalScrollBar().setSingleStep(20)
        card.installEventFilter(self)
        card.workings.clicked.connect(lambda: QTimer.singleShot(0, self, self._show_workings))

    def sizeHint(self) -> QSize:
        """Return the pane's share for a card, or what its open form needs."""
        width = self.viewport().width()
        pane = self.parentWidget()
        whole = pane.height() if pane is not None else round(_MOST / _SHARE)
        usual = min(max(round(whole * _SHARE), _LEAST), _MOST) - self.clear
        layout = self._card.layout()
        if not self._card.asks or layout is None:
            return QSize(width, usual)
        needed = layout.totalHeightForWidth(max(width, layout.minimumSize().width()))
        return QSize(width, max(usual, min(needed, round(whole * _ASKING_SHARE))))

    def minimumSizeHint(self) -> QSize:
        """Return as much height as is wanted: the curve gives way first."""
        return QSize(200, self.sizeHint().height())

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take the room of a form that opened or closed, and show it from its first field."""
        if event.type() == QEvent.Type.LayoutRequest and (self._card.asks or self._asking):
            self._asking = self._card.asks
            self.updateGeometry()
        return super().eventFilter(watched, event)

    def _show_workings(self) -> None:
        """Scroll to what dates the step, once the card has room for it."""
        if self._card.basis.isVisible():
            layout = self._card.layout()
            if layout is not None:
                layout.activate()
            self.ensureWidgetVisible(self._card.basis, 0, 4)

    def show_top(self) -> None:
        """Show the card from its first line, as when another step is chosen."""
        self.verticalScrollBar().setValue(0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep what is asked in sight: another width or height wraps the words otherwise."""
        super().resizeEvent(event)
        if event.oldSize().width() != event.size().width():
            self.updateGeometry()
        if self._card.asks:
            asking = self._card.form if self._card.form.isVisible() else self._card.answer
            self.ensureWidgetVisible(asking, 0, 0)
            focus = self._card.focusWidget()
            if focus is not None:
                self.ensureWidgetVisible(focus, 0, 8)
