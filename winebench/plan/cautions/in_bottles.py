"""Bottles in danger: filled with what can ferment again, or fermenting by what was read since."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from winebench.model.edits import changed
from winebench.plan.batch import Batch
from winebench.plan.days import Clock, settled, short_date
from winebench.plan.fallen_since import BOTTLE, Fall, fallen_since
from winebench.plan.outlook import Caution
from winebench.plan.steps.bottle import stops
from winebench.plan.steps.sweeten import KEY as SWEETEN
from winebench.plan.stuck.standstill import EYE, POINT
from winebench.plan.sugar_left import fermented_words, pressure_words
from winebench.units import Gravity, Temperature

KEY = "bottles-in-danger"
SURELY_FELL = 2 * POINT - 2 * EYE
"""A fall of two points: two readings, each off by what an eye can err, do not make it (common
practice)."""
WARM_ROOM, DRY = Temperature("20 °C"), Gravity("0.990")
OPEN_THEM = (
    "Chill them all, open them wrapped in cloth, eyes covered, and put the wine back under an "
    "airlock; then take the bottling out of the log."
)
WATCH_THEM = (
    "Keep them cool, behind a door, and open one now: where it hisses or lifts its cork, chill "
    "them all and open them wrapped in cloth, eyes covered."
)


def bottle_cautions(batch: Batch) -> Iterator[Caution]:
    """Give what is said of bottles that may burst, by all that the log knows now.

    No bottling of such a wine is accepted; but a reading can be corrected or come later, and a
    project changed elsewhere.
    """
    tick = batch.done(BOTTLE)
    if tick is None:
        return
    first, at = (batch.clock.local(one.at) for one in (batch.actions[BOTTLE][0], tick))
    fall = fallen_since(batch.project, first, by=SURELY_FELL)
    if fall is not None:
        yield _stop(
            f"The wine ferments in its bottles: {fall.was:.3f} when it was bottled, "
            f"{fall.to:.3f} on {short_date(batch.clock.local(fall.read_at))}.",
            fermented_words(fall.was - fall.to),
        )
        return
    filled = as_it_was_filled(batch, at)
    unmet = [condition.text for condition in stops(filled) if not condition.met]
    day, pressure = short_date(at), pressure_words(filled, bottled=True) if unmet else ""
    if pressure:
        yield _stop(f"The bottles filled on {day}{_at_gravity(filled)} may burst.", pressure)
    elif (little := _still_lower(batch, first)) is not None:
        yield _caution(
            f"The wine reads {(little.was - little.to) / POINT:.1f} points lower since it was "
            f"bottled ({little.was:.3f}), on {short_date(batch.clock.local(little.read_at))}.",
            "It may be the reading, or a ferment. Read it again, warm and without gas. ",
        )
    elif unmet:
        missing = [c.text for c in filled.stability.conditions if not c.met] or unmet
        yield _caution(
            f"By the log it was not shown to be safe in bottles when it was bottled on {day}. "
            f"Missing: {'; '.join(missing)}."
        )


def _still_lower(batch: Batch, at: datetime) -> Fall | None:
    """Return a fall of more than a point that the newest reading does not take back."""
    fall, last = fallen_since(batch.project, at), batch.last_sg
    lower = fall is not None and last is not None and last < fall.was - POINT - EYE
    return fall if lower else None


def as_it_was_filled(batch: Batch, at: datetime) -> Batch:
    """Return the batch at its bottling: by the log up to then as it stands now, without that.

    In a warm room: a bottling is only accepted of what was shown to be stable in its room, and the
    room that is set now may be the cellar that the bottles lie in. What nobody sweetened was meant
    to be dry, whatever style is written since.
    """
    log = tuple(
        entry
        for entry in batch.project.log
        if settled(entry.at) <= at and getattr(entry, "step", "") != BOTTLE
    )
    room = max(batch.project.room, WARM_ROOM, key=lambda one: one.celsius)
    project = changed(batch.project, log=log, room=room)
    if project.done(SWEETEN) is None:
        targets = changed(project.recipe.targets, final_gravity=DRY)
        project = changed(project, recipe=changed(project.recipe, targets=targets))
    return Batch(project, Clock(at), batch.recipe, batch.rules, lambda *_: None)


def _at_gravity(filled: Batch) -> str:
    return "" if filled.last_sg is None else f" at {filled.last_sg:.3f}"


def _caution(sentence: str, why: str = "") -> Caution:
    return Caution(
        key=KEY, severity="caution", about=BOTTLE, sentence=sentence, detail=f"{why}{WATCH_THEM}"
    )


def _stop(sentence: str, why: str) -> Caution:
    return Caution(
        key=KEY, severity="stop", about=BOTTLE, sentence=sentence, detail=f"{why} {OPEN_THEM}"
    )
