"""A recipe that contradicts its own target: what it will really read, and the ways out."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.model.edits import PutLine, changed
from winebench.model.project import Project
from winebench.model.recipe import SugarLine, WaterLine, YeastLine
from winebench.plan.balance import has_feed, sugar_to_target_kg
from winebench.plan.figures import grams_text, litres_text
from winebench.plan.kitchen import in_pounds
from winebench.plan.must import Worked
from winebench.plan.outlook import Caution, Repair
from winebench.plan.portions import solids_percent, sugar_of
from winebench.plan.staged import sugar_lines
from winebench.plan.wanted import LEAST_SG, MOST_SG, Wanted, strength_at
from winebench.plan.written_like import mass_like
from winebench.units import Amount

_SLACK_SG = 0.002
"""What a hydrometer cannot tell apart; within it a recipe keeps its word."""
_MOST_G = 1e9
"""A thousand tonnes: no repair writes more."""


def contradiction(project: Project, worked: Worked, factor: float) -> Iterator[Caution]:
    """Give the caution where the must does not read what is wanted of it, with its repair."""
    aim, sg = worked.aim, worked.whole.sg
    if aim.gravity_low - _SLACK_SG <= sg <= aim.gravity_high + _SLACK_SG:
        return
    if worked.whole.litres <= 0.0:
        return  # nothing that could be read is in it yet
    if wants_water(project, worked):
        yield _too_little_water(project, worked)
        return
    line = _changeable(project, worked)
    kilos = _kilos(project, worked, line)
    said = "you wrote" if aim.own_gravity else "the style wants"
    fed = ", with the sugar fed later," if has_feed(project) else ""
    yield Caution(
        key="contradicts-target",
        severity="caution",
        about=line.id if line else "must",
        sentence=f"This must will read {sg:.3f}{fed}{'' if fed else ','} not the "
        f"{_span(aim)} {said}.",
        detail=_ways_out(worked, factor, kilos, line) + _too_strong(project, worked),
        repairs=_repairs(project, kilos, line),
    )


def wants_water(project: Project, worked: Worked) -> bool:
    """Return whether the water was simply not written down yet."""
    if any(isinstance(line, WaterLine) for line in project.recipe.lines):
        return False
    basis = project.recipe.basis.litres(project.gallon)
    return worked.whole.sg > worked.aim.gravity_high and worked.whole.litres < 0.95 * basis


def _too_little_water(project: Project, worked: Worked) -> Caution:
    water = WaterLine(id=free_id(project))
    return Caution(
        key="contradicts-target",
        severity="caution",
        about="must",
        sentence=f"Without water this must reads {worked.whole.sg:.3f}, not the "
        f"{_span(worked.aim)} wanted.",
        detail=f"Fill it with water to the {project.recipe.basis.text.strip()} it is written for.",
        repairs=(Repair(label="Add the water", edit=PutLine(label="add the water", line=water)),),
    )


def _too_strong(project: Project, worked: Worked) -> str:
    """Return what reaching the target would ask of the yeast, or "" where it stands that."""
    yeasts = [line for line in project.recipe.lines if isinstance(line, YeastLine)]
    stands = max((line.tolerance_percent for line in yeasts), default=None)
    aimed = strength_at(worked.whole, worked.aim.gravity)
    if stands is None or worked.whole.sg > worked.aim.gravity or round(aimed, 1) <= stands:
        return ""
    return (
        f" At {worked.aim.gravity:.3f} it makes {aimed:.1f} %, and the yeast stands {stands:g} %: "
        "take a stronger yeast, or want less."
    )


def _span(aim: Wanted) -> str:
    """Return "1.088–1.094", or the one gravity that is wanted."""
    low, high = f"{aim.gravity_low:.3f}", f"{aim.gravity_high:.3f}"
    return low if low == high else f"{low}–{high}"


def _changeable(project: Project, worked: Worked) -> SugarLine | None:
    """Return the sugar line to change: of what is by weight, white sugar first.

    Of sugar in stages that of the start, unless it would start too strong, or there is too much
    in all: then what is fed later, as far as it goes.
    """
    start, feed = (
        next((x for x in sugar_lines(project, when) if x.amount.dimension == "mass"), None)
        for when in ("start", "feed")
    )
    if start is None or feed is None:
        return start or feed
    rise = worked.aim.gravity - worked.whole.sg
    if rise > 0.0:
        return feed if worked.start.sg + rise > MOST_SG else start
    return feed if _kilos(project, worked, feed) is not None else start


def _kilos(project: Project, worked: Worked, line: SugarLine | None) -> float | None:
    """Return how much of that line's sugar (else white) to add, kg; None where it is no way out.

    Less than nothing can only be left out of what the line has.
    """
    kilos = sugar_to_target_kg(
        project, worked.aim.gravity, solids_percent(line) if line else 100.0,
        (worked.start, worked.whole), fed=line is not None and line.when == "feed",
    )  # fmt: skip
    if kilos is None or kilos >= 0:
        return kilos
    return kilos if line and line.amount.grams() / 1000.0 + kilos > 0 else None


def _ways_out(worked: Worked, factor: float, kilos: float | None, line: SugarLine | None) -> str:
    ways = []
    if kilos is not None:
        grams = abs(kilos) * 1000.0 * factor
        name = sugar_of(line).name.lower() if line else "white sugar"
        if line and line.when == "feed":
            name = f"{'more' if kilos > 0 else 'of the'} {name} to be fed"
        verb, where = ("Add", " to the batch") if kilos > 0 else ("Leave out", "")
        ways.append(f"{verb} {grams_text(grams)} ({in_pounds(grams).text}) {name}{where} "
                    f"for {worked.aim.gravity:.3f}")  # fmt: skip
    litres = worked.water_l
    thinner = litres is not None and litres > 0 and worked.start.sg < LEAST_SG
    if litres is not None and abs(litres) < worked.whole.litres and not thinner:
        more = "more" if litres > 0 else "less"
        ways.append(f"use {litres_text(abs(litres) * factor)} {more} water")
    text = (
        ", or ".join(ways)
        or "No amount of sugar or water reaches it: change the fruit or the target"
    )
    return text[0].upper() + text[1:] + "."


def _repairs(project: Project, kilos: float | None, line: SugarLine | None) -> tuple[Repair, ...]:
    if kilos is None or kilos * 1000.0 > _MOST_G:
        return ()
    if line is None:
        made = SugarLine(
            id=free_id(project), sugar="white-sugar", amount=Amount(mass_like(kilos * 1000))
        )
        return (Repair(label="Add the sugar", edit=PutLine(label="add the sugar", line=made)),)
    amount = Amount(mass_like(line.amount.grams() + kilos * 1000.0, line.amount))
    label = "Add the sugar" if kilos > 0 else "Leave it out"
    edit = PutLine(label="change the sugar", line=changed(line, amount=amount))
    return (Repair(label=label, edit=edit),)


def free_id(project: Project) -> str:
    """Return an id that no line has; the same project gives the same one."""
    taken = {line.id for line in project.recipe.lines}
    number = len(taken) + 1
    while f"line-{number}" in taken:
        number += 1
    return f"line-{number}"
