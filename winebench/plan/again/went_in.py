"""What the log says went into a batch, kind by kind, for the whole batch as made."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from winebench.catalog.additives import additives
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, Line, SugarLine
from winebench.plan.again.logged import (
    actions_of,
    fining,
    grams_written,
    mg_per_l_written,
    records_of,
)
from winebench.plan.portions import additive_g, portion
from winebench.plan.readings import SUGAR_IN
from winebench.plan.steps.first_nitrogen import NUTRIENTS
from winebench.plan.steps.sulfite_must import SULFITES


class Went(NamedTuple):
    """So much of one kind of thing went into the whole batch."""

    key: str
    """Catalog key, for a line of its own where the recipe has none."""
    among: tuple[str, ...]
    """Keys of the lines that it stands for; none means any sugar."""
    grams: float
    feed: bool | None = None
    """Whether it is sugar fed later; None where it is no sugar."""


def went_in(project: Project, factor: float, litres: float) -> Iterator[Went]:
    """Give each kind of thing of which the log has an amount.

    `factor` is the batch over the recipe's own volume, `litres` the must of the batch.
    """
    sugar = _grams(project, "sugar-water", "sugar")
    if sugar is not None:
        yield Went("white-sugar", (), sugar, feed=False)
    fed = [grams for step in SUGAR_IN if (grams := _grams(project, step, "grams")) is not None]
    if fed:
        yield Went("white-sugar", (), sum(fed), feed=True)
    sulfite = _sulfite_g(project, litres)
    if sulfite is not None:
        yield Went("potassium-metabisulfite", SULFITES, sulfite)
    for step, name, key in (
        ("enzyme", "grams", "pectic-enzyme"),
        ("stabilise", "sorbate", "potassium-sorbate"),
    ):
        grams = _grams(project, step, name, key)
        if grams is not None:
            yield Went(key, (key,), grams)
    nutrient = _nutrient_g(project, factor)
    if nutrient is not None:
        yield Went("yeast-nutrient", NUTRIENTS, nutrient)
    fined: dict[str, float] = {}
    for what, grams in filter(None, (fining(project, one) for one in actions_of(project, "fine"))):
        fined[what] = fined.get(what, 0.0) + grams
    for what, grams in fined.items():
        yield Went(what, (what,), grams)
    yield from _named(project, factor)


def _grams(project: Project, step: str, name: str, key: str = "") -> float | None:
    """Return the sum of what all ticks of the step write under that name, g; None for nothing."""
    written = [grams_written(text, project, key) for text in records_of(project, step, name)]
    known = [grams for grams in written if grams is not None]
    return sum(known) if known else None


def _sulfite_g(project: Project, litres: float) -> float | None:
    """Return the metabisulfite of the must, g: each tick's as weighed, else by its mg/L."""
    key = _sulfite_key(project)
    one_mg_per_l = litres / 1000.0 / additives()[key].so2_share
    known = []
    for tick in actions_of(project, "sulfite-must"):
        written = {record.name: record.value for record in tick.records}
        grams = grams_written(written.get("grams", ""), project, key)
        dose = mg_per_l_written(written.get("mg-per-l", ""), project, key, litres)
        if grams is not None:
            known.append(grams)
        elif dose is not None:
            known.append(dose * one_mg_per_l)
    return sum(known) if known else None


def _sulfite_key(project: Project) -> str:
    lines = (line for line in project.recipe.lines if isinstance(line, AdditiveLine))
    found = (line.additive for line in lines if line.additive in SULFITES)
    return next(found, "potassium-metabisulfite")


def _nutrient_g(project: Project, factor: float) -> float | None:
    """Return both doses, g: a dose of which no amount was written counts as planned."""
    doses = [_grams(project, f"{which}-nitrogen", "grams", "yeast-nutrient")
             for which in ("first", "second")]  # fmt: skip
    if doses == [None, None]:
        return None
    lines = [x for x in project.recipe.lines if is_among(x, Went("", NUTRIENTS, 0.0))]
    half = sum(line_g(project, line) or 0.0 for line in lines) * factor / 2.0
    return sum(half if dose is None else dose for dose in doses)


def _named(project: Project, factor: float) -> Iterator[Went]:
    """Give what was written down by an additive's own key, such as tartaric-acid=5 g.

    With the must it is what went in of it; at a later step it came on top.
    """
    with_must: dict[str, float] = {}
    later: dict[str, float] = {}
    for action in project.actions:
        for record in action.records:
            grams = grams_written(record.value, project, record.name)
            if record.name in additives() and grams is not None:
                into = with_must if action.step == "sugar-water" else later
                into[record.name] = into.get(record.name, 0.0) + grams
    for key in dict.fromkeys((*with_must, *later)):
        went = Went(key, (key,), later.get(key, 0.0))
        planned = (line_g(project, x) for x in project.recipe.lines if is_among(x, went))
        first = with_must.get(key, sum(grams or 0.0 for grams in planned) * factor)
        yield went._replace(grams=first + went.grams)


def is_among(line: Line, went: Went) -> bool:
    """Return whether the line is one that the amount stands for."""
    if isinstance(line, SugarLine):
        return went.feed is not None and (line.when == "feed") == went.feed
    return isinstance(line, AdditiveLine) and line.additive in went.among


def line_g(project: Project, line: Line) -> float | None:
    """Return the grams of a sugar or additive at the recipe's own volume; None where unknown."""
    if isinstance(line, AdditiveLine):
        return additive_g(project, line)
    if isinstance(line, SugarLine) and line.amount.dimension != "count":
        brings = portion(project, line, 0)
        return (brings.water_kg + brings.solids_kg) * 1000.0
    return None
