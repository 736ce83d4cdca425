"""Simulated ferments from kinetic families that are not the fitted curve.

`nitrogen`: cells grow on nitrogen, die of ethanol, all of it quickened by warmth; the structure of
Coleman, Fish & Block 2007, Appl. Environ. Microbiol. 73:5875. Its constants are FROM MEMORY,
rounded, with a spread from must to must; growth and uptake both rise 6-fold from 11 to 35 °C.
`ceiling`: logistic cells, uptake that fades to nothing at an ethanol ceiling (Luong 1985,
Biotechnol. Bioeng. 27:280, FROM MEMORY), some musts with no lag, as with a wild start.
`sigmoid`: a modified Gompertz curve (Zwietering et al. 1990, Appl. Environ. Microbiol. 56:1875)
in thermal time with a long thin tail, harsher than most musts.
`two_sugars`: glucose goes before fructose, carriers decay once nitrogen is gone, ethanol slows
both; the structure of Malherbe et al. 2004, Biotechnol. Bioeng. 86:261, constants FROM MEMORY.
`maintenance` and `two_yeasts`: see families_later.py.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tests.bench.families_later import maintenance, two_yeasts
from tests.bench.houses import Houses
from tests.bench.musts import STEP_H, Conditions, curves, draw_conditions


@dataclass(frozen=True)
class Truth:
    """Many true curves on `HOURS`, one a row, with what the maker could know."""

    family: str
    sg: np.ndarray
    must_celsius: np.ndarray
    room: np.ndarray
    og_plan: np.ndarray
    arrested_h: np.ndarray
    """When the ferment was stopped for good; inf where it was not."""
    fed_h: np.ndarray
    """When sugar went in; inf where none did."""
    fed_g_per_l: np.ndarray


def nitrogen(rng: np.random.Generator, c: Conditions, arrest: np.ndarray):
    """Coleman-like: nitrogen-limited growth, ethanol death, Michaelis uptake."""
    n = c.og.size
    growth = 0.095 * np.exp(rng.normal(0, 0.2, n))
    beta = 0.20 * np.exp(rng.normal(0, 0.2, n)) / 0.47
    death = 6e-5 * np.exp(rng.normal(0, 0.4, n))
    half_sugar = 10.3 * np.exp(rng.normal(0, 0.3, n))
    state = {
        "cells": rng.uniform(0.03, 0.3, n),
        "nitrogen": c.yan / 1000,
    }
    state["alive"] = state["cells"].copy()

    def rates(s, sugar, ethanol, celsius):
        warmth = np.exp(0.0775 * (celsius - 20))
        mu = growth * warmth * s["nitrogen"] / (0.009 + s["nitrogen"])
        kill = death * np.exp(np.where(celsius > 20, 0.17, 0.05) * (celsius - 20)) * ethanol
        grown = mu * s["alive"]
        s["nitrogen"] = np.maximum(s["nitrogen"] - STEP_H * grown / 25.0, 0)
        s["alive"] = s["alive"] + STEP_H * (grown - kill * s["alive"])
        return beta * warmth * s["alive"] * sugar / (half_sugar + sugar)

    return curves(c, rates, state, arrest)


def ceiling(rng: np.random.Generator, c: Conditions, arrest: np.ndarray):
    """Luong-like: logistic cells under an ethanol ceiling."""
    n = c.og.size
    wild = rng.random(n) < 0.3
    growth = np.where(wild, 0.07, 0.12) * np.exp(rng.normal(0, 0.25, n))
    most = 4.0 * (c.yan / 150) ** 0.6 * np.exp(rng.normal(0, 0.15, n))
    roof_growth = rng.uniform(70, 95, n)
    roof = rng.uniform(115, 150, n)
    power = rng.uniform(0.8, 1.8, n)
    uptake = 0.60 * np.exp(rng.normal(0, 0.25, n))
    half_sugar = 12.0 * np.exp(rng.normal(0, 0.5, n))
    state = {"cells": np.where(wild, rng.uniform(0.5, 1.5, n), rng.uniform(0.03, 0.3, n))}

    def rates(s, sugar, ethanol, celsius):
        warmth = np.exp(0.072 * (celsius - 20))
        free = np.maximum(1 - ethanol / roof_growth, 0)
        grown = growth * warmth * s["cells"] * (1 - s["cells"] / most) * free
        s["cells"] = s["cells"] + STEP_H * grown
        slowed = np.maximum(1 - (ethanol / roof) ** power, 0)
        return uptake * warmth * s["cells"] * slowed * sugar / (half_sugar + sugar)

    return curves(c, rates, state, arrest)


def sigmoid(rng: np.random.Generator, c: Conditions, arrest: np.ndarray):
    """Gompertz-like pace in thermal time: not a cell model at all."""
    n = c.og.size
    total = (c.og - 1) / 0.000385 - c.extract
    fastest = 60 * np.exp(rng.normal(0, 0.35, n)) * (c.yan / 150) ** 0.3 / 24
    lag = 24 * np.exp(rng.normal(0, 0.5, n))
    asymptote = total * rng.uniform(1.0, 1.08, n)
    state = {"tau": np.zeros(n), "done": np.zeros(n)}

    def rates(s, sugar, ethanol, celsius):
        warmth = np.exp(0.08 * (celsius - 20))
        s["tau"] = s["tau"] + STEP_H * warmth
        inner = np.e * fastest / asymptote * (lag - s["tau"]) + 1
        pace = fastest * np.e * np.exp(inner - np.exp(np.minimum(inner, 50)))
        tail = 0.05 * fastest
        return warmth * np.maximum(pace, tail * (s["tau"] > lag)) * sugar / (6 + sugar)

    return curves(c, rates, state, arrest)


def two_sugars(rng: np.random.Generator, c: Conditions, arrest: np.ndarray):
    """Malherbe-like: glucose first, carriers that decay once the nitrogen is gone."""
    n = c.og.size
    growth = 0.11 * np.exp(rng.normal(0, 0.25, n))
    waits = rng.uniform(0, 18, n)
    glucose_pace = 0.44 * np.exp(rng.normal(0, 0.25, n))
    fructose_pace = glucose_pace * rng.uniform(0.55, 0.95, n)
    decay = 0.0013 * np.exp(rng.normal(0, 0.35, n))
    glucose_share = rng.uniform(0.42, 0.52, n)
    state = {
        "cells": rng.uniform(0.04, 0.3, n),
        "nitrogen": c.yan / 1000,
        "carriers": np.ones(n),
        "glucose_used": np.zeros(n),
        "tau": np.zeros(n),
    }

    def rates(s, sugar, ethanol, celsius):
        warmth = np.exp(0.075 * (celsius - 20))
        s["tau"] = s["tau"] + STEP_H * warmth
        awake = np.minimum(s["tau"] / np.maximum(waits, 0.1), 1.0)
        grown = growth * warmth * awake * s["cells"] * s["nitrogen"] / (0.012 + s["nitrogen"])
        grown = np.minimum(grown, 22.0 * s["nitrogen"] / STEP_H)
        s["nitrogen"] = s["nitrogen"] - STEP_H * grown / 22.0
        s["cells"] = s["cells"] + STEP_H * grown
        hungry = s["nitrogen"] < 0.02
        s["carriers"] = s["carriers"] * np.exp(-STEP_H * decay * warmth * hungry)
        slowed = 1 / (1 + (ethanol / 95) ** 2)
        # What pulp gives and what is fed has both sugars too: sucrose inverts to halves.
        given = sugar + ethanol / 0.47
        glucose = np.clip(glucose_share * given - s["glucose_used"], 0, sugar)
        fructose = sugar - glucose
        power = warmth * awake * s["cells"] * s["carriers"] * slowed
        first = glucose_pace * power * glucose / (6 + glucose)
        second = fructose_pace * power * fructose / (9 + fructose + 0.12 * glucose)
        s["glucose_used"] = s["glucose_used"] + STEP_H * first
        return first + second

    return curves(c, rates, state, arrest)


FAMILIES = {
    "nitrogen": nitrogen,
    "ceiling": ceiling,
    "sigmoid": sigmoid,
    "two_sugars": two_sugars,
    "maintenance": maintenance,
    "two_yeasts": two_yeasts,
}


def cohort(family: str, kind: str, seed: int, count: int) -> Truth:
    """Return `count` true curves. `kind`: ordinary, slow-cold, cold-snap, arrest, fed or houses.

    Of `houses`, each six that follow one another were made by one hand.
    """
    rng = np.random.default_rng([seed, sum(map(ord, family)), sum(map(ord, kind))])
    draws = Houses(rng) if kind == "houses" else rng
    c = draw_conditions(draws, count, kind)
    arrest = rng.uniform(48, 168, count) if kind == "arrest" else np.full(count, np.inf)
    sg, musts = FAMILIES[family](draws, c, arrest)
    plan = c.og + rng.normal(0, 0.002, count)
    return Truth(family, sg, musts, c.room, plan, arrest, c.fed_h, c.fed_g_per_l)
