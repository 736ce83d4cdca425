"""Sugar that went in while it ferments, though the recipe keeps none back."""

from winebench.plan.batch import Batch
from winebench.plan.days import settled
from winebench.plan.steps.rule import Plan, Rule, field, not_here

KEY = "sugar-added"


def _work_out(batch: Batch) -> Plan:
    ticks = batch.actions.get(KEY)
    if not ticks:
        return not_here(
            "The recipe asks for none. Where sugar goes in all the same while it ferments, write "
            "it down here: it counts in strength and forecast."
        )
    return Plan(
        reason="It counts in strength and forecast, and holds no racking up.",
        done_at=settled(ticks[-1].at),
    )


RULE = Rule(
    number=135,
    key=KEY,
    name="Sugar added outside the recipe",
    trigger="sugar went in that the recipe does not have",
    reminder="Write down how much, and read the gravity a few hours later.",
    risk="Unwritten, strength and forecast are wrong by it.",
    slip_class="later",
    slips=("Later is always safe",),
    work_out=_work_out,
    record=(
        field("grams", "Sugar", "g", of="white-sugar"),
        field("gravity", "Gravity after", "SG"),
    ),
    after=("pitch",),
    repeats=True,
)
