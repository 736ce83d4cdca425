"""The figures of the must before and after, each for the recipe's own volume."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.model.project import Project
from winebench.plan.balance import balanced
from winebench.plan.customary import figure_of, household
from winebench.plan.figures import figure
from winebench.plan.measured import as_measured
from winebench.plan.must import worked_out
from winebench.plan.outlook import Figure, Must
from winebench.plan.solve.parts import chosen, fruit_kg
from winebench.plan.solve.question import Question
from winebench.plan.solve.shapes import Compared, Target
from winebench.plan.solve.targets import typed_text, value_text

_HELD_AS: dict[str, Target] = {
    "gravity": "gravity",
    "acidity": "acidity",
    "tannin": "tannin",
    "strength": "strength",
    "drink": "drink",
    "liquid": "volume",
    "fruit": "fruit",
}
"""The target that each figure of the comparison is, by the figure's key."""


def compared(
    asked: Question, project: Project, after: Project | None = None
) -> tuple[Compared, ...]:
    """Return what the must reads now, and after; without `after` as it is."""
    before = list(_figures(project))
    now = before if after in (None, project) else list(_figures(after or project))
    return tuple(
        Compared(
            key=key, name=name, before=was, after=becomes,
            held=asked.held.get(_HELD_AS[key]) if key in _HELD_AS else None,
            held_text=_held_text(asked, key),
        )
        for (key, name, was), (_key, _name, becomes) in zip(before, now, strict=True)
    )  # fmt: skip


def _held_text(asked: Question, key: str) -> str:
    target = _HELD_AS.get(key)
    if target is None or target not in asked.held:
        return ""
    value = asked.held[target]
    if target == "volume":
        return typed_text(asked.project, target, value)
    return value_text(target, value)


def _figures(project: Project) -> Iterator[tuple[str, str, Figure]]:
    project = as_measured(project)
    must: Must = worked_out(project, 1.0).must
    by_key = {want.key: want.actual for want in must.wants}
    yield "gravity", "Gravity", by_key["gravity"]
    yield "acidity", "Acidity", must.acidity
    yield "tannin", "Tannin", must.tannin
    yield "strength", "Strength", must.strength
    yield "liquid", "Liquid", figure_of(must.liquid, household(project))
    litres = balanced(project).litres
    kilos = fruit_kg(project, chosen(project, ())[0])
    yield "fruit", "Fruit in a litre", figure(kilos / litres * 1000.0 if litres else 0.0, "g", 0)
    yield "nitrogen", "Nitrogen", must.nitrogen
    yield "dry", "Dry at", must.dry_gravity
    yield "drink", "Drink from", must.ready
