"""Ounces beside a cup or pint, "1 cup (8 oz) honey": fluid ones, or its weight."""

from __future__ import annotations

import re

from winebench.plan.typed.remarks import Asked, written
from winebench.units import Amount, GallonCountry

COUNTRIES: tuple[GallonCountry, ...] = ("US", "imperial")
_SAME = 0.03
"""How near a number of ounces is to be that of fluid ounces in a measure."""
_WATERY = re.compile(r"(?i)\b(?:water|juice|wasser|eau|wine|cider|milk)\b")
"""A fluid ounce of it weighs an ounce, near enough."""
_HEAVY = re.compile(r"(?i)\b(?:honey|syrup|molasses|treacle)\b")
"""A cup of it weighs half as much again: no pound beside it is its weight."""


def refuse_fluid(first: Amount, second: Amount, name: str) -> None:
    """Raise where the ounces beside a cup or pint are as many as it holds fluid ones.

    Raises:
        Asked: a cup of honey weighs 12 oz, and is 8 fl oz: either can be meant by "1 cup (8 oz)".

    """
    weighed = second.dimension == "mass" and len(second.parts) == 1
    poured = first.dimension == "volume" and weighed
    ounces_told = second.parts[0].unit == "oz" or _HEAVY.search(name) is not None
    if not poured or not name or not ounces_told or _WATERY.search(name):
        return
    said = second.grams() / Amount("1 oz").grams()
    holds = [first.litres(whose) / Amount("1 fl oz").litres(whose) for whose in COUNTRIES]
    if any(abs(said - ounces) < _SAME * ounces for ounces in holds):
        raise Asked(
            f"{first.text} is {second.text} of water; by the measure, or by weight?",
            written(f"{first.text} {name}"),
            written(f"{second.text} {name}"),
        )
