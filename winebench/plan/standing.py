"""Which of the recipe's cautions still stand, now that part of the batch is done."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from winebench.model.recipe import YeastLine
from winebench.plan.gravity_forecast import NEARLY_DRY
from winebench.plan.outlook import Caution, LineOutlook
from winebench.plan.stability import rests_in_cold_room, warm_it_words
from winebench.plan.steps.first_nitrogen import sugar_half_left
from winebench.plan.stuck.standstill import accepted, low, slow, stuck
from winebench.plan.wanted import YEAST_MARGIN_PERCENT

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

# The step after which nobody can act on the caution any more; for all others it is the pitch.
_UNTIL = {
    "jug-not-full": "transfer",
    "heavy-pail": "transfer",
    "heavy": "bottle",
    "fruit-safety": "bottle",
}
_OF_THE_READING = ("gravity-out-of-range", "yeast-too-weak")
"""What is judged by the must's own gravity, once that was read."""
COLD_AT_END = "cold-at-end"
"""Key of the caution that a wine at its end stands too cold to be found stable."""
_NITROGEN = ("first-nitrogen", "second-nitrogen")


class _After(NamedTuple):
    """A caution that says something still when the yeast is in."""

    matters: Callable[[Batch], bool]
    detail: str


def standing_cautions(batch: Batch) -> tuple[Caution, ...]:
    """Return the recipe's cautions that still say something, with what can be done by now.

    After the pitch they are notes, with no repair that comes too late.
    """
    found = [one for caution in batch.recipe.cautions if (one := _by_now(batch, caution))]
    return (*found, *_weak_yeast(batch), *_cold_end(batch))


def _cold_end(batch: Batch) -> Iterator[Caution]:
    if "bottle" not in batch.actions and rests_in_cold_room(batch, batch.stability.run):
        yield Caution(
            key=COLD_AT_END,
            severity="caution",
            about="declare-stable",
            sentence=f"At {batch.project.room.text} yeast may only rest, so the wine cannot be "
            "found stable there.",
            detail=warm_it_words(),
        )


def standing_lines(batch: Batch, cautions: tuple[Caution, ...]) -> tuple[LineOutlook, ...]:
    """Return the recipe's lines, each with those of `cautions` that are about it."""
    return tuple(
        msgspec.structs.replace(line, cautions=mine) if line.cautions != mine else line
        for line in batch.recipe.lines
        for mine in (tuple(caution for caution in cautions if caution.about == line.id),)
    )


def _by_now(batch: Batch, caution: Caution) -> Caution | None:
    if caution.key in _OF_THE_READING and _known(batch):
        return None
    if _stands(batch, caution):
        return caution
    after = _AFTER_PITCH.get(caution.key) if batch.pitched is not None else None
    if after is None or not after.matters(batch):
        return None
    again = caution.key == "little-nitrogen" and not batch.actions.keys() & set(_NITROGEN)
    return msgspec.structs.replace(
        caution,
        severity="note",
        detail=after.detail,
        repairs=caution.repairs if again else (),
        gates="",
    )


def _stands(batch: Batch, caution: Caution) -> bool:
    step = caution.gates or _UNTIL.get(caution.key, "pitch")
    return step not in batch.actions and not batch.passed(step)


def _known(batch: Batch) -> bool:
    """Return whether what the recipe reckons of its must has been overtaken."""
    return batch.pitched is not None or batch.must_reading is not None


def _weak_yeast(batch: Batch) -> Iterator[Caution]:
    """Give the limit of the yeast beside what the must makes: as read, or now that it works."""
    strong = batch.must.strength.value
    lines = [line for line in batch.project.recipe.lines if isinstance(line, YeastLine)]
    if not _known(batch) or strong is None or not lines or not _works(batch):
        return
    line = max(lines, key=lambda one: one.tolerance_percent)
    end, strong = batch.sweet_end, round(strong, 1)
    close = strong > line.tolerance_percent - YEAST_MARGIN_PERCENT
    if end is None and (not close or (batch.pitched is not None and not _drags(batch))):
        return
    limit = f"{line.tolerance_percent:g} % that the packet stands"
    yield Caution(
        key="yeast-too-weak",
        severity="caution" if batch.pitched is None and end is not None else "note",
        about=line.id,
        sentence=f"The sugar makes {strong:.1f} %, and {end.words}."
        if end is not None
        else f"The sugar makes {strong:.1f} %, close to the {limit}: it may stop sweet.",
        detail=f"Keep {YEAST_MARGIN_PERCENT:g} % in hand: less sugar, or a stronger yeast."
        if batch.pitched is None
        else "No sugar comes out again: keep it warm and read it often. Where it stops, leave it "
        "sweet and strong, or start it anew with a stronger yeast.",
    )


def _works(batch: Batch) -> bool:
    """Return whether there is a ferment still to come or going on."""
    return not low(batch, NEARLY_DRY) and "bottle" not in batch.actions


def _drags(batch: Batch) -> bool:
    return stuck(batch) is not None or slow(batch) is not None


def _takes_nutrient(batch: Batch) -> bool:
    return sugar_half_left(batch) and accepted(batch) is None and "transfer" not in batch.actions


def _starts_or_drags(batch: Batch) -> bool:
    return not batch.over("sign-of-life") or _drags(batch)


_AFTER_PITCH = {
    "little-nitrogen": _After(
        _takes_nutrient,
        "More than half of the sugar is left, so nutrient may still go in: half now, half when a "
        "third of the sugar is gone.",
    ),
    "room-for-yeast": _After(_works, "Cold is slow, warm is hasty: move it, or wrap it."),
    "much-sulfite": _After(
        _starts_or_drags, "It holds yeast back: give it warmth and time, and read it."
    ),
    "preservative": _After(
        _starts_or_drags, "Where one is in it, it may be why the yeast does not work."
    ),
}
