"""How the pantry's fields read their text."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

from winebench.plan.typed.numbers import number
from winebench.units import Amount, UnitsError, parse_number

_HALF_A_YEAR = timedelta(days=182)
_MOST = 1_000_000.0


def amount_of(unit: str) -> Callable[[str], Amount]:
    """Return a reader of amounts; of things that are counted a bare number will do."""

    def read(text: str) -> Amount:
        if unit not in ("g", "L"):
            try:
                parse_number(text)
            except UnitsError:
                pass
            else:
                return Amount(f"{text.strip()} {unit}s")
        return Amount(text)

    return read


def price_in(money: str) -> Callable[[str], float]:
    """Return a reader of prices; the money's name may stand before or behind."""
    plain = number(0.0, _MOST, money.strip())

    def read(text: str) -> float:
        bare = text.strip()
        return plain(bare.removeprefix(money.strip()) if money.strip() else bare)

    return read


def before(day: date) -> date:
    """Return the day that a past day without a year is read nearest to."""
    return day - _HALF_A_YEAR
