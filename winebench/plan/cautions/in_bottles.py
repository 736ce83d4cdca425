"""Bottles in danger: filled with what can ferment again, or fermenting by what was read since."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from winebench.model.edits import changed
from winebench.plan.batch import Batch
from winebench.plan.days import Clock, settled, short_date
from winebench.plan.fallen_since import BOTTLE, fallen_since
from winebench.plan.outlook import Caution
from winebench.plan.steps.bottle import stops
from winebench.plan.sugar_left import fermented_words, pressure_words

KEY = "bottles-in-danger"
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
    at = batch.clock.local(tick.at)
    fall = fallen_since(batch.project, at)
    if fall is not None:
        yield _stop(
            f"The wine ferments in its bottles: {fall.was:.3f} when it was bottled, "
            f"{fall.to:.3f} on {short_date(batch.clock.local(fall.read_at))}.",
            fermented_words(fall.was - fall.to),
        )
        return
    filled = as_it_was_filled(batch, at)
    unmet = [condition.text for condition in stops(filled) if not condition.met]
    if not unmet:
        return
    day, pressure = short_date(at), pressure_words(filled, bottled=True)
    if pressure:
        yield _stop(f"The bottles filled on {day}{_at_gravity(filled)} may burst.", pressure)
        return
    missing = [c.text for c in filled.stability.conditions if not c.met] or unmet
    yield Caution(
        key=KEY,
        severity="caution",
        about=BOTTLE,
        sentence=f"By the log it was not shown to be safe in bottles when it was bottled on {day}. "
        f"Missing: {'; '.join(missing)}.",
        detail=WATCH_THEM,
    )


def as_it_was_filled(batch: Batch, at: datetime) -> Batch:
    """Return the batch at its bottling: by the log up to then as it stands now, without that."""
    log = tuple(
        entry
        for entry in batch.project.log
        if settled(entry.at) <= at and getattr(entry, "step", "") != BOTTLE
    )
    project = changed(batch.project, log=log)
    return Batch(project, Clock(at), batch.recipe, batch.rules, lambda *_: None)


def _at_gravity(filled: Batch) -> str:
    return "" if filled.last_sg is None else f" at {filled.last_sg:.3f}"


def _stop(sentence: str, why: str) -> Caution:
    return Caution(
        key=KEY, severity="stop", about=BOTTLE, sentence=sentence, detail=f"{why} {OPEN_THEM}"
    )
