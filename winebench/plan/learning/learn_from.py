"""A finished batch as something to learn from: its ferment, fitted once, and its rackings."""

from __future__ import annotations

from datetime import datetime

from winebench.forecast import finished
from winebench.model.edits import Change
from winebench.model.own_ferment import FARTHEST, OwnFerment
from winebench.model.own_loss import OwnLosses
from winebench.model.project import Project
from winebench.plan.batch import Batch
from winebench.plan.days import Clock
from winebench.plan.evidence import evidence_of
from winebench.plan.learning.lessons import Lesson, take_in
from winebench.plan.learning.own_losses import racked_off
from winebench.plan.losses import has_puree
from winebench.plan.must import worked_out
from winebench.plan.scale import made_l, scale_factor
from winebench.plan.steps import rules
from winebench.plan.work_out import recipe_outlook
from winebench.units import UnitsError

_DIGITS = 4
"""Far below any spread; what two machines' arithmetic may differ by is rounded away."""


class NotLearnedError(ValueError):
    """A batch that teaches the forecast nothing: one sentence with its name, and what to do."""


def own_ferment(project: Project, now: datetime) -> OwnFerment:
    """Return what the batch's ferment says of its maker.

    Raises:
        NotLearnedError: it is not over, was read too seldom, or was no usual ferment.

    """
    try:
        batch = Batch(project, Clock(now), recipe_outlook(project), rules(), lambda *_: None)
        if batch.pitched is None:
            raise ValueError("the yeast is not ticked off in its log, so it has no beginning")
        found = finished(evidence_of(batch))
    except (ValueError, ArithmeticError) as problem:
        why = str(problem).rstrip(".")
        raise NotLearnedError(f'"{project.name}" teaches nothing: {why}.') from problem
    return OwnFerment(
        name=project.name,
        batch=project.id,
        middles=tuple(round(min(max(m, -FARTHEST), FARTHEST), _DIGITS) for m in found.middles),
        spreads=tuple(round(spread, _DIGITS) for spread in found.spreads),
    )


def batch_losses(project: Project) -> OwnLosses | None:
    """Return what the batch's rackings cost; None where nothing of that was written down."""
    rackings = racked_off(project)
    if not rackings:
        return None
    try:
        factor = scale_factor(project)
        must_l = made_l(project, worked_out(project, factor).whole.litres * factor)
    except UnitsError:
        return None
    if must_l <= 0.0:
        return None
    return OwnLosses(
        name=project.name,
        batch=project.id,
        must_l=round(must_l, _DIGITS),
        puree=has_puree(project),
        rackings=rackings,
    )


def lesson(project: Project, other: Project, now: datetime) -> Lesson:
    """Return what the project can learn from the other batch: its ferment, its losses, or both.

    Raises:
        NotLearnedError: neither, see `own_ferment`; or the other is this very batch.

    """
    if other.id == project.id:
        raise NotLearnedError(
            f'"{other.name}" is this very batch, or a copy of its file; its own readings are in '
            "its forecast already."
        )
    losses = batch_losses(other)
    try:
        ferment = own_ferment(other, now)
    except NotLearnedError:
        if losses is None:
            raise
        return Lesson(other.name, other.id, None, losses)
    return Lesson(other.name, other.id, ferment, losses)


def learn_from(project: Project, other: Project, now: datetime) -> Change:
    """Return the edit by which the project learns from the other batch; raises like `lesson`."""
    return take_in(project, lesson(project, other, now))
