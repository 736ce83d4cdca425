"""What can be typed into a new line: everything that the catalog knows, by its names."""

from __future__ import annotations

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
