"""From hydrometer readings to the day each gravity is reached, with honest bands.

Knows nothing of Qt, files or the clock: the same evidence gives the same forecast everywhere.
"""

from winebench.forecast.api import (
    Crossing,
    Curve,
    Event,
    Evidence,
    Forecast,
    Observation,
    Setup,
)
from winebench.forecast.finished_ferment import NotFinishedError, finished
from winebench.forecast.forecaster import cached_forecast, forecast, gravity_at
from winebench.forecast.learned import Finished, Learned, learn

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
