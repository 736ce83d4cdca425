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
from typing import NamedTuple

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
from winebench.model.own_ferment import FARTHEST

LEARNT = (RATE, LAG, KAPPA, GAMMA, DRAG)
"""Coordinates that a maker's ferments share; the others belong to the must or the instrument."""
MAKERS_SHARE = 0.5
LEAST_NEWS = 0.02
UNTOLD = 0.95
"""A spread from which on the readings told next to nothing."""
THAN = " than the usual"
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

    @property
    def words(self) -> str:
        """Return how it went: "ran about 20 % slower than the usual"; no more than was read."""
        known = (m if s < UNTOLD else 0.0 for m, s in zip(self.middles, self.spreads, strict=True))
        return _words(tuple(known), _ONE)


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
    def sentence(self) -> str:
        """Return what was learned, for the maker to read and to judge."""
        batches = "1 finished batch" if self.batches == 1 else f"{self.batches} finished batches"
        return f"Going by {batches}, your ferments {_words(self.shifts, _MANY)}."

    @property
    def in_short(self) -> str:
        """Return the pace alone, to stand beside a date: "by your 3 batches, about 30 % slower"."""
        batches = "1 batch" if self.batches == 1 else f"{self.batches} batches"
        return f"by your {batches}, {_pace_words(_pace(self.shifts)).removesuffix(THAN)}"


class _Verbs(NamedTuple):
    run: str
    start: str
    finish: str


_ONE = _Verbs("ran", "started", "finished its last sugar slowly")
_MANY = _Verbs("run", "start", "finish their last sugar slowly")


def _words(shifts: tuple[float, ...], verbs: _Verbs) -> str:
    """Return what shifts of `LEARNT` in spreads of the usual prior come to."""
    by = dict(zip(LEARNT, shifts, strict=True))
    said = [f"{verbs.run} {_pace_words(_pace(shifts))}"]
    later_h = math.exp(CENTRES[LAG]) * (math.exp(SPREADS[LAG] * by[LAG]) - 1)  # at 20 °C
    if abs(later_h) >= SAME_START_H:
        way = "later" if later_h > 0 else "sooner"
        said.append(f"{verbs.start} about {abs(later_h):.0f} h {way}")
    if by[DRAG] >= SLOW_TAIL:
        said.append(verbs.finish)
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}"


def _pace(shifts: tuple[float, ...]) -> float:
    """Return how many times the usual pace that is."""
    return math.exp(SPREADS[RATE] * shifts[LEARNT.index(RATE)])


def _pace_words(pace: float) -> str:
    if abs(pace - 1) < SAME_PACE:
        return "at about the usual pace"
    percent = 5 * round(20 * abs(pace - 1))
    return f"about {percent} % {'quicker' if pace > 1 else 'slower'}{THAN}"


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
