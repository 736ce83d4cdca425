"""Which sugar changes where some is kept back, so that the yeast has a must it can start in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.model.recipe import SugarLine
from winebench.plan.balance import both_musts, sugar_to_target_kg
from winebench.plan.measured import as_measured
from winebench.plan.portions import solids_percent
from winebench.plan.solve.parts import sugar_lines
from winebench.plan.solve.question import Question, question
from winebench.plan.solve.search import Tried, first_possible, meets, met_besides
from winebench.plan.solve.shapes import Ask, Target
from winebench.plan.staged import amount_like, sugar_g
from winebench.plan.wanted import LEAST_SG, MOST_SG, strength

_INSIDE = 0.001
"""So far within the bounds the start is brought, that rounding takes it over neither."""


class Put(NamedTuple):
    """One way of putting the question, with what is found."""

    asked: Question
    found: Tried | None
    on_paper: Tried | None
    besides: SugarLine | None = None
    """The other sugar with its new amount, where both that of the start and that fed change."""

    @property
    def start_off(self) -> float:
        """Return how far the start lies outside what yeast is put into, SG; 0 where it is fine."""
        assert self.found is not None
        sg = round(self.asked.mix.must(self.found.kilos).start_sg, 3)
        return max(LEAST_SG - sg, sg - MOST_SG, 0.0)


def is_staged(sugars: Sequence[SugarLine]) -> bool:
    """Return whether some sugar is in the must at the start and some is fed later."""
    return {line.when for line in sugars} == {"start", "feed"}


def best_put(project: Project, ask: Ask) -> Put:
    """Return the question put to the sugar that suits, with its answer.

    Where sugar is fed later: less of it first where there is too much in all, more at the start
    first where there is too little; then the other; then both, with the start just within what
    yeast is put into, or with all of it at the start. Of these the first whose start is within
    it, else the nearest.

    Raises:
        SolveError: a question that cannot be put; one sentence.

    """
    first = _put(project, ask)
    either = _either(project, ask)
    if either is None:
        return first
    tried = [put for put in _each(project, ask, *either) if put.found is not None]
    return min(tried, key=lambda put: put.start_off, default=first)


def _put(project: Project, ask: Ask, besides: SugarLine | None = None) -> Put:
    if besides is not None:
        lines = tuple(besides if x.id == besides.id else x for x in project.recipe.lines)
        project = changed(project, recipe=changed(project.recipe, lines=lines))
    asked = question(project, ask)
    sooner = _ready_sooner(asked)
    if sooner is not None:
        return sooner._replace(besides=besides)
    found, on_paper = first_possible(asked.mix, asked.held, asked.free)
    found = found or met_besides(asked.mix, asked.held, asked.free)
    return Put(asked, found, on_paper, besides)


def _ready_sooner(asked: Question) -> Put | None:
    """Return what meets all else where the wine is then ready by the time anyway."""
    others: dict[Target, float] = {k: v for k, v in asked.held.items() if k != "drink"}
    if "drink" not in asked.held:
        return None
    found, on_paper = first_possible(asked.mix, others, asked.free)
    if found is None or not meets(asked.mix, found.kilos, asked.held):
        return None
    return Put(asked._replace(slack=frozenset({"drink"})), found, on_paper)


def _either(project: Project, ask: Ask) -> tuple[SugarLine, SugarLine, str] | None:
    """Return the sugar of the start, that fed later, and the name that means either of them."""
    sugars = sugar_lines(project)
    for name in ask.change:
        is_line = name != "sugar" and any(name == line.id for line in sugars)
        named = [x for x in sugars if name in ("sugar", x.sugar) and not is_line]
        if is_staged(named):
            start = next(line for line in named if line.when == "start")
            return start, next(line for line in named if line.when == "feed"), name
    return None


def _each(
    project: Project, ask: Ask, start: SugarLine, feed: SugarLine, name: str
) -> Iterator[Put]:
    """Give each way of putting the question, until one leaves a start that is fine."""

    def of(line: SugarLine) -> Ask:
        return ask._replace(change=tuple(line.id if x == name else x for x in ask.change))

    order = (feed, start) if _too_much(project, ask) else (start, feed)
    for line in order:
        put = _put(project, of(line))
        yield put
        if put.found is not None and put.start_off == 0.0:
            return
    moved = _within(project, start)
    if moved is not None:
        yield _put(project, of(feed), moved)
    yield _put(project, of(start), changed(feed, amount=amount_like(0.0, feed)))


def _too_much(project: Project, ask: Ask) -> bool:
    whole = both_musts(as_measured(project))[1]
    if "gravity" in ask.held:
        return whole.sg > ask.held["gravity"]
    return "strength" in ask.held and strength(whole) > ask.held["strength"]


def _within(project: Project, line: SugarLine) -> SugarLine | None:
    """Return the sugar of the start in the amount that brings the start just within the bounds."""
    project = as_measured(project)
    start = both_musts(project)[0]
    aim = min(max(start.sg, LEAST_SG + _INSIDE), MOST_SG - _INSIDE)
    kilos = sugar_to_target_kg(project, aim, solids_percent(line), (start, start))
    grams = sugar_g(project, line) + (kilos or 0.0) * 1000.0
    if kilos is None or grams < 0.0:
        return None
    return changed(line, amount=amount_like(grams, line))
