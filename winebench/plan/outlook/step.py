"""The steps of a batch, what is due today, and a ferment that stands still."""

from __future__ import annotations

from datetime import datetime
from typing import Literal

from winebench.plan.outlook.figure import NamedFigure, Shape

StepState = Literal["done", "due", "held", "expected", "missed", "skipped", "later"]
"""due: may be done now and should be; held: a gate blocks it; expected: dated by the plan;
missed: its latest time has passed; skipped: not needed here, or passed by (`passed` says which);
later: no honest date yet."""


class Condition(Shape, frozen=True, kw_only=True):
    """One thing that a step waits for."""

    text: str
    """What it is, so that it reads well behind "waits for": "the fruit lifted". A caution of the
    recipe is a sentence instead, with its full stop."""
    met: bool
    step: str = ""
    """Key of the step whose tick meets it, where that is all that it waits for."""
    needs_change: bool = False
    """Unmet, it does not come about by waiting or going on: something has to be changed first."""
    notes: tuple[str, ...] = ()
    """Names of the records of which any, written down with the tick itself, decides it."""
    least: float | None = None
    """That record is a number, and at least so much."""
    below: float | None = None
    """That record is a number, and less than so much."""
    by_no: bool = False
    """That record is a plain no."""

    @property
    def waiting(self) -> str:
        """Return it behind a step's name: "waits for the fruit lifted", or the caution's words."""
        if self.is_sentence:
            return self.text.removesuffix(".")
        return f"waits for {self.text}"

    @property
    def is_sentence(self) -> bool:
        """Return whether it says by itself what is wrong, as a caution of the recipe does."""
        return self.text.endswith(".")


class Moved(Shape, frozen=True, kw_only=True):
    """What the newest entry in the log, or a correction, did to a step's date.

    `was` may have passed already.
    """

    was: datetime
    now: datetime
    because: str
    sentence: str
    """Like "was Thursday without it · now Friday · because the last reading came in high"."""


class Bound(Shape, frozen=True, kw_only=True):
    """What a record of a tick may come to, in the unit of its field, and what is said beyond it."""

    text: str
    least: float | None = None
    most: float | None = None
    never: bool = False
    """No typed reason opens it."""
    sums: str = ""
    """Where it is a sum: what goes before it and behind it, with "{}" in its place, such as "with
    the 50 mg/L given on 2 October, this makes {} mg/L added"."""
    before: float = 0.0
    """What the sum has already."""
    per: float = 1.0
    """What each of the field's unit adds to the sum."""
    usual: float | None = None
    """The usual most, in the field's unit, for what may be a slip of the decimal point."""

    def passed_by(self, value: float) -> bool:
        """Return whether that value lies beyond it."""
        low = self.least is not None and value < self.least
        return low or (self.most is not None and value > self.most)

    def said_of(self, value: float) -> str:
        """Return what is said of that value beyond it."""
        if self.sums:
            total = f"{self.before + self.per * value:.0f}"
            return f"{self.text.removesuffix('.')}: {self.sums.replace('{}', total)}"
        if self.usual is None:
            return self.text
        meant = value
        while meant > self.usual:
            meant /= 10.0
        return f"{self.text}; did you mean {meant:.3g}?"


class RecordField(Shape, frozen=True, kw_only=True):
    """One thing to write down when the step is done."""

    name: str
    label: str
    unit: str = ""
    of: str = ""
    """Catalog key of what is weighed, so that its spoons and tablets are told in the unit."""
    litres: float | None = None
    """How much must or wine a dose in mg/L goes into, where it is known."""
    bounds: tuple[Bound, ...] = ()


class StepOutlook(Shape, frozen=True, kw_only=True):
    """One step of the batch with its window, its gate and its reasons."""

    key: str
    name: str
    state: StepState
    override: Literal["free", "reason", "never"]
    """Whether it can be ticked now: freely, only with a typed reason, or not at all."""
    unopened: str = ""
    """What a typed reason leaves held all the same: one sentence, said before the tick."""
    earliest: datetime | None = None
    likely: datetime | None = None
    latest: datetime | None = None
    done_at: datetime | None = None
    passed: bool = False
    """Skipped because it was not ticked in its time, and not because it is not needed."""
    entry_ids: tuple[str, ...] = ()
    """Log entries that did it; several for a daily chore."""
    basis: Literal["done", "reading", "forecast", "clock", "none"] = "none"
    when: str
    """Like "likely Friday 9 October, evening"."""
    reason: str
    trigger: str
    conditions: tuple[Condition, ...] = ()
    moved: Moved | None = None
    reminder: str
    if_slips: tuple[str, ...] = ()
    """Like "1 day: fine", "3 days: air and browning"."""
    risk: str
    slip_class: Literal["fixed", "little", "later"]
    record: tuple[RecordField, ...] = ()
    figures: tuple[NamedFigure, ...] = ()
    """What was worked out for it, such as a dose."""
    repeats: bool = False
    repeat_times: tuple[datetime, ...] = ()
    """Coming times of a daily chore."""


class ClueOutlook(Shape, frozen=True, kw_only=True):
    """One thing that may explain a standstill, and what the log says of it."""

    key: str
    name: str
    """Like "Warmth"."""
    says: Literal["yes", "no", "not known"]
    """Whether the log points to it, speaks against it, or does not say: measure."""
    text: str
    step: str
    """Key of the step whose card shows it."""


class StuckOutlook(Shape, frozen=True, kw_only=True):
    """A ferment that stands still, or only drags, and why that may be."""

    state: Literal["stuck", "slow"]
    since: datetime
    sentence: str
    clues: tuple[ClueOutlook, ...]
    """In the order in which to look: doubts about the reading first, then causes."""


class TodayItem(Shape, frozen=True, kw_only=True):
    """Something for today's strip."""

    kind: Literal["do", "read", "held", "stop"]
    step: str
    title: str
    detail: str
    due: datetime | None = None
    late: bool = False
