"""Paper: its sizes, and pages written to a PDF file whole or not at all."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from PySide6.QtCore import QBuffer, QIODevice, QMarginsF
from PySide6.QtGui import QGuiApplication, QPageLayout, QPageSize, QPdfWriter

from winebench.output.fonts import register_fonts
from winebench.store.atomic import write_bytes
from winebench.store.errors import StoreError

PAPERS = {"A4": QPageSize.PageSizeId.A4, "Letter": QPageSize.PageSizeId.Letter}
RESOLUTION = 1200

Result = TypeVar("Result")


class OutputError(ValueError):
    """Pages that cannot be made or written; the message is one sentence for the person."""


def page_size(paper: str) -> QPageSize:
    """Return that paper's size.

    Raises:
        OutputError: the paper is neither A4 nor Letter.

    """
    if paper not in PAPERS:
        raise OutputError(f'"{paper}" is not a paper size known here; choose A4 or Letter.')
    return QPageSize(PAPERS[paper])


def whole_page(paper: str) -> QPageLayout:
    """Return the upright page of that paper without margins: a page keeps its own."""
    upright = QPageLayout.Orientation.Portrait
    return QPageLayout(page_size(paper), upright, QMarginsF(0, 0, 0, 0))


def ready_for_pages() -> None:
    """Make sure that text can be drawn, with or without a window or a screen.

    Raises:
        OutputError: another kind of Qt application runs already.

    """
    global _application
    running = QGuiApplication.instance()
    if running is None:
        # A page needs no screen; a window that is open keeps its own platform.
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        _application = QGuiApplication([sys.argv[0] or "winebench"])
    elif not isinstance(running, QGuiApplication):
        raise OutputError("Pages cannot be drawn beside a Qt application without graphics.")
    register_fonts()


_application: QGuiApplication | None = None
"""Kept alive here where no window made one."""


def save_pdf(path: Path, paper: str, title: str, paint: Callable[[QPdfWriter], Result]) -> Result:
    """Write a PDF in place of the file and return what `paint` returned.

    Raises:
        OutputError: it cannot be written; what was there before is still there, whole.

    """
    layout = whole_page(paper)
    ready_for_pages()
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setResolution(RESOLUTION)
    writer.setCreator("Winebench")
    writer.setTitle(title)
    writer.setPageLayout(layout)
    result = paint(writer)
    del writer
    save_bytes(path, bytes(buffer.data().data()))
    return result


def save_bytes(path: Path, data: bytes) -> None:
    """Replace the file with these bytes.

    Raises:
        OutputError: it cannot be written; what was there before is still there, whole.

    """
    try:
        write_bytes(Path(path), data)
    except StoreError as problem:
        raise OutputError(str(problem)) from problem
