"""Which step a few words tell of, as somebody notes it after doing it."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable
from typing import Literal, NamedTuple

from winebench.plan.scribbles.sugary import ADDED, SWEET, WEIGHED
from winebench.plan.steps import rules

NOT_DONE = re.compile(
    r"\b(?:not|no|never|forgot|forgotten|didn'?t|couldn'?t|without|skip|skipped|will|should|"
    r"tomorrow|later|needs?|wants?|plan|planned|going to|about to|if|when|todo|to do)\b|\?",
    re.ASCII,
)
_FILLER = re.compile(
    r"\b(?:the|it|them|a|an|again|today|all|out|in|up|well|fruit|bag|must|wine|yeast|starter|"
    r"on|to|into|glass|jug|down|cap|under|first|second|third|1st|2nd|3rd|dose|half|time|with)\b",
    re.ASCII,
)
_ORDINAL = re.compile(
    r"\b(?:(?P<first>first|1st)|(?P<second>second|2nd|other half|rest of)|(?P<third>third|3rd))\b",
    re.ASCII,
)
"""Which of several like steps is meant, as in "second nutrient"."""

LOCK_MOVES = "slow(?:er|ing)?|quiet|fast(?:er)?|moving|working|busy|still"
"""How an airlock is said to go."""

_SO_MUCH = r"(?:(?:\d[\d.,/ ]*|an? |half an? |another )\s*[a-z]+ )?(?:of )?(?:the |more |white )*"
"""An amount before what it is of, as "1 lb of "; or nothing."""

Moment = Literal["any", "must", "yeast", "stable", "bottles"]
"""When words can mean the step: before the yeast, after it, once stabilised, or bottled."""


class Phrase(NamedTuple):
    """Words for a step; of several steps it is the first that is not done yet."""

    words: re.Pattern[str]
    steps: tuple[str, ...]
    moment: Moment = "any"


def _said(words: str, *steps: str, moment: Moment = "any") -> Phrase:
    return Phrase(re.compile(rf"\b(?:{words})", re.ASCII), steps, moment)


PHRASES = (
    _said(rf"stirred\b(?! in (?:\d|.*\b{SWEET}\b))|stir\b|"
          r"punched (?:it |the (?:cap|fruit) )?down|"
          r"pushed (?:down )?(?:the )?(?:cap|fruit)", "stir"),
    _said(r"measured (?:the )?(?:fruit|juice)\b", "measure-fruit"),
    _said(r"pitched\b|pitched the yeast|(?:added|put in) (?:the )?(?:yeast|starter)\b(?! nutri)|"
          r"yeast (?:in|added|went in)\b", "pitch"),
    _said(r"looked over\b|sorted\b|picked over\b", "fruit-accepted"),
    _said(r"cleaned\b|rinsed\b|washed\b|sanitis(?:ed)\b|sanitiz(?:ed)\b", "clean"),
    _said(r"crushed\b|made (?:up )?the must\b|"
          rf"(?:added|put in) {_SO_MUCH}(?:sugar|water)\b|"
          r"sugar (?:and|&|in)\b", "sugar-water", moment="must"),
    _said(r"sul(?:f|ph)ite|metabisulfite", "sulfite-must", moment="must"),
    _said(r"(?:added |put in )?(?:the )?(?:pectic )?enzyme", "enzyme"),
    _said(r"bubbl(?:ing|es)\b(?! (?:every|per|an?)\b)|foam(?:ing|s)\b|foam on top|"
          r"hiss(?:ing|es)\b|fizz(?:ing|es|y)\b|started fermenting|signs? of life\b",
          "sign-of-life", moment="yeast"),
    _said(r"(?:declared |found )?(?:dry (?:and|&|\+) stable|stable (?:and|&|\+) dry)\b",
          "declare-stable", moment="yeast"),
    _said(r"(?:added |fed )?(?:the )?(?:yeast )?nutrient", "first-nitrogen", "second-nitrogen",
          moment="yeast"),
    _said(r"fed (?:the )?(?:must|sugar|wine)|"
          rf"{ADDED} (?:with )?{_SO_MUCH}(?:sugar|{WEIGHED})\b",
          "sugar-feed", moment="yeast"),
    _said(r"bottled\b|corked (?:it|them|all|up|the bottles)\b|filled (?:it into )?"
          r"(?:the |all |all the |\d+ )*bottles\b|\bin(?:to)? (?:the |its |\d+ )*bottles\b",
          "bottle", moment="yeast"),
    _said(r"lifted\b|(?:took|pulled|removed|drained|squeezed) (?:out )?(?:the )?(?:fruit|bag)|"
          r"(?:fruit|bag) out\b", "lift-fruit", moment="yeast"),
    _said(r"racked\b|siphoned\b|moved (?:it )?to (?:glass|the jug)|transferred\b|"
          r"^(?:the )?(?:first|second|third|1st|2nd|3rd) racking (?:with|at)\b",
          "transfer", "second-rack", "third-rack", moment="yeast"),
    _said(r"(?:checked |filled )?(?:the )?(?:air ?)?lock (?:checked|ok|fine|topped)|"
          r"checked (?:the )?(?:air ?)?lock|topped up (?:the )?(?:air ?)?lock|"
          rf"(?:air ?)?lock (?:is |was |still |very |a bit )*(?:{LOCK_MOVES})", "airlock-check"),
    _said(r"topped up\b", "top-up", moment="yeast"),
    _said(r"doubted (?:the |that |this )?reading\b", "doubt-reading", moment="yeast"),
    _said(r"roused\b", "warm-and-rouse", moment="yeast"),
    _said(r"restarted\b", "restart", moment="yeast"),
    _said(r"de-?gassed\b", "degas", moment="yeast"),
    _said(r"fined\b|added (?:the )?finings\b", "fine", moment="yeast"),
    _said(r"stabili[sz]ed\b|(?:added |put in )?(?:the )?(?:potassium )?sorbate", "stabilise",
          moment="yeast"),
    _said(r"(?:back-?)?sweetened\b", "sweeten", moment="yeast"),
    _said(r"blended\b|"
          rf"(?:added|put in) {_SO_MUCH}(?:tartaric |citric |malic )?acid\b",
          "sweeten", moment="stable"),
    _said(r"laid (?:them |the bottles )?down\b", "lie-down", moment="bottles"),
    _said(r"tasted\b|opened (?:one|a bottle)\b", "first-taste", moment="bottles"),
)  # fmt: skip
"""Common words of makers' notebooks; a step without any is found by its own name."""
_VERBS = ("stirred", "pitched", "crushed", "lifted", "racked", "siphoned", "bottled", "sweetened",
          "stabilised", "cleaned", "rinsed", "degassed")  # fmt: skip

_OTHER = ("cleared", "cracked", "tracked", "crusted", "litter", "bottles")
"""Words of their own that look like one of doing."""


class Told(NamedTuple):
    """The step that some words tell of, and whether they say more than that."""

    step: str
    more: bool


def says_more(words: str, done: Callable[[str], bool]) -> bool:
    """Return whether lower-case words say more than that their step was done."""
    told = step_told(words, done)
    return told is None or told.more


def step_told(words: str, done: Callable[[str], bool]) -> Told | None:
    """Return the step that lower-case words tell was done, None where they tell of none."""
    named = next((rule for rule in rules().values() if rule.name.lower() == words), None)
    if named is not None:
        return Told(named.key, False)
    if NOT_DONE.search(words):
        return None
    for phrase in PHRASES:
        found = phrase.words.search(words)
        if found is None or not _fits(phrase.moment, done):
            continue
        step = _which(phrase.steps, words, done)
        beside = words[: found.start()] + words[found.end() :]
        return Told(step, bool(_FILLER.sub("", beside).strip(" .,:;-")))
    return None


def _which(steps: tuple[str, ...], words: str, done: Callable[[str], bool]) -> str:
    """Return which of several steps is meant: the one counted, else the first not done yet."""
    counted = _ORDINAL.search(words) if len(steps) > 1 else None
    if counted is not None:
        place = next(n for n, name in enumerate(("first", "second", "third")) if counted[name])
        return steps[min(place, len(steps) - 1)]
    return next((key for key in steps if not done(key)), steps[-1])


def _fits(moment: Moment, done: Callable[[str], bool]) -> bool:
    if moment == "any":
        return True
    if moment in ("bottles", "stable"):
        return done("bottle" if moment == "bottles" else "stabilise")
    return done("pitch") is (moment == "yeast")


def verb_meant(words: str) -> tuple[str, str] | None:
    """Return a word that nearly is one of doing, as "stired", and the one that it nearly is."""
    for word in re.findall(r"[a-z]{5,}", words, re.ASCII):
        near = difflib.get_close_matches(word, _VERBS, 1, 0.85) if word not in _OTHER else []
        if near and near[0] != word and not near[0].startswith(word):
            return word, near[0]
    return None
