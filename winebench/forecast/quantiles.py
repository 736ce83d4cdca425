"""Quantiles of weighted particles."""

from __future__ import annotations

import numpy as np

from winebench.forecast.clock import Floats

TENTHS = (0.1, 0.5, 0.9)


def weighted(values: Floats, weights: Floats, at: tuple[float, ...] = TENTHS) -> list[float]:
    """Return quantiles of `values`, which may hold `inf`."""
    order = np.argsort(values, kind="stable")
    running = weights[order].cumsum()
    middle = running - weights[order] / 2
    found = []
    for share in at:
        right = min(int(np.searchsorted(middle, share)), len(order) - 1)
        left = max(right - 1, 0)
        low, high = float(values[order[left]]), float(values[order[right]])
        span = float(middle[right] - middle[left])
        part = min(max((share - float(middle[left])) / span, 0.0), 1.0) if span > 0 else 1.0
        found.append(low + (high - low) * part if np.isfinite(high) else high)
    return found


def medians(values: Floats, weights: Floats) -> Floats:
    """Return the median of `values` under each column of `weights`."""
    order = np.argsort(values, kind="stable")
    running = weights[order].cumsum(axis=0)
    at = (running < 0.5 * running[-1]).sum(axis=0)
    return np.asarray(values[order][np.minimum(at, len(order) - 1)])


def systematic(weights: Floats, count: int) -> np.ndarray:
    """Return `count` particle indexes in proportion to their weights, without chance."""
    aims = (np.arange(count) + 0.5) / count
    return np.minimum(np.searchsorted(weights.cumsum(), aims), len(weights) - 1)
