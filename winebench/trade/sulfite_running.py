"""Sulfite over a batch's life: what binds, what old powder lacks, and what a limit leaves."""

from __future__ import annotations

from winebench.trade.choices import chosen
from winebench.trade.ranges import Numbers, Spread, at_least, known
from winebench.trade.rules import rule
from winebench.trade.sulfite import so2_mg_per_l_from_metabisulfite

_BOUND = (0.30, 0.40, 0.50)
"""Share of an early addition that binds: common practice; less binds later."""
_FRUIT = (
    "French order of 2 Oct 1997 on food additives, annex III C, part 2; that Reg (EC) 1333/2008 "
    "category 14.2.4 has the same figures is from memory"
)
_GRAPE = "Reg (EU) 2019/934 Annex I Part B"
_US = "27 CFR 4.22(b)(1)"
LIMITS_MG_PER_L = {
    "EU-fruit-wine": 200.0,
    "EU-made-wine": 260.0,
    "US": 350.0,
    "EU-grape-wine-red-dry": 150.0,
    "EU-grape-wine-white-dry": 200.0,
    "EU-grape-wine-red-sweet": 200.0,
    "EU-grape-wine-white-sweet": 250.0,
}
"""Limits of total SO2 for wine on sale; sweet is 5 g/L sugar or more.

Wine of other fruit is no product of the vine: the EU bounds its SO2 as a food additive, fruit wine
and made wine apart (see the source). The rows of grape wine are the regulation's on products of
the vine."""
_MOST_TOTAL = 1000.0
"""More than any maker would leave in; a total beyond it is a slip of the pen, mg/L."""


@rule(
    name="so2-to-add",
    inputs={"free_now": "mg/L", "free_target": "mg/L"},
    unit="mg/L",
    words="what is lacking / (1 - share that binds); 40 % binds of an early addition, 30 to 50 % "
    "the spread. Measure again a day later",
    source="common practice",
    valid="0 to 100 mg/L free",
    example={"free_now": 10.0, "free_target": 30.0},
)
def so2_to_add_mg_per_l(free_now: Numbers, free_target: Numbers) -> Spread[Numbers]:
    """Return the SO2 to add for a free SO2, mg/L, with the spread that binding makes."""
    now = known(free_now, 0.0, 100.0, "free SO2 (mg/L) of")
    lacking = at_least(0.0, known(free_target, 0.0, 100.0, "a free SO2 target (mg/L) of") - now)
    low, middle, high = (lacking / (1.0 - bound) for bound in _BOUND)
    return Spread(middle, low, high)


@rule(
    name="free-so2-after-addition",
    inputs={"free_now": "mg/L", "added": "mg/L"},
    unit="mg/L free",
    words="free now + addition x (1 - share that binds); 40 % binds of an early addition, 30 to "
    "50 % the spread",
    source="common practice",
    valid="0 to 100 mg/L free, 0 to 200 mg/L added",
    example={"free_now": 10.0, "added": 30.0},
)
def free_so2_after_mg_per_l(free_now: Numbers, added: Numbers) -> Spread[Numbers]:
    """Return the free SO2 a day after an addition, mg/L, with the spread that binding makes."""
    now = known(free_now, 0.0, 100.0, "free SO2 (mg/L) of")
    more = known(added, 0.0, 200.0, "an SO2 addition (mg/L) of")
    high, middle, low = (now + more * (1.0 - bound) for bound in _BOUND)
    return Spread(middle, low, high)


@rule(
    name="total-so2-after-addition",
    inputs={"total": "mg/L", "litres": "L", "grams": "g", "salt": "word"},
    unit="mg/L total",
    words="total so far + what the powder brings; yeast itself makes more, "
    "usually under 30 mg/L, in single wines up to 128",
    source="definition; molar masses; yeast's own: Zang & Franzen 1966 and 1967, as quoted in a "
    "review of SO2 in wine",
    valid="0 to 1000 mg/L before and after, 0 to 1000 g, volumes over 0 to 100 000 L",
    example={"total": 50.0, "litres": 19.0, "grams": 1.65, "salt": "potassium"},
)
def total_so2_after_mg_per_l(
    total: Numbers, litres: Numbers, grams: Numbers, salt: str = "potassium"
) -> Numbers:
    """Return the running total of SO2 after another dose of metabisulfite, mg/L."""
    so_far = known(total, 0.0, _MOST_TOTAL, "total SO2 (mg/L) of")
    after = so_far + so2_mg_per_l_from_metabisulfite(grams, litres, salt)
    return known(after, 0.0, _MOST_TOTAL, "a total SO2 (mg/L) so found of")


@rule(
    name="so2-from-tablets",
    inputs={"tablets": "tablets", "tablet_g": "g", "litres": "L", "salt": "word"},
    unit="mg/L",
    words="tablets x grams each x share of SO2 x 1000 / litres; tablets weigh 0.40 to 0.60 g, "
    "so weigh ten of yours",
    source="molar masses; tablet mass common practice",
    valid="0 to 200 tablets of 0.1 to 10 g, volumes over 0 to 100 000 L",
    example={"tablets": 5.0, "tablet_g": 0.44, "litres": 19.0, "salt": "potassium"},
)
def so2_from_tablets_mg_per_l(
    tablets: Numbers, tablet_g: Numbers, litres: Numbers, salt: str = "potassium"
) -> Numbers:
    """Return the SO2 that crushed tablets bring, mg/L."""
    powder = known(tablets, 0.0, 200.0, "a number of tablets of") * known(
        tablet_g, 0.1, 10.0, "a tablet (g) of"
    )
    return so2_mg_per_l_from_metabisulfite(powder, litres, salt)


@rule(
    name="old-powder",
    inputs={"fresh_g": "g", "strength_percent": "%"},
    unit="g",
    words="grams of fresh powder / strength left. Opened powder weakens with air and damp at a "
    "rate nobody can name: test it, or replace it after a year",
    source="definition; the year is common practice",
    valid="50 to 100 % of its strength left, 0 to 1000 g",
    example={"fresh_g": 1.65, "strength_percent": 90.0},
)
def old_powder_g(fresh_g: Numbers, strength_percent: Numbers) -> Numbers:
    """Return how much weakened powder does the work of fresh powder, g."""
    fresh = known(fresh_g, 0.0, 1000.0, "a powder mass (g) of")
    return fresh * 100.0 / known(strength_percent, 50.0, 100.0, "a strength left (%) of")


@rule(
    name="so2-left-to-limit",
    inputs={"total": "mg/L", "limit": "word"},
    unit="mg/L",
    words="limit of total SO2 - all that was added so far; below 0 it is passed. For wine on sale, "
    "a home maker is seldom bound: EU fruit wine 200, made wine 260; US 350; EU "
    "grape wine alone: red 150, white 200, with 5 g/L sugar or more (sweet) 200 and 250",
    source=f"{_FRUIT}; {_US}; grape wine {_GRAPE}",
    valid="0 to 1000 mg/L",
    example={"total": 110.0, "limit": "EU-fruit-wine"},
)
def so2_left_mg_per_l(total: Numbers, limit: str = "EU-fruit-wine") -> Numbers:
    """Return how much SO2 a limit leaves, mg/L; negative where it is passed."""
    most = LIMITS_MG_PER_L[chosen(limit, LIMITS_MG_PER_L, "a limit")]
    return most - known(total, 0.0, _MOST_TOTAL, "total SO2 (mg/L) of")
