"""What two musts can be compared by: the fruit as measured, and what the recipe makes of it."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.model.project import Project
from winebench.model.recipe import FruitLine
from winebench.plan.compare.known import Fact, Known, about
from winebench.plan.compose import RecipeOutlook
from winebench.plan.portions import brix_of, fruit_of
from winebench.plan.shopping.items import money_text

SG = 0.001
"""A hydrometer is read to two points: musts closer than that cannot be told apart by it."""
STRENGTH_PERCENT = 0.25
"""Published relations differ by half a percent at wine strengths (`abv-by-each-relation`)."""
ACID_G_PER_L, PH, BRIX = 0.25, 0.05, 0.2
"""A titration at home, a pH meter and a refractometer repeat to twice these (common practice)."""
TANNIN_G_PER_L = 0.03
"""Half of what nobody tells apart by taste (common practice)."""
MONTHS = 1.0
"""What nobody can tell of the time that a wine wants (common practice)."""
NITROGEN_MG_PER_L = 15.0
"""What tables and tests of nitrogen repeat to (common practice)."""
COST = 0.01
"""Share of a price that is rounding."""


def fruit_known(project: Project) -> frozenset[tuple[str, bool, bool]]:
    """Return each fruit with whether its sugar and its acid were measured."""
    return frozenset(
        (line.fruit, line.measured.juice is not None, line.measured.acid_g_per_l is not None)
        for line in project.fruits
    )


def must_facts(project: Project, recipe: RecipeOutlook, *, wide: bool) -> tuple[Fact, ...]:
    """Return the measured fruit, the must by the recipe, and the cost where it is priced.

    `project` has its fruit as the log measured it. `wide` lets each figure of the must be
    anything in its table's range: musts of other fruit, or of fruit measured in one batch only,
    differ by more than their recipes.
    """
    must = recipe.must
    figures = (
        ("gravity", "Gravity of the must", must.gravity, SG),
        ("strength", "Strength by the recipe", must.strength, STRENGTH_PERCENT),
        ("acidity", "Acidity of the must", must.acidity, ACID_G_PER_L),
        ("tannin", "Tannin of the must", must.tannin, TANNIN_G_PER_L),
        ("nitrogen", "Nitrogen of the must", must.nitrogen, NITROGEN_MG_PER_L),
        ("drink", "Ready to drink by the recipe", must.ready, MONTHS),
    )
    found = [fact for line in project.fruits for fact in _measured(line)]
    for key, name, figure, half_width in figures:
        if figure.value is not None:
            text = figure.text if figure.unit == "SG" else f"{figure.text} {figure.unit}"
            known = about(figure.value, half_width)
            if wide and figure.low is not None and figure.high is not None:
                low, high = min(figure.low, known.low), max(figure.high, known.high)
                known = Known(figure.value, low, high)
            found.append(Fact(key, name, text, known))
    return (*found, *_cost(recipe))


def _measured(line: FruitLine) -> Iterator[Fact]:
    fruit, measured = fruit_of(line).name, line.measured
    if measured.juice is not None:
        brix = brix_of(measured.juice)
        yield Fact("juice", f"{fruit}, juice", f"{brix:.1f} °Brix", about(brix, BRIX))
    if measured.acid_g_per_l is not None:
        acid = measured.acid_g_per_l
        yield Fact("juice-acid", f"{fruit}, acid", f"{acid:g} g/L", about(acid, ACID_G_PER_L))
    if measured.ph is not None:
        yield Fact("juice-ph", f"{fruit}, pH", f"{measured.ph:g}", about(measured.ph, PH))


def _cost(recipe: RecipeOutlook) -> Iterator[Fact]:
    cost = recipe.bottles.cost
    if cost is not None and cost.a_bottle is not None:
        unpriced = f" without {', '.join(cost.without_price)}" if cost.without_price else ""
        # Costs in other money, or with other things left out, are no costs to compare.
        name = f"Cost of a bottle{f' in {cost.money}' if cost.money else ''}{unpriced}"
        known = about(cost.a_bottle, COST * cost.a_bottle)
        yield Fact("cost", name, money_text(cost.a_bottle, cost.money), known)
