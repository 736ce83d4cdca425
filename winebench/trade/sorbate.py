"""Sorbate: what keeps a sweetened, cleared and sulfited wine from starting again.

It stops yeast multiplying; it does not kill and cannot arrest a ferment. Never after a malolactic
ferment: bacteria turn it into the smell of crushed geranium, for which there is no cure.
"""

from __future__ import annotations

from winebench.trade.ranges import Numbers, known, more_than_nothing, volume
from winebench.trade.rules import rule

SORBIC_SHARE = 112.13 / 150.22
LIMITS_MG_PER_L = {"OIV": 200.0, "EU": 200.0, "US": 300.0}
"""Published limits of sorbic acid: OIV II.3.4.5; Reg (EU) 2019/934; 27 CFR 24.246."""


@rule(
    name="sorbic-dose",
    inputs={"abv": "% vol"},
    unit="mg/L sorbic acid",
    words="150 mg/L at 10 % vol, 25 less for each percent more, 50 at 14",
    source="Peynaud, Knowing and Making Wine, 1984 (from memory)",
    valid="10 to 14 % vol",
    example={"abv": 12.0},
)
def sorbic_acid_dose_mg_per_l(abv: Numbers) -> Numbers:
    """Return the sorbic acid that a clear, sulfited wine of that strength needs, mg/L."""
    # Straight between the table's figures, which lie on one line.
    return 150.0 - 25.0 * (known(abv, 10.0, 14.0, "a strength (% vol) of") - 10.0)


@rule(
    name="potassium-sorbate",
    inputs={"sorbic_mg_per_l": "mg/L", "litres": "L"},
    unit="g",
    words="mg/L x litres / 1000 / 0.746, the share of sorbic acid in the salt",
    source="molar masses",
    valid="0 to 300 mg/L",
    example={"sorbic_mg_per_l": 100.0, "litres": 19.0},
)
def potassium_sorbate_g(sorbic_mg_per_l: Numbers, litres: Numbers) -> Numbers:
    """Return how much potassium sorbate brings that much sorbic acid, g."""
    wanted = known(sorbic_mg_per_l, 0.0, 300.0, "a sorbic acid dose (mg/L) of")
    return wanted * volume(litres) / 1000.0 / SORBIC_SHARE


@rule(
    name="sorbic-from-sorbate",
    inputs={"grams": "g", "litres": "L"},
    unit="mg/L sorbic acid",
    words="grams x 0.746 x 1000 / litres",
    source="molar masses",
    valid="0 to 1000 g",
    example={"grams": 2.4, "litres": 3.785},
)
def sorbic_mg_per_l(grams: Numbers, litres: Numbers) -> Numbers:
    """Return the sorbic acid that so much potassium sorbate brings, mg/L."""
    into = more_than_nothing(litres, 1e5, "a volume (L) of")
    return known(grams, 0.0, 1000.0, "a powder mass (g) of") * SORBIC_SHARE * 1000.0 / into
