"""Pictures of entries: copied into a folder beside the project, named relative to it.

The folder is "<project's file> pictures". A name in a project may only lead to a file below the
project's own folder: a project from somebody else must not open what lies elsewhere.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from itertools import count
from pathlib import Path, PurePosixPath

from winebench.model.project import Project
from winebench.store.atomic import write_bytes
from winebench.store.errors import StoreError

LARGEST = 50 * 1024 * 1024
"""A camera's largest pictures are half of it, B."""
SAVE_FIRST = "Save the project first: its pictures are kept beside its file."
_LONGEST_BYTES = 120
"""Of the name without its ending; file systems stop at 255 bytes, with the number and ending."""
_RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)", re.IGNORECASE)
"""No file's name on some systems."""


def add_picture(project_file: Path | None, picture: Path) -> str:
    """Copy the picture beside the project; return its name relative to the project's folder.

    Nothing is ever overwritten: where the name is taken, the copy has a number.

    Raises:
        StoreError: the project has no file yet, or the picture cannot be read or copied.

    """
    if project_file is None:
        raise StoreError(SAVE_FIRST)
    data = _bytes(picture)
    folder = project_file.absolute().parent / f"{project_file.stem} pictures"
    try:
        folder.mkdir(exist_ok=True)
        target = _reserved(folder, _sound_stem(picture.stem), picture.suffix.lower())
    except OSError as problem:
        raise StoreError(
            f'"{picture.name}" cannot be copied into "{folder}" ({problem.strerror}); make room '
            "there, or save the project in another place."
        ) from problem
    _fill(target, data)
    return f"{folder.name}/{target.name}"


def misplaced(name: str) -> str:
    """Return why a name in a project may be no picture's, without a full stop; "" where it may."""
    parts = name.split("/")
    if "\\" in name or ":" in name or "\0" in name or not name.strip():
        return f'"{name}" is no name of a picture; write it as "folder/picture.jpg"'
    if name.startswith("/") or not {"", ".", ".."}.isdisjoint(parts):
        return (
            f'"{name}" points outside the project\'s folder; keep pictures beside the project and '
            "name them from there"
        )
    return ""


def picture_path(project_file: Path, name: str) -> Path:
    """Return where the picture of that name lies, whether or not it is there.

    Raises:
        StoreError: it lies outside the project's folder, by its name or by a link.

    """
    why = misplaced(name)
    if why:
        raise StoreError(f"{why}.")
    home = project_file.absolute().parent
    path = home.joinpath(*PurePosixPath(name).parts)
    if not path.resolve().is_relative_to(home.resolve()):
        raise StoreError(f'"{name}" leads outside the project\'s folder by a link; copy it there.')
    return path


def pictures_of(project: Project) -> Iterator[str]:
    """Give the names of all pictures of the log."""
    for entry in project.log:
        yield from entry.pictures


def copy_pictures(project: Project, old: Path, new: Path) -> None:
    """Copy the project's pictures along to where it is saved from now on, under the same names.

    Those that are missing stay missing; a copy that is there already is left as it is.

    Raises:
        StoreError: another picture of that name is there, or one cannot be copied; the
            pictures that were there are as they were.

    """
    if old.absolute().parent.resolve() == new.absolute().parent.resolve():
        return
    pairs = [
        (source, target)
        for name in dict.fromkeys(pictures_of(project))
        if (source := picture_path(old, name)).is_file()
        and not _same(source, target := picture_path(new, name))
    ]
    _refuse_others(pairs, new)
    for source, target in pairs:
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
            data = source.read_bytes()
            target.open("xb").close()
        except OSError as problem:
            raise StoreError(
                f'"{source.name}" cannot be copied beside "{new}" ({problem.strerror}); save the '
                "project in another place."
            ) from problem
        _fill(target, data)


def _refuse_others(pairs: Iterable[tuple[Path, Path]], new: Path) -> None:
    for _source, target in pairs:
        if target.exists():
            raise StoreError(
                f'"{target}" is another picture than this project\'s; save "{new.name}" in a '
                "folder of its own."
            )


def _same(source: Path, target: Path) -> bool:
    try:
        return (
            target.is_file()
            and source.stat().st_size == target.stat().st_size
            and source.read_bytes() == target.read_bytes()
        )
    except OSError:
        return False


def _bytes(picture: Path) -> bytes:
    try:
        if not picture.is_file():
            raise StoreError(f'"{picture}" is no file; choose a picture.')
        if picture.stat().st_size > LARGEST:
            raise StoreError(
                f'"{picture.name}" is larger than {LARGEST >> 20} MB; make it smaller first, half '
                "the width is plenty."
            )
        return picture.read_bytes()
    except OSError as problem:
        raise StoreError(f'"{picture}" cannot be read: {problem.strerror}.') from problem


def _fill(target: Path, data: bytes) -> None:
    """Put the picture, whole or not at all, in the place of the empty file that keeps its name."""
    try:
        write_bytes(target, data)
    except StoreError:
        target.unlink(missing_ok=True)
        raise


def _reserved(folder: Path, stem: str, suffix: str) -> Path:
    """Return a new, empty file of that name, or of the name with a number, nobody else's."""
    for number in count(1):
        target = folder / (f"{stem} {number}{suffix}" if number > 1 else f"{stem}{suffix}")
        try:
            os.close(os.open(target, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o644))
        except FileExistsError:
            continue
        return target
    raise AssertionError("there is always another number")


def _sound_stem(stem: str) -> str:
    """Return a name that every system takes, as near to the picture's own as may be."""
    plain = "".join(each if each.isalnum() or each in " -_()" else " " for each in stem)
    short = " ".join(plain.split()).encode("utf-8")[:_LONGEST_BYTES].decode("utf-8", "ignore")
    return "picture" if not short.strip() or _RESERVED.fullmatch(short) else short.strip()
