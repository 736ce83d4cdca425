"""Room for the step's card: the same for every step, more only while the card asks something."""

from __future__ import annotations

from PySide6.QtCore import QDeadlineTimer, QEvent, QObject, QPoint, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QCursor, QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QSizePolicy, QWidget
from shiboken6 import isValid

from winebench.window.timeline.step_card import StepCard

_LEAST, _MOST = 72, 200
_SHARE, _ASKING_SHARE = 0.265, 0.7
"""Heights in px, and of the pane: what nearly every card needs, and what a form may take."""

_OPENING_MS = 200


class CardArea(QScrollArea):
    """Keep one height whatever the step is, so that no row moves away under the pointer.

    A card that needs more is scrolled; a form that was opened on it may take most of the pane.
    """

    asking = Signal()
    """The card began or ceased to ask something."""

    def __init__(self, card: StepCard, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._card = card
        self._asking = False
        self._opening = QDeadlineTimer()
        """Until when a form that opened is still taking its room."""
        self._held: tuple[QWidget, int] | None = None
        """What the pointer was on while the words around it changed, and where that was."""
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
        card.explained.connect(lambda: QTimer.singleShot(0, self, self._show_workings))

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
            opened = self._asking and self._opening.hasExpired()
            if opened and self._card.asks and self._held is None:
                self._held = self._under_pointer()
                QTimer.singleShot(0, self, self._put_back)
            before, self._asking = self._asking, self._card.asks
            if before != self._asking:
                self._opening.setRemainingTime(_OPENING_MS)
                self.asking.emit()
            self.updateGeometry()
        return super().eventFilter(watched, event)

    def _under_pointer(self) -> tuple[QWidget, int] | None:
        """Return what of the card is under the pointer, and where it is on the screen, px."""
        at = QCursor.pos()
        if not self.viewport().rect().contains(self.viewport().mapFromGlobal(at)):
            return None
        found = self._card.childAt(self._card.mapFromGlobal(at))
        return None if found is None else (found, found.mapToGlobal(QPoint(0, 0)).y())

    def _put_back(self) -> None:
        """Scroll what the pointer is on to where it was: a click meets what was aimed at."""
        held, self._held = self._held, None
        if held is None or not isValid(held[0]) or not held[0].isVisible():
            return
        widget, before = held
        moved = widget.mapToGlobal(QPoint(0, 0)).y() - before
        self.verticalScrollBar().setValue(self.verticalScrollBar().value() + moved)
        if self._card.form.refusal.isVisible():
            self.ensureWidgetVisible(self._card.form.refusal, 0, 0)  # what is wrong is seen

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
        if self._card.asks and self._held is None:
            asking = self._card.form if self._card.form.isVisible() else self._card.answer
            self.ensureWidgetVisible(asking, 0, 0)
            focus = self._card.focusWidget()
            if focus is not None and asking.height() > self.viewport().height():
                self.ensureWidgetVisible(focus, 0, 8)
