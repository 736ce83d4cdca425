"""A window as large as it would like to be, but never larger than its screen."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

_FRAME_WIDE, _FRAME_HIGH = 8, 36
"""What the system puts round a window, px: nobody can be asked before it is shown."""


def fit_to_screen(window: QWidget, width: int, height: int) -> None:
    """Give the window that size, or what its screen has room for."""
    room = window.screen().availableGeometry()
    window.resize(min(width, room.width() - _FRAME_WIDE), min(height, room.height() - _FRAME_HIGH))
