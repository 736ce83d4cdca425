"""Kitchen quantities: read them as written, keep them as typed, convert them once.

pint's own expression parser is never given typed text (it reads "1 1/2 tsp" as half a
spoon and can hang on "9**9**9 kg"): a small grammar (`parts`) splits the number (`numbers`) from
the unit, a closed table (`names`) names the unit, and only then does pint convert (`amounts`).
`readings` has what an instrument shows.
"""

from winebench.units.amounts import Amount, Mass, Size, Volume
from winebench.units.names import SPELLINGS, GallonCountry
from winebench.units.numbers import NUMBER, UnitsError, parse_number, plain_text, trimmed
from winebench.units.parts import Part
from winebench.units.readings import (
    HIGHEST_SG,
    LOWEST_SG,
    Gravity,
    Juice,
    Temperature,
    gravity_meant,
)
from winebench.units.typed import Typed

__all__ = [
    "HIGHEST_SG",
    "LOWEST_SG",
    "NUMBER",
    "SPELLINGS",
    "Amount",
    "GallonCountry",
    "Gravity",
    "Juice",
    "Mass",
    "Part",
    "Size",
    "Temperature",
    "Typed",
    "UnitsError",
    "Volume",
    "gravity_meant",
    "parse_number",
    "plain_text",
    "trimmed",
]
