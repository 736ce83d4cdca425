"""Last year's figures of the fruit: kept as words beside it, never reckoned with."""

from __future__ import annotations

import re

from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.model.recipe import FruitLine, Measured
from winebench.plan.measured import STEP, measured_from
from winebench.plan.outlook import Caution
from winebench.plan.portions import fruit_of
from winebench.units import UnitsError

_END = "; measure this year's"
_TOLD = re.compile(rf"(?:; )?\b(?P<figures>last time: [^;]*){re.escape(_END)}")


def figures_words(measured: Measured) -> str:
    """Return like "14.5 °Brix, 9 g/L acid, pH 3.3", or "" where nothing was measured."""
    parts = []
    if measured.juice is not None:
        juice = measured.juice
        parts.append(f"{juice.value:g} °Brix" if juice.scale == "Brix" else f"SG {juice.value:.3f}")
    if measured.acid_g_per_l is not None:
        parts.append(f"{measured.acid_g_per_l:g} g/L acid")
    if measured.ph is not None:
        parts.append(f"pH {measured.ph:g}")
    if measured.liquid_percent is not None:
        parts.append(f"{measured.liquid_percent:g} % juice")
    return ", ".join(parts)


def all_forgotten(project: Project) -> Project:
    """Return the project with no fruit's measured figures; notes tell them and ask for new ones.

    What the log measured of several fruits together stands in the note of the first.
    """
    together = _measured_together(project)
    first = project.fruits[0].id if project.fruits else ""
    lines = tuple(
        _forgotten(line, together if line.id == first else "")
        if isinstance(line, FruitLine)
        else line
        for line in project.recipe.lines
    )
    return changed(project, recipe=changed(project.recipe, lines=lines))


def _measured_together(project: Project) -> str:
    action = project.done(STEP)
    alone = len(project.fruits) < 2 or any(x.measured.is_of_this_fruit for x in project.fruits)
    if action is None or alone:
        return ""
    try:
        words = figures_words(measured_from(action.records))
    except UnitsError:
        return ""
    return f"{words} of all the fruit together" if words else ""


def _forgotten(line: FruitLine, together: str) -> FruitLine:
    words = figures_words(line.measured) or together
    if not words:
        return line
    own = _TOLD.sub("", line.note).strip("; ")
    note = "; ".join(filter(None, (own, f"last time: {words}{_END}")))
    kept = Measured(tannin_mg_per_100_g=line.measured.tannin_mg_per_100_g)
    return changed(line, measured=kept, note=note)


def measure_again(line: FruitLine) -> Caution | None:
    """Return the request for this year's figures, where only last year's are known."""
    told = _TOLD.search(line.note)
    if told is None or line.measured.is_of_this_fruit:
        return None
    return Caution(
        key="measure-again",
        severity="note",
        about=line.id,
        sentence=f"{fruit_of(line).name}, {told['figures']}{_END}.",
        detail="Strain some juice, cool it to 20 °C and read it; until then the table's typical "
        "fruit is reckoned with.",
    )


def asked_again(project: Project) -> tuple[str, ...]:
    """Return the request for each fruit of which only last year's figures are known."""
    asked = (measure_again(line) for line in project.fruits)
    return tuple(caution.sentence for caution in asked if caution is not None)
