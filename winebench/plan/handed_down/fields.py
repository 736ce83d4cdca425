"""Figures of the whole recipe on a card: gravity, acidity, strength, and how much it makes."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache

from winebench.plan.handed_down.marks import unmarked
from winebench.plan.handed_down.shapes import Field
from winebench.plan.scale import must_for_finished_l
from winebench.plan.typed.acidity import ACID_NAME, ACID_UNIT, tartaric_g_per_l
from winebench.plan.typed.amounts import stated
from winebench.plan.typed.fields import Slip, read_gravity
from winebench.plan.typed.grouped import without_point
from winebench.plan.typed.number_words import digits
from winebench.plan.typed.numbers import pair
from winebench.plan.typed.remarks import Asked, Unread, written
from winebench.units import Amount, Gravity, UnitsError, Volume, parse_number

LEAST_START_SG = 1.02
"""A must that reads less makes no wine (3 % vol at the most)."""
LEAST_ACID, MOST_ACID = 2.0, 20.0
"""Acidity of a must, g/L as tartaric, outside which another unit was meant (common practice)."""
LEAST_STRENGTH, MOST_STRENGTH = 1.0, 22.0
"""As in the recipe's targets: past it no yeast goes."""
_BOTTLE_L = 0.75
_NUM = r"\d{0,5}[.,]?\d{1,6}"
_IS = (
    r"(?:\s|[:=…-]|\.(?!\d)|\b(?:is|of|at|to|be|should|come|out|near|around|read|reads|reading|about|"
    r"aim|aimed|for)\b)*"
)
_GRAVITY = r"(?:gravity|s\.?\s?g\.?|sp\.?\s?gr\.?)"
_VALUE = rf"{_NUM}(?:\s*(?:-|to)\s*{_NUM})?\s*(?:°|deg(?:rees)?)?\s*(?:brix|bx|s\.?g\.?|o\.?g\.?)?"
_MORE = (
    r"(?:[\s,(]+(?:start(?:ing)?|to\s+(?:start|begin)|or|before(?!\s+(?:the\s+|any\s+|adding\s+)*sugar)"
    r"|at|when|if|after|once|in|by|on|with)\b.*)?"
)
"""What may follow a gravity and changes nothing: "before the yeast goes in"."""
_STARTING = re.compile(
    rf"(?:(?:(?:starting|original|initial|start|target|wanted|specific|opening)\s+)*{_GRAVITY}"
    rf"|o\.?\s?g\.?|(?:target|aim(?:\s+for)?|wanted|start(?:ing)?(?:\s+(?:at|with))?)(?=\W+1[.,][01]\d)"
    rf"|(?:enough\s+)?sugar\s*[:,]?\s*(?:enough\s+|added\s+|as\s+(?:required|needed)\s+)?(?:to|for)\s+(?:(?:bring|raise|make|give|an?|reach|it|{_GRAVITY})\s+)*"
    rf"(?:to\s+(?:{_GRAVITY}\s+)?)?(?=1[.,])){_IS}(?P<value>{_VALUE}){_MORE}",
    re.IGNORECASE,
)
_OECHSLE = re.compile(
    r"(?i)(?:(?:oechsle|öchsle)\s*:?\s*(?P<degrees>(?:[4-9]\d|1[0-4]\d))"
    r"|(?P<before>(?:[4-9]\d|1[0-4]\d))\s*°?\s*(?:oe\b|oechsle|öchsle))°?"
)
_FINAL = re.compile(
    rf"(?:(?:(?:final|finishing|finished|end|ending|terminal)\s+(?:specific\s+)?{_GRAVITY})"
    rf"|f\.?\s?g\.?|final|(?:finish(?:es|ed)?|ends?|bottled?|sweetened?)\s+(?:at|to)){_IS}"
    rf"(?:(?:below|under|<){_IS})?"
    rf"(?P<value>{_VALUE}){_MORE}",
    re.IGNORECASE,
)
_BARE_GRAVITY = re.compile(
    r"(?P<value>[01][.,]\d{2,4}(?:\s*(?:-|to)\s*[01][.,]\d{2,4})?)\s*(?:s\.?g\.?|o\.?g\.?)?\.?"
    r"(?:\s+(?:at\s+the\s+|to\s+)?start(?:ing)?)?"
    rf"|(?P<brix>\d{{1,2}}(?:[.,]\d+)?(?:\s*(?:-|to)\s*{_NUM})?\s*(?:°|deg(?:rees)?)?\s*(?:brix|bx))",
    re.IGNORECASE,
)
_ACIDITY = re.compile(
    rf"(?:(?:target|wanted|aim|must|desired)\s+)*(?:t\.?a\.?|(?:titratable|total)\s+acid(?:ity)?|acidity|acid){_IS}"
    rf"(?P<value>{_NUM}(?:\s*(?:-|to)\s*{_NUM})?)\s*(?P<unit>{ACID_UNIT})?\.?"
    rf"(?:\s*\(?(?:as\s+)?(?P<acid>{ACID_NAME})(?:\s+acid)?\)?)?",
    re.IGNORECASE,
)
_ACIDITY_LAST = re.compile(
    rf"(?P<value>{_NUM}(?:\s*(?:-|to)\s*{_NUM})?)\s*(?P<unit>{ACID_UNIT})\s*(?:of\s+)?"
    rf"(?:as\s+)?(?P<acid>{ACID_NAME})?\s*(?:t\.?a\.?|(?:titratable\s+|total\s+)?acid(?:ity)?)",
    re.IGNORECASE,
)
_DOSE_OF_ACID = re.compile(
    rf"(?i){_NUM}\s*g\s*/\s*l(?:it(?:re|er))?\s+(?:of\s+)?{ACID_NAME}\s+acid"
)
"""1 g/L tartaric acid: so much goes in, where no must has so little in all."""
_STRENGTH = re.compile(
    rf"(?:(?:(?:target|wanted|expected|final|desired)\s+)*(?:abv|alcohol|strength|p\.?a\b\.?|(?:enough\s+)?sugar\s+for|potential(?:\s+alcohol)?){_IS}(?P<value>{_NUM}(?:\s*(?:-|to)\s*{_NUM})?)\s*"
    rf"(?:%|per\s?cent)?(?:\s*(?:abv|vol\.?|alcohol))*"
    rf"|(?P<other>{_NUM})\s*(?:%|per\s?cent)\s*(?:abv|vol\.?|alcohol|alc\.?|by\s+vol(?:ume)?|/)+"
    r"(?:\s*(?:abv|vol\.?|by\s+volume))*)\.?",
    re.IGNORECASE,
)
_MAKES = re.compile(
    r"(?:(?:(?:this|it|i|we|the\s+recipe|recipe|batch)\s+)?(?:(?:should|will|would)\s+)?(?:makes?|making|yields?|gives?|fills?)|"
    r"to\s+make|make\s+up\s+to|quantit(?:y|ies)(?:\s+for)?|(?:enough\s+|sufficient\s+)?for|(?:reicht\s+)?für|ergibt|pour|donne|"
    r"(?:batch|recipe|must|brew)(?:\s+(?:size|volume|for|of))?|size|volume|total(?:\s+volume)?)"
    r"\b\s*[:=-]?\s*(?P<volume>\d.*)",
    re.IGNORECASE,
)
_OF_WINE = re.compile(
    r"(?i)\s*\b(?:(?:of\s+)?(?:(?:the|finished)\s+)*(?:wine|must|batch|recipe|mead)|at\s+a\s+time)$"
)
_OF_SUCH_WINE = re.compile(r"(?i)\s+of\s+(?:[\w'-]+\s+){0,4}(?:wine|mead|cider|melomel|must)$")


@lru_cache(maxsize=4096)
def read_field(text: str) -> Field | None:
    """Return the figure that the item states, or None where it states none.

    Raises:
        Unread: it states one that cannot be true; with what was probably meant.

    """
    plain = digits(unmarked(text)).strip(" .;,")
    if len(plain) > 80:
        return None
    readers: tuple[Callable[[str], Field | None], ...] = (
        _final, _starting, _acidity, _strength, _makes,
    )  # fmt: skip
    return next((found for reader in readers if (found := reader(plain)) is not None), None)


# --- gravity ---------------------------------------------------------------------------------


def _final(plain: str) -> Field | None:
    found = _FINAL.fullmatch(plain)
    if found is None:
        return None
    gravity = _one_gravity(pair(found["value"])[1], "FG")
    return Field(name="final gravity", targets={"final_gravity": gravity})


def _starting(plain: str) -> Field | None:
    oechsle = _OECHSLE.fullmatch(plain)
    if oechsle is not None:
        sg = f"SG {1.0 + parse_number(oechsle['degrees'] or oechsle['before']) / 1000.0:.3f}"
        raise Asked(f'"{plain}" is {sg} (1000 times what it is above 1): write that.', written(sg))
    found = _STARTING.fullmatch(plain)
    bare = None if found else _BARE_GRAVITY.fullmatch(plain)
    if found is None and bare is None:
        return None
    value = found["value"] if found else (bare and (bare["value"] or bare["brix"])) or ""
    low_text, high_text = pair(re.sub(r"(?i)\s*(?:s\.?g\.?|o\.?g\.?)$", "", value))
    if "brix" in high_text.lower() and "brix" not in low_text.lower():
        low_text = f"{low_text} brix"
    low, high = _both_gravities(low_text, high_text)
    if low.scale != high.scale or low.value > high.value:
        raise Unread(f'"{plain}" starts above where it ends.', written(f"SG {high.text}"))
    if low.scale == "SG" and low.value < LEAST_START_SG:
        raise Unread(
            f"A must does not start at {low.text}: with so little sugar it makes no wine. "
            "Is it the gravity at the end?",
            written(f"FG {low.text}"),
        )
    return Field(name="gravity", targets={"gravity_low": low, "gravity_high": high})


def _both_gravities(low: str, high: str) -> tuple[Gravity, Gravity]:
    """Return both ends; where both are slips, as in "1085-1090", both are asked about at once."""
    slips = [read_gravity(end.strip().rstrip(".")) for end in (low, high)]
    meant = [slip.meant for slip in slips if isinstance(slip, Slip)]
    if low != high and len(meant) > 1 and all(meant):
        raise Unread(f'"{low}-{high}" is no range of gravities.', written(f"SG {'-'.join(meant)}"))
    return _one_gravity(low, "SG"), _one_gravity(high, "SG")


def _one_gravity(text: str, name: str) -> Gravity:
    found = read_gravity(text.strip().rstrip("."))
    if isinstance(found, Slip):
        told = re.sub(r" (?:Did you mean|Read the hydrometer).*", "", found.sentence)
        raise Unread(told, *([written(f"{name} {found.meant}")] if found.meant else []))
    return found


# --- acidity and strength --------------------------------------------------------------------


def _acidity(plain: str) -> Field | None:
    found = _ACIDITY.fullmatch(plain) or _ACIDITY_LAST.fullmatch(plain)
    if found is None:
        return None
    unit, acid = found["unit"], found["acid"]
    low, high = (tartaric_g_per_l(end, unit, acid) for end in pair(found["value"]))
    if low > high:
        raise Unread(f'"{plain}" starts above where it ends.', written(f"TA {high:g} to {low:g}"))
    if high < LEAST_ACID and _DOSE_OF_ACID.fullmatch(plain):
        return None
    if low < LEAST_ACID or high > MOST_ACID:
        raise _acid_slip(low, high, as_is=bool(unit or acid))
    ends_of = {"acid_low_g_per_l": round(low, 2), "acid_high_g_per_l": round(high, 2)}
    return Field(name="acidity", targets=ends_of)


def _acid_slip(low: float, high: float, *, as_is: bool) -> Unread:
    told = f"{high:g} g/L" if low == high else f"{low:g} to {high:g} g/L"
    times = 10.0 if high < LEAST_ACID else 0.1
    fits = low * times >= LEAST_ACID and high * times <= MOST_ACID
    meant = f"TA {_range(low * times, high * times)} g/L"
    percent = " Was it in percent?" if times > 1 and not as_is else ""
    return Unread(
        f"No must has an acidity of {told}: {LEAST_ACID:g} to {MOST_ACID:g} can be.{percent}",
        *([written(meant)] if fits else []),
    )


def _range(low: float, high: float) -> str:
    return f"{low:.3g}" if low == high else f"{low:.3g}-{high:.3g}"


def _strength(plain: str) -> Field | None:
    found = _STRENGTH.fullmatch(plain)
    if found is None:
        return None
    low, high = pair(found["value"] or found["other"])
    percent = (parse_number(low) + parse_number(high)) / 2.0
    if not LEAST_STRENGTH <= percent <= MOST_STRENGTH:
        raise Unread(
            f"No wine ferments to {percent:g} %: yeast gives up between "
            f"{LEAST_STRENGTH:g} and {MOST_STRENGTH:g} %.",
            *([written(f"TA {percent:g} %")] if percent < LEAST_STRENGTH else []),
        )
    return Field(name="strength", targets={"strength_percent": percent})


# --- how much it makes -----------------------------------------------------------------------


def _makes(plain: str) -> Field | None:
    found = _MAKES.fullmatch(plain)
    volume = basis_of(_OF_SUCH_WINE.sub("", found["volume"]) if found else plain)
    return Field(name="basis", basis=volume) if volume is not None else None


def basis_of(text: str) -> Volume | None:
    """Return the volume that the words are, and nothing else: "1 gallon", "5 L of wine"."""
    plain = _OF_WINE.sub("", text.strip(" ."))
    try:
        found = stated(plain.strip(" ,-"))
        if found is None or found.words:
            return None
        if found.amount.dimension == "count" and found.amount.parts[0].unit == "bottle":
            raise _bottles(found.amount)
        if found.amount.dimension != "volume":
            return None
        if found.amount.parts[0].unit in ("tsp", "tbsp", "cup", "fl oz"):
            return None
        if all(part.number == 0 for part in found.amount.parts):
            raise Unread(f'"{found.amount.text}" is nothing; write how much it makes.')
        return Volume(without_point(found.amount.text))
    except Unread:
        raise
    except UnitsError:
        return None


class OfWine(Asked):
    """How much wine it makes in bottles, where the must is to be told."""


def _bottles(amount: Amount) -> OfWine:
    litres = must_for_finished_l(amount.count() * _BOTTLE_L)
    return OfWine(
        f"{amount.text} is the wine, not the must. With {_BOTTLE_L * 1000:g} mL bottles and what "
        f"stays behind in racking it takes {litres:.1f} L.",
        written(f"makes {litres:.1f} L"),
    )
