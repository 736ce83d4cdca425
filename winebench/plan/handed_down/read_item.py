"""Read one item of a card: an ingredient, a figure, words to keep, or a question."""

from __future__ import annotations

from msgspec.structs import replace

from winebench.model.edits import changed
from winebench.model.recipe import Line, SugarLine, WaterLine, YeastLine
from winebench.plan.figures import with_country
from winebench.plan.handed_down.choices import refuse_choice
from winebench.plan.handed_down.dangers import with_dangers
from winebench.plan.handed_down.fields import OfWine, read_field
from winebench.plan.handed_down.per_volume import Per, for_the_lot, per_of, split_off_per, times
from winebench.plan.handed_down.reads import line_of
from winebench.plan.handed_down.rows import (
    Known,
    asked_whose,
    field_row,
    kept,
    key_of,
    line_id,
    line_row,
    question,
)
from winebench.plan.handed_down.shapes import Field, Item, Row
from winebench.plan.handed_down.unknowns import unknown_row
from winebench.plan.handed_down.without_amount import row_without_amount
from winebench.plan.typed.lines import NoAmount, to_the_mark
from winebench.plan.typed.remarks import Asked, Remark, Unread
from winebench.plan.typed.unknown import Unknown
from winebench.plan.typed.when import DAY
from winebench.units import UnitsError, Volume


def read_item(item: Item, told: Known) -> Row:
    """Return how the item is read, with what in it can hurt; nothing that is typed raises."""
    return with_dangers(_read(item, told))


def _read(item: Item, told: Known) -> Row:
    if item.hint == "heading":
        return _heading(item, told)
    if item.hint == "method":
        return kept(item)
    if told.answers.get(key_of(item)) == "note":
        return kept(item, asks=key_of(item), options=("note",), answer="note")
    if DAY.fullmatch(item.words.lower().strip(" .,")):
        return kept(item)
    try:
        field = read_field(item.words)
        if field is not None:
            return field_row(item, field, told)
        return _ingredient(item, told)
    except NoAmount as problem:
        return row_without_amount(item, problem, told)
    except OfWine as problem:
        return _of_wine(item, problem, told)
    except Asked as problem:
        return question(item, str(problem), problem.ways, state="asked")
    except UnitsError as problem:
        ways = problem.ways if isinstance(problem, Unread) else ()
        return question(item, str(problem), ways, state="wrong")


def _of_wine(item: Item, problem: OfWine, told: Known) -> Row:
    """Return bottles as a note where the card says the must as well, else the question."""
    if told.basis is None:
        return question(item, str(problem), problem.ways, state="asked")
    said = (
        f"Bottles are the wine; the card's must of {with_country(told.basis, told.gallon)} counts."
    )
    return replace(kept(item), state="look", remarks=(Remark(sentence=said),))


def _heading(item: Item, told: Known) -> Row:
    """Return a heading; "per gallon" is how much the card makes, where nothing else is."""
    row = Row(item=item, kind="heading", state="read", read_as="Heading")
    per = per_of(item.per)
    if per is None:
        return row
    row = replace(row, read_as=f"Heading: amounts{per.words}")
    if told.basis is not None and told.basis != per.volume:
        return row
    return asked_whose(replace(row, field=Field(name="basis", basis=per.volume)), per.volume, told)


def _ingredient(item: Item, told: Known) -> Row:
    refuse_choice(item.words)
    bare, per = _per(item)
    mark = to_the_mark(item.words)
    if mark is not None:
        return _to_the_mark(item, mark, told)
    found = line_of(bare)
    line, remarks = found.line, found.remarks
    if per is not None and not isinstance(line, YeastLine):
        by_heading = bool(item.per)
        line, said = times(line, per, told.basis, told.gallon)
        as_it_is = by_heading and line == found.line
        remarks = remarks if as_it_is else (*remarks, said)
    if item.fed:
        line = _fed(line)
    if isinstance(line, Unknown):
        return unknown_row(item, line, remarks, told)
    return line_row(item, line, remarks, told)


def _per(item: Item) -> tuple[str, Per | None]:
    """Return the words without "per gallon", and what that says, or else the heading above."""
    bare, per = split_off_per(item.words)
    if per is not None or not item.per:
        return bare, per
    whole = for_the_lot(item.words)
    return (whole, None) if whole is not None else (item.words, per_of(item.per))


def _fed(line: Line | Unknown) -> Line | Unknown:
    """Return the line as it is under a heading of what is fed later."""
    if isinstance(line, Unknown):
        return line._replace(when="feed")
    return changed(line, when="feed") if isinstance(line, SugarLine) else line


def _to_the_mark(item: Item, mark: Volume | str, told: Known) -> Row:
    line = WaterLine(id=line_id(item))
    by_the_gallon = bool(item.per) and told.basis is not None and told.basis.text != mark
    if isinstance(mark, str) or by_the_gallon:
        return Row(item=item, kind="line", state="read", read_as="Water: to the mark", line=line)
    if all(part.number == 0 for part in mark.parts):
        raise Unread(f'"{mark.text}" is nothing; write how far the water goes.')
    field = Field(name="basis", basis=mark)
    said = f"Water: to the mark at {with_country(mark, told.gallon)}"
    row = Row(item=item, kind="line", state="read", read_as=said, line=line, field=field)
    return asked_whose(row, field.basis, told)
