"""Fruit accepted: known, sound and off its stalk, before anything else happens to it."""

import re
from collections.abc import Iterator

from winebench.plan.batch import Batch
from winebench.plan.outlook import Caution, Condition
from winebench.plan.steps.rule import Plan, Rule, field, not_before, not_here, span, waits

KEY = "fruit-accepted"
UNSURE = ("unsure", "not sure", "no", "unknown", "?")
"""What says by itself that nobody knows."""
DOUBT = re.compile(
    r"(?i)\?|\b(?:unsure|unknown|uncertain|dunno|maybe|perhaps|possibly|probably|likely|guess\w*"
    r"|think\w*|internet|apps?|not\s+(?:\w+\s+)?(?:sure|certain)|"
    r"(?:don[’']?t|do\s+not|no\s?body|no\s+one)\s+knows?|no\s+idea)\b"
)
"""Words of doubt among others: who guesses does not know."""
UNKNOWN = "Nobody knows for certain what this fruit is: stop here."
STOP = (
    "Have it named by somebody who knows the plant, or throw it out; no sugar, no heat and no "
    "yeast takes a poison out."
)
FRESH_FRUIT_DAYS = 2
"""So long picked fruit keeps before it is crushed (common practice)."""


def identity_is_unsure(batch: Batch) -> bool:
    """Return whether the maker wrote that nobody knows this fruit for certain."""
    said = batch.record(KEY, "identified").strip().lower()
    return said in UNSURE or DOUBT.search(said) is not None


def _work_out(batch: Batch) -> Plan:
    fruits = batch.project.fruits
    if not fruits:
        return not_here("There is no fruit on the recipe yet.")
    fresh = any(fruit.form == "fresh" for fruit in fruits)
    early = batch.clock.days_after(batch.start, -FRESH_FRUIT_DAYS if fresh else -30)
    window = span(early, batch.clock.days_after(batch.start, -1), batch.start)
    return Plan(
        # Nothing is asked for on days that had passed before anybody planned this batch.
        window=not_before(min(batch.now, batch.start), window),
        reason="Fresh fruit keeps a day or two; look it over the day before it is crushed."
        if fresh
        else "Frozen or bottled fruit may be looked over on any day before it is used.",
        reminder=""
        if batch.pulp
        else "Is the fruit in it known, and does it look, smell and taste "
        "sound? If you are unsure what it is, stop here.",
        name="" if batch.pulp else "Look over the juice",
        stops=batch.held_by_recipe(KEY, "stop"),
        conditions=batch.held_by_recipe(KEY, "hold"),
    )


def unknown_fruit(batch: Batch) -> Plan | None:
    """Return the answer of a step before the yeast where nobody knows the fruit: no date at all."""
    if not batch.project.fruits or not identity_is_unsure(batch):
        return None
    return Plan(basis="none", reason=f"{UNKNOWN} {STOP}", stops=identity_known(batch))


def identity_cautions(batch: Batch) -> Iterator[Caution]:
    """Give the stop of a batch whose fruit nobody knows for certain."""
    if unknown_fruit(batch) is not None:
        yield Caution(
            key="unknown-fruit",
            severity="stop",
            about=KEY,
            gates="pitch",
            sentence=UNKNOWN,
            detail=STOP,
        )


def identity_known(batch: Batch) -> tuple[Condition, ...]:
    """Return the condition that the fruit is known for certain; none where there is no fruit."""
    if not batch.project.fruits:
        return ()
    known = not identity_is_unsure(batch)
    return (waits("every fruit known for certain", known, needs_change=True),)


def fruit_accepted(batch: Batch) -> tuple[Condition, ...]:
    """Return the condition that somebody looked the fruit over; none where there is no fruit."""
    if not batch.project.fruits:
        return ()
    looked = (
        "the fruit looked over: sound, off its stalk" if batch.pulp else "the juice looked over"
    )
    return (waits(looked, batch.over(KEY), step=KEY),)


RULE = Rule(
    number=10,
    key=KEY,
    name="Look over the fruit",
    trigger="fruit is on the recipe",
    reminder="Is every berry known, sound and off its stalk? If you are unsure what it is, "
    "stop here.",
    risk="Poisoning, or a taint that no later step takes out.",
    slip_class="fixed",
    slips=("1 day: fresh fruit softens", "3 days: it moulds; freeze it instead"),
    work_out=_work_out,
    record=(
        field("identified", "Who knows it for certain (or: unsure)"),
        field("origin", "Where it came from"),
        field("weight", "Weight after sorting"),
    ),
    passed_by=("sugar-water", "sulfite-must", "enzyme", "pitch"),
)
