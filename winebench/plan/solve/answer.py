"""The answer to a question: amounts, their ranges, what then reads, and the edit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import inf
from typing import NamedTuple

from winebench.model.edits import Several
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, FruitLine, SugarLine
from winebench.plan.balance import both_musts, has_feed
from winebench.plan.customary import household
from winebench.plan.days import short_date
from winebench.plan.measured import as_measured
from winebench.plan.portions import WATER_KG_PER_L, Side
from winebench.plan.scale import scale_factor
from winebench.plan.solve.compared import compared
from winebench.plan.solve.conflict import why_not
from winebench.plan.solve.edit import (
    Written,
    batch_text,
    filled_text,
    made_as_written,
    sugar_besides,
    weight_like,
    written,
)
from winebench.plan.solve.fed import best_put
from winebench.plan.solve.mix import is_possible, meeting
from winebench.plan.solve.parts import additive_name
from winebench.plan.solve.question import Question
from winebench.plan.solve.search import Tried
from winebench.plan.solve.shapes import Answer, Ask, ChangedAmount, Target
from winebench.plan.solve.targets import usual_hold, usual_values
from winebench.plan.spoken import spoken
from winebench.plan.wanted import LEAST_SG, MOST_SG, wanted
from winebench.plan.written_like import mass_like, size_like, volume_like
from winebench.units import Amount

_MOST_KG = 1e6
"""A thousand tonnes: nothing writes more."""
_MADE_UP = ("sugar-water", "sulfite-must", "enzyme", "pitch")
_RANGES: tuple[Target, ...] = ("acidity", "tannin")
_SIDES: tuple[Side, ...] = (-1, 1)


def solve(project: Project, ask: Ask) -> Answer:
    """Return the amounts that meet what is held, or which two targets fight.

    Exact on the balance by mass that shows the must; the amounts written into the recipe are
    rounded to what a kitchen weighs, and `figures` is what those make.

    Raises:
        SolveError: a question that cannot be put; one sentence.
        UnitsError: a bare gallon in a project that has not said whose, or a recipe for nothing.

    """
    put = best_put(project, ask)
    asked, found = put.asked, put.found
    if found is None:
        told = spoken(why_not(asked, put.on_paper), household(project))
        return Answer(met=False, figures=compared(asked, project), why_not=told)
    if max(found.kilos.values(), default=0.0) > _MOST_KG:
        return Answer(met=False, why_not="It would take more than a thousand tonnes: hold less.")
    return _answer(project, asked, found, put.besides)


def solve_as_usual(project: Project, change: Sequence[str]) -> tuple[Ask, Answer]:
    """Return what those amounts are for where nothing is said, and the answer to it.

    Of acidity and tannin a range is wanted, not one figure: where they cannot be held as they are
    and end within it all the same, they are left to it.

    Raises:
        SolveError, UnitsError: as `solve`.

    """
    values = usual_values(project)
    held = {target: values[target] for target in usual_hold(project, change)}
    ask = Ask(held, tuple(change))
    found = solve(project, ask)
    rest = {target: value for target, value in held.items() if target not in _RANGES}
    if found.met or not rest or len(rest) == len(held):
        return ask, found
    less = Ask(rest, tuple(change))
    looser = solve(project, less)
    after = looser.edit.apply(project) if looser.edit else project
    inside = looser.met and _within_what_is_wanted(after, held)
    return (less, looser) if inside else (ask, found)


def _within_what_is_wanted(project: Project, held: Mapping[Target, float]) -> bool:
    whole = both_musts(as_measured(project))[1]
    aim = wanted(project, whole)
    acid = "acidity" not in held or aim.acid_low <= whole.acid_g_per_l <= aim.acid_high
    tannin = whole.tannin_g_per_l or 0.0
    return acid and ("tannin" not in held or aim.tannin_low <= tannin <= aim.tannin_high)


def _answer(project: Project, asked: Question, found: Tried, other: SugarLine | None) -> Answer:
    besides = (sugar_besides(project, other),) if other else ()
    changes = (*besides, *written(asked, found.kilos, project))
    edits = tuple(each.edit for each in changes if each.edit is not None)
    edit = Several(label="reach the targets", edits=edits) if edits else None
    after = edit.apply(project) if edit else project
    factor = scale_factor(after)
    # Where more is held than was solved for, each side would be another fight.
    ends = _SIDES if len(found.free) == len(asked.aimed) else ()
    sides = [_at_side(asked, found, at) for at in ends]
    shown = tuple(
        _changed(after, each, factor, _span(asked, each, found, () if each in besides else sides))
        for each in changes
    )
    return Answer(
        met=True,
        changes=shown,
        figures=compared(asked, project, after),
        notes=(*_notes(project, asked, changes, sides), *_of_start(after)),
        edit=edit,
    )


class _Side(NamedTuple):
    """The same question with fruit at one side of its ranges."""

    kilos: Mapping[str, float]
    litres: float


def _at_side(asked: Question, found: Tried, at: Side) -> _Side | None:
    """Return the same amounts worked out for fruit at that side; None where they do not do."""
    mix = asked.side(at)
    kilos = meeting(mix, asked.aimed, found.free, found.fixed)
    if kilos is None or not is_possible(mix, kilos):
        return None
    return _Side(kilos, mix.must(kilos).litres)


def _changed(after: Project, each: Written, factor: float, span: tuple[str, str]) -> ChangedAmount:
    return ChangedAmount(
        what=each.what, name=each.name, was=each.was, becomes=each.becomes, exact=each.exact,
        unit=each.unit, batch=batch_text(after, each, factor), low=span[0], high=span[1],
    )  # fmt: skip


def _span(
    asked: Question, each: Written, found: Tried, sides: Sequence[_Side | None]
) -> tuple[str, str]:
    """Return what the amount would be at both ends of the fruit's range, least first."""
    values = [_exact(each, found, side) for side in sides if side is not None]
    if len(values) < len(sides) or not values:
        return "", ""
    ends = min(*values, each.exact), max(*values, each.exact)
    low, high = (_like(asked, each, value) for value in ends)
    return (low, high) if low != high else ("", "")


def _exact(each: Written, found: Tried, side: _Side) -> float:
    """Return the same amount at another side, g or L."""
    if each.what == "volume":
        return side.litres
    value = side.kilos[each.what]
    if each.what == "fruit":  # each fruit in its share
        return each.exact * value / found.kilos["fruit"] if each.exact else 0.0
    return value / WATER_KG_PER_L if each.what == "water" else value * 1000.0


def _like(asked: Question, each: Written, value: float) -> str:
    gallon = asked.project.gallon
    if each.what == "volume":
        return size_like(value, asked.project.recipe.basis, gallon)
    if each.what == "water":
        water = asked.lines.water
        if water is None or water.amount is None:
            return filled_text(asked.project, value)
        return volume_like(value, water.amount, gallon)
    lines: tuple[SugarLine | AdditiveLine | FruitLine, ...]
    lines = (asked.lines.sugar, asked.lines.acid, asked.lines.tannin, *asked.lines.fruit)
    line = next(x for x in lines if x.id == each.line)
    written_now = Amount(each.becomes) if each.becomes != "none" else None
    if written_now is not None and written_now.dimension == "mass":
        return mass_like(value, written_now)
    return weight_like(asked.project, line, value, new=asked.project.line(line.id) is None)


def _notes(
    project: Project,
    asked: Question,
    changes: Sequence[Written],
    sides: Sequence[_Side | None],
) -> Iterator[str]:
    if not any(each.edit for each in changes):
        yield "The recipe meets this as it stands: nothing is to be changed."
    done = next((action for action in project.actions if action.step in _MADE_UP), None)
    if done is not None:
        yield (
            f"The must was made up on {short_date(done.at)}: this changes the recipe, not what "
            "is in the pail."
        )
    for side, kind in zip(sides, ("poor", "rich"), strict=False):
        if side is None:
            yield f"With fruit at the {kind} end of its range this cannot be met: measure yours."
    if any(each.what == "volume" for each in changes) and not made_as_written(project):
        yield "The batch stays the size it is; its amounts follow the recipe."
    if any(each.what == "acid" and each.edit and each.exact for each in changes):
        yield "Acid goes in by halves: stir, taste and measure before the rest."
    yield from _kept_in(asked, changes)
    if any(each.what == "tannin" and each.edit and each.exact for each in changes):
        yield "Tannin goes in by halves too, half a day after pectic enzyme: taste before the rest."


def _kept_in(asked: Question, changes: Sequence[Written]) -> Iterator[str]:
    """Give the acid that water or less fruit makes up for because it may not change itself."""
    line, acid = asked.lines.acid, asked.mix.parts["acid"]
    too_sharp = asked.mix.must({}).value("acidity") > asked.held.get("acidity", inf)
    moved = any(each.what in ("water", "fruit", "volume") and each.edit for each in changes)
    if too_sharp and moved and acid.now > 0.0 and "acid" not in asked.free:
        yield (
            f"There are {line.amount.text.strip()} of {additive_name(line)} in the recipe: let "
            "that change too, and it goes first."
        )


def _of_start(after: Project) -> Iterator[str]:
    """Give what is to be known of a start that is thin or strong, where sugar is fed later."""
    start, whole = both_musts(as_measured(after))
    sg = round(start.sg, 3)  # as it is shown
    if not has_feed(after) or LEAST_SG <= sg <= MOST_SG:
        return
    if sg < LEAST_SG:
        instead = "let more of the sugar go in at the start, and less be fed"
        if whole.sg < LEAST_SG:
            instead = "hold more"
        yield (
            f"The yeast would go in at {sg:.3f}, and under {LEAST_SG:.3f} a must is too thin to "
            f"keep: {instead}."
        )
    else:
        yield (
            f"The yeast would go in at {sg:.3f}, and over {MOST_SG:.3f} it is likely to stick: "
            "keep more of the sugar back to be fed."
        )
