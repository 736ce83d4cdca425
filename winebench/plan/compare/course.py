"""What happened in two batches, as their logs tell it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import datetime
from itertools import pairwise

from winebench.model.project import Project
from winebench.plan.again.logged import actions_of, mg_per_l_written, records_of
from winebench.plan.compare.known import Fact, Known, about
from winebench.plan.compose import RecipeOutlook
from winebench.plan.days import settled
from winebench.plan.gravity_forecast import NEARLY_DRY, TO_GLASS
from winebench.plan.losses import RACKINGS, litres_lost
from winebench.plan.readings import HALF_WIDTH, Seen, of_the_must, readings
from winebench.plan.record_values import value_of
from winebench.units import Gravity, UnitsError

CELSIUS = 1.0
"""A kitchen thermometer is a degree off (common practice)."""
SULFITE = 0.10
"""What a weighed dose and the litres it went into differ by, share (common practice)."""
LOST_L = 0.1
"""What a racking's loss is judged to, L (common practice)."""
SCORE = 0.05
"""Two tastings of one wine differ by half a point of five, twice this share (common practice)."""
_SCORE = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:/|of|out of)\s*(\d+)", re.ASCII)
_ENDED = ("declare-stable", "stabilise", "sweeten", "bottle")


def course_facts(project: Project, recipe: RecipeOutlook, now: datetime) -> tuple[Fact, ...]:
    """Return what was read and done, as far as the batch has come."""
    return (
        *_ferment(project, now),
        *_sulfite(project, recipe),
        *_lost(project, recipe),
        *_tasted(project),
    )


def _first(project: Project, step: str) -> datetime | None:
    ticks = actions_of(project, step)
    return settled(ticks[0].at) if ticks else None


def _ferment(project: Project, now: datetime) -> Iterator[Fact]:
    pitched = _first(project, "pitch")
    if pitched is None:
        return
    read = [seen for seen in readings(project, now) if seen.sg is not None]
    before = of_the_must(read, pitched, actions_of(project, "sugar-water"))
    sweetened = _first(project, "sweeten")
    course = [s for s in read if s.at > pitched and (sweetened is None or s.at < sweetened)]
    if before:
        yield _gravity("og", "Original gravity, read", before[-1])
    start = before[-1:]
    for below, key, name in (
        (TO_GLASS, "to-lift", "Days from the pitch to 1.030"),
        (NEARLY_DRY, "to-dry", "Days from the pitch to 1.000"),
    ):
        days = _crossed([*start, *course], below, pitched)
        if days is not None:
            yield Fact(key, name, f"{days.value:.1f} ({days.low:.1f}–{days.high:.1f})", days)
    yield from _warmth(project, pitched, course)
    if course and any(actions_of(project, step) for step in _ENDED):
        yield _gravity("final", "Final gravity, before any sweetening", course[-1])
    yield from _bottled(project)


def _gravity(key: str, name: str, seen: Seen) -> Fact:
    sg = seen.sg or 0.0
    return Fact(key, name, f"{sg:.3f}", about(sg, seen.outlook.half_width))


def _crossed(course: list[Seen], below: float, pitched: datetime) -> Known | None:
    """Return the days until that gravity: between the two readings round it, in proportion."""
    for earlier, later in pairwise(course):
        assert earlier.sg is not None
        assert later.sg is not None
        if earlier.sg > below >= later.sg:
            low, high = (
                max((seen.at - pitched).total_seconds() / 86400, 0.0) for seen in (earlier, later)
            )
            share = (earlier.sg - below) / (earlier.sg - later.sg)
            return Known(low + share * (high - low), low, high)
    return None


def _warmth(project: Project, pitched: datetime, course: list[Seen]) -> Iterator[Fact]:
    """Give the warmest and the coolest that was read until the sugar was nearly gone."""
    dry = (seen.at for seen in course if seen.sg is not None and seen.sg <= NEARLY_DRY)
    until = next(dry, course[-1].at if course else pitched)
    known = [
        reading.temperature.celsius
        for reading in project.readings
        if reading.temperature and pitched <= settled(reading.at) <= until
    ]
    for action in (*actions_of(project, "pitch"), *actions_of(project, "stir")):
        known += [
            celsius
            for record in action.records
            if record.name == "temperature" and settled(action.at) <= until
            if (celsius := value_of(record.value, "°C", project)) is not None
        ]
    if known:
        for key, name, value in (
            ("warmest", "Warmest that was read", max(known)),
            ("coolest", "Coolest that was read", min(known)),
        ):
            yield Fact(key, name, f"{value:.0f} °C", about(value, CELSIUS))


def _bottled(project: Project) -> Iterator[Fact]:
    for text in list(records_of(project, "bottle", "gravity"))[-1:]:
        try:
            gravity = Gravity(text)
        except UnitsError:
            return
        if gravity.scale == "SG":
            known = about(gravity.value, HALF_WIDTH)
            yield Fact("sweetness", "Gravity in the bottle", f"{gravity.value:.3f}", known)


def _sulfite(project: Project, recipe: RecipeOutlook) -> Iterator[Fact]:
    """Give all sulfite that went in, once the wine has been stabilised or bottled."""
    if not any(actions_of(project, step) for step in ("stabilise", "bottle")):
        return
    must = recipe.must.sulfite.value or 0.0
    total = must if actions_of(project, "sulfite-must") else 0.0
    litres = recipe.bottles.finished.value
    for text in records_of(project, "stabilise", "mg-per-l"):
        dose = mg_per_l_written(text, project, "potassium-metabisulfite", litres)
        total += dose or 0.0
    text = f"{total:.0f} mg/L"
    yield Fact("total-sulfite", "Sulfite added in all", text, about(total, SULFITE * total))


def _lost(project: Project, recipe: RecipeOutlook) -> Iterator[Fact]:
    racked = [action for action in project.actions if action.step in RACKINGS]
    made = recipe.must.liquid.value
    if not any(action.step == "bottle" for action in racked) or not made:
        return
    lost = sum(litres_lost(action, project) for action in racked)
    known = about(lost / made, LOST_L * len(racked) / made)
    yield Fact("lost", "Lost in racking", f"{lost:.1f} L of {made:.1f} L", known)


def _tasted(project: Project) -> Iterator[Fact]:
    for text in list(records_of(project, "first-taste", "score"))[-1:]:
        words = list(records_of(project, "first-taste", "notes"))[-1:]
        shown = " – ".join((text, *words))
        found = _SCORE.search(text)
        if found and int(found[2]) > 0:
            share = float(found[1].replace(",", ".")) / int(found[2])
            yield Fact("score", "Score at the first taste", shown, about(share, SCORE))
        else:
            yield Fact("score", "Score at the first taste", shown)
