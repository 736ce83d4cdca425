"""What a project must keep beyond its types, so that a saved file can always be read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import datetime

from winebench.model.in_order import ByLog, Difference, difference
from winebench.model.log import Entry
from winebench.model.project import Project
from winebench.store.bounds import impossible
from winebench.store.complaints import missing_offset
from winebench.store.pictures import misplaced

_YEARS = range(1900, 2201)


def faults(project: Project, before: Project | None = None) -> Iterator[str]:
    """Give each fault as place, what and what to do, without a full stop.

    `before` is the project before an edit, known to be sound: what of its log is still there is
    not looked at again.
    """
    change = difference(before.log if before else (), project.log)
    fresh = tuple(enumerate(change.come, change.start))
    yield from _repeated_ids(project)
    for place, time in _times(project, fresh):
        if time.utcoffset() is None:
            yield missing_offset(place)
        elif time.year not in _YEARS:
            yield f"{place} is in the year {time.year}; check the date"
    yield from _misplaced_pictures(fresh)
    yield from impossible(project, fresh)
    for place, amount in project.countryless():
        text = amount.text.strip()
        yield (
            f'{place}: "{text}" could be US or imperial, which differ by a fifth; '
            f'set "gallon" to "US" or "imperial", or write "{text} US"'
        )


def _ids_in(log: tuple[Entry, ...]) -> frozenset[str]:
    return frozenset(entry.id for entry in log)


def _ids_amended(
    known: frozenset[str], change: Difference, _log: tuple[Entry, ...]
) -> frozenset[str]:
    return known.difference(e.id for e in change.gone).union(e.id for e in change.come)


_entry_ids = ByLog(_ids_in, _ids_amended)


def _repeated_ids(project: Project) -> Iterator[str]:
    entries = _entry_ids(project.log)
    others = [part.id for part in (*project.recipe.lines, *project.make.vessels)]
    if (
        len(entries) == len(project.log)
        and len(set(others)) == len(others)
        and entries.isdisjoint(others)
    ):
        return
    seen: dict[str, str] = {}
    for place, name in _ids(project):
        if name in seen:
            yield f'{place} repeats "{name}" of {seen[name]}; give it a name of its own'
        seen.setdefault(name, place)


def _ids(project: Project) -> Iterator[tuple[str, str]]:
    for index, line in enumerate(project.recipe.lines):
        yield f"recipe.lines[{index}].id", line.id
    for index, vessel in enumerate(project.make.vessels):
        yield f"make.vessels[{index}].id", vessel.id
    for index, entry in enumerate(project.log):
        yield f"log[{index}].id", entry.id


def _misplaced_pictures(entries: Iterable[tuple[int, Entry]]) -> Iterator[str]:
    for index, entry in entries:
        for place, name in enumerate(entry.pictures):
            why = misplaced(name)
            if why:
                yield f"log[{index}].pictures[{place}]: {why}"


def _times(
    project: Project, entries: Iterable[tuple[int, Entry]]
) -> Iterator[tuple[str, datetime]]:
    if project.start is not None:
        yield "start", project.start
    for index, entry in entries:
        yield f"log[{index}].at", entry.at
