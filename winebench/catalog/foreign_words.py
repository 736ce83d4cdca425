"""Units and small numbers of cards in German and French, by their English words.

Names of things in these languages are among the other names (`synonyms`).
"""

from __future__ import annotations

from functools import cache
from typing import Literal, NamedTuple, cast

from winebench.catalog.rows import rows

Kind = Literal["unit", "number", "metric pound"]
METRIC_POUND_G = 500.0
"""Pfund and livre of today's kitchens (common usage)."""


class ForeignWord(NamedTuple):
    """A word of another language, and what an amount has in its place."""

    word: str
    english: str
    kind: Kind


@cache
def foreign_words() -> tuple[ForeignWord, ...]:
    """Return every row of the table."""
    return tuple(
        ForeignWord(row["word"], row["english"], cast(Kind, row["kind"]))
        for row in rows("foreign_words")
    )
