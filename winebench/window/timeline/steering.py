"""Move and zoom the time by keys and by dragging, the same way on the curve and the rows."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from winebench.window.timeline.axis import TimeAxis

_PAN = {Qt.Key.Key_Left: -0.1, Qt.Key.Key_Right: 0.1}
_ZOOM = {Qt.Key.Key_Plus: 0.8, Qt.Key.Key_Equal: 0.8, Qt.Key.Key_Minus: 1.25}


def steer_by_key(axis: TimeAxis, event: QKeyEvent) -> bool:
    """Pan by Left and Right, zoom by plus and minus; return whether the key was one of them."""
    if event.modifiers() & ~(
        Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier
    ):
        return False
    key = Qt.Key(event.key())
    if key in _PAN:
        axis.pan(_PAN[key])
    elif key in _ZOOM:
        axis.zoom(_ZOOM[key])
    else:
        return False
    event.accept()
    return True


class Dragging:
    """Pan the time so that it follows the pointer."""

    def __init__(self, axis: TimeAxis) -> None:
        self._axis = axis
        self._grabbed = 0.0

    def begin(self, pixel: float) -> None:
        """Take hold of the moment at that pixel."""
        self._grabbed = self._axis.seconds(pixel)

    def move(self, pixel: float) -> None:
        """Bring the moment held to that pixel."""
        self._axis.pan((self._grabbed - self._axis.seconds(pixel)) / self._axis.span)
