"""Quantities in files: the text as typed, both ways."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from winebench.units import Amount, Gravity, Temperature

EXAMPLES: dict[type, str] = {Temperature: "20 °C or 68 °F", Gravity: "1.090 or 22 brix"}


def example(kind: type) -> str:
    """Return how a quantity of that kind may be written."""
    return kind.example if issubclass(kind, Amount) else EXAMPLES[kind]


def is_quantity(kind: type) -> bool:
    """Return whether the model's own quantity type is meant."""
    return issubclass(kind, (Amount, Temperature, Gravity))


def as_written(value: Any) -> str:
    """Return the quantity's text, for an encoder."""
    if isinstance(value, (Amount, Temperature, Gravity)):
        return value.text
    raise NotImplementedError(f"a project holds no {type(value).__name__}")


def from_written(kind: type, value: Any) -> Any:
    """Return the quantity of that text, for a decoder; UnitsError says what is wrong."""
    if not isinstance(value, str):
        raise ValueError(f"this must be text in quotes such as {example(kind)}")
    return _quantity(kind, value)


@lru_cache(maxsize=4096)
def _quantity(kind: type, text: str) -> Any:
    """Return the quantity; a sensor's log says the same few hundred over and over."""
    return kind(text)
