"""The whole outlook of a project at one moment: the way from what is known to what is shown."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

import msgspec

from winebench.model.log import Entry
from winebench.model.project import Project
from winebench.plan.as_read import as_read_caution
from winebench.plan.batch import Batch
from winebench.plan.cautions.given import given_cautions
from winebench.plan.cautions.in_bottles import bottle_cautions
from winebench.plan.cautions.style import style_cautions
from winebench.plan.days import Clock, short_date
from winebench.plan.gravity_forecast import Forecaster, forecaster
from winebench.plan.gravity_shown import forecast_outlook
from winebench.plan.household.away import away_cautions, held_while_away
from winebench.plan.label import label_lines
from winebench.plan.measured import measured_cautions
from winebench.plan.moves import (
    before_newest,
    correction,
    moved_by_correction,
    moved_steps,
    moved_together,
    together,
)
from winebench.plan.outlook import Caution, Outlook, StepOutlook
from winebench.plan.recipe_side import recipe_outlook
from winebench.plan.shopping.items import cost_of, on_day, still_needed, with_the_past_bought
from winebench.plan.shopping.later import later_doses
from winebench.plan.shopping.pantry_typed import counted
from winebench.plan.spoken_outlook import in_words_of
from winebench.plan.standing import standing_cautions, standing_lines
from winebench.plan.step_outlooks import step_outlooks
from winebench.plan.steps import rules
from winebench.plan.steps.fruit_accepted import identity_cautions
from winebench.plan.steps.noting import noted_with
from winebench.plan.strength_now import strength_now
from winebench.plan.stuck.seen import stuck_outlook
from winebench.plan.today import today
from winebench.plan.vessels import bottles_now, vessels_now
from winebench.units.readings import HIGHEST_SG

__all__ = ["outlook", "recipe_outlook"]
_LEAVING = ("transfer", "bottle")
"""Steps after which the wine is somewhere else."""
_SEVERITIES = ("stop", "hold", "caution", "note")


def outlook(
    project: Project,
    now: datetime,
    forecaster: Forecaster = forecaster,
    log_before: tuple[Entry, ...] | None = None,
) -> Outlook:
    """Return all that is worked out of the project at `now`.

    `forecaster` may answer None while a forecast is still being worked out; dates that lean
    on it then come from the usual course. `log_before` is the log as it was before the last edit
    of it, where that is known: it tells what a corrected or deleted entry moved, or
    several that were logged at once.

    Raises:
        ValueError: `now` has no offset.

    """
    project = counted(project)
    clock = Clock(now)
    recipe = recipe_outlook(project)
    batch = Batch(project, clock, recipe, rules(), forecaster)
    steps = step_outlooks(batch)
    steps = _with_moves(batch, steps, forecaster, log_before)
    doses = later_doses(batch, steps)
    pitched, bottled = batch.pitched is not None, "bottle" in batch.actions
    shopping = on_day(recipe.shopping, clock.now.date())
    listed = with_the_past_bought(shopping, pitched=pitched, bottled=bottled)
    cost = cost_of((*listed, *doses), recipe.bottles.bottles, project.money)
    standing = standing_cautions(batch)
    cautions = tuple(_cautions(batch, standing, steps))
    steps = held_while_away(steps, cautions)
    end = batch.sweet_end
    found = Outlook(
        at=clock.now,
        name=project.name.strip() or "Fruit wine",
        style=recipe.style,
        make_text=recipe.make_text,
        basis_text=recipe.basis_text,
        scale_factor=recipe.scale_factor,
        must=batch.must if end is None else msgspec.structs.replace(batch.must, stops_at=end.at),
        lines=standing_lines(batch, standing),
        cautions=cautions,
        vessels=vessels_now(recipe.vessels, *(_done_at(project, step) for step in _LEAVING)),
        bottles=msgspec.structs.replace(bottles_now(recipe.bottles, project), cost=cost),
        shopping=still_needed(shopping, pitched=pitched, bottled=bottled),
        later=doses,
        readings=tuple(seen.outlook for seen in batch.readings),
        forecast=forecast_outlook(batch),
        steps=steps,
        today=today(steps, cautions, clock.now),
        strength_now=strength_now(batch),
        safety=tuple(_safety(batch)),
        stuck=stuck_outlook(batch),
    )
    found = msgspec.structs.replace(found, label=label_lines(project, found))
    return in_words_of(found, project)


def _with_moves(
    batch: Batch,
    steps: tuple[StepOutlook, ...],
    forecaster: Forecaster,
    log_before: tuple[Entry, ...] | None,
) -> tuple[StepOutlook, ...]:
    project = batch.project
    corrected = None if log_before is None else correction(project, log_before)
    if corrected is not None:
        former = Batch(corrected.before, batch.clock, batch.recipe, rules(), forecaster)
        return moved_by_correction(steps, former, batch, corrected)
    at_once = None if log_before is None else together(project, log_before)
    if at_once is not None:
        former = Batch(at_once.before, batch.clock, batch.recipe, rules(), forecaster)
        return moved_together(steps, former, batch, at_once)
    newest = before_newest(project)
    if newest is None:
        return steps
    former = Batch(newest[0], batch.clock, batch.recipe, rules(), forecaster)
    return moved_steps(steps, former, batch, newest[1])


def _cautions(
    batch: Batch, standing: tuple[Caution, ...], steps: tuple[StepOutlook, ...]
) -> list[Caution]:
    found = [*standing, *measured_cautions(batch.project), *away_cautions(batch, steps)]
    found += identity_cautions(batch)
    found += as_read_caution(
        batch.recipe.must, batch.must_reading, pitched=batch.pitched is not None
    )
    found += bottle_cautions(batch)
    found += _doubts(batch)
    found += _doubted_feeds(batch)
    found += (*style_cautions(batch.project), *given_cautions(batch.project, batch.recipe))
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


def _doubted_feeds(batch: Batch) -> Iterator[Caution]:
    for tick in batch.doubtful_feeds:
        amount = noted_with(tick, "grams") or "The portion"
        yield Caution(
            key="doubtful-feed",
            severity="caution",
            about=f"log:{tick.id}",
            sentence=f"{amount} of sugar on {short_date(batch.clock.local(tick.at))} would bring "
            f"the must above {HIGHEST_SG:.3f}, which no hydrometer here reads: is a digit or a "
            "unit wrong? It does not count until it is corrected.",
        )


def _done_at(project: Project, step: str) -> datetime | None:
    done = project.done(step)
    return done.at if done else None


def _safety(batch: Batch) -> Iterator[str]:
    yield "Sulfite: keep away from people with asthma; window open."
    if "bottle" not in batch.actions:
        yield "Gas from the yeast: leave a window open."
        yield "Never bottle what can ferment again: bottles burst."
    else:
        yield (
            "Bottles: cool, behind a door. One that hisses or lifts its cork ferments again: "
            "chill them all, open them wrapped in cloth, eyes covered."
        )
    yield "Making wine at home is bound by local rules: mind age and amount, and do not sell it."
