"""Unit factors: pint defines them, and a small cache remembers them between starts.

Importing pint and making its registry costs a quarter of the time that the window takes to open;
after the first start the few factors that a kitchen needs are read from the user's cache folder.
"""

from __future__ import annotations

import contextlib
import json
import os
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from winebench import __version__

if TYPE_CHECKING:
    from pint import UnitRegistry


@cache
def registry() -> UnitRegistry[Any]:
    """Return the program's one pint registry, made at first use."""
    import pint

    return pint.UnitRegistry()


def factor(unit: str, to: str) -> float:
    """Return how many `to` are in one `unit`, both by pint's names."""
    known = _remembered()
    key = f"{unit} in {to}"
    if key not in known:
        known[key] = float(registry().Quantity(1, unit).to(to).magnitude)
        _remember(known)
    return known[key]


@cache
def _place() -> Path:
    from platformdirs import user_cache_path

    # By version: a new release asks pint anew.
    return user_cache_path("winebench", appauthor=False) / f"factors-{__version__}.json"


@cache
def _remembered() -> dict[str, float]:
    try:
        found = json.loads(_place().read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    sound = isinstance(found, dict) and all(
        isinstance(value, float) and 0.0 < value < 1e6 for value in found.values()
    )
    return found if sound else {}


def _remember(known: dict[str, float]) -> None:
    """Keep the factors for the next start; a folder that cannot be written only costs time."""
    place = _place()
    mine = place.with_suffix(f".{os.getpid()}")
    with contextlib.suppress(OSError):
        place.parent.mkdir(parents=True, exist_ok=True)
        mine.write_text(json.dumps(known, indent=1, sort_keys=True), "utf-8")
        mine.replace(place)
