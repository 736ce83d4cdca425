"""Nutrient: the nitrogen a must needs and what brings it."""

from __future__ import annotations

import numpy as np

from winebench.trade.ranges import Numbers, known
from winebench.trade.rules import rule

DAP_NITROGEN = 2 * 14.007 / 132.056
"""Nitrogen in diammonium phosphate, g/g (molar masses)."""


@rule(
    name="nitrogen-need",
    inputs={"brix": "°Brix"},
    unit="mg N/L",
    words="200 mg/L at 21 °Brix, 25 more for each degree; below 21 the 150 mg/L that AWRI names "
    "as the least is approached",
    source="teaching figures after Bisson & Butzke 2000 (from memory); AWRI note on YAN",
    valid="10 to 30 °Brix",
    example={"brix": 22.0},
)
def nitrogen_need_mg_per_l(brix: Numbers) -> Numbers:
    """Return the yeast-assimilable nitrogen that ferments such a must well, mg N/L."""
    brix = known(brix, 10.0, 30.0, "a Brix of")
    need = np.maximum(200.0 + 25.0 * (brix - 21.0), 150.0)
    return need if isinstance(brix, np.ndarray) else float(need)


@rule(
    name="diammonium-phosphate",
    inputs={"nitrogen_mg_per_l": "mg N/L", "litres": "L"},
    unit="g",
    words="mg/L x litres / 1000 / 0.2121, the share of nitrogen in the salt",
    source="molar masses; US limit 0.96 g/L (27 CFR 24.246, from memory)",
    valid="0 to 400 mg N/L",
    example={"nitrogen_mg_per_l": 100.0, "litres": 19.0},
)
def dap_g(nitrogen_mg_per_l: Numbers, litres: float) -> Numbers:
    """Return how much diammonium phosphate brings that much nitrogen, g."""
    wanted = known(nitrogen_mg_per_l, 0.0, 400.0, "a nitrogen addition (mg/L) of")
    return wanted * litres / 1000.0 / DAP_NITROGEN
