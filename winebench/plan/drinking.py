"""When a wine is ready to drink, counted from the bottling: by its makeup, beside its style."""

from __future__ import annotations

from typing import NamedTuple

from winebench.catalog.styles import Style
from winebench.plan.figures import figure, workings
from winebench.plan.outlook import Figure
from winebench.trade.ageing import (
    LIGHT_MONTHS,
    SHARP_G_PER_L,
    STRONG_PERCENT,
    months_to_ready,
)
from winebench.trade.ranges import NotKnown
from winebench.trade.workings import Workings

READY = 0.5
"""Share of the style's best age from which a wine is ready (common practice)."""
_RULE = (
    f"{LIGHT_MONTHS:g} months for a light wine, {LIGHT_MONTHS:g} more for each 0.544 g/L of tannin "
    f"(a mean red wine's), one for each percent above {STRONG_PERCENT:g} and for each g/L of acid "
    f"above {SHARP_G_PER_L:g}"
)
_SOURCE = "common practice; what each percent and gram asks for has no source beyond it"


class Makeup(NamedTuple):
    """What of a wine says how long it wants."""

    abv: float
    acid_g_per_l: float
    tannin: Figure
    """g/L, with its range; not known where the fruit's is not."""


class Asks(NamedTuple):
    """What asks for how many months beyond those of a light wine."""

    tannin: float
    strength: float
    acid: float


def by_style(style: Style) -> float:
    """Return months after bottling from which wines of the style are ready. Common practice."""
    return round(READY * style.months_best)


def ready(style: Style, of: Makeup) -> Figure:
    """Return months after bottling from which this wine is ready; common practice.

    By its strength, acid and tannin; by its style alone where one of them is not known.
    """
    if of.tannin.value is None:
        return _by_style_alone(style)
    ends = (of.tannin.value, of.tannin.low, of.tannin.high)
    try:
        value, low, high = (_months(of, of.tannin.value if end is None else end) for end in ends)
    except NotKnown:
        return _by_style_alone(style)
    work = _work(
        style, f"{_RULE}. A beginning, not a date: taste one", f"{value:.0f}",
        ("strength", f"{of.abv:.1f}", "% vol"), ("tannin", of.tannin.text, "g/L"),
        ("acid", f"{of.acid_g_per_l:.1f}", "g/L"),
    )  # fmt: skip
    return figure(value, "months", 0, low=low, high=high, workings=work)


def asks(of: Makeup) -> Asks:
    """Return the months that each asks for beyond a light wine's; all 0 where not known."""
    if of.tannin.value is None:
        return Asks(0.0, 0.0, 0.0)
    try:
        return Asks(
            tannin=months_to_ready(0.0, of.tannin.value, 0.0) - LIGHT_MONTHS,
            strength=months_to_ready(of.abv, 0.0, 0.0) - LIGHT_MONTHS,
            acid=months_to_ready(0.0, 0.0, of.acid_g_per_l) - LIGHT_MONTHS,
        )
    except NotKnown:
        return Asks(0.0, 0.0, 0.0)


def _months(of: Makeup, tannin: float) -> float:
    return months_to_ready(of.abv, tannin, of.acid_g_per_l)


def _by_style_alone(style: Style) -> Figure:
    words = "half the best age of the style, for want of the must's own figures"
    return figure(by_style(style), "months", 0, workings=_work(style, words, f"{by_style(style)}"))


def _work(style: Style, words: str, result: str, *inputs: tuple[str, str, str]) -> Workings:
    best = f"{style.months_best:g}"
    said = (
        f"{words}. Wines of this style are ready about {by_style(style)} months after bottling "
        f"and at their best after about {best}; a first taste after {style.months_first_taste:g}"
    )
    return workings("drink-from", said, result, "months", _SOURCE, *inputs,
                    ("best age of the style", best, "months"))  # fmt: skip
