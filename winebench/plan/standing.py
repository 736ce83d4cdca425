"""Which of the recipe's cautions still stand, now that part of the batch is done."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from winebench.plan.outlook import Caution, LineOutlook

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

# The step after which nobody can act on the caution any more; for all others it is the pitch.
_UNTIL = {
    "jug-not-full": "transfer",
    "heavy-pail": "transfer",
    "heavy": "bottle",
    "fruit-safety": "bottle",
}


def standing_cautions(batch: Batch) -> tuple[Caution, ...]:
    """Return the recipe's cautions without those that came too late to be acted on."""
    return tuple(caution for caution in batch.recipe.cautions if _stands(batch, caution))


def standing_lines(batch: Batch, cautions: tuple[Caution, ...]) -> tuple[LineOutlook, ...]:
    """Return the recipe's lines, each with those of its cautions that are in `cautions`."""
    return tuple(
        msgspec.structs.replace(line, cautions=tuple(c for c in line.cautions if c in cautions))
        if line.cautions
        else line
        for line in batch.recipe.lines
    )


def _stands(batch: Batch, caution: Caution) -> bool:
    step = caution.gates or _UNTIL.get(caution.key, "pitch")
    return step not in batch.actions and not batch.passed(step)
