"""What one scribbled line says beside its day: measurements, and words between commas."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from datetime import datetime

from winebench.model.log import Reading
from winebench.plan.scribbles.masked import Masked
from winebench.plan.scribbles.shapes import Offer
from winebench.plan.typed.fields import Scale
from winebench.plan.typed.readings import Clearness, Question, TypedReading, reading_from
from winebench.plan.typed.when import CLOCK
from winebench.units import Amount, UnitsError

_PH = re.compile(r"\bph\s*[:=]?\s*(?P<value>\d{1,2}(?:[.,]\d{1,2})?)(?![\d.,]*\d)", re.ASCII)
_WARMTH = re.compile(
    r"(?:\b(?:at|temp(?:erature)?)\s*:?\s*|@\s*)?(?<!\d)(?<!\d[.,])(?P<value>[-−]?\d{1,3}(?:[.,]\d{1,2})?"
    r"(?:\s*(?:[°º˚]|deg\.?|degrees?)\s*(?:[cf]|celsius|fahrenheit)"
    r"|\s?[cf]|\s*celsius|\s*fahrenheit|\s*℃|\s*℉|\s*[°º˚]))(?![a-z])",
    re.ASCII,
)
_LABEL = (
    r"(?:\b(?:sg|og|fg|gravity|hydrometer|reading|read)\b(?:\s+(?:was|is|now|at))?\s*[:=]?\s*)?"
)
_TEMP = re.compile(
    r"\btemp(?:erature)?\b(?: was| is|:|=)?\s*(?P<value>\d{1,3}(?:[.,]\d)?)(?![\d.,]*\d|\s*[a-z%])",
    re.ASCII,
)
_ELSEWHERE = re.compile(
    r"\b(?:room|kitchen|garage|cellar|shed|fridge|outside|outdoors|cupboard|larder|pantry|there|air)\b"
    r"(?!\s*lock)",
    re.ASCII,
)
"""Where the warmth is that of the air; a must is measured in its pail."""
_ACID = re.compile(
    r"\b(?:ta|acid(?:ity)?)\s*[:=]?\s*(?P<value>\d{1,2}(?:[.,]\d{1,2})?)(?![\d.,]*\d)(?:\s*g/l\b)?",
    re.ASCII,
)
_BRIX = re.compile(
    rf"{_LABEL}(?<!\d)(?<!\d[.,])(?P<value>\d{{1,2}}(?:[.,]\d{{1,2}})?\s*(?:°\s*)?(?:brix|bx))\b",
    re.ASCII,
)
_SG = re.compile(
    rf"{_LABEL}(?<!\d)(?<!\d[.,])(?P<value>[01]?[.,]\d{{3,4}})(?!\d|[.,]\d|\s*(?:kg|g|l|ml|lb|oz)\b)"
    r"(?:\s*sg\b)?",
    re.ASCII,
)
_LABELLED = re.compile(
    r"\b(?:sg|og|fg|gravity)\b\s*[:=]?\s*(?P<value>\d{1,5}(?:[.,]\d{1,4})?)(?![\d.,]*\d)", re.ASCII
)
_BARE = re.compile(
    r"[\s,;:@/]*(?:at\s+)?(?P<value>\d{1,4}(?:[.,]\d{1,4}(?=,)|(?:[.,]\d{1,4})?(?=$|[\s;]|[,.:](?!\d))))"
    r"(?P<next>\s+[a-z.]+)?",
    re.ASCII,
)
_TABLETS = re.compile(r"\s*(?:[a-z]+ ){0,2}tablets?\b", re.ASCII)
_REFRACTOMETER = re.compile(r"\b(?:by |with )?(?:the )?refractometer\b", re.ASCII)
_DEGASSED = re.compile(r"\bde-?gassed\b|\b(?:no|without) gas(?: (?:in it|left))?\b", re.ASCII)
_BECAUSE = re.compile(r"\bbecause\b\s*(?P<why>.*)$", re.ASCII)
_LOOKS = r"(?:(?:it|the wine|wine)(?:'s| is| looks| was)? )?(?:now |quite |very |all )*"
_CLEAR: tuple[tuple[re.Pattern[str], Clearness], ...] = (
    (re.compile(rf"{_LOOKS}(?:crystal clear|star bright|bright|clear as glass)|(?:clear enough to |"
                r"i )?(?:can )?read print(?: through it)?", re.ASCII), 4),
    (re.compile(rf"{_LOOKS}(?:clear|cleared)(?: now| enough)?|(?:can )?see print(?: through it)?",
                re.ASCII), 3),
)  # fmt: skip
"""A clause that says how clear it is: without more words, as print that can be seen through it."""


@dataclass(slots=True)
class Body:
    """A line's measurements as typed, each with its place, and the places of its words."""

    typed: TypedReading = field(default_factory=TypedReading)
    places: dict[str, tuple[int, int]] = field(default_factory=dict)
    clauses: list[tuple[int, int]] = field(default_factory=list)
    why: str = ""
    """What follows "because"."""
    problem: str = ""

    @property
    def measured(self) -> bool:
        """Return whether any figure was read."""
        return bool(self.places)


def take_because(line: Masked) -> str:
    """Cover what follows "because" and return it: numbers and days in a reason are no entries."""
    found = _BECAUSE.search(line.left)
    if found is None:
        return ""
    start, end = found.span("why")
    line.cover(*found.span())
    return line.text[start:end].strip()


def read_body(line: Masked) -> Body:
    """Cover the line's measurements and return them with the places of the words left."""
    body = Body(why=take_because(line))
    found = {
        "ph": _take(line, body, "ph", _PH),
        "acid": _take(line, body, "acid", _ACID),
        "temperature": "" if _is_of_air(line) else _take(line, body, "temperature", _WARMTH)
        or _take(line, body, "temperature", _TEMP),
        "gravity": next(
            (text for pattern in (_BRIX, _SG, _LABELLED)
             if (text := _take(line, body, "gravity", pattern))), "",
        ),
    }  # fmt: skip
    if found["gravity"] and (again := _SG.search(line.left)):
        body.problem = (
            f'"{again["value"]}" is a second gravity; write each reading on a line of its own.'
        )
    else:
        _take_bare(line, body, found)
    refractometer = bool(body.measured and line.take(_REFRACTOMETER))
    body.typed = TypedReading(
        gravity=found["gravity"],
        temperature=found["temperature"],
        ph=found["ph"],
        acid=found["acid"],
        instrument="refractometer" if refractometer else "hydrometer",
        clear=_take_clear(line, body),
    )
    if found["gravity"] or body.typed.clear is not None:  # alone it is a step, or mere words
        body.typed = replace(body.typed, degassed=bool(line.take(_DEGASSED)))
    if clock := CLOCK.search(line.left):
        second = line.text[slice(*clock.span())].strip()
        body.problem = f'"{second}" is a second time; write each time on a line of its own.'
    body.clauses = list(line.clauses())
    return body


def _take(line: Masked, body: Body, name: str, pattern: re.Pattern[str]) -> str:
    found = next((one for one in pattern.finditer(line.left) if not _cups(line, one)), None)
    if found is None:
        return ""
    line.cover(*found.span())
    body.places[name] = found.span("value")
    return line.text[slice(*found.span("value"))]


def _is_of_air(line: Masked) -> bool:
    """Return whether the line tells how warm a place is, beside no gravity."""
    return bool(_ELSEWHERE.search(line.left)) and not (
        _SG.search(line.left) or _BRIX.search(line.left) or _LABELLED.search(line.left)
    )


def _cups(line: Masked, found: re.Match[str]) -> bool:
    """Return whether it is an amount such as "2 c water": cups, and no temperature."""
    return line.text[slice(*found.span("value"))].endswith(" c")


def _take_bare(line: Masked, body: Body, found: dict[str, str]) -> None:
    """Take numbers without a unit at the beginning: first the gravity, then the temperature."""
    for name in ("gravity", "temperature"):
        if found[name]:
            continue
        bare = _BARE.match(line.left)
        gravity = body.places.get("gravity")
        early = gravity is not None and bare is not None and bare.start("value") < gravity[0]
        if bare is None or early or _has_unit(bare) or _TABLETS.match(line.left, bare.end("value")):
            return
        line.cover(bare.start(), bare.end("value"))
        body.places[name] = bare.span("value")
        found[name] = line.text[slice(*bare.span("value"))]


def _has_unit(bare: re.Match[str]) -> bool:
    """Return whether the number is an amount of something, as in "2 tsp", or counts it."""
    word = (bare["next"] or "").strip()
    if not word:
        return False
    try:
        Amount(f"{bare['value']} {word}")
    except UnitsError:
        # "64 stirred" is a gravity beside a deed; "3 days" and "2 people" count.
        return word.endswith("s") or word in ("x", "times", "%", "h", "min")
    return True


def _take_clear(line: Masked, body: Body) -> Clearness | None:
    """Cover a clause that says how clear the wine is, and return that."""
    for start, end in line.clauses():
        for pattern, clear in _CLEAR:
            if pattern.fullmatch(line.left[start:end]):
                body.places["clear"] = (start, end)
                line.cover(start, end)
                return clear
    return None


def reading_of(body: Body, at: datetime, entry_id: str, scale: Scale) -> Reading | Question:
    """Return the line's measurements as a reading at that time, or the first question."""
    return reading_from(body.typed, entry_id, at, scale)


def offers_for(question: Question, body: Body, line: Masked) -> tuple[Offer, ...]:
    """Return the line with what was probably meant in place of what is asked about."""
    place = body.places.get(question.place)
    if not question.meant or place is None:
        return ()
    return (Offer(question.meant, line.replaced(*place, question.meant)),)
