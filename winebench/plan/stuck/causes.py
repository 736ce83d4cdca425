"""Clues to why a ferment stands still, in the order in which to look: the cheapest cure first."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from winebench.model.recipe import YeastLine
from winebench.plan.days import day_words, later, settled
from winebench.plan.readings import Seen
from winebench.plan.steps.first_nitrogen import NUTRIENTS, sugar_half_left
from winebench.plan.strength_now import strength_now, yeast_limit
from winebench.plan.stuck.clue import Clue
from winebench.plan.wanted import (
    LEAST_NITROGEN_MG_PER_L,
    STRONG_SULFITE_MG_PER_L,
    YEAST_MARGIN_PERCENT,
)

if TYPE_CHECKING:
    from winebench.plan.batch import Batch

COLD_CELSIUS = 15.0
HOT_CELSIUS = 30.0
"""Below the one yeast stalls, above the other it dies (common practice)."""
LOW_PH = 3.0
"""Below this yeast is held back (common practice)."""
ROUSING = ("stir", "warm-and-rouse", "transfer", "second-rack", "restart")
_VINEGAR = re.compile(r"vinegar|acetone|nail[- ]varnish|nail[- ]polish|volatile", re.IGNORECASE)
_NONE = re.compile(r"\b(?:no|not|none|without)\b|n['’]t\b", re.IGNORECASE)


def causes(batch: Batch, run: tuple[Seen, ...]) -> tuple[Clue, ...]:
    """Return the clues to the cause; `run` is the readings that stand still, oldest first."""
    return (
        _warmth(batch, run),
        _roused(batch, run),
        _nutrient(batch),
        _strength(batch),
        _sulfite(batch),
        _ph(batch),
        _vinegar(batch),
    )


def _warmth(batch: Batch, run: tuple[Seen, ...]) -> Clue:
    key, name = "warmth", "Warmth"
    noted = [s.reading.temperature for s in batch.ferment if s.reading.temperature]
    hot = max(noted, key=lambda warm: warm.celsius, default=None)
    now = [s.reading.temperature for s in run if s.reading.temperature]
    if not now:
        room = batch.project.room.text
        text = f"not noted lately, and the room was given as {room}; how warm is the wine?"
        return Clue(key, name, None, text)
    coldest = max([COLD_CELSIUS, *_coolest(batch)])
    if now[-1].celsius < coldest:
        text = f"it stood at {now[-1].text}, and this yeast wants {coldest:.0f} °C."
        return Clue(key, name, True, text)
    if hot is not None and hot.celsius > HOT_CELSIUS:
        text = f"it went up to {hot.text}; above {HOT_CELSIUS:.0f} °C yeast dies."
        return Clue(key, name, True, text)
    return Clue(key, name, False, f"it stood at {now[-1].text}, warm enough.")


def _coolest(batch: Batch) -> Iterator[float]:
    lines = batch.project.recipe.lines
    yield from (line.coolest.celsius for line in lines if isinstance(line, YeastLine))


def _roused(batch: Batch, run: tuple[Seen, ...]) -> Clue:
    key, name = "rousing", "Gas and air"
    # Those of an earlier standstill too: what moved it then moved it.
    last = later(*(settled(batch.ticks[k][-1].at) for k in ROUSING if k in batch.ticks))
    if last is None:
        text = "no stirring is noted; was it roused, and can the gas get out?"
        return Clue(key, name, None, text)
    day = day_words(last, batch.now)
    if last > run[0].at:
        return Clue(key, name, False, f"it was moved {day}, and has not fallen since.")
    text = f"not stirred or moved since {day}; the yeast lies under its own gas."
    return Clue(key, name, True, text)


def _nutrient(batch: Batch) -> Clue:
    key, name = "nutrient", "Nutrient"
    brings = batch.recipe.must.nitrogen.value
    if batch.line(*NUTRIENTS) is None:
        if brings is None:
            return Clue(key, name, None, "none on the recipe, and the fruit's own is not known.")
        low = brings < LEAST_NITROGEN_MG_PER_L
        text = f"none on the recipe; the must brings about {brings:.0f} mg/L of nitrogen"
        need = f"yeast needs {LEAST_NITROGEN_MG_PER_L:.0f}"
        return Clue(key, name, low, f"{text}, and {need}." if low else f"{text}, enough.")
    missing = [k for k in ("first-nitrogen", "second-nitrogen") if k not in batch.actions]
    if not missing and brings is not None and brings < LEAST_NITROGEN_MG_PER_L:
        text = f"both halves went in, and with them it is about {brings:.0f} mg/L of nitrogen"
        return Clue(key, name, True, f"{text}, where yeast needs {LEAST_NITROGEN_MG_PER_L:.0f}.")
    if not missing:
        return Clue(key, name, False, "both halves went in.")
    names = " and ".join(batch.rules[k].name.lower() for k in missing)
    now = (
        "more than half of the sugar is left, so it may still go in."
        if sugar_half_left(batch)
        else "below half of the sugar it goes to the starter, no more to the wine."
    )
    return Clue(key, name, True, f"not ticked: {names}; {now}")


def _strength(batch: Batch) -> Clue:
    key, name = "strength", "Strength"
    limit, made = yeast_limit(batch), strength_now(batch)
    if limit is None or made.value is None:
        what = "what the yeast's packet says it stands" if limit is None else "the starting gravity"
        return Clue(key, name, None, f"{made.text} % vol by now; look up {what}.")
    text = f"{made.text} % vol by now; the yeast stands {limit:g} %"
    tired = made.value >= limit - YEAST_MARGIN_PERCENT
    return Clue(key, name, tired, f"{text}, its limit." if tired else f"{text}.")


def _sulfite(batch: Batch) -> Clue:
    key, name = "sulfite", "Sulfite"
    free = [s.reading.free_so2_mg_per_l for s in batch.readings if s.reading.free_so2_mg_per_l]
    read = f"; {free[-1]:g} mg/L free by the last reading" if free else ""
    total = batch.recipe.must.sulfite.value
    if total is None:
        return Clue(key, name, None, f"how much went in is not known{read}; measure the free.")
    if total > 0 and "sulfite-must" not in batch.actions:
        return Clue(key, name, None, f"{total:.0f} mg/L on the recipe, but not ticked{read}.")
    much = total > STRONG_SULFITE_MG_PER_L
    more = (
        f"over the {STRONG_SULFITE_MG_PER_L:.0f} that hold yeast back"
        if much
        else "which yeast bears"
    )
    return Clue(key, name, much, f"{total:.0f} mg/L at the start, {more}{read}.")


def _ph(batch: Batch) -> Clue:
    known = [seen.reading.ph for seen in batch.readings if seen.reading.ph is not None]
    if not known:
        text = "not measured; below 3.0 yeast has a hard time."
        return Clue("ph", "pH", None, text)
    sour = known[-1] < LOW_PH
    says = f"below the {LOW_PH:.1f} that yeast bears" if sour else f"not below {LOW_PH:.1f}"
    return Clue("ph", "pH", sour, f"{known[-1]:g} by the last reading, {says}.")


def _vinegar(batch: Batch) -> Clue:
    key, name = "volatile", "Vinegar"
    said = [(at, words) for at, words in _written(batch) if _VINEGAR.search(words)]
    if not said:
        text = "nothing noted; does it smell of vinegar or nail varnish?"
        return Clue(key, name, None, text)
    at, words = said[-1]
    found = _NONE.search(words) is None
    return Clue(key, name, found, f"noted {at}, “{words.strip()}”.")


def _written(batch: Batch) -> Iterator[tuple[str, str]]:
    """Give the day and the words of everything that was written down, in order of time."""
    for entry in batch.project.entries:
        words = [entry.note, getattr(entry, "text", "")]
        words += [record.value for record in getattr(entry, "records", ())]
        for each in filter(None, words):
            yield day_words(settled(entry.at), batch.now), each
