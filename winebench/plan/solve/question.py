"""A question put to one recipe: its lines, its targets, and the must at each side of the fruit."""

from __future__ import annotations

from typing import NamedTuple

from winebench.model.project import Project
from winebench.plan.balance import has_mark
from winebench.plan.measured import as_measured
from winebench.plan.must_tannin import listed, unknown_fruit
from winebench.plan.portions import Side
from winebench.plan.solve.mix import Mix
from winebench.plan.solve.parts import Chosen, chosen, taken_apart
from winebench.plan.solve.shapes import NAMES, Ask, SolveError, Target
from winebench.plan.solve.targets import checked

_BY_TANNIN: tuple[Target, ...] = ("tannin", "drink")
"""Targets that are read from the tannin."""


class Question(NamedTuple):
    """What is to be met, by what."""

    project: Project
    """With its fruit as measured."""
    lines: Chosen
    kinds: tuple[str, ...]
    """What may change, as asked."""
    free: tuple[str, ...]
    """The same as amounts; under a mark water always fills it up."""
    held: dict[Target, float]
    """With the volume that a mark holds."""
    by_mark: bool
    """Whether the volume is held by nothing but the mark that water fills up to."""
    volume_moves: bool
    """Whether the recipe's volume follows the liquid."""
    mix: Mix
    slack: frozenset[Target] = frozenset()
    """Of what is held that which needs no amount of its own: ready sooner is as wanted."""

    @property
    def aimed(self) -> dict[Target, float]:
        """Return what the amounts are to come to."""
        return {key: value for key, value in self.held.items() if key not in self.slack}

    def side(self, at: Side) -> Mix:
        """Return the recipe with fruit at that side of its ranges."""
        return taken_apart(self.project, self.lines, at)


def question(project: Project, ask: Ask) -> Question:
    """Return what is asked, put to the recipe.

    Raises:
        SolveError: nothing is held or may change, or a value or a name is not known.
        UnitsError: a bare gallon in a project that has not said whose.

    """
    project = as_measured(project)
    if not project.recipe.lines:
        raise SolveError("There is nothing in the recipe yet: add its fruit first.")
    if not ask.held:
        raise SolveError("Say what is to be held, such as the gravity.")
    if not ask.change:
        raise SolveError("Say what may change, such as the sugar.")
    lines, kinds = chosen(project, ask.change)
    if "volume" in kinds and "volume" in ask.held:
        raise SolveError("The volume cannot be both held and found: take one of them away.")
    held, marked = dict(ask.held), has_mark(project)
    moves = "volume" in kinds or (marked and "water" in kinds and "volume" not in held)
    free = ["water" if kind == "volume" else kind for kind in kinds]
    if marked:
        free.append("water")
        if not moves:
            held.setdefault("volume", project.recipe.basis.litres(project.gallon))
    checked(held)
    if "fruit" in held and not lines.fruit:
        raise SolveError("There is no fruit on the recipe whose rate could be held.")
    unknown = unknown_fruit(project)
    needs: Target | None = next((key for key in _BY_TANNIN if key in held), None)
    if needs is not None and unknown:
        raise SolveError(_unknown_tannin(unknown, needs))
    mix = taken_apart(project, lines, 0)
    by_mark = "volume" in held and "volume" not in ask.held
    return Question(project, lines, kinds, tuple(dict.fromkeys(free)), held, by_mark, moves, mix)


def _unknown_tannin(fruit: tuple[str, ...], held: Target) -> str:
    """Return why it cannot be held, and the way out of it."""
    word = "it cannot be held"
    if held == "drink":
        word = f"the {NAMES[held]}, which goes by it, cannot be held"
    each = "its line" if len(fruit) == 1 else "their lines"
    return (
        f"The tannin of {listed(fruit)} is not known here: {word}. Open {each} (F4) and write a "
        "figure of your own or a publication's, mg in 100 g of fruit; then it can be."
    )
