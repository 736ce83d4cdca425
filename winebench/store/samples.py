"""The bundled samples: invented batches to look at, each with its natural moment."""

from __future__ import annotations

from datetime import datetime, timedelta, timezone
from functools import cache
from pathlib import Path

import msgspec

from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.places import resources
from winebench.store.errors import StoreError
from winebench.store.project_file import SUFFIX, read


class Sample(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """One sample as resources/samples/index.json tells of it."""

    name: str
    title: str
    at: datetime
    """When to look at it."""
    about: str


@cache
def samples() -> tuple[Sample, ...]:
    """Return the samples in the order to show them."""
    text = (_folder() / "index.json").read_bytes()
    return msgspec.json.decode(text, type=tuple[Sample, ...])


def sample_names() -> tuple[str, ...]:
    """Return the names that `load_sample` takes."""
    return tuple(sample.name for sample in samples())


def load_sample(name: str) -> Project:
    """Return that sample with its own dates; StoreError where there is none."""
    return read(_folder() / f"{_sample(name).name}{SUFFIX}")


def sample_seen_at(name: str, at: datetime) -> Project:
    """Return that sample moved by whole days, so that its natural moment is just before `at`.

    Times of day stay as they are on the clock at `at`'s offset from UTC, which it must have.
    """
    offset = at.utcoffset()
    if offset is None:
        raise ValueError("the moment needs its offset from UTC")
    project, natural = load_sample(name), _sample(name).at
    days = (at.replace(tzinfo=None) - natural.replace(tzinfo=None)) // timedelta(days=1)
    zone, shift = timezone(offset), timedelta(days=days)

    def moved(time: datetime) -> datetime:
        return (time + shift).replace(tzinfo=zone)

    return changed(
        project,
        start=moved(project.start) if project.start else None,
        log=tuple(changed(entry, at=moved(entry.at)) for entry in project.log),
        away=tuple(changed(a, first=a.first + shift, last=a.last + shift) for a in project.away),
    )


def _sample(name: str) -> Sample:
    for sample in samples():
        if sample.name == name:
            return sample
    raise StoreError(f'There is no sample "{name}"; choose one of {", ".join(sample_names())}.')


def _folder() -> Path:
    return resources() / "samples"
