"""What is held when the targets are reached becomes what is wanted, where it was another."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from winebench.model.edits import ChangeRecipe, changed
from winebench.model.project import Project
from winebench.plan.balance import both_musts
from winebench.plan.measured import as_measured
from winebench.plan.solve.shapes import Target
from winebench.plan.wanted import wanted
from winebench.units import Gravity

_HAIR = 1e-9


def as_targets(project: Project, held: Mapping[Target, float]) -> ChangeRecipe | None:
    """Return the edit that wants what is held, of that which lies outside what is wanted now.

    Who holds 1.085 wants 1.085, whatever the style wants; within its range the style is content.
    """
    aim = wanted(project, both_musts(as_measured(project))[1])
    fields: dict[str, Any] = {}
    if "gravity" in held and not _within(held["gravity"], aim.gravity_low, aim.gravity_high):
        gravity = Gravity(f"{held['gravity']:.3f}")
        fields |= {"gravity_low": gravity, "gravity_high": gravity}
    elif "strength" in held and "gravity" not in held:
        fields |= {"strength_percent": held["strength"], "gravity_low": None, "gravity_high": None}
    if "acidity" in held and not _within(held["acidity"], aim.acid_low, aim.acid_high):
        fields |= dict.fromkeys(("acid_low_g_per_l", "acid_high_g_per_l"), held["acidity"])
    if "tannin" in held and not _within(held["tannin"], aim.tannin_low, aim.tannin_high):
        fields |= dict.fromkeys(("tannin_low_g_per_l", "tannin_high_g_per_l"), held["tannin"])
    if "drink" in held and held["drink"] > aim.drink_months:
        fields["drink_months"] = held["drink"]
    targets = changed(project.recipe.targets, **fields)
    if targets == project.recipe.targets:
        return None
    return ChangeRecipe(label="reach the targets", fields={"targets": targets})


def _within(value: float, low: float, high: float) -> bool:
    return low - _HAIR <= value <= high + _HAIR
