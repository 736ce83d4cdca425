"""The program's own folder for what is not the person's work: settings, copies, recent files.

Its files are small JSON values. None of them is worth a failure: one that cannot be read
counts as absent and is kept aside, one that cannot be written is left out.
"""

from __future__ import annotations

import contextlib
import os
from pathlib import Path
from typing import TypeVar

import msgspec
from platformdirs import user_state_dir

from winebench.store.atomic import write_bytes
from winebench.store.errors import StoreError

T = TypeVar("T")
PLACE = "WINEBENCH_STATE"
"""Environment variable that moves the folder, for tests and portable use."""


def state_folder() -> Path:
    """Return the folder; it is made when something is first written there."""
    chosen = os.environ.get(PLACE)
    return Path(chosen) if chosen else Path(user_state_dir("winebench", appauthor=False))


def read_state(name: str, kind: type[T]) -> T | None:
    """Return the value kept under that file name, or None.

    A damaged file is renamed to "damaged-" and its name, so that nothing is thrown away.
    """
    path = state_folder() / name
    try:
        return msgspec.json.decode(path.read_bytes(), type=kind)
    except OSError:
        return None
    except (ValueError, RecursionError):
        with contextlib.suppress(OSError):
            path.replace(path.with_name(f"damaged-{path.name}"))
        return None


def write_state(name: str, value: object) -> bool:
    """Keep the value under that file name; return whether it could be kept."""
    path = state_folder() / name
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        write_bytes(path, msgspec.json.format(msgspec.json.encode(value), indent=2) + b"\n")
    except (OSError, StoreError):
        return False
    return True
