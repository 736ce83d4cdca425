"""Acid, blend, sweeten: to taste, after the wine is stabilised."""

from winebench.model.log import Action
from winebench.plan.again.logged import grams_written
from winebench.plan.batch import Batch
from winebench.plan.days import settled
from winebench.plan.outlook import Condition
from winebench.plan.readings import LARGEST_RISE, NO_SUGAR
from winebench.plan.steps.malolactic import no_sorbate_words, softened, sorbate_allowed
from winebench.plan.steps.noting import noted_with
from winebench.plan.steps.rule import Plan, Rule, field, noted, undated, waits
from winebench.plan.steps.stabilise import not_before_stable, sorbate_in, stable

KEY = "sweeten"
TRIAL = "a trial in the glass noted"


def _work_out(batch: Batch) -> Plan:
    trial = noted(TRIAL, "trial")
    if not batch.sweet:
        return _to_taste(batch, trial)
    window = batch.days_after("stabilise", 1, 2, 28)
    stabilised = waits("the stabilising, with sorbate", False)
    if "stabilise" in batch.actions:
        stabilised = sorbate_in(batch)
    if softened(batch):
        stops = (sorbate_allowed(batch), stabilised)
        return Plan(basis="none", reason=no_sorbate_words(batch), stops=stops, conditions=(trial,))
    window = not_before_stable(batch, window) if window else None
    if window is None:
        words = "It follows the stabilising of a stable wine, which has no date yet."
        return undated(words, stabilised, trial)
    done = batch.done_at("stabilise")
    waited = done is not None and batch.now >= batch.clock.days_after(done, 1)
    return Plan(
        window=window,
        basis=batch.plan("stabilise").basis,
        reason="The day after stabilising at the earliest, and a week before bottling.",
        stops=(stabilised,),
        conditions=(stable(batch), waits("a day since the stabilising", waited), trial),
    )


def _to_taste(batch: Batch, trial: Condition) -> Plan:
    """Return the answer for a wine that stays dry: nothing has to go in, but acid or wine may."""
    stabilised = "stabilise" in batch.actions
    return Plan(
        skipped=not stabilised,
        any_time=stabilised,
        basis="none",
        reason="The wine is to stay dry. Where acid or another wine goes in, tick it: a week of "
        "rest follows.",
        conditions=(waits("the stabilising", stabilised), trial),
        name="Acid or another wine, to taste",
    )


def sugar_went_in(batch: Batch) -> bool:
    """Return whether sugar went in at the end, so that the wine could ferment again.

    Acid and another wine bring none where they alone are noted and the gravity did not rise; a
    tick that notes nothing may stand for sugar.
    """
    return any(_brought_sugar(batch, tick) for tick in batch.actions.get(KEY, ()))


def _brought_sugar(batch: Batch, tick: Action) -> bool:
    sugar = noted_with(tick, "grams")
    grams = grams_written(sugar, batch.project, "white-sugar") if sugar else None
    if grams or (sugar and grams is None):
        return True
    if grams is None and not any(noted_with(tick, name) for name in NO_SUGAR):
        return True
    at = settled(tick.at)
    before = [seen.sg for seen in batch.gravities if seen.at < at and seen.sg is not None]
    after = [seen.sg for seen in batch.gravities if seen.at >= at and seen.sg is not None]
    return bool(before and after) and max(after) > before[-1] + LARGEST_RISE


RULE = Rule(
    number=270,
    key=KEY,
    name="Sweeten to taste",
    trigger="stabilised, and a trial in the glass",
    reminder="Try it in the glass. Two thirds now, taste tomorrow, then decide.",
    risk="Coarse, or able to ferment again.",
    slip_class="later",
    slips=("7 days: fine",),
    work_out=_work_out,
    record=(
        field("grams", "Sugar", "g", of="white-sugar"),
        field("acid", "Acid", "g", of="tartaric-acid"),
        field("blend", "Another wine", "L"),
        field("litres", "Wine after", "L"),
        field("gravity", "Gravity after", "SG"),
        field("ph", "pH after"),
        field("trial", "Trial in the glass"),
    ),
    after=("stabilise",),
    passed_by=("bottle",),
    opens_vessel=True,
    needs_ferment=True,
)
