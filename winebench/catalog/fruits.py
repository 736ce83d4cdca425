"""Fruits: what a kilogram brings to a must, typical figures with their spread.

Composition is from USDA SR28, Belitz, 21 CFR 101.30 and the others that each row of
resources/catalog/fruits.csv names. Published figures disagree; the spread spans them.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from winebench.catalog.rows import Spread, number, rows, slug, spread
from winebench.trade.acid import as_tartaric

OWN_KEY = "own"
_NO_ACID_FIGURE = Spread(4.0, 9.0, 15.0)
"""Acid where no source has one, g/kg: wide, so that the answer asks for a measurement."""
_JUICE_IN_FRUIT = 0.93
"""Water and what is dissolved in it, share of the edible mass; the rest is fibre and pulp."""


class Fruit(NamedTuple):
    """One fruit of the catalog."""

    key: str
    name: str
    """In the plural, as on a recipe line: "Damsons"."""
    group: str
    liquid: Spread
    """Liquid that the edible part gives up in full, share of its mass."""
    brix: Spread
    """Of that liquid, °Brix."""
    fermentable: Spread
    """Share of the dissolved solids that yeast can use."""
    acid_g_per_kg: Spread
    """Titratable acid of the edible part, g/kg as tartaric."""
    nitrogen_mg_per_l: Spread
    refuse_percent: float
    """Stones, stalks and peel, % of the mass as bought."""
    refuse_is: str
    main_acid: str
    safety: str
    source: str


@cache
def fruits() -> dict[str, Fruit]:
    """Return every fruit by its key."""
    groups = {row["group"]: row for row in rows("groups")}
    places = {row["key"]: row for row in rows("fruit_groups")}
    found = {}
    for row in rows("fruits"):
        place = places.get(slug(row["fruit"]))
        if place is not None:
            found[place["key"]] = _fruit(row, place, groups[place["group"]])
    return found


def own_fruit(name: str) -> Fruit:
    """Return a fruit that the catalog lacks: as any other fruit, wide enough to ask to measure."""
    group = next(row for row in rows("groups") if row["group"] == "other")
    return Fruit(
        key=OWN_KEY,
        name=name,
        group="other",
        liquid=spread(group, "liquid"),
        brix=Spread(6.0, 11.0, 18.0),
        fermentable=spread(group, "fermentable"),
        acid_g_per_kg=_NO_ACID_FIGURE,
        nitrogen_mg_per_l=spread(group, "nitrogen"),
        refuse_percent=0.0,
        refuse_is="",
        main_acid="",
        safety="Nothing is known here of this fruit: be sure what it is and that it is eaten.",
        source="not in the catalog: a guess between fruits",
    )


def _fruit(row: dict[str, str], place: dict[str, str], group: dict[str, str]) -> Fruit:
    liquid, fermentable = spread(group, "liquid"), spread(group, "fermentable")
    return Fruit(
        key=place["key"],
        name=place["name"],
        group=place["group"],
        liquid=liquid,
        brix=_brix(row, fermentable),
        fermentable=fermentable,
        acid_g_per_kg=_acid(row, place),
        nitrogen_mg_per_l=spread(group, "nitrogen"),
        refuse_percent=0.0 if place["group"] == "juice" else number(row["refuse_pct"]) or 0.0,
        refuse_is=row["refuse_is"],
        main_acid=row["main_acid"],
        safety=row["safety"],
        source=f"USDA SR28 food {row['usda_ndb']}; {row['sugar_estimate_how']}; {group['source']}",
    )


def _brix(row: dict[str, str], fermentable: Spread) -> Spread:
    """Return the liquid's °Brix as the published figures put it, from lowest to highest.

    Sugar by weight of fruit is turned to °Brix by the juice in the fruit and the share of its
    solids that is sugar; a juice's own °Brix stands as it is.
    """
    juicy = 1.0 if row["juice_yield_how"] == "juice" else _JUICE_IN_FRUIT
    per_percent = 1.0 / (juicy * fermentable.figure)
    columns = ("sugar_estimate_g", "sugar_belitz_g", "sugar_usda_aib410_pct")
    sugars = [number(row[column]) for column in columns]
    found = [sugar * per_percent for sugar in sugars if sugar is not None]
    juice = number(row["juice_brix_21cfr101_30"])
    if juice is not None and row["juice_yield_how"] != "dried":
        found.append(juice)
    if not found:
        return Spread(3.0, 8.0, 15.0)
    best = juice if juice is not None and row["juice_yield_how"] != "dried" else found[0]
    # One table's figure is no surer than a tenth: fruit varies by season and sort.
    return Spread(min(*found, 0.9 * best), best, max(*found, 1.1 * best))


def _acid(row: dict[str, str], place: dict[str, str]) -> Spread:
    low = number(row["ta_low_g_100g"]) or number(place["ta_low_memory"])
    high = number(row["ta_high_g_100g"]) or number(place["ta_high_memory"])
    if low is None or high is None:
        return _NO_ACID_FIGURE
    main = row["main_acid"].split(",")[0].strip()
    acid = main if main in ("tartaric", "malic", "citric") else "malic"
    low, high = (as_tartaric(value * 10.0, acid) for value in (low, high))
    return Spread(0.9 * low, (low + high) / 2.0, 1.1 * high)
