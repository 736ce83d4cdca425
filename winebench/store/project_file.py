"""The project file: UTF-8 JSON, keys sorted, strict, replaced whole.

Reading accepts every older version by upgrades and refuses a newer one. Whatever is wrong
is one sentence: which file, where in it, what to do.
"""

from __future__ import annotations

import errno
import json
import math
import re
import stat
from pathlib import Path
from typing import Any, NoReturn

import msgspec

from winebench.model.log import Entry
from winebench.model.project import Project
from winebench.store.atomic import write_bytes
from winebench.store.backups import earlier_versions, keep_previous
from winebench.store.complaints import complaint
from winebench.store.errors import ChangedOnDiskError, DamagedFileError, StoreError
from winebench.store.migrations import NEWEST, upgraded
from winebench.store.quantities import as_written, from_written
from winebench.store.soundness import faults

__all__ = ["ChangedOnDiskError", "DamagedFileError", "StoreError", "from_bytes", "read",
           "read_with_data", "to_bytes", "write", "write_data"]  # fmt: skip

SUFFIX = ".winebench"
FORMAT = "winebench"
_HALF_LETTER = re.compile(rb"\\u[dD][89a-fA-F]")
"""Only written so can half a letter stand in UTF-8 text; two of them make a whole one."""
_LARGEST = 256 * 1024 * 1024
"""A sensor's hundred thousand readings are about 40 MB: what is larger is no project, B."""


def read(path: Path) -> Project:
    """Return the project in that file; raises StoreError like `read_with_data`."""
    return read_with_data(path)[0]


def read_with_data(path: Path) -> tuple[Project, bytes]:
    """Return the project in that file, and the bytes it was read from.

    Raises:
        StoreError: it cannot be read; where an earlier version is kept, the sentence says so.

    """
    data = _bytes(path)
    try:
        return from_bytes(data, str(path)), data
    except DamagedFileError as problem:
        earlier = earlier_versions(path)
        if not earlier:
            raise
        sentence = f'{str(problem).rstrip(".")}; an earlier version is kept as "{earlier[0]}".'
        raise DamagedFileError(sentence) from problem


def write(path: Path, project: Project) -> None:
    """Replace that file with the project; the version before is kept in the program's folder.

    Raises:
        StoreError: it cannot be written; the file is as it was.

    """
    write_data(path, to_bytes(project))


def write_data(path: Path, data: bytes) -> None:
    """Replace that file with what `to_bytes` gave; raises StoreError like `write`."""
    keep_previous(path)
    write_bytes(path, data)


def _bytes(path: Path) -> bytes:
    """Return the file's bytes; StoreError where there is no such file, or none a project has."""
    try:
        about = path.stat()
        if stat.S_ISDIR(about.st_mode):
            raise StoreError(f'"{path}" is a folder; choose a {SUFFIX} file in it.')
        if not stat.S_ISREG(about.st_mode):
            raise StoreError(f'"{path}" is not a file; choose a {SUFFIX} file.')
        if about.st_size > _LARGEST:
            raise StoreError(f'"{path}" is far too large for a project; choose a {SUFFIX} file.')
        return path.read_bytes()
    except (OSError, ValueError) as problem:
        if isinstance(problem, StoreError):
            raise
        raise StoreError(f'"{path}" cannot be read: {_reason(problem)}.') from problem


def _reason(problem: OSError | ValueError) -> str:
    number = problem.errno if isinstance(problem, OSError) else None
    if number in (errno.ENOENT, errno.ENOTDIR):
        return "there is no such file; check the name and the folder"
    if number in (errno.EACCES, errno.EPERM):
        return "you may not read it; ask its owner or copy it"
    return str(getattr(problem, "strerror", None) or problem)


def to_bytes(project: Project, proven: tuple[Entry, ...] = ()) -> bytes:
    """Return the file's bytes; they are read back before they are trusted.

    Entries of the log that were read or written before are `proven`, each by being the same
    object: they are not read back again.

    Raises:
        StoreError: the project holds something that no file could give back.

    """
    data = _encoded(project)
    if len(data) > _LARGEST:
        raise StoreError(
            f'"{project.name}" cannot be saved: its log has grown to {len(data) >> 20} MB, and no '
            f"more than {_LARGEST >> 20} MB can be read again; undo the last edit."
        )
    fresh = project
    if proven:
        known = set(map(id, proven))
        log = tuple(entry for entry in project.log if id(entry) not in known)
        fresh = msgspec.structs.replace(project, log=log)
    if from_bytes(data if fresh is project else _encoded(fresh), project.name) != fresh:
        raise StoreError(
            f'"{project.name}" would not read back the same, as with a number that is none; '
            "undo the last edit."
        )
    return data


def _encoded(project: Project) -> bytes:
    fields = {name: getattr(project, name) for name in project.__struct_fields__}
    fields |= {"format": FORMAT, "version": NEWEST}
    try:
        text = msgspec.json.encode(fields, enc_hook=as_written, order="sorted")
    except ValueError as problem:
        raise StoreError(
            f'"{project.name}" cannot be saved: it holds half a letter ({problem}); undo the last '
            "edit."
        ) from problem
    return msgspec.json.format(text, indent=2) + b"\n"


def from_bytes(data: bytes, name: str) -> Project:
    """Return the project in the bytes of a file; `name` stands in the sentence of an error.

    Raises:
        StoreError: with what is wrong, where in the file, and what to do.

    """
    try:
        return _project(_current_fields(_json(data)))
    except StoreError as problem:
        sentence = f'"{name}": {problem}'
        raise type(problem)(sentence if sentence.endswith("?") else f"{sentence}.") from problem


def _json(data: bytes) -> dict[str, Any]:
    if not data.strip(b"\0 \r\n\t"):
        raise DamagedFileError("the file is empty; use a copy of it")
    try:
        fields = json.loads(
            data.decode("utf-8-sig"),
            object_pairs_hook=_without_repeats,
            parse_constant=_no_constant,
            parse_float=_finite,
        )
        if _HALF_LETTER.search(data):
            json.dumps(fields, ensure_ascii=False).encode("utf-8")
    except UnicodeDecodeError as problem:
        raise DamagedFileError(
            f"byte {problem.start} is not UTF-8 text, so this is no project file or it was "
            "damaged; use a copy of it"
        ) from problem
    except UnicodeEncodeError as problem:
        raise StoreError("a text in it holds half a letter (a lone surrogate)") from problem
    except json.JSONDecodeError as problem:
        where = f"line {problem.lineno} column {problem.colno}"
        raise DamagedFileError(
            f"the text breaks at {where} ({problem.msg}), so it is truncated, damaged or no "
            "project file; use a copy of it"
        ) from problem
    except RecursionError as problem:
        raise StoreError("it is nested too deeply to be a project file") from problem
    except ValueError as problem:
        if isinstance(problem, StoreError):
            raise
        # Python's own words for a number of thousands of digits speak of its settings.
        raise StoreError("a number in it is too long to be read; check it") from problem
    if not isinstance(fields, dict) or fields.get("format") != FORMAT:
        raise StoreError(f'it is not a project file (no "format": "{FORMAT}"); choose another')
    return fields


def _without_repeats(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    fields = dict(pairs)
    if len(fields) < len(pairs):
        names = [key for key, _ in pairs]
        twice = next(key for key in names if names.count(key) > 1)
        raise StoreError(f'"{twice}" stands twice in one group; remove one of the two')
    return fields


def _no_constant(word: str) -> NoReturn:
    raise StoreError(f"{word} is not a number; write one")


def _finite(text: str) -> float:
    value = float(text)
    if not math.isfinite(value):
        raise StoreError(f"{text} is too large a number; check it")
    return value


def _current_fields(fields: dict[str, Any]) -> dict[str, Any]:
    version = fields.pop("version", None)
    del fields["format"]
    if type(version) is not int or version < 1:
        raise StoreError('"version" must be a whole number from 1; use a copy of the file')
    if version > NEWEST:
        raise StoreError(
            f"it was saved by a newer version of this program (file version {version}, this one "
            f"reads up to {NEWEST}); update the program, the file is untouched"
        )
    return upgraded(fields, version)


def _project(fields: dict[str, Any]) -> Project:
    try:
        project = msgspec.convert(fields, Project, dec_hook=from_written)
    except msgspec.ValidationError as problem:
        raise StoreError(complaint(str(problem))) from problem
    for fault in faults(project):
        raise StoreError(fault)
    return project
