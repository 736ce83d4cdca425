"""Sulfite and sorbate that a line says went in: noted with the deed beside them, or asked about."""

from __future__ import annotations

import re
from typing import Literal, NamedTuple

from winebench.plan.doses_given import SULFITE
from winebench.plan.scribbles.steps import NOT_DONE
from winebench.plan.typed.number_words import digits
from winebench.units import NUMBER

HEAVY = (
    r"(?:\d[\d.,/]*(?: \d+/\d+|\s*[½¼¾⅓⅔])?|[½¼¾⅓⅔]|\ban?|\bhalf an?)\s*"
    r"(?:g|grams?|kg|kilos?|lbs?|pounds?|oz|ounces?|cups?|tsps?|teaspoons?|tbsps?|tablespoons?)\b"
)
"""An amount of what is weighed or spooned."""
_SALT = r"(?:(?:potassium|sodium) )?(?:meta-?bisul(?:f|ph)ite|meta\b|sul(?:f|ph)ites?\b)"
_BEHIND = r"(?:\s*[:=]?\s+|\s*[:=]\s*)"
_COUNT = (
    rf"(?P<count>(?<![\d.,/])(?:\d*\s*[½¼¾⅓⅔]|{NUMBER})|\bhalf an?"
    r"|\b(?:an?|one|two|three|four|five|six)(?= ))"
)
_TABLETS = re.compile(
    rf"{_COUNT}\s*(?:x\s+)?(?:crushed\s+)?(?P<of>sul(?:f|ph)ite|campden|metabisul(?:f|ph)ite)?\s*"
    r"\btablets?\b(?: (?:of )?(?:sul(?:f|ph)ite|metabisul(?:f|ph)ite)\b)?"
    r"(?! (?:of )?(?:[a-z]+ )?(?:nutrients?|yeast|enzymes?|pectic|energi[sz]er|vitamin|acid)\b)",
    re.ASCII,
)
_WEIGHED = re.compile(
    rf"(?P<value>{HEAVY})\s*(?:of )?(?P<salt>{_SALT})"
    rf"|(?P<salt_first>{_SALT}){_BEHIND}(?P<value_behind>{HEAVY})",
    re.ASCII,
)
_PER_LITRE = re.compile(
    rf"(?:{_SALT}(?:{_BEHIND}|\s+at\s+))?(?P<value>\d+(?:[.,]\d+)?\s*(?:mg/l|ppm)\b)"
    rf"(?:\s*(?:of )?{_SALT})?",
    re.ASCII,
)
_SORBATE = re.compile(
    rf"(?P<value>{HEAVY})\s*(?:of )?(?:potassium )?sorbate\b"
    rf"|\bsorbate{_BEHIND}(?P<value_behind>{HEAVY})",
    re.ASCII,
)
_NO_DOSE = re.compile(
    r"\b(?:smel\w*|tast\w*|buy|bought|next|free|left|spare|clean\w*|rins\w*|wash\w*|saniti\w*|"
    r"steril\w*)\b",
    re.ASCII,
)
"""What tells of sulfite that did not go into the wine, or of what was measured."""
_EACH = re.compile(
    r"(?:\bper|/|\beach|\bin (?:each|every))\s*(?:(?:us|imperial|uk) )?"
    r"(?:gal\w*|l\b|lit(?:re|er)s?|jugs?|demijohns?|carboys?|bottles?|pails?)"
    r"|\ba (?:gallon|lit(?:re|er))\b",
    re.ASCII,
)
_UNCOUNTED = re.compile(
    r"(?:added|put in|with|gave)\b (?:the |some |crushed |sul(?:f|ph)ite |campden )*tablets?\b",
    re.ASCII,
)
AND_A_HALF = re.compile(
    r"\b(?:\d+|an?|one|two|three|four|five|six)(?: tablets?)? and (?:an? )?half"
    r"(?: (?:sul(?:f|ph)ite|campden))?(?: tablets?)?\b",
    re.ASCII,
)
"""Words that come apart at their "and"."""
_LEFT = re.compile(
    rf"(?:\b(?:added|put in|gave|with)\b.*?|^)(?:{HEAVY}|\d\s*(?:tablets?|mg/l|ppm)\b)", re.ASCII
)
_FIELDS: dict[str, dict[str, str]] = {
    "stabilise": {"weighed": "sulfite", "mg-per-l": "mg-per-l", "sorbate": "sorbate"},
    "sulfite-must": {"weighed": "grams", "mg-per-l": "mg-per-l"},
}
"""Under which names the steps that ask for sulfite ask for it."""


class Dose(NamedTuple):
    """What went in by some words, and where it stands among them."""

    kind: Literal["weighed", "tablets", "sodium", "mg-per-l", "sorbate"]
    value: str
    start: int
    end: int
    named: bool
    """Whether the words say of what the tablets were."""


def dose_in(words: str) -> Dose | None:
    """Return the first dose of sulfite or sorbate that lower-case words say went in, or None."""
    if NOT_DONE.search(words) or _NO_DOSE.search(words):
        return None
    if found := _SORBATE.search(words):
        return Dose("sorbate", _value(found), *found.span(), named=True)
    if found := _WEIGHED.search(words):
        salt = found["salt"] or found["salt_first"]
        kind: Literal["sodium", "weighed"] = "sodium" if salt.startswith("sodium") else "weighed"
        return Dose(kind, _value(found), *found.span(), named=True)
    if found := _TABLETS.search(words):
        count = digits(f"{found['count']} tablets").removesuffix(" tablets")
        count = {"a": "1", "an": "1"}.get(count, count)
        value = f"{count} tablet{'' if count == '1' else 's'}"
        named = "ul" in found[0] or bool(found["of"])
        return Dose("tablets", value, *found.span(), named=named)
    if found := _PER_LITRE.search(words):
        return Dose("mg-per-l", digits(found["value"]), *found.span(), named=True)
    return None


def _value(found: re.Match[str]) -> str:
    return digits(found["value"] or found["value_behind"])


def record_name(dose: Dose, step: str) -> str | None:
    """Return under which name a step's tick notes the dose; None where it can note none such."""
    own = _FIELDS.get(step, {})
    if dose.kind == "sodium":
        return "sodium-metabisulfite"
    if dose.kind in ("weighed", "tablets") and own:
        return own["weighed"]
    if dose.kind in own:
        return own[dose.kind]
    return {"weighed": SULFITE, "tablets": "sulfite-tablet"}.get(dose.kind)


def unclear_dose(words: str, dose: Dose | None) -> str:
    """Return why nobody can tell how much went in by lower-case words, or ""."""
    if dose is None:
        bare = _UNCOUNTED.search(words) and not (NOT_DONE.search(words) or _NO_DOSE.search(words))
        return "How many tablets went in? Write it such as 3 tablets." if bare else ""
    beside = f"{words[: dose.start]} {words[dose.end :]}"
    if _EACH.search(beside):
        return "Write how much of it went in altogether, such as 5 tablets or 2 g."
    return ""


def amount_in_words(words: str) -> bool:
    """Return whether lower-case words say that an amount of something went in."""
    return _LEFT.search(words) is not None and NOT_DONE.search(words) is None
