"""Draw from a posterior in standard-normal coordinates by tempered weighting and moving.

The prior's particles are led to the posterior in a few tempered steps. At each they are weighted,
resampled and moved by Metropolis steps that use the particles' own mean and covariance (Del Moral,
Doucet & Jasra 2006, J. R. Stat. Soc. B 68:411): leaps, and shorter ones that pull towards the mean
as a preconditioned Crank-Nicolson step does (Cotter et al. 2013, Statist. Sci. 28:424, from
memory), so that what the readings say little of does not cost a refusal. The posterior of rate, lag
and slowing is a bent ridge at one to four readings; moved particles follow it where one importance
proposal is left with a dozen that count.

All random numbers are fixed: equal evidence gives the equal answer.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

SEED = 20260317
KEPT = 0.3
"""Share of the particles that a tempered step leaves effective."""
MOVES = 2
WAY_KEPT = (0.0, 0.75)
"""Leaps that forget where they started, and moves that keep most of their way from the mean."""
WIDER = 1.1
"""How much wider than the particles the normal of the moves is."""
MOST_STEPS = 25


@dataclass(frozen=True)
class Sample:
    """Weighted particles and what the evidence says for their hypothesis."""

    z: Floats
    weights: Floats
    """Sum to 1."""
    fit: Floats
    """ln likelihood of each particle."""
    log_evidence: float


@lru_cache(maxsize=128)
def base_draws(count: int, dims: int, turn: int) -> tuple[Floats, Floats]:
    """Return fixed standard-normal draws and the logs of fixed uniform draws."""
    rng = np.random.Generator(np.random.PCG64([SEED, count, dims, turn]))
    half = rng.standard_normal(((count + 1) // 2, dims))
    normal = np.concatenate([half, -half])[:count]
    chance = np.log(rng.random(count))
    normal.flags.writeable = False
    chance.flags.writeable = False
    return normal, chance


@lru_cache(maxsize=16)
def even_draws(count: int, dims: int) -> Floats:
    """Return fixed standard-normal draws, each column of them spread evenly over the normal."""
    rng = np.random.Generator(np.random.PCG64([SEED, count, dims]))
    bell = NormalDist()
    evenly = np.array([bell.inv_cdf((i + 0.5) / count) for i in range(count)])
    normal = np.stack([rng.permutation(evenly) for _ in range(dims)], axis=1)
    normal.flags.writeable = False
    return normal


def draw(
    log_likelihood: Callable[[Floats], Floats], dims: int, count: int, moves: int = MOVES
) -> Sample:
    """Return `count` particles of the posterior under `log_likelihood`.

    More `moves` a tempered step follow many readings more closely, and take longer.
    """
    z = base_draws(count, dims, 0)[0]
    fit = log_likelihood(z)
    temper, log_evidence, turn = 0.0, 0.0, 0
    for _ in range(MOST_STEPS):
        step = _next_step(fit, 1.0 - temper)
        temper += step
        raw = np.exp(step * (fit - fit.max()))
        log_evidence += step * float(fit.max()) + math.log(float(raw.mean()))
        weights = raw / raw.sum()
        done = temper >= 1.0
        if done and float(1 / np.sum(weights**2)) > 0.999 * count:
            break
        mean, root = _spread(z, weights)
        rows = np.searchsorted(weights.cumsum(), (np.arange(count) + 0.5) / count)
        rows = np.minimum(rows, count - 1)
        z, fit = z[rows], fit[rows]
        for move in range(moves):
            turn += 1
            way = WAY_KEPT[move % len(WAY_KEPT)]
            z, fit = _moved(z, fit, temper, mean, root, turn, way, log_likelihood)
        if done:
            break
    return Sample(z, np.full(count, 1 / count), fit, log_evidence)


def refreshed(
    sample: Sample,
    columns: tuple[int, ...],
    copies: int,
    log_likelihood: Callable[[Floats], Floats],
) -> Sample:
    """Return `copies` of each particle with `columns` drawn afresh from the prior where the
    readings allow it (an independence Metropolis move).

    What the readings say little of is worn down to a few values by resampling; this gives it back
    its whole spread.
    """
    z, fit = np.tile(sample.z, (copies, 1)), np.tile(sample.fit, copies)
    asked = z.copy()
    asked[:, columns] = even_draws(len(z), len(columns))
    log_chance = base_draws(*z.shape, MOST_STEPS * MOVES + 1)[1]
    found = log_likelihood(asked)
    taken = log_chance < found - fit
    z, fit = np.where(taken[:, None], asked, z), np.where(taken, found, fit)
    return Sample(z, np.full(len(z), 1 / len(z)), fit, sample.log_evidence)


def _next_step(fit: Floats, most: float) -> float:
    """Return the longest tempered step, at most `most`, that keeps enough particles."""

    def effective(step: float) -> float:
        raw = np.exp(step * (fit - fit.max()))
        return float(raw.sum() ** 2 / (raw @ raw))

    goal = KEPT * fit.size
    if effective(most) >= goal:
        return most
    low, high = 0.0, most
    for _ in range(10):
        middle = (low + high) / 2
        low, high = (middle, high) if effective(middle) >= goal else (low, middle)
    return max(low, 1e-3)


def _spread(z: Floats, weights: Floats) -> tuple[Floats, Floats]:
    """Return the mean and a root of the covariance, a little widened and kept away from zero."""
    mean = weights @ z
    off = z - mean
    covariance = (off * weights[:, None]).T @ off
    root = np.linalg.cholesky(covariance + 1e-4 * np.eye(z.shape[1]))
    return mean, WIDER * root.astype(np.float64)


def _moved(
    z: Floats,
    fit: Floats,
    temper: float,
    mean: Floats,
    root: Floats,
    turn: int,
    way_kept: float,
    log_likelihood: Callable[[Floats], Floats],
) -> tuple[Floats, Floats]:
    """Return the particles after one Metropolis move at `temper`.

    Each keeps the share `way_kept` of its way from the mean. That alone leaves a normal as it was:
    a move is refused only where the posterior departs from the particles' own normal.
    """
    normal, log_chance = base_draws(*z.shape, turn)
    white = (z - mean) @ np.linalg.inv(root).T
    new = way_kept * white + math.sqrt(1 - way_kept**2) * normal
    asked = mean + new @ root.T
    found = log_likelihood(asked)
    log_ratio = temper * (found - fit)
    log_ratio += 0.5 * (np.sum(new**2, axis=1) - np.sum(white**2, axis=1))
    log_ratio += 0.5 * (np.sum(z**2, axis=1) - np.sum(asked**2, axis=1))
    taken = log_chance < log_ratio
    return np.where(taken[:, None], asked, z), np.where(taken, found, fit)
