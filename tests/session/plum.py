"""An invented plum batch and the edits made to it, for tests of the open document."""

from __future__ import annotations

from datetime import UTC, datetime

from winebench.model.edits import Change
from winebench.model.project import Project

NOW = datetime(2026, 10, 6, 18, 0, tzinfo=UTC)
PLUM = Project(id="p", name="Plum")


def name(text: str, merges_as: str = "name") -> Change:
    """Return the edit that types the batch's name."""
    return Change(label=f"call it {text}", merges_as=merges_as, fields={"name": text})
