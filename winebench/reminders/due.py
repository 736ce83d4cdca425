"""Which reminders to raise now: pure, so that the window's timer only asks."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from winebench.plan.days import span_words
from winebench.plan.outlook import Outlook, StepOutlook

REMINDED = ("stir", "read-gravity")
"""Steps whose hour matters; everything else waits in today's strip."""
LATE = timedelta(hours=2)
"""From here on the notice says how late it is."""
DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Notice:
    """One reminder for the desktop."""

    key: str
    """Of this step and due time; put into `seen` once it was raised."""
    step: str
    due: datetime
    title: str
    body: str
    late: bool


def due_now(outlook: Outlook, seen: Collection[str]) -> tuple[Notice, ...]:
    """Return a notice for each stir or reading due at `outlook.at` whose key is not in `seen`.

    A step gives one notice however long it has been missed: one line that says how late.
    While it stays undone it is due again a day later, and so on; a done one is quiet.
    """
    return tuple(notice for notice in _notices(outlook) if notice.key not in seen)


def _notices(outlook: Outlook) -> Iterator[Notice]:
    for step in outlook.steps:
        if step.key not in REMINDED or step.state not in ("due", "missed"):
            continue
        first = step.likely
        if first is None or first > outlook.at:
            continue
        due = first + (outlook.at - first) // DAY * DAY
        late = outlook.at - first >= LATE
        yield Notice(
            key=f"{step.key}@{due.isoformat()}",
            step=step.key,
            due=due,
            title=f"{outlook.name}: {step.name[:1].lower()}{step.name[1:]}",
            body=_late_words(step, outlook.at - first) if late else step.reminder,
            late=late,
        )


def _late_words(step: StepOutlook, late: timedelta) -> str:
    matters = f" If it slips {step.if_slips[0]}." if step.if_slips else ""
    return f"{span_words(late)} late. {step.reminder}{matters}"
