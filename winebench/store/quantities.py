"""Quantities in files: the text as typed, both ways."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from winebench.model.price import Price
from winebench.model.rough_day import RoughDay
from winebench.units import Amount, Gravity, Juice, Temperature, Typed

EXAMPLES: dict[type, str] = {
    Temperature: "20 °C or 68 °F",
    Gravity: "1.090 or 22 brix",
    Juice: "1.050, 12 brix or a concentrate's 68 brix",
    Price: "3.50 or 3.50 a lb",
    RoughDay: "2025-03-03, March 2025 or 2025",
}


def example(kind: type) -> str:
    """Return how a quantity of that kind may be written."""
    return kind.example if issubclass(kind, Amount) else EXAMPLES[kind]


def is_quantity(kind: type) -> bool:
    """Return whether the model's own quantity type is meant."""
    return issubclass(kind, Typed)


def may_be_number(kind: type) -> bool:
    """Return whether a bare number stands for such a quantity too: a price had no words before."""
    return kind is Price


def as_written(value: Any) -> str:
    """Return the quantity's text, for an encoder."""
    if isinstance(value, Typed):
        return value.text
    raise NotImplementedError(f"a project holds no {type(value).__name__}")


def from_written(kind: type, value: Any) -> Any:
    """Return the quantity of that text, for a decoder; UnitsError says what is wrong."""
    if may_be_number(kind) and isinstance(value, int | float) and not isinstance(value, bool):
        return Price.of_number(value)
    if not isinstance(value, str):
        raise ValueError(f"this must be text in quotes such as {example(kind)}")
    return _quantity(kind, value)


@lru_cache(maxsize=4096)
def _quantity(kind: type, text: str) -> Any:
    """Return the quantity; a sensor's log says the same few hundred over and over."""
    return kind(text)
