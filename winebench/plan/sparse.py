"""The many readings of a sensor, thinned to what a plan can use; what was read by hand all stays.

A probe that logs each minute says sixty times an hour what one reading says. Nothing is taken
out of the log: this is only what the plan looks at and the curve draws.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from datetime import datetime
from math import ceil, log2
from typing import NamedTuple, cast

from winebench.model.in_order import ByLog, Difference, difference, in_order, instant
from winebench.model.log import Entry, Reading

MANY = 1200
"""From so many readings on they are thinned."""
KEPT = 800
"""About so many stay, evenly over the time that they span."""
NEWEST = 48
"""The newest readings all stay."""


_FEW = 32
"""So many readings may come and go before all are thinned anew."""


class Spans(NamedTuple):
    """Short spans of time, all of one length, from the first reading on."""

    first: datetime
    seconds: float

    def of(self, reading: Reading) -> int:
        """Return the number of the span that a reading falls in."""
        return int((instant(reading) - self.first).total_seconds() / self.seconds)


class _Thinned(NamedTuple):
    """Readings, all but the newest, as thinned."""

    older: tuple[Reading, ...]
    spans: Spans
    kept: dict[int, Reading]
    """The one that stays of the plain ones of each span."""
    by_hand: tuple[Reading, ...]
    """Those that say more; all stay."""


def sparse(log: tuple[Entry, ...]) -> tuple[Entry, ...]:
    """Return the log in order of time, thinned where it holds more readings than a hand writes.

    Of the plain readings of each short span the middle one by gravity stays: a bubble or a bump
    under the probe is not what speaks for its hour.
    """
    entries, readings, actions, notes = in_order(log)
    if len(readings) < MANY:
        return entries
    thin = _thinned(readings)
    stay: list[Entry] = [*thin.kept.values(), *thin.by_hand, *readings[-NEWEST:]]
    return _as_in(entries, [*stay, *actions, *notes])


def _as_in(entries: tuple[Entry, ...], some: Iterable[Entry]) -> tuple[Entry, ...]:
    """Return some of the entries in the order that they all have."""
    places: dict[int, Entry] = {}
    seen: dict[int, int] = {}
    for entry in some:
        place = bisect_left(entries, instant(entry), key=instant)
        if entries[place] is not entry:  # several at one time: looked through once
            while id(entry) not in seen:
                seen[id(entries[place])] = place
                place += 1
            place = seen[id(entry)]
        places[place] = entry
    return tuple(places[place] for place in sorted(places))


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


def _thin(readings: tuple[Entry, ...]) -> _Thinned:
    older = _older(readings)
    spans = _spans(older)
    plain, by_hand = _parted(older)
    kept: dict[int, Reading] = {}
    begin = 0
    while begin < len(plain):
        span = spans.of(plain[begin])
        end = bisect_right(plain, span, lo=begin + 1, key=spans.of)
        kept[span] = _middle(plain[begin:end])
        begin = end
    return _Thinned(older, spans, kept, tuple(by_hand))


def _thin_again(
    known: _Thinned, _change: Difference, readings: tuple[Entry, ...]
) -> _Thinned | None:
    """Return what a small edit makes of it: only the spans that it touches are looked at."""
    older = _older(readings)
    change = difference(known.older, older)
    touched = [e for e in (*change.gone, *change.come) if isinstance(e, Reading)]
    if len(touched) > _FEW or _spans(older) != known.spans:
        return None
    kept = dict(known.kept)
    for span in set(map(known.spans.of, touched)):
        begin = bisect_left(older, span, key=known.spans.of)
        end = bisect_right(older, span, lo=begin, key=known.spans.of)
        kept.pop(span, None)
        plain, _ = _parted(older[begin:end])
        if plain:
            kept[span] = _middle(plain)
    gone = set(map(id, change.gone))
    by_hand = [r for r in known.by_hand if id(r) not in gone]
    _, come = _parted(r for r in change.come if isinstance(r, Reading))
    return _Thinned(older, known.spans, kept, (*by_hand, *come))


_thinned = ByLog(_thin, _thin_again)


def _older(readings: tuple[Entry, ...]) -> tuple[Reading, ...]:
    return cast("tuple[Reading, ...]", readings[:-NEWEST])


def _spans(older: tuple[Reading, ...]) -> Spans:
    """Return the spans; they keep their length while the log grows by less than a third.

    Only so does one more reading leave those of the other spans as they are.
    """
    first = instant(older[0])
    wanted = max((instant(older[-1]) - first).total_seconds() / KEPT, 1.0)
    power = 2.0 ** ceil(log2(wanted))
    return Spans(first, 0.75 * power if wanted <= 0.75 * power else power)


def _parted(readings: Iterable[Reading]) -> tuple[list[Reading], list[Reading]]:
    """Return the plain ones, and those that say more."""
    plain: list[Reading] = []
    more: list[Reading] = []
    for reading in readings:
        (plain if _is_plain(reading) else more).append(reading)
    return plain, more


def _middle(plain: list[Reading]) -> Reading:
    gravities = [_gravity(reading) for reading in plain]
    return plain[gravities.index(sorted(gravities)[len(gravities) // 2])]


def _gravity(reading: Reading) -> float:
    assert reading.gravity is not None
    return reading.gravity.value
