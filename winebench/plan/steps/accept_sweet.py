"""Or leave it: a wine that its yeast cannot finish stays sweet, and is stabilised late."""

from datetime import datetime

from winebench.plan.as_read import end_words
from winebench.plan.batch import Batch
from winebench.plan.days import settled
from winebench.plan.outlook import Condition
from winebench.plan.stability import Stability
from winebench.plan.steps.rule import Plan, Rule, field, not_here, span, undated, waits
from winebench.plan.strength_now import strength_now
from winebench.plan.stuck.keys import ACCEPTED, PITCH_BACK
from winebench.plan.stuck.restarting import MOVES, at_its_limit
from winebench.plan.stuck.standstill import TRIED_DAYS, Stuck, accepted, stuck
from winebench.plan.sugar_by_fall import LEAST_SUGAR_G_PER_L
from winebench.plan.sugar_left import sugar_left

UNMOVED_DAYS, LATEST_DAYS = 28, 84
"""Common practice: four weeks of one gravity."""


def _work_out(batch: Batch) -> Plan:
    found = stuck(batch)
    if found is None:
        return _above_its_end(batch, batch.stability)
    count, tired = batch.clock.days_after, at_its_limit(batch)
    early = count(found.since, UNMOVED_DAYS)
    if not tired:
        tried = _tried(batch, found)
        if tried is None:
            return undated("First try to set it going.", *_conditions(batch, found))
        early = max(early, tried)
    return Plan(
        window=span(early, batch.clock.waking(early), count(early, LATEST_DAYS)),
        basis="reading",
        reason=_reason(batch, tired=tired),
        conditions=_conditions(batch, found),
    )


def _above_its_end(batch: Batch, found: Stability) -> Plan:
    """Return the answer for a wine that is not stuck, yet stands still above where it should end.

    So near its end no starter is made for it: it is tested for sugar, or left as sweet as it is.
    """
    over = {"declare-stable", "sweeten"} & batch.actions.keys()
    if not found.above_end or over or accepted(batch) is not None:
        return not_here(MOVES)
    since, count = found.run[0].at, batch.clock.days_after
    days, early = (found.run[-1].at - since).days, count(since, UNMOVED_DAYS)
    return Plan(
        window=span(early, batch.clock.waking(early), count(early, LATEST_DAYS)),
        basis="reading",
        reason=f"It stands at {found.run[-1].sg:.3f} and should end at "
        f"{end_words(batch.must.dry_gravity)}. {_stays(batch)}, unless a test shows "
        f"{LEAST_SUGAR_G_PER_L:.0f} g/L or less: then declare it dry and stable with that.",
        conditions=(waits(f"{UNMOVED_DAYS} days unmoved ({days} so far)", days >= UNMOVED_DAYS),),
        reminder=f"Where a test shows more than {LEAST_SUGAR_G_PER_L:.0f} g/L of sugar: leave it "
        "as it is, and stabilise it with sulfite and sorbate together.",
        name="Leave it as sweet as it is",
    )


def _stays(batch: Batch) -> str:
    left = sugar_left(batch)
    if left is None:
        return "Its sugar stays"
    return f"{left.words[0].upper()}{left.words[1:]} of sugar would stay"


def _tried(batch: Batch, found: Stuck) -> datetime | None:
    """Return when the first restart of this standstill has had its week, or will have had it."""
    backs = [settled(tick.at) for tick in batch.ticks.get(PITCH_BACK, ())]
    back = next((at for at in backs if at > found.since), None)
    if back is not None:
        return batch.clock.days_after(back, TRIED_DAYS)
    tried = batch.days_after(PITCH_BACK, TRIED_DAYS, TRIED_DAYS, TRIED_DAYS)
    return tried.earliest if tried else None


def _conditions(batch: Batch, found: Stuck) -> tuple[Condition, ...]:
    over = _tried(batch, found)
    tried = over is not None and batch.now >= over
    return (
        waits(f"{UNMOVED_DAYS} days unmoved ({found.days} so far)", found.days >= UNMOVED_DAYS),
        waits(
            "the yeast at its limit, or a starter pitched back a week ago",
            at_its_limit(batch) or tried,
        ),
    )


def _reason(batch: Batch, *, tired: bool) -> str:
    made = strength_now(batch)
    strong = f", at {made.text} % vol" if made.value is not None else ""
    why = "the yeast is at its limit" if tired else "if the restart does not take either"
    return f"{_stays(batch)}{strong}: {why}."


RULE = Rule(
    number=206,
    key=ACCEPTED,
    name="Or leave it sweet and strong",
    trigger="four weeks unmoved, and no yeast that goes on",
    reminder="Leave it sweet, let it clear, and stabilise late with sulfite and sorbate together: "
    "sorbate keeps yeast from growing, it kills none.",
    risk="Bottled with live yeast, this much sugar bursts bottles.",
    slip_class="later",
    slips=("Later is always safe",),
    work_out=_work_out,
    record=(field("gravity", "Gravity", "SG"), field("taste", "How it tastes")),
    after=("pitch",),
    passed_by=("stabilise", "bottle"),
)
