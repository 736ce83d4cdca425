"""The recipe's side of an outlook, worked out once for each recipe."""

from __future__ import annotations

from functools import lru_cache

from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.plan.compose import RecipeOutlook, compose
from winebench.plan.measured import as_measured


def recipe_outlook(project: Project) -> RecipeOutlook:
    """Return the recipe's side; an entry in the log alone does not work it out again."""
    project = as_measured(project)
    return _composed(changed(project, log=(), drafts=(), away=(), start=None))


@lru_cache(maxsize=8)
def _composed(project: Project) -> RecipeOutlook:
    return compose(project)
