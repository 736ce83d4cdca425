"""Nutrient: the nitrogen a must needs and what brings it."""

from __future__ import annotations

from typing import NamedTuple

from winebench.trade.ranges import Numbers, at_least, known, volume
from winebench.trade.rules import rule

DAP_NITROGEN = 2 * 14.007 / 132.056
"""Nitrogen in diammonium phosphate, g/g (molar masses)."""


@rule(
    name="nitrogen-need",
    inputs={"brix": "°Brix"},
    unit="mg N/L",
    words="200 mg/L at 21 °Brix, 25 more for each degree, but at least the 150 that AWRI names. "
    "Sources disagree: 100 was enough in one study (Schreiner 2018), others ask 250 to 350",
    source="teaching figures after Bisson & Butzke 2000 (from memory); AWRI note on YAN; Schreiner "
    "et al., Am. J. Enol. Vitic. 69:45 (2018)",
    valid="10 to 30 °Brix",
    example={"brix": 22.0},
)
def nitrogen_need_mg_per_l(brix: Numbers) -> Numbers:
    """Return the yeast-assimilable nitrogen that ferments such a must well, mg N/L."""
    return at_least(150.0, 200.0 + 25.0 * (known(brix, 10.0, 30.0, "a Brix of") - 21.0))


@rule(
    name="diammonium-phosphate",
    inputs={"nitrogen_mg_per_l": "mg N/L", "litres": "L"},
    unit="g",
    words="mg/L x litres / 1000 / 0.2121, the share of nitrogen in the salt",
    source="molar masses; US limit 0.96 g/L (27 CFR 24.246)",
    valid="0 to 400 mg N/L, volumes to 100 000 L",
    example={"nitrogen_mg_per_l": 100.0, "litres": 19.0},
)
def dap_g(nitrogen_mg_per_l: Numbers, litres: Numbers) -> Numbers:
    """Return how much diammonium phosphate brings that much nitrogen, g."""
    wanted = known(nitrogen_mg_per_l, 0.0, 400.0, "a nitrogen addition (mg/L) of")
    return wanted * volume(litres) / 1000.0 / DAP_NITROGEN


class Stages(NamedTuple):
    """The dose at the first signs of fermenting, and the one when a third of the sugar is gone."""

    first_g: float
    second_g: float


@rule(
    name="staged-nitrogen",
    inputs={"need_mg_per_l": "mg N/L", "has_mg_per_l": "mg N/L", "litres": "L"},
    unit="g of diammonium phosphate",
    words="what is lacking, half at the first signs (12 to 24 h), half when one third of the sugar "
    "is gone; none after half of it or above 9 % vol",
    source="common practice; molar masses",
    valid="0 to 500 mg N/L, 400 of it added at most, volumes to 100 000 L",
    example={"need_mg_per_l": 225.0, "has_mg_per_l": 110.0, "litres": 19.0},
)
def staged_nitrogen_g(need_mg_per_l: float, has_mg_per_l: float, litres: float) -> Stages:
    """Return diammonium phosphate in two doses, g."""
    need = known(need_mg_per_l, 0.0, 500.0, "a nitrogen need (mg/L) of")
    has = known(has_mg_per_l, 0.0, 500.0, "a nitrogen content (mg/L) of")
    half = dap_g(at_least(0.0, need - has), litres) / 2.0
    return Stages(half, half)
