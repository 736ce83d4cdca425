"""Styles: what a maker wants of a wine, as ranges. Common practice, and theirs to change."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from winebench.catalog.rows import number, rows
from winebench.trade.gravity import sg_from_solids_g_per_l

PLAIN = "dark-dry"
"""Stands for a style that is not known here."""


class Style(NamedTuple):
    """One style of the catalog."""

    key: str
    name: str
    gravity_low: float
    gravity_high: float
    acid_low: float
    acid_high: float
    """g/L as tartaric."""
    tannin_low: float
    tannin_high: float
    """g/L in the wine."""
    sweet_g_per_l: float | None
    """Sugar at bottling, g/L, or None for dry."""
    sulfite_molecular: float
    """Molecular SO2 that keeps it, mg/L."""
    months_first_taste: float
    months_best: float

    def sweet_gravity(self, dry: float) -> float | None:
        """Return the gravity at bottling of a wine that is dry at that one; None for dry."""
        if self.sweet_g_per_l is None:
            return None
        return dry + sg_from_solids_g_per_l(self.sweet_g_per_l) - 1.0


@cache
def styles() -> dict[str, Style]:
    """Return every style by its key."""
    return {
        row["key"]: Style(
            key=row["key"],
            name=row["name"],
            gravity_low=float(row["gravity_low"]),
            gravity_high=float(row["gravity_high"]),
            acid_low=float(row["acid_low"]),
            acid_high=float(row["acid_high"]),
            tannin_low=float(row["tannin_low"]),
            tannin_high=float(row["tannin_high"]),
            sweet_g_per_l=number(row["sweet_g_per_l"]),
            sulfite_molecular=float(row["sulfite_molecular"]),
            months_first_taste=float(row["months_first_taste"]),
            months_best=float(row["months_best"]),
        )
        for row in rows("styles")
    }


def style(key: str) -> Style:
    """Return that style, or the plain dry one by the maker's own word, where that is no key."""
    found = styles()
    plain = found[PLAIN]
    return found.get(key) or plain._replace(key=key, name=key.strip() or plain.name)
