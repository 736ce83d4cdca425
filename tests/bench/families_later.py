"""Two further families, both with a quick start that does not last.

`maintenance`: uptake is what growth takes and what living cells take for upkeep (Luedeking & Piret
1959, J. Biochem. Microbiol. Technol. Eng. 1:393, FROM MEMORY), growth on nitrogen fading with
ethanol, viability lost faster the warmer and the more ethanol. Constants FROM MEMORY, rounded.
`two_yeasts`: a weak wild yeast starts and gives out at 35 to 60 g/L ethanol, a strong one follows;
both share what food there is, logistic cells (usual in fruit musts: common practice). Constants are
ASSUMED, so that most are dry within one to four weeks at 20 °C.
"""

from __future__ import annotations

import numpy as np

from tests.bench.musts import STEP_H, Conditions, curves


def maintenance(rng: np.random.Generator, c: Conditions, arrest: np.ndarray):
    """Growth-bound and upkeep uptake; cells lose their powers slowly after growth ends."""
    n = c.og.size
    growth = 0.13 * np.exp(rng.normal(0, 0.25, n))
    per_cell = 10.0 * np.exp(rng.normal(0, 0.15, n))
    upkeep = 0.42 * np.exp(rng.normal(0, 0.25, n))
    roof = rng.uniform(105, 140, n)
    loss = 1.2e-5 * np.exp(rng.normal(0, 0.5, n))
    half_sugar = 8.0 * np.exp(rng.normal(0, 0.4, n))
    state = {"living": rng.uniform(0.02, 0.25, n), "nitrogen": c.yan / 1000}

    def rates(s, sugar, ethanol, celsius):
        warmth = np.exp(0.074 * (celsius - 20))
        fed = sugar / (half_sugar + sugar)
        free = np.maximum(1 - ethanol / roof, 0)
        grown = growth * warmth * fed * free * s["living"]
        grown = grown * s["nitrogen"] / (0.015 + s["nitrogen"])
        grown = np.minimum(grown, 24.0 * s["nitrogen"] / STEP_H)
        s["nitrogen"] = s["nitrogen"] - STEP_H * grown / 24.0
        lost = loss * np.exp(0.11 * (celsius - 20)) * ethanol * s["living"]
        s["living"] = s["living"] + STEP_H * (grown - lost)
        return per_cell * grown + upkeep * warmth * fed * np.sqrt(free) * s["living"]

    return curves(c, rates, state, arrest)


def two_yeasts(rng: np.random.Generator, c: Conditions, arrest: np.ndarray):
    """A wild yeast starts, a strong one takes over."""
    n = c.og.size
    weak_growth = 0.13 * np.exp(rng.normal(0, 0.25, n))
    strong_growth = 0.11 * np.exp(rng.normal(0, 0.25, n))
    weak_roof = rng.uniform(35, 60, n)
    strong_roof = rng.uniform(110, 145, n)
    most = 4.2 * (c.yan / 150) ** 0.5 * np.exp(rng.normal(0, 0.2, n))
    uptake = 0.48 * np.exp(rng.normal(0, 0.25, n))
    half_sugar = 10.0 * np.exp(rng.normal(0, 0.4, n))
    state = {"weak": rng.uniform(0.01, 0.15, n), "strong": rng.uniform(0.05, 0.3, n)}

    def rates(s, sugar, ethanol, celsius):
        warmth = np.exp(0.073 * (celsius - 20))
        room = np.maximum(1 - (s["weak"] + s["strong"]) / most, 0)
        weak_free = np.maximum(1 - ethanol / weak_roof, 0)
        strong_free = np.maximum(1 - ethanol / strong_roof, 0)
        s["weak"] = s["weak"] * np.exp(STEP_H * warmth * weak_growth * room * weak_free)
        # Past its roof the weak one dies within days and leaves its food to the strong one.
        s["weak"] = s["weak"] * np.exp(-STEP_H * warmth * 0.02 * (weak_free <= 0))
        s["strong"] = s["strong"] * np.exp(STEP_H * warmth * strong_growth * room * strong_free)
        pace = 0.8 * s["weak"] * np.sqrt(weak_free) + s["strong"] * strong_free**0.8
        return uptake * warmth * pace * sugar / (half_sugar + sugar)

    return curves(c, rates, state, arrest)
