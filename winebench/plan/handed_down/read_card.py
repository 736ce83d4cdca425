"""Read a whole card, item by item."""

from __future__ import annotations

import re
from collections.abc import Mapping

from winebench.plan.handed_down.per_volume import split_off_per
from winebench.plan.handed_down.read_item import read_item
from winebench.plan.handed_down.rows import Known
from winebench.plan.handed_down.shapes import Answer, CardReading, Row
from winebench.plan.handed_down.split import items
from winebench.plan.handed_down.title import titled
from winebench.units import Amount, GallonCountry, Volume


def read_card(
    text: str,
    answers: Mapping[str, Answer] | None = None,
    gallon: GallonCountry | None = None,
) -> CardReading:
    """Return how the card is read: each of its items in exactly one row, nothing dropped.

    `answers` says what an unknown ingredient is, by its name in small letters, or that an item
    is to be kept as a note, by its words in small letters. `gallon` says whose a bare gallon is;
    else the card may give it away ("1 gallon (4.5 L)", "2 pints US").
    """
    cut = items(text)
    told = Known(dict(answers or {}))
    first = list(titled([read_item(item, told) for item in cut], told))
    asks_gallon = any(_bare(row) for row in first)
    country = gallon or _given_away(first)
    told = told._replace(gallon=country, basis=_basis(first))
    rows = titled([read_item(item, told) for item in cut], told)
    return CardReading(text=text, rows=rows, gallon=told.gallon, asks_gallon=asks_gallon)


_MEASURE = re.compile(
    r"(?i)\b(US|imperial|UK|British|American)\s+(?:gallons?|gals?|pints?|quarts?|measures?|units)\b"
)
_WHOSE: dict[str, GallonCountry] = {
    "us": "US", "american": "US", "imperial": "imperial", "uk": "imperial", "british": "imperial",
}  # fmt: skip


def _amounts(row: Row) -> list[Amount]:
    found = [row.line.amount if row.line else None, row.field.basis if row.field else None]
    return [amount for amount in found if amount is not None]


def _bare(row: Row) -> bool:
    per = split_off_per(row.item.words)[1] if row.kind in ("line", "question") else None
    return any(amount.needs_country for amount in _amounts(row)) or bool(
        per and per.volume.needs_country
    )


def _given_away(rows: list[Row]) -> GallonCountry | None:
    """Return the one country that the card names somewhere, or None."""
    named = {part.country for row in rows for amount in _amounts(row) for part in amount.parts}
    named |= {_WHOSE[each.lower()] for row in rows for each in _MEASURE.findall(row.item.words)}
    named -= {None}
    return named.pop() if len(named) == 1 else None


def _basis(rows: list[Row]) -> Volume | None:
    """Return how much the card makes: as it says for the whole, else as for its "per gallon"."""
    stated = [row for row in rows if row.field and row.field.basis]
    stated.sort(key=lambda row: bool(row.item.per) and row.kind in ("heading", "line"))
    return stated[0].field.basis if stated and stated[0].field else None
