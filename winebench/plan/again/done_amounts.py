"""What the log says went into a batch, set against the recipe's lines.

Amounts in the log are for the batch as made, lines for the recipe's own volume. A line stays as
written wherever the log says nothing else, within what weighing and spooning differ by.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from winebench.catalog.additives import additives
from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, FruitLine, Line, SugarLine
from winebench.plan.again.logged import records_of
from winebench.plan.again.went_in import Went, is_among, line_g, went_in
from winebench.plan.figures import grams_text
from winebench.plan.lines import line_name
from winebench.plan.portions import is_strained
from winebench.plan.scale import must_l, scale_factor
from winebench.units import Amount, Gravity, UnitsError

SUGAR, DOSE = 0.02, 0.05
"""What two weighings of one sugar, and of one small dose, differ by (common practice)."""


class AsDone(NamedTuple):
    """The project with its lines as they were done, and what the log changed."""

    project: Project
    sentences: tuple[str, ...]


def as_done(project: Project) -> AsDone:
    """Return the recipe as the log says that it was made, with a sentence for each change.

    A recipe that cannot be scaled stays as written, and the sentence says why.
    """
    try:
        factor, litres = scale_factor(project), must_l(project)
    except (ValueError, ArithmeticError) as problem:
        left_out = f"The log's amounts were left out: {problem}"
        return AsDone(project, (left_out,) if project.log else ())
    sentences: list[str] = []
    for went in went_in(project, factor, litres):
        project, told = _taken(project, went, factor)
        sentences += told
    for each in (_fruit_weighed, _sweetened):
        project, told = each(project, factor)
        sentences += told
    return AsDone(project, tuple(sentences))


def _taken(project: Project, went: Went, factor: float) -> tuple[Project, list[str]]:
    lines = [line for line in project.recipe.lines if is_among(line, went)]
    if not lines:
        return _added(project, went, factor) if went.grams > 0 else (project, [])
    low, high = 0.0, 0.0
    for line in lines:
        least, most = _planned(project, line, factor)
        low, high = low + least, high + most
    if low <= went.grams <= high:
        return project, []
    if len(lines) > 1:
        names = " and ".join(line_name(line) for line in lines)
        return project, [
            f"{names}: {grams_text(went.grams)} went in by the log, which does not say of which; "
            "the lines stay as written."
        ]
    line, name = lines[0], line_name(lines[0])
    if went.grams <= 0:
        kept = tuple(x for x in project.recipe.lines if x.id != line.id)
        return _with(project, kept), [f"{name}: none went in, so it is off the recipe."]
    assert isinstance(line, SugarLine | AdditiveLine)
    new = changed(line, amount=as_amount(went.grams / factor))
    kept = tuple(new if x.id == line.id else x for x in project.recipe.lines)
    return _with(project, kept), [f"{name}: {_instead(project, line, went.grams, factor)}."]


def _instead(project: Project, line: Line, grams: float, factor: float) -> str:
    planned = line_g(project, line)
    written = "an amount unknown" if planned is None else grams_text(planned * factor)
    return f"{grams_text(grams)} went in, not {written}"


def _planned(project: Project, line: Line, factor: float) -> tuple[float, float]:
    """Return the least and the most that the line as written comes to in the batch, g."""
    grams = line_g(project, line)
    if grams is None:
        return math.inf, 0.0
    assert isinstance(line, SugarLine | AdditiveLine)
    by_weight = line.amount.dimension == "mass"
    slack = SUGAR if isinstance(line, SugarLine) and by_weight else DOSE
    low, high = 1.0 - slack, 1.0 + slack
    if isinstance(line, AdditiveLine) and line.amount.dimension == "volume":
        own = {spoon.additive for spoon in project.kitchen.spoons}
        found = additives().get(line.additive)
        if found is not None and line.additive not in own:
            spoon = found.g_per_teaspoon
            low, high = spoon.low / spoon.figure, spoon.high / spoon.figure
    return grams * low * factor, grams * high * factor


def _added(project: Project, went: Went, factor: float) -> tuple[Project, list[str]]:
    amount = as_amount(went.grams / factor)
    named = (*project.recipe.lines, *project.make.vessels, *project.log)
    taken = {part.id for part in named}
    name = next(n for n in _ids(went.key + ("-fed" if went.feed else "")) if n not in taken)
    line: Line = AdditiveLine(id=name, additive=went.key, amount=amount)
    if went.feed is not None:
        line = SugarLine(
            id=name, sugar=went.key, amount=amount, when="feed" if went.feed else "start"
        )
    told = f"{line_name(line)}: {grams_text(went.grams)} went in, which was not on the recipe."
    return _with(project, (*project.recipe.lines, line)), [told]


def _ids(stem: str) -> Iterator[str]:
    yield f"log-{stem}"
    number = 1
    while True:
        number += 1
        yield f"log-{stem}-{number}"


def _with(project: Project, lines: tuple[Line, ...]) -> Project:
    return changed(project, recipe=changed(project.recipe, lines=lines))


def as_amount(grams: float) -> Amount:
    """Return the amount in g or kg to four figures, as a kitchen writes it."""
    value, unit = (grams / 1000.0, "kg") if grams >= 1000 else (grams, "g")
    digits = min(max(3 - math.floor(math.log10(max(value, 1e-6))), 0), 6)
    text = f"{max(value, 1e-6):.{digits}f}"
    return Amount(f"{text.rstrip('0').rstrip('.') if '.' in text else text} {unit}")


# --- the fruit and the sweetness --------------------------------------------------------------


def _fruit_weighed(project: Project, factor: float) -> tuple[Project, list[str]]:
    """Take the sorted fruit's weight, where it can only be that of the one fruit."""
    texts = list(records_of(project, "fruit-accepted", "weight"))
    lines = project.fruits
    if not texts or len(lines) != 1 or is_strained(lines[0]):
        return project, []
    line = lines[0]
    try:
        weighed, planned = Amount(texts[-1]).grams(), line.amount.grams() * factor
    except UnitsError:
        return project, []
    if weighed <= 0 or abs(weighed - planned) <= SUGAR * planned:
        return project, []
    new: FruitLine = changed(line, amount=as_amount(weighed / factor))
    kept = tuple(new if x.id == line.id else x for x in project.recipe.lines)
    told = f"{grams_text(weighed)} went in, not {grams_text(planned)}"
    return _with(project, kept), [f"{line_name(line)}: {told}."]


def _sweetened(project: Project, _factor: float) -> tuple[Project, list[str]]:
    """Take the gravity that the wine was sweetened to as the wanted one."""
    texts = list(records_of(project, "sweeten", "gravity"))
    if not texts:
        return project, []
    try:
        reached = Gravity(texts[-1])
    except UnitsError:
        return project, []
    targets = project.recipe.targets
    wanted = targets.final_gravity
    if wanted is not None and (wanted.scale, wanted.value) == (reached.scale, reached.value):
        return project, []
    targets = changed(targets, final_gravity=reached)
    sweet = f"Sweetened to {reached.text.strip()}"
    than = f", not {wanted.text.strip()}" if wanted is not None else ""
    made = changed(project, recipe=changed(project.recipe, targets=targets))
    return made, [f"{sweet}{than}."]
