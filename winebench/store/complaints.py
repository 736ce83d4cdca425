"""A decoder's complaint turned into what, where and what to do."""

from __future__ import annotations

import re

_TYPES = {
    "str": "text in quotes",
    "int": "a whole number",
    "float": "a number",
    "bool": "true or false",
    "array": "a list in [ ]",
    "object": "a group in { }",
    "null": "null",
}
_TIME = "is not a time with its offset; write one such as 2026-10-09T18:30:00+02:00"
_WORDS: tuple[tuple[re.Pattern[str], str], ...] = (
    (re.compile(r"Invalid RFC3339 encoded datetime"), _TIME),
    (re.compile(r"Invalid RFC3339 encoded date"), "is not a day; write one such as 2026-10-09"),
    (re.compile(r"Invalid (?:enum )?value (.+)"), "is {0}, which is none of the values known here"),
)
_FIELD = re.compile(r"Object (contains unknown|missing required) field `(.+)`", re.DOTALL)
_EXPECTED = re.compile(r"Expected `(.+)`, got `(.+)`")
_PLACE = re.compile(r"(?P<what>.*?)(?: - at `\$\.?(?P<place>.*)`)?", re.DOTALL)


def complaint(problem: str) -> str:
    """Return "place: what and what to do", without a full stop, of a decoder's message."""
    found = _PLACE.fullmatch(problem)
    what, place = (found["what"], found["place"] or "") if found else (problem, "")
    field = _FIELD.fullmatch(what)
    if field:
        inner = f"{place}.{field[2]}".lstrip(".")
        if field[1] == "contains unknown":
            return f"{inner} is not known here; remove it, or open the file with what wrote it"
        return f"{inner} is missing; put it back"
    expected = _EXPECTED.fullmatch(what)
    if expected:
        wanted, given = (_types(side) for side in expected.groups())
        return f"{place or 'the file'} must be {wanted}, not {given}"
    for pattern, words in _WORDS:
        match = pattern.fullmatch(what)
        if match:
            return f"{place} {words.format(*match.groups())}"
    return f"{place}: {what.rstrip('.')}"


def missing_offset(place: str) -> str:
    """Return the complaint about a time without its offset from UTC."""
    return f"{place} {_TIME}"


def _types(side: str) -> str:
    return " or ".join(_TYPES.get(name.strip(), name.strip()) for name in side.split("|"))
