"""Fruits: what a kilogram brings to a must, typical figures with their spread.

Composition is from USDA SR28, Belitz, 21 CFR 101.30 and the others that each row of
resources/catalog/fruits.csv names. Published figures disagree; the spread spans them.
"""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from winebench.catalog.rows import Spread, number, rows, slug, spread
from winebench.catalog.tannins import NOT_KNOWN, Tannin, tannins
from winebench.trade.acid import as_tartaric
from winebench.trade.gravity import density_from_brix
from winebench.units import Juice

OWN_KEY = "own"
_NO_ACID_FIGURE = Spread(4.0, 9.0, 15.0)
"""Acid where no source has one, g/kg: wide, so that the answer asks for a measurement."""
_JUICE_IN_FRUIT = 0.93
"""Water and what is dissolved in it, share of the edible mass; the rest is fibre and pulp."""
_ONE_TABLE = 0.15
"""How far fruit lies from a table's one figure, by season and sort (common practice)."""
_MOST_BRIX = Juice.most_brix
_WATER_LEFT = 0.22
"""Water in dried fruit, share of its mass: 20 to 25 % (common practice)."""
_NITROGEN_KEPT = Spread(0.5, 0.75, 1.0)
"""What drying leaves of the nitrogen that yeast can use: how much it destroys is not known here."""
_USUAL_DRY_SHARE = 0.16
"""Dry matter of fruit that no table has (common practice)."""


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
    tannin: Tannin
    juice_share: float
    """Water and what is dissolved in it, share of the edible mass that `acid_g_per_kg` is of."""
    dry_share: float
    """All but the water, share of the edible mass."""
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
        name=name.strip() or "Unnamed fruit",
        group="other",
        liquid=spread(group, "liquid"),
        brix=Spread(6.0, 11.0, 18.0),
        fermentable=spread(group, "fermentable"),
        acid_g_per_kg=_NO_ACID_FIGURE,
        nitrogen_mg_per_l=spread(group, "nitrogen"),
        tannin=NOT_KNOWN,
        juice_share=_JUICE_IN_FRUIT,
        dry_share=_USUAL_DRY_SHARE,
        refuse_percent=0.0,
        refuse_is="",
        main_acid="",
        safety="Nothing is known here of this fruit: be sure what it is and that it is eaten.",
        source="not in the catalog: a guess between fruits",
    )


def dried(fruit: Fruit) -> Fruit:
    """Return a fresh fruit's figures for the same fruit dried: all but its water, in less mass.

    Its dry matter stays whole, so a kilogram of it holds as many times the solids and the acid.
    """
    group = next(row for row in rows("groups") if row["group"] == "dried")
    liquid = spread(group, "liquid")
    times = (1.0 - _WATER_LEFT) / fruit.dry_share
    soluble = times * fruit.juice_share / liquid.figure
    brix = Spread(*(min(soluble * fresh, _MOST_BRIX) for fresh in fruit.brix))
    juices = density_from_brix(brix.figure) / density_from_brix(fruit.brix.figure)
    return fruit._replace(
        liquid=liquid,
        brix=brix,
        nitrogen_mg_per_l=Spread(
            *(
                soluble * juices * kept * fresh
                for kept, fresh in zip(_NITROGEN_KEPT, fruit.nitrogen_mg_per_l, strict=True)
            )
        ),
        acid_g_per_kg=Spread(*(times * acid for acid in fruit.acid_g_per_kg)),
        tannin=fruit.tannin._replace(g_per_kg=None, source=""),  # drying browns and binds it
        refuse_percent=0.0,
    )


def _fruit(row: dict[str, str], place: dict[str, str], group: dict[str, str]) -> Fruit:
    liquid, fermentable = spread(group, "liquid"), spread(group, "fermentable")
    juicy = _juice_share(place["group"], liquid)
    return Fruit(
        key=place["key"],
        name=place["name"],
        group=place["group"],
        liquid=liquid,
        brix=_brix(row, fermentable.figure, juicy),
        fermentable=fermentable,
        acid_g_per_kg=_acid(row, place),
        nitrogen_mg_per_l=spread(group, "nitrogen"),
        tannin=tannins().get(place["key"], NOT_KNOWN),
        juice_share=juicy,
        dry_share=_dry_share(row),
        refuse_percent=_refuse(row, place["group"]),
        refuse_is=row["refuse_is"],
        main_acid=row["main_acid"],
        safety=row["safety"],
        source=f"USDA SR28 food {row['usda_ndb']}; {row['sugar_estimate_how']}; {group['source']}",
    )


def _juice_share(group: str, liquid: Spread) -> float:
    """Return the share of the analysed mass that is liquid: dried fruit soaks out what it can."""
    return {"juice": 1.0, "dried": liquid.figure}.get(group, _JUICE_IN_FRUIT)


def _dry_share(row: dict[str, str]) -> float:
    water = number(row["water_g"])
    return _USUAL_DRY_SHARE if water is None else 1.0 - water / 100.0


def _refuse(row: dict[str, str], group: str) -> float:
    """Return what is thrown away, %. Grape skins, which USDA counts in, go into the must."""
    if group == "juice":
        return 0.0
    stems = re.search(r"(\d+)% stems", row["refuse_is"]) if group == "grape" else None
    return float(stems[1]) if stems else number(row["refuse_pct"]) or 0.0


def _brix(row: dict[str, str], fermentable: float, juicy: float) -> Spread:
    """Return the liquid's °Brix as the published figures put it, from lowest to highest.

    A juice's own °Brix stands as it is. Sugar by weight of fruit is turned to °Brix by the juice
    in the fruit and the share of its solids that is sugar, but never to more than the water and
    fibre of the same analysis leave room for. The USDA home wine table does not say whether its
    percentages are sugar or all that a hydrometer sees: both are taken.
    """
    room = _soluble(row)
    juice = number(row["juice_brix_21cfr101_30"]) if row["juice_yield_how"] != "dried" else None
    by_table = "AIB 410" in row["sugar_estimate_how"]
    columns = ("sugar_belitz_g",) if by_table else ("sugar_estimate_g", "sugar_belitz_g")
    sugars = [sugar for column in columns if (sugar := number(row[column])) is not None]
    found = [min(sugar / (juicy * fermentable), room) for sugar in sugars]
    table = number(row["sugar_usda_aib410_pct"])
    seen = [] if table is None else [table, table / (juicy * fermentable)]
    every = [*([] if juice is None else [juice]), *found, *seen]
    if not every:
        return Spread(3.0, 8.0, 15.0)
    best = juice or (found[0] if found else sum(seen) / 2.0)
    low, high = min(*every, (1.0 - _ONE_TABLE) * best), max(*every, (1.0 + _ONE_TABLE) * best)
    return Spread(low, best, min(high, _MOST_BRIX))


def _soluble(row: dict[str, str]) -> float:
    """Return the most °Brix that the analysis leaves room for: all but water and fibre."""
    water, fibre = number(row["water_g"]), number(row["fibre_g"]) or 0.0
    if water is None:
        return _MOST_BRIX
    return min(100.0 * (100.0 - water - fibre) / (100.0 - fibre), _MOST_BRIX)


def _acid(row: dict[str, str], place: dict[str, str]) -> Spread:
    low = number(row["ta_low_g_100g"]) or number(place["ta_low_memory"])
    high = number(row["ta_high_g_100g"]) or number(place["ta_high_memory"])
    if low is None or high is None:
        return _NO_ACID_FIGURE
    main = row["main_acid"].split(",")[0].strip()
    acid = main if main in ("tartaric", "malic", "citric") else "malic"
    low, high = (as_tartaric(value * 10.0, acid) for value in (low, high))
    spread_of_one = 1.0 - _ONE_TABLE, 1.0 + _ONE_TABLE
    return Spread(spread_of_one[0] * low, (low + high) / 2.0, spread_of_one[1] * high)
