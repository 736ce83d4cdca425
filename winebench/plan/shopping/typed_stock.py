"""How the pantry's fields read their text."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date

from winebench.model.price import Price
from winebench.model.rough_day import MONTHS, RoughDay
from winebench.plan.typed.when import DAY, days_meant
from winebench.units import NUMBER, Amount, UnitsError, parse_number

_SIGN = re.compile(r"[$£€¥]")
_MONEY = re.compile(r"(?=[^\W\d]|.*[$£€¥₩₪₹₺₽₴₱฿₫¢])[^\s\d,;:!?\"()]{1,8}")
"""One word without a figure in it, of letters or with a sign of money."""
_WEIGHT = re.compile(r"(?P<number>\d+(?:[.,]\d)?)\s*(?P<of>[a-z]+)", re.IGNORECASE | re.ASCII)
"""A number without pence and a unit: "8 oz", but not "3.50 lb"."""
_ABOUT = re.compile(r"^(?:about|around|circa|ca\.?|in|since)\s+", re.IGNORECASE)
_DOZEN = re.compile(
    rf"(?:an?\s+|(?P<number>{NUMBER})\s*)?dozens?(?:\s+(?:of\s+)?(?P<of>[a-z]+))?",
    re.IGNORECASE | re.ASCII,
)
_SLASHED = re.compile(r"(\d{1,2})\s*/\s*(\d{4})", re.ASCII)


def amount_of(unit: str) -> Callable[[str], Amount]:
    """Return a reader of amounts; of things that are counted a bare number or dozens will do."""

    def read(text: str) -> Amount:
        if unit in ("g", "L"):
            return Amount(text)
        dozens = _DOZEN.fullmatch(text.strip())
        if dozens is not None:
            many = dozens["number"] or "1"
            return Amount(f"{12.0 * parse_number(many):g} {dozens['of'] or f'{unit}s'}")
        try:
            parse_number(text)
        except UnitsError:
            return Amount(text)
        return Amount(f"{text.strip()} {unit}s")

    return read


def money_name(text: str) -> str:
    """Return what prices are in: a sign such as $, a code such as EUR (ISO 4217), a short word.

    Raises:
        UnitsError: it is something else.

    """
    name = text.strip()
    if _MONEY.fullmatch(name):
        return name
    shown = f"{name[:20]}…" if len(name) > 20 else name
    raise UnitsError(
        f'"{shown}" names no money; write its sign such as $, a code such as EUR, or one short '
        "word such as pounds."
    )


def price_in(money: str, of: str = "") -> Callable[[str], Price]:
    """Return a reader of prices; the money's name may stand before or behind the number.

    Where no money is named yet, any sign of one is taken. A bare number is kept as a price `of`
    that, such as "a lb". "8 oz" is asked about: it looks like a weight.
    """
    name = money.strip()
    named = re.compile(rf"(?<![^\W\d]){re.escape(name)}(?![^\W\d])", re.IGNORECASE)
    sign = named if name else _SIGN

    def read(text: str) -> Price:
        bare = " ".join(sign.sub(" ", text, count=1).split())
        weight = _WEIGHT.fullmatch(bare)
        if weight is not None and bare == text.strip():
            number, unit = weight["number"], weight["of"]
            raise UnitsError(
                f'"{bare}" looks like an amount; for a price write {number} a {unit}, or '
                f"{number} alone."
            )
        price = Price(bare)
        return Price(f"{bare} {of}") if of and price.of is None else price

    return read


def opened_by(today: date) -> Callable[[str], RoughDay]:
    """Return a reader of past days, months and years; without a year it is the latest such one."""

    def read(text: str) -> RoughDay:
        found = _rough_day(_ABOUT.sub("", text.strip()), today)
        if found.first > today:
            raise UnitsError(f'"{text.strip()}" is still to come; write when it was opened.')
        return found

    return read


def _rough_day(text: str, today: date) -> RoughDay:
    slashed = _SLASHED.fullmatch(text)
    if slashed is not None and 1 <= int(slashed[1]) <= len(MONTHS):
        text = f"{MONTHS[int(slashed[1]) - 1]} {slashed[2]}"
    for words in (text, f"{text} {today.year}", f"{text} {today.year - 1}"):
        try:
            found = RoughDay(words)
        except UnitsError:
            continue
        if words == text or found.first <= today:
            return found
    return _day(text, today)


def _day(text: str, today: date) -> RoughDay:
    """Return the one day that the words mean; UnitsError where they mean none, or two."""
    found = DAY.fullmatch(text.lower())
    days = days_meant(found, today) if found else ()
    if len(days) > 1:
        one, other = (RoughDay(day.isoformat()).words for day in days)
        raise UnitsError(f'"{text}" could be {one} or {other}; write the month as a word.')
    if not days:
        raise UnitsError(
            f'"{text}" is not a day; write one such as 3 Mar 2025, March 2025 or 2025.'
        )
    (day,) = days
    return RoughDay(f"{day.day} {MONTHS[day.month - 1][:3]} {day.year}")
