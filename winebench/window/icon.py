"""The program's icon: a jug with wine in it, drawn from the palette."""

from __future__ import annotations

from functools import cache

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QIcon, QPainter, QPen, QPixmap

from winebench.window.recipe.vessel_drawing import jug
from winebench.window.theme import LIGHT, mix

_SIZES = (16, 24, 32, 48, 64, 128)


@cache
def application_icon() -> QIcon:
    """Return the icon in every usual size."""
    icon = QIcon()
    for size in _SIZES:
        icon.addPixmap(_drawn(size))
    return icon


def _drawn(size: int) -> QPixmap:
    pixmap = QPixmap(size, size)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(size / 64, size / 64)
    outline = jug(QRectF(11, 5, 42, 54))
    painter.fillPath(outline, LIGHT.card)
    painter.setClipPath(outline)
    painter.fillRect(QRectF(0, 30, 64, 34), mix(LIGHT.card, LIGHT.fruit, 0.85))
    painter.setClipping(False)
    painter.setPen(QPen(LIGHT.ink, 3))
    painter.drawPath(outline)
    painter.end()
    return pixmap
