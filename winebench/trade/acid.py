"""Acid: equivalents, titration, what to add and what takes it away. Shown as g/L tartaric.

pH cannot be computed from acidity in a mixed fruit must; no rule here gives one.
"""

from __future__ import annotations

from winebench.trade.choices import chosen, said_yes
from winebench.trade.ranges import Numbers, known, more_than_nothing, volume
from winebench.trade.rules import rule

MOLAR = "molar masses"
GRAMS_PER_EQUIVALENT = {
    "tartaric": 150.087 / 2,
    "malic": 134.087 / 2,
    "citric": 192.124 / 3,
    "sulfuric": 98.079 / 2,
    "lactic": 90.078,
    "acetic": 60.052,
}
BLEND = {"malic": 0.5, "tartaric": 0.4, "citric": 0.1}
"""A usual blend by mass: common practice; the tub's label says its own."""
_WORDS = (
    "x equivalent mass of {} acid / equivalent mass of {}; a blend is 50 % malic, 40 % tartaric, "
    "10 % citric by mass (common practice)"
)


def _equivalent(acid: str) -> float:
    name = chosen(acid, (*GRAMS_PER_EQUIVALENT, "blend"), "an acid")
    if name == "blend":
        return 1.0 / sum(share / GRAMS_PER_EQUIVALENT[part] for part, share in BLEND.items())
    return GRAMS_PER_EQUIVALENT[name]


@rule(
    name="acid-as-tartaric",
    inputs={"g_per_l": "g/L", "acid": "word"},
    unit="g/L as tartaric",
    words=_WORDS.format("tartaric", "the acid"),
    source=MOLAR + "; Handbook of Enology vol. 1, conversion table",
    valid="0 to 100 g/L",
    example={"g_per_l": 6.0, "acid": "malic"},
)
def as_tartaric(g_per_l: Numbers, acid: str) -> Numbers:
    """Return acidity as g/L tartaric of one given as g/L of that acid."""
    amount = known(g_per_l, 0.0, 100.0, "an acidity (g/L) of")
    return amount * (GRAMS_PER_EQUIVALENT["tartaric"] / _equivalent(acid))


@rule(
    name="acid-from-tartaric",
    inputs={"g_per_l": "g/L", "acid": "word"},
    unit="g/L",
    words=_WORDS.format("the", "tartaric"),
    source=MOLAR,
    valid="0 to 100 g/L",
    example={"g_per_l": 6.0, "acid": "sulfuric"},
)
def from_tartaric(g_per_l: Numbers, acid: str) -> Numbers:
    """Return acidity as g/L of that acid of one given as g/L tartaric."""
    amount = known(g_per_l, 0.0, 100.0, "an acidity (g/L) of")
    return amount * (_equivalent(acid) / GRAMS_PER_EQUIVALENT["tartaric"])


@rule(
    name="acid-from-milliequivalents",
    inputs={"meq_per_l": "meq/L", "acid": "word"},
    unit="g/L",
    words="meq/L x equivalent mass of the acid / 1000",
    source=MOLAR + "; Handbook of Enology vol. 1, conversion table",
    valid="0 to 1500 meq/L",
    example={"meq_per_l": 100.0, "acid": "tartaric"},
)
def from_milliequivalents(meq_per_l: Numbers, acid: str = "tartaric") -> Numbers:
    """Return acidity as g/L of that acid of one given in milliequivalents."""
    amount = known(meq_per_l, 0.0, 1500.0, "an acidity (meq/L) of")
    return amount * (_equivalent(acid) / 1000.0)


@rule(
    name="acid-titration",
    inputs={"ml": "mL", "mol_per_l": "mol/L", "sample_ml": "mL", "acid": "word"},
    unit="g/L",
    words="mL of soda x its strength x equivalent mass of the acid / mL of sample",
    source="definition; " + MOLAR,
    valid="0 to 100 mL of soda of 0.001 to 2 mol/L, samples over 0 to 1 L",
    example={"ml": 7.0, "mol_per_l": 0.1, "sample_ml": 10.0, "acid": "tartaric"},
)
def titrated_acid_g_per_l(
    ml: Numbers, mol_per_l: Numbers, sample_ml: Numbers, acid: str = "tartaric"
) -> Numbers:
    """Return titratable acidity, g/L of that acid, from a titration with sodium hydroxide."""
    used = known(ml, 0.0, 100.0, "a titration volume (mL) of")
    soda = known(mol_per_l, 0.001, 2.0, "a soda strength (mol/L) of")
    return used * soda * _equivalent(acid) / more_than_nothing(sample_ml, 1e3, "a sample (mL) of")


@rule(
    name="acid-to-raise",
    inputs={"litres": "L", "raise_g_per_l": "g/L as tartaric", "acid": "word"},
    unit="g",
    words="litres x wanted rise x equivalent mass of the acid / that of tartaric. pH falls, by how "
    "much nobody can tell: measure",
    source=MOLAR,
    valid="0 to 20 g/L, volumes to 100 000 L",
    example={"litres": 19.0, "raise_g_per_l": 1.5, "acid": "citric"},
)
def acid_to_raise_g(litres: Numbers, raise_g_per_l: Numbers, acid: str = "tartaric") -> Numbers:
    """Return how much of that acid raises the acidity so far, g."""
    rise = known(raise_g_per_l, 0.0, 20.0, "a rise (g/L) of")
    return rise * volume(litres) * (_equivalent(acid) / GRAMS_PER_EQUIVALENT["tartaric"])


# g of agent per g tartaric taken away: (with the tartrate precipitating, only neutralised)
_REMOVERS = {
    "calcium-carbonate": (100.087 / 150.087, 100.087 / 150.087),
    "potassium-bicarbonate": (100.115 / 150.087, 100.115 / 75.0435),
    "potassium-carbonate": (138.205 / 300.174, 138.205 / 150.087),
}


@rule(
    name="acid-remover",
    inputs={"litres": "L", "drop_g_per_l": "g/L as tartaric", "agent": "word", "settles": "word"},
    unit="g",
    words="litres x wanted drop x molar ratio; settles 'yes' when the tartrate settles out in the "
    "cold, 'no' where the acid is malic or citric and only neutralised. Only tartaric acid "
    "settles: fruit other than grape has next to none. Lower by 2 g/L at most; pH rises: measure",
    source=MOLAR + "; reactions as listed by the AWRI de-acidification page",
    valid="0 to 2 g/L, volumes to 100 000 L",
    example={
        "litres": 19.0,
        "drop_g_per_l": 1.0,
        "agent": "potassium-bicarbonate",
        "settles": "no",
    },
)
def remover_g(litres: Numbers, drop_g_per_l: Numbers, agent: str, settles: str = "no") -> Numbers:
    """Return how much carbonate lowers the acidity so far, g."""
    with_settling, without = _REMOVERS[chosen(agent, _REMOVERS, "an agent")]
    ratio = with_settling if said_yes(settles, "settles") else without
    drop = known(drop_g_per_l, 0.0, 2.0, "a drop (g/L) of")
    return drop * volume(litres) * ratio


@rule(
    name="acid-after-malolactic",
    inputs={"acid_g_per_l": "g/L as tartaric", "malic_g_per_l": "g/L"},
    unit="g/L as tartaric",
    words="each g/L malic acid that turns to lactic loses one of its two acid groups: -0.56. "
    "pH rises. Never after sorbate",
    source=MOLAR + " (75.04 / 134.09)",
    valid="0 to 30 g/L, no more malic acid than there is acid",
    example={"acid_g_per_l": 8.0, "malic_g_per_l": 3.0},
)
def acid_after_malolactic(acid_g_per_l: Numbers, malic_g_per_l: Numbers) -> Numbers:
    """Return the acidity after that much malic acid turned to lactic, g/L as tartaric."""
    start = known(acid_g_per_l, 0.0, 30.0, "an acidity (g/L) of")
    most = start / as_tartaric(1.0, "malic")  # no more malic acid than there is acid
    turned = known(malic_g_per_l, 0.0, most, "malic acid (g/L) of")
    return start - turned * (GRAMS_PER_EQUIVALENT["tartaric"] / 134.087)


@rule(
    name="acid-after-water",
    inputs={"acid_g_per_l": "g/L as tartaric", "litres": "L", "added_l": "L"},
    unit="g/L as tartaric",
    words="acidity x volume before / volume after. pH rises a little",
    source="definition (volumes taken to add up)",
    valid="0 to 100 g/L, volumes to 100 000 L",
    example={"acid_g_per_l": 14.0, "litres": 10.0, "added_l": 8.0},
)
def acid_after_water(acid_g_per_l: Numbers, litres: Numbers, added_l: Numbers) -> Numbers:
    """Return the acidity after adding something without acid, g/L as tartaric."""
    after = more_than_nothing(volume(litres) + volume(added_l), 2e5, "a volume (L) of")
    return known(acid_g_per_l, 0.0, 100.0, "an acidity (g/L) of") * litres / after


@rule(
    name="water-to-lower-acid",
    inputs={"litres": "L", "acid_g_per_l": "g/L as tartaric", "target_g_per_l": "g/L as tartaric"},
    unit="L",
    words="litres x (acidity / target - 1). Sugar, nitrogen and flavour are thinned alike",
    source="definition (volumes taken to add up)",
    valid="target 1 g/L up to the acidity, 100 g/L at most, volumes to 100 000 L",
    example={"litres": 10.0, "acid_g_per_l": 14.0, "target_g_per_l": 7.5},
)
def water_to_lower_acid_l(
    litres: Numbers, acid_g_per_l: Numbers, target_g_per_l: Numbers
) -> Numbers:
    """Return the water that brings the acidity down to the target, L."""
    acid = known(acid_g_per_l, 1.0, 100.0, "an acidity (g/L) of")
    return volume(litres) * (acid / known(target_g_per_l, 1.0, acid, "a target (g/L) of") - 1.0)
