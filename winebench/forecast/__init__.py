"""From hydrometer readings to the day each gravity is reached, with honest bands.

Knows nothing of Qt, files or the clock: the same evidence gives the same forecast everywhere.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

from winebench.forecast.api import (
    Crossing,
    Curve,
    Event,
    Evidence,
    Forecast,
    Observation,
    Setup,
)

if TYPE_CHECKING:
    from winebench.forecast.finished_ferment import NotFinishedError, finished
    from winebench.forecast.forecaster import cached_forecast, forecast, gravity_at
    from winebench.forecast.learned import Finished, Learned, learn

_HOMES = {
    "finished_ferment": ("NotFinishedError", "finished"),
    "forecaster": ("cached_forecast", "forecast", "gravity_at"),
    "learned": ("Finished", "Learned", "learn"),
}
"""What is loaded when it is first asked for: a window that opens has no forecast to make yet."""

__all__ = [
    "Crossing",
    "Curve",
    "Event",
    "Evidence",
    "Finished",
    "Forecast",
    "Learned",
    "NotFinishedError",
    "Observation",
    "Setup",
    "cached_forecast",
    "finished",
    "forecast",
    "gravity_at",
    "learn",
]


def __getattr__(name: str) -> Any:
    home = next((home for home, names in _HOMES.items() if name in names), None)
    if home is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{home}"), name)
