"""The many readings of a sensor, thinned to what a plan can use; what was read by hand all stays.

A probe that logs each minute says sixty times an hour what one reading says. Nothing is taken
out of the log: this is only what the plan looks at and the curve draws.
"""

from __future__ import annotations

from winebench.model.in_order import in_order
from winebench.model.log import Entry, Reading

MANY = 1200
"""From so many readings on they are thinned."""
KEPT = 800
"""About so many stay, evenly over the time that they span."""
NEWEST = 48
"""The newest readings all stay."""


def sparse(log: tuple[Entry, ...]) -> tuple[Entry, ...]:
    """Return the log in order of time, thinned where it holds more readings than a hand writes.

    Of the plain readings of each short span the middle one by gravity stays: a bubble or a bump
    under the probe is not what speaks for its hour.
    """
    ordered = in_order(log)
    if len(ordered.readings) < MANY:
        return ordered.entries
    plain = [r for r in ordered.readings[:-NEWEST] if _is_plain(r)]
    if not plain:
        return ordered.entries
    dropped = _all_but_middle_ones(plain)
    return tuple(entry for entry in ordered.entries if id(entry) not in dropped)


def _is_plain(reading: Reading) -> bool:
    """Return whether the reading says nothing but a gravity and a temperature."""
    return reading.gravity is not None and not (
        reading.note
        or reading.pictures
        or reading.degassed
        or reading.clear is not None
        or reading.ph is not None
        or reading.acid_g_per_l is not None
        or reading.free_so2_mg_per_l is not None
        or reading.instrument != "hydrometer"
    )


def _all_but_middle_ones(plain: list[Reading]) -> set[int]:
    """Return which readings to leave out, each by being the same object."""
    first, last = plain[0].at, plain[-1].at
    seconds = max((last - first).total_seconds() / KEPT, 1.0)
    dropped: set[int] = set()
    run: list[Reading] = []
    current = 0
    for reading in plain:
        span = int((reading.at - first).total_seconds() / seconds)
        if span != current:
            dropped.update(_others(run))
            run, current = [], span
        run.append(reading)
    dropped.update(_others(run))
    return dropped


def _others(run: list[Reading]) -> list[int]:
    by_gravity = sorted(run, key=_gravity)
    middle = len(run) // 2
    return [id(reading) for place, reading in enumerate(by_gravity) if place != middle]


def _gravity(reading: Reading) -> float:
    assert reading.gravity is not None
    return reading.gravity.value
