"""A reading that is asked about opens no gate before another one bears it out."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from winebench.plan.batch import Batch
    from winebench.plan.readings import Seen


def in_doubt(batch: Batch, line: float) -> bool:
    """Return whether only a reading that is asked about lies below that gravity.

    It keeps its place in the log. A second reading settles it either way, and
    whoever knows it to be right says so in the reason for a step done all the same.
    """
    last = batch.last
    if last is None or last.sg is None or last.sg >= line or not last.outlook.doubt:
        return False
    before = batch.gravities[-2] if len(batch.gravities) > 1 else batch.must_reading
    return before is None or before.sg is None or before.sg >= line


def believed(batch: Batch) -> tuple[Seen, ...]:
    """Return the readings of the ferment that the forecast goes by.

    The newest is left out while something is asked about it, and so is one that alone rose.
    """
    newest = batch.ferment[-1:]
    return tuple(seen for seen in batch.steady if seen not in newest or not seen.outlook.doubt)


def doubt_words(batch: Batch) -> str:
    """Return like " (0.998 is in doubt: read it once more)" for that reading."""
    return f" ({batch.last_sg:.3f} is in doubt: read it once more)"
