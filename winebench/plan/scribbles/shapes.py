"""What is made of scribbled lines: entries where they can be read, a question where not."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from winebench.model.edits import PutEntry, Several, changed, new_id
from winebench.model.log import Entry


@dataclass(frozen=True, slots=True)
class Offer:
    """One way to answer a question: a few words, and the line rewritten so."""

    label: str
    line: str


@dataclass(frozen=True, slots=True)
class Scribble:
    """One line of the scribbles beside what it was taken for."""

    number: int
    """Of the line in the text, from 1."""
    text: str
    at: datetime | None = None
    when: str = ""
    """Like "Mon 2 Nov 2026 08:00", or "" where no day could be read."""
    entries: tuple[Entry, ...] = ()
    """What will be logged; nothing while `trouble` stands."""
    what: tuple[str, ...] = ()
    """Each entry in words."""
    trouble: str = ""
    """Why the line cannot be logged as it stands: one sentence, a question where it can be."""
    offers: tuple[Offer, ...] = ()
    doubts: tuple[str, ...] = ()
    """What looks odd about it; it is logged all the same."""
    known: bool = False
    """Whether the log has all of this already, so that nothing is added."""
    heading: bool = False
    """Whether it only names the day of the lines under it."""


@dataclass(frozen=True, slots=True)
class Scribbles:
    """All lines that have words, in their order."""

    lines: tuple[Scribble, ...]
    order_asked: bool = False
    """Whether some day such as "3/11" has two meanings."""

    @property
    def open(self) -> tuple[Scribble, ...]:
        """Return the lines that cannot be logged as they stand."""
        return tuple(line for line in self.lines if line.trouble)

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Return what will be logged, in order of time."""
        found = (e for line in self.lines if not line.trouble and not line.known
                 for e in line.entries)  # fmt: skip
        return tuple(sorted(found, key=lambda entry: entry.at))

    def edit(self, label: str = "log several days") -> Several:
        """Return one edit that logs all that could be read."""
        return Several(
            label=label,
            edits=tuple(
                PutEntry(label=label, entry=changed(entry, id=new_id())) for entry in self.entries
            ),
        )
