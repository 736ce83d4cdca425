"""Make figures: the digits they deserve, their range, and their workings."""

from __future__ import annotations

from functools import lru_cache

from winebench.plan.outlook import Figure
from winebench.trade.ranges import NotKnown
from winebench.trade.rules import work
from winebench.trade.workings import Input, Workings
from winebench.units import Amount, GallonCountry

NOT_KNOWN = "not known here"


def figure(
    value: float | None,
    unit: str,
    digits: int,
    *,
    low: float | None = None,
    high: float | None = None,
    workings: Workings | None = None,
) -> Figure:
    """Return a figure shown with so many digits; a range is put in order."""
    if value is None:
        return Figure(value=None, unit=unit, text=NOT_KNOWN, workings=workings)
    if low is not None and high is not None:
        low, high = min(low, high, value), max(low, high, value)
    return Figure(
        value=value, low=low, high=high, unit=unit, text=shown(value, digits), workings=workings
    )


def shown(value: float, digits: int) -> str:
    """Return the number with so many decimals, never a minus nought."""
    return f"{round(value, digits) + 0.0:.{digits}f}"  # + 0.0 takes the minus off a nought


def workings(
    rule: str, words: str, result: str, unit: str, source: str, *inputs: tuple[str, str, str]
) -> Workings:
    """Return the workings of a figure that the plan itself worked out."""
    return Workings(rule, words, tuple(Input(*given) for given in inputs), result, unit, source)


@lru_cache(maxsize=256)
def by_rule(name: str, unit: str, digits: int, **arguments: float | str) -> Figure:
    """Return the figure that a rule of the trade gives, with its workings; or not known."""
    try:
        found = work(name, **arguments)
    except NotKnown:
        return Figure(value=None, unit=unit, text=NOT_KNOWN)
    low, high = (ends[0] if ends else None for ends in (found.low, found.high))
    return figure(found.values[0], unit, digits, low=low, high=high, workings=found)


_IN_ML_L = 0.0995
"""Less than this, shown as 0.10 L, is told in mL."""


def grams_text(grams: float) -> str:
    """Return a mass for people: "0.46 g", "16 g", "850 g", "9.92 kg"."""
    if abs(grams) >= 1000:
        return f"{grams / 1000:.2f} kg"
    if abs(grams) >= 10:
        return f"{grams:.0f} g"
    return f"{grams:.2f} g" if abs(grams) < 3 else f"{grams:.1f} g"


def litres_text(litres: float) -> str:
    """Return a volume for people: "38 mL", "0.25 L", "8.1 L"."""
    if 0.0 < abs(litres) < _IN_ML_L:
        return f"{litres * 1000.0:.0f} mL"
    return f"{litres:.2f} L" if abs(litres) < 1 else f"{litres:.1f} L"


def with_country(amount: Amount, gallon: GallonCountry | None) -> str:
    """Return the amount as typed, a bare gallon with its country beside it: "5 gal US"."""
    text = amount.text.strip()
    return f"{text} {gallon}" if amount.needs_country and gallon else text
