"""The pages' own typeface, so that a page has the same line breaks on every machine."""

from __future__ import annotations

import re
from functools import lru_cache

from PySide6.QtGui import QFont, QFontDatabase, QFontMetricsF

from winebench.places import resources

FAMILY = "DejaVu Sans"
FILES = ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf")
UNITS_PER_MM = 100
"""Pages are drawn in hundredths of a millimetre: font sizes are whole numbers to Qt."""

_registered: list[int] = []


def register_fonts() -> None:
    """Make the bundled typeface known to Qt, once; a QGuiApplication must exist."""
    if not _registered:
        folder = resources() / "fonts"
        _registered.extend(QFontDatabase.addApplicationFont(str(folder / f)) for f in FILES)


@lru_cache(maxsize=64)
def page_font(size_mm: float, bold: bool) -> QFont:
    """Return the typeface at that size (of the em, in mm) for a painter in page units."""
    font = QFont(FAMILY)
    font.setPixelSize(max(1, round(size_mm * UNITS_PER_MM)))
    font.setBold(bold)
    # Hinting fits letters to a screen's pixels, which would move line ends on paper.
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return font


@lru_cache(maxsize=64)
def _metrics(size_mm: float, bold: bool) -> QFontMetricsF:
    return QFontMetricsF(page_font(size_mm, bold))


def text_width(words: str, size_mm: float, bold: bool = False) -> float:
    """Return how long the words are in mm."""
    return _metrics(size_mm, bold).horizontalAdvance(words) / UNITS_PER_MM


def wrapped(words: str, width_mm: float, size_mm: float, bold: bool = False) -> list[str]:
    """Return the words in lines no longer than `width_mm`; a longer word is broken.

    A no-break space holds words together.
    """
    lines: list[str] = []
    line = ""
    for word in re.split(r"[ \t\r\n]+", words.strip()):
        longer = f"{line} {word}" if line else word
        if text_width(longer, size_mm, bold) <= width_mm:
            line = longer
            continue
        if line:
            lines.append(line)
        *full, line = _broken(word, width_mm, size_mm, bold)
        lines.extend(full)
    return [*lines, line] if line else lines


def _broken(word: str, width_mm: float, size_mm: float, bold: bool) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and text_width(pieces[-1] + letter, size_mm, bold) > width_mm:
            pieces.append("")
        pieces[-1] += letter
    return pieces
