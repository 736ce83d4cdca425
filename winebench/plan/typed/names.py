"""Names as typed, in any number and order, against the names that are known."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import Literal, NamedTuple

Kind = Literal["fruit", "sugar", "water", "additive", "yeast"]


class Offer(NamedTuple):
    """Something that the catalog knows, by a name that a person would type."""

    key: str
    name: str
    kind: Kind


def _stem(word: str) -> str:
    word = word.lower().strip(",;().:'\"")
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith("oes") or word.endswith("ches"):
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith("ss") else word


@lru_cache(maxsize=4096)
def stems(name: str) -> frozenset[str]:
    """Return the words of a name, each in the singular."""
    return frozenset(_stem(word) for word in _words(name) if _stem(word))


def _words(name: str) -> list[str]:
    return re.split(r"[\s/–-]+", name)


@lru_cache(maxsize=4096)
def _joined(name: str) -> str:
    """Return the name in one word, so that "black currants" is "blackcurrants"."""
    return "".join(_stem(word) for word in _words(name))


def exact(name: str, offers: Iterable[Offer]) -> Offer | None:
    """Return what has just that name, in singular or plural, in one word or two."""
    wanted, joined = stems(name), _joined(name)
    if not wanted:
        return None
    return next((o for o in offers if stems(o.name) == wanted or _joined(o.name) == joined), None)


def meant(name: str, offers: Iterable[Offer], besides: frozenset[str]) -> tuple[Offer, ...]:
    """Return what the name can mean, likeliest first; one offer where it is exact.

    All its words are in an offer's name; the shortest such name comes first, and of equals the
    one offered first. Offers with a word of `besides` (forms of fruit that were not asked for)
    come last.
    """
    offers = tuple(offers)
    same = exact(name, offers)
    if same is not None:
        return (same,)
    wanted = stems(name)
    fitting = [offer for offer in offers if wanted and wanted <= stems(offer.name)]
    fitting.sort(key=lambda o: (bool(stems(o.name) & besides), len(stems(o.name))))
    first: dict[str, Offer] = {}
    for offer in fitting:
        first.setdefault(offer.key, offer)
    return tuple(first.values())
