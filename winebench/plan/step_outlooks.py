"""A rule's answer as the person sees it: its state, its words, and whether it may be ticked."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Literal

import msgspec

from winebench.model.log import Action
from winebench.plan.batch import Batch
from winebench.plan.days import MONTHS, day_words, hour_words, moment_words, settled
from winebench.plan.fallen_since import fallen_since
from winebench.plan.outlook import RecordField, StepOutlook, StepState
from winebench.plan.records import noted_words
from winebench.plan.steps.rule import Plan, Rule, Span, waits
from winebench.plan.tick_bounds import bounded

HELD_FROM = timedelta(days=3)
"""So long before its window a step that waits for something is shown as held."""
ROUGH_AFTER_DAYS = 45
AT_ONCE = timedelta(minutes=30)
"""What ends or comes within so long is told without an hour."""


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
            name=f"Earlier: {done.name[0].lower()}{done.name[1:]}",
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
    depends = plan.depends if state in ("expected", "held") else ""
    return StepOutlook(
        key=rule.key,
        name=plan.name or rule.name,
        state=state,
        override=_override(rule, plan),
        unopened=rule.unopened if _override(rule, plan) == "reason" else "",
        earliest=window.earliest if window else None,
        likely=window.likely if window else None,
        latest=window.latest if window else None,
        passed=state == "skipped" and (plan.passed or not plan.skipped),
        entry_ids=ticks + plan.entry_ids,
        basis=plan.basis if window else "none",
        when=_when(batch, plan, state, window) + (", if it goes on" if depends else ""),
        reason=" ".join(filter(None, (_reason(batch, rule, plan, state), depends))),
        trigger=rule.trigger,
        conditions=plan.waits_for,
        reminder=plan.reminder or rule.reminder,
        if_slips=_if_slips(batch, plan.slips or rule.slips, window),
        risk=rule.risk,
        slip_class=rule.slip_class,
        record=_record(batch, rule),
        figures=plan.figures,
        repeats=rule.repeats,
        repeat_times=plan.repeat_times,
    )


def _done(batch: Batch, rule: Rule, plan: Plan) -> datetime | None:
    if rule.repeats or plan.goes_on:
        return plan.done_at
    action = batch.done(rule.key)
    return settled(action.at) if action else None


def _finished(
    batch: Batch, rule: Rule, action: Action | None, at: datetime, ticks: tuple[str, ...]
) -> StepOutlook:
    """Return a done step: its date is what was logged, whatever the rest of the plan says."""
    asks = bool(rule.done_already) and not _goes_on(batch, rule, at)
    return StepOutlook(
        key=rule.key,
        name=batch.name_of(rule.key),
        state="done",
        override="reason" if asks else "free",
        conditions=(waits(rule.done_already, False),) if asks else (),
        earliest=at,
        likely=at,
        latest=at,
        done_at=at,
        entry_ids=ticks,
        basis="done",
        when=f"done {hour_words(at, batch.now)}",
        reason=_done_words(batch, rule, action),
        trigger=rule.trigger,
        reminder=rule.reminder,
        risk=rule.risk,
        slip_class=rule.slip_class,
        record=_record(batch, rule),
        repeats=rule.repeats,
    )


def _goes_on(batch: Batch, rule: Rule, at: datetime) -> bool:
    """Return whether a further tick now goes on with that one, and nothing read since forbids it.

    The rest of a wine is bottled on another day at times.
    """
    soon = batch.now <= batch.clock.days_after(at, rule.goes_on_days)
    safe = all(condition.met for condition in batch.plan(rule.key).stops)
    return bool(rule.goes_on_days) and soon and safe and fallen_since(batch.project, at) is None


def _record(batch: Batch, rule: Rule) -> tuple[RecordField, ...]:
    """Return what is to be written down; a dose in mg/L knows what it goes into."""
    whole = batch.recipe.must.liquid if "pitch" in rule.passed_by else batch.recipe.bottles.finished
    fields = tuple(
        msgspec.structs.replace(field, litres=whole.value)
        if field.of and field.unit == "mg/L"
        else field
        for field in rule.record
    )
    return bounded(batch, rule.key, fields)


def _done_words(batch: Batch, rule: Rule, action: Action | None) -> str:
    if action is None:
        return "Done."
    words = list(noted_words(action, _record(batch, rule), batch.project))
    if action.override:
        words.append(f"done although it was held: {action.override}")
    if action.note:
        words.append(action.note)
    said = "; ".join(words)
    return f"{said[0].upper()}{said[1:].removesuffix('.')}." if said else "Ticked."


def state_of(batch: Batch, rule: Rule) -> StepState:
    """Return how a step stands now."""
    plan = batch.plan(rule.key)
    if _done(batch, rule, plan) is not None:
        return "done"
    if plan.skipped or batch.passed(rule.key):
        return "skipped"
    if plan.window is None:
        return "held" if plan.until else "later"
    early, likely, late = plan.window
    late = plan.late_from or late
    if _late_though_held(batch, rule, plan, late):
        return "missed"
    if _held_by_itself(batch, plan, early):
        return "held"
    if not all(batch.over(key) for key in rule.after):
        return "expected"
    if not plan.clear:
        return "held" if batch.now >= early - HELD_FROM else "expected"
    if batch.now > late and not _later_is_safe(rule, plan):
        return "missed"
    # It may be ticked from the earliest time on; it should be done on the likely day.
    ripe = batch.now >= early and likely.date() <= batch.now.date()
    return "due" if ripe else "expected"


def _late_though_held(batch: Batch, rule: Rule, plan: Plan, late: datetime) -> bool:
    """Return whether its time is over while something that a reason overrides still holds it."""
    if batch.now <= late or rule.slip_class == "later" or _later_is_safe(rule, plan):
        return False
    never = any(not condition.met for condition in plan.stops)
    return not never and all(batch.over(key) for key in rule.after)


def _later_is_safe(rule: Rule, plan: Plan) -> bool:
    """Return whether no day is too late for the step."""
    return (plan.slips or rule.slips)[0].startswith("Later")


def _held_by_itself(batch: Batch, plan: Plan, early: datetime) -> bool:
    """Return whether a gate of its own holds it, whatever comes before it: one that no waiting
    opens, or one that is shut though its time has come."""
    unmet = plan.holding
    if any(condition.needs_change for condition in unmet):
        return True
    return batch.now >= early and any(not condition.step for condition in unmet)


def _override(rule: Rule, plan: Plan) -> Literal["free", "reason", "never"]:
    if any(not condition.met for condition in plan.stops):
        return "never"
    dated = plan.window is not None or plan.skipped or plan.any_time or rule.repeats
    met = all(condition.met for condition in plan.waits_for)
    return "free" if met and dated else "reason"


def _reason(batch: Batch, rule: Rule, plan: Plan, state: StepState) -> str:
    later = batch.passed_by(rule.key)
    if state == "skipped" and not plan.skipped and later is not None:
        return f"Not ticked; passed by when this was done: {batch.name_of(later).lower()}."
    return plan.reason


def _when(batch: Batch, plan: Plan, state: StepState, window: Span | None) -> str:
    if state == "skipped":
        return "not needed" if plan.skipped and not plan.passed else "not ticked; passed"
    if window is None and plan.any_time:
        return "only if you want it"
    if window is None:
        return f"no date until {plan.until}" if plan.until else "no date yet"
    now = batch.now
    if state == "missed":
        return f"was due by {hour_words(window.latest, now)}"
    if state == "due" and window.latest < now + AT_ONCE:
        return "now"
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
    if likely < now + AT_ONCE:
        return "likely today"
    return f"likely {moment_words(likely, now)}"


def _if_slips(batch: Batch, slips: tuple[str, ...], window: Span | None) -> tuple[str, ...]:
    if window is None or slips[0].startswith("Later"):
        return slips if window else ()
    return (*slips, f"last safe day: {day_words(window.latest, batch.now)}")
