"""What was read, done and noted, each with its time; append-only in spirit."""

from __future__ import annotations

from datetime import date, datetime
from typing import Literal

from winebench.model.part import Part
from winebench.units import Gravity, Temperature


class EntryPart(Part, frozen=True, kw_only=True, gc=False):
    """What all entries share. `at` is local wall time with its offset."""

    # Nothing in an entry can lead back to it, so the collector need not look through a
    # sensor's hundred thousand (gc=False).

    id: str
    at: datetime
    note: str = ""
    pictures: tuple[str, ...] = ()
    """Files kept beside the project, each by its name relative to the project's folder."""


class Reading(EntryPart, frozen=True, kw_only=True, tag_field="what", tag="reading"):
    """A look at the wine: gravity as read, and whatever else was measured."""

    gravity: Gravity | None = None
    """As read off the instrument, uncorrected."""
    temperature: Temperature | None = None
    """Of the sample."""
    instrument: Literal["hydrometer", "refractometer"] = "hydrometer"
    calibrated: Temperature | None = None
    """Of this instrument, where it is not the project's own."""
    degassed: bool = False
    ph: float | None = None
    acid_g_per_l: float | None = None
    free_so2_mg_per_l: float | None = None
    clear: Literal[0, 1, 2, 3, 4] | None = None
    """0 cannot see a lamp through it, 4 can read print through it."""


class Record(Part, frozen=True, kw_only=True):
    """One thing written down when a step was done, such as ("lost", "0.4 L")."""

    name: str
    value: str


class Action(EntryPart, frozen=True, kw_only=True, tag_field="what", tag="action"):
    """A step that was done (or a daily chore ticked)."""

    step: str
    """Key of the step in the plan, such as "pitch" or "stir"."""
    records: tuple[Record, ...] = ()
    override: str = ""
    """Why a held step was done all the same, in the maker's words; printed on the card."""


class Note(EntryPart, frozen=True, kw_only=True, tag_field="what", tag="note"):
    """Anything worth keeping."""

    text: str


Entry = Reading | Action | Note


class Away(Part, frozen=True, kw_only=True):
    """Days when nobody can tend the wine, both ends included."""

    first: date
    last: date
    why: str = ""
