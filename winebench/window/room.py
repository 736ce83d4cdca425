"""The window's place and the panes' shares, kept from one run to the next."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import QByteArray
from PySide6.QtWidgets import QMainWindow, QSplitter

from winebench.store.settings import load_settings, save_settings
from winebench.window.parts.fitting import fit_to_screen


def restore_room(window: QMainWindow, panes: QSplitter) -> None:
    """Give the window the place that it had last, or what its screen has room for."""
    settings = load_settings()
    fit_to_screen(window, 1366, 740)
    if settings.window_geometry:
        window.restoreGeometry(QByteArray(settings.window_geometry))
    if settings.splitter_state:
        panes.restoreState(QByteArray(settings.splitter_state))


def remember_room(window: QMainWindow, panes: QSplitter) -> None:
    """Keep the window's place for the next start."""
    save_settings(
        msgspec.structs.replace(
            load_settings(),
            window_geometry=bytes(window.saveGeometry().data()),
            splitter_state=bytes(panes.saveState().data()),
        )
    )
