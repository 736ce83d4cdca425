"""A finished sentence in the household's words: its litres, kilograms and °C found and retold.

A sentence tells an amount, a range ("5–10 L", "between 5 and 10 L", "5 or 10 L"), a temperature
("-5 °C", "18 to 20 °C") or a difference of temperatures ("within 8 °C", "by 3 °C", "3 °C warmer").
What stands in brackets behind an amount and tells it again takes the amount's place.
"""

from __future__ import annotations

import re
from functools import lru_cache

from winebench.plan.customary import (
    FROM_GRAMS,
    Household,
    mass_range_text,
    volume_range_text,
    volume_text,
    weight_text,
)

_FREE = r"(?<![\w.,/–−-])"
"""A number begins here: it is no end of a range, of a fraction or of a date."""
_SIGNED = r"[-−]?\d+(?:\.\d+)?"
_ENDS = rf"(?P<low>\bbetween (?:about )?{_SIGNED} and |{_SIGNED}(?: ?– ?|-| to | or ))?"
"""The lower end of a range with what joins it; "and" joins only what is "between"."""
_NUMBER = rf"(?P<number>{_SIGNED})"
_APART = (
    r"(?P<before>(?:\b(?:within|by|every|each|per|(?:difference|rise|fall|drop|change|swing)s? of)"
    r" (?:about |only |at most )?|(?:±|\+-) ?)?)"
)
_APART_AFTER = r"(?P<after> (?:apart|(?:too )?(?:warmer|cooler|colder|hotter|higher|lower))\b)?"
_CELSIUS = re.compile(
    rf"{_FREE}{_APART}{_ENDS}{_NUMBER} °C\b(?: \((?P<told>[^()]*°F)\))?{_APART_AFTER}", re.ASCII
)
_VOLUME = re.compile(
    rf"{_FREE}{_ENDS}{_NUMBER} L\b(?!/)"
    r"(?: \((?P<told>[^()]*\b(?:gal|qt|pt|fl oz)(?: US| imperial)?)\))?",
    re.ASCII,
)
_MASS = re.compile(
    rf"{_FREE}{_ENDS}{_NUMBER} (?P<unit>kg|g)\b(?!/)(?: \((?P<told>[^()]*\b(?:lb|oz))\))?",
    re.ASCII,
)


@lru_cache(maxsize=2048)
def spoken(text: str, how: Household) -> str:
    """Return the text with its litres, kilograms and °C in the household's words.

    What stands in brackets already, and so tells something again, is left; so are the household's
    own words.
    """
    if not any(own in text for own in how.own_words):
        return _spoken(text, how)
    parts = re.split(f"({'|'.join(map(re.escape, how.own_words))})", text)
    return "".join(part if place % 2 else _spoken(part, how) for place, part in enumerate(parts))


def _spoken(text: str, how: Household) -> str:
    if how.fahrenheit and "°C" in text:
        text = _CELSIUS.sub(_fahrenheit, text)
    if how.gallon is not None and " L" in text:
        text = _VOLUME.sub(lambda found: _volume_in(found, how), text)
    return _MASS.sub(_mass_in, text) if how.pounds and "g" in text else text


def _fahrenheit(found: re.Match[str]) -> str:
    """Return a temperature, its range, or a difference, in °F: a difference has no zero point."""
    if found.string[: found.start()].endswith("°F ("):
        return found[0]
    before, low, after = found["before"], found["low"] or "", found["after"] or ""
    if found["told"]:
        return f"{before}{found['told']} ({low}{found['number']} °C){after}"
    zero = 0.0 if before or after else 32.0

    def told(one: re.Match[str]) -> str:
        degrees = _value(one[0]) * 1.8 + zero
        return f"{round(degrees, 1):g}" if zero == 0.0 and "." in one[0] else f"{round(degrees)}"

    ends = (re.sub(_SIGNED, told, end) for end in (low, found["number"]))
    return f"{before}{''.join(ends)} °F{after}"


def _value(number: str) -> float:
    return float(number.replace("−", "-"))


def _ends(found: re.Match[str]) -> tuple[float, str, str] | None:
    """Return the lower end of a range, what joins it before and after, or None for one amount."""
    low = found["low"]
    if not low:
        return None
    number = re.search(_SIGNED, low)
    assert number is not None
    return _value(number[0]), low[: number.start()], low[number.end() :]


def _volume_in(found: re.Match[str], how: Household) -> str:
    if _tells_again(found) or how.gallon is None:
        return found[0]
    both, litres, ends = not _in_brackets(found), _value(found["number"]), _ends(found)
    if ends is not None:
        low, lead, joint = ends
        told = volume_range_text((low, litres), how.gallon, lead, joint)
        return f"{told} ({_short_range(found)} L)" if both else told
    plain = f"{found['number']} L"
    if found["told"]:
        return f"{found['told']} ({plain})"
    sign = "-" if litres < 0.0 else ""
    words = volume_text(abs(litres), how.gallon, both=False)
    if words.endswith(" L"):  # a mere drop
        return found[0]
    return f"{sign}{words} ({plain})" if both else f"{sign}{words}"


def _short_range(found: re.Match[str]) -> str:
    """Return the range as it is told again in brackets: "between 5 and 10" is "5–10"."""
    low = found["low"]
    number = re.search(_SIGNED, low)
    assert number is not None
    return f"{number[0]}–{found['number']}" if "between" in low else f"{low}{found['number']}"


def _mass_in(found: re.Match[str]) -> str:
    unit, ends = found["unit"], _ends(found)
    share = 1000.0 if unit == "kg" else 1.0
    grams, again = _value(found["number"]) * share, f"{found['number']} {unit}"
    if found["told"]:
        return f"{found['told']} ({found['low'] or ''}{again})"
    small = abs(grams) < FROM_GRAMS
    if small or _in_brackets(found) or found.string[found.end() :].startswith(" a "):
        return found[0]
    if ends is not None:
        low, lead, joint = ends
        told = mass_range_text((low * share, grams), lead, joint)
        return f"{told} ({_short_range(found)} {unit})"
    return f"{'-' if grams < 0.0 else ''}{weight_text(abs(grams), again)}"


def _tells_again(found: re.Match[str]) -> bool:
    """Return whether it opens a bracket, and so tells again what stands before: "1 gal (3.8 L)"."""
    return found.string[: found.start()].endswith("(")


def _in_brackets(found: re.Match[str]) -> bool:
    before = found.string[: found.start()]
    return before.count("(") > before.count(")")
