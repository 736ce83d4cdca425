"""What could change in a recipe, in words, and what is asked unless something else is chosen."""

from __future__ import annotations

from typing import NamedTuple

from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, SugarLine
from winebench.plan.balance import both_musts, has_mark
from winebench.plan.figures import with_country
from winebench.plan.measured import as_measured
from winebench.plan.portions import additive_of, sugar_of
from winebench.plan.solve.fed import is_staged
from winebench.plan.solve.parts import acid_lines, chosen, fruit_kg, sugar_lines, tannin_lines
from winebench.plan.solve.shapes import Target
from winebench.plan.solve.targets import usual_values


class Choice(NamedTuple):
    """Something that could change."""

    name: str
    """For `Ask.change`: a line's id, or "water", "fruit" and so on."""
    kind: str
    """Of a kind only one can change at a time."""
    words: str


class Usual(NamedTuple):
    """What is asked at first."""

    held: frozenset[Target]
    change: frozenset[str]


def choices(project: Project) -> tuple[Choice, ...]:
    """Return what could change, sugar first."""
    sugars, acids = sugar_lines(project), acid_lines(project)
    found = [Choice("sugar", "sugar", "Sugar, at the start or fed later, as suits")]
    if not is_staged(sugars):
        found = [] if sugars else [Choice("sugar", "sugar", "White sugar, none yet")]
    as_suits = {each.name for each in found}
    found += [Choice(x.id, "sugar", _sugar_words(x)) for x in sugars if x.id not in as_suits]
    found += [_additive(x, "acid") for x in acids] or [
        Choice("acid", "acid", "Tartaric acid, none yet")
    ]
    found += [_additive(x, "tannin") for x in tannin_lines(project)] or [
        Choice("tannin", "tannin", "Grape tannin, none yet")
    ]
    if not has_mark(project):
        found.append(Choice("water", "water", "Water"))
    if fruit_kg(project, chosen(project, ())[0]) > 0:
        words = "All fruit, in proportion" if len(project.fruits) > 1 else "The fruit"
        found.append(Choice("fruit", "fruit", words))
    own = with_country(project.recipe.basis, project.gallon)
    found.append(Choice("volume", "volume", f"The recipe’s volume, {own}, by its water"))
    return tuple(found)


def _sugar_words(line: SugarLine) -> str:
    later = ", fed later" if line.when == "feed" else ""
    return f"{sugar_of(line).name}, {line.amount.text.strip()}{later}"


def _additive(line: AdditiveLine, kind: str) -> Choice:
    additive = additive_of(line)
    name = additive.name if additive else line.additive
    return Choice(line.id, kind, f"{name}, {line.amount.text.strip()}")


def usual(project: Project) -> Usual:
    """Return the gravity by the sugar; the acidity by acid where that lacks or was put in."""
    held: set[Target] = {"gravity"}
    change = {choices(project)[0].name}
    if has_mark(project):
        held.add("volume")
    whole = both_musts(as_measured(project))[1]
    aim = usual_values(project)["acidity"]
    over = bool(acid_lines(project)) and whole.acid_g_per_l > aim + 1e-9
    if whole.litres and (over or whole.acid_g_per_l < aim - 1e-9):
        held.add("acidity")
        change.add(next(each.name for each in choices(project) if each.kind == "acid"))
    return Usual(frozenset(held), frozenset(change))
