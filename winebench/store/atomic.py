"""Replace a file whole or not at all, whatever instant the power goes.

The new text is written beside the file under an own name, forced to disk, renamed over it,
and the rename forced to disk too. (POSIX rename(2): a reader sees the old file or the new.)
"""

from __future__ import annotations

import contextlib
import errno
import os
import re
import secrets
import shutil
import time
from pathlib import Path

from winebench.store.errors import StoreError

_ABANDONED_S = 600.0
"""A leftover of a process that cannot be asked is abandoned after this long."""
_REASONS = {
    errno.ENOSPC: "the disk is full; make room and save again",
    errno.EDQUOT: "your share of the disk is used up; make room and save again",
    errno.EFBIG: "the file would be larger than this disk or account allows; "
    "save it in another place",
    errno.EROFS: "the disk is read-only; save it in another place",
    errno.EACCES: "you may not write in that folder; save it in another place",
    errno.EPERM: "you may not write in that folder; save it in another place",
    errno.ENOENT: "its folder does not exist; choose another folder",
    errno.ENOTDIR: "part of its path is a file, not a folder; choose another folder",
    errno.EISDIR: "it is a folder; choose a file name",
    errno.ENAMETOOLONG: "its name is too long; choose a shorter one",
    errno.ELOOP: "its links lead round in a circle; choose another name",
}


def write_bytes(path: Path, data: bytes) -> None:
    """Replace the file with these bytes; a link's target is replaced, the link stays.

    Raises:
        StoreError: it cannot be written; what was there before is still there, whole.

    """
    try:
        target = path.resolve(strict=False)
        _check_writable(target)
        _sweep(target)
        _replace(target, data)
    except StoreError as problem:
        raise StoreError(f'"{path}" was not saved: {problem}.') from problem
    except (OSError, RuntimeError, ValueError) as problem:
        raise StoreError(f'"{path}" was not saved: {_reason(problem)}.') from problem


def _reason(problem: OSError | RuntimeError | ValueError) -> str:
    if isinstance(problem, RuntimeError):  # how Python 3.11 tells of links in a circle
        return _REASONS[errno.ELOOP]
    if isinstance(problem, ValueError):
        return f"its name cannot be a file name ({problem}); choose another"
    return _REASONS.get(problem.errno or 0, f"{problem.strerror or problem}; try another place")


def _check_writable(target: Path) -> None:
    if target.is_dir():
        raise StoreError(_REASONS[errno.EISDIR])
    # A rename would put a file in the place of a device such as /dev/null, for everybody.
    if target.exists() and not target.is_file():
        raise StoreError("it is a device or a pipe, not a file; choose a file name")
    # A rename would go over a write-protected file without asking.
    if target.exists() and not os.access(target, os.W_OK):
        if _on_read_only_disk(target):
            raise StoreError(_REASONS[errno.EROFS])
        raise StoreError("the file is write-protected; save it under another name")


def _on_read_only_disk(target: Path) -> bool:
    return hasattr(os, "statvfs") and bool(os.statvfs(target).f_flag & os.ST_RDONLY)


def _replace(target: Path, data: bytes) -> None:
    part = target.with_name(f".{_stem(target)}.{os.getpid()}-{secrets.token_hex(4)}.part")
    try:
        with open(part, "xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            shutil.copymode(target, part)
        os.replace(part, target)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
    _sync_folder(target.parent)


def _stem(target: Path) -> str:
    """Return the start of the name, short enough to leave room for the rest (255 bytes)."""
    return target.name.encode("utf-8", "surrogateescape")[:120].decode("utf-8", "ignore")


def _sync_folder(folder: Path) -> None:
    # The new file is in place by now: where a file system cannot sync a folder (Windows,
    # some network drives) only the promise against a power cut in this instant is lost.
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _sweep(target: Path) -> None:
    """Remove what saves of this file, killed halfway, have left behind."""
    own = re.compile(re.escape(f".{_stem(target)}.") + r"(\d+)-[0-9a-f]{8}\.part")
    with contextlib.suppress(OSError):
        for part in target.parent.iterdir():
            found = own.fullmatch(part.name)
            if found and _abandoned(part, int(found[1])):
                part.unlink(missing_ok=True)


def _abandoned(part: Path, pid: int) -> bool:
    if os.name == "posix" and pid != os.getpid():
        try:
            os.kill(pid, 0)  # asks only whether the process is there
        except (ProcessLookupError, OverflowError):
            return True
        except PermissionError:
            pass  # it is there, and another user's
    return time.time() - part.stat().st_mtime > _ABANDONED_S
