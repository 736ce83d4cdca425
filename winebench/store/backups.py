"""Earlier versions of project files, kept in the program's own folder.

A version is kept before it is overwritten, at most one for each ten minutes of saving, the
last five of each file. They are a second net only: no save fails for want of one.
"""

from __future__ import annotations

import contextlib
import hashlib
import time
from pathlib import Path

from winebench.store.atomic import write_bytes
from winebench.store.errors import StoreError
from winebench.store.state import state_folder

KEPT = 5
SPACING_S = 600.0


def keep_previous(path: Path, spacing_s: float = SPACING_S) -> None:
    """Keep the file as it is now, before it is overwritten, unless one was kept just before."""
    with contextlib.suppress(OSError, StoreError, RuntimeError):
        if not path.is_file():  # a device or a pipe may never end
            return
        earlier = earlier_versions(path)
        if earlier and time.time() - earlier[0].stat().st_mtime < spacing_s:
            return
        data = path.read_bytes()
        folder = _folder(path)
        folder.mkdir(parents=True, exist_ok=True)
        write_bytes(folder / f"{time.time_ns():020d}.winebench", data)
        for old in earlier_versions(path)[KEPT:]:
            old.unlink(missing_ok=True)


def earlier_versions(path: Path) -> list[Path]:
    """Return the kept versions of that file, newest first."""
    try:
        return sorted(_folder(path).glob("*.winebench"), reverse=True)
    except OSError:
        return []


def _folder(path: Path) -> Path:
    place = str(path.resolve(strict=False))
    mark = hashlib.sha256(place.encode("utf-8", "surrogateescape")).hexdigest()[:16]
    return state_folder() / "earlier" / mark
