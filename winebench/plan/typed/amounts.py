"""The amount in a few words, wherever it stands: "2-3 lb plums", "Plums: 3 lb (1.4 kg)"."""

from __future__ import annotations

import re
from typing import NamedTuple

from winebench.plan.kitchen import fraction_text
from winebench.plan.typed.fluid_ounces import COUNTRIES, refuse_fluid
from winebench.plan.typed.grouped import grouped
from winebench.plan.typed.number_words import RANGE, UNIT, digits
from winebench.plan.typed.remarks import Asked, Remark, Unread, Way, written
from winebench.units import NUMBER, SPELLINGS, Amount, GallonCountry, UnitsError, parse_number

_MOST_WORDS = 10
"""No amount is longer: "3 lb 4 oz", "1 gallon 2 pints US"."""
_AGREES = 0.12
"""How far two statements of one amount may part: cards round a pound to half a kilo (practice)."""
_TWICE = re.compile(
    rf"((?:{NUMBER})\s*{UNIT}\b\.?)\s*(?:,\s+|/\s*)((?:{NUMBER})\s*{UNIT}\b\.?(?:\s+\d+\s*oz\b\.?)?)\s*$",
    re.IGNORECASE | re.ASCII,
)
"""Two statements of one amount: "1 sachet, 5 g"."""
_NAME_AND_MORE = re.compile(
    rf"(?P<name>[^\d,:;]+?)\s+(?P<amount>(?:{NUMBER})\s*{UNIT}\b\.?)\s*[,;]\s*(?P<more>[^\d]+)",
    re.IGNORECASE | re.ASCII,
)
_MISREAD = re.compile(
    rf"(?<![\w.,/-])(?<!\d )(?P<whole>\d)(?:\s?(?P<letter>[lI|])|(?P<top>[1-7]))/(?P<low>[23458])"
    rf"\s*(?P<unit>(?i:{UNIT}))\b",
    re.ASCII,
)
"""A whole number and a fraction grown together: "2l/2 lb", "21/2 lb" for 2 1/2 lb."""
_COUNTRY = re.compile(r"(?i)(?:us|u\.s\.?|usa|american|imperial|imp\.?|uk|british)")
_EACH = re.compile(r"(?i)(?<=[a-z.])\s+(?:of\s+)?each$")
_COUNTED = ("packet", "tablet", "bottle")


class Stated(NamedTuple):
    """An amount, the other words around it, and what is to be said of it."""

    amount: Amount
    words: str
    aside: str = ""
    """What stood in brackets and is no amount."""
    remarks: tuple[Remark, ...] = ()


def stated(text: str) -> Stated | None:
    """Return the amount with the other words, or None where no amount is meant.

    A range is taken at its middle (counted things: the lower end), and says so. A second
    statement in brackets must agree with the first; it settles whose gallon is meant.

    Raises:
        UnitsError: there is a number that is no amount, or two amounts contradict each other.

    """
    _refuse_misread(text)
    typed, asides = _without_asides(_TWICE.sub(r"\1 (\2)", text))
    plain = _spaced(digits(typed))
    # As typed where that can be read: the line then shows "1½ lb", not "1 1/2 lb".
    found = _leading(_spaced(typed))
    if found is None or found.words[:1].isdigit():  # "2 lbs 8 ozs" has more of the amount
        found = _leading(plain) or found or _counted(plain) or _trailing(plain)
    found = found or _counted_last(plain) or _labelled(plain) or _between(plain)
    if found is None:
        amounts = [aside for aside in asides if _amount(aside)]
        if not amounts or not plain:
            _refuse(plain)
            return None
        counted = re.match(r"\d{1,3}\s+(?=[^\W\d])", plain)  # "24 kiwis (2 kg)"
        found = Stated(Amount(amounts[0]), plain[counted.end() :] if counted else plain)
        asides.remove(amounts[0])
    return _agreed(found, asides)


def _refuse_misread(text: str) -> None:
    """Raise the question which amount is meant by "2l/2 lb" or "21/2 lb"."""
    found = _MISREAD.search(text)
    if found is None:
        return
    whole, top, low = found["whole"], found["top"] or "1", found["low"]
    if int(top) >= int(low):  # 16/4 is no 1 6/4
        return
    other = low if found["letter"] else fraction_text(parse_number(f"{whole}{top}/{low}"))
    amounts = [f"{number} {found['unit']}" for number in (f"{whole} {top}/{low}", other)]
    ways = (written(f"{text[: found.start()]}{each}{text[found.end() :]}") for each in amounts)
    raise Asked(f'"{found[0]}" can be {" or ".join(amounts)}; which one is it?', *ways)


def _spaced(text: str) -> str:
    """Return "3lb/1.4kg" with room around its parts."""
    apart = re.sub(r"(?<=\d)(?!(?:st|nd|rd|th)\b)(?=[a-zA-Z])", " ", text)
    return re.sub(r"(?<=[a-zA-Z.])\s*/\s*(?=\d)", " / ", apart)


def _amount(text: str) -> Amount | None:
    try:
        return Amount(text)
    except UnitsError:
        return None


def _refuse(plain: str) -> None:
    """Raise what is wrong with a number that starts the text and is no amount."""
    thousands = re.match(r"([1-9]\d{0,2}) (\d{3})(?=\s*(?:m?g|ml)\b)", plain, re.IGNORECASE)
    if thousands is not None:
        meant = f"{thousands[1]}{thousands[2]}{plain[thousands.end() :]}"
        raise Asked(f'"{thousands[0]}" has a gap: is it one number?', written(meant))
    words = plain.split()
    if words and re.match(r"[\d]", words[0]):
        Amount(words[0] if len(words) == 1 else " ".join(words[:2]))


def _without_asides(plain: str) -> tuple[str, list[str]]:
    asides = [" ".join(found.split()) for found in re.findall(r"\(([^()]*)\)", plain)]
    rest = re.sub(r"\([^()]*\)", " ", plain)
    told = [_EACH.sub("", digits(aside)) for aside in asides if aside]
    return " ".join(rest.split()), told


def _leading(plain: str) -> Stated | None:
    span = RANGE.match(plain)
    if span is not None:
        found = _middle(span, plain[span.end() :].strip())
        if found is not None:
            return found
    words = plain.split()
    for end in range(min(len(words), _MOST_WORDS), 0, -1):
        amount = _amount(" ".join(words[:end]).rstrip(",;:"))
        if amount is not None and not _swallows_country(amount, words[end - 1]):
            return Stated(amount, " ".join(words[end:]))
    return None


def _swallows_country(amount: Amount, last: str) -> bool:
    """Return whether a country at the end belongs to the name: "5 kg American grapes"."""
    return _COUNTRY.fullmatch(last) is not None and all(
        part.country is None for part in amount.parts
    )


def _middle(span: re.Match[str], rest: str) -> Stated | None:
    """Return the middle of a range, or None where it is none: "1 lb 2 oz", "3-2 lb"."""
    own, unit = span["own"].lower().rstrip("."), span["unit"]
    texts = [f"{span[end]} {unit}" for end in ("low", "high")]
    ends = [Amount(both.whole if (both := grouped(text)) else text) for text in texts]
    low, high = (end.parts[0].number for end in ends)
    same = not own or SPELLINGS.get(own) == SPELLINGS.get(unit.lower())
    if not same or low >= high:
        return None
    if SPELLINGS[unit.lower()] in _COUNTED:
        amount = Amount(f"1 {SPELLINGS[unit.lower()]}") if low == 1 else ends[0]
    else:
        metric = SPELLINGS[unit.lower()] in ("kg", "g", "mg", "L", "dL", "cL", "mL")
        middle = (low + high) / 2.0
        amount = Amount(f"{f'{middle:g}' if metric else fraction_text(middle)} {unit}")
    others = [end for end in ends if end.parts != amount.parts]
    ways = tuple(Way(label=end.text, text=f"{end.text} {rest}".strip()) for end in others)
    said = f"{span[0].strip()} is a range; {amount.text} of it is read."
    return Stated(amount, rest, remarks=(Remark(sentence=said, ways=ways),))


def _counted(plain: str) -> Stated | None:
    """Return "1 sulfite tablet" and the like as a number of tablets."""
    found = re.match(rf"({NUMBER})(?:\s*(?:-|\bto\b|\bor\b)\s*({NUMBER}))?\s+(.+)", plain, re.ASCII)
    if found is None:
        return None
    words = found[3].split()
    for place, word in enumerate(words[:4]):
        if SPELLINGS.get(word.lower().strip(".,;")) in _COUNTED:
            amount = _amount(f"{found[1]} {word.strip('.,;')}")
            rest = " ".join(words[:place] + words[place + 1 :])
            return (
                None if amount is None else Stated(amount, rest, remarks=_lower(found, rest, word))
            )
    return None


def _lower(found: re.Match[str], rest: str, unit: str) -> tuple[Remark, ...]:
    """Return what is to be said of "2-3 sulfite tablets": the lower end is read."""
    if not found[2]:
        return ()
    way = Way(label=f"{found[2]} {unit}", text=f"{found[2]} {rest} {unit}")
    said = f"{found[1]}-{found[2]} is a range; {found[1]} of it is read."
    return (Remark(sentence=said, ways=(way,)),)


def _labelled(plain: str) -> Stated | None:
    """Return "Sugar: 1.6 kg white" as so much white sugar."""
    label = re.match(r"([^\d:,–]+?)\s*(?:[:,–]|\s-)\s*(?=\d)", plain)
    found = _leading(plain[label.end() :]) if label is not None else None
    if label is None or found is None:
        return None
    return found._replace(words=f"{found.words} {label[1]}")


def _between(plain: str) -> Stated | None:
    """Return "Cherries 3 kg, stoned" as so many stoned cherries."""
    parts = _NAME_AND_MORE.fullmatch(plain)
    amount = _amount(parts["amount"].rstrip(". ")) if parts is not None else None
    if parts is None or amount is None:
        return None
    return Stated(amount, f"{parts['name']}, {parts['more']}")


def _counted_last(plain: str) -> Stated | None:
    """Return "sulfite tablets 2" as a number of tablets."""
    found = re.fullmatch(
        rf"(.+?)\s+(\w+)[\s:=x×-]+({NUMBER})((?:,?\s+crushed)?)", plain.rstrip(" .,;"), re.ASCII
    )
    if found is None or SPELLINGS.get(found[2].lower()) not in _COUNTED:
        return None
    amount = _amount(f"{found[3]} {found[2]}")
    return Stated(amount, f"{found[1]}{found[4]}") if amount is not None else None


def _trailing(plain: str) -> Stated | None:
    """Return the amount that the text ends with, as in "Plums: 3 lb"."""
    for start in re.finditer(r"(?<![\w.,/])\d", plain):
        tail, head = plain[start.start() :], plain[: start.start()].strip(" :,-.=|")
        if not head or len(tail.split()) > _MOST_WORDS:
            continue
        span = RANGE.fullmatch(tail.rstrip(".,;"))
        found = _middle(span, head) if span else None
        if found is not None:
            return found
        amount = _amount(tail.rstrip(".,;"))
        if amount is not None:
            return Stated(amount, head)
    return None


# --- a second statement of the same amount ---------------------------------------------------


def _agreed(found: Stated, asides: list[str]) -> Stated:
    named = next((aside for aside in asides if _COUNTRY.fullmatch(aside)), None)
    if named is not None and found.amount.needs_country:  # "2 gallons (imperial)"
        asides = [aside for aside in asides if aside != named]
        found = found._replace(amount=Amount(f"{found.amount.text} {named}"))
    second, rest = _second(found.words, asides)
    aside = ", ".join(each for each in asides if not _amount(each))
    found = found._replace(words=rest, aside=aside)
    if second is None:
        return found
    amount = found.amount
    if amount.dimension != second.dimension:
        refuse_fluid(amount, second, rest)
        return found._replace(amount=_surer(amount, second))
    if amount.dimension == "count":
        return found
    name = f" {rest}" if rest else ""
    country, parts_by = _nearest(amount, second)
    if parts_by > _AGREES:
        raise Unread(
            f"{amount.text} and {second.text} are not the same amount; which one is it?",
            written(f"{amount.text}{name}"),
            written(f"{second.text}{name}"),
        )
    if country is None:
        return found
    whose = Remark(sentence=f"{second.text} beside it says {country} measure.")
    settled = Amount(f"{amount.text} {country}")
    return found._replace(amount=settled, remarks=(*found.remarks, whose))


def _second(words: str, asides: list[str]) -> tuple[Amount | None, str]:
    """Return the other statement, from brackets or behind a stroke, and the words left."""
    stroke = re.match(r"[/=]\s*(.+)", words)
    after = _leading(stroke[1]) if stroke else None
    if after is not None:
        return after.amount, after.words
    amounts = [amount for aside in asides if (amount := _amount(aside)) is not None]
    return (amounts[0] if amounts else None), words


def _surer(first: Amount, second: Amount) -> Amount:
    """Return the one that says more: weight before volume; packets and tablets as they are."""
    if first.dimension == "count" and first.parts[0].unit != "bottle":
        return first
    order = ("mass", "volume", "count")
    return min(first, second, key=lambda amount: order.index(amount.dimension))


def _nearest(first: Amount, second: Amount) -> tuple[GallonCountry | None, float]:
    """Return whose measure makes them agree best (None: it needs none), and how far they part."""
    if first.dimension == "mass":
        return None, _apart(first.grams(), second.grams())
    tried = [(_apart(first.litres(each), second.litres(each)), each) for each in COUNTRIES]
    apart, country = min(tried)
    return (country if first.needs_country and not second.needs_country else None), apart


def _apart(first: float, second: float) -> float:
    return abs(first - second) / max(first, second, 1e-9)
