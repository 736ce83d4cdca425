"""File names made of what people call their batches."""

from __future__ import annotations

from winebench.store.project_file import SUFFIX

_LONGEST, _LONGEST_BYTES = 80, 180
"""File systems stop at 255 bytes, and saving writes a longer name beside the file for a moment."""


def file_name(name: str, number: int = 1) -> str:
    """Return a file name for a batch of that name, sound on every system.

    A `number` above 1 stands at its end, however long the name is.
    """
    joined = name.replace("'", "").replace("’", "")  # "Row's end" is no "Row s end"
    plain = "".join(each if each.isalnum() or each in " -_" else " " for each in joined)
    stem = " ".join(plain.split())[:_LONGEST]
    stem = stem.encode("utf-8")[:_LONGEST_BYTES].decode("utf-8", "ignore").strip() or "batch"
    return f"{stem} {number}{SUFFIX}" if number > 1 else stem + SUFFIX
