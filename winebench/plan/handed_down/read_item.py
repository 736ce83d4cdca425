"""Read one item of a card: an ingredient, a figure, words to keep, or a question."""

from __future__ import annotations

import re

from msgspec.structs import replace

from winebench.catalog.never_food import never_food_in
from winebench.model.edits import changed
from winebench.model.recipe import Line, SugarLine, WaterLine, YeastLine
from winebench.plan.figures import with_country
from winebench.plan.handed_down.choices import refuse_choice
from winebench.plan.handed_down.dangers import with_dangers
from winebench.plan.handed_down.fields import OfWine, read_field
from winebench.plan.handed_down.late import (
    SORBATE_LATE,
    SWEETENED_LATE,
    is_for_the_end,
    is_sorbate,
    refuse_later,
)
from winebench.plan.handed_down.per_volume import (
    Per,
    for_the_lot,
    per_of,
    refuse_by_weight,
    split_off_per,
    times,
    with_per,
)
from winebench.plan.handed_down.reads import line_of
from winebench.plan.handed_down.rows import (
    Known,
    asked_whose,
    field_row,
    kept,
    key_of,
    line_id,
    line_row,
    must_counts,
    not_in_wine,
    question,
)
from winebench.plan.handed_down.shapes import Field, Item, Row
from winebench.plan.handed_down.unknowns import unknown_row
from winebench.plan.handed_down.without_amount import row_without_amount
from winebench.plan.typed.lines import NoAmount, TypedLine, to_the_mark
from winebench.plan.typed.not_in_wine import NotInWine, refusal_of_unknown
from winebench.plan.typed.remarks import Asked, Remark, Unread
from winebench.plan.typed.unknown import Unknown
from winebench.plan.typed.when import DAY
from winebench.units import UnitsError, Volume

_ORDINAL = re.compile(r"(?i)\d{1,2}(?:st|nd|rd|th)\b")
"""A first or second of something, and no amount of it."""
_FIGURE = re.compile(
    r"(?i)\d\s*(?:%|per\s?cent\b|°|brix\b|gal(?:lon)?s?\b|lit(?:re|er)s?\b|L\b|lbs?\b|kg\b)|\b1[.,][01]\d\d\b"
)
_FEW = 4
"""So few words may be a thing on the list, though they begin like something to do."""


def read_item(item: Item, told: Known) -> Row:
    """Return how the item is read, with what in it can hurt; nothing that is typed raises."""
    return with_dangers(_with_figure(_read(item, told)))


def _with_figure(row: Row) -> Row:
    """Return words that are kept, and say a figure, with that it is not used."""
    item = row.item
    if (row.kind, row.state, row.answer, item.hint) != ("method", "read", None, "any"):
        return row
    if _FIGURE.search(item.words) is None:
        return row
    return replace(row, state="look", remarks=(Remark(sentence="The figure in it is not used."),))


def _read(item: Item, told: Known) -> Row:
    if item.hint == "heading":
        return _heading(item, told)
    if item.hint == "method":
        return _method(item)
    if told.answers.get(key_of(item)) == "note":
        return kept(item, asks=key_of(item), options=("note",), answer="note")
    if DAY.fullmatch(item.words.lower().strip(" .,")):
        return kept(item)
    try:
        field = _field_of(item.words)
        if field is not None:
            return field_row(item, field, told)
        return _ingredient(item, told)
    except NoAmount as problem:
        if item.ends:  # the plan works out how much the finished wine gets
            return kept(item)
        return row_without_amount(item, problem, told)
    except OfWine as problem:
        return _of_wine(item, problem, told)
    except NotInWine as problem:
        return not_in_wine(item, problem)
    except Asked as problem:
        return question(item, str(problem), problem.ways, state="asked")
    except UnitsError as problem:
        if _ORDINAL.match(item.words) and not isinstance(problem, Unread):
            return row_without_amount(item, NoAmount(str(problem), None, whole=False), told)
        ways = problem.ways if isinstance(problem, Unread) else ()
        return question(item, str(problem), ways, state="wrong")


def _field_of(words: str) -> Field | None:
    """Return the figure that the words state, or None; "1 tsp/5 L" is a dose, no amount twice."""
    try:
        return read_field(words)
    except Unread:
        if split_off_per(words)[1] is None:
            raise
        return None


def _method(item: Item) -> Row:
    """Return words to keep; "drain cleaner" begins with a verb and is none."""
    few = len(item.words.split()) <= _FEW and never_food_in(item.words) is not None
    amounts = any(map(str.isdigit, item.words))
    refused = refusal_of_unknown(item.words, has_amount=amounts) if few else None
    return not_in_wine(item, refused) if refused is not None else kept(item)


def _of_wine(item: Item, problem: OfWine, told: Known) -> Row:
    """Return bottles as a note where the card says the must as well, else the question."""
    if told.basis is None:
        return question(item, str(problem), problem.ways, state="asked")
    return replace(kept(item), state="look", remarks=(must_counts(told.basis, told),))


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
    refuse_by_weight(item.words)
    bare, per = _per(item)
    try:
        refuse_choice(item.words if per is None else bare)
    except Asked as problem:
        problem.ways = (
            with_per(problem.ways, per) if per is not None and not item.per else (problem.ways)
        )
        raise
    mark = to_the_mark(item.words)
    if mark is not None:
        return _to_the_mark(item, mark, told)
    found = _line_by(bare, split_off_per(item.words)[1])
    line, remarks = found.line, found.remarks
    if item.fed or item.ends:
        refuse_later(item, line)
    if is_for_the_end(item, line):
        return replace(kept(item), state="look", remarks=(SWEETENED_LATE,))
    if per is not None and not (item.per and isinstance(line, YeastLine)):
        line, said = times(line, per, told.basis, told.gallon)
        as_it_is = bool(item.per) and line == found.line
        remarks = remarks if as_it_is else (said, *remarks)
    if item.fed:
        line = _fed(line)
    if isinstance(line, Unknown):
        return unknown_row(item, line, remarks, told)
    if is_sorbate(line):
        late = (SORBATE_LATE, *remarks)
        return line_row(item, line, late, told, asks=key_of(item), options=("note",))
    return line_row(item, line, remarks, told)


def _line_by(text: str, per: Per | None) -> TypedLine:
    """Return the line meant by the words; what can be written instead is by the volume too.

    Raises:
        UnitsError: as `line_of` does.

    """
    try:
        found = line_of(text)
    except Unread as problem:
        if per is not None:
            problem.ways = with_per(problem.ways, per)
        raise
    if per is None:
        return found
    remarks = (
        Remark(sentence=said.sentence, ways=with_per(said.ways, per)) for said in found.remarks
    )
    return found._replace(remarks=tuple(remarks))


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
