"""Read the catalog's tables and their ranges."""

from __future__ import annotations

import csv
import re
from typing import NamedTuple

from winebench.places import resources


class Spread(NamedTuple):
    """A typical figure between the lowest and the highest believed."""

    low: float
    figure: float
    high: float


def rows(table: str) -> list[dict[str, str]]:
    """Return the rows of that table."""
    path = resources() / "catalog" / f"{table}.csv"
    with path.open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def number(text: str) -> float | None:
    """Return the first number of a cell, or None where it holds none."""
    found = re.match(r"\s*(\d+(?:\.\d+)?)", text)
    return float(found[1]) if found else None


def spread(row: dict[str, str], name: str) -> Spread:
    """Return the columns name_low, name and name_high."""
    return Spread(float(row[f"{name}_low"]), float(row[name]), float(row[f"{name}_high"]))


def slug(name: str) -> str:
    """Return a table's name as a key: "cherry, sour" is "cherry-sour"."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")
