"""What a line says about its fruit besides the name: form, preparation, the syrup it lies in."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

from winebench.model.recipe import FruitForm

FORMS: dict[str, FruitForm] = {
    "fresh": "fresh",
    "frozen": "frozen",
    "puree": "puree",
    "purée": "puree",
    "purees": "puree",
    "pureed": "puree",
    "puréed": "puree",
    "pulp": "puree",
    "juice": "juice",
    "dried": "dried",
    "dehydrated": "dried",
    "canned": "canned",
    "tinned": "canned",
}
_FIRST: tuple[FruitForm, ...] = ("fresh", "frozen", "canned", "dried", "puree", "juice")
"""Of two forms the later one says more: frozen juice is juice."""
_PREPARED_WORDS = """
stoned destoned de-stoned pitted depitted de-pitted cored decored peeled skinned destemmed de-
stemmed destalked de-stalked stemmed stripped hulled dehulled trimmed prepared deseeded de-seeded
stoneless
"""
PREPARED = frozenset(_PREPARED_WORDS.split())
_SORT_WORDS = """
ripe fresh chopped sliced crushed mashed washed minced grated halved quartered whole large small
medium good firm soft sound clean picked wild garden cold warm hot boiling boiled cool spring tap
filtered distilled powdered powder level dry active raw unsweetened pure clear cloudy pressed
juiced light dark liquid cooking eating dessert seedless scant generous strained rinsed thawed cut
bruised optional organic windfall windfalls overripe over-ripe mixed local homegrown home-grown
drained runny unpitted unstoned unpeeled cubed diced broken weighed very fully freshly finely
roughly well just lightly loosely packed heaping natural commercial cleaned sorted defrosted juicy
best quality unbleached fine coarse lukewarm rain mineral bottled still
soaked overnight down up tightly firmly bouillante tiède froide chaude enough sufficient slices
dissolved melted sieved warmed set
halves pieces chunks segments rings cubes quarters flesh fresh-picked weight net
"""
SORTS = frozenset(_SORT_WORDS.split())
"""Words about a thing that do not change what it is: kept as the line's note."""
COLOURS = frozenset(
    ("green", "red", "yellow", "golden", "white", "black", "purple", "blue", "pink")
)
"""Kept as a note, and said so, where the name without them is known and with them is not."""
_PART = r"(?:stalks?|stems?|stones?|pits?|pips?|cores?|skins?|peels?|sprigs?|hulls?|caps?|leaves)"
_PREPARED = re.compile(
    rf"(?:\b(?:weighed|net|picked|stripped|pulled|taken|cut|removed|when|once|all)\s+)*"
    rf"(?:\b(?:off|without|no|free\s+of|free\s+from|from|after\s+removing|minus|less)\s+(?:the\s+|their\s+|all\s+)?"
    rf"{_PART}(?:\s+(?:and|or)\s+{_PART})?\b"
    rf"|\b{_PART}(?:\s+(?:and|&)\s+{_PART})?\s+(?:all\s+)?(?:removed|out|off|discarded|taken\s+out)\b"
    r"|\btopped\s+(?:and|&)\s+tailed\b"
    r"|\b(?:after|when|once)\s+(?:ston|pitt|peel|cor|stripp|stemm|destemm|hull|stalk|prepar)(?:ing|ed)\b"
    r"|\bde[\s-](?:stoned|pitted|stemmed|stalked|cored|seeded)\b)",
    re.IGNORECASE,
)
_NOT_PREPARED = re.compile(
    r"(?:\bweighed\s+)?\b(?:with\s+(?:the\s+|their\s+)?(?:stones?|pits?|skins?|stalks?|cores?)(?:\s+in)?"
    r"|not\s+(?:peeled|stoned|pitted|cored|skinned|destemmed|stripped)"
    r"|(?:stones?|pits?)\s+in|before\s+(?:stoning|pitting|peeling|coring|destemming|stripping))\b",
    re.IGNORECASE,
)
_SYRUP = re.compile(
    r"\b(?:canned\s+|packed\s+|preserved\s+)?in\s+(?:(?:a|an|their|its)\s+)?"
    r"(?:(?P<kind>(?:extra|very)[\s-]+heavy|(?:extra|very)[\s-]+light|heavy|thick|light|thin|medium)\s+)?"
    r"(?:sugar\s+)?s[yi]rup\b",
    re.IGNORECASE,
)
_MEDIUM = re.compile(
    r"\b(?:canned\s+|packed\s+)?in\s+(?:(?:its|their)\s+)?(?:own\s+|natural\s+|fruit\s+|grape\s+|apple\s+|"
    r"pear\s+|unsweetened\s+)*(?:juice|water)\b",
    re.IGNORECASE,
)
_CONCENTRATE = re.compile(r"(?<!from )\b(?:(?:juice\s+)?concentrate[ds]?|conc\b\.?)", re.IGNORECASE)
SYRUPS: dict[str, tuple[float, float, float]] = {
    "light": (14.0, 16.0, 18.0),
    "": (14.0, 18.0, 22.0),
    "heavy": (18.0, 20.0, 22.0),
    "extra heavy": (22.0, 28.0, 35.0),
}
"""°Brix of what is in a tin, fruit and syrup evened out: 21 CFR 145.170 (a)(3)(ii), canned
peaches; other fruits lie within a few degrees. Lowest, taken, highest."""
_KINDS = {"thick": "heavy", "thin": "light", "medium": "", "very heavy": "extra heavy",
          "extra light": "light", "very light": "light"}  # fmt: skip


class Forms(NamedTuple):
    """What the phrases say; the words themselves are out of the text."""

    prepared: bool = False
    syrup: str | None = None
    """Which of `SYRUPS` the fruit lies in; None for none."""
    concentrate: bool = False
    notes: tuple[str, ...] = ()
    """Phrases that change nothing here, as typed."""


@lru_cache(maxsize=4096)
def split_off_forms(text: str) -> tuple[str, Forms]:
    """Return the text without phrases such as "off the stalk", and what they say."""
    rest, forms = text, Forms()
    found = _NOT_PREPARED.search(rest)
    if found is not None:
        forms = forms._replace(notes=(*forms.notes, found[0]))
        rest = _cut(rest, found)
    found = _PREPARED.search(rest)
    while found is not None:
        forms, rest = forms._replace(prepared=True), _cut(rest, found)
        found = _PREPARED.search(rest)
    found = _SYRUP.search(rest)
    if found is not None:
        kind = " ".join((found["kind"] or "").lower().replace("-", " ").split())
        forms = forms._replace(syrup=_KINDS.get(kind, kind), notes=(*forms.notes, _said(found[0])))
        rest = _cut(rest, found)
    found = _MEDIUM.search(rest)
    if found is not None:
        forms = forms._replace(notes=(*forms.notes, _said(found[0])))
        rest = _cut(rest, found)
    found = _CONCENTRATE.search(rest)
    if found is not None:
        others = f"{rest[: found.start()]} {rest[found.end() :]}"
        juice = "" if re.search(r"(?i)\bjuice\b", others) else "juice"
        forms = forms._replace(concentrate=True)
        rest = f"{rest[: found.start()]} {juice} {rest[found.end() :]}"
    return (" ".join(rest.split()), forms) if forms != Forms() else (text, forms)


def _said(phrase: str) -> str:
    return re.sub(r"(?i)^(?:canned|packed|preserved)\s+", "", phrase)


def _cut(text: str, found: re.Match[str]) -> str:
    """Return the text without the phrase and the comma or brackets that held it."""
    before, after = text[: found.start()].rstrip(" ,;-–"), text[found.end() :].lstrip()
    if before.endswith("(") and after.startswith(")"):
        return f"{before[:-1].rstrip()} {after[1:]}"
    after = re.sub(r"^(?:[\s,;]|\band\b)+", "" if before.endswith("(") else ", ", after)
    return f"{before} {after}" if not after.startswith((",", ")")) else f"{before}{after}"


def form_of(words: list[str]) -> FruitForm:
    """Return the form that the words name between them, the most telling one."""
    found = [FORMS[word] for word in words if word in FORMS]
    return max(found, key=_FIRST.index, default="fresh")


def is_about(piece: str) -> bool:
    """Return whether every word of it is a form, a preparation or a sort: "stoned, frozen"."""
    words = [word.strip(".,;()") for word in piece.lower().split()]
    return bool(words) and all(
        word in FORMS or word in PREPARED or word in SORTS or word in ("and", "&") for word in words
    )
