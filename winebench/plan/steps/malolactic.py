"""Malolactic decision: soften the malic acid, or stop it."""

import re

from winebench.plan.batch import Batch
from winebench.plan.gravity_forecast import NEARLY_DRY
from winebench.plan.steps.rule import Plan, Rule, field, not_here, span, undated, waits

KEY = "malolactic"
# Fruits whose main acid is malic (Belitz, Food Chemistry, table 18.3; others common practice).
MALIC = ("apple", "pear", "plum", "damson", "cherry", "apricot", "peach", "nectarine", "quince",
         "sloe", "crabapple", "rhubarb", "greengage", "mirabelle")  # fmt: skip
ALMOST_DRY = 1.005


_NO = re.compile(r"\W*(?:no|not|don't|stop|stopped|sulfite|sulfited)\b", re.IGNORECASE)


def softened(batch: Batch) -> bool:
    """Return whether the maker chose to let malolactic bacteria work.

    Whatever was written that is not plainly a no counts as a yes: sorbate beside these bacteria
    spoils the wine, going without it spoils nothing.
    """
    choice = batch.record(KEY, "choice").strip()
    return bool(choice) and not _NO.match(choice)


def _work_out(batch: Batch) -> Plan:
    if not any(word in fruit.fruit.lower() for fruit in batch.project.fruits for word in MALIC):
        return not_here("Little malic acid in this fruit: nothing to decide.")
    base = batch.span("transfer")
    if base is None:
        return undated("It follows the move to glass, which has no date yet.")
    dry = batch.lines.below(NEARLY_DRY)
    if dry is None:
        return undated(batch.lines.no_date(NEARLY_DRY))
    rack = batch.span("second-rack")
    likely = max(base.likely, dry.window.likely)
    low = batch.last_sg is not None and batch.last_sg < ALMOST_DRY
    return Plan(
        window=span(base.earliest, batch.clock.waking(likely), rack.latest if rack else None),
        basis=dry.basis,
        reason="Once nearly dry and before the second racking; sorbate is locked if you say yes.",
        conditions=(waits("a reading below 1.005", low),),
    )


RULE = Rule(
    number=170,
    key=KEY,
    name="Malolactic: yes or no",
    trigger="in glass, below 1.005, malic fruit",
    reminder="Soften the sharp apple acid, or sulfite and stop it?",
    risk="It may start by itself in the bottle: spritz; with sorbate, a smell of geraniums.",
    slip_class="later",
    slips=("7 days: fine",),
    work_out=_work_out,
    record=(field("choice", "Soften it? (yes or no)"), field("ph", "pH")),
    after=("transfer",),
    passed_by=("second-rack", "stabilise", "bottle"),
    needs_ferment=True,
)
