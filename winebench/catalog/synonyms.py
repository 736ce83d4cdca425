"""Other names of what the catalog holds, as cards write them."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from winebench.catalog.rows import rows


class Synonym(NamedTuple):
    """Another name of a fruit, sugar or additive."""

    key: str
    name: str


@cache
def synonyms() -> tuple[Synonym, ...]:
    """Return every other name with the key of what it means."""
    return tuple(Synonym(row["key"], row["name"]) for row in rows("synonyms"))
