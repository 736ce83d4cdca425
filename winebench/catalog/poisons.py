"""Plants and parts of plants that must never go in, and how people write them.

The table is what grows where wine makers pick and is met with fruit; it is no list of all that is
poisonous. Each row of resources/catalog/poisons.csv names its source.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import NamedTuple

from winebench.catalog.phrases import Phrase, begins, phrases_of, singular, words_of
from winebench.catalog.rows import rows

_SMALL = frozenset(("the", "a", "an", "some", "and", "of", "fresh", "wild", "ripe", "dried"))
_PARTS = frozenset((
    "berry", "fruit", "leaf", "seed", "needle", "aril", "bark", "root", "flower", "juice", "jam",
    "twig", "stalk", "stem", "tree", "bush", "hedge", "shrub", "plant", "branch", "cone", "pulp",
    "wine", "puree", "sap", "top", "pod", "bulb", "petal",
))  # fmt: skip
"""What of a plant may be named behind it: "yew tree berries", and not "Yew Tree Farm plums"."""
_OTHER_PLANTS = frozenset(("bay", "sea"))
"""In front of a name they make it a harmless plant: bay laurel, sea buckthorn."""
_NOT_IN = frozenset(map(singular, (
    "without", "no", "not", "removed", "remove", "off", "out", "minus", "less", "discarded",
    "trimmed", "away",
)))  # fmt: skip
"""Beside a part they say that it does not go in."""
_WHOLE = (["in"], ["left", "in"], ["whole"])
"""Behind the stones of a fruit: it goes in with them, uncracked."""


class Poison(NamedTuple):
    """A plant, or a part of one, that must never go in."""

    key: str
    name: str
    harm: str
    """What it does, in a few words."""
    source: str
    phrases: tuple[Phrase, ...]
    """Ways to write it: words in their order, each one of several."""


@cache
def poisons() -> tuple[Poison, ...]:
    """Return every row of the table."""
    return tuple(
        Poison(row["key"], row["name"], row["harm"], row["source"], phrases_of(row["phrases"]))
        for row in rows("poisons")
    )


def poison_in(name: str, note: str = "") -> Poison | None:
    """Return the poison that something is named after, None where it is no known one.

    `note` is what stands beside the name: "leaves and all" beside "Rhubarb" counts, a place that
    is called after a plant does not.
    """
    return next(iter(poisons_in(name, note)), None)


@lru_cache(maxsize=4096)
def poisons_in(name: str, note: str = "") -> tuple[Poison, ...]:
    """Return every known poison that words name, in the order of the table; see `poison_in`."""
    named = words_of(name)
    words = named + words_of(note)
    return tuple(one for one in poisons() if _named(one, words, len(named)))


def _named(poison: Poison, words: list[str], named: int) -> bool:
    # One word alone may be a place in a note; two say what goes in wherever they stand.
    return any(
        _stands(phrase, words, start, named)
        for phrase in poison.phrases
        for start in range(named if len(phrase) == 1 else len(words))
    )


def _stands(phrase: Phrase, words: list[str], start: int, named: int) -> bool:
    """Return whether the phrase begins at that word of the name and means what goes in."""
    end = start + len(phrase)
    if not begins(phrase, words, start):
        return False
    if words[end:] in _WHOLE and phrase[-1] & {"stone"}:
        return False
    if any(word in _NOT_IN for word in (*words[max(start - 2, 0) : start], *words[end : end + 2])):
        return False
    if words[start - 1 : start] and words[start - 1] in _OTHER_PLANTS:
        return False
    if len(phrase) > 1:
        return True
    # The plant alone: the whole name, or with one of its parts behind it.
    return not set(words[end:named]) - _SMALL - _PARTS
