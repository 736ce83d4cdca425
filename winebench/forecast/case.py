"""The evidence put in order: sorted readings, the events that bend the curve, a fresh start."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from winebench.forecast.api import Event, Evidence, Observation, Setup
from winebench.forecast.curve import PACE_KINDS
from winebench.forecast.prior import COORDINATES

Floats = NDArray[np.float64]

INSTRUMENT_SD = 0.0015
"""Reading a hydrometer in a kitchen, SG (common practice: 0.001 to 0.002)."""
MODEL_SD = 0.0006
"""What no smooth curve follows, SG."""
FORGETTING = 0.02
"""More doubt for each SG unit between a reading and the newest one: the curve is only local."""
MOST_PACES = 3


@dataclass(frozen=True)
class Case:
    """Evidence in canonical order, its hours counted from `start_h`."""

    evidence: Evidence
    """Without temperature events in `events`, sorted."""
    index: tuple[int, ...]
    """Where each sorted reading stood in the original."""
    events: tuple[Event, ...]
    paces: int
    start_h: float
    """Hour of the newest fresh pitch, or 0."""
    born_og: float
    """The gravity that this must began with, whatever its gravity now."""

    @property
    def setup(self) -> Setup:
        """Return what is known of the must at the start."""
        return self.evidence.setup

    @property
    def readings(self) -> tuple[Observation, ...]:
        """Return the readings, oldest first."""
        return self.evidence.observations

    @property
    def dims(self) -> int:
        """Return the number of coordinates."""
        return COORDINATES + self.paces

    @property
    def now(self) -> float:
        """Return the hour of the newest reading after the start, or 0."""
        return max([0.0] + [o.hours for o in self.readings])

    def scales(self) -> Floats:
        """Return the reading error of each reading, with what the model cannot follow."""
        if not self.readings:
            return np.empty(0)
        sg = np.array([o.sg for o in self.readings])
        far = FORGETTING * np.abs(sg - sg[-1])
        return np.asarray(np.sqrt(INSTRUMENT_SD**2 + MODEL_SD**2 + far**2))


def put_in_order(evidence: Evidence) -> Case:
    """Return the evidence in canonical order; readings given in any order make the same case."""
    fresh = [e.hours for e in evidence.events if e.kind == "repitch" and e.hours > 0]
    start = max(fresh, default=0.0)
    order = sorted(range(len(evidence.observations)), key=lambda i: _key(evidence.observations[i]))
    events = tuple(sorted(evidence.events, key=lambda e: (e.hours, e.kind, e.amount)))
    setup, born = evidence.setup, evidence.setup.og
    if start > 0:
        setup, born = _started_again(evidence, order, start)
        order = [i for i in order if evidence.observations[i].hours > start]
    readings = tuple(
        replace(evidence.observations[i], hours=evidence.observations[i].hours - start)
        for i in order
    )
    later = tuple(replace(e, hours=e.hours - start) for e in _carried(events, start))
    # A repitch at or before the pitch is the pitch; a later one is where this case starts.
    bends = tuple(e for e in later if e.kind not in ("temperature", "repitch"))
    paces = min(sum(e.kind in PACE_KINDS for e in bends), MOST_PACES)
    return Case(Evidence(setup, readings, later), tuple(order), bends, paces, start, born)


def _key(reading: Observation) -> tuple[float, float, float]:
    return reading.hours, reading.sg, -300.0 if reading.celsius is None else reading.celsius


def _carried(events: tuple[Event, ...], start: float) -> list[Event]:
    """Return what still matters after a fresh pitch: later events, and the newest room."""
    if start <= 0:
        return list(events)
    rooms = [e for e in events if e.kind == "temperature" and e.hours <= start]
    return [replace(e, hours=start) for e in rooms[-1:]] + [e for e in events if e.hours > start]


def _started_again(evidence: Evidence, order: list[int], start: float) -> tuple[Setup, float]:
    """Return the must at a fresh pitch as a new beginning, and the gravity it was born with."""
    setup = evidence.setup
    before = [evidence.observations[i] for i in order if evidence.observations[i].hours <= start]
    worked = [o for o in before if o.hours > 0]
    added = sum(e.amount for e in evidence.events if e.kind == "sugar" and e.hours <= start)
    born = setup.og + 0.000385 * added
    if not worked:
        return setup, born
    newest = [o.sg for o in worked[-2:]]
    doubt = 0.003 + abs(newest[-1] - newest[0]) / 2
    return replace(setup, og=newest[-1], og_sd=doubt, pulp=False), born
