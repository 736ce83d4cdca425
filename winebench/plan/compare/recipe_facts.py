"""What two recipes can be compared by, per litre of must."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.catalog.styles import style
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, FruitLine, Line, SugarLine, WaterLine, YeastLine
from winebench.plan.compare.known import Fact, Known, about
from winebench.plan.compose import RecipeOutlook
from winebench.plan.lines import line_name
from winebench.plan.outlook import LineOutlook
from winebench.plan.portions import additive_of, fruit_of, portion

MARK = 0.015
"""Share: fruit, sugar and the mark on a pail differ by twice this as they are measured again
(common practice)."""
WEIGHED_DOSE, SPOONED_DOSE = 0.025, 0.075
"""Share: a small dose differs by twice this, by weight and by the spoon (common practice)."""
SWEETNESS_SG = 0.001
"""A hydrometer is read to two points."""


def recipe_facts(project: Project, recipe: RecipeOutlook, *, wide: bool) -> tuple[Fact, ...]:
    """Return what the recipe has of each thing, per litre of must; lines of one thing added.

    Where `wide`, as in `must_facts`, water to the mark says nothing: it hangs on the fruit's juice.
    """
    litres = recipe.must.liquid.value
    if not litres or litres <= 0:
        return ()
    seen = {line.id: line for line in recipe.lines}
    found: dict[tuple[str, str, str], Fact] = {}
    for line in project.recipe.lines:
        to_mark = isinstance(line, WaterLine) and line.amount is None
        if not isinstance(line, YeastLine) and not (wide and to_mark):
            fact, unit = _amount(project, line, seen[line.id], recipe.scale_factor, litres)
            place = (fact.key, fact.name, unit)
            found[place] = _together(found[place], fact, unit) if place in found else fact
    return (*found.values(), *_words(project))


def _amount(
    project: Project, line: Line, seen: LineOutlook, factor: float, litres: float
) -> tuple[Fact, str]:
    """Return one line's fact, and the unit of its amount."""
    value, unit = seen.scaled.value or 0.0, seen.scaled.unit
    key, name, slack = "own", line_name(line), MARK
    if isinstance(line, FruitLine):
        key, name = "fruit", fruit_of(line).name
    elif isinstance(line, WaterLine):
        key = "water"
    elif isinstance(line, SugarLine):
        key = "feed" if line.when == "feed" else "sugar"
        if line.amount.dimension == "volume":  # cups of one recipe against grams of the other
            brings = portion(project, line, 0)
            value, unit = (brings.water_kg + brings.solids_kg) * 1000.0 * factor, "g"
    elif isinstance(line, AdditiveLine):
        additive = additive_of(line)
        key = additive.kind if additive else "own"
        name = additive.name if additive else line.additive
        slack = SPOONED_DOSE if line.amount.dimension == "volume" else WEIGHED_DOSE
    rate = value / litres
    return Fact(key, name, _rate_text(rate, unit), about(rate, slack * rate), True), unit


def _together(one: Fact, other: Fact, unit: str) -> Fact:
    assert one.known is not None
    assert other.known is not None
    both = Known(*(a + b for a, b in zip(one.known, other.known, strict=True)))
    return one._replace(known=both, text=_rate_text(both.value, unit))


def _rate_text(rate: float, unit: str) -> str:
    if unit == "g":
        digits = 0 if rate >= 10 else 2 if rate >= 0.1 else 3
        return f"{rate:.{digits}f} g/L"
    return f"{rate:.2f} {unit} a litre"


def _words(project: Project) -> Iterator[Fact]:
    """Give what is chosen rather than measured, and the sweetness that is wanted."""
    forms = {fruit_of(line).name: _form(line) for line in project.fruits}
    for name, form in forms.items():
        yield Fact("form", f"{name}, form", form)
    yeasts = [
        line_name(line).removeprefix("Yeast, ")
        for line in project.recipe.lines
        if isinstance(line, YeastLine)
    ]
    if yeasts:
        yield Fact("yeast", "Yeast", "; ".join(yeasts))
    yield Fact("style", "Style", style(project.recipe.style).name)
    targets = project.recipe.targets
    if targets.drink_months is not None:
        months = targets.drink_months
        text = f"{months:g} months after bottling"
        yield Fact("drink-wanted", "Wanted to drink from", text, about(months, 0.0))
    final = targets.final_gravity
    if final is not None and final.scale == "SG":
        known = about(final.value, SWEETNESS_SG)
        yield Fact("sweetness", "Sweetness wanted", f"{final.value:.3f}", known)


def _form(line: FruitLine) -> str:
    return f"{line.form}, prepared" if line.prepared else line.form
