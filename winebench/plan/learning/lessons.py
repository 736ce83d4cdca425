"""All that a project learned of one batch, ferment and rackings, taken in and out as one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from winebench.model.edits import Change
from winebench.model.own_ferment import OwnFerment
from winebench.model.own_loss import OwnLosses
from winebench.model.project import Project
from winebench.plan.learning.own_ferments import forget, learn_edit, told
from winebench.plan.learning.own_losses import forget_losses, learn_losses, told_losses


class Lesson(NamedTuple):
    """What one batch teaches; at least one of the two."""

    name: str
    batch: str
    """Id of that batch's project."""
    ferment: OwnFerment | None
    losses: OwnLosses | None


def lessons_of(project: Project) -> tuple[Lesson, ...]:
    """Return what the project learned, a batch at a time, in the order it was learned."""
    found: dict[str, Lesson] = {}
    for ferment in project.own_ferments:
        found[ferment.batch] = Lesson(ferment.name, ferment.batch, ferment, None)
    for losses in project.own_losses:
        known = found.get(losses.batch) or Lesson(losses.name, losses.batch, None, None)
        found[losses.batch] = known._replace(losses=losses)
    return tuple(found.values())


def take_in(project: Project, lesson: Lesson) -> Change:
    """Return the edit by which the project learns it, in place of what that batch said before."""
    fields: dict[str, Any] = {}
    if lesson.ferment is not None:
        fields |= learn_edit(project, lesson.ferment).fields
    if lesson.losses is not None:
        fields |= learn_losses(project, lesson.losses).fields
    return Change(label=f"learn from {lesson.name}", fields=fields)


def take_out(project: Project, lessons: Sequence[Lesson]) -> Change:
    """Return the edit that takes those out of what the project learned from."""
    ferments = tuple(one.ferment for one in lessons if one.ferment is not None)
    losses = tuple(one.losses for one in lessons if one.losses is not None)
    fields = forget(project, ferments).fields if ferments else {}
    if losses:
        fields |= forget_losses(project, losses).fields
    name = lessons[0].name if len(lessons) == 1 else f"{len(lessons)} batches"
    return Change(label=f"learn no more from {name}", fields=fields)


def told_lesson(lesson: Lesson) -> str:
    """Return how that batch went, such as "ran about 20 % slower ...; lost 1.9 L in 2 rackings"."""
    said = [told(lesson.ferment)] if lesson.ferment else []
    return "; ".join([*said, *([told_losses(lesson.losses)] if lesson.losses else [])])
