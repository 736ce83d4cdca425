"""Rows of a card, made: figures, lines, questions, words that are kept."""

from __future__ import annotations

from typing import Any, NamedTuple

from msgspec.structs import replace

from winebench.model.edits import changed
from winebench.model.recipe import Line, YeastLine
from winebench.plan.figures import with_country
from winebench.plan.handed_down.own_text import own_text
from winebench.plan.handed_down.shapes import Answer, Field, Item, Row
from winebench.plan.lines import line_name
from winebench.plan.typed.not_in_wine import NotInWine
from winebench.plan.typed.remarks import Remark, Way
from winebench.units import Amount, GallonCountry, Volume

_FIELD_WORDS = {
    "basis": "Makes",
    "gravity": "Wanted gravity",
    "final gravity": "Bottled at",
    "acidity": "Wanted acidity",
    "strength": "Wanted strength",
}


class Known(NamedTuple):
    """What the rest of the card, and the person, say."""

    answers: dict[str, Answer]
    gallon: GallonCountry | None = None
    basis: Volume | None = None


def key_of(item: Item) -> str:
    """Return what an answer to the item as a whole is filed under."""
    return " ".join(item.words.lower().split())


def kept(item: Item, **fields: Any) -> Row:
    """Return words that are kept in the note."""
    return Row(item=item, kind="method", state="read", read_as="Kept as a note", **fields)


def question(item: Item, sentence: str, ways: tuple[Way, ...], *, state: Any) -> Row:
    """Return a row to settle: asked, or wrong."""
    return Row(
        item=item,
        kind="question",
        state=state,
        read_as="Not read" if state == "wrong" else "How much?",
        remarks=(Remark(sentence=sentence, ways=ways),),
        asks=key_of(item),
        options=("note",),
    )


def field_row(item: Item, field: Field, told: Known) -> Row:
    """Return a figure of the whole must."""
    said = _field_text(field, told.gallon)
    row = Row(item=item, kind="field", state="read", read_as=said, field=field)
    if item.behind:
        whose = (
            f'Read as the must\'s. If it is of "{item.behind}" alone, write it behind that in '
            "brackets."
        )
        row = replace(row, state="look", remarks=(Remark(sentence=whose),))
    return asked_whose(row, field.basis, told)


def title_row(item: Item, field: Field, told: Known) -> Row:
    """Return a title that says how much it makes: "Plum wine (1 gallon)"."""
    row = field_row(item, field, told)
    return replace(row, kind="title", read_as=f"Title. {row.read_as}")


def _field_text(field: Field, gallon: GallonCountry | None) -> str:
    values = list(field.targets.values())
    texts = [getattr(value, "text", None) or f"{value:g}" for value in values]
    shown = with_country(field.basis, gallon) if field.basis else "–".join(dict.fromkeys(texts))
    unit = {"acidity": " g/L as tartaric", "strength": " % vol"}.get(field.name, "")
    return f"{_FIELD_WORDS[field.name]} {shown}{unit}"


def asked_whose(row: Row, amount: Amount | None, told: Known) -> Row:
    """Return the row, as a question where its gallon is nobody's yet."""
    if amount is None or not amount.needs_country or told.gallon is not None:
        return row
    said = f"{amount.text}: US or imperial? They differ by a fifth."
    return replace(row, state="asked", remarks=(*row.remarks, Remark(sentence=said)))


def not_in_wine(item: Item, problem: NotInWine) -> Row:
    """Return what never goes in as a note, or as a question that only a note answers."""
    if not problem.may_be_kept:
        row = question(item, str(problem), problem.ways, state="asked")
        return replace(row, read_as=f"Not for the wine: {problem.name.lower()}")
    remark = Remark(sentence=str(problem), ways=problem.ways)
    return replace(
        kept(item), state="look", read_as="Not for the wine; kept as a note", remarks=(remark,)
    )


def must_counts(basis: Volume, told: Known) -> Remark:
    """Return what is said of a number of bottles where the card says how much must as well."""
    said = f"Bottles are the wine; the card's must of {with_country(basis, told.gallon)} counts."
    return Remark(sentence=said)


def line_id(item: Item) -> str:
    """Return an id that the same card gives again; adding it gives the line one of its own."""
    return f"card-{item.start}"


def line_row(
    item: Item, line: Line, remarks: tuple[Remark, ...], told: Known, **fields: Any
) -> Row:
    """Return a line of the recipe, to be looked at where something is to be said of it."""
    line = changed(line, id=line_id(item))
    row = Row(
        item=item,
        kind="line",
        state="look" if remarks else "read",
        read_as=line_text(line, told.gallon),
        remarks=remarks,
        line=line,
        **fields,
    )
    return asked_whose(row, line.amount, told)


def line_text(line: Line, gallon: GallonCountry | None) -> str:
    """Return a line in the program's words: "Plums, prepared: 3 lb, juice 12 brix (ripe)"."""
    name = "Yeast" if isinstance(line, YeastLine) else line_name(line)
    amount = with_country(line.amount, gallon) if line.amount else "to the mark"
    own = own_text(line)
    return (
        f"{name}: {amount}" + (f", {own}" if own else "") + (f" ({line.note})" if line.note else "")
    )
