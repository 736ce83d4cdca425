"""Doses by the gallon or litre: "1 tsp pectic enzyme per gallon" for the whole must."""

from __future__ import annotations

import re
from typing import NamedTuple

from winebench.model.edits import changed
from winebench.model.recipe import Line, WaterLine
from winebench.plan.figures import with_country
from winebench.plan.kitchen import fraction_text
from winebench.plan.typed.lines import Unknown
from winebench.plan.typed.remarks import Asked, Remark, written
from winebench.units import Amount, GallonCountry, Volume

_PER = re.compile(
    r"\s*(?:\bper\b|\bfor (?:each|every)\b|\bto (?:the|each|every)\b|\ban?\b|\beach\b|/)\s*"
    r"(?:(?P<country>US|imperial)\s+)?(?P<unit>gallon|gal|lit(?:re|er)|L)\b\.?(?:\s+of\s+must)?$",
    re.IGNORECASE,
)


class Per(NamedTuple):
    """The volume that a dose is for, and the words that said so."""

    volume: Volume
    words: str


def split_off_per(text: str) -> tuple[str, Per | None]:
    """Return the text without "per gallon", and what that says; None where it says no such."""
    found = _PER.search(text.strip())
    if found is None or not text.strip()[: found.start()].strip():
        return text, None
    country = f" {found['country']}" if found["country"] else ""
    return text.strip()[: found.start()], Per(Volume(f"1 {found['unit']}{country}"), found[0])


def times(
    line: Line | Unknown, per: Per, basis: Volume | None, gallon: GallonCountry | None
) -> tuple[Line | Unknown, Remark]:
    """Return the line with its dose for the whole of `basis`, and what was done.

    Raises:
        Asked: the card does not say how much it makes or whose gallon; or the dose is no
            single amount.

    """
    amount = line.amount
    if basis is None or amount is None or isinstance(line, WaterLine):
        raise Asked(
            f"So much{per.words} of how much must? Say it in a line such as makes 1 gallon."
        )
    if per.volume.needs_country and gallon is None and not basis.needs_country:
        raise Asked(f"{amount.text}{per.words}: a US or an imperial gallon? Say whose it is.")
    whose = gallon or "US"  # of two bare gallons only the ratio counts
    factor = basis.litres(whose) / per.volume.litres(whose)
    if len(amount.parts) > 1:
        raise Asked(f"{amount.text}{per.words}: write what goes in altogether.",
                     written(f"{amount.text}"))  # fmt: skip
    part = amount.parts[0]
    said = f"{amount.text}{per.words}, for {with_country(basis, gallon)}"
    if abs(factor - 1.0) < 0.01:
        return line, Remark(sentence=f"{said}: as it stands.")
    country = f" {part.country}" if part.country else ""
    number = fraction_text(round(part.number * factor * 8) / 8 or part.number * factor)
    scaled = Amount(f"{number} {part.unit}{'s' if part.unit in _PLURAL else ''}{country}")
    remark = Remark(sentence=f"{said}: {scaled.text} altogether.")
    if isinstance(line, Unknown):
        return line._replace(amount=scaled), remark
    return changed(line, amount=scaled), remark


_PLURAL = ("packet", "tablet", "bottle", "cup")
