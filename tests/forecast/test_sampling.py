"""The sampler on a posterior that is known in closed form.

A standard-normal prior and a linear reading y = a.z + error of spread s have a normal posterior of
precision I + a a'/s^2 and the evidence N(y; 0, a.a + s^2): Bishop 2006, Pattern Recognition and
Machine Learning, eqs. 2.115 to 2.117 (from memory).
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from winebench.forecast.sampling import draw, refreshed

DIMS, SLOPE, READ, ERROR = 14, np.array([1.0, -0.8, 0.5] + [0.0] * 11), 1.9, 0.05


def fit(z: np.ndarray) -> np.ndarray:
    return -0.5 * ((READ - z @ SLOPE) / ERROR) ** 2


PRECISION = np.eye(DIMS) + np.outer(SLOPE, SLOPE) / ERROR**2
COVARIANCE = np.linalg.inv(PRECISION)
MEAN = COVARIANCE @ SLOPE * READ / ERROR**2


@pytest.mark.parametrize("count", [880, 900, 902])
def test_mean_and_spread_are_those_of_the_known_posterior(count):
    seen = draw(fit, DIMS, count)
    spread = np.sqrt(np.diag(COVARIANCE))
    mean = seen.weights @ seen.z
    found = np.sqrt(seen.weights @ (seen.z - mean) ** 2)
    # Independent draws are off by 1 / sqrt(count), one spread: no more than four such are allowed.
    assert mean == pytest.approx(MEAN, abs=4 / math.sqrt(count))
    assert found == pytest.approx(spread, rel=4 / math.sqrt(count))
    assert np.std(seen.z @ SLOPE) == pytest.approx(ERROR, rel=4 / math.sqrt(count))


@pytest.mark.parametrize("count", [280, 900])
def test_evidence_is_that_of_the_known_posterior(count):
    variance = SLOPE @ SLOPE + ERROR**2
    # `fit` leaves out the reading's own ln(error sqrt(2 pi)).
    known = -0.5 * READ**2 / variance + math.log(ERROR) - 0.5 * math.log(variance)
    # Each of some five tempered steps adds about 1.5 / sqrt(count) of chance, one spread.
    assert draw(fit, DIMS, count).log_evidence == pytest.approx(known, abs=12 / math.sqrt(count))


def test_what_was_not_read_gets_its_whole_spread_back():
    seen = refreshed(draw(fit, DIMS, 900), (5, 6), 2, fit)
    assert len(seen.z) == 1800
    assert np.std(seen.z[:, 5:7], axis=0) == pytest.approx(1, abs=0.01)
    assert seen.weights @ seen.z[:, :3] == pytest.approx(MEAN[:3], abs=0.2)


def test_the_same_question_gets_the_same_particles():
    assert np.array_equal(draw(fit, DIMS, 280).z, draw(fit, DIMS, 280).z)
