"""Household things that never go into a must, and how people write them on a card.

Cleaners, poisons of the household and what spoils wine; the plants are in `poisons`. Each row of
resources/catalog/never_food.csv names its source.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Literal, NamedTuple, cast

from winebench.catalog.phrases import Phrase, begins, phrases_of, words_of
from winebench.catalog.rows import rows

Use = Literal["cleaner", "poison", "spoils"]


class NeverFood(NamedTuple):
    """A thing of the household that never goes in."""

    key: str
    name: str
    use: Use
    """cleaner: may have touched the equipment; spoils: food, and the ruin of wine."""
    harm: str
    """What it does, in a few words."""
    source: str
    phrases: tuple[Phrase, ...]


@cache
def never_food() -> tuple[NeverFood, ...]:
    """Return every row of the table."""
    return tuple(
        NeverFood(
            row["key"],
            row["name"],
            cast(Use, row["use"]),
            row["harm"],
            row["source"],
            phrases_of(row["phrases"]),
        )
        for row in rows("never_food")
    )


@lru_cache(maxsize=4096)
def never_food_in(text: str) -> NeverFood | None:
    """Return the first such thing that the words name, None where they name none."""
    words = words_of(text)
    found = (
        one
        for one in never_food()
        for phrase in one.phrases
        if any(begins(phrase, words, start) for start in range(len(words)))
    )
    return next(found, None)
