"""Project files opened lately, newest first."""

from __future__ import annotations

from pathlib import Path

from winebench.store.state import read_state, write_state

_FILE = "recent.json"
KEPT = 10


def recent_files() -> tuple[Path, ...]:
    """Return the files opened lately, newest first; some may be gone by now."""
    return tuple(Path(text) for text in read_state(_FILE, list[str]) or ())


def remember_file(path: Path) -> None:
    """Put the file first in the list."""
    first = path.absolute()
    others = [other for other in recent_files() if other != first]
    _keep([first, *others][:KEPT])


def forget_file(path: Path) -> None:
    """Take the file off the list, as when it is gone."""
    gone = path.absolute()
    _keep([other for other in recent_files() if other != gone])


def _keep(paths: list[Path]) -> None:
    write_state(_FILE, [str(path) for path in paths])
