"""Two batches side by side: what differs by more than can be measured, and what that does."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from typing import Literal

from winebench.model.project import Project
from winebench.plan.again.done_amounts import as_done
from winebench.plan.compare.course import course_facts
from winebench.plan.compare.effects import effect
from winebench.plan.compare.known import Fact, is_none, none_of, way
from winebench.plan.compare.must_facts import fruit_known, must_facts
from winebench.plan.compare.recipe_facts import recipe_facts
from winebench.plan.measured import as_measured
from winebench.plan.outlook import Shape
from winebench.plan.work_out import recipe_outlook

Part = Literal["recipe", "must", "course"]
PARTS: dict[Part, str] = {
    "recipe": "The recipe as it was made, a litre of must",
    "must": "The fruit and its must",
    "course": "What happened",
}


class Difference(Shape, frozen=True, kw_only=True):
    """One thing in which two batches differ, in words."""

    part: Part
    key: str
    what: str
    this: str
    that: str
    does: str
    """What it does to this wine; empty where the trade has no word for it."""
    source: str


class Comparison(Shape, frozen=True, kw_only=True):
    """What differs between two batches, and what does not."""

    this: str
    that: str
    differences: tuple[Difference, ...]
    alike: tuple[str, ...]
    """Names of what both have and what cannot be told apart by measuring."""


def compare(this: Project, that: Project, now: datetime) -> Comparison:
    """Return what differs between two batches; each recipe is taken as the log says it was made.

    What only one of them has a figure of is left out: nobody knows whether it differs.

    Raises:
        ValueError, ArithmeticError: one of the recipes cannot be worked out.

    """
    found: list[Difference] = []
    alike: list[str] = []
    for part, mine, theirs in zip(PARTS, *_facts(this, that, now), strict=True):
        for one, other in _pairs(mine, theirs):
            which = way(one, other)
            if which == 0:
                alike.append(one.name)
            else:
                instead = _instead(one, mine) or _instead(other, theirs)
                does, source = effect(one.key, which, instead=instead)
                found.append(
                    Difference(part=part, key=one.key, what=one.name, this=one.text,
                               that=other.text, does=does, source=source)
                )  # fmt: skip
    return Comparison(this=this.name, that=that.name, differences=tuple(found), alike=tuple(alike))


_Facts = tuple[tuple[Fact, ...], tuple[Fact, ...], tuple[Fact, ...]]


def _facts(this: Project, that: Project, now: datetime) -> tuple[_Facts, _Facts]:
    """Return what each batch can be compared by, part by part in the order of PARTS."""
    made = [as_measured(as_done(project).project) for project in (this, that)]
    wide = fruit_known(made[0]) != fruit_known(made[1])
    mine, theirs = (_facts_of(project, now, wide=wide) for project in made)
    return mine, theirs


def _facts_of(made: Project, now: datetime, *, wide: bool) -> _Facts:
    recipe = recipe_outlook(made)
    return (
        recipe_facts(made, recipe, wide=wide),
        must_facts(made, recipe, wide=wide),
        course_facts(made, recipe, now),
    )


def _instead(fact: Fact, among: tuple[Fact, ...]) -> bool:
    """Return whether the batch has none of that, but another thing of its kind."""
    return is_none(fact) and any(other.key == fact.key for other in among)


def _pairs(mine: tuple[Fact, ...], theirs: tuple[Fact, ...]) -> Iterator[tuple[Fact, Fact]]:
    """Give what both have a figure of, and what one has none of at all, in the order of mine."""
    others = {(fact.key, fact.name): fact for fact in theirs}
    for fact in mine:
        other = others.pop((fact.key, fact.name), None)
        if other is not None:
            yield fact, other
        elif fact.may_lack:
            yield fact, none_of(fact)
    for other in others.values():
        if other.may_lack:
            yield none_of(other), other


def alike_words(found: Comparison) -> str:
    """Return in a sentence what does not differ."""
    names = "; ".join(found.alike)
    if not found.differences:
        return f"Nothing differs by more than can be measured: {names or 'nothing is known yet'}."
    return f"Alike, or not to be told apart by measuring: {names}." if names else ""
