"""Judge a card as a whole: what its lines together cannot do, said at the line concerned."""

from __future__ import annotations

import math
from collections.abc import Iterator

from msgspec.structs import replace

from winebench.model.edits import PutLine
from winebench.model.project import Project
from winebench.model.recipe import SugarLine, WaterLine
from winebench.plan.figures import with_country
from winebench.plan.handed_down.into_project import (
    card_basis,
    card_project,
)
from winebench.plan.handed_down.mentions import mentions
from winebench.plan.handed_down.quantity import packets, volume
from winebench.plan.handed_down.shapes import CardReading, FieldName, Row
from winebench.plan.outlook import Caution
from winebench.plan.portions import sugar_of
from winebench.plan.typed.remarks import Remark, Way, written
from winebench.plan.work_out import recipe_outlook
from winebench.trade.alcohol import abv_from_gravities
from winebench.trade.ranges import NotKnown
from winebench.units import GallonCountry

_OWN_GRAVITY = ("contradicts-target",)
_OWN_ACID = ("too-little-acid", "too-sharp")
_OF_THE_CARD = ("gravity-out-of-range", "volume-off", "much-nitrogen", "no-yeast")
"""Cautions about the must that hold whatever style the card is for."""
_FIELDS_OF: dict[str, tuple[FieldName, ...]] = {
    "volume-off": ("basis",),
    "too-little-acid": ("acidity",),
    "too-sharp": ("acidity",),
    "contradicts-target": ("gravity", "strength"),
    "gravity-out-of-range": ("gravity",),
}
"""Which figures of the card a caution about the must is shown at."""
_A_PACKET = Way(label="Put it in: 1 packet yeast", text="1 packet yeast", apart=True)
_DRY_SG = 0.995
"""Where a dry fruit wine ends (common practice); only to judge a strength on a card."""
_SAME = 0.02
"""Volumes closer than this are the same one, rounded: 4.5 L is an imperial gallon."""
_SLACK_PERCENT = 1.0


def judged(reading: CardReading) -> CardReading:
    """Return the reading with what the whole card gives away, each at its row."""
    reading = _with_rows(reading, [_against_others(reading, row) for row in reading.rows])
    found = [*_cautioned(reading), *_strength(reading), *mentions(reading), *packets(reading),
             *volume(reading)]  # fmt: skip
    rows = list(reading.rows)
    loose = []
    for place, remark in found:
        if place is None:
            loose.append(remark)
        else:
            rows[place] = _looked_at(rows[place], remark)
    return replace(_with_rows(reading, rows), remarks=tuple(loose))


def _with_rows(reading: CardReading, rows: list[Row]) -> CardReading:
    return replace(reading, rows=tuple(rows))


def _looked_at(row: Row, remark: Remark) -> Row:
    state = "look" if row.state == "read" else row.state
    return replace(row, state=state, remarks=(*row.remarks, remark))


# --- rows against each other -----------------------------------------------------------------


def _against_others(reading: CardReading, row: Row) -> Row:
    """Return the row, as wrong where a figure is stated twice and differs."""
    if row.field is None or row.is_open:
        return row
    first = reading.field(row.field.name)
    if first is None or first.item.start == row.item.start:
        return row
    assert first.field is not None
    if first.field.targets == row.field.targets and _same_volume(first, row, reading.gallon):
        return row
    said = f'The card says "{first.item.text}" as well: which one is it?'
    ways = (Way(label="Take this one out", text=""),)
    remarks = (*row.remarks, Remark(sentence=said, ways=ways))
    return replace(row, state="wrong", remarks=remarks)


def _same_volume(first: Row, second: Row, gallon: GallonCountry | None) -> bool:
    volumes = [row.field.basis for row in (first, second) if row.field and row.field.basis]
    litres = [volume.litres(gallon) for volume in volumes]
    return len(litres) < 2 or math.isclose(*litres, rel_tol=_SAME)


def _strength(reading: CardReading) -> Iterator[tuple[int, Remark]]:
    """Give the remark where a stated strength is not what the stated gravities make."""
    strong, start = reading.field("strength"), reading.field("gravity")
    if strong is None or start is None or strong.field is None or start.field is None:
        return
    og = start.field.targets["gravity_high"]
    end = reading.field("final gravity")
    final = end.field.targets["final_gravity"] if end and end.field else None
    if og.scale != "SG" or (final is not None and final.scale != "SG"):
        return
    fg = final.value if final is not None else _DRY_SG
    try:
        made = abv_from_gravities(og.value, fg)
    except NotKnown:
        return
    said = strong.field.targets["strength_percent"]
    if made.low - _SLACK_PERCENT <= said <= made.high + _SLACK_PERCENT:
        return
    sentence = (
        f"From {og.text} to {fg:.3f} makes about {made.figure:.1f} %, not {said:g} %; "
        "the gravity counts."
    )
    way = written(f"{made.figure:.1f} % abv")
    yield reading.rows.index(strong), Remark(sentence=sentence, ways=(way,))


# --- what the outlook says of the recipe -----------------------------------------------------


def _cautioned(reading: CardReading) -> Iterator[tuple[int | None, Remark]]:
    """Give the recipe's cautions, once nothing is open that would change them."""
    project = card_project(reading)
    if reading.is_open or not project.recipe.lines or card_basis(reading) is None:
        return
    try:
        cautions = _filled_up(project, recipe_outlook(project).cautions)
    except (ValueError, ArithmeticError) as problem:
        yield None, Remark(sentence=f"This cannot be worked out as it stands ({problem}).")
        return
    for caution in cautions:
        if _concerns(caution, reading):
            yield _place(caution, reading), _as_remark(caution, reading)


def _filled_up(project: Project, cautions: tuple[Caution, ...]) -> tuple[Caution, ...]:
    """Return the cautions as they are with the water that a card leaves out put in.

    A card that says how much it makes and names no water means so much of it.
    """
    fills = [
        (caution, repair.edit)
        for caution in cautions
        for repair in caution.repairs
        if caution.key == "volume-off" and isinstance(repair.edit, PutLine)
    ]
    if not fills or any(isinstance(line, WaterLine) for line in project.recipe.lines):
        return cautions
    caution, edit = fills[0]
    dry = replace(caution, detail=f"{caution.detail} It is judged with that water in it.")
    return (dry, *recipe_outlook(edit.apply(project)).cautions)


def _concerns(caution: Caution, reading: CardReading) -> bool:
    """Return whether it is about what the card says, not about a style that it does not name."""
    if caution.key in _OWN_GRAVITY:
        return bool(reading.field("gravity") or reading.field("strength"))
    if caution.key in _OWN_ACID:
        return reading.field("acidity") is not None
    if caution.key == "volume-off":
        return reading.basis is not None
    if caution.about == "must":
        return caution.key in _OF_THE_CARD
    return caution.about.startswith("card-") and caution.severity != "note"


def _place(caution: Caution, reading: CardReading) -> int | None:
    """Return the row that the caution is about, or None where it is about none alone."""
    for place, row in enumerate(reading.rows):
        if row.line is not None and row.line.id == caution.about:
            return place
    for name in _FIELDS_OF.get(caution.key, ()):
        row_of = reading.field(name)
        if row_of is not None:
            return reading.rows.index(row_of)
    return None


def _as_remark(caution: Caution, reading: CardReading) -> Remark:
    ways = [_A_PACKET] if caution.key == "no-yeast" else []
    for repair in caution.repairs:
        line = repair.edit.line if isinstance(repair.edit, PutLine) else None
        if isinstance(line, SugarLine | WaterLine):
            there = any(row.line and row.line.id == line.id for row in reading.rows)
            text = _words_of(line, None if there else reading)
            ways.append(Way(label=f"{repair.label}: {text}", text=text, apart=not there))
    sentence = f"{caution.sentence} {caution.detail}".strip()
    return Remark(sentence=sentence, ways=tuple(ways))


def _words_of(line: SugarLine | WaterLine, new_on: CardReading | None) -> str:
    """Return a line as a card would have it; it reads back as the same line."""
    if line.amount is None and new_on is not None and new_on.basis is not None:
        return f"water to {with_country(new_on.basis, new_on.gallon)}"
    if line.amount is None:
        return "water to the mark"
    name = sugar_of(line).name.lower() if isinstance(line, SugarLine) else "water"
    return f"{line.amount.text} {name}"
