"""Weigh possible curves by the readings, under two hypotheses: it finishes, or it sticks."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from winebench.forecast.case import Case
from winebench.forecast.clock import Clock, Floats, steps
from winebench.forecast.curve import Ferments
from winebench.forecast.learned import Learned
from winebench.forecast.prior import DRAG, END, KNEE, Hypothesis, chance_stuck, parameters
from winebench.forecast.sampling import MOVES, Sample, draw, even_draws, refreshed

DEGREES = 4.0
"""Of the Student-t of a reading: foam, bubbles and pulp give a few wild ones."""
MORE_STUCK_AFTER_REPITCH = 0.15
PARTICLES = {"dry": 900, "stuck": 280}
LATE_SHOWN, COPIES = (END, DRAG, KNEE), 2
"""Coordinates that only late readings show, and how often each particle tries them anew."""

QUICKER_AHEAD_SD, SLOWER_AHEAD_SD = 0.08, 0.19
"""ln spread of all time still to come, to either side: weather, racking, what no reading shows.
What comes between slows a ferment more often than it quickens one (common practice)."""
TAIL_SHIFT = 0.06
TAIL_SD = 0.15
"""ln shift and spread of the time below `TAIL_SG`, of which earlier readings say little."""
TAIL_SG = 1.020
TAIL_SEEN_SG = 0.998


@dataclass(frozen=True)
class Posterior:
    """Weighted curves of one hypothesis."""

    sample: Sample
    curves: Ferments
    terms: Floats
    """ln likelihood of each reading, particle x reading."""


def weigh(
    case: Case,
    hypothesis: Hypothesis,
    learned: Learned | None = None,
    *,
    count: int | None = None,
    moves: int = MOVES,
) -> Posterior:
    """Return `count` curves of `hypothesis`, weighted by the readings; None: as many as usual."""
    starts, celsius = steps(case.evidence)

    def curves(z: Floats) -> Ferments:
        usual = learned.applied(z) if learned else z
        p = parameters(usual, case.setup, hypothesis, case.born_og)
        return Ferments(p, Clock(starts, celsius, p.log_q10), case.events)

    hours = np.array([o.hours for o in case.readings])
    sg = np.array([o.sg for o in case.readings])
    scales = case.scales()

    def terms(ferments: Ferments) -> Floats:
        if not hours.size:
            return np.zeros((ferments.p.og.size, 0))
        off = (sg - ferments.gravity(hours)) / scales
        return np.asarray(-0.5 * (DEGREES + 1) * np.log1p(off**2 / DEGREES))

    def fit(z: Floats) -> Floats:
        return np.asarray(terms(curves(z)).sum(axis=1))

    sample = draw(fit, case.dims, count or PARTICLES[hypothesis], moves)
    if hypothesis == "dry":
        sample = refreshed(sample, LATE_SHOWN, COPIES, fit)
    best = curves(sample.z)
    return Posterior(sample, best, terms(best))


def chance_of_stuck(case: Case, dry: Posterior, stuck: Posterior) -> float:
    """Return the chance that it stops for good, by Bayes' rule over the two hypotheses."""
    before = chance_stuck(case.setup, steps(case.evidence)[1])
    before += MORE_STUCK_AFTER_REPITCH if case.start_h > 0 else 0.0
    odds = math.log(before / (1 - before)) + stuck.sample.log_evidence - dry.sample.log_evidence
    return 1 / (1 + math.exp(-min(max(odds, -50), 50)))


class Ahead:
    """Stretches the time to come by what no reading so far could show."""

    def __init__(self, case: Case, dry: Posterior) -> None:
        count = len(dry.sample.weights)
        doubt = even_draws(count, 2)
        seen = case.readings[-1].sg if case.readings and case.now > 0 else case.setup.og
        unseen = min(max((seen - TAIL_SEEN_SG) / (TAIL_SG - TAIL_SEEN_SG), 0.25), 1.0)
        self.now = case.now
        self.late = np.maximum(dry.curves.crossing(TAIL_SG), self.now)
        sides = np.where(doubt[:, 0] < 0, QUICKER_AHEAD_SD, SLOWER_AHEAD_SD)
        self.pace = np.exp(sides * doubt[:, 0])
        self.tail = self.pace * np.exp(unseen * (TAIL_SHIFT + TAIL_SD * doubt[:, 1]))
        self.stretched_late = self.now + (self.late - self.now) * self.pace

    def stretch(self, hours: Floats) -> Floats:
        """Return when each particle's curve time `hours` (one a particle) will come."""
        soon = self.now + (hours - self.now) * self.pace
        with np.errstate(invalid="ignore"):
            late = self.stretched_late + (hours - self.late) * self.tail
        return np.where(hours <= self.now, hours, np.where(hours <= self.late, soon, late))

    def shrink(self, hours: Floats, rows: np.ndarray) -> Floats:
        """Return the curve time of each real hour for the particles `rows`: the inverse."""
        pace, tail = self.pace[rows, None], self.tail[rows, None]
        late, stretched = self.late[rows, None], self.stretched_late[rows, None]
        soon = self.now + (hours - self.now) / pace
        with np.errstate(invalid="ignore"):
            after = late + (hours - stretched) / tail
        return np.where(hours <= self.now, hours, np.where(hours <= stretched, soon, after))
