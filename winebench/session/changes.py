"""What an edit changed, so that a view refreshes only what it shows."""

from __future__ import annotations

from typing import Self

import msgspec

from winebench.model.project import Project


class Changes(msgspec.Struct, frozen=True):
    """Which parts of the project changed, by the names of its fields; false for none."""

    fields: frozenset[str] = frozenset()

    @classmethod
    def between(cls, before: Project, after: Project) -> Self:
        """Return what differs; parts that both share cost nothing to compare."""
        names = Project.__struct_fields__
        return cls(frozenset(name for name in names if _differs(before, after, name)))

    def __bool__(self) -> bool:
        return bool(self.fields)

    def touches(self, *names: str) -> bool:
        """Return whether any of those parts changed; an unknown name raises ValueError."""
        unknown = set(names).difference(Project.__struct_fields__)
        if unknown:
            raise ValueError(f"a project has no {', '.join(sorted(unknown))}")
        return not self.fields.isdisjoint(names)


def _differs(before: Project, after: Project, name: str) -> bool:
    old, new = getattr(before, name), getattr(after, name)
    return old is not new and old != new
