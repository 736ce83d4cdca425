"""Words broken into lines of a width; what finds no room ends in "…"."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontMetricsF, QTextLayout


def broken(words: str, font: QFont, width: float, most: int) -> tuple[str, ...]:
    """Return the words in lines of at most that width in px, and at most so many of them.

    A word alone wider than a line is cut short too: the caller shows the words in full elsewhere.
    """
    metrics = QFontMetricsF(font)
    if most == 1 or metrics.horizontalAdvance(words) <= width:
        return (metrics.elidedText(words, Qt.TextElideMode.ElideRight, width),)
    layout = QTextLayout(words, font)
    layout.beginLayout()
    lines: list[str] = []
    while len(lines) < most:
        line = layout.createLine()
        if not line.isValid():
            break
        line.setLineWidth(width)
        start = line.textStart()
        length = len(words) - start if len(lines) == most - 1 else line.textLength()
        said = words[start : start + length].strip()
        lines.append(metrics.elidedText(said, Qt.TextElideMode.ElideRight, width))
    layout.endLayout()
    return tuple(lines)
