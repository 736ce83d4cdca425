"""A PDF as seen by pdfplumber, measured in millimetres."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pdfplumber

MM_PER_POINT = 25.4 / 72
PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""ISO 216 and ANSI/ASME Y14.1, mm."""


def opened(path: Path) -> Any:
    return pdfplumber.open(path)


def size_mm(page: Any) -> tuple[float, float]:
    return page.width * MM_PER_POINT, page.height * MM_PER_POINT


def words_of(path: Path) -> str:
    """Return all words of all pages, parted by single spaces."""
    with opened(path) as found:
        return " ".join(" ".join((page.extract_text() or "").split()) for page in found.pages)


def outside(page: Any, margin_mm: float = 0.0) -> Iterator[str]:
    """Give what is drawn outside the page, or nearer to its edge than the margin."""
    margin = margin_mm / MM_PER_POINT - 0.01
    for kind in ("chars", "rects", "lines", "curves"):
        for thing in getattr(page, kind):
            if (
                thing["x0"] < margin
                or thing["top"] < margin
                or thing["x1"] > page.width - margin
                or thing["bottom"] > page.height - margin
            ):
                yield f"{kind} {thing.get('text', '')} at {thing['x0']:.1f} {thing['top']:.1f}"
