"""What the project learned from the maker's own finished batches, for the forecast and in words."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from winebench.model.edits import Change
from winebench.model.own_ferment import OwnFerment
from winebench.model.project import Project

if TYPE_CHECKING:
    from winebench.forecast import Finished, Learned

NOTHING_LEARNED = "No batch is learned from: the forecast goes by what is usual."


def learned(project: Project) -> Learned | None:
    """Return what the project's own ferments say together; None where there is none."""
    return _learned(project.own_ferments)


@lru_cache(maxsize=8)
def _learned(ferments: tuple[OwnFerment, ...]) -> Learned | None:
    if not ferments:
        return None
    from winebench.forecast import learn

    return learn(_finished(one) for one in ferments)


def learned_words(project: Project) -> str:
    """Return that as a sentence, such as "Going by 3 finished batches, your ferments ..."."""
    found = learned(project)
    return found.sentence if found else ""


def told(ferment: OwnFerment) -> str:
    """Return how that ferment went by itself, such as "ran about 20 % slower than the usual"."""
    return _finished(ferment).words


def _finished(ferment: OwnFerment) -> Finished:
    from winebench.forecast import Finished

    return Finished(ferment.middles, ferment.spreads)


def learn_edit(project: Project, ferment: OwnFerment) -> Change:
    """Return the edit by which the project learns from it, in place of what its batch said."""
    others = tuple(one for one in project.own_ferments if one.batch != ferment.batch)
    fields = {"own_ferments": (*others, ferment)}
    return Change(label=f"learn from {ferment.name}", fields=fields)


def forget(project: Project, ferments: tuple[OwnFerment, ...]) -> Change:
    """Return the edit that takes those ferments out of what the project learned from."""
    kept = tuple(one for one in project.own_ferments if one not in ferments)
    name = ferments[0].name if len(ferments) == 1 else f"{len(ferments)} batches"
    return Change(label=f"learn no more from {name}", fields={"own_ferments": kept})
