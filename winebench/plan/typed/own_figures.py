"""Figures on an ingredient's own line: what its juice reads, a syrup's percentage."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from winebench.model.recipe import Measured
from winebench.plan.typed.acidity import (
    ACID_NAME,
    ACID_UNIT,
    HIGHEST_PH,
    LOWEST_PH,
    MOST_ACID_OF_FRUIT,
    tartaric_g_per_l,
)
from winebench.plan.typed.number_words import UNIT, digits
from winebench.plan.typed.numbers import pair
from winebench.plan.typed.remarks import Remark, Unread, written
from winebench.trade.gravity import brix_from_sg, sg_from_solids_g_per_l
from winebench.units import Gravity, Juice, UnitsError, gravity_meant, parse_number

LEAST_OF_CONCENTRATE, MOST_OF_CONCENTRATE = 1.2, 1.43
"""SG of a concentrate, up to 84 °Brix."""
_NUM = r"\d{0,5}[.,]?\d{1,6}(?:\s*(?:-|to)\s*\d{0,5}[.,]?\d{1,6})?"
_SG = r"1[.,][01]\d{1,2}"
_IS = r"(?:[\s:=]|\b(?:is|of|at|about|reads?|measured)\b)*"
_FIGURE = re.compile(
    r"(?:\b(?:at|with|reads?|reading|measur(?:ed|es)|tests?|tested|(?<![a-z] )juice\s+"
    r"(?:at|of|reads?))\b[\s:=]*|@\s*)*"
    r"(?:"
    rf"(?P<in100>{_NUM})\s*g(?:rams?)?\s*(?:of\s+)?(?:sugars?|carbs|carbohydrates?)?\s*(?:/|per|in)\s*"
    r"100\s*ml\b"
    rf"|(?P<brix>{_NUM})\s*(?:[°º]|deg(?:rees)?\b)?\s*(?:brix|bx)\b\.?"
    rf"|[°º]?\s*\b(?:brix|bx)\b{_IS}(?P<brix2>{_NUM})"
    rf"|\b(?:s\.?\s?g\b\.?|sp\.?\s?gr\b\.?|(?:specific\s+)?gravity\b){_IS}(?P<sg>{_NUM})"
    rf"|(?<![\d.,/])(?P<sg2>{_SG}(?:\s*(?:-|to)\s*{_SG})?)(?!\d|[.,]\d|\s*(?:(?:-|to)\s*[\d.,]+\s*)?{UNIT}\b)\s*"
    r"(?:s\.?g\b\.?)?"
    rf"|\b(?:t\.?\s?a\b\.?|(?:titratable|total)\s+acid(?:ity)?|acidity){_IS}(?P<ta>{_NUM})"
    rf"\s*(?P<unit>{ACID_UNIT})?"
    rf"(?:\s*(?P<open>\()?(?:as\s+)?(?P<as>{ACID_NAME})(?:\s+acid)?(?(open)\)))?"
    rf"|\bacids?{_IS}(?P<ta3>{_NUM})\s*(?P<unit3>{ACID_UNIT})"
    rf"(?:\s*(?P<open3>\()?as\s+(?P<as3>{ACID_NAME})(?:\s+acid)?(?(open3)\)))?"
    rf"|(?P<ta2>{_NUM})\s*(?P<unit2>{ACID_UNIT})\s*(?:of\s+)?(?:(?P<as2>{ACID_NAME})\s+)?"
    rf"(?:t\.?\s?a\b\.?|(?:titratable\s+|total\s+)?acid(?:ity|s)?\b(?!\s+blend))"
    rf"|\bph\b{_IS}(?P<ph>{_NUM})"
    r")",
    re.IGNORECASE,
)
_NUMBERS = ("in100", "brix", "brix2", "sg", "sg2", "ta", "ta2", "ta3", "ph")
"""The groups of it that hold the number itself."""
_PERCENT = re.compile(
    r"\b(?P<percent>\d{1,3}(?:[.,]\d+)?)\s*(?:%|per\s?cent\b)\s*(?:by\s+(?:its\s+|the\s+)?label\b|"
    r"by\s+(?:weight|mass)\b|sugars?\b(?=\W*$)|solids\b)?"
    r"|\b(?P<label>\d{1,3}(?:[.,]\d+)?)\s*g(?:rams?)?\s*(?:of\s+)?(?:sugars?\s*)?(?:/|per|in)\s*100\s*g"
    r"(?:rams?)?\b",
    re.IGNORECASE,
)
_OF_THE_MUST = re.compile(
    r"(?:starting|original|initial|start|target|wanted|final|finish(?:ing)?|opening|ending|must)"
    r"(?:\s+specific)?\s*$",
    re.IGNORECASE,
)
_EMPTY = re.compile(r"\(\s*(?:[,;:/&]|\band\b|\s)*\)", re.IGNORECASE)
_JOINS = r"(?:[\s,;:/&–-]|\b(?:and|with|at|juice)\b)*"


class OwnFigures(NamedTuple):
    """What a line says of its own fruit or syrup."""

    juice: Juice | None = None
    acid_g_per_l: float | None = None
    ph: float | None = None
    percent: float | None = None
    """Sugar by mass, %, as a label states it."""
    remarks: tuple[Remark, ...] = ()
    """What is to be said of how they were read."""

    @property
    def measured(self) -> Measured:
        """Return them as what was measured on a fruit."""
        return Measured(juice=self.juice, acid_g_per_l=self.acid_g_per_l, ph=self.ph)

    @property
    def solids_percent(self) -> float | None:
        """Return them as what a syrup's label says, %; °Brix is per cent by mass."""
        if self.percent is not None or self.juice is None:
            return self.percent
        return self.juice.value if self.juice.scale == "Brix" else None


NONE = OwnFigures()


@lru_cache(maxsize=4096)
def split_off_figures(text: str, *, percent: bool = False) -> tuple[str, OwnFigures]:
    """Return the text without its own figures, and these; as typed where it has none.

    Raises:
        Unread: one of them cannot be, with what was probably meant in its place.

    """
    if not any(letter.isdigit() for letter in text):
        return text, NONE
    plain, found, rest, end = digits(text), NONE, [], 0
    for figure in _FIGURE.finditer(plain):
        if not _OF_THE_MUST.search(plain[: figure.start()]):
            found = _with(found, figure, plain)
            found = found._replace(remarks=(*found.remarks, *_ranged(figure)))
            rest.append(plain[end : figure.start()])
            end = figure.end()
    bare = " ".join([*rest, plain[end:]])
    share = _PERCENT.search(bare) if percent else None
    if share is not None:
        told = parse_number(share["percent"] or share["label"])
        if 0 < told <= 100:
            found = found._replace(percent=told)
            bare = f"{bare[: share.start()]} {bare[share.end() :]}"
    return (_tidy(bare), found) if found != NONE else (text, NONE)


def only_figures(text: str) -> bool:
    """Return whether the text is nothing but such figures: "15.5 Brix", "TA 18 g/L, pH 3.2"."""
    try:
        rest, found = split_off_figures(text, percent=True)
    except UnitsError:
        return True
    return found != NONE and not re.sub(_JOINS, "", rest.strip("(). "))


def _tidy(text: str) -> str:
    """Return the text without what joined the figures to it."""
    plain = _EMPTY.sub(" ", text)
    plain = re.sub(rf"\({_JOINS}", "(", plain)
    plain = re.sub(r"[\s,;:/&–-]*(?:\b(?:and|with|at|juice)\b\s*)?\)", ")", plain)
    plain = re.sub(r"\s*([,;])(?:\s*[,;])*", r"\1", plain)
    plain = re.sub(r"(?:[\s,;:/&=–-]|\b(?:and|with|at)\b)+$", "", plain)
    return " ".join(plain.split())


def _with(found: OwnFigures, figure: re.Match[str], plain: str) -> OwnFigures:
    brix, sg = figure["brix"] or figure["brix2"], figure["sg"] or figure["sg2"]
    if figure["in100"]:  # a label's grams of sugar, taken for all that is dissolved
        sg = float(sg_from_solids_g_per_l(10.0 * _middle(figure["in100"])))
        return found._replace(juice=_juice(f"{sg:.4f}", figure, plain))
    if brix:
        return found._replace(juice=_juice(f"{_middle(brix):g} brix", figure, plain))
    if sg:
        low, high = pair(sg)
        return found._replace(
            juice=_juice(low if low == high else f"{_middle(sg):g}", figure, plain)
        )
    if figure["ph"]:
        value = _middle(figure["ph"])
        if not LOWEST_PH <= value <= HIGHEST_PH:
            raise Unread(f"No fruit has a pH of {value:g}: {LOWEST_PH:g} to {HIGHEST_PH:g} can be.")
        return found._replace(ph=value)
    return found._replace(acid_g_per_l=_acid(figure, plain))


def _ranged(figure: re.Match[str]) -> Iterator[Remark]:
    """Give the remark that a range is read at its middle."""
    number = next(figure[name] for name in _NUMBERS if figure[name])
    low, high = pair(number)
    if parse_number(low) != parse_number(high):
        middle = f"{_middle(number):.4g}"
        yield Remark(sentence=f"{figure[0].strip(' @')} is a range; {middle} of it is read.")


def _middle(text: str) -> float:
    low, high = (parse_number(end) for end in pair(text))
    return (low + high) / 2.0


def _juice(text: str, figure: re.Match[str], plain: str) -> Juice:
    try:
        if "brix" not in text and LEAST_OF_CONCENTRATE < parse_number(text) <= MOST_OF_CONCENTRATE:
            return Juice(f"{brix_from_sg(parse_number(text)):.1f} brix")
        return Juice(text)
    except UnitsError as problem:
        value = _middle(
            figure["in100"] or figure["sg"] or figure["sg2"] or figure["brix"] or figure["brix2"]
        )
        meant = None if "brix" in text else gravity_meant(value)
        told = re.sub(r" (?:Did you mean|Read the hydrometer).*", "", str(problem))
        if meant is None:
            raise Unread(told) from None
        name = "" if "brix" in meant else "SG "
        raise Unread(
            told, written(_instead(plain, figure, f"{name}{Gravity(meant).text}"))
        ) from None


def _acid(figure: re.Match[str], plain: str) -> float:
    number, unit, acid = next(
        (figure[f"ta{n}"], figure[f"unit{n}"], figure[f"as{n}"])
        for n in ("", "2", "3")
        if figure[f"ta{n}"]
    )
    low, high = (tartaric_g_per_l(end, unit, acid) for end in pair(number))
    value = round((low + high) / 2.0, 2)
    if 0.5 <= value <= MOST_ACID_OF_FRUIT:
        return value
    times = 10.0 if value < 0.5 else 0.1
    ways = [written(_instead(plain, figure, f"TA {value * times:g} g/L"))]
    raise Unread(
        f"No fruit has an acidity of {value:g} g/L: 0.5 to {MOST_ACID_OF_FRUIT:g} can be.",
        *(ways if 0.5 <= value * times <= MOST_ACID_OF_FRUIT else []),
    )


def _instead(plain: str, figure: re.Match[str], text: str) -> str:
    before, after = plain[: figure.start()].rstrip(), plain[figure.end() :]
    return f"{before} {text}{after}".strip()
