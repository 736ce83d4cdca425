"""Tannin of a must: what fruit and powder bring, by weight.

All of it is wide. Sorts of one fruit differ twofold, a wine takes up a fifth to seven tenths of
its fruit's tannin, and laboratories' methods differ fivefold on one wine (Wilhelmy 2021).
"""

from __future__ import annotations

from winebench.trade.choices import said_yes
from winebench.trade.ranges import Numbers, Spread, known, more_than_nothing, volume
from winebench.trade.rules import rule

ON_THE_PULP = Spread(0.4, 0.2, 0.7)
"""Share of a fruit's condensed tannin that a wine fermented on it keeps; the rest stays on the pulp
and in the lees. From memory of grapes; that cell walls hold it back: Hanlin 2010, AVF trials."""
IN_THE_JUICE = Spread(0.2, 0.05, 0.5)
"""The same of juice pressed off before the ferment (common practice: a press keeps most of it)."""
OF_JUICE = Spread(0.9, 0.7, 1.0)
"""The same where the figure is of juice already (common practice: some settles with the lees)."""
OF_POWDER = Spread(0.7, 0.5, 0.9)
"""Tannin in grape tannin powder, share of its mass. The OIV's codex asks for 0.65 of phenols (from
memory) and for the share on the label; what kitchens get is often cut."""
RED_WINE_G_PER_L = Spread(0.544, 0.251, 0.837)
"""Tannin of 1,325 red wines, mean and one standard deviation either way, by protein precipitation;
they span 0.03 to 1.895 (Harbertson et al., Am. J. Enol. Vitic. 59:210, 2008)."""
_SHARES = "share kept: grapes from memory, juice common practice"


@rule(
    name="tannin-from-fruit",
    inputs={"g_per_kg": "g/kg", "fruit_kg": "kg", "litres": "L", "juice": "word"},
    unit="g/L",
    words="g/kg x kg x share kept / litres; 0.4 (0.2 to 0.7) where the fruit ferments with the "
    "wine, 0.2 (0.05 to 0.5) where 'juice' is yes and it was pressed before",
    source=_SHARES,
    valid="0 to 40 g/kg (dry grape seed has 35), 0 to 100 000 kg, volumes over 0 to 100 000 L",
    example={"g_per_kg": 2.16, "fruit_kg": 6.8, "litres": 19.0, "juice": "no"},
)
def tannin_of_fruit(
    g_per_kg: Numbers, fruit_kg: Numbers, litres: Numbers, juice: str = "no"
) -> Spread[Numbers]:
    """Return the tannin that fruit brings to a must, g/L, with its range."""
    grams = known(g_per_kg, 0.0, 40.0, "a tannin content (g/kg) of") * known(
        fruit_kg, 0.0, 100_000.0, "fruit (kg) of"
    )
    rate = grams / more_than_nothing(litres, 100_000.0, "a volume (L) of")
    share = IN_THE_JUICE if said_yes(juice, "juice") else ON_THE_PULP
    return Spread(rate * share.figure, rate * share.low, rate * share.high)


@rule(
    name="tannin-powder",
    inputs={"rise_g_per_l": "g/L", "litres": "L"},
    unit="g",
    words="rise x litres / 0.7, the powder's tannin (0.5 to 0.9: it is never pure, see its label). "
    "Half of it first, then taste; the kitchen's rule 'tannin' has the usual most",
    source="OIV codex for the purity, from memory; common practice",
    valid="0 to 1 g/L more, 0 to 100 000 L",
    example={"rise_g_per_l": 0.1, "litres": 19.0},
)
def powder_for_rise_g(rise_g_per_l: Numbers, litres: Numbers) -> Spread[Numbers]:
    """Return grape tannin powder that raises the tannin of a wine so far, g, with its range."""
    grams = known(rise_g_per_l, 0.0, 1.0, "a rise of tannin (g/L) of") * volume(litres)
    return Spread(grams / OF_POWDER.figure, grams / OF_POWDER.high, grams / OF_POWDER.low)
