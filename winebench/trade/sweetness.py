"""The words for sweetness, by the sugar that is left and the acid that balances it."""

from __future__ import annotations

from typing import Generic, NamedTuple

import numpy as np

from winebench.trade.ranges import Numbers, known, plain
from winebench.trade.rules import rule

SOURCE = (
    "OIV International Standard for the Labelling of Wines, 3.1.6; the same figures in "
    "Reg (EU) 2019/33, annex III B (from memory)"
)
WORDS = ("dry", "medium dry", "medium", "sweet")
"""The last begins where "medium" ends."""


class Limits(NamedTuple, Generic[Numbers]):
    """The most sugar for each word, g/L; above the last a wine is sweet."""

    dry: Numbers
    medium_dry: Numbers
    medium: Numbers


@rule(
    name="sweetness-limits",
    inputs={"acid_g_per_l": "g/L as tartaric"},
    unit="g/L, g/L, g/L",
    words="most sugar of a still wine called dry: 4, or up to 9 where it is no more than 2 above "
    "the acid; medium dry: 12, or up to 18 where it is no more than 10 above; medium: 45; sweet "
    "from there",
    source=SOURCE,
    valid="acid of 0 to 40 g/L",
    example={"acid_g_per_l": 6.5},
)
def sweetness_limits(acid_g_per_l: Numbers) -> Limits[Numbers]:
    """Return the most sugar for each word on a still wine's label, g/L."""
    acid = known(acid_g_per_l, 0.0, 40.0, "an acidity (g/L) of")
    return Limits(
        plain(np.clip(acid + 2.0, 4.0, 9.0)),
        plain(np.clip(acid + 10.0, 12.0, 18.0)),
        acid * 0.0 + 45.0,
    )


def sweetness_word(sugar_g_per_l: float, acid_g_per_l: float) -> str:
    """Return the word for a still wine of so much sugar and acid; both g/L, acid as tartaric."""
    limits = sweetness_limits(min(max(acid_g_per_l, 0.0), 40.0))
    found = (word for word, most in zip(WORDS, limits, strict=False) if sugar_g_per_l <= most)
    return next(found, WORDS[-1])
