"""Doses by the gallon or litre: "1 tsp pectic enzyme per gallon" for the whole must."""

from __future__ import annotations

import re
from typing import NamedTuple

from winebench.model.edits import changed
from winebench.model.recipe import Line, YeastLine
from winebench.plan.figures import with_country
from winebench.plan.kitchen import fraction_text
from winebench.plan.typed.number_words import UNIT, digits
from winebench.plan.typed.remarks import Asked, Remark, Way
from winebench.plan.typed.unknown import Unknown
from winebench.units import (
    NUMBER,
    Amount,
    GallonCountry,
    UnitsError,
    Volume,
    parse_number,
    trimmed,
)

_EACH = (
    r"per(?:\s+each)?|for\s+(?:each|every)|(?:to|in|by)\s+(?:the|each|every)|je|pro|auf\s+(?:einen|jeden)|par|"
    r"au|for\s+(?:a|one)"
)
_MEASURE = (
    r"(?:(?P<many>\d{1,3}(?:[.,]\d+)?\s*|(?:an?|one)\s+))?"
    r"(?:(?P<country>US|U\.S\.|imperial|imp\.?|UK)\s+)?"
    r"(?P<unit>gallon|gal|hectolit(?:re|er)|hL|lit(?:re|er)|L)s?\b\.?"
    r"(?!\s*(?:jars?|jugs?|bottles?|demi-?johns?|buckets?|vessels?|crocks?|carboys?|pails?)\b)"
    r"(?:[\s,]+\(?(?P<behind>US|imperial|UK)\b\)?)?"
    r"(?:\s+of\s+(?:the\s+)?(?P<of>must|wine|juice|liquid|liquor|water))?"
)
_SLASH = r"(?<!\d)/\s*(?P<many>\d{1,3}(?:[.,]\d+)?\s*)?(?P<unit>gallon|gal|hL|lit(?:re|er)|L)\b\.?"
_AT_END = re.compile(
    rf"\s*(?P<open>\()?(?<!half )(?:\ban?\b|\beach\b)\s*{_MEASURE}(?(open)\))$", re.I
)
_WITHIN = re.compile(
    rf"\s*(?P<open>\()?\b(?:{_EACH})\b\s*{_MEASURE}(?(open)\))(?=\s*(?:$|[,;.)]|[^\W\d]))", re.I
)
_STROKE_LAST = re.compile(
    rf"(?P<dose>(?:{NUMBER})\s*{UNIT}\b.*[a-z]|[^\d/]*[a-z]\s+\d{{1,2}})\s*/\s*"
    r"(?P<unit>gallon|gal|lit(?:re|er)|hL)\b\.?",
    re.IGNORECASE | re.ASCII,
)
"""4 lb brambles/gal; sulfite 1/gal."""
_TABLETS_LAST = re.compile(r"(?i)(\btab(?:let)?s?\.?),\s*(\d{1,2})$")
"""Campden tablets, 1 for each gallon."""
_BY_STROKE = re.compile(
    rf"(?P<before>[^\d/]*?)(?P<dose>(?:{NUMBER})\s*{UNIT}\.?)\s*{_SLASH}(?P<after>.*)",
    re.IGNORECASE | re.ASCII,
)
"""200 g/L sugar; sugar: 2 lb/gal, fed later."""
_LOT = re.compile(
    r"(?i)[\s,(]*\b(?:for\s+the\s+(?:lot|whole(?:\s+batch)?|batch|total)|in\s+(?:all|total)|altogether)\b\)?"
)
_HECTOLITRE = ("hl", "hectolitre", "hectoliter")
"""A hectolitre is no measure of a kitchen: it is written in litres."""


_BY_WEIGHT = re.compile(
    r"(?i)\b(?:per|for\s+(?:each|every|a)|to\s+(?:the|each|every|a)|je|pro|par)\s+(?:lb|pound|kg|kilo(?:gram)?|"
    r"pfund)\b(?:\s+of\s+(?:the\s+)?(?P<of>[a-z]+))?|/\s*(?:lb|kg)\b\s*(?:of\s+)?(?:fruit|plums|berries)"
)


class Per(NamedTuple):
    """The volume that a dose is for, and the words that said so."""

    volume: Volume
    words: str
    of: str = ""
    """What the volume is of, where that is not the must."""


def split_off_per(text: str) -> tuple[str, Per | None]:
    """Return the text without "per gallon", and what that says; None where it says no such."""
    plain = text.strip()
    stroke = _BY_STROKE.fullmatch(plain)
    if stroke is not None and not (stroke["many"] and _is_volume(stroke["dose"])):
        rest = f"{stroke['before']}{stroke['dose']}{stroke['after']}"
        return rest, _by_stroke(stroke)
    last = _STROKE_LAST.fullmatch(plain)
    if last is not None:
        return last["dose"], _by_stroke(last)
    found = _WITHIN.search(plain) or _AT_END.search(plain)
    if found is None:
        return text, None
    before, after = plain[: found.start()], plain[found.end() :]
    if not any(map(str.isdigit, digits(before) + digits(after))):
        return text, None
    rest = _TABLETS_LAST.sub(r"\1: \2", f"{before}{after}".strip(" ,:"))
    return rest, _per(found)


def refuse_by_weight(text: str) -> None:
    """Raise where a dose is by the pound of the fruit: "1 quart water for every lb of fruit".

    Raises:
        Asked: it is.

    """
    found = _BY_WEIGHT.search(text)
    if found is not None:
        raise Asked(
            f'"{found[0].strip()}": write how much goes in altogether, for all the fruit on the '
            "card."
        )


def name_per(text: str) -> tuple[str, str]:
    """Return a name without "per gallon" behind it, and those words; "" where it has none."""
    found = _WITHIN.search(text) or _AT_END.search(text)
    if found is None or any(map(str.isdigit, digits(text[: found.start()]))):
        return text, ""
    return f"{text[: found.start()]}{text[found.end() :]}".strip(" ,:"), found[0].strip(" ()")


def per_of(heading: str) -> Per | None:
    """Return the volume that a heading such as "per gallon" names; None where it names none."""
    found = _WITHIN.search(heading) or _AT_END.search(heading)
    return _per(found) if found else None


def for_the_lot(text: str) -> str | None:
    """Return the text without "for the lot"; None where it does not say so."""
    rest, found = _LOT.subn("", text)
    return rest.strip(" ,;()") if found else None


def _per(found: re.Match[str]) -> Per:
    country = found["country"] or found["behind"] or ""
    many = (found["many"] or "1").strip().lower()
    words = " ".join(found[0].strip(" ()").split())
    of = (found["of"] or "").lower()
    return Per(
        _volume("1" if many in ("a", "an", "one") else many, found["unit"], country),
        f" {words[0].lower()}{words[1:]}",
        "" if of in ("must", "wine") else of,
    )


def _by_stroke(found: re.Match[str]) -> Per:
    many = (found.groupdict().get("many") or "").strip()
    words = f" per {many} {found['unit']}" if many else f" per {found['unit']}"
    return Per(_volume(many or "1", found["unit"], ""), words)


def _is_volume(dose: str) -> bool:
    """Return whether the dose is poured: "3 pt/1.7 L" are one amount, told twice."""
    try:
        amount = Amount(dose)
        return amount.dimension == "volume" and amount.parts[0].unit not in ("tsp", "tbsp")
    except UnitsError:
        return True


def _volume(many: str, unit: str, country: str) -> Volume:
    if unit.lower() in _HECTOLITRE:
        return Volume(f"{parse_number(many or '1') * 100:g} L")
    return Volume(f"{many} {unit} {country}".strip())


def with_per(ways: tuple[Way, ...], per: Per) -> tuple[Way, ...]:
    """Return the ways to write a line's dose, each of them by the same volume again."""
    return tuple(_again(way, per) for way in ways)


def _again(way: Way, per: Per) -> Way:
    lines = []
    for line in way.text.split("\n"):
        name, comma, rest = line.partition(",")
        lines.append(f"{name}{per.words}{comma}{rest}" if name else line)
    text = "\n".join(lines)
    return Way(label=text if way.label == way.text else way.label, text=text, apart=way.apart)


def times(
    line: Line | Unknown, per: Per, basis: Volume | None, gallon: GallonCountry | None
) -> tuple[Line | Unknown, Remark]:
    """Return the line with its dose for the whole of `basis`, and what was done.

    Raises:
        Asked: the card does not say how much it makes, or whose gallon; or the dose is by a
            volume of juice or water, and how much of that there is nobody says.

    """
    amount = line.amount
    if basis is None or amount is None:
        raise Asked(
            f"So much{per.words} of how much must? Say it in a line such as makes 1 gallon."
        )
    if isinstance(line, YeastLine):
        said = f"{amount.text}{per.words}: yeast grows by itself, so {amount.text} is read."
        return line, Remark(sentence=said)
    named = next((part.country for part in basis.parts if part.country), None)
    if per.volume.needs_country and not (named or gallon or basis.needs_country):
        raise Asked(f"{amount.text}{per.words}: a US or an imperial gallon? Say whose it is.")
    whose = named or gallon or "US"  # of two bare gallons only the ratio counts
    factor = basis.litres(whose) / per.volume.litres(whose)
    scaled = _scaled(amount, factor, gallon or "US")
    if per.of:
        name = line.name if isinstance(line, Unknown) else ""
        raise Asked(
            f"{amount.text}{per.words}: how much {per.of} is there? Write what goes in "
            f"altogether; were all {with_country(basis, gallon)} {per.of}, it would be "
            f"{scaled.text}{f' {name}' if name else ''}."
        )
    said = f"{amount.text}{per.words}, for {with_country(basis, gallon)}"
    if abs(factor - 1.0) < 0.01:
        return line, Remark(sentence=f"{said}: as it stands.")
    remark = Remark(sentence=f"{said}: {scaled.text} altogether.")
    if isinstance(line, Unknown):
        return line._replace(amount=scaled), remark
    return changed(line, amount=scaled), remark


def _scaled(amount: Amount, factor: float, whose: GallonCountry) -> Amount:
    """Return so many times the amount, in its first unit: five times 2 lb 4 oz are 11 1/4 lb."""
    part = amount.parts[0]
    country = f" {part.country}" if part.country else ""
    many = part.number * factor
    if len(amount.parts) > 1:
        one = type(amount)(f"1 {part.unit}{country}")
        many = factor * _size(amount, whose) / _size(one, whose)
    number = (
        trimmed(float(f"{many:.4g}"), 6) if part.unit in _METRIC else fraction_text(_round(many))
    )
    plural = "s" if part.unit in _PLURAL and many > 1 else ""
    return type(amount)(f"{number} {part.unit}{plural}{country}")


def _round(many: float) -> float:
    """Return the number in eighths, or as it is where it is in thirds: three times 3 1/3 are 10.

    Of a small dose that eighths would make more than a tenth larger or smaller, it stays too.
    """
    thirds = abs(many * 3 - round(many * 3)) < 1e-6
    eighths = round(many * 8) / 8
    return many if thirds or abs(eighths - many) > 0.1 * many else eighths


def _size(amount: Amount, whose: GallonCountry) -> float:
    try:
        return amount.grams()
    except UnitsError:
        return amount.litres(whose)


_PLURAL = ("packet", "tablet", "bottle", "cup")
_METRIC = ("kg", "g", "mg", "L", "dL", "cL", "mL")
