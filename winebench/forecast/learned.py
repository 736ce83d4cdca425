"""What a maker's own finished ferments say of the next one: the prior, moved a little their way.

Partial pooling (Gelman & Hill 2007, Data Analysis Using Regression, ch. 12, from memory). Half of
the variance from must to must is taken as the maker's own (yeast, fruit, cellar: an assumption, no
measured figure), so that one batch moves the middle about half way, as one more reading would, and
no number of batches narrows the prior below the other half. Temperature is reckoned out: all is at
20 °C.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from winebench.forecast.prior import (
    CENTRES,
    DRAG,
    GAMMA,
    KAPPA,
    LAG,
    RATE,
    SPREADS,
    Floats,
)

LEARNT = (RATE, LAG, KAPPA, GAMMA, DRAG)
"""Coordinates that a maker's ferments share; the others belong to the must or the instrument."""
MAKERS_SHARE = 0.5
FARTHEST = 3.0
"""Spreads from the usual; a fit that says more is a fit gone wrong."""
LEAST_NEWS = 0.02
SAME_PACE, SAME_START_H, SLOW_TAIL = 0.05, 2.0, 0.3


@dataclass(frozen=True, slots=True)
class Finished:
    """One finished ferment: middle and spread of each of `LEARNT` in the prior's coordinates.

    0 is the usual must, 1 a prior's spread above it; a spread of 1 says nothing.
    """

    middles: tuple[float, ...]
    spreads: tuple[float, ...]

    def __post_init__(self) -> None:
        if not len(self.middles) == len(self.spreads) == len(LEARNT):
            raise ValueError(f"a finished ferment has {len(LEARNT)} middles and as many spreads")


@dataclass(frozen=True, slots=True)
class Learned:
    """The prior as the maker's finished ferments move it; hashable, as evidence is."""

    batches: int
    shifts: tuple[float, ...]
    """Of each of `LEARNT`, in spreads of the usual prior."""
    spreads: tuple[float, ...]
    """Factors on the usual spreads, at most 1 and never below the share that is not the maker's."""

    def applied(self, z: Floats) -> Floats:
        """Return the usual prior's coordinates for the standard-normal ones of this prior."""
        moved = z.copy()
        moved[:, LEARNT] = np.array(self.shifts) + np.array(self.spreads) * z[:, LEARNT]
        return moved

    @property
    def pace(self) -> float:
        """Return how many times the usual pace these ferments run at."""
        return math.exp(SPREADS[RATE] * self.shifts[LEARNT.index(RATE)])

    @property
    def later_h(self) -> float:
        """Return how many hours at 20 °C after the usual they come to work; below 0 sooner."""
        usual = math.exp(CENTRES[LAG])
        return usual * (math.exp(SPREADS[LAG] * self.shifts[LEARNT.index(LAG)]) - 1)

    @property
    def sentence(self) -> str:
        """Return what was learned, for the maker to read and to judge."""
        said = [_pace_words(self.pace)]
        if abs(self.later_h) >= SAME_START_H:
            said.append(
                f"start about {abs(self.later_h):.0f} h {'later' if self.later_h > 0 else 'sooner'}"
            )
        if self.shifts[LEARNT.index(DRAG)] >= SLOW_TAIL:
            said.append("finish their last sugar slowly")
        words = said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}"
        batches = "1 finished batch" if self.batches == 1 else f"{self.batches} finished batches"
        return f"Going by {batches}, your ferments {words}."


def _pace_words(pace: float) -> str:
    if abs(pace - 1) < SAME_PACE:
        return "run at about the usual pace"
    percent = 5 * round(20 * abs(pace - 1))
    return f"run about {percent} % {'quicker' if pace > 1 else 'slower'} than the usual"


def learn(finished: Iterable[Finished]) -> Learned | None:
    """Return the prior moved towards `finished`, whatever their order; None where there is none.

    With u the maker's part of a coordinate, of variance `MAKERS_SHARE`, each batch says
    y = u + its own part + the doubt of its fit, and u is weighed from them as normals are.
    """
    known = sorted(finished, key=lambda one: (one.middles, one.spreads))
    if not known:
        return None
    shifts, spreads = [], []
    for index in range(len(LEARNT)):
        precision, pull = 1 / MAKERS_SHARE, 0.0
        for one in known:
            # The fit began from the prior; what the readings alone say is the fit without it.
            news = max(1 - one.spreads[index] ** 2, LEAST_NEWS)
            said = min(max(one.middles[index] / news, -FARTHEST), FARTHEST)
            weight = 1 / (1 - MAKERS_SHARE + (1 - news) / news)
            precision += weight
            pull += weight * said
        shifts.append(pull / precision)
        spreads.append(math.sqrt(1 / precision + 1 - MAKERS_SHARE))
    return Learned(len(known), tuple(shifts), tuple(spreads))
