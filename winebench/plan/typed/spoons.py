"""Level teaspoons that the maker weighed, as one line of text: "tartaric acid 4.7 g"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from winebench.catalog.additives import additives
from winebench.model.recipe import SpoonWeight
from winebench.plan.typed.names import exact, meant
from winebench.plan.typed.offers import known
from winebench.units import UnitsError, parse_number

_PIECE = re.compile(r"(?P<name>.*\D)\s(?P<grams>\d+(?:[.,]\d+)?)\s*(?:g|grams?)?", re.ASCII)
_LEAST_G, _MOST_G = 0.5, 20.0
"""No level teaspoon of a powder weighs less or more."""


def spoons_text(spoons: Sequence[SpoonWeight]) -> str:
    """Return the weights as they can be typed."""
    return ", ".join(f"{_name(each.additive)} {each.grams_per_teaspoon:g} g" for each in spoons)


def _name(key: str) -> str:
    found = additives().get(key)
    return found.name.lower() if found else key


def read_spoons(text: str) -> tuple[SpoonWeight, ...]:
    """Return the weights meant, each of an additive of the catalog.

    Raises:
        UnitsError: a piece is no name with grams after it, or the name is not known.

    """
    found: dict[str, SpoonWeight] = {}
    for piece in re.split(r"\s*;\s*|,\s+", text.strip().rstrip(",;")):
        if piece.strip():
            one = _read_one(piece.strip())
            found[one.additive] = one
    return tuple(found.values())


def _read_one(piece: str) -> SpoonWeight:
    matched = _PIECE.fullmatch(piece)
    if matched is None:
        raise UnitsError(f'"{piece}" is no weighed spoon; write one such as tartaric acid 4.7 g.')
    grams = parse_number(matched["grams"])
    if not _LEAST_G <= grams <= _MOST_G:
        raise UnitsError(
            f"A level teaspoon of {matched['name'].strip()} does not weigh {grams:g} g; "
            "weigh ten of them and write a tenth."
        )
    return SpoonWeight(additive=_key(matched["name"].strip()), grams_per_teaspoon=grams)


def _key(name: str) -> str:
    offers = [offer for offer in known() if offer.kind == "additive"]
    one = exact(name, offers)
    likely = (one,) if one else meant(name, offers, frozenset())
    if not likely:
        raise UnitsError(f'"{name}" is no additive of the catalog; use its name on the recipe.')
    return likely[0].key
