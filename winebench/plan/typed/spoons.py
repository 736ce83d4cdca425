"""Spoons as one line of text: weighed ("tartaric acid 4.7 g") and owned ("1/4, 1 tsp, 1 tbsp")."""

from __future__ import annotations

import re
from collections.abc import Sequence

from winebench.catalog.additives import additives
from winebench.model.recipe import SpoonWeight
from winebench.plan.kitchen import fraction_text
from winebench.plan.spoons import TABLESPOON
from winebench.plan.typed.names import exact, meant
from winebench.plan.typed.offers import known
from winebench.units import NUMBER, SPELLINGS, UnitsError, parse_number, plain_text

_PIECE = re.compile(r"(?P<name>.*\D)\s(?P<grams>\d+(?:[.,]\d+)?)\s*(?:g|grams?)?", re.ASCII)
_LEAST_G, _MOST_G = 0.5, 20.0
"""No level teaspoon of a powder weighs less or more."""
_SIZE = re.compile(rf"(?P<number>{NUMBER})\s*(?P<unit>[a-z]*)\.?", re.IGNORECASE | re.ASCII)
_TEASPOONS = {"": 1.0, "tsp": 1.0, "tbsp": TABLESPOON, "mL": 0.2}
"""Spoons are marked so: the metric teaspoon of 5 mL goes for the other of 4.93."""
_LEAST_TSP, _MOST_TSP = 1 / 64, 12.0


def owned_text(sizes: Sequence[float]) -> str:
    """Return the spoons as they can be typed: "1/8, 1/4, 1 tsp, 1 tbsp"."""
    small = [fraction_text(size) for size in sorted(sizes) if size < TABLESPOON]
    large = [
        f"{fraction_text(size / TABLESPOON)} tbsp" for size in sorted(sizes) if size >= TABLESPOON
    ]
    return ", ".join([*([f"{', '.join(small)} tsp"] if small else []), *large])


def read_owned(text: str) -> tuple[float, ...]:
    """Return the measuring spoons meant, in teaspoons, from the smallest.

    Raises:
        UnitsError: a piece is no spoon, or none that is made.

    """
    found = {
        _read_size(piece.strip()) for piece in re.split(r"[,;]|\band\b", text) if piece.strip()
    }
    return tuple(sorted(found))


def _read_size(piece: str) -> float:
    matched = _SIZE.fullmatch(plain_text(piece))
    unit = SPELLINGS.get(matched["unit"].lower()) if matched and matched["unit"] else ""
    if matched is None or unit not in _TEASPOONS:
        raise UnitsError(f'"{piece}" is no measuring spoon; write them such as 1/4, 1 tsp, 1 tbsp.')
    size = parse_number(matched["number"]) * _TEASPOONS[unit]
    if not _LEAST_TSP <= size <= _MOST_TSP:
        raise UnitsError(f'"{piece}" is no measuring spoon: they hold 1/64 tsp to 4 tbsp.')
    return size


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
