"""What the steps' rules ask of a batch's recipe."""

from __future__ import annotations

from functools import cached_property

from winebench.catalog.styles import Style, style
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, FruitLine, SugarLine
from winebench.plan.compose import RecipeOutlook
from winebench.plan.outlook import Condition, LineOutlook
from winebench.plan.portions import is_strained


class AskedRecipe:
    """A project and what was worked out of its recipe; each answer is worked out once."""

    def __init__(self, project: Project, recipe: RecipeOutlook) -> None:
        self.project = project
        self.recipe = recipe

    def line(self, *additives: str) -> LineOutlook | None:
        """Return the first recipe line of those additives, or None."""
        ids = [a.id for a in self._additives if a.additive in additives]
        return next((line for line in self.recipe.lines if line.id in ids), None)

    def dose(self, *additives: str) -> str:
        """Return those additives' amounts as measured, like "2 3/8 tsp", or ""."""
        ids = {a.id for a in self._additives if a.additive in additives}
        return " and ".join(line.measure for line in self.recipe.lines if line.id in ids)

    @cached_property
    def _additives(self) -> tuple[AdditiveLine, ...]:
        return tuple(a for a in self.project.recipe.lines if isinstance(a, AdditiveLine))

    @cached_property
    def fed(self) -> bool:
        """Return whether part of the sugar is to go in later."""
        lines = self.project.recipe.lines
        return any(isinstance(line, SugarLine) and line.when == "feed" for line in lines)

    @cached_property
    def pulp(self) -> tuple[FruitLine, ...]:
        """Return the fruit that is lifted out again."""
        return tuple(f for f in self.project.fruits if not is_strained(f))

    @cached_property
    def puree(self) -> bool:
        """Return whether some of the fruit is puree, which floats and settles in the must."""
        return any(f.form == "puree" for f in self.project.fruits)

    @cached_property
    def style(self) -> Style:
        """Return what the catalog says of the recipe's style."""
        return style(self.project.recipe.style)

    def held_by_recipe(self, key: str, severity: str) -> tuple[Condition, ...]:
        """Return the recipe's cautions of that severity that hold this step, as unmet."""
        return tuple(
            Condition(text=caution.sentence, met=False, needs_change=True)
            for caution in self.recipe.cautions
            if caution.gates == key and caution.severity == severity
        )
