"""Copies of unsaved work, found again after a crash or a power cut.

Each open document has its own copy under its own key. A copy whose program still runs is
that program's business; everything else that is found was left by a crash.
"""

from __future__ import annotations

import contextlib
import os
import re
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import msgspec

from winebench.model.log import Entry
from winebench.model.project import Project
from winebench.store.atomic import write_bytes
from winebench.store.errors import DamagedFileError, StoreError
from winebench.store.project_file import from_bytes, to_bytes
from winebench.store.state import state_folder

_KEY = re.compile(r"[0-9a-f]{8,32}")


class Unsaved(msgspec.Struct, frozen=True, kw_only=True):
    """Work that was found again."""

    key: str
    project: Project
    path: Path | None
    """The file that it belongs to; None where it was never saved."""
    kept_at: datetime
    on_disk: str
    """Mark of what that file held when it was last read or saved by this work."""


class _Copy(msgspec.Struct, frozen=True, kw_only=True):
    """A copy as it lies in the file, the project as its own text."""

    path: str | None
    kept_at: datetime
    on_disk: str
    owner: str
    project: str


def keep_copy(
    key: str,
    project: Project,
    path: Path | None,
    now: datetime,
    on_disk: str = "",
    *,
    proven: tuple[Entry, ...] = (),
) -> None:
    """Keep the project as unsaved work under that key (lower-case hex digits).

    `on_disk` is the mark of what its file held, to be given back with it; `proven` as in
    `to_bytes`.

    Raises:
        StoreError: it cannot be kept; the copy before is still there.

    """
    text = to_bytes(project, proven).decode("utf-8")
    place = str(path.absolute()) if path else None
    owner = _running(str(os.getpid()))
    copy = _Copy(path=place, kept_at=now, on_disk=on_disk, owner=owner, project=text)
    target = _file(key)
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        raise StoreError(
            f'Unsaved work cannot be kept in "{target.parent}" ({problem.strerror}); '
            "save the project yourself."
        ) from problem
    try:
        write_bytes(target, msgspec.json.encode(copy))
    except StoreError as problem:
        raise StoreError(f"Unsaved work cannot be kept: {problem}") from problem


def forget_copy(key: str) -> None:
    """Drop the copy of that key, as after a save."""
    with contextlib.suppress(OSError):
        _file(key).unlink(missing_ok=True)


def unsaved_work() -> tuple[Unsaved, ...]:
    """Return what crashed programs left, newest first; `unreadable_work` tells of the rest.

    Copies that hold no more than their file does are dropped on the way.
    """
    return tuple(sorted(_found(), key=lambda unsaved: unsaved.kept_at, reverse=True))


def unreadable_work() -> tuple[str, ...]:
    """Return a sentence for each copy that cannot be read; nothing of it is thrown away.

    A damaged copy is told of once, and renamed to "damaged-" and its name. One that only this
    program or this user cannot read stays in its place, and is told of each time.
    """
    return tuple(filter(None, map(_told, _copies())))


def _told(path: Path) -> str:
    """Return why that copy cannot be read and where it stays, or "" where it can."""
    try:
        _read(path)
    except FileNotFoundError:
        return ""  # its program has just dropped it
    except OSError as problem:
        return f'Unsaved work in "{path}" may not be read ({problem.strerror}); it stays there.'
    except DamagedFileError as problem:
        aside = path.with_name(f"damaged-{path.name}")
        with contextlib.suppress(OSError):
            path.replace(aside)
        return f'Unsaved work cannot be read: {problem} It stays in "{aside}".'
    except StoreError as problem:
        return f"Unsaved work cannot be read: {problem} It stays there."
    return ""


def _copies() -> Iterator[Path]:
    return (path for path in sorted(_folder().glob("*.json")) if _KEY.fullmatch(path.stem))


def _read(path: Path) -> tuple[_Copy, Project]:
    """Return the copy in that file; raises OSError, or StoreError with what is wrong."""
    data = path.read_bytes()
    try:
        copy = msgspec.json.decode(data, type=_Copy)
    except (ValueError, RecursionError) as problem:
        raise DamagedFileError(f'"{path.name}" is damaged ({problem}).') from problem
    return copy, from_bytes(copy.project.encode("utf-8"), path.name)


def _found() -> Iterator[Unsaved]:
    for path in _copies():
        try:
            copy, project = _read(path)
        except (OSError, StoreError):
            continue
        if copy.owner and copy.owner == _running(copy.owner.partition("-")[0]):
            continue
        place = Path(copy.path) if copy.path else None
        if place and _holds(place, copy.project.encode("utf-8")):
            forget_copy(path.stem)
            continue
        yield Unsaved(
            key=path.stem,
            project=project,
            path=place,
            kept_at=copy.kept_at,
            on_disk=copy.on_disk,
        )


def _holds(path: Path, data: bytes) -> bool:
    try:
        return path.read_bytes() == data
    except OSError:
        return False


def _running(pid: str) -> str:
    """Return a mark of that running process, never used again by another; "" where unknown.

    Linux tells when a process started; elsewhere a live program's copy is offered too,
    which is a question too many but never lost work.
    """
    try:
        boot = Path("/proc/sys/kernel/random/boot_id").read_text("ascii").strip()
        fields = Path(f"/proc/{pid}/stat").read_text("utf-8").rpartition(")")[2].split()
        return f"{pid}-{fields[19]}-{boot}" if fields[0] != "Z" else ""
    except (OSError, ValueError, IndexError):
        return ""


def _file(key: str) -> Path:
    if not _KEY.fullmatch(key):
        raise ValueError(f"{key!r} is not a key of hex digits")
    return _folder() / f"{key}.json"


def _folder() -> Path:
    return state_folder() / "unsaved"
