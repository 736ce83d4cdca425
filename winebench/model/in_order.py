"""The log in order of time and by kind, worked out once for each log."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from operator import is_
from typing import Generic, NamedTuple, TypeVar

from winebench.model.log import Action, Entry, Note, Reading

V = TypeVar("V")
Log = tuple[Entry, ...]
_KEPT = 6
"""Logs remembered: the one open, the one before the last entry, and some for undo."""


class ByLog(Generic[V]):
    """Remember what a function says of the latest logs, each known by holding the same objects.

    To hash or compare a log of a hundred thousand entries takes longer than what is asked of it.
    """

    def __init__(self, work_out: Callable[[Log], V]) -> None:
        self._work_out = work_out
        self._known: deque[tuple[Log, V]] = deque(maxlen=_KEPT)

    def __call__(self, log: Log) -> V:
        """Return what the function says of that log."""
        for known, value in tuple(self._known):
            if known is log or (len(known) == len(log) and all(map(is_, known, log))):
                return value
        value = self._work_out(log)
        self._known.append((log, value))
        return value


class InOrder(NamedTuple):
    """A log's entries in order of time, and each kind of them by itself."""

    entries: Log
    readings: tuple[Reading, ...]
    actions: tuple[Action, ...]
    notes: tuple[Note, ...]


def _sorted(log: Log) -> InOrder:
    entries = tuple(sorted(log, key=lambda entry: entry.at))
    return InOrder(
        entries,
        tuple(e for e in entries if isinstance(e, Reading)),
        tuple(e for e in entries if isinstance(e, Action)),
        tuple(e for e in entries if isinstance(e, Note)),
    )


in_order = ByLog(_sorted)
"""Return the log in order; entries of one time stay as logged."""
