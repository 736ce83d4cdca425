"""What belongs into the finished wine and stands among the lines of the must."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine
from winebench.plan.outlook import Caution
from winebench.plan.portions import additive_of


def late_cautions(project: Project) -> Iterator[Caution]:
    """Give each line of sorbate: with the must it would stop the yeast."""
    for line in project.recipe.lines:
        if not isinstance(line, AdditiveLine):
            continue
        additive = additive_of(line)
        if additive is None or additive.kind != "sorbate":
            continue
        yield Caution(
            key="sorbate-for-the-end",
            severity="note",
            about=line.id,
            sentence="Sorbate goes into the finished wine: in the must it would stop the yeast.",
            detail="Keep it aside; when the wine is dry and stable, “Stabilise” asks for it and "
            "says how much.",
        )
