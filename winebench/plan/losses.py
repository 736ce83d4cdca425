"""What the rackings cost: by common practice, and as the log tells it."""

from __future__ import annotations

from typing import NamedTuple

from winebench.model.log import Action
from winebench.model.own_loss import Racking
from winebench.model.project import Project
from winebench.plan.record_values import value_of

LEAVING: tuple[Racking, ...] = ("transfer", "second-rack", "third-rack")
"""Transfers that each leave a little behind: to glass, second, third."""
RACKINGS = (*LEAVING, "bottle")
LEES_SHARE = 0.06
"""Lees and pulp that stay behind, share of the must: common practice has 4 to 8 %."""
PUREE_LEES_SHARE = 0.12
"""The same of a must of strained puree: common practice has 5 to 8 % more than of whole fruit."""
SAMPLES_L = 0.2
"""Samples that are not poured back, L a batch. Common practice."""


class Losses(NamedTuple):
    """What the rackings of a batch are expected to cost, against what is usual."""

    times: float = 1.0
    """Expected loss of a racking to come / the usual one."""
    rackings: int = 0
    """Logged rackings that this rests on; 0 is common practice alone."""
    batches: int = 0
    """Batches that these rackings are of."""
    known: tuple[tuple[str, float], ...] = ()
    """Rackings of this very batch that are over, each with what it cost, L."""


USUAL = Losses()


def racking_loss_l(litres: float) -> float:
    """Return what one racking leaves behind, L: 0.15 at one US gallon, 0.5 at five (practice)."""
    share = min(max((litres - 3.785) / (18.927 - 3.785), 0.0), 3.0)
    return min(0.15, 0.04 * litres) + 0.35 * share


def lees_share(*, puree: bool) -> float:
    """Return the lees and pulp that stay behind, share of the must."""
    return PUREE_LEES_SHARE if puree else LEES_SHARE


def usual_loss_l(step: str, must_l: float, *, puree: bool = False) -> float:
    """Return what that racking of so much must usually costs, L; the first leaves the lees too."""
    lees = lees_share(puree=puree) * must_l if step == LEAVING[0] else 0.0
    return lees + racking_loss_l(must_l)


def expected_loss_l(
    step: str, must_l: float, *, puree: bool = False, losses: Losses = USUAL
) -> float:
    """Return what that racking cost, where it is over and was measured, else will cost, L."""
    known = dict(losses.known).get(step)
    return usual_loss_l(step, must_l, puree=puree) * losses.times if known is None else known


def has_puree(project: Project) -> bool:
    """Return whether most of the fruit is strained puree, which leaves heavy lees."""
    forms = [line.form for line in project.fruits]
    return bool(forms) and forms.count("puree") * 2 > len(forms)


def measured_loss_l(action: Action, project: Project) -> float | None:
    """Return what a racking cost in L, as written or before less after; None where neither is."""
    written = {record.name: value_of(record.value, "L", project) for record in action.records}
    lost = written.get("lost")
    before, after = written.get("before"), written.get("after")
    if lost is not None:
        return lost
    return max(before - after, 0.0) if before is not None and after is not None else None


def litres_lost(action: Action, project: Project) -> float:
    """Return the same, 0 where nothing was written."""
    return measured_loss_l(action, project) or 0.0
