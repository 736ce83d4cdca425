"""How every rule says that it does not know: outside its range, never a smooth lie."""

from __future__ import annotations

from typing import TypeVar, cast

import numpy as np
from numpy.typing import NDArray

Numbers = TypeVar("Numbers", float, NDArray[np.float64])
"""A single number or an array of them; a rule gives back the same shape."""


class NotKnown(ValueError):
    """The rule's source does not cover this value; the message is for the person."""


def known(value: Numbers, low: float, high: float, what: str) -> Numbers:
    """Return the value if it lies in the range.

    Raises:
        NotKnown: a single number outside; in an array such elements become nan.

    """
    if isinstance(value, np.ndarray):
        inside = (value >= low) & (value <= high)
        return cast("Numbers", np.where(inside, value, np.nan))
    if not low <= value <= high:
        raise NotKnown(
            f"{what} {value:g} is not known here; the rule holds from {low:g} to {high:g}."
        )
    return value


def powers(coefficients: tuple[float, ...], x: Numbers) -> Numbers:
    """Return c0 + c1 x + c2 x² ..., by Horner's scheme."""
    total = x * 0.0 + coefficients[-1]
    for coefficient in reversed(coefficients[:-1]):
        total = total * x + coefficient
    return total
