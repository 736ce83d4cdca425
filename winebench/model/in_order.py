"""The log in order of time and by kind, worked out once for each log.

To hash, compare or sort a log of a hundred thousand entries takes longer than what is asked of
it. So a log is known by holding the same objects, and after an edit only what the edit put in or
took out is looked at.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import deque
from collections.abc import Callable, Sequence
from datetime import UTC, datetime, timezone
from operator import is_
from typing import Generic, NamedTuple, TypeVar

from winebench.model.log import Action, Entry, Note, Reading

V = TypeVar("V")
E = TypeVar("E", bound=Entry)
Log = Sequence[Entry]
_KEPT = 6
"""Logs remembered: the one open, the one before the last entry, and some for undo."""
_FEW = 32
"""So many entries may come and go before a log is looked at anew."""


class Difference(NamedTuple):
    """What one edit did to a log: the entries it took out and those it put in their place."""

    start: int
    gone: tuple[Entry, ...]
    come: tuple[Entry, ...]


def difference(before: Log, after: Log) -> Difference:
    """Return what lies between the parts at both ends that hold the same objects."""
    start = _same(before, after)
    rest, now = before[start:], after[start:]
    end = _same(rest[::-1], now[::-1])
    return Difference(start, tuple(rest[: len(rest) - end]), tuple(now[: len(now) - end]))


def _same(one: Log, other: Log) -> int:
    """Return how many entries at the beginning are the same objects."""
    same = list(map(is_, one, other))
    return same.index(False) if False in same else len(same)


class ByLog(Generic[V]):
    """Remember what a function says of the latest logs, each known by holding the same objects.

    `amend`, where given, makes the answer for a log of that for one like it, of how the two
    differ, and of the log; None where it cannot.
    """

    def __init__(
        self,
        work_out: Callable[[tuple[Entry, ...]], V],
        amend: Callable[[V, Difference, tuple[Entry, ...]], V | None] | None = None,
    ) -> None:
        self._work_out = work_out
        self._amend = amend
        self._known: deque[tuple[tuple[Entry, ...], V]] = deque(maxlen=_KEPT)

    def __call__(self, log: tuple[Entry, ...]) -> V:
        """Return what the function says of that log."""
        for known, value in tuple(self._known):
            if known is log or (len(known) == len(log) and all(map(is_, known, log))):
                return value
        value = self._amended(log)
        self._known.append((log, value))
        return value

    def _amended(self, log: tuple[Entry, ...]) -> V:
        for known, value in reversed(self._known) if self._amend else ():
            if not _alike(known, log):
                continue
            change = difference(known, log)
            if self._amend and len(change.gone) + len(change.come) <= _FEW:
                amended = self._amend(value, change, log)
                if amended is not None:
                    return amended
        return self._work_out(log)


def _alike(one: Log, other: Log) -> bool:
    """Return whether a small edit may lie between two logs, at a glance."""
    if not one or not other or abs(len(one) - len(other)) > _FEW:
        return False
    return one[0] is other[0] or one[-1] is other[-1]


class InOrder(NamedTuple):
    """A log's entries in order of time, and each kind of them by itself."""

    entries: tuple[Entry, ...]
    readings: tuple[Reading, ...]
    actions: tuple[Action, ...]
    notes: tuple[Note, ...]


def instant(entry: Entry) -> datetime:
    """Return when it was, by a plain offset.

    Two times of one named zone compare by their wall clocks; in the night when clocks go back
    that is no order.
    """
    at = entry.at
    return at if type(at.tzinfo) is timezone else at.astimezone(UTC)


def _sorted(log: tuple[Entry, ...]) -> InOrder:
    entries = tuple(sorted(log, key=instant))
    return InOrder(
        entries,
        tuple(e for e in entries if isinstance(e, Reading)),
        tuple(e for e in entries if isinstance(e, Action)),
        tuple(e for e in entries if isinstance(e, Note)),
    )


def _amended(known: InOrder, change: Difference, log: tuple[Entry, ...]) -> InOrder | None:
    """Return the order after a small edit; None where it has to be sorted anew.

    Entries of one time stay as logged: what comes at the log's end comes after those of its
    time; for what comes elsewhere only the log itself can tell.
    """
    at_end = change.start + len(change.come) == len(log)
    entries = list(known.entries)
    for gone in change.gone:
        _take_out(entries, gone)
    for come in change.come:
        place = bisect_right(entries, instant(come), key=instant)
        if place and instant(entries[place - 1]) == instant(come) and not at_end:
            return None
        entries.insert(place, come)
    return InOrder(
        tuple(entries),
        _of_kind(Reading, known.readings, change),
        _of_kind(Action, known.actions, change),
        _of_kind(Note, known.notes, change),
    )


def _of_kind(kind: type[E], known: tuple[E, ...], change: Difference) -> tuple[E, ...]:
    gone = [entry for entry in change.gone if isinstance(entry, kind)]
    come = [entry for entry in change.come if isinstance(entry, kind)]
    if not gone and not come:
        return known
    entries = list(known)
    for entry in gone:
        _take_out(entries, entry)
    for entry in come:
        entries.insert(bisect_right(entries, instant(entry), key=instant), entry)
    return tuple(entries)


def _take_out(entries: list[E], gone: E) -> None:
    place = bisect_left(entries, instant(gone), key=instant)
    while entries[place] is not gone:
        place += 1
    del entries[place]


in_order = ByLog(_sorted, _amended)
"""Return the log in order; entries of one time stay as logged."""
