"""The gravity curve, in closed form up to one table.

With D the drop so far, R the drop to come and tau thermal hours:

    SG(t)    = OG + pulp (1 - exp(-t / 18 h)) - D
    dD/dtau  = rate a(tau) exp(-gamma D / 0.1) / s(D)
    s(D)     = 1 + kappa / R + drag max(1 - R / knee, 0) + burst D^2 / (D^2 + break^2)
    a(tau)   = 1 / (1 + exp(-(tau - lag) / ramp))

The drag is the thin tail of a tired yeast: the last sugar goes at a fraction of the pace. The burst
is what growth takes up beyond upkeep, or a wild start that gives out: the first sugar goes faster.

`a` depends on tau alone and the rest on D alone, so both sides integrate by themselves:

    G(D) = int s(D) exp(gamma D/0.1) dD = rate A(tau)
    A(tau) = int a dtau, a soft-plus

G is tabled, by trapezoids, the sugar's part of it in -ln R. Sugar, dilution and changes of pace
start a new stretch with a table of its own; temperature changes the clock only.
"""

from __future__ import annotations

from copy import copy
from dataclasses import dataclass, fields
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from winebench.forecast.api import Event
from winebench.forecast.clock import Clock, Floats
from winebench.forecast.prior import SG_PER_G_PER_L, Parameters

PULP_H = 18.0
LEFT = np.concatenate([np.linspace(1, 0.16, 12), np.geomspace(0.16, 2e-4, 17)[1:]])
"""Share of the drop to come at each node of the table: even at first, then ever closer."""
GONE = (1 - LEFT)[:, None]
HALF_STEPS = -np.diff(np.log(LEFT))[:, None] / 2
GONE_HALF_STEPS = np.diff(GONE, axis=0) / 2
SHELF = 2.0
LEAST_DROP = 1e-4
PACE_KINDS = ("rack", "nutrient")


def soft_plus(x: Floats) -> Floats:
    """Return ln(1 + exp(x)), good to 1e-16; four times quicker than logaddexp."""
    return np.asarray(np.maximum(x, np.log(1 + np.exp(np.minimum(x, 50.0)))))


def _add_up(rows: Floats) -> None:
    """Make each row the sum of those up to it, in place; three times quicker than cumsum."""
    for before, row in pairwise(rows):
        row += before


@dataclass(frozen=True)
class Stretch:
    """A piece of the curve between two events."""

    start_h: float
    top: Floats
    """OG that would give this must without pulp."""
    pulp: Floats
    drop: Floats
    """D at the start."""
    left: Floats
    """R at the start."""
    rate: Floats
    activity: Floats
    """A(tau) at the start."""
    table: Floats
    """G at the nodes, node x particle."""


class Ferments:
    """Many possible curves of one must, one a particle."""

    def __init__(self, p: Parameters, clock: Clock, events: tuple[Event, ...]) -> None:
        self.p = p
        self.clock = clock
        self.slow = p.gamma / 0.1
        self.activity_0 = p.ramp * soft_plus(-p.lag / p.ramp)
        nothing = np.zeros_like(p.og)
        end = np.minimum(p.end, p.og - LEAST_DROP)
        self.stretches = [self._stretch(0.0, p.og, p.pulp, nothing, end, p.rate)]
        paces = 0
        for event in events:
            end, paces = self._bend(event, end, paces)
        self.end = end

    def rows(self, rows: NDArray[np.intp]) -> Ferments:
        """Return the particles `rows` only."""
        cut = copy(self)
        cut.p = Parameters(**{f.name: getattr(self.p, f.name)[rows] for f in fields(self.p)})
        cut.clock = Clock(self.clock.starts, self.clock.celsius, self.clock.log_q10[rows])
        cut.slow, cut.activity_0 = self.slow[rows], self.activity_0[rows]
        cut.end = self.end[rows]
        cut.stretches = [
            Stretch(s.start_h, *(getattr(s, f.name)[..., rows] for f in fields(s)[1:]))
            for s in self.stretches
        ]
        return cut

    def _bend(self, event: Event, end: Floats, paces: int) -> tuple[Floats, int]:
        last = self.stretches[-1]
        hour = max(event.hours, 0.0)
        drop = self._drop(last, np.array([hour]))[:, 0]
        top, pulp, rate = last.top, last.pulp, last.rate
        if event.kind == "sugar":
            top = top + SG_PER_G_PER_L * event.amount
            # More alcohol lowers the end of a dry wine; the same slope as the prior's.
            end = end - 0.05 * SG_PER_G_PER_L * event.amount
        elif event.kind == "dilution":
            thin = 1 / event.amount
            top, end = 1 + (top - 1) * thin, 1 + (end - 1) * thin
            drop, pulp = drop * thin, pulp * thin
        elif event.kind in PACE_KINDS and self.p.pace.shape[1]:
            rate = rate * np.exp(self.p.pace[:, min(paces, self.p.pace.shape[1] - 1)])
            paces += 1
        self.stretches.append(self._stretch(hour, top, pulp, drop, end, rate))
        return end, paces

    def _stretch(
        self, hour: float, top: Floats, pulp: Floats, drop: Floats, end: Floats, rate: Floats
    ) -> Stretch:
        left = np.maximum(top + pulp - drop - end, LEAST_DROP)
        weights = np.exp(GONE * (self.slow * left))
        weights *= np.exp(self.slow * drop)
        added = weights[1:] + weights[:-1]
        added *= HALF_STEPS * self.p.kappa
        added += self._burst(drop, left, weights)
        _add_up(added)
        # The integral of 1 - R/knee from the knee, or from the start where that lies lower.
        far = np.maximum(1 - left * (1 - GONE) / self.p.knee, 0)
        thin = far**2 - np.maximum(1 - left / self.p.knee, 0) ** 2
        thin *= self.p.drag * self.p.knee / 2 * weights[-1]
        table = (weights - weights[0]) / self.slow
        table[1:] += added
        table += thin
        # At the pitch A is 0 by its definition.
        activity = self._activity(np.array([hour]))[:, 0] if hour > 0 else np.zeros_like(left)
        return Stretch(hour, top, pulp, drop, left, rate, activity, table)

    def _burst(self, drop: Floats, left: Floats, weights: Floats) -> Floats:
        """Return what the end of the burst adds to the table from node to node."""
        p = self.p
        dropped = drop + GONE * left
        dropped *= dropped
        share = dropped / (dropped + p.break_**2)
        share *= weights
        added = share[1:] + share[:-1]
        added *= GONE_HALF_STEPS * (p.burst * left)
        return added

    def _activity(self, hours: Floats) -> Floats:
        p = self.p
        tau = self.clock.thermal(hours)
        soft = soft_plus((tau - p.lag[:, None]) / p.ramp[:, None])
        return np.asarray(p.ramp[:, None] * soft - self.activity_0[:, None])

    def _drop(self, piece: Stretch, hours: Floats) -> Floats:
        """Return D at `hours`, all of them in this stretch."""
        work = piece.rate[:, None] * (self._activity(hours) - piece.activity[:, None])
        most = piece.table[-1]
        # Particles set side by side, so that one call looks up in each one's own table.
        shelf = SHELF * np.arange(most.size)
        keys = (piece.table / most + shelf).T.ravel()
        asked = np.clip(work / most[:, None], 0, 1) + shelf[:, None]
        share = np.interp(asked, keys, np.tile(GONE[:, 0], most.size))
        return np.asarray(piece.drop[:, None] + piece.left[:, None] * share)

    def gravity(self, hours: Floats) -> Floats:
        """Return SG, particle x hour; `hours` is (n,) or particle x n. Before the pitch: OG."""
        ends = [piece.start_h for piece in self.stretches[1:]] + [np.inf]
        inside = [
            (hours > piece.start_h) & (hours <= end)
            for piece, end in zip(self.stretches, ends, strict=True)
        ]
        if len(inside) == 1 and inside[0].all():
            return self._gravity(self.stretches[0], hours)
        out = np.repeat(self.p.og[:, None], hours.shape[-1], axis=1)
        for piece, here in zip(self.stretches, inside, strict=True):
            columns = here if hours.ndim == 1 else here.any(axis=0)
            if columns.any():
                sg = self._gravity(piece, hours[..., columns])
                out[:, columns] = np.where(here[..., columns], sg, out[:, columns])
        return out

    def _gravity(self, piece: Stretch, hours: Floats) -> Floats:
        given = piece.pulp[:, None] * -np.expm1(-np.maximum(hours, 0) / PULP_H)
        return np.asarray(piece.top[:, None] + given - self._drop(piece, hours))

    def crossing(self, below: float) -> Floats:
        """Return the hour at which each particle last falls below `below`; inf if never."""
        found = np.full(self.p.og.size, np.inf)
        open_ = np.ones(self.p.og.size, dtype=bool)
        for piece in reversed(self.stretches):
            given = 1 - np.exp(-max(piece.start_h, 0) / PULP_H)
            above = piece.top + piece.pulp * given - piece.drop > below
            hour = self._fall(piece, below)
            found = np.where(open_ & above, hour, found)
            open_ = open_ & ~above
        return np.where(open_, 0.0, found)

    def _fall(self, piece: Stretch, below: float) -> Floats:
        hour = np.full(piece.top.size, np.inf)
        for _ in range(2):
            given = piece.pulp * (1 - np.exp(-np.minimum(hour, 1e6) / PULP_H))
            hour = self.hour_of_drop(piece, piece.top + given - below)
        return hour

    def hour_of_drop(self, piece: Stretch, drop: Floats) -> Floats:
        """Return the hour in this stretch at which D reaches `drop`; inf if it never does."""
        left = 1 - (drop - piece.drop) / piece.left
        possible = left > LEFT[-1]
        left = np.clip(left, LEFT[-1], 1)
        node = np.minimum(np.searchsorted(-LEFT, -left, side="right") - 1, LEFT.size - 2)
        row = np.arange(node.size)
        low, high = piece.table[node, row], piece.table[node + 1, row]
        share = (LEFT[node] - left) / (LEFT[node] - LEFT[node + 1])
        work = low + (high - low) * share
        p = self.p
        reached = (work / piece.rate + piece.activity + self.activity_0) / p.ramp
        # Inverse of the soft-plus, written so that a large argument cannot overflow.
        tau = p.lag + p.ramp * (reached + np.log(-np.expm1(-np.maximum(reached, 1e-9))))
        return np.where(possible, np.maximum(self.clock.hours(tau), piece.start_h), np.inf)
