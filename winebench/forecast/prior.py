"""What is believed of a ferment before its readings, as independent normals.

Rates and times are at 20 °C. Sources: Q10 from Coleman, Fish & Block 2007 (see clock.py); effect of
nitrogen and of warmth on sticking, direction only, from the same and from Bisson & Butzke 2000,
Am. J. Enol. Vitic. 51:168; all spreads are weak on purpose and are common practice, checked against
simulated ferments of other kinetic families (tests/bench).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from winebench.forecast.api import Setup

Floats = NDArray[np.float64]
Hypothesis = Literal["dry", "stuck"]

RATE, LAG, RAMP, KAPPA, GAMMA, END, PULP, Q10, OG, DRAG, KNEE, BURST, BREAK = range(13)
COORDINATES = 13
PACE_SD = 0.4
"""ln spread of the change of pace at racking or nutrient (common practice, weak)."""

DRY_END = 0.9935
DRY_END_SD = 0.0028
"""Two spreads each way are 0.988 to 0.999: common practice has dry wines end at 0.990 to 1.000."""
TYPICAL_OG = 1.090
TYPICAL_EXTRACT_G_PER_L = 20.0
"""The must and the dry wine that this end is of (common practice: 1.080 to 1.100; 15 to 30 g/L
without sugar, from memory)."""
SG_PER_G_PER_L = 0.000385
"""Gravity of a gram of sugar or extract in a litre (standard sugar tables, from memory)."""
HIGHEST_DRY_END = 0.9985
LOWEST_STUCK = 1.003
"""Dry wines end below 1.000 (common practice); no stuck end is believed so near to it that readings
could not tell the one from the other. Chosen here, without a source."""
LEAST_STUCK_DROP = 0.006
"""A ferment that has not fallen so far is late rather than stuck (common practice)."""
SLUGGISH = -0.5
"""ln pace of yeast pitched into wine rather than must (common practice: it is slow)."""

CENTRES = (math.log(0.055 / 24), math.log(29), math.log(10), math.log(0.0086), math.log(0.70))
SPREADS = (0.57, 0.50, 0.38, 0.38, 0.30)
"""Middles and spreads of ln rate (SG/h), lag, ramp (h), kappa (SG) and gamma; set so that the bands
on simulated ferments of other families are neither too wide nor too narrow (tests/bench). A band
stretched afterwards to fit five families made the sixth's worse in five cases of six: none is.
They have no source beyond that bench."""

USUAL_DRAG, THIN_DRAG, DRAG_SPREAD = math.log(0.12), math.log(16.0), 0.5
"""ln of the tail's drag where the yeast ends well, where it ends tired, and the spread of both;
chosen on the same simulated ferments, without a source."""
THIN_FROM, THIN_EDGE = 0.80, 0.15
"""Standard-normal score above which a tail is thin, one in five (common practice: now and then),
and how gradually the one passes into the other."""
MOST_DRAG = 24.0
"""A tail slower than this is a standstill, and the other hypothesis; chosen here."""
USUAL_KNEE, KNEE_SPREAD = math.log(0.016), 0.20
"""ln of the SG left where a tail begins, about 1.010 (common practice: the last ten to fifteen
points are slow), and its spread."""

USUAL_BURST, BURST_SPREAD = math.log(0.4), 1.0
"""ln of how many times slower, beyond once, it goes when the burst of growth is over, and spread.
Without it a quick start is taken for a quick ferment, with a narrow band around it. Living cells
take up two to four times more sugar while they grow than later, and a wild start gives out; most
musts show little of either (from memory: Luedeking & Piret 1959, J. Biochem. Microbiol. Technol.
Eng. 1:393; common practice)."""
MOST_BURST = 5.0
"""Keeps the burst near what living cells do, see above."""
USUAL_BREAK, BREAK_SPREAD = math.log(0.040), 0.4
"""ln of the drop in SG at which half of that slowing has come, and spread; chosen on the same
simulated ferments, without a source."""


@dataclass(frozen=True)
class Parameters:
    """One value a particle of everything that shapes the curve."""

    rate: Floats
    """SG an hour at 20 °C, at full activity and no slowing."""
    lag: Floats
    """Thermal hours to half activity."""
    ramp: Floats
    """Thermal hours: one over the growth rate."""
    kappa: Floats
    """SG left at which lack of sugar halves the pace."""
    gamma: Floats
    """ln slowing for each 0.1 of drop."""
    end: Floats
    """SG at which it ends."""
    pulp: Floats
    """SG that the pulp still gives."""
    log_q10: Floats
    og: Floats
    drag: Floats
    """Times slower, beyond once, in the thin tail below the knee."""
    knee: Floats
    """SG left at which the thin tail begins."""
    burst: Floats
    """Times slower, beyond once, after the burst of growth."""
    break_: Floats
    """Drop at which half of that slowing has come."""
    pace: Floats
    """ln change of pace, particle x event."""


def parameters(
    z: Floats, setup: Setup, hypothesis: Hypothesis, born_og: float | None = None
) -> Parameters:
    """Return the parameters that standard-normal coordinates stand for.

    `born_og` is the gravity that the must began with, where it was pitched afresh since.
    """
    logs = np.array(CENTRES) + np.array(SPREADS) * z[:, :5]
    rate = np.exp(logs[:, RATE] + nitrogen_shift(setup))
    gamma = np.minimum(np.exp(logs[:, GAMMA]), 12.0)
    if born_og is not None and born_og > setup.og:
        # The alcohol that is there already slows a fresh pitch from its first hour.
        rate = rate * np.exp(SLUGGISH - gamma * (born_og - setup.og) / 0.1)
    og = setup.og + setup.og_sd * z[:, OG]
    if hypothesis == "dry":
        end = np.minimum(
            dry_end(setup, og - setup.og + (born_og or setup.og)) + DRY_END_SD * z[:, END],
            HIGHEST_DRY_END,
        )
    else:
        highest = max(setup.og - LEAST_STUCK_DROP, LOWEST_STUCK + 0.001)
        end = LOWEST_STUCK + (highest - LOWEST_STUCK) * _normal_share(z[:, END])
    pulp = 0.0015 + 0.0035 * z[:, PULP] if setup.pulp else np.zeros(len(z))
    return Parameters(
        rate=rate,
        lag=np.exp(logs[:, LAG]),
        ramp=np.exp(logs[:, RAMP]),
        kappa=np.exp(logs[:, KAPPA]),
        gamma=gamma,
        end=end,
        pulp=pulp,
        log_q10=math.log(2.15) + 0.15 * z[:, Q10],
        og=og,
        drag=thin_tail(z[:, DRAG]),
        knee=np.exp(USUAL_KNEE + KNEE_SPREAD * z[:, KNEE]),
        burst=np.exp(np.minimum(USUAL_BURST + BURST_SPREAD * z[:, BURST], math.log(MOST_BURST))),
        break_=np.exp(USUAL_BREAK + BREAK_SPREAD * z[:, BREAK]),
        pace=PACE_SD * z[:, COORDINATES:],
    )


def thin_tail(z: Floats) -> Floats:
    """Return the drag of the tail: next to none for most, manifold for the tired."""
    thin = 1 / (1 + np.exp((THIN_FROM - z) / THIN_EDGE))
    logs = USUAL_DRAG + (THIN_DRAG - USUAL_DRAG) * thin + DRAG_SPREAD * z
    return np.exp(np.minimum(logs, math.log(MOST_DRAG)))


def dry_end(setup: Setup, og: Floats) -> Floats:
    """Return the centre of the final gravity of a dry wine: more alcohol ends lower, more extract
    higher.

    Both by sign only: 0.0005 for ten points of the start is weak on purpose (common practice).
    """
    extract = setup.extract_g_per_l
    shift = 0.0 if extract is None else SG_PER_G_PER_L * (extract - TYPICAL_EXTRACT_G_PER_L)
    return DRY_END - 0.05 * (og - TYPICAL_OG) + shift


def nitrogen_shift(setup: Setup) -> float:
    """Return the shift of ln rate: +0.35 from 80 to 180 mg/L (simulated, from memory).

    None at 140 mg/L, the least that yeast is mostly said to need (from memory).
    """
    if setup.nitrogen_mg_per_l is None:
        return 0.0
    known = min(max(setup.nitrogen_mg_per_l, 60.0), 300.0)
    return 0.35 * math.log(known / 140.0) / math.log(180 / 80)


def chance_stuck(setup: Setup, celsius: Floats) -> float:
    """Return the chance of stopping for good, before any reading (common practice, weak).

    Strong musts, poor ones, hot and cold ones stop more often (Bisson & Butzke 2000, direction
    only); how much more often is chosen here.
    """
    chance = 0.08
    if setup.og > 1.105:
        chance += 0.05
    if setup.nitrogen_mg_per_l is not None:
        chance += 0.06 if setup.nitrogen_mg_per_l < 140 else -0.02
    if float(celsius.max()) > 28 or float(celsius.min()) < 14:
        chance += 0.04
    return chance


def _normal_share(z: Floats) -> Floats:
    """Return the normal distribution function (logistic with a cubic term), good to 0.00015.

    Bowling et al. 2009, J. Ind. Eng. Manag. 2:114 (from memory).
    """
    return np.asarray(1 / (1 + np.exp(-1.5976 * z - 0.070566 * z**3)))
