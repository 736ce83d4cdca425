"""What can be typed into a new line: everything that the catalog knows, by its names."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from winebench.catalog.additives import additives
from winebench.catalog.fruits import fruits
from winebench.catalog.sugars import sugars
from winebench.catalog.synonyms import synonyms
from winebench.plan.typed.names import Kind, Offer


@cache
def offers() -> tuple[Offer, ...]:
    """Return the catalog's fruits, sugars and additives, water and yeast, by their own names."""
    named: list[tuple[Kind, str, str]] = [("water", "water", "Water"), ("yeast", "yeast", "Yeast")]
    named += [("sugar", sugar.key, sugar.name) for sugar in sugars().values()]
    named += [("fruit", fruit.key, fruit.name) for fruit in fruits().values()]
    named += [("additive", extra.key, extra.name) for extra in additives().values()]
    return tuple(Offer(key, name, kind) for kind, key, name in named)


@cache
def known() -> tuple[Offer, ...]:
    """Return all that a typed name can mean: the offers, and their other names."""
    kinds = {offer.key: offer.kind for offer in offers()}
    others = (Offer(each.key, each.name, kinds[each.key]) for each in synonyms())
    return (*offers(), *others)


_LEAST_LETTERS = 2


def completed(text: str, among: Iterable[Offer]) -> tuple[str, ...]:
    """Return what a line that ends in the middle of a name can become, likeliest first.

    The amount stays as typed. Names that begin so come first, then those with such a word.
    """
    from winebench.plan.typed.lines import amount_part

    amount = amount_part(text)
    begun = " ".join(text[len(amount) :].lower().split())
    if len(begun) < (1 if amount else _LEAST_LETTERS):
        return ()
    names = [offer.name.lower() for offer in among]
    first = [name for name in names if name.startswith(begun)]
    word = re.compile(rf"[\s(/–-]{re.escape(begun)}")
    later = [name for name in names if name not in first and word.search(name)]
    return tuple(f"{amount}{name}" for name in (*first, *later))
