"""Pictures of entries: which files are any, and small copies to show."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QImage, QImageReader

from winebench.store.errors import StoreError

_DRAWN_BY_PROGRAM = ("svg", "svgz", "pdf")
"""Formats that may hold more than a picture, such as links and scripts."""


def formats() -> tuple[str, ...]:
    """Return the endings of the pictures that can be read here, such as "jpg"."""
    known = (bytes(each.data()).decode("ascii") for each in QImageReader.supportedImageFormats())
    return tuple(sorted(ending for ending in known if ending not in _DRAWN_BY_PROGRAM))


def check_picture(path: Path) -> None:
    """Raise StoreError where that file is no picture that can be shown; one sentence."""
    if not path.is_file():
        raise StoreError(f'"{path}" is no file; choose a picture.')
    reader = QImageReader(str(path))
    if path.suffix.lower().lstrip(".") not in formats() or not reader.canRead():
        usual = [each for each in ("jpg", "png", "webp", "tif") if each in formats()]
        raise StoreError(
            f'"{path.name}" is no picture that can be shown; choose one such as {", ".join(usual)}.'
        )


def small_copy(path: Path, room: QSize) -> QImage:
    """Return the picture as large as fits into `room`, turned upright; null where it is none."""
    reader = QImageReader(str(path))
    reader.setAutoTransform(True)
    size = reader.size()
    if size.isValid() and (size.width() > 2 * room.width() or size.height() > 2 * room.height()):
        # Twice as large as needed is quick to read and still scales well.
        wide = size.scaled(room * 2, Qt.AspectRatioMode.KeepAspectRatioByExpanding)
        reader.setScaledSize(wide)
    image = reader.read()
    if image.isNull():
        return image
    return image.scaled(
        room, Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
    )
