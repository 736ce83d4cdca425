"""What is for today: things to do, a reading to take, what is held, and what must stop."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta

from winebench.plan.days import day_words, span_words
from winebench.plan.outlook import Caution, StepOutlook, TodayItem
from winebench.plan.standing import COLD_AT_END
from winebench.plan.stuck.keys import RESTART

HELD_SHOWN = timedelta(days=7)
READING = "read-gravity"
_ORDER = {"stop": 0, "do": 1, "read": 2, "held": 3}


def today(
    steps: tuple[StepOutlook, ...], cautions: tuple[Caution, ...], now: datetime
) -> tuple[TodayItem, ...]:
    """Return today's items: stops first, then what a standstill asks for, what is late, due, to be
    read, and held."""
    held = {caution.about: caution for caution in cautions if caution.key == COLD_AT_END}
    items = [*_stops(cautions), *(item for step in steps for item in _item(step, now, held))]
    return tuple(sorted(items, key=_rank))


def _rank(item: TodayItem) -> tuple[int, bool, bool]:
    return _ORDER[item.kind], item.step not in RESTART, not item.late


def _stops(cautions: tuple[Caution, ...]) -> Iterator[TodayItem]:
    for caution in cautions:
        if caution.severity == "stop":
            yield TodayItem(
                kind="stop", step=caution.gates, title=caution.sentence, detail=caution.detail
            )


def _item(step: StepOutlook, now: datetime, held: Mapping[str, Caution]) -> Iterator[TodayItem]:
    if step.likely is None or step.latest is None:
        if step.key in held:  # no day is honest, yet somebody has to do something
            yield TodayItem(
                kind="held",
                step=step.key,
                title=_held_title(step),
                detail=f"{held[step.key].sentence} {held[step.key].detail}",
            )
        return
    if step.state == "held":
        if step.repeats or step.likely - now > HELD_SHOWN:
            return
        yield TodayItem(
            kind="held",
            step=step.key,
            title=_held_title(step),
            detail=_held_words(step),
            due=step.likely,
        )
    elif step.state == "missed" or (
        step.state in ("due", "expected") and step.likely.date() <= now.date() and _open(step, now)
    ):
        late = step.state == "missed"
        yield TodayItem(
            kind="read" if step.key == READING else "do",
            step=step.key,
            title=step.name,
            detail=_late_words(step, now) if late else _due_words(step, now),
            due=step.latest if late else step.likely,
            late=late,
        )


def _held_title(step: StepOutlook) -> str:
    return f"Held: {step.name[0].lower()}{step.name[1:]}"


def _open(step: StepOutlook, now: datetime) -> bool:
    """Return whether the step is due, or becomes so later today."""
    return step.state == "due" or (
        step.override == "free" and step.earliest is not None and step.earliest.date() == now.date()
    )


def _held_words(step: StepOutlook) -> str:
    missing = next((one for one in step.conditions if not one.met), None)
    if missing is None:
        return step.when
    return f"{missing.waiting}{' ·' if missing.is_sentence else ';'} {step.when}"


def _late_words(step: StepOutlook, now: datetime) -> str:
    assert step.latest is not None
    late = f"{span_words(now - step.latest)} late"
    missing = next((one.waiting for one in step.conditions if not one.met and not one.notes), "")
    return f"{late} · {missing} · {step.risk}" if missing else f"{late} · {step.risk}"


def _due_words(step: StepOutlook, now: datetime) -> str:
    assert step.likely is not None
    assert step.latest is not None
    if step.key == READING:
        return step.reminder
    if step.repeats:
        return f"by {step.likely.hour:02}:{step.likely.minute:02}" if step.likely > now else "now"
    if step.latest < now:
        return step.reminder
    return f"by {day_words(step.latest, now)} · {step.reminder}"
