"""Fit a ferment that is over, for the next one to learn from."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from winebench.forecast.api import Evidence
from winebench.forecast.case import put_in_order
from winebench.forecast.learned import LEARNT, Finished
from winebench.forecast.posterior import weigh

OVER_SG = 1.005
"""A ferment whose lowest reading is above this has shown too little of its end."""
FEWEST = 4
"""Readings after the pitch; fewer leave rate, start and slowing mixed up."""


CURVES, CURVE_MOVES = 1500, 6
"""A finished ferment has many readings and is fitted once: more care than a forecast has time for.
"""


class NotFinishedError(ValueError):
    """Readings that teach nothing of a whole ferment: why, and what to do."""


@lru_cache(maxsize=64)
def finished(evidence: Evidence) -> Finished:
    """Return what a finished ferment says of its maker. Raises NotFinishedError."""
    case = put_in_order(evidence)
    worked = [o.sg for o in case.readings if o.hours > 0]
    if case.start_h > 0:
        raise NotFinishedError("it was pitched afresh, so it is no usual ferment; leave it out")
    if len(worked) < FEWEST:
        raise NotFinishedError(
            f"it has {len(worked)} readings after the pitch; it takes {FEWEST} to learn from"
        )
    if min(worked) > OVER_SG:
        raise NotFinishedError(
            f"its lowest reading is {min(worked):.3f}; learn from it once it is below {OVER_SG:.3f}"
        )
    sample = weigh(case, "dry", count=CURVES, moves=CURVE_MOVES).sample
    z = sample.z[:, LEARNT]
    middles = sample.weights @ z
    spreads = np.sqrt(sample.weights @ (z - middles) ** 2)
    return Finished(tuple(middles.tolist()), tuple(np.minimum(spreads, 1.0).tolist()))
