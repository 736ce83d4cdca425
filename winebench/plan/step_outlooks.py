"""A rule's answer as the person sees it: its state, its words, and whether it may be ticked."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Literal

import msgspec

from winebench.model.log import Action
from winebench.plan.batch import Batch
from winebench.plan.days import MONTHS, day_words, hour_words, moment_words, settled
from winebench.plan.outlook import StepOutlook, StepState
from winebench.plan.steps.rule import Plan, Rule, Span

HELD_FROM = timedelta(days=3)
"""So long before its window a step that waits for something is shown as held."""
ROUGH_AFTER_DAYS = 45
_IF_IT_GOES_ON = " Only if the ferment goes on, which it may not: read it again."


def step_outlooks(batch: Batch) -> tuple[StepOutlook, ...]:
    """Return every step in order, as it stands now."""
    return tuple(one for rule in batch.rules.values() for one in _with_history(batch, rule))


def _with_history(batch: Batch, rule: Rule) -> Iterator[StepOutlook]:
    """Give what was done of the step in earlier standstills, then the step as it stands now."""
    ticks = batch.earlier.get(rule.key, [])
    rounds = [ticks[-1:]] if rule.repeats else [[tick] for tick in ticks]
    for number, ended in enumerate(rounds if ticks else (), 1):
        ids = tuple(tick.id for tick in (ticks if rule.repeats else ended))
        done = _finished(batch, rule, ended[-1], settled(ended[-1].at), ids)
        yield msgspec.structs.replace(
            done,
            key=f"{rule.key}:{number}",
            name=f"Earlier: {rule.name[0].lower()}{rule.name[1:]}",
            repeats=False,
        )
    yield step_outlook(batch, rule)


def step_outlook(batch: Batch, rule: Rule) -> StepOutlook:
    """Return one step as it stands now."""
    plan = batch.plan(rule.key)
    ticks = tuple(action.id for action in batch.actions.get(rule.key, ()))
    done = _done(batch, rule, plan)
    if done is not None:
        return _finished(batch, rule, batch.done(rule.key), done, ticks)
    state = state_of(batch, rule)
    window = plan.window if state != "skipped" else None
    doubtful = plan.if_it_goes_on and state in ("expected", "held")
    return StepOutlook(
        key=rule.key,
        name=rule.name,
        state=state,
        override=_override(rule, plan),
        earliest=window.earliest if window else None,
        likely=window.likely if window else None,
        latest=window.latest if window else None,
        entry_ids=ticks + plan.entry_ids,
        basis=plan.basis if window else "none",
        when=_when(batch, plan, state, window) + (", if it goes on" if doubtful else ""),
        reason=_reason(batch, rule, plan, state) + (_IF_IT_GOES_ON if doubtful else ""),
        trigger=rule.trigger,
        conditions=plan.waits_for,
        reminder=plan.reminder or rule.reminder,
        if_slips=_if_slips(batch, rule, window),
        risk=rule.risk,
        slip_class=rule.slip_class,
        record=rule.record,
        figures=plan.figures,
        repeats=rule.repeats,
        repeat_times=plan.repeat_times,
    )


def _done(batch: Batch, rule: Rule, plan: Plan) -> datetime | None:
    if rule.repeats:
        return plan.done_at
    action = batch.done(rule.key)
    return settled(action.at) if action else None


def _finished(
    batch: Batch, rule: Rule, action: Action | None, at: datetime, ticks: tuple[str, ...]
) -> StepOutlook:
    """Return a done step: its date is what was logged, whatever the rest of the plan says."""
    return StepOutlook(
        key=rule.key,
        name=rule.name,
        state="done",
        override="free",
        earliest=at,
        likely=at,
        latest=at,
        done_at=at,
        entry_ids=ticks,
        basis="done",
        when=f"done {hour_words(at, batch.now)}",
        reason=_done_words(action),
        trigger=rule.trigger,
        reminder=rule.reminder,
        risk=rule.risk,
        slip_class=rule.slip_class,
        record=rule.record,
        repeats=rule.repeats,
    )


def _done_words(action: Action | None) -> str:
    if action is None:
        return "Done."
    words = [f"{record.name} {record.value}" for record in action.records]
    if action.override:
        words.append(f"done although it was held: {action.override}")
    if action.note:
        words.append(action.note)
    return f"Noted: {'; '.join(words)}." if words else "Ticked."


def state_of(batch: Batch, rule: Rule) -> StepState:
    """Return how a step stands now."""
    plan = batch.plan(rule.key)
    if _done(batch, rule, plan) is not None:
        return "done"
    if plan.skipped or batch.passed(rule.key):
        return "skipped"
    if plan.window is None:
        return "held" if plan.held else "later"
    if not all(batch.over(key) for key in rule.after):
        return "expected"
    early, likely, late = plan.window
    if not plan.clear:
        return "held" if batch.now >= early - HELD_FROM else "expected"
    if batch.now > late:
        return "missed"
    # It may be ticked from the earliest time on; it should be done on the likely day.
    ripe = batch.now >= early and likely.date() <= batch.now.date()
    return "due" if ripe else "expected"


def _override(rule: Rule, plan: Plan) -> Literal["free", "reason", "never"]:
    if any(not condition.met for condition in plan.stops):
        return "never"
    dated = plan.window is not None or plan.skipped or rule.repeats
    return "free" if plan.clear and dated else "reason"


def _reason(batch: Batch, rule: Rule, plan: Plan, state: StepState) -> str:
    later = batch.passed_by(rule.key)
    if state == "skipped" and not plan.skipped and later is not None:
        return f"Not ticked; passed by when this was done: {batch.rules[later].name.lower()}."
    return plan.reason


def _when(batch: Batch, plan: Plan, state: StepState, window: Span | None) -> str:
    if state == "skipped":
        return "not needed" if plan.skipped else "not ticked"
    if window is None:
        return "no date until the ferment goes on" if plan.held else "no date yet"
    now = batch.now
    if state == "missed":
        return f"was due by {hour_words(window.latest, now)}"
    if state == "due":
        return f"now, and by {moment_words(window.latest, now)}"
    # What was likely by now is still to come, and nobody does it in the night.
    likely = batch.clock.waking(now) if window.likely < now else window.likely
    return _coming(likely, window, now)


def _coming(likely: datetime, window: Span, now: datetime) -> str:
    if likely - now > timedelta(days=ROUGH_AFTER_DAYS):
        if window.latest - window.earliest > timedelta(days=30):
            third = ("early", "mid-", "late")[min((likely.day - 1) // 10, 2)]
            month = MONTHS[likely.month - 1]
            year = f" {likely.year}" if likely.year != now.year else ""
            return f"about {third}{'' if third.endswith('-') else ' '}{month}{year}"
        return f"about {day_words(likely, now)}"
    if window.earliest == window.likely and window.earliest >= now:
        return f"from {hour_words(likely, now)}"
    return f"likely {moment_words(likely, now)}"


def _if_slips(batch: Batch, rule: Rule, window: Span | None) -> tuple[str, ...]:
    if window is None or rule.slips[0].startswith("Later"):
        return rule.slips if window else ()
    return (*rule.slips, f"last safe day: {day_words(window.latest, batch.now)}")
