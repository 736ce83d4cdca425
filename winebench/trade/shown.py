"""Figures with the digits that they deserve."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from winebench.trade.measured import Measured, Result

# Decimals that a reading on each scale deserves.
_DECIMALS = {"SG": 4, "°Brix": 2, "°Oechsle": 1, "°Baumé": 1, "% vol": 1, "% mass": 2, "kg/m³": 2,
             "°C": 1, "°F": 1, "g/L": 1, "mg/L": 1, "mg": 0, "nD": 5, "bar": 1}  # fmt: skip
_FINER_BELOW_TEN = ("g/L", "mg/L")
_MOST_DECIMALS = 6
_FIGURES = 3
"""Figures of an amount: more than a kitchen scale or a jug tells."""


def shown(result: Result, units: Sequence[str]) -> list[str]:
    """Return each figure, with its lowest and highest where they part from it."""
    return [
        _one(figure, low, high, unit)
        for figure, low, high, unit in zip(*result[:3], units, strict=True)
    ]


def shown_input(given: Any) -> str:
    """Return an argument as it is listed under the result."""
    if isinstance(given, Measured):
        up, down = given.high - given.value, given.value - given.low
        if math.isclose(up, down, rel_tol=1e-6):
            return f"{given.value:.6g} ± {up:.3g}"
        return f"{given.value:.6g} ({given.low:.6g} to {given.high:.6g})"
    return f"{given:.6g}" if isinstance(given, float) else str(given)


def _one(figure: float, low: float, high: float, unit: str) -> str:
    scale = next((known for known in _DECIMALS if unit.startswith(known)), None)
    if isinstance(figure, int):
        said, least, most = str(figure), str(low), str(high)
    elif scale:
        finer = scale in _FINER_BELOW_TEN and abs(figure) < 10.0
        decimals = _DECIMALS[scale] + finer
        said, least, most = (f"{value + 0.0:.{decimals}f}" for value in (figure, low, high))
    else:
        decimals = _decimals(figure, high - low)
        said, least, most = (
            f"{round(v, decimals) + 0.0:.{decimals}f}" for v in (figure, low, high)
        )
        if least == most and decimals:
            said = least = most = said.rstrip("0").rstrip(".")
    return said if least == most else f"{said} ({least} to {most})"


def _decimals(figure: float, width: float) -> int:
    """Return an amount's decimals: three figures, but two where its range leaves no more."""
    size = math.floor(math.log10(abs(figure))) if figure else 0
    certain = -math.floor(math.log10(width)) if width > 0.0 else _FIGURES
    return max(0, min(_FIGURES - 1 - size, max(certain, _FIGURES - 2 - size), _MOST_DECIMALS))
