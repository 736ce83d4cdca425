"""Numbers as cards write them: "two and a half pounds" as "2 1/2 pounds"."""

from __future__ import annotations

import re
from functools import lru_cache

from winebench.plan.kitchen import fraction_text
from winebench.plan.typed.foreign import in_english
from winebench.units import NUMBER, SPELLINGS, parse_number, plain_text

UNIT = f"(?:{'|'.join(sorted(map(re.escape, SPELLINGS), key=len, reverse=True))})"
"""Any unit's name, longest first."""
AMOUNT = rf"(?P<amount>(?:{NUMBER})\s*{UNIT})\b\.?"
"""An amount of one part, as a piece of a pattern."""
_COUNTING = "one two three four five six seven eight nine ten eleven twelve"
COUNTS = {word: str(number) for number, word in enumerate(_COUNTING.split(), start=1)}
"""The first numbers by their words."""
_ONES = COUNTS | {"fifteen": "15", "twenty": "20"}
_SHARES = {"half": "1/2", "quarter": "1/4", "third": "1/3"}
_ONE = "|".join(sorted(_ONES, key=len, reverse=True))
_SHARE = "|".join(_SHARES)
_SOME = {"three quarters": "3/4", "three-quarters": "3/4", "two thirds": "2/3", "two-thirds": "2/3"}
_ABOUT = re.compile(
    r"(?:\b(?:just\s+(?:under|over)|almost|a\s+little\s+(?:under|over)|about|approximately|approx|roughly|around|circa|ca|nearly)\b\.?|~|≈)\s*(?=[\d.]|an?\b)",
    re.IGNORECASE,
)
_DASHES = re.compile(r"\s*[–—‒−]\s*(?=[\d.])")
_DASH_BEHIND_A_NAME = re.compile(r"(?<=[^\W\d])\s*[–—]\s*(?=[\d.])")
_OTHER_SPELLINGS = {
    "ozs": "oz", "gall": "gal", "galls": "gals", "gln": "gal", "ltr": "L", "ltrs": "L", "lt": "L",
    "lts": "L", "mls": "ml", "grm": "g", "grms": "g", "gms": "g", "tblsp": "tbsp", "tblsps": "tbsp",
    "tbls": "tbsp", "tbs": "tbsp", "tbl": "tbsp", "table spoon": "tbsp", "table spoons": "tbsp",
    "tablespoonful": "tbsp", "tablespoonfuls": "tbsp", "tablespoonsful": "tbsp", "teasp": "tsp",
    "teasps": "tsp", "tea spoon": "tsp", "tea spoons": "tsp", "teaspoonful": "tsp",
    "teaspoonfuls": "tsp", "teaspoonsful": "tsp", "fluid oz": "fl oz", "fluid ozs": "fl oz",
    "fl ozs": "fl oz", "fl. ozs": "fl oz", "cupful": "cup", "cupfuls": "cups", "satchet": "sachet",
    "gr": "g", "grs": "g", "btl": "bottle", "btls": "bottles",
    "pk": "packet", "pks": "packets", "pck": "packet", "pckt": "packet",
    "dessertspoons": "dessertspoon", "dessertspoonful": "dessertspoon",
    "dessertspoonfuls": "dessertspoon", "dessert spoon": "dessertspoon",
    "dessert spoons": "dessertspoon", "dsp": "dessertspoon", "dstspn": "dessertspoon",
}  # fmt: skip
"""Units as old cards spell them, beside those that an amount itself knows."""
_ODD = re.compile(
    r"(?<![^\W\d])"
    rf"(?:{'|'.join(sorted(map(re.escape, _OTHER_SPELLINGS), key=len, reverse=True))})\b",
    re.IGNORECASE,
)
_LETTERS = tuple(
    (re.compile(rf"(?<!\d\d)(?<=\d)\s*{letter}\.?(?=\s+[A-Za-z])"), f" {unit}")
    for letter, unit in (("[cC]", "cup"), ("T", "tbsp"), ("t", "tsp"))
)
"""2 c. sugar, 1 T honey, 3 t. acid: cups, tablespoons and teaspoons by their letters.

Of ten or more no spoons are meant: 20 C is a temperature."""
_SPOON_ML = re.compile(
    rf"(?:(?P<number>{NUMBER})\s*[x×]?\s*)??(?<![\d.,/])(?P<ml>5|15)\s*-?\s*ml\s*-?\s*spoon(?:ful)?s?\b",
    re.IGNORECASE,
)
_DOZEN = re.compile(
    r"(?:\b(?P<many>half\s+an?|half|an?|one|two|three|four|five|six|\d{1,2})\s+)?\bdozen\b(?:\s+of)?",
    re.IGNORECASE,
)
_UNIT_AND_SHARE = re.compile(
    rf"\b(an?|{_ONE}|\d+)\s+({UNIT})\s+and\s+an?\s+({_SHARE})\b", re.IGNORECASE
)
_MEASURE = rf"(?:(?:(?:US|U\.S\.|imperial|imp|UK)\.?\s+)?{UNIT}|dessertspoon)\b"
_HOW_FULL = r"(?:level|heaped|heaping|rounded|piled|scant|generous|good)"
_DESSERTSPOONS = re.compile(rf"(?i)({NUMBER})\s+((?:{_HOW_FULL}\s+)?)dessertspoon\b\.?")


@lru_cache(maxsize=4096)
def digits(text: str) -> str:
    """Return the text with plain spaces, fractions and hyphens, and number words as digits.

    A word is a number only at the start, or in front of a unit: "Seven stones" stays as it is
    inside a sentence.
    """
    plain = in_english(plain_text(text).replace("’", "'"))
    plain = _ABOUT.sub("", _DASHES.sub("-", _DASH_BEHIND_A_NAME.sub(" - ", plain)))
    for letter, unit in _LETTERS:
        plain = letter.sub(unit, plain)
    plain = _SPOON_ML.sub(_as_spoon, plain)
    plain = _ODD.sub(lambda found: _OTHER_SPELLINGS[found[0].lower()], plain)
    plain = _DOZEN.sub(_counted_dozen, plain)
    plain = re.sub(r"(?<=\d)\s*#(?=\s|$)", " lb", plain)
    plain = re.sub(r"(\d)\s*(?:&|\band\b)\s*(\d{1,2}/\d{1,2})", r"\1 \2", plain)
    plain = _UNIT_AND_SHARE.sub(_unit_last, _and_shares(plain))
    for words, share in _SOME.items():
        plain = re.sub(rf"(?i)\b{words}\b(?:\s+of)?(?:\s+an?\b)?", share, plain)
    plain = re.sub(
        rf"(?i)(?:\b(?:an?|one)\s+)?\b({_SHARE})\b(?:\s+of)?(?:\s+an?\b)?(?=\s+{_MEASURE})",
        lambda found: _SHARES[found[1].lower()],
        plain,
    )
    plain = re.sub(
        rf"(?i)(?:\b({_ONE})\b(?=\s+{_MEASURE})|^({_ONE})\b(?=\s+\w))",
        lambda found: _ONES[(found[1] or found[2]).lower()],
        plain,
    )
    plain = re.sub(rf"(?i)\ban?\b(?=\s+(?:{_HOW_FULL}\s+)?{_MEASURE})", "1", plain)
    plain = _DESSERTSPOONS.sub(_in_teaspoons, plain)
    return " ".join(_measure_first(plain).split())


def _as_spoon(found: re.Match[str]) -> str:
    """Return "2 x 5 ml spoons" as two teaspoons."""
    return f"{found['number'] or '1'} {'tsp' if found['ml'] == '5' else 'tbsp'}"


def _counted_dozen(found: re.Match[str]) -> str:
    """Return "half a dozen" as 6 and "two dozen" as 24."""
    many = (found["many"] or "1").lower()
    if many.startswith("half"):
        return "6"
    return str(12 * int(_ONES.get(many, many if many.isdigit() else "1")))


def _unit_last(found: re.Match[str]) -> str:
    """Return "a pound and a half" as one and a half pounds."""
    number = found[1].lower()
    whole = "1" if number in ("a", "an") else _ONES.get(number, number)
    return f"{whole} {_SHARES[found[3].lower()]} {found[2]}"


def _in_teaspoons(found: re.Match[str]) -> str:
    """Return dessertspoons as twice as many teaspoons: 10 mL are two of 5."""
    return f"{fraction_text(2.0 * parse_number(found[1]))} {found[2]}tsp"


def _measure_first(plain: str) -> str:
    """Return "1 level tsp yeast" with the unit at the number: "1 tsp level yeast"."""
    return re.sub(
        rf"(?i)({NUMBER})\s+({_HOW_FULL}\s+)({UNIT})\b",
        r"\1 \3 \2",
        plain,
    )


def _and_shares(plain: str) -> str:
    """Return "two and a half" and "2 and a quarter" as one number each."""

    def one(found: re.Match[str]) -> str:
        whole = _ONES.get(found[1].lower(), found[1])
        share = "3/4" if found[2] else _SHARES[found[3].lower()]
        return f"{whole} {share}"

    return re.sub(
        rf"(?i)\b({_ONE}|\d+)\s+and\s+(?:(three[\s-]+quarters)|(?:an?\s+|one\s+)?({_SHARE}))\b",
        one,
        plain,
    )


RANGE = re.compile(
    rf"(?P<low>{NUMBER})\s*(?P<own>[a-zA-Z.]*)\s*(?:-|\bto\b|\bor\b)\s*"
    rf"(?P<high>{NUMBER})\s*(?P<unit>{UNIT})\b\.?",
    re.IGNORECASE | re.ASCII,
)
"""A range of one unit at the start of a text: "2-3 lb", "2 lb to 3 lb"."""
