"""How long a wine wants in the bottle before it is ready: common practice, put to its makeup."""

from __future__ import annotations

import numpy as np

from winebench.trade.ranges import Numbers, known, plain
from winebench.trade.rules import rule
from winebench.trade.tannin import RED_WINE_G_PER_L

LIGHT_MONTHS, DARK_MONTHS = 6.0, 12.0
"""From when light and dark fruit wines are ready (common practice: 6 to 12, and 12 to 24)."""
STRONG_PERCENT, SHARP_G_PER_L = 13.0, 8.0
"""Above these a wine is kept longer: a month for each percent and each g/L (common practice)."""
MONTHS_A_G_OF_TANNIN = (DARK_MONTHS - LIGHT_MONTHS) / RED_WINE_G_PER_L.figure
"""Months that each g/L of tannin asks for: a mean red wine's takes a light one to a dark."""
KEEPS_FROM_PERCENT = 10.0
"""Weaker than 9.5 to 10 % a wine keeps poorly (common practice)."""


@rule(
    name="months-to-ready",
    inputs={"abv": "% vol", "tannin_g_per_l": "g/L", "acid_g_per_l": "g/L as tartaric"},
    unit="months",
    words="6 for a wine without tannin, 6 more for each 0.544 g/L of it (a mean red wine's), one "
    "more for each percent above 13 and one for each g/L of acid above 8. A beginning, not a date: "
    "taste one",
    source="common practice: light wines ready from 6 months, dark ones from 12; that tannin is "
    "what tells them apart, and the month for strength and acid, have no source",
    valid="0 to 25 % vol, 0 to 5 g/L tannin, 0 to 40 g/L acid",
    example={"abv": 13.0, "tannin_g_per_l": 0.5, "acid_g_per_l": 6.5},
)
def months_to_ready(abv: Numbers, tannin_g_per_l: Numbers, acid_g_per_l: Numbers) -> Numbers:
    """Return the months after bottling from which a wine of that makeup is ready."""
    strong = known(abv, 0.0, 25.0, "a strength (% vol) of") - STRONG_PERCENT
    sharp = known(acid_g_per_l, 0.0, 40.0, "an acidity (g/L) of") - SHARP_G_PER_L
    tannic = known(tannin_g_per_l, 0.0, 5.0, "a tannin content (g/L) of")
    for_tannin = MONTHS_A_G_OF_TANNIN * tannic
    found: Numbers = plain(
        LIGHT_MONTHS + for_tannin + np.maximum(strong, 0.0) + np.maximum(sharp, 0.0)
    )
    return found
