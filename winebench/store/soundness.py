"""What a project must keep beyond its types, so that a saved file can always be read."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from winebench.model.project import Project
from winebench.store.bounds import impossible
from winebench.store.complaints import missing_offset

_YEARS = range(1900, 2201)


def faults(project: Project) -> Iterator[str]:
    """Give each fault as place, what and what to do, without a full stop."""
    yield from _repeated_ids(project)
    for place, time in _times(project):
        if time.utcoffset() is None:
            yield missing_offset(place)
        elif time.year not in _YEARS:
            yield f"{place} is in the year {time.year}; check the date"
    yield from impossible(project)
    for place, amount in project.countryless():
        text = amount.text.strip()
        yield (
            f'{place}: "{text}" could be US or imperial, which differ by a fifth; '
            f'set "gallon" to "US" or "imperial", or write "{text} US"'
        )


def _repeated_ids(project: Project) -> Iterator[str]:
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


def _times(project: Project) -> Iterator[tuple[str, datetime]]:
    if project.start is not None:
        yield "start", project.start
    for index, entry in enumerate(project.log):
        yield f"log[{index}].at", entry.at
