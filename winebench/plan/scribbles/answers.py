"""What a line comes to: kept, known already, a heading, or asked about."""

from __future__ import annotations

import re
from datetime import datetime

from winebench.model.edits import changed
from winebench.model.log import Action, Entry, Note
from winebench.model.project import Project
from winebench.plan.scribbles.deeds import Deeds
from winebench.plan.scribbles.gates import entry_words
from winebench.plan.scribbles.lines import Line
from winebench.plan.scribbles.shapes import Offer, Scribble
from winebench.plan.scribbles.slipped import glued, left_over, mistyped
from winebench.plan.scribbles.steps import NOT_DONE
from winebench.plan.scribbles.when import COMING
from winebench.plan.typed.when import day_name

_DENIED = re.compile(
    r"\b(?:not|never|no longer|no|nor|neither|\w+n't|isnt|wasnt|hasnt|didnt)\b"
    r"(?:[ :]+(?:yet|quite|even|at|below|above|under|over|near|reached|reach|read|reading|really|"
    r"sg|gravity|the|a|got|down|up|to|been|exactly|about|still))*[ :]*$",
    re.ASCII,
)
"""What denies the gravity that follows, as "it was not "."""
_COUNTED = re.compile(
    r"\b\d+\s*(?:x|times|bubbles?|blips?|sec(?:ond)?s?|min(?:ute)?s?|h|hours?|people|friends)\b|\b\d+°?[cf]\b",
    re.ASCII,
)
"""Numbers in words that measure nothing of the wine."""


_SULFITE = re.compile(r"\b(?:sul(?:f|ph)ites?|meta-?bisul(?:f|ph)ite)\b", re.ASCII)
_NOT_IN = re.compile(r"\b(?:smel\w*|tast\w*|buy|bought|next)\b", re.ASCII)
"""What tells of sulfite that did not go in."""
_WENT_IN = re.compile(r"^(?:added|put in|gave(?: it)?)\s+", re.ASCII | re.IGNORECASE)


def asked(line: Line, problem: str, offers: tuple[Offer, ...] = ()) -> Scribble:
    """Return the line with its question; keeping it word for word as a note always answers."""
    keep = f"note: {line.text.strip()}"
    if line.when.at is not None and line.when.day is not None:
        keep = f"{day_name(line.when.day)} {line.when.at:%H:%M} {keep}"
    return Scribble(
        line.number,
        line.text,
        line.when.at,
        line.when_words,
        trouble=problem,
        offers=(*offers, Offer("Keep it as a note", keep)),
    )


def kept(line: Line, entries: tuple[Entry, ...], log: list[Entry], project: Project) -> Scribble:
    """Return the line with those of its entries that the log has not yet."""
    dated = line.when.day is not None
    new = tuple(e for e in entries if not any(_same(e, other, dated=dated) for other in log))
    again = (entry_words(entry, project) for entry in entries if new and entry not in new)
    return Scribble(
        line.number,
        line.text,
        line.when.at,
        line.when_words,
        entries=new or entries,
        what=tuple(entry_words(entry, project) for entry in new or entries),
        doubts=tuple(f"Not added again, as it stands at that time already: {w}." for w in again),
        known=not new,
    )


def _same(entry: Entry, other: Entry, *, dated: bool) -> bool:
    if not dated and isinstance(entry, Note) and isinstance(other, Note):
        return entry.text == other.text
    if type(entry) is not type(other) or entry.at != other.at:
        return False
    if isinstance(entry, Action) and isinstance(other, Action) and entry.step == other.step:
        return entry.records == other.records
    return changed(entry, id="", at=other.at) == changed(other, id="")


def slipped(line: Line) -> Scribble | None:
    """Return the question about a number that could be a gravity, None where there is none."""
    found, why = mistyped(line.masked), "has a letter among its digits"
    if found is None:
        found, why = glued(line.masked), "has more digits than a gravity"
    if found is None and not line.body.typed.gravity:
        found, why = left_over(line.masked), "could be a gravity"
    if found is None:
        return None
    written = line.text[found.start : found.end]
    offer = Offer(found.meant, line.masked.replaced(found.start, found.end, found.meant))
    return asked(line, f'"{written}" {why}. Did you read {found.meant}?', (offer,))


def denied(line: Line) -> Scribble | None:
    """Return the question about a gravity that the line says was not read, else None."""
    place = line.body.places.get("gravity")
    if place is None or not _DENIED.search(line.text[: place[0]].lower()):
        return None
    written = line.text[slice(*place)]
    return asked(line, f"It says that the gravity was not {written}; write the one that was read.")


def to_come(line: Line) -> Scribble | None:
    """Return that a day named among the words is still to come, else None."""
    for start, end in line.body.clauses:
        words = line.text[start:end]
        if COMING.fullmatch(words.lower()):
            said = words[0].upper() + words[1:]
            return asked(line, f"{said} is still to come; log it then.")
    return None


def unread(line: Line, deeds: Deeds, *, has_reading: bool) -> Scribble | None:
    """Return the line as asked about or as a heading, or None where it makes entries."""
    if (lead := _lead(line)) and not line.when.written:
        return asked(line, f'"{lead}" cannot be read; is it the day? Write it such as 3 Nov.')
    if deeds.slip is not None and not deeds.done:
        word, meant = deeds.slip
        at = line.masked.left.index(word)
        offer = Offer(meant, line.masked.replaced(at, at + len(word), meant))
        return asked(line, f'"{word}" is nothing done. Did you mean "{meant}"?', (offer,))
    if not deeds.done and deeds.doses:
        dose, written, _step = deeds.doses[0]
        if not dose.named or not deeds.in_wine:
            return asked(line, f'"{written}": was that sulfite?', _with_what(line, deeds, written))
        return asked(line, _which_sulfite(written), _with_what(line, deeds, written))
    if not deeds.done and (sulfite := next(filter(_is_sulfite, deeds.notes), None)):
        return asked(line, _which_sulfite(sulfite), _with_what(line, deeds, sulfite))
    if has_reading or deeds.done:
        return None
    if not deeds.notes:
        if line.when.written:
            day = line.when_words.rpartition(" ")[0]
            return Scribble(line.number, line.text, line.when.at, day, heading=True)
        return asked(line, "It says nothing that can be logged.")
    open_ = next((w for w in deeds.notes if w != deeds.loss and _has_number(w)), None)
    if open_ is not None:
        return asked(line, f'What the number in "{open_}" means cannot be told.')
    return None


def _is_sulfite(words: str) -> bool:
    """Return whether the words tell of sulfite that went in, which is no step by itself then."""
    plain = words.lower()
    out = NOT_DONE.search(plain) or _NOT_IN.search(plain)
    return _SULFITE.search(plain) is not None and out is None


def _which_sulfite(written: str) -> str:
    return (
        f'"{written}": after the yeast sulfite counts with the stabilising or with a racking, so '
        "write it beside that."
    )


def _with_what(line: Line, deeds: Deeds, written: str) -> tuple[Offer, ...]:
    """Return the line with the deed that the sulfite was part of."""
    dose = _WENT_IN.sub("", written)
    if "tablet" in dose and not _SULFITE.search(dose.lower()):
        dose = re.sub(r"(?i)(?:campden )?(tablets?)", r"sulfite \1", dose)
    if not deeds.in_wine:
        return _instead(line, written, ("Sulfite into the must", f"sulfited with {dose}"))
    return _instead(
        line,
        written,
        ("It stabilised the wine", f"stabilised with {dose}"),
        ("It went in at a racking", f"racked with {dose}"),
    )


def _instead(line: Line, written: str, *said: tuple[str, str]) -> tuple[Offer, ...]:
    """Return the line with other words in the place of those, for each of the answers."""
    return tuple(
        Offer(label, line.text.replace(written, words, 1))
        for label, words in said
        if written in line.text
    )


def _has_number(words: str) -> bool:
    return any(letter.isdigit() for letter in _COUNTED.sub("", words.lower()))


def _lead(line: Line) -> str:
    """Return words with a number that stand before the line's figures, or ""."""
    figures = [start for start, _end in line.body.places.values()]
    for start, end in line.body.clauses[:1]:
        words = line.text[start:end]
        if figures and end <= min(figures) and any(letter.isdigit() for letter in words):
            return words
    return ""


def with_year(line: Line, at: datetime) -> tuple[Offer, ...]:
    """Return the line with its day written out, for whoever means it so."""
    full = day_name(at.date())
    return (Offer(f"It is {full}", line.text.replace(line.when.written, full, 1)),)
