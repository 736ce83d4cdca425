"""How each figure of the must was reached, in words and numbers, of the batch as it is made."""

from __future__ import annotations

from winebench.plan.balance import Balance
from winebench.plan.figures import workings
from winebench.trade.alcohol import EU_SUGAR_PER_PERCENT
from winebench.trade.gravity import ICUMSA
from winebench.trade.workings import Workings

BALANCE = f"mass balance; {ICUMSA}"


def masses(must: Balance) -> tuple[tuple[str, str, str], ...]:
    """Return what the gravity is of: water and solids."""
    return (
        ("water", f"{must.water_kg:.3f}", "kg"),
        ("dissolved solids", f"{must.solids_kg:.3f}", "kg"),
    )


def gravity_work(must: Balance) -> Workings:
    """Return how the gravity was reached."""
    return workings(
        "must-gravity", "solids / (water + solids) by mass is °Brix; its gravity is the table's",
        f"{must.sg:.4f}", "SG", BALANCE, *masses(must), ("°Brix", f"{must.brix:.2f}", ""),
    )  # fmt: skip


def day_0_work(must: Balance) -> Workings:
    """Return how day 0's gravity was reached."""
    return workings(
        "must-gravity-day-0",
        "the same with only the juice that is free at once: half of fresh fruit's, three quarters "
        "of thawed fruit's. Read again after a day or two before adding more",
        f"{must.sg_day_0:.4f}", "SG", f"{BALANCE}; free share common practice",
        ("free water", f"{must.free_water_kg.figure:.3f}", "kg"),
        ("free solids", f"{must.free_solids_kg.figure:.3f}", "kg"),
    )  # fmt: skip


def liquid_work(must: Balance) -> Workings:
    """Return how the liquid was reached."""
    return workings(
        "must-volume", "(water + solids) / density of that °Brix",
        f"{must.litres:.2f}", "L", BALANCE, *masses(must), ("°Brix", f"{must.brix:.2f}", ""),
    )  # fmt: skip


def pail_work(must: Balance) -> Workings:
    """Return how the pail's filling was reached."""
    return workings(
        "pail-volume", "liquid + pulp: what the pail's marks show with the fruit in",
        f"{must.litres + must.pulp_l:.2f}", "L", "definition",
        ("liquid", f"{must.litres:.2f}", "L"),
        ("pulp", f"{must.pulp_l:.2f}", "L"),
    )  # fmt: skip


def over_liquid(must: Balance, *, fed: bool) -> tuple[str, str, str]:
    """Return what an amount is divided by: sugar that is fed later makes more of it."""
    name = "liquid, once all sugar is fed" if fed else "liquid"
    return name, f"{must.litres:.2f}", "L"


def acid_work(must: Balance, *, fed: bool) -> Workings:
    """Return how the acidity was reached."""
    return workings(
        "must-acidity", "acid of all lines as tartaric / liquid. pH cannot be worked out: measure",
        f"{must.acid_g_per_l:.2f}", "g/L as tartaric", "mass balance; molar masses",
        ("acid", f"{must.acid_g:.2f}", "g"), over_liquid(must, fed=fed),
    )  # fmt: skip


def strength_work(must: Balance) -> Workings:
    """Return how the strength was reached."""
    return workings(
        "must-strength", "fermentable sugar (as simple sugars, any to be fed with it) / 16.83 g/L "
        "per % vol; yeasts differ: 16.3 to 17.9 g/L make one percent. By the drop in gravity the "
        "same wine may come to half a percent or more beside this: it reckons with another yield, "
        "and takes solids that are no sugar for sugar",
        f"{must.sugar_g_per_l / EU_SUGAR_PER_PERCENT:.1f}", "% vol",
        "EU usage, French order of 14 Sept 2011, Annex IV",
        ("fermentable sugar", f"{must.sugar_g_per_l:.0f}", "g/L"),
    )  # fmt: skip


def nitrogen_work(must: Balance, *, fed: bool) -> Workings:
    """Return how the nitrogen was reached."""
    return workings(
        "must-nitrogen", "nitrogen of fruit and nutrient / liquid",
        f"{must.per_litre(must.nitrogen_mg):.0f}", "mg N/L",
        "mass balance; fruit from memory, nutrient by molar masses",
        ("nitrogen", f"{must.nitrogen_mg:.0f}", "mg"), over_liquid(must, fed=fed),
    )  # fmt: skip


def so2_work(must: Balance) -> Workings:
    """Return how the sulfite was reached."""
    return workings(
        "must-sulfite", "SO2 of sulfite and tablets / liquid",
        f"{must.per_litre(must.so2_mg):.0f}", "mg/L", "molar masses",
        ("SO2", f"{must.so2_mg:.0f}", "mg"), ("liquid", f"{must.litres:.2f}", "L"),
    )  # fmt: skip


def sugar_work(must: Balance) -> Workings:
    """Return how the fermentable sugar was reached."""
    return workings(
        "must-sugar", "fermentable sugar of all lines, as simple sugars / liquid",
        f"{must.sugar_g_per_l:.0f}", "g/L",
        "mass balance; sucrose x 1.0526 once split (molar masses)",
        ("fermentable sugar", f"{must.sugar_kg:.3f}", "kg"),
        ("liquid", f"{must.litres:.2f}", "L"),
    )  # fmt: skip
