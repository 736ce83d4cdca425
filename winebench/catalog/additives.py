"""Additives: acids, tannin, enzyme, nutrient, sulfite, sorbate, with what a spoon holds."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple, cast

from winebench.catalog.rows import Spread, rows, spread
from winebench.model.recipe import AdditiveKind


class Additive(NamedTuple):
    """One additive of the catalog."""

    key: str
    name: str
    kind: AdditiveKind
    acid: str
    """Which acid it is, or empty."""
    g_per_teaspoon: Spread
    """Level US teaspoon; products and grinds differ, so the maker may weigh their own."""
    nitrogen_share: float
    so2_share: float
    two_doses: bool
    precise: bool
    """Whether a spoon that is 15 % off is too coarse for it."""
    usual_most_g_per_l: float
    """The most that is usual in a must or wine; 0 where its legal limits are its bounds."""
    usual_source: str
    source: str


@cache
def additives() -> dict[str, Additive]:
    """Return every additive by its key."""
    return {
        row["key"]: Additive(
            key=row["key"],
            name=row["name"],
            kind=cast("AdditiveKind", row["kind"]),
            acid=row["acid"],
            g_per_teaspoon=spread(row, "g_per_tsp"),
            nitrogen_share=float(row["nitrogen_share"]),
            so2_share=float(row["so2_share"]),
            two_doses=row["two_doses"] == "yes",
            precise=row["precise"] == "yes",
            usual_most_g_per_l=float(row["usual_most_g_per_l"]),
            usual_source=row["usual_source"],
            source=row["source"],
        )
        for row in rows("additives")
    }
