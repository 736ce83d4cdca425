"""What was written down with the ticks of the log, read as figures."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.catalog.additives import additives
from winebench.model.log import Action
from winebench.model.project import Project
from winebench.plan.record_values import value_of
from winebench.plan.typed.names import exact
from winebench.plan.typed.offers import known


def actions_of(project: Project, step: str) -> tuple[Action, ...]:
    """Return the ticks of that step in order of time."""
    return tuple(action for action in project.actions if action.step == step)


def records_of(project: Project, step: str, name: str) -> Iterator[str]:
    """Give what each tick of the step has under that name, where it has something."""
    for action in actions_of(project, step):
        for record in action.records:
            if record.name == name and record.value.strip():
                yield record.value.strip()


def grams_written(text: str, project: Project, key: str = "") -> float | None:
    """Return what "8", "8 g", "1 1/2 oz", "2 tablets" or "none" comes to in g, or None.

    `key` names what is weighed, so that its spoons, cups and tablets can be.
    """
    return value_of(text, "g", project, key)


def mg_per_l_written(
    text: str, project: Project, key: str = "", litres: float | None = None
) -> float | None:
    """Return what "50", "50 mg/L", "3 tablets" or "none" comes to in mg/L, or None.

    A weight of the sulfite `key` counts where it is known into how many litres it went.
    """
    return value_of(text, "mg/L", project, key, litres)


def fining(project: Project, action: Action) -> tuple[str, float] | None:
    """Return the key of what a wine was fined with, and its grams; None where one is missing."""
    written = {record.name: record.value.strip() for record in action.records}
    what = written.get("what", "")
    if not what or "grams" not in written:
        return None
    additive = exact(what, (offer for offer in known() if offer.kind == "additive"))
    key = additive.key if additive and additive.key in additives() else what
    grams = grams_written(written["grams"], project, key)
    return None if grams is None else (key, grams)
