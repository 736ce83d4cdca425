"""Styles: what a maker wants of a wine, as ranges. Common practice, and theirs to change."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from winebench.catalog.rows import number, rows


class Style(NamedTuple):
    """One style of the catalog."""

    key: str
    name: str
    gravity_low: float
    gravity_high: float
    acid_low: float
    acid_high: float
    """g/L as tartaric."""
    final_sweet: float | None
    """Gravity at bottling, or None for dry."""
    sulfite_molecular: float
    """Molecular SO2 that keeps it, mg/L."""
    months_first_taste: float
    months_best: float


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
            final_sweet=number(row["final_sweet"]),
            sulfite_molecular=float(row["sulfite_molecular"]),
            months_first_taste=float(row["months_first_taste"]),
            months_best=float(row["months_best"]),
        )
        for row in rows("styles")
    }


def style(key: str) -> Style:
    """Return that style, or the plain dry one where the key is the maker's own."""
    found = styles()
    return found.get(key) or found["dark-dry"]._replace(key=key, name=key)
