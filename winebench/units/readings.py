"""What an instrument shows, as typed: a temperature, a gravity, the juice of a fruit."""

from __future__ import annotations

import re
from typing import ClassVar, Literal

from winebench.units.numbers import UnitsError
from winebench.units.typed import Typed

LOWEST_SG, HIGHEST_SG = 0.970, 1.200
"""No wine is thinner, no must that yeast could start in thicker (common practice)."""


class Temperature(Typed):
    """A temperature as typed: "68 °F", "20 C", "20 degC". Immutable, equal by text."""

    __slots__ = ("celsius",)
    celsius: float
    _FORM: ClassVar[re.Pattern[str]] = re.compile(
        r"\s*([-−]?\d{1,3}(?:[.,]\d{1,3})?)\s*(?:[°º˚]|deg\.?|degrees?)?\s*"
        r"(C|F|celsius|fahrenheit)\.?\s*",
        re.IGNORECASE | re.ASCII,
    )

    def __init__(self, text: str) -> None:
        found = self._FORM.fullmatch(text.replace("℃", "°C").replace("℉", "°F"))
        if found is None:
            raise UnitsError(f'"{text.strip()}" is not a temperature; write 68 °F or 20 °C.')
        degrees = float(found[1].replace(",", ".").replace("−", "-"))
        celsius = degrees if found[2][0] in "cC" else (degrees - 32.0) / 1.8
        if not -30.0 <= celsius <= 110.0:
            raise UnitsError(f'"{text.strip()}" is not a kitchen temperature; check °F or °C.')
        super().__init__(text)
        object.__setattr__(self, "celsius", celsius)

    @property
    def fahrenheit(self) -> bool:
        """Return whether it was typed in °F."""
        return "f" in self.text.lower() or "℉" in self.text


class Gravity(Typed):
    """A gravity as typed: "1.090", "1,090" or "22 brix". Immutable, equal by text.

    Only what a wine or must can be is accepted: SG 0.970-1.200, 0-50 °Brix. Anything else
    raises with what was probably meant, for the person to confirm.
    """

    __slots__ = ("scale", "value")
    most_brix: ClassVar[float] = 50.0
    value: float
    scale: Literal["SG", "Brix"]

    def __init__(self, text: str) -> None:
        found = re.fullmatch(
            r"\s*(?:SG\s*)?(\d{1,5}(?:[.,]\d{1,6})?|[.,]\d{1,6})\s*(?:°|deg)?\s*(SG|brix|bx)?\s*",
            text,
            re.IGNORECASE | re.ASCII,
        )
        if found is None:
            raise UnitsError(f'"{text.strip()}" is not a gravity; write one such as 1.090.')
        value = float(found[1].replace(",", "."))
        scale: Literal["SG", "Brix"] = "Brix" if (found[2] or "")[:1] in ("b", "B") else "SG"
        if scale == "Brix" and not 0.0 <= value <= self.most_brix:
            most = f"{self.most_brix:g}"
            raise UnitsError(f'"{text.strip()}" is outside 0-{most} °Brix; read it again.')
        if scale == "SG" and not LOWEST_SG <= value <= HIGHEST_SG:
            raise UnitsError(_gravity_hint(text.strip(), value))
        super().__init__(text)
        object.__setattr__(self, "value", value)
        object.__setattr__(self, "scale", scale)


class Juice(Gravity):
    """The gravity of a fruit's juice: as `Gravity`, and a concentrate's label up to 84 °Brix."""

    __slots__ = ()
    most_brix = 84.0


def gravity_meant(value: float) -> str | None:
    """Return what a slip such as 1096, 0.0998 or 24 was probably meant to be, or None."""
    if 970 <= value <= 1200:
        return f"{value / 1000:.3f}"
    if 97 <= value <= 120:
        return f"{value / 100:.3f}"
    if 0.097 <= value <= 0.12:
        return f"{value * 10:.3f}"
    if 1.2 < value < 2 and 1.0 <= 1 + (value - 1) / 10 <= 1.2:
        return f"{1 + (value - 1) / 10:.3f}"
    if 2 <= value <= 45:
        return f"{value:g} brix"
    return None


def _gravity_hint(text: str, value: float) -> str:
    meant = gravity_meant(value)
    ask = f' Did you mean "{meant}"?' if meant else " Read the hydrometer again."
    return f'"{text}" is not a gravity a wine can have ({LOWEST_SG:.3f} to {HIGHEST_SG:.3f}).{ask}'
