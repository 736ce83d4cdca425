"""Sugars: white sugar, dextrose, honey, syrups."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from winebench.catalog.rows import Spread, number, rows, spread


class Sugar(NamedTuple):
    """One sugar of the catalog."""

    key: str
    name: str
    solids_percent: Spread
    """Sugar and other dissolved solids by mass, %; the rest is water."""
    fermentable: float
    sucrose_share: float
    """Share of it that takes up water when yeast splits it."""
    acid_g_per_kg: float
    nitrogen_mg_per_kg: float
    g_per_cup: float | None
    needs_label: bool
    source: str


@cache
def sugars() -> dict[str, Sugar]:
    """Return every sugar by its key."""
    return {
        row["key"]: Sugar(
            key=row["key"],
            name=row["name"],
            solids_percent=spread(row, "solids"),
            fermentable=float(row["fermentable"]),
            sucrose_share=float(row["sucrose_share"]),
            acid_g_per_kg=float(row["acid_g_per_kg"]),
            nitrogen_mg_per_kg=float(row["nitrogen_mg_per_kg"]),
            g_per_cup=number(row["g_per_cup"]),
            needs_label=row["needs_label"] == "yes",
            source=row["source"],
        )
        for row in rows("sugars")
    }
