"""Days away against the steps that cannot wait."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, timedelta

from msgspec.structs import replace

from winebench.model.edits import Change
from winebench.model.log import Away
from winebench.plan.batch import Batch
from winebench.plan.days import short_date
from winebench.plan.outlook import Caution, Condition, Repair, StepOutlook

OPEN_STATES = ("due", "held", "expected", "missed")
_KEY, _GATED = "away-", "pitch"
TENDED_DAYS = 10
"""Days from the start on which somebody is needed: to the pitch, then stirring to day eight."""


def away_cautions(batch: Batch, steps: tuple[StepOutlook, ...]) -> Iterator[Caution]:
    """Give one caution for each absence that swallows steps which cannot wait for its end."""
    for away in batch.project.away:
        if away.last < batch.now.date():
            continue
        missed = [step for step in steps if on_days_away(step, away)]
        if missed:
            yield _caution(batch, away, missed)


def held_while_away(
    steps: tuple[StepOutlook, ...], cautions: tuple[Caution, ...]
) -> tuple[StepOutlook, ...]:
    """Return the steps, the yeast held where nobody is home for what cannot wait after it."""
    away = [one for one in cautions if one.gates == _GATED and one.key.startswith(_KEY)]
    if not away:
        return steps
    wants = tuple(
        Condition(
            text=f"somebody to see to it: {one.sentence.removesuffix('.')}",
            met=False,
            needs_change=True,
        )
        for one in away
    )
    return tuple(_held(step, wants) if step.key == _GATED else step for step in steps)


def _held(step: StepOutlook, wants: tuple[Condition, ...]) -> StepOutlook:
    if step.state not in OPEN_STATES:
        return step
    return replace(
        step,
        state="missed" if step.state == "missed" else "held",
        override="never" if step.override == "never" else "reason",
        conditions=(*step.conditions, *wants),
    )


def on_days_away(step: StepOutlook, away: Away) -> tuple[date, ...]:
    """Return the days of that absence on which the step falls and cannot wait for its end."""
    if step.state not in OPEN_STATES or step.slip_class == "later" or step.latest is None:
        return ()
    if step.repeats:
        times = step.repeat_times if step.key == "stir" else ()
        return tuple(at.date() for at in times if _inside(at, away))
    likely = step.likely
    if likely is None or not _inside(likely, away) or step.latest.date() > away.last:
        return ()
    return (likely.date(),)


def _inside(at: datetime, away: Away) -> bool:
    return away.first <= at.date() <= away.last


def _caution(batch: Batch, away: Away, missed: list[StepOutlook]) -> Caution:
    names = "; ".join(step.name.lower() for step in missed)
    started = bool(batch.actions.keys() & {"sugar-water", "sulfite-must", "pitch"})
    first = datetime.combine(away.first, datetime.min.time())
    days = f"from {short_date(first)} for {(away.last - away.first).days + 1} days"
    return Caution(
        key=f"{_KEY}{away.first.isoformat()}",
        # Before the yeast is in nothing has begun that could not wait; after it help is all.
        severity="hold" if batch.pitched is None else "caution",
        gates=_GATED if batch.pitched is None else "",
        about=missed[0].key,
        sentence=f"Nobody is home {days}, and this cannot wait: {names}.",
        detail="Ask someone to come in (stir, smell, lid on), lift the fruit early, or stand it "
        "cooler: that slows it, it does not stop it."
        if started
        else "Start on another day, or keep the fruit in the freezer until you are back.",
        repairs=() if started else tuple(_other_start(batch)),
    )


def _other_start(batch: Batch) -> Iterator[Repair]:
    """Give the next start whose first ten days nobody is away."""
    start = batch.start
    for _ in range(60):
        last = start.date() + timedelta(days=TENDED_DAYS)
        clash = _clash(batch, start.date(), last)
        if clash is None:
            label = f"Start on {short_date(start)}"
            yield Repair(label=label, edit=Change(label="move the start", fields={"start": start}))
            return
        start = batch.clock.days_after(start, (clash.last - start.date()).days + 1)


def _clash(batch: Batch, first: date, last: date) -> Away | None:
    return next((a for a in batch.project.away if a.first <= last and a.last >= first), None)
