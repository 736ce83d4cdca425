"""De-gas, once dry: gas lifts the hydrometer and pushes corks."""

from winebench.plan.batch import Batch
from winebench.plan.gravity_forecast import NEARLY_DRY
from winebench.plan.stability import WARM_CELSIUS
from winebench.plan.steps.rule import Plan, Rule, field, not_here, undated, waits
from winebench.plan.stuck.standstill import low


def _work_out(batch: Batch) -> Plan:
    window = batch.days_after("second-rack", 0, 7, 42)  # before the fining
    if window is None:
        return undated("It follows the second racking, which has no date yet.")
    since = batch.last_time("second-rack")
    flat = next(
        (s for s in batch.gravities if since and s.at >= since and s.reading.degassed), None
    )
    if flat is not None:
        return not_here("A reading was taken without gas since the second racking.")
    warm = batch.last.reading.temperature if batch.last else None
    celsius = warm.celsius if warm else batch.project.room.celsius
    return Plan(
        window=window,
        reason="Once dry; racking and time drive most of the gas out.",
        conditions=(
            waits("a reading below 1.000", low(batch, NEARLY_DRY)),
            waits(f"{WARM_CELSIUS:.0f} °C or warmer", celsius >= WARM_CELSIUS),
        ),
    )


RULE = Rule(
    number=220,
    key="degas",
    name="De-gas",
    trigger="dry, at 18 °C or warmer",
    reminder="Does the hand over the neck still puff? Stir gently; no air whisked in.",
    risk="Corks pushed out; a gravity that reads too high.",
    slip_class="later",
    slips=("7 days: fine",),
    work_out=_work_out,
    record=(field("puff", "Does it still puff?"),),
    after=("second-rack",),
    passed_by=("declare-stable", "stabilise", "bottle"),
    needs_ferment=True,
)
