"""A measured input with its uncertainty, and what that makes of a rule's result.

The rule is run at the corners of what was measured and at points between; the lowest and the
highest result are shown. Nearly every rule only rises or only falls with each argument, and then
the corners are exact; the points between find the few turns, such as water's at 4 °C.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import product
from typing import Any, NamedTuple

import numpy as np

from winebench.trade.ranges import NotKnown, Spread

_POINTS = {1: 33, 2: 9, 3: 5, 4: 3}
"""Points an argument, by how many arguments are uncertain; from five on the corners alone."""


class Measured(NamedTuple):
    """A reading between the lowest and the highest that it may be, all in one unit."""

    value: float
    low: float
    high: float


class Result(NamedTuple):
    """The figures of a rule, one or several, each with its lowest and highest."""

    figures: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    names: tuple[str, ...]
    """What each figure is called, where there are several."""
    spread: bool = False
    """Whether published relations alone spread the figure."""


def run(function: Callable[..., Any], arguments: Mapping[str, Any]) -> Result:
    """Run a rule; an argument may be `Measured`.

    Raises:
        NotKnown: the rule does not know an answer for the values, or for an end of them.

    """
    middle = {name: _middle(given) for name, given in arguments.items()}
    found = _parts(function(**middle))
    try:
        seen = [_parts(function(**{**middle, **point})) for point in _points(arguments)]
    except NotKnown as problem:
        raise NotKnown(f"somewhere within what was measured, {problem}") from problem
    lows, highs = zip(*((part.low, part.high) for part in (found, *seen)), strict=True)
    return Result(
        found.figures,
        tuple(min(each) for each in zip(*lows, strict=True)),
        tuple(max(each) for each in zip(*highs, strict=True)),
        found.names,
        found.spread,
    )


def _middle(given: Any) -> Any:
    return given.value if isinstance(given, Measured) else given


def _points(arguments: Mapping[str, Any]) -> Iterator[dict[str, float]]:
    loose = {name: given for name, given in arguments.items() if isinstance(given, Measured)}
    if not loose:
        return
    number = _POINTS.get(len(loose), 2)
    axes = [np.linspace(given.low, given.high, number).tolist() for given in loose.values()]
    for point in product(*axes):
        yield dict(zip(loose, point, strict=True))


def _parts(result: Any) -> Result:
    if isinstance(result, Spread):
        return Result((result.figure,), (result.low,), (result.high,), (), spread=True)
    if isinstance(result, tuple):
        figures = tuple(result)
        return Result(figures, figures, figures, getattr(result, "_fields", ()))
    return Result((result,), (result,), (result,), ())
