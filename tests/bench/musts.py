"""Simulated musts, and the one way in which a family's pace is stepped into a gravity curve."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

STEP_H = 0.5
DAYS = 75
HOURS = np.arange(0.0, DAYS * 24 + STEP_H, STEP_H)


@dataclass(frozen=True)
class Conditions:
    og: np.ndarray
    room: np.ndarray
    yan: np.ndarray
    extract: np.ndarray
    pulp_sg: np.ndarray
    must_celsius: np.ndarray
    fed_h: np.ndarray
    fed_g_per_l: np.ndarray


def draw_conditions(rng: np.random.Generator, count: int, kind: str) -> Conditions:
    """Return musts at 15-28 °C, OG 1.075-1.110, nitrogen 70-260 mg/L (from memory: usual range)."""
    room = rng.uniform(15, 17.5, count) if kind == "slow-cold" else rng.uniform(15, 28, count)
    wander = rng.normal(0, 0.8, (count, DAYS + 1)).cumsum(axis=1) * 0.3
    daily = np.apply_along_axis(
        lambda row: np.interp(HOURS / 24, np.arange(DAYS + 1), row), 1, wander
    )
    must = room[:, None] + daily
    if kind == "cold-snap":
        start = rng.uniform(48, 120, count)
        drop = rng.uniform(4, 7, count)
        length = rng.uniform(30, 90, count)
        inside = (start[:, None] < HOURS) & ((start + length)[:, None] > HOURS)
        must = must - inside * drop[:, None]
    return Conditions(
        og=rng.uniform(1.075, 1.110, count),
        room=room,
        yan=rng.uniform(70, 260, count),
        extract=rng.uniform(12, 32, count),
        pulp_sg=np.where(rng.random(count) < 0.5, rng.uniform(0, 0.006, count), 0.0),
        must_celsius=must,
        fed_h=rng.uniform(60, 110, count) if kind == "fed" else np.full(count, np.inf),
        fed_g_per_l=rng.uniform(15, 35, count) if kind == "fed" else np.zeros(count),
    )


def _gravity(sugar: np.ndarray, used: np.ndarray, extract: np.ndarray) -> np.ndarray:
    """SG of a must, all in g/L (mass balance, from memory, standard tables for the slopes)."""
    return 1 + 0.000385 * (sugar + extract) - 0.000168 * 0.47 * used + 0.00021 * 0.035 * used


def curves(c: Conditions, rates, state: dict[str, np.ndarray], arrest: np.ndarray):
    """Step the sugar down with midpoint self-heating of a 10-20 L pail."""
    total = (c.og - 1) / 0.000385 - c.extract
    sugar = total.copy()
    used = np.zeros_like(sugar)
    sg = np.empty((c.og.size, HOURS.size))
    warm = np.zeros_like(sugar)
    musts = np.empty_like(sg)
    for index, hour in enumerate(HOURS):
        sg[:, index] = _gravity(np.maximum(sugar, 0), used, c.extract)
        celsius = c.must_celsius[:, index] + warm
        musts[:, index] = celsius
        release = c.pulp_sg / 0.000385 / 18 * np.exp(-hour / 18)
        uptake = rates(state, np.maximum(sugar, 0), 0.47 * used, celsius)
        uptake = np.where(hour > arrest, uptake * np.exp(-(hour - arrest) / 4), uptake)
        uptake = np.minimum(uptake, np.maximum(sugar, 0) / STEP_H)
        fed = np.where((c.fed_h >= hour) & (c.fed_h < hour + STEP_H), c.fed_g_per_l, 0.0)
        sugar = sugar + STEP_H * (release - uptake) + fed
        used = used + STEP_H * uptake
        # 0.13 K for each g/L fermented, lost with a time constant of 7 h (from memory: pail).
        warm = warm + STEP_H * (0.13 * uptake - warm / 7)
    return sg, musts
