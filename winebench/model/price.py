"""A price as typed: of a pack, or of so much by weight, volume or number."""

from __future__ import annotations

import re
from typing import ClassVar, Self

from winebench.units import NUMBER, Amount, Typed, UnitsError, parse_number, plain_text, trimmed


class Price(Typed):
    """A price as typed, without its money: "3.50", "3.50 a lb", "12/gal", "6 for 30 corks"."""

    __slots__ = ("of", "value")
    value: float
    of: Amount | None
    """What it is the price of; None means of a pack, or of what the list sells it by."""
    _FORM: ClassVar[re.Pattern[str]] = re.compile(
        rf"(?P<number>{NUMBER})(?!\d|e\d)\s*(?:(?:/|\b(?:an?|per|for|the)\b)?\s*(?P<of>\S.*))?",
        re.IGNORECASE | re.ASCII,
    )

    def __init__(self, text: str) -> None:
        plain = re.sub(r"\s+(?:each|apiece)$", " a piece", plain_text(text), flags=re.IGNORECASE)
        found = self._FORM.fullmatch(plain)
        if found is None:
            raise UnitsError(
                f'"{text.strip()}" is not a price; write one such as 3.50, 3.50 a lb or 12 a gal.'
            )
        of = _what(found["of"]) if found["of"] else None
        if of is not None and not any(part.number for part in of.parts):
            raise UnitsError(f'"{text.strip()}" is the price of nothing; write 3.50 a lb.')
        super().__init__(text)
        object.__setattr__(self, "value", parse_number(found["number"]))
        object.__setattr__(self, "of", of)

    @classmethod
    def of_number(cls, value: float) -> Self:
        """Return the price of a bare number, to the millionth."""
        return cls(trimmed(value, 6))


def _what(text: str) -> Amount:
    """Return what a price is of: "lb" is one pound.

    Raises:
        UnitsError: it is no amount.

    """
    try:
        return Amount(text if text[0].isdigit() or text[0] in ".," else f"1 {text}")
    except UnitsError:
        raise UnitsError(
            f'"{text}" is nothing that a price can be of; write 3.50 a lb, 12 a gal, or the bare '
            "number for a pack."
        ) from None
