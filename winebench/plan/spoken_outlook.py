"""The whole outlook in the words of the project's household; every value stays in its own unit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TypeVar

import msgspec

from winebench.model.project import Project
from winebench.plan.customary import IN_GALLONS, METRIC, Household, figure_of, household
from winebench.plan.outlook import (
    Caution,
    Cost,
    LineOutlook,
    Outlook,
    Shape,
    ShoppingItem,
    StepOutlook,
    StuckOutlook,
    VesselOutlook,
)
from winebench.plan.spoken import spoken
from winebench.units import Amount

S = TypeVar("S", bound=Shape)
Item = TypeVar("Item", bound=ShoppingItem)


def in_words_of(found: Outlook, project: Project) -> Outlook:
    """Return the outlook in the words of the project's household; values stay in their units."""
    how = household(project)
    if how == METRIC:
        return found
    must, bottles = found.must, found.bottles
    written = {line.id: line.amount or project.recipe.basis for line in project.recipe.lines}
    return msgspec.structs.replace(
        found,
        must=msgspec.structs.replace(
            must, liquid=figure_of(must.liquid, how), pail=figure_of(must.pail, how)
        ),
        lines=tuple(_line(line, written[line.id], how) for line in found.lines),
        cautions=_cautions(found.cautions, how),
        vessels=tuple(_vessel(vessel, how) for vessel in found.vessels),
        bottles=_said(
            bottles,
            how,
            ("sentence",),
            finished=figure_of(bottles.finished, how),
            cost=bottles.cost and _cost(bottles.cost, how),
        ),
        shopping=tuple(_item(item, how) for item in found.shopping),
        later=tuple(
            _said(_item(dose, how), how, ("sentence", "amount", "why", "had"))
            for dose in found.later
        ),
        steps=tuple(_step(step, how) for step in found.steps),
        today=tuple(_said(item, how, ("title", "detail")) for item in found.today),
        stuck=found.stuck and _stuck(found.stuck, how),
    )


def _line(line: LineOutlook, written: Amount, how: Household) -> LineOutlook:
    """Return a line scaled in pounds or gallons where it is written so."""
    customary = written.parts[0].unit in (*IN_GALLONS, "lb", "oz")
    scaled = figure_of(line.scaled, how, 2) if customary else line.scaled
    return msgspec.structs.replace(
        line, name=_name(line.name, how), scaled=scaled, cautions=_cautions(line.cautions, how)
    )


def _name(name: str, how: Household) -> str:
    """Return a thing's name: a yeast's has its warmth in it; sizes belong to what is bought."""
    return spoken(name, METRIC._replace(fahrenheit=how.fahrenheit))


def _vessel(vessel: VesselOutlook, how: Household) -> VesselOutlook:
    fill, weight = (each and figure_of(each, how) for each in (vessel.fill, vessel.weight))
    return msgspec.structs.replace(vessel, fill=fill, weight=weight)


def _item(item: Item, how: Household) -> Item:
    notes = tuple(spoken(note, how) for note in item.notes)
    bought = ("buy_text",) if item.packs is None else ()  # packs are as they were typed
    name = _name(item.name, how)
    return _said(item, how, ("need", "left_text", *bought), name=name, notes=notes)


def _cost(cost: Cost, how: Household) -> Cost:
    """Return what it costs; the names in it are told as in the list."""
    without = tuple(_name(name, how) for name in cost.without_price)
    return msgspec.structs.replace(cost, sentence=_name(cost.sentence, how), without_price=without)


def _cautions(cautions: Sequence[Caution], how: Household) -> tuple[Caution, ...]:
    """Return the cautions in the household's words; what their repairs do stays."""
    return tuple(
        _said(
            caution,
            how,
            ("sentence", "detail"),
            repairs=tuple(_said(repair, how, ("label",)) for repair in caution.repairs),
        )
        for caution in cautions
    )


def _step(step: StepOutlook, how: Household) -> StepOutlook:
    return _said(
        step,
        how,
        ("reason", "trigger", "reminder", "risk"),
        if_slips=tuple(spoken(words, how) for words in step.if_slips),
        conditions=tuple(_said(one, how, ("text",)) for one in step.conditions),
        figures=tuple(
            msgspec.structs.replace(one, figure=figure_of(one.figure, how)) for one in step.figures
        ),
    )


def _stuck(stuck: StuckOutlook, how: Household) -> StuckOutlook:
    clues = tuple(_said(clue, how, ("text",)) for clue in stuck.clues)
    return _said(stuck, how, ("sentence",), clues=clues)


def _said(one: S, how: Household, names: Sequence[str], **others: Any) -> S:
    """Return the shape with those texts in the household's words, and other fields replaced."""
    changes = {name: spoken(getattr(one, name), how) for name in names} | others
    changes = {name: new for name, new in changes.items() if new != getattr(one, name)}
    return msgspec.structs.replace(one, **changes) if changes else one
