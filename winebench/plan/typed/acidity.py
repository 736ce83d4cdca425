"""Acidity in whatever unit and acid a card or a label states it, and what a pH can be."""

from __future__ import annotations

from winebench.trade.acid import as_tartaric
from winebench.units import parse_number

LOWEST_PH, HIGHEST_PH = 2.0, 6.0
"""No fruit, must or wine is outside these (common practice rejects far narrower ones)."""
MOST_ACID_OF_FRUIT, MOST_ACID_OF_MUST = 80.0, 60.0
"""g/L as tartaric. Lemon juice has 48 g/L of citric acid (Penniston et al. 2008, J. Endourol.
22:567, from memory), 56 as tartaric: the one leaves room for a sharper sort (chosen here), and no
must or wine is as sharp as the other."""
ACID_UNIT = (
    r"(?:%|per\s?cent|g(?:rams?)?\s?/\s?l(?:it(?:re|er))?|g(?:rams?)?\s?per\s?l(?:it(?:re|er))?|ppt|‰"
    r"|g\s?/\s?100\s?ml)"
)
"""How the unit of an acidity is written."""
ACID_NAME = r"(?:tartaric|malic|citric|sulfuric|sulphuric)"
_IN_PERCENT = ("%", "percent", "g/100ml")


def tartaric_g_per_l(number: str, unit: str | None, acid: str | None) -> float:
    """Return an acidity as typed in g/L as tartaric; without a unit it is g/L already.

    One percent is 1 g in 100 mL, so 10 g/L.

    Raises:
        UnitsError: the number is none.

    """
    plain = (unit or "").lower().replace(" ", "")
    grams = parse_number(number) * (10.0 if plain in _IN_PERCENT else 1.0)
    named = (acid or "").lower().replace("ph", "f")
    return float(as_tartaric(min(grams, 100.0), named)) if named else grams
