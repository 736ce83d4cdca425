"""Doses by the gallon or litre: "1 tsp pectic enzyme per gallon" for the whole must."""

from __future__ import annotations

import re
from typing import NamedTuple

from winebench.model.edits import changed
from winebench.model.recipe import Line
from winebench.plan.figures import with_country
from winebench.plan.kitchen import fraction_text
from winebench.plan.typed.remarks import Asked, Remark, written
from winebench.plan.typed.unknown import Unknown
from winebench.units import NUMBER, GallonCountry, Volume

_PER = re.compile(
    r"\s*(?P<open>\()?(?:\bper\b|\bfor (?:each|every)\b|\b(?:to|by) (?:the|each|every)\b|\ban?\b"
    r"|\beach\b|(?<!g)(?<!g\s)/)\s*"
    r"(?:(?:a|1|one)\s+)?(?:(?P<country>US|imperial)\s+)?(?P<unit>gallon|gal|lit(?:re|er)|L)\b\.?"
    r"(?:\s+of\s+(?:must|wine))?(?(open)\))$",
    re.IGNORECASE,
)
_INLINE = re.compile(
    rf"(?P<dose>(?:{NUMBER})\s*(?:kg|g|mg|ml|l|lb|oz|tsp))\s*/\s*(?P<unit>gallon|gal|lit(?:re|er)|l)\b\.?\s+"
    r"(?:of\s+)?(?P<name>[^\d\s].*)",
    re.IGNORECASE | re.ASCII,
)
"""200 g/L sugar."""
_LOT = re.compile(
    r"(?i)[\s,(]*\b(?:for\s+the\s+(?:lot|whole(?:\s+batch)?|batch|total)|in\s+(?:all|total)|altogether)\b\)?"
)


class Per(NamedTuple):
    """The volume that a dose is for, and the words that said so."""

    volume: Volume
    words: str


def split_off_per(text: str) -> tuple[str, Per | None]:
    """Return the text without "per gallon", and what that says; None where it says no such."""
    inline = _INLINE.fullmatch(text.strip())
    if inline is not None:
        per = _PER.search(f" /{inline['unit']}")
        return f"{inline['dose']} {inline['name']}", _per(per) if per else None
    found = _PER.search(text.strip())
    if found is None or not text.strip()[: found.start()].strip():
        return text, None
    return text.strip()[: found.start()], _per(found)


def per_of(heading: str) -> Per | None:
    """Return the volume that a heading such as "per gallon" names; None where it names none."""
    found = _PER.search(heading)
    return _per(found) if found else None


def for_the_lot(text: str) -> str | None:
    """Return the text without "for the lot"; None where it does not say so."""
    rest, found = _LOT.subn("", text)
    return rest.strip(" ,;()") if found else None


def _per(found: re.Match[str]) -> Per:
    country = f" {found['country']}" if found["country"] else ""
    words = found[0].strip(" ()").replace("/", "per ")
    return Per(Volume(f"1 {found['unit']}{country}"), f" {words[0].lower()}{words[1:]}")


def times(
    line: Line | Unknown, per: Per, basis: Volume | None, gallon: GallonCountry | None
) -> tuple[Line | Unknown, Remark]:
    """Return the line with its dose for the whole of `basis`, and what was done.

    Raises:
        Asked: the card does not say how much it makes or whose gallon; or the dose is no
            single amount.

    """
    amount = line.amount
    if basis is None or amount is None:
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
    whole = part.unit in _METRIC
    said = f"{amount.text}{per.words}, for {with_country(basis, gallon)}"
    if abs(factor - 1.0) < 0.01:
        return line, Remark(sentence=f"{said}: as it stands.")
    country = f" {part.country}" if part.country else ""
    many = part.number * factor
    number = f"{many:.4g}" if whole else fraction_text(round(many * 8) / 8 or many)
    plural = "s" if part.unit in _PLURAL and many > 1 else ""
    scaled = type(amount)(f"{number} {part.unit}{plural}{country}")
    remark = Remark(sentence=f"{said}: {scaled.text} altogether.")
    if isinstance(line, Unknown):
        return line._replace(amount=scaled), remark
    return changed(line, amount=scaled), remark


_PLURAL = ("packet", "tablet", "bottle", "cup")
_METRIC = ("kg", "g", "mg", "L", "dL", "cL", "mL")
