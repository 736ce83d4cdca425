"""Draws in which one maker's musts are more alike than strangers' musts are."""

from __future__ import annotations

import math

import numpy as np

BATCHES = 6
ALIKE = 0.5
"""Share of the variance that belongs to the maker (an assumption: yeast, fruit and cellar stay)."""


class Houses:
    """Stands in for a generator; each run of `BATCHES` draws shares a maker's part."""

    def __init__(self, rng: np.random.Generator) -> None:
        self.rng = rng

    def _scores(self, size) -> np.ndarray:
        count, *rest = size if isinstance(size, tuple) else (size,)
        makers = self.rng.standard_normal((-(-count // BATCHES), *rest)).repeat(BATCHES, axis=0)
        own = self.rng.standard_normal((count, *rest))
        return math.sqrt(ALIKE) * makers[:count] + math.sqrt(1 - ALIKE) * own

    def normal(self, mean: float, sd: float, size) -> np.ndarray:
        return mean + sd * self._scores(size)

    def uniform(self, low: float, high: float, size) -> np.ndarray:
        return low + (high - low) * self.random(size)

    def random(self, size) -> np.ndarray:
        score = self._scores(size)
        return 0.5 * (1 + np.vectorize(math.erf)(score / math.sqrt(2)))
