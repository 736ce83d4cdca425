"""Stops for plants that must never go in, as long as they are on the recipe."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.catalog.poisons import Poison, poison_in
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, FruitLine, Line, SugarLine
from winebench.plan.outlook import Caution
from winebench.plan.portions import fruit_of
from winebench.plan.typed.unknown import Unknown


def poison_cautions(project: Project) -> Iterator[Caution]:
    """Give a stop for each line of the recipe that names a known poison; no reason overrides it."""
    for line in project.recipe.lines:
        poison = poison_of(line)
        if poison is not None:
            yield Caution(
                key="poison",
                severity="stop",
                about=line.id,
                gates="pitch",
                sentence=poison_words(poison),
                detail="No boiling, no yeast and no time takes it out: take it off the recipe and "
                f"throw out what it touched. ({poison.source}.)",
            )


def poison_of(line: Line) -> Poison | None:
    """Return the poison that a line names, or None."""
    if isinstance(line, FruitLine):
        return poison_in(fruit_of(line).name, line.note)
    if isinstance(line, SugarLine):
        return poison_in(line.sugar, line.note)
    return poison_in(line.additive, line.note) if isinstance(line, AdditiveLine) else None


def poison_words(poison: Poison) -> str:
    """Return like "Yew: a poison that must never go in (stops the heart)."."""
    return f"{poison.name}: a poison that must never go in ({poison.harm})."


def refusal_of(unknown: Unknown) -> str:
    """Return why a thing that the catalog does not know is none to be added, or ""."""
    poison = poison_in(unknown.name, unknown.note)
    return poison_words(poison) if poison else ""
