"""What the rackings are expected to cost, by common practice and by the maker's own batches.

A maker's rackings cost as many times the usual as a mean of 1 with a spread says, each batch
of theirs differs from that again, and so does each racking: the usual partial pooling of
normal means with known variances (Gelman and Hill, Data Analysis Using Regression and
Multilevel/Hierarchical Models, 2007, chapter 12, equation 12.1).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from winebench.model.edits import Change
from winebench.model.own_loss import OwnLosses, RackedOff
from winebench.model.project import Project
from winebench.plan.losses import (
    LEAVING,
    Losses,
    has_puree,
    measured_loss_l,
    usual_loss_l,
)

MAKER_VARIANCE = (1.0 / 3.0) ** 2
"""Lees of 4 to 8 %, a racking of 0.1 to 0.2 L: common practice is a third either way."""
BATCH_VARIANCE = (1.0 / 6.0) ** 2
"""Of one maker's batches, whose fruit differs. Assumed."""
RACKING_VARIANCE = (1.0 / 2.0) ** 2
"""Of one batch's rackings, judged by eye. Assumed."""
MOST_TIMES = 4.0
"""A racking that cost more was spilt or written down wrongly: it counts as this many."""
NO_LOSSES = "No racking is learned from: losses go by common practice."


def other_losses(project: Project) -> Losses:
    """Return what the batches that were learned from say of a new batch."""
    mean, _variance = _maker(project.own_losses)
    told = [one for one in project.own_losses if _times(one)]
    return Losses(mean, sum(len(_times(one)) for one in told), len(told))


def own_losses(project: Project, must_l: float) -> Losses:
    """Return the same with this batch's own rackings, which tell most of those to come."""
    mean, variance = _maker(project.own_losses)
    before, mine = other_losses(project), racked_off(project)
    times = _own_times(mine, must_l, puree=has_puree(project))
    if times:
        prior, own = 1.0 / (variance + BATCH_VARIANCE), len(times) / RACKING_VARIANCE
        mean = (prior * mean + own * sum(times) / len(times)) / (prior + own)
    return Losses(
        times=mean,
        rackings=before.rackings + len(times),
        batches=before.batches + bool(times),
        known=tuple((one.step, min(one.lost_l, must_l)) for one in mine),
    )


def racked_off(project: Project) -> tuple[RackedOff, ...]:
    """Return the rackings of the log whose loss was written down, the latest of each."""
    found = []
    for step in LEAVING:
        action = project.done(step)
        lost = measured_loss_l(action, project) if action else None
        if lost is not None:
            found.append(RackedOff(step=step, lost_l=round(lost, 4)))
    return tuple(found)


@lru_cache(maxsize=32)
def _maker(told: tuple[OwnLosses, ...]) -> tuple[float, float]:
    """Return the mean and variance of a maker's times the usual, after those batches."""
    weight = 1.0 / MAKER_VARIANCE
    total = weight
    for one in told:
        times = _times(one)
        if times:
            precision = 1.0 / (BATCH_VARIANCE + RACKING_VARIANCE / len(times))
            weight += precision
            total += precision * sum(times) / len(times)
    return total / weight, 1.0 / weight


def _times(one: OwnLosses) -> tuple[float, ...]:
    return _own_times(one.rackings, one.must_l, puree=one.puree)


def _own_times(rackings: Sequence[RackedOff], must_l: float, *, puree: bool) -> tuple[float, ...]:
    """Return how many times the usual each racking cost."""
    if must_l <= 0.0:
        return ()
    return tuple(
        min(one.lost_l / usual_loss_l(one.step, must_l, puree=puree), MOST_TIMES)
        for one in rackings
    )


def losses_words(losses: Losses) -> str:
    """Return what the losses rest on, such as "by your 3 rackings of 1 batch, 1.3 times ..."."""
    if not losses.rackings:
        return "losses by common practice"
    return f"losses by your {_of(losses)}: {_times_words(losses.times)}"


def pooled_words(project: Project) -> str:
    """Return what the batches learned from come to, as a sentence, and whether its log counts."""
    found, mine = other_losses(project), len(racked_off(project))
    said = NO_LOSSES
    if found.rackings:
        said = f"Going by {_of(found)}, yours leave {_times_words(found.times)} behind."
    if not mine:
        return said
    return (
        f"{said} {_counted(mine, 'racking')} in this batch's own log count{'s' * (mine == 1)} too."
    )


def told_losses(one: OwnLosses) -> str:
    """Return what that batch lost, such as "lost 1.9 L in 2 rackings of 19.0 L"."""
    lost = sum(racking.lost_l for racking in one.rackings)
    times = _times(one)
    said = f"lost {lost:.1f} L in {_counted(len(one.rackings), 'racking')} of {one.must_l:.1f} L"
    return f"{said}, {_times_words(sum(times) / len(times))}" if times else said


def _of(losses: Losses) -> str:
    return f"{_counted(losses.rackings, 'racking')} of {_counted(losses.batches, 'batch')}"


def _counted(count: int, word: str) -> str:
    return f"1 {word}" if count == 1 else f"{count} {word}{'es' if word.endswith('ch') else 's'}"


def _times_words(times: float) -> str:
    if 0.95 <= times < 1.05:
        return "about as much as usual"
    return f"about {times:.1f} times the usual"


def learn_losses(project: Project, found: OwnLosses) -> Change:
    """Return the edit by which the project learns them, in place of what that batch said."""
    others = tuple(one for one in project.own_losses if one.batch != found.batch)
    label = f"learn the losses of {found.name}"
    return Change(label=label, fields={"own_losses": (*others, found)})


def forget_losses(project: Project, gone: Sequence[OwnLosses]) -> Change:
    """Return the edit that takes those out of what the project learned."""
    kept = tuple(one for one in project.own_losses if one not in gone)
    name = gone[0].name if len(gone) == 1 else f"{len(gone)} batches"
    return Change(label=f"learn no more losses from {name}", fields={"own_losses": kept})
