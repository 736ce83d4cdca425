"""What is written down with a tick itself: whether it meets what the step waits for."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from msgspec.structs import replace

from winebench.model.log import Action, Record
from winebench.model.project import Project
from winebench.plan.malolactic_choice import plainly_no
from winebench.plan.outlook import Condition, StepOutlook
from winebench.plan.own_doses import sulfite_together
from winebench.plan.record_counts import days_written
from winebench.plan.record_values import NOTHING, sugar_written, value_of
from winebench.plan.records import unasked_field
from winebench.plan.typed.number_words import digits
from winebench.units import NUMBER, Temperature, UnitsError, parse_number

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

_NUMBER = re.compile(rf"(?<![\d.,/])(?P<sign>[-−]\s?)?(?P<number>{NUMBER})", re.ASCII)


def still_held(
    step: StepOutlook, records: Iterable[Record], project: Project | None = None
) -> tuple[Condition, ...]:
    """Return what still holds the step once those records are written down with its tick.

    Amounts are held against what the batch can take where its project is given.
    """
    records = tuple(records)
    written = {record.name: record.value.strip() for record in records if record.value.strip()}
    held = tuple(_as_noted(one, written) for one in step.conditions if not _met(one, written))
    if project is None:
        return held
    together = sulfite_together(records, project)
    sums = (Condition(text=bound.said_of(mg), met=False) for bound, mg in together)
    return (*held, *_beyond(step, written, project), *sums)


def _beyond(step: StepOutlook, written: dict[str, str], project: Project) -> Iterator[Condition]:
    """Give what the amounts written down go beyond."""
    asked = {field.name for field in step.record}
    own = (unasked_field(name, project) for name in written if name not in asked)
    for field in (*step.record, *own):
        text = written.get(field.name, "")
        value = (
            value_of(text, field.unit, project, field.of, field.litres, field.name)
            if text and field.bounds
            else None
        )
        if value is None:
            continue
        for bound in field.bounds:
            if bound.passed_by(value):
                yield Condition(
                    text=f"{bound.said_of(value)} (noted: {text})",
                    met=False,
                    notes=(field.name,),
                )


def needs_reason(
    step: StepOutlook, records: Iterable[Record], project: Project | None = None
) -> bool:
    """Return whether the tick with those records has to say why it is done all the same."""
    if still_held(step, records, project):
        return True
    return step.override == "reason" and all(condition.met for condition in step.conditions)


def reason_as_note(tick: Action) -> Action:
    """Return the tick with its reason in the note: one that no gate asked for overrides nothing."""
    if not tick.override:
        return tick
    words = "; ".join(filter(None, (tick.note, f"because {tick.override}")))
    return replace(tick, override="", note=words)


def _as_noted(condition: Condition, written: dict[str, str]) -> Condition:
    """Return the condition saying what was written down instead of what was known before."""
    given = next((written[name] for name in condition.notes if name in written), "")
    if not given:
        return condition
    return replace(condition, text=f"{condition.text.split(' (')[0]} (noted: {given})")


def _met(condition: Condition, written: dict[str, str]) -> bool:
    given = [written[name] for name in condition.notes if name in written]
    if not given:
        return condition.met
    return any(_decided(condition, text) for text in given)


def _decided(condition: Condition, text: str) -> bool:
    if condition.by_no:
        return plainly_no(text)
    if condition.least is None and condition.below is None:
        return text.lower().rstrip(".") not in NOTHING
    value = number_written(text)
    if value is None:
        return False
    least, below = condition.least, condition.below
    return (least is None or value >= least) and (below is None or value < below)


def number_written(text: str) -> float | None:
    """Return the number of "3.4", "68 °F" (in °C), "2 weeks" (in days), "1 %" (in g/L), or None.

    Of a number among other words nothing is known but itself; two of them, or one below nothing,
    say nothing.
    """
    text = digits(text)
    for read in (parse_number, lambda plain: Temperature(plain).celsius):
        try:
            return read(text)
        except UnitsError:
            continue
    for known in (days_written(text), sugar_written(text)):
        if known is not None:
            return known
    found = _NUMBER.search(text)
    if found is None or found["sign"] or re.search(r"\d", _NUMBER.sub("", text, count=1)):
        return None
    try:
        return parse_number(found["number"])
    except UnitsError:  # 1/0
        return None


def noted_with(tick: Action, name: str) -> str:
    """Return what that tick has written down under that name, or ""."""
    return next((record.value.strip() for record in tick.records if record.name == name), "")


def written(batch: Batch, step: str, name: str) -> str:
    """Return what the newest tick of the step that has something under that name says, or ""."""
    said = (noted_with(tick, name) for tick in reversed(batch.actions.get(step, [])))
    return next(filter(None, said), "")
