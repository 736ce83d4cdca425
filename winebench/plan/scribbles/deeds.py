"""The entries that one scribbled line makes, once its time and its figures are known."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime

from winebench.model.edits import changed
from winebench.model.log import Action, Entry, Note, Reading, Record
from winebench.model.project import Project
from winebench.plan.scribbles.body import Body
from winebench.plan.scribbles.doses import (
    AND_A_HALF,
    HEAVY,
    Dose,
    amount_in_words,
    dose_in,
    record_name,
    unclear_dose,
)
from winebench.plan.scribbles.masked import Masked
from winebench.plan.scribbles.steps import LOCK_MOVES, says_more, step_told, verb_meant
from winebench.plan.scribbles.sugary import as_white_sugar, brings_sugar, unweighed
from winebench.plan.steps import rules
from winebench.plan.typed.number_words import digits
from winebench.units import NUMBER

_LOST = re.compile(
    r"(?:(?:i |we )?(?:lost|loss(?: of)?|spilt|spilled)\s*:?\s*)(?:about |some )?"
    rf"(?P<value>(?:(?:{NUMBER}|\d*\s*[½¼¾⅓⅔])\s*|"
    r"(?:an? |one |two )?(?:half |quarter )?(?:of )?(?:an? )?)"
    r"(?:l|litres?|liters?|ml|fl oz|oz|pt|pints?|qts?|quarts?|gal|gallons?|cups?))\b",
    re.ASCII,
)
_SMELL = re.compile(
    r"(?:(?:it|the (?:must|wine|cap)) )?smell(?:s|ed|ing)?\s*:?\s*"
    r"(?:of |like |was |is )?(?P<value>.+)",
    re.ASCII,
)
_SO_HEAVY = rf"(?P<value>{HEAVY})"
_OF_ACID = r"(?:of )?(?:tartaric |citric |malic )?acid\b"
_ALONE = re.compile(rf"(?:about |some )?{_SO_HEAVY}(?: of it| altogether| in all)?", re.ASCII)
_MASS = re.compile(rf"{_SO_HEAVY}(?!\s*{_OF_ACID})", re.ASCII)
_SO_LONG = r"(?P<value>\d+(?:[.,]\d+)?\s*(?:ml|l|litres?|liters?))\b"
_LOCK = re.compile(rf"(?P<value>(?:{LOCK_MOVES}).*)", re.ASCII)
_AMOUNTS = {
    "grams": _MASS,
    "sugar": _MASS,
    "bag": re.compile(r"(?P<value>\d+(?:[.,]\d+)?\s*kg)\b", re.ASCII),
    "acid": re.compile(rf"{_SO_HEAVY}\s*{_OF_ACID}", re.ASCII),
    "blend": re.compile(rf"\bblended\b.*?{_SO_LONG}", re.ASCII),
    "litres": re.compile(_SO_LONG, re.ASCII),
    "mg-per-l": re.compile(r"(?P<value>\d+(?:[.,]\d+)?\s*(?:mg/l|ppm))", re.ASCII),
    "moving": _LOCK,
    "life": re.compile(r"(?P<value>.+)", re.ASCII),
    "count": re.compile(r"(?P<value>\d+)\s+bottles\b", re.ASCII),
}
"""What a step's records are filled with, by their names."""
EMPTY = ("at", "on", "read", "reading", "gravity", "sg", "temp", "temperature", "was", "is",
         "it was", "checked", "took", "measured", "now")  # fmt: skip
"""Words beside a figure that say nothing more."""
UNCOUNTED = (
    "What was lost is kept in words and not taken off the wine: for that, write it beside the "
    'racking or the lifted fruit, as in "racked, lost 1 pint".'
)
CLEAN = "clean"
"""What goes into that goes into no wine."""
SULFITED = ("stabilise", "sulfite-must")
"""Steps that ask for sulfite themselves."""
TABLETS = "The tablets are taken for sulfite; if they were something else, write that with them."
IN_WORDS = '"{}" is kept in words: no amount in it is reckoned with.'
_IN_GRAMS = '"{}" goes into the sum only as grams or tablets here; write how many.'
_TWICE = 'Two amounts stand here for one thing, "{}" and "{}"; write them as one.'
LOSING = ("lift-fruit", "transfer", "second-rack", "third-rack")


@dataclass(slots=True)
class Deed:
    """One step done: what was written down of it, and the words beside that."""

    records: list[Record] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    said: str = ""
    """The clause that told of it, in small letters."""


@dataclass(slots=True)
class Deeds:
    """What a line says was done, in its order, and the words that belong to none of it."""

    done: dict[str, Deed] = field(default_factory=dict)
    """By the step's key."""
    notes: list[str] = field(default_factory=list)
    slip: tuple[str, str] | None = None
    """A word that nearly is one of doing, and the one that it nearly is."""
    loss: str = ""
    """What was lost, in words, where no step that could lose it stands beside it."""
    sweet: str = ""
    """What went in that may bring sugar, of which nobody has told how much."""
    doses: list[tuple[Dose, str, str]] = field(default_factory=list)
    """Sulfite and sorbate, each with its words and the step that these tell of, or ""."""
    tablets: bool = False
    """Whether tablets of which nobody says what they were are taken for sulfite."""
    in_wine: bool = False
    """Whether the yeast was in before."""
    unclear: str = ""
    """Why a dose cannot be written down: one sentence."""
    in_words: list[str] = field(default_factory=list)
    """Words with an amount that went in and that no record has."""

    def rename(self, step: str, other: str) -> None:
        """Let what was told of that step be of the other one, in its place."""
        self.done = {other if key == step else key: deed for key, deed in self.done.items()}

    def entries(
        self, reading: Reading | None, at: datetime, entry_id: Callable[[int], str], why: str
    ) -> tuple[Entry, ...]:
        """Return the reading first, as a gate may wait for it, then each deed, or a note."""
        note = "; ".join([*([reading.note] if reading and reading.note else ()), *self.notes])
        found: list[Entry] = []
        if reading is not None:
            found.append(changed(reading, note=note))
        for step, deed in self.done.items():
            words = [*deed.words, *(self.notes if not found else ())]
            made = Action(
                id=entry_id(len(found)), at=at, step=step, records=tuple(deed.records),
                override=why, note="; ".join(words),
            )  # fmt: skip
            found.append(made)
        if note and not found:
            found.append(Note(id=entry_id(0), at=at, text=note))
        return tuple(found)


def deeds_of(body: Body, line: Masked, done: Callable[[str], bool], project: Project) -> Deeds:
    """Return what the line's words tell of; `done` says which steps were done before it."""
    deeds = Deeds(in_wine=done("pitch"))
    if AND_A_HALF.search(line.left) and "tablet" in line.left:
        deeds.unclear = "Write halves of tablets as 1.5 tablets."
    lost, loss, smells = "", "", ""
    for start, end in body.clauses:
        words, written = line.left[start:end], line.text[start:end]
        if found := _LOST.search(words):
            lost, loss = written[slice(*found.span("value"))], written[slice(*found.span())]
            words = (words[: found.start()] + words[found.end() :]).strip(" ,;")
            written = (written[: found.start()] + written[found.end() :]).strip(" ,;")
        if found := _SMELL.fullmatch(words):
            smells = written[slice(*found.span("value"))]
            continue
        if _sweet(words, line.left[:start], done):
            deeds.sweet = deeds.sweet or written
        _hear(deeds, words, written, done, project)
    _give(deeds)
    if not _put(deeds, "lost", lost, loss, LOSING):
        deeds.loss = loss
    _put(deeds, "smell", smells, f"smell: {smells}", _recording("smell"))
    return deeds


def _sweet(words: str, before: str, done: Callable[[str], bool]) -> bool:
    """Return whether something sweet went in after the yeast that is no deed of its own."""
    if not done("pitch") or not brings_sugar(words, before):
        return False
    told = step_told(words, done)
    return told is None or told.step in ("top-up", "stir")


def _hear(
    deeds: Deeds, words: str, written: str, done: Callable[[str], bool], project: Project
) -> None:
    told = step_told(words, done) if words else None
    dose = dose_in(words)
    deeds.unclear = deeds.unclear or unclear_dose(words, dose)
    if told is None and dose is not None:
        deeds.doses.append((dose, written, ""))
        return
    if told is None and _is_of_the_last(deeds, words, written, project):
        return
    if told is None:
        if amount_in_words(words):
            deeds.in_words.append(written)
        if words and words not in EMPTY:
            deeds.notes.append(written)
            deeds.slip = deeds.slip or verb_meant(words)
        return
    deed = deeds.done.setdefault(told.step, Deed(said=words))
    for record in rules()[told.step].record:
        pattern = _AMOUNTS.get(record.name)
        if record.name in ("grams", "sugar") and unweighed(words):
            continue  # two kilos of raisins are not two kilos of sugar
        if pattern is not None and (found := pattern.search(words)):
            value = written[slice(*found.span("value"))]
            if record.name in ("grams", "sugar"):
                value = as_white_sugar(words, value, project)
            deed.records.append(Record(name=record.name, value=digits(value)))
            words = words[: found.start()] + words[found.end() :]
    while (dose := dose_in(words)) is not None and record_name(dose, told.step):
        deeds.doses.append((dose, written, told.step))
        words = words[: dose.start] + words[dose.end :]
    if amount_in_words(words):
        deeds.in_words.append(written)
    if words.strip() and says_more(words, done):
        deed.words.append(written)


def _is_of_the_last(deeds: Deeds, words: str, written: str, project: Project) -> bool:
    """Write an amount that stands alone behind a comma down with the deed before it.

    Return whether there was one that asks for such an amount and has none yet: "second
    nutrient, 7 g". How much "added raisins, 2 lb" brings nobody can tell.
    """
    found, step = _ALONE.fullmatch(words), next(reversed(deeds.done), "")
    if found is None or not step or unweighed(deeds.done[step].said):
        return False
    deed = deeds.done[step]
    name = next((one.name for one in rules()[step].record if one.name in ("grams", "sugar")), "")
    if not name or any(record.name == name for record in deed.records):
        return False
    value = as_white_sugar(deed.said, written[slice(*found.span("value"))], project)
    deed.records.append(Record(name=name, value=digits(value)))
    return True


def _give(deeds: Deeds) -> None:
    """Write each dose down with the deed that it belongs to; without one it stays words."""
    for dose, written, told in deeds.doses:
        step = told or next((key for key in SULFITED if key in deeds.done), "")
        step = step or next(reversed(deeds.done), "")
        name = record_name(dose, step)
        if not step or step == CLEAN:
            deeds.notes.append(written)
            deeds.in_words += [written] if step else []
        elif name is None:
            deeds.unclear = deeds.unclear or _IN_GRAMS.format(written)
        else:
            noted = deeds.done[step].records
            before = next((one.value for one in noted if one.name == name), "")
            if before:
                deeds.unclear = deeds.unclear or _TWICE.format(before, dose.value)
            noted.append(Record(name=name, value=dose.value))
            if dose.kind == "tablets" and not dose.named and step not in SULFITED:
                deeds.tablets = True


def _recording(name: str) -> tuple[str, ...]:
    return tuple(key for key, rule in rules().items() if any(r.name == name for r in rule.record))


def _put(deeds: Deeds, name: str, value: str, words: str, steps: tuple[str, ...]) -> bool:
    """Write the value down with the last deed that it can belong to, else among the notes.

    Return whether it found its place, or there was none to write.
    """
    if not value:
        return True
    step = next((key for key in reversed(deeds.done) if key in steps), None)
    if step is None:
        deeds.notes.append(words)
    else:
        plain = digits(value) if name == "lost" else value
        deeds.done[step].records.append(Record(name=name, value=plain))
    return step is not None
