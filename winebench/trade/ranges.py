"""How every rule says that it does not know: outside its range, never a smooth lie."""

from __future__ import annotations

from typing import Any, Generic, NamedTuple, TypeVar, cast

import numpy as np
from numpy.typing import NDArray

Numbers = TypeVar("Numbers", float, NDArray[np.float64])
"""A single number or an array of them; a rule gives back the same shape."""


class NotKnown(ValueError):
    """The rule's source does not cover this value; the message is for the person."""


class Spread(NamedTuple, Generic[Numbers]):
    """One figure, with the lowest and the highest that published relations give."""

    figure: Numbers
    low: Numbers
    high: Numbers


def known(
    value: Numbers,
    low: float | NDArray[np.float64],
    high: float | NDArray[np.float64],
    what: str,
) -> Numbers:
    """Return the value if it lies in the range.

    Raises:
        NotKnown: a single number outside; in an array such elements become nan.

    """
    inside = (value >= low) & (value <= high)
    if isinstance(inside, np.ndarray):
        return cast("Numbers", np.where(inside, value, np.nan))
    if not inside:
        raise NotKnown(
            f"{what} {value:g} is not known here; the rule holds from {low:g} to {high:g}."
        )
    return value


def volume(litres: Numbers) -> Numbers:
    """Return the volume if it is one that a cellar can hold, 0 to 100 000 L."""
    return known(litres, 0.0, 100_000.0, "a volume (L) of")


def more_than_nothing(value: Numbers, most: float, what: str) -> Numbers:
    """Return the value if something can be divided by it."""
    if not isinstance(value, np.ndarray) and 0.0 <= value < _NOTHING:
        raise NotKnown(f"{what} {value:g} is not known here; it must be more than nothing.")
    return known(value, _NOTHING, most, what)


_NOTHING = 1e-6
"""Less than any scale or jug can tell."""


def plain(value: Any) -> Any:
    """Return an array as it is, and one number as a float."""
    return value if getattr(value, "ndim", 0) else float(value)


def at_least(floor: float, value: Numbers) -> Numbers:
    """Return the value, or the floor where it is below."""
    if isinstance(value, np.ndarray):
        return cast("Numbers", np.maximum(value, floor))
    return max(value, floor)


def powers(coefficients: tuple[float, ...], x: Numbers) -> Numbers:
    """Return c0 + c1 x + c2 x² ..., by Horner's scheme."""
    total = x * 0.0 + coefficients[-1]
    for coefficient in reversed(coefficients[:-1]):
        total = total * x + coefficient
    return total


def between(
    rows: NDArray[np.float64],
    columns: NDArray[np.float64],
    table: NDArray[np.float64],
    row: Numbers,
    column: Numbers,
) -> Numbers:
    """Return the value of a table by straight lines between its rows and its columns.

    Both must lie in the table; an element that is nan gives nan.
    """
    across, down = np.broadcast_arrays(column, row)
    low = np.clip(np.searchsorted(rows, down, side="right") - 1, 0, len(rows) - 2)
    left = np.clip(np.searchsorted(columns, across, side="right") - 1, 0, len(columns) - 2)
    below = (down - rows[low]) / (rows[low + 1] - rows[low])
    right = (across - columns[left]) / (columns[left + 1] - columns[left])
    upper = table[low, left] * (1.0 - right) + table[low, left + 1] * right
    lower = table[low + 1, left] * (1.0 - right) + table[low + 1, left + 1] * right
    found: Numbers = plain(upper * (1.0 - below) + lower * below)
    return found
