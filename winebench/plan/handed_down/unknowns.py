"""Things that the catalog does not know: the person says what they are."""

from __future__ import annotations

from winebench.model.recipe import Line
from winebench.plan.handed_down.fields import basis_of
from winebench.plan.handed_down.own_text import own_text
from winebench.plan.handed_down.rows import Known, kept, line_row, question, title_row
from winebench.plan.handed_down.shapes import ANSWERS, Field, Item, Row
from winebench.plan.handed_down.title_size import DRINKS
from winebench.plan.typed.names import Offer, exact, meant, stems
from winebench.plan.typed.number_words import digits
from winebench.plan.typed.offers import known
from winebench.plan.typed.remarks import Remark, Way
from winebench.plan.typed.unknown import Unknown
from winebench.plan.typed.words import FORM_WORDS, in_a_form

MOST_WORDS = 7
"""An ingredient's name is no longer; more is a sentence."""
MOST_SAID = 14
"""So many words may stand behind an amount in front: it is asked about, not dropped."""
_SENTENCE = 20
"""More words than this tell a story, whatever they weigh."""
_MOST_WAYS = 4
_NOT_PLAIN = ("jam", "gelling", "icing")
"""Sugar with pectin, acid or starch in it."""
_NO_KIND = frozenset(("fruit", "berry", "juice", "root", "wine", "type", "melon"))
"""Last words of names that say too little to propose them."""


def unknown_row(item: Item, unknown: Unknown, remarks: tuple[Remark, ...], told: Known) -> Row:
    """Return the question what it is, or the line that the answer makes of it."""
    volume = basis_of(unknown.amount.text) if unknown.amount.dimension == "volume" else None
    words = unknown.name.lower().split()
    named_first = not digits(item.words)[:1].isdigit()
    if volume is not None and named_first and words and words[-1] in DRINKS:
        return title_row(item, Field(name="basis", basis=volume), told)
    if len(words) > (MOST_WORDS if named_first else MOST_SAID):
        if unknown.amount.dimension == "volume" or len(words) > _SENTENCE:
            return kept(item)
        said = "There is an amount in this, and it is no line as it stands: write amount and name."
        return question(item, said, (), state="asked")
    name = unknown.name.lower()
    answer = told.answers.get(name)
    if answer == "note":
        return kept(item, asks=name, options=ANSWERS, answer=answer)
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
    return line_row(item, made[answer], remarks, told, asks=name, options=ANSWERS, answer=answer)


def _like(unknown: Unknown) -> tuple[Way, ...]:
    """Return the known thing that the name ends with as a way out: "Victoria plums" are plums."""
    words = unknown.name.split()
    if words[0].lower() in _NOT_PLAIN:
        return ()
    for start in range(1, len(words)):
        name = " ".join(words[start:])
        offer = exact(name, known())
        if offer is not None and offer.kind in ("fruit", "sugar", "additive"):
            return (_way(unknown, name),)
    told = len(words) > 1 and not stems(words[-1]) & _NO_KIND
    last = meant(words[-1], known(), FORM_WORDS) if told else ()
    return tuple(_way(unknown, offer.name.lower()) for offer in _fruit_of(last)[:_MOST_WAYS])


def _fruit_of(found: tuple[Offer, ...]) -> list[Offer]:
    """Return the fruit among them that is no juice and not bought in another form."""
    return [offer for offer in found if offer.kind == "fruit" and not in_a_form(offer)]


def _way(unknown: Unknown, name: str) -> Way:
    return Way(label=f"It is {name.lower()}", text=_with_form(unknown, name))


def _with_form(unknown: Unknown, name: str) -> str:
    """Return the known thing in the amount, form and time of the unknown one."""
    form = "" if unknown.form == "fresh" else unknown.form
    text = " ".join(filter(None, (unknown.amount.text, form, name)))
    text += ", prepared" if unknown.prepared else ""
    own = own_text(unknown.as_fruit()) or own_text(unknown.as_sugar())
    text += f", {own}" if own else ""
    return text + (", fed later" if unknown.when == "feed" else "")
