"""Read one item of a card: an ingredient, a figure, words to keep, or a question."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from msgspec.structs import replace

from winebench.model.edits import changed
from winebench.model.recipe import Line, WaterLine, YeastLine
from winebench.plan.figures import with_country
from winebench.plan.handed_down.choices import refuse_choice
from winebench.plan.handed_down.fields import basis_of, read_field
from winebench.plan.handed_down.per_volume import split_off_per, times
from winebench.plan.handed_down.shapes import ANSWERS, Answer, Field, Item, Row
from winebench.plan.lines import line_name
from winebench.plan.typed.lines import NoAmount, Unknown, to_the_mark, typed_line
from winebench.plan.typed.names import exact
from winebench.plan.typed.number_words import digits
from winebench.plan.typed.offers import known
from winebench.plan.typed.remarks import Asked, Remark, Unread, Way, written
from winebench.units import Amount, GallonCountry, UnitsError, Volume

_MOST_WORDS = 7
"""An ingredient's name is no longer; more is a sentence."""
_DRINKS = ("wine", "mead")
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


def read_item(item: Item, told: Known) -> Row:
    """Return how the item is read; nothing that is typed raises."""
    if item.hint == "heading":
        return Row(item=item, kind="heading", state="read", read_as="Heading")
    if item.hint == "method":
        return _method(item)
    if told.answers.get(_key(item)) == "note":
        return _method(item, asks=_key(item), options=("note",), answer="note")
    try:
        field = read_field(item.text)
        if field is not None:
            return _field(item, field, told)
        return _ingredient(item, told)
    except NoAmount as problem:
        return _without_amount(item, problem, told)
    except Asked as problem:
        return _question(item, str(problem), problem.ways, state="asked")
    except UnitsError as problem:
        ways = problem.ways if isinstance(problem, Unread) else ()
        return _question(item, str(problem), ways, state="wrong")


def _key(item: Item) -> str:
    return " ".join(item.text.lower().split())


def _method(item: Item, **fields: Any) -> Row:
    return Row(item=item, kind="method", state="read", read_as="Kept as a note", **fields)


def _question(item: Item, sentence: str, ways: tuple[Way, ...], *, state: Any) -> Row:
    return Row(
        item=item,
        kind="question",
        state=state,
        read_as="Not read" if state == "wrong" else "How much?",
        remarks=(Remark(sentence=sentence, ways=ways),),
        asks=_key(item),
        options=("note",),
    )


# --- figures ---------------------------------------------------------------------------------


def _field(item: Item, field: Field, told: Known) -> Row:
    said = _field_text(field, told.gallon)
    row = Row(item=item, kind="field", state="read", read_as=said, field=field)
    return _asked_whose(row, field.basis, told)


def _as_title(item: Item, field: Field, told: Known) -> Row:
    """Return a title that says how much it makes: "Plum wine (1 gallon)"."""
    row = _field(item, field, told)
    return replace(row, kind="title", read_as=f"Title. {row.read_as}")


def _field_text(field: Field, gallon: GallonCountry | None) -> str:
    values = list(field.targets.values())
    texts = [getattr(value, "text", None) or f"{value:g}" for value in values]
    shown = with_country(field.basis, gallon) if field.basis else "–".join(dict.fromkeys(texts))
    unit = {"acidity": " g/L as tartaric", "strength": " % vol"}.get(field.name, "")
    return f"{_FIELD_WORDS[field.name]} {shown}{unit}"


def _asked_whose(row: Row, amount: Amount | None, told: Known) -> Row:
    """Return the row, as a question where its gallon is nobody's yet."""
    if amount is None or not amount.needs_country or told.gallon is not None:
        return row
    said = f"{amount.text}: US or imperial? They differ by a fifth."
    return replace(row, state="asked", remarks=(*row.remarks, Remark(sentence=said)))


# --- ingredients -----------------------------------------------------------------------------


def _ingredient(item: Item, told: Known) -> Row:
    refuse_choice(item.text)
    bare, per = split_off_per(item.text)
    mark = to_the_mark(bare)
    if mark is not None:
        return _to_the_mark(item, mark, told)
    found = typed_line(bare, known())
    line, remarks = found.line, found.remarks
    if per is not None:
        line, said = times(line, per, told.basis, told.gallon)
        remarks = (*remarks, said)
    if isinstance(line, Unknown):
        return _unknown(item, line, remarks, told)
    return _line(item, line, remarks, told)


def _to_the_mark(item: Item, mark: Volume | str, told: Known) -> Row:
    line = WaterLine(id=_line_id(item))
    if isinstance(mark, str):
        return Row(item=item, kind="line", state="read", read_as="Water: to the mark", line=line)
    field = Field(name="basis", basis=mark)
    said = f"Water: to the mark at {with_country(mark, told.gallon)}"
    row = Row(item=item, kind="line", state="read", read_as=said, line=line, field=field)
    return _asked_whose(row, field.basis, told)


def _line_id(item: Item) -> str:
    """Return an id that the same card gives again; adding it gives the line one of its own."""
    return f"card-{item.start}"


def _line(item: Item, line: Line, remarks: tuple[Remark, ...], told: Known, **fields: Any) -> Row:
    line = changed(line, id=_line_id(item))
    row = Row(
        item=item,
        kind="line",
        state="look" if remarks else "read",
        read_as=_line_text(line, told.gallon),
        remarks=remarks,
        line=line,
        **fields,
    )
    return _asked_whose(row, line.amount, told)


def _line_text(line: Line, gallon: GallonCountry | None) -> str:
    name = "Yeast" if isinstance(line, YeastLine) else line_name(line)
    amount = with_country(line.amount, gallon) if line.amount else "to the mark"
    return f"{name}: {amount}" + (f" ({line.note})" if line.note else "")


def _unknown(item: Item, unknown: Unknown, remarks: tuple[Remark, ...], told: Known) -> Row:
    volume = basis_of(unknown.amount.text) if unknown.amount.dimension == "volume" else None
    words = unknown.name.lower().split()
    named_first = not digits(item.text)[:1].isdigit()
    if volume is not None and named_first and words and words[-1] in _DRINKS:
        return _as_title(item, Field(name="basis", basis=volume), told)
    if len(words) > _MOST_WORDS:
        return _method(item)
    name = unknown.name.lower()
    answer = told.answers.get(name)
    if answer == "note":
        return _method(item, asks=name, options=ANSWERS, answer=answer)
    if answer is None:
        said = f'"{unknown.name}" is not in the catalog. What is it?'
        like = _like(unknown)
        return Row(
            item=item,
            kind="question",
            state="asked",
            read_as=f"{unknown.name}: {unknown.amount.text}",
            remarks=(Remark(sentence=said, ways=like), *remarks),
            asks=name,
            options=ANSWERS,
        )
    made: dict[str, Line] = {
        "fruit": unknown.as_fruit(),
        "sugar": unknown.as_sugar(),
        "additive": unknown.as_additive(),
    }
    return _line(item, made[answer], remarks, told, asks=name, options=ANSWERS, answer=answer)


def _like(unknown: Unknown) -> tuple[Way, ...]:
    """Return the known thing that the name ends with as a way out: "Victoria plums" are plums."""
    words = unknown.name.split()
    for start in range(1, len(words)):
        name = " ".join(words[start:])
        offer = exact(name, known())
        if offer is not None and offer.kind in ("fruit", "sugar", "additive"):
            text = f"{unknown.amount.text} {name}"
            return (Way(label=f"It is {name.lower()}", text=text),)
    return ()


def _without_amount(item: Item, problem: NoAmount, told: Known) -> Row:
    """Return yeast as one packet, a known thing as a question, other words as words."""
    aside = re.search(r"\(([^()]*)\)", item.text)
    inside = read_field(aside[1]) if aside else None
    if inside is not None and inside.basis is not None:
        return _as_title(item, inside, told)
    found, words = problem.found, item.text.strip(" .:")
    if found is not None and found.kind == "yeast":
        sort = "" if exact(words, (found,)) else words
        line = YeastLine(id=_line_id(item), amount=Amount("1 packet"), note=sort)
        said = Remark(
            sentence="No amount is written; one packet is taken.",
            ways=(written(f"2 packets {words.lower()}"),),
        )
        return Row(item=item, kind="line", state="look", read_as=_line_text(line, None), line=line,
                   remarks=(said,))  # fmt: skip
    if found is not None and problem.whole:
        return _question(
            item, f"How much {words.lower()}? Write the amount in front of it.", (), state="asked"
        )
    return _method(item)
