"""What a step's rule declares, and what it answers for one batch.

A step is one file beside this one. It makes a `Rule` named RULE; the registry finds it by
itself, and everything that shows steps shows it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Literal, NamedTuple

from winebench.model.log import Action
from winebench.plan.days import settled
from winebench.plan.outlook import Condition, Figure, NamedFigure, RecordField

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

Basis = Literal["done", "reading", "forecast", "clock", "none"]
SlipClass = Literal["fixed", "little", "later"]


class Span(NamedTuple):
    """A window in time, in order: earliest <= likely <= latest."""

    earliest: datetime
    likely: datetime
    latest: datetime


def span(
    earliest: datetime, likely: datetime | None = None, latest: datetime | None = None
) -> Span:
    """Return the window put in order; nothing is ever moved before `earliest`."""
    middle = max(earliest, likely or earliest)
    return Span(earliest, middle, max(middle, latest or middle))


def not_before(at: datetime, window: Span) -> Span:
    """Return the window with nothing of it before that time."""
    return Span(*(max(at, moment) for moment in window))


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What a rule answers: when, on what it leans, and what the step waits for."""

    window: Span | None = None
    """None: no honest date yet."""
    basis: Basis = "clock"
    reason: str
    """One sentence: why this date, or why none."""
    conditions: tuple[Condition, ...] = ()
    stops: tuple[Condition, ...] = ()
    """Conditions that no typed reason can override."""
    skipped: bool = False
    passed: bool = False
    """Skipped since its time is over, though the batch would have needed it."""
    done_at: datetime | None = None
    """Done by other evidence than a tick, such as a reading."""
    entry_ids: tuple[str, ...] = ()
    figures: tuple[NamedFigure, ...] = ()
    """What was worked out for the step, such as a dose, each with its workings."""
    reminder: str = ""
    """Replaces the rule's own sentence where a dose or a date belongs in it."""
    repeat_times: tuple[datetime, ...] = ()
    late_from: datetime | None = None
    """When it counts as late, where that is not the end of its window."""
    any_time: bool = False
    """Nothing asks for it, and nothing forbids it: it has no date, and may be ticked all the same.
    """
    goes_on: bool = False
    """Ticked in part: more of it is to come."""
    until: str = ""
    """It waits for something that nobody can date: what, behind "no date until"."""
    depends: str = ""
    """Where its dates hold only if the ferment goes on: the sentence that says so."""
    name: str = ""
    """Replaces the rule's own where what is done hangs on the fruit's form."""
    slips: tuple[str, ...] = ()
    """Replaces the rule's own, for the same reason."""

    @property
    def waits_for(self) -> tuple[Condition, ...]:
        """Return all conditions: first what only a change meets, then what nothing overrides."""
        every = self.stops + self.conditions
        return tuple(sorted(every, key=lambda condition: not condition.needs_change))

    @property
    def holding(self) -> tuple[Condition, ...]:
        """Return what holds the step: unmet, and not only to be noted with the tick itself."""
        return tuple(
            one for one in self.waits_for if not one.met and (one.needs_change or not one.notes)
        )

    @property
    def clear(self) -> bool:
        """Return whether nothing holds the step."""
        return not self.holding


def not_here(reason: str, *conditions: Condition) -> Plan:
    """Return the answer of a step that this batch does not need.

    Whoever does it all the same is asked for what it waits for, as in any other batch.
    """
    return Plan(skipped=True, basis="none", reason=reason, conditions=conditions)


def too_late(reason: str, *conditions: Condition) -> Plan:
    """Return the answer of a step that was not ticked while it could be done."""
    return Plan(skipped=True, passed=True, basis="none", reason=reason, conditions=conditions)


def bottled(ticks: Sequence[Action], reason: str) -> Plan:
    """Return the answer of a chore that ended with the bottles: done where it was ever ticked."""
    if not ticks:
        return too_late(reason)
    return Plan(reason=reason, done_at=settled(ticks[-1].at))


def undated(reason: str, *conditions: Condition) -> Plan:
    """Return the answer of a step that has no honest date yet."""
    return Plan(basis="none", reason=reason, conditions=conditions)


def waits(text: str, met: bool, *, step: str = "", needs_change: bool = False) -> Condition:
    """Return a condition in words and whether it is met.

    `step` is the key of a step whose tick alone meets it; `needs_change`: no waiting meets it.
    """
    return Condition(text=text, met=met, step=step, needs_change=needs_change and not met)


def noted(
    text: str,
    *records: str,
    met: bool = False,
    least: float | None = None,
    below: float | None = None,
    needs_change: bool = False,
) -> Condition:
    """Return a condition that a record of the tick itself decides, where it is written down.

    The record is any words, or a number within the bounds where there are some.
    """
    return Condition(
        text=text,
        met=met,
        notes=records,
        least=least,
        below=below,
        needs_change=needs_change and not met,
    )


def named(name: str, figure: Figure) -> NamedFigure:
    """Return a figure that the step is about."""
    return NamedFigure(name=name, figure=figure)


def field(name: str, label: str, unit: str = "", *, of: str = "") -> RecordField:
    """Return something to write down when the step is done; `of` is the key of what is weighed."""
    return RecordField(name=name, label=label, unit=unit, of=of)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A step of a batch as declared: what never changes from batch to batch."""

    number: int
    """Place in the order of steps; gaps are welcome."""
    key: str
    name: str
    trigger: str
    reminder: str
    risk: str
    """What happens where it is left out."""
    slip_class: SlipClass
    slip_days: int = 0
    """Days that a step of class "little" may be put off for a weekend."""
    slips: tuple[str, ...]
    """Like "1 day: fine", "3 days: air and browning"."""
    work_out: Callable[[Batch], Plan]
    record: tuple[RecordField, ...] = ()
    after: tuple[str, ...] = ()
    """Steps that come before it: until they are done it is expected, not due."""
    passed_by: tuple[str, ...] = ()
    """Steps that make it pointless once done."""
    repeats: bool = False
    opens_vessel: bool = False
    """Whether clean gear must stand ready for it."""
    unopened: str = ""
    """What a tick with a reason leaves held all the same: one sentence, said before the tick."""
    done_already: str = ""
    """Where ticking it anew asks for a reason once it is done: the sentence that says why."""
    goes_on_days: int = 0
    """So many days after a tick another one goes on with it, and needs no reason."""
    needs_ferment: bool = False
    """Whether it has no date while the ferment stands still: it follows one that has ended."""
