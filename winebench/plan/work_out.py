"""The whole outlook of a project at one moment: the way from what is known to what is shown."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from functools import lru_cache

import msgspec

from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.plan.batch import Batch
from winebench.plan.compose import RecipeOutlook, compose
from winebench.plan.days import Clock
from winebench.plan.gravity_forecast import Forecaster, forecaster
from winebench.plan.gravity_shown import forecast_outlook
from winebench.plan.household.away import away_cautions
from winebench.plan.label import label_lines
from winebench.plan.measured import as_measured, measured_cautions
from winebench.plan.moves import before_newest, moved_steps
from winebench.plan.outlook import Caution, Outlook, StepOutlook
from winebench.plan.shopping.later import later_doses
from winebench.plan.standing import standing_cautions, standing_lines
from winebench.plan.step_outlooks import step_outlooks
from winebench.plan.steps import rules
from winebench.plan.strength_now import strength_now
from winebench.plan.stuck.seen import stuck_outlook
from winebench.plan.today import today

_SEVERITIES = ("stop", "hold", "caution", "note")


def outlook(project: Project, now: datetime, forecaster: Forecaster = forecaster) -> Outlook:
    """Return all that is worked out of the project at `now`.

    `forecaster` may answer None while a forecast is still being worked out; dates that lean
    on it then come from the usual course.

    Raises:
        ValueError: `now` has no offset.

    """
    clock = Clock(now)
    recipe = recipe_outlook(project)
    batch = Batch(project, clock, recipe, rules(), forecaster)
    steps = step_outlooks(batch)
    newest = before_newest(project)
    if newest is not None:
        former = Batch(newest[0], clock, recipe, rules(), forecaster)
        steps = moved_steps(steps, former, batch, newest[1])
    standing = standing_cautions(batch)
    cautions = tuple(_cautions(batch, standing, steps))
    found = Outlook(
        at=clock.now,
        name=project.name,
        style=recipe.style,
        make_text=recipe.make_text,
        basis_text=recipe.basis_text,
        scale_factor=recipe.scale_factor,
        must=recipe.must,
        lines=standing_lines(batch, standing),
        cautions=cautions,
        vessels=recipe.vessels,
        bottles=recipe.bottles,
        shopping=recipe.shopping,
        later=later_doses(batch, steps),
        readings=tuple(seen.outlook for seen in batch.readings),
        forecast=forecast_outlook(batch),
        steps=steps,
        today=today(steps, cautions, clock.now),
        strength_now=strength_now(batch),
        safety=tuple(_safety(batch)),
        stuck=stuck_outlook(batch),
    )
    return msgspec.structs.replace(found, label=label_lines(project, found))


def recipe_outlook(project: Project) -> RecipeOutlook:
    """Return the recipe's side; an entry in the log alone does not work it out again."""
    project = as_measured(project)
    return _composed(changed(project, log=(), drafts=(), away=(), start=None))


@lru_cache(maxsize=8)
def _composed(project: Project) -> RecipeOutlook:
    return compose(project)


def _cautions(
    batch: Batch, standing: tuple[Caution, ...], steps: tuple[StepOutlook, ...]
) -> list[Caution]:
    found = [*standing, *measured_cautions(batch.project), *away_cautions(batch, steps)]
    found += _doubts(batch)
    return sorted(found, key=lambda caution: _SEVERITIES.index(caution.severity))


def _doubts(batch: Batch) -> Iterator[Caution]:
    for seen in batch.readings:
        if seen.outlook.doubt:
            yield Caution(
                key="doubtful-reading",
                severity="caution",
                about=f"log:{seen.reading.id}",
                sentence=f"{seen.outlook.raw}: {seen.outlook.doubt}",
            )


def _safety(batch: Batch) -> Iterator[str]:
    yield "Sulfite: keep away from people with asthma; window open."
    if "bottle" not in batch.actions:
        yield "Gas from the yeast: leave a window open."
        yield "Never bottle what can ferment again: bottles burst."
    yield "Making wine at home is bound by local rules: mind age and amount, and do not sell it."
