"""Tannin of the catalog's fruits: published figures of condensed tannin, with their spread.

Published in mg of proanthocyanidins in 100 g of fresh fruit; a fruit without a row is not known.
Each row of resources/catalog/tannins.csv says whether its figure was read at its source. "USDA
proanthocyanidin database, release 2 (2015)" is the USDA Database for the Proanthocyanidin Content
of Selected Foods, read as transcribed; its parts are added up from dimers on, and their deviations
with them: they go together, as in Gu 2004, where blueberries' 50.8 stands beside parts of 55.7.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from winebench.catalog.rows import Spread, rows

MUCH = "much"


class Tannin(NamedTuple):
    """What is known of one fruit's tannin."""

    g_per_kg: Spread | None = None
    """Condensed tannin of the edible part, g/kg; None where no figure is known here."""
    amount: str = ""
    """ "much", "some" or "little" as wine makers count it; empty where nobody says."""
    amount_by: str = ""
    """Who says so: "common practice", or the source of the figure."""
    source: str = ""
    """Of the figure, with "from memory" where it was not read there."""


NOT_KNOWN = Tannin()


@cache
def tannins() -> dict[str, Tannin]:
    """Return what is known of each fruit's tannin, by the fruit's key."""
    return {row["key"]: _tannin(row) for row in rows("tannins")}


def _tannin(row: dict[str, str]) -> Tannin:
    memory = "from memory: " if row["how"] == "from memory" else ""
    return Tannin(
        g_per_kg=Spread(*(float(row[c]) / 100.0 for c in ("mg_low", "mg", "mg_high")))
        if row["mg"]
        else None,
        amount=row["class"],
        amount_by=row["class_how"],
        source=f"{memory}{row['source']}",
    )
