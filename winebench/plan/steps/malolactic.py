"""Malolactic decision: soften the malic acid, or stop it."""

from winebench.plan.batch import Batch
from winebench.plan.doses_given import sorbate_given
from winebench.plan.gravity_forecast import ALMOST_DRY
from winebench.plan.malolactic_choice import GERANIUMS, KEY, softening
from winebench.plan.outlook import Condition
from winebench.plan.steps.rule import Plan, Rule, field, not_here, span, undated, waits
from winebench.plan.stuck.standstill import accepted, low

# Fruits whose main acid is malic (Belitz, Food Chemistry, table 18.3; others common practice).
MALIC = ("apple", "pear", "plum", "damson", "cherry", "apricot", "peach", "nectarine", "quince",
         "sloe", "crabapple", "rhubarb", "greengage", "mirabelle")  # fmt: skip


def softened(batch: Batch) -> bool:
    """Return whether the maker chose to let malolactic bacteria work."""
    return softening(batch.project)


def sorbate_allowed(batch: Batch) -> Condition:
    """Return the condition that no malolactic bacteria are there to spoil sorbate."""
    words = "no malolactic fermentation beside the sorbate"
    return waits(words, not softened(batch), needs_change=True)


def no_sorbate_words(batch: Batch) -> str:
    """Return why a softened wine holds no sugar in the bottle, and how to go on."""
    way = "choose a dry style, bottle it dry, and sweeten it in the glass"
    if "sweeten" in batch.actions or accepted(batch) is not None:
        way = "leave it under the airlock until yeast has eaten that sugar, and bottle it dry"
    return (
        "No sorbate beside malolactic bacteria: they turn it into a smell of geraniums, and "
        f"without it sugar ferments in the bottle. The way out: {way}."
    )


def _work_out(batch: Batch) -> Plan:
    conditions = (
        waits("a reading below 1.005", low(batch, ALMOST_DRY)),
        *_no_sorbate_yet(batch),
    )
    if not any(word in fruit.fruit.lower() for fruit in batch.project.fruits for word in MALIC):
        return not_here("Little malic acid in this fruit: nothing to decide.", *conditions)
    base = batch.span("transfer")
    if base is None:
        return undated("It follows the move to glass, which has no date yet.", *conditions)
    almost = batch.lines.below(ALMOST_DRY)
    if almost is None:
        return undated(batch.lines.no_date(ALMOST_DRY), *conditions)
    rack = batch.span("second-rack")
    early, likely = (max(base[n], almost.window[n]) for n in (0, 1))
    return Plan(
        window=span(early, batch.clock.waking(likely), rack.latest if rack else None),
        basis=almost.basis,
        reason="In glass, below 1.005, and before the second racking; sorbate is locked if you say "
        "yes.",
        conditions=conditions,
    )


def _no_sorbate_yet(batch: Batch) -> tuple[Condition, ...]:
    """Return the condition that no sorbate is in the wine, where there is some."""
    if not sorbate_given(batch.project, batch.recipe):
        return ()
    words = f"a wine without sorbate: {GERANIUMS}"
    return (Condition(text=words, met=False, needs_change=True, notes=("choice",), by_no=True),)


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
