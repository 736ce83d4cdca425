"""Thermal time: hours at 20 °C that would do the same as the hours that passed.

`dtau = Q10^((T - 20) / 10) dt`, with the must's temperature taken as constant within steps of at
most a day. Growth and uptake both rise 6-fold from 11 to 35 °C (Coleman, Fish & Block 2007, Appl.
Environ. Microbiol. 73:5875, abstract), which is a Q10 of about 2.15.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from winebench.forecast.api import Evidence

Floats = NDArray[np.float64]

REFERENCE_CELSIUS = 20.0
HOURS_TO_NEW_ROOM = 12.0
"""How long a pail takes to follow a change of room (common practice: 5 to 20 L)."""
HOURS_TO_ROOM = 72.0
"""How long a working must's own heat takes to fade after its last logged temperature."""
LONGEST_STEP_H = 24.0
SAME_CELSIUS = 0.3


def must_temperatures(evidence: Evidence) -> list[tuple[float, float]]:
    """Return (hour, °C) corners of the must's temperature, from the pitch into the future."""
    logged = sorted(
        (max(o.hours, 0.0), o.celsius) for o in evidence.observations if o.celsius is not None
    )
    moves = sorted((e.hours, e.amount) for e in evidence.events if e.kind == "temperature")
    room = evidence.setup.room_celsius
    corners = [(0.0, logged[0][1] if logged and _first_room_holds(logged, moves) else room)]
    happened = [(h, c, False) for h, c in logged] + [(max(h, 0.0), c, True) for h, c in moves]
    warm_after_log = False
    for hour, celsius, is_move in sorted(happened):
        if is_move:
            corners += [(hour, corners[-1][1]), (hour + HOURS_TO_NEW_ROOM, celsius)]
            room = celsius
        else:
            # A thermometer beats an assumed corner that lies later.
            corners = [corner for corner in corners if corner[0] < hour] + [(hour, celsius)]
        warm_after_log = not is_move
    if warm_after_log:
        corners.append((corners[-1][0] + HOURS_TO_ROOM, room))
    return corners


def _first_room_holds(logged: list[tuple[float, float]], moves: list[tuple[float, float]]) -> bool:
    return not moves or logged[0][0] <= moves[0][0]


@dataclass(frozen=True)
class Clock:
    """Turns hours into thermal hours and back, for many values of Q10 at once."""

    starts: Floats
    """Hour at which each step begins; the last goes on for ever."""
    celsius: Floats
    log_q10: Floats
    """One a particle."""

    @cached_property
    def rates(self) -> Floats:
        """Return thermal hours an hour, particle x step."""
        warmth = (self.celsius - REFERENCE_CELSIUS) / 10
        return np.exp(self.log_q10[:, None] * warmth)

    @cached_property
    def passed(self) -> Floats:
        """Return the thermal hours at the start of each step, particle x step."""
        spans = self.rates[:, :-1] * np.diff(self.starts)
        return np.concatenate([np.zeros((spans.shape[0], 1)), spans.cumsum(axis=1)], axis=1)

    def thermal(self, hours: Floats) -> Floats:
        """Return thermal hours, particle x hour; `hours` is (n,) or particle x n."""
        if self.starts.size == 1:
            return np.asarray(self.rates * (hours - self.starts[0]))
        step = np.searchsorted(self.starts, hours, side="right") - 1
        step = np.maximum(step, 0)
        since = hours - self.starts[step]
        if hours.ndim == 1:
            return self.passed[:, step] + self.rates[:, step] * since
        at = np.take_along_axis
        return np.asarray(at(self.passed, step, 1) + at(self.rates, step, 1) * since)

    def hours(self, thermal: Floats) -> Floats:
        """Return the hour at which each particle's thermal time is reached; one a particle."""
        step = (self.passed <= thermal[:, None]).sum(axis=1) - 1
        step = np.maximum(step, 0)
        row = np.arange(thermal.size)
        since = (thermal - self.passed[row, step]) / self.rates[row, step]
        return np.asarray(self.starts[step] + since)


def steps(evidence: Evidence) -> tuple[Floats, Floats]:
    """Return (start hours, °C) of the constant steps that stand for the must's temperature."""
    corners = must_temperatures(evidence)
    starts: list[float] = []
    celsius: list[float] = []
    for (hour, low), (later, high) in pairwise(corners):
        pieces = max(int(np.ceil((later - hour) / LONGEST_STEP_H)), 1) if later > hour else 0
        pieces = 1 if low == high else min(pieces, 6)
        for piece in range(pieces if later > hour else 0):
            starts.append(hour + (later - hour) * piece / pieces)
            celsius.append(low + (high - low) * (piece + 0.5) / pieces)
    starts.append(corners[-1][0])
    celsius.append(corners[-1][1])
    kept = [0]
    for index in range(1, len(starts)):
        if abs(celsius[index] - celsius[kept[-1]]) > SAME_CELSIUS or index == len(starts) - 1:
            kept.append(index)
    return np.array([starts[i] for i in kept]), np.array([celsius[i] for i in kept])
