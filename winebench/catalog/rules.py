"""Rules that rest on the catalog: what a spoon holds, and what published tables say of a fruit."""

from __future__ import annotations

import difflib

from winebench.catalog.additives import Additive, additives
from winebench.catalog.fruits import Fruit, fruits
from winebench.trade.ranges import NotKnown, Numbers, Spread, known
from winebench.trade.rules import rule

_SOURCE = "spoon weights published or of common practice, in the catalog beside each powder"
_FRUIT_SOURCE = (
    "USDA SR28; Belitz, Food Chemistry, table 18.3; 21 CFR 101.30; USDA canning bulletin; each "
    "fruit's own in the catalog"
)


@rule(
    name="teaspoons-of-powder",
    inputs={"grams": "g", "powder": "word"},
    unit="tsp",
    words="grams / what a level US teaspoon (4.93 mL) usually holds; the spread is that of "
    "products and grinds. Weigh ten of your own with grams-per-teaspoon and use teaspoons instead",
    source=_SOURCE,
    valid="0 to 10 000 g",
    example={"grams": 2.4, "powder": "potassium-sorbate"},
)
def teaspoons_of_powder(grams: Numbers, powder: str) -> Spread[Numbers]:
    """Return how many level teaspoons hold so much of that powder."""
    spoon = _powder(powder).g_per_teaspoon
    mass = known(grams, 0.0, 10_000.0, "a powder mass (g) of")
    return Spread(mass / spoon.figure, mass / spoon.high, mass / spoon.low)


@rule(
    name="grams-of-teaspoons",
    inputs={"teaspoons": "tsp", "powder": "word"},
    unit="g",
    words="spoons x what a level US teaspoon (4.93 mL) usually holds; the spread is that of "
    "products and grinds",
    source=_SOURCE,
    valid="0 to 1000 teaspoons",
    example={"teaspoons": 2.5, "powder": "potassium-sorbate"},
)
def grams_of_teaspoons(teaspoons: Numbers, powder: str) -> Spread[Numbers]:
    """Return the mass of so many level teaspoons of that powder, g."""
    spoon = _powder(powder).g_per_teaspoon
    number = known(teaspoons, 0.0, 1000.0, "a number of teaspoons of")
    return Spread(number * spoon.figure, number * spoon.low, number * spoon.high)


def _powder(key: str) -> Additive:
    found = additives().get(key.strip().casefold())
    if found is None:
        raise NotKnown(f'"{key}" is not a powder known here; use one of {", ".join(additives())}.')
    return found


@rule(
    name="fruit-brix",
    inputs={"fruit": "word"},
    unit="°Brix",
    words="of the juice: its own figure where a table has one, else USDA sugars turned to °Brix, "
    "which rest on the most analyses; the spread spans USDA, Belitz and the canning bulletin, "
    "which differ by up to half. A reading of your own juice replaces it",
    source=_FRUIT_SOURCE,
    valid="the fruits of the catalog",
    example={"fruit": "blackberry"},
)
def fruit_brix(fruit: str) -> Spread[float]:
    """Return the °Brix of that fruit's juice as published tables put it."""
    low, figure, high = _fruit(fruit).brix
    return Spread(figure, low, high)


@rule(
    name="fruit-acid",
    inputs={"fruit": "word"},
    unit="g/kg as tartaric",
    words="titratable acid of the edible part; the spread spans the tables, or is wide where there "
    "is none. A titration of your own replaces it",
    source=_FRUIT_SOURCE,
    valid="the fruits of the catalog",
    example={"fruit": "blackberry"},
)
def fruit_acid_g_per_kg(fruit: str) -> Spread[float]:
    """Return the acid of that fruit as published tables put it, g/kg as tartaric."""
    low, figure, high = _fruit(fruit).acid_g_per_kg
    return Spread(figure, low, high)


@rule(
    name="fruit-tannin",
    inputs={"fruit": "word"},
    unit="g/kg",
    words="condensed tannin of fresh fruit; sorts differ twofold. A wine keeps about 0.4 of it, as "
    "tannin-from-fruit has it. Some figures are from memory, as each fruit's row in the catalog "
    "says",
    source="Gu et al., J. Nutr. 134:613 (2004); USDA proanthocyanidin database, release 2 (2015); "
    "each fruit's own in the catalog",
    valid="the fruits of the catalog that a source was found for",
    example={"fruit": "strawberry"},
)
def fruit_tannin_g_per_kg(fruit: str) -> Spread[float]:
    """Return the tannin of that fruit as published tables put it, g/kg."""
    found = _fruit(fruit)
    if found.tannin.g_per_kg is None:
        raise NotKnown(f"the tannin of {found.name.lower()} is not known here.")
    low, figure, high = found.tannin.g_per_kg
    return Spread(figure, low, high)


def _fruit(key: str) -> Fruit:
    wanted = key.strip().casefold()
    found = fruits().get(wanted)
    if found is None:
        close = difflib.get_close_matches(wanted, fruits(), n=3, cutoff=0.6) or sorted(fruits())
        raise NotKnown(f'"{key}" is not a fruit known here; there are {", ".join(close)}.')
    return found
