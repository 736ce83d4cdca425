"""What the log says was given of sulfite and sorbate, tick by tick, in mg for each litre."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import datetime
from functools import cache
from typing import NamedTuple

from winebench.catalog.additives import additives
from winebench.model.log import Action, Record
from winebench.model.project import Project
from winebench.plan.compose import RecipeOutlook
from winebench.plan.days import settled
from winebench.plan.record_values import value_of
from winebench.plan.typed.number_words import digits
from winebench.trade.sorbate import SORBIC_SHARE
from winebench.units import UnitsError, parse_number

SULFITE, SORBATE = "potassium-metabisulfite", "potassium-sorbate"
_NOTED = {"sulfite-must": "grams", "stabilise": "sulfite"}
"""Steps that ask for sulfite, and under which name they ask for its weight."""


_SORBATE_NAMES = frozenset(("sorbate", SORBATE))


@cache
def _sulfite_names() -> frozenset[str]:
    own = (key for key, additive in additives().items() if additive.so2_share)
    return frozenset(("mg-per-l", *_NOTED.values(), *own))


class Given(NamedTuple):
    """One dose of the log."""

    at: datetime
    mg_per_l: float
    """SO2 of a sulfite, sorbic acid of a sorbate."""


def sulfite_given(project: Project, recipe: RecipeOutlook) -> tuple[Given, ...]:
    """Return each dose of sulfite, mg/L of SO2, in order of time.

    A must that was sulfited without a note of how much has what its recipe says.
    """
    found = _given(project, recipe, _sulfite_names(), sulfite_of)
    must = [tick for tick in project.actions if tick.step == "sulfite-must"]
    planned = recipe.must.sulfite.value
    noted = any(sulfite_of(project, tick, recipe.must.liquid.value) for tick in must)
    if not must or noted or not planned:
        return found
    return tuple(sorted((*found, Given(settled(must[0].at), planned)), key=lambda one: one.at))


def sorbate_given(project: Project, recipe: RecipeOutlook) -> tuple[Given, ...]:
    """Return each dose of sorbate, mg/L of sorbic acid, in order of time."""
    return _given(project, recipe, _SORBATE_NAMES, _sorbic_of)


_Dose = Callable[[Project, Action, float | None], float]


def _given(
    project: Project, recipe: RecipeOutlook, names: frozenset[str], dose_of: _Dose
) -> tuple[Given, ...]:
    """Return the doses of the ticks that note something under one of those names.

    What was given went into the must until the yeast was in, then into the wine.
    """
    found, pitched = [], False
    for tick in project.actions:
        into = recipe.bottles.finished if pitched else recipe.must.liquid
        pitched = pitched or tick.step == "pitch"
        if any(record.name in names for record in tick.records):
            dose = dose_of(project, tick, into.value or None)
            if dose > 0.0:
                found.append(Given(settled(tick.at), dose))
    return tuple(found)


def sulfite_of(project: Project, tick: Action, litres: float | None) -> float:
    """Return the SO2 of one tick, mg/L; what it notes in two ways counts once, as the larger."""
    written = {record.name: record.value for record in tick.records if record.value.strip()}
    doses = [0.0]
    if tick.step in _NOTED:
        weighed = written.get(_NOTED[tick.step])
        texts = (written.get("mg-per-l"), _with_unit(weighed) if weighed else None)
        doses += [value_of(text, "mg/L", project, SULFITE, litres) or 0.0 for text in texts if text]
    if litres:
        doses.append(own_so2(project, tick.records, litres))
    return max(doses)


def own_so2(project: Project, records: Iterable[Record], litres: float) -> float:
    """Return the SO2 of the sulfites noted under their own keys together, mg/L."""
    known = additives()
    sulfites = (one for one in records if one.name in known and known[one.name].so2_share)
    grams = (
        known[one.name].so2_share * (value_of(one.value, "g", project, one.name) or 0.0)
        for one in sulfites
    )
    return sum(grams) * 1000.0 / litres


def _with_unit(text: str) -> str:
    """Return a weight so that it cannot be taken for mg/L: a bare number is grams."""
    try:
        parse_number(digits(text.strip()))
    except UnitsError:
        return text
    return f"{text.strip()} g"


def _sorbic_of(project: Project, tick: Action, litres: float | None) -> float:
    """Return the sorbic acid of one tick, mg/L; what it notes in two ways counts once."""
    noted = ("sorbate", SORBATE) if tick.step == "stabilise" else (SORBATE,)
    texts = (record.value for record in tick.records if record.name in noted)
    grams = max((value_of(text, "g", project, SORBATE) or 0.0 for text in texts), default=0.0)
    return grams * 1000.0 * SORBIC_SHARE / litres if litres else 0.0
