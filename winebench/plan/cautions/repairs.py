"""The one-click ways out of a recipe without enough nutrient or without pectic enzyme."""

from __future__ import annotations

from winebench.model.edits import PutLine, changed
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine
from winebench.plan.cautions.contradiction import free_id
from winebench.plan.kitchen import spoons, spoons_text
from winebench.plan.must import Worked
from winebench.plan.outlook import Repair
from winebench.plan.portions import additive_g, additive_of, g_per_teaspoon
from winebench.plan.wanted import LEAST_NITROGEN_MG_PER_L
from winebench.plan.written_like import mass_like
from winebench.trade.nutrient import nitrogen_need_mg_per_l
from winebench.units import Amount, Volume

MOST_NUTRIENT_G_PER_L = 0.96
"""The US limit for ammonium phosphate (27 CFR 24.246), kept for every nutrient."""
ENZYME_TEASPOONS_PER_GALLON = 0.5
"""Common practice, US gallon; the packet's own dose goes before it."""
_ROUNDING_ROOM = 1.04
"""Written amounts are rounded: aim so far above the least that it is still reached."""
SPOON_GOOD_TO_PERCENT = 4.0
"""A level spoon is no nearer than that: how firmly a powder lies differs by more (common
practice)."""
_GALLON_L = Volume("1 gal US").litres(None)


def dose_amount(project: Project, line: AdditiveLine, grams: float) -> Amount:
    """Return so much of an additive in the kitchen's measure, where that is near enough.

    A household that measures by spoon gets level spoons within
    `SPOON_GOOD_TO_PERCENT`; else it is a mass, in pounds and ounces where the line is written so.
    """
    spoon_g, written = g_per_teaspoon(project, line.additive), line.amount.parts[0]
    by_mass = line.amount.dimension == "mass" and written.number > 0
    if project.kitchen.by == "spoon" and spoon_g and not by_mass:
        exact = grams / spoon_g
        off = spoons(exact, project.kitchen).error_percent
        if off is not None and abs(off) <= SPOON_GOOD_TO_PERCENT:
            return Amount(spoons_text(exact * (1.0 + off / 100.0)))  # as it is written, not taken
    return Amount(mass_like(grams, line.amount if by_mass else None))


def nutrient_repair(project: Project, worked: Worked) -> tuple[Repair, ...]:
    """Return the repair that brings the must's nitrogen to what its Brix asks for.

    It raises the nutrient that is written down, else adds yeast nutrient; all nutrients together
    stay within `MOST_NUTRIENT_G_PER_L`. Empty where there is no must yet, or no more may go in.
    """
    must = worked.start
    if must.litres <= 0.0:
        return ()
    written = [
        (line, grams)
        for line in project.recipe.lines
        if isinstance(line, AdditiveLine)
        and (found := additive_of(line)) is not None
        and found.nitrogen_share > 0.0
        and (grams := additive_g(project, line)) is not None
    ]
    line, has_g = written[0] if written else (
        AdditiveLine(id=free_id(project), additive="yeast-nutrient", amount=Amount("0 g")), 0.0
    )  # fmt: skip
    found = additive_of(line)
    share = found.nitrogen_share if found else 0.0
    need = max(
        float(nitrogen_need_mg_per_l(min(max(must.brix, 10.0), 30.0))),
        LEAST_NITROGEN_MG_PER_L * _ROUNDING_ROOM,
    )
    lacking_g = (need - must.per_litre(must.nitrogen_mg)) * must.litres / 1000.0 / share
    room_g = MOST_NUTRIENT_G_PER_L * must.litres - sum(grams for _, grams in written)
    more_g = min(lacking_g, room_g)
    if more_g <= 0.0:
        return ()
    amount = dose_amount(project, line, has_g + more_g)
    if (additive_g(project, changed(line, amount=amount)) or 0.0) > has_g + room_g:
        amount = Amount(mass_like(has_g + more_g))  # a spoon would be too much
    made = changed(line, amount=amount)
    label = "Raise the nutrient" if written else "Add the nutrient"
    return (Repair(label=label, edit=PutLine(label=label.lower(), line=made)),)


def enzyme_repair(project: Project, worked: Worked) -> tuple[Repair, ...]:
    """Return the repair that adds the usual dose of pectic enzyme, or empty without a must."""
    spoon_g, litres = g_per_teaspoon(project, "pectic-enzyme"), worked.start.litres
    if spoon_g is None or litres <= 0.0:
        return ()
    grams = ENZYME_TEASPOONS_PER_GALLON * spoon_g * litres / _GALLON_L
    line = AdditiveLine(id=free_id(project), additive="pectic-enzyme", amount=Amount("0 g"))
    made = changed(line, amount=dose_amount(project, line, grams))
    return (Repair(label="Add the enzyme", edit=PutLine(label="add the enzyme", line=made)),)
