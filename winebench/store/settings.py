"""The few settings that belong to the person's computer, not to a project."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

import msgspec

from winebench.store.state import read_state, write_state
from winebench.units import GallonCountry

_FILE = "settings.json"


class Settings(msgspec.Struct, frozen=True, kw_only=True):
    """What is remembered between runs; byte strings are base64 in the file."""

    notices: bool = True
    """Whether desktop notices may be shown."""
    gallon: GallonCountry | None = None
    """Whose gallon a new project means; None asks."""
    appearance: Literal["system", "light", "dark"] = "system"
    """Colours of the window."""
    window_geometry: bytes = b""
    splitter_state: bytes = b""
    last_file: str = ""
    """Path of the project that was open last, or empty."""
    last_folder: str = ""
    """Folder from which a file was taken last, or to which one was written; or empty."""


def load_settings() -> Settings:
    """Return the settings; those of a damaged file are the defaults, and it is kept aside."""
    return read_state(_FILE, Settings) or Settings()


def save_settings(settings: Settings) -> bool:
    """Keep the settings; return whether they could be kept."""
    return write_state(_FILE, settings)


def remember_last(path: Path | None) -> None:
    """Note what the next start opens: that file, or with None the work that has no file yet."""
    settings = load_settings()
    last = str(path.absolute()) if path else ""
    if settings.last_file != last:
        save_settings(msgspec.structs.replace(settings, last_file=last))
