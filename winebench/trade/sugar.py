"""Sugar: how much reaches a gravity, what it does to the volume, what it splits into."""

from __future__ import annotations

from winebench.trade.gravity import (
    ICUMSA,
    WATER_20,
    brix_from_sg,
    sg_from_brix,
)
from winebench.trade.ranges import Numbers, known, more_than_nothing, volume
from winebench.trade.rules import rule

HEXOSE_FROM_SUCROSE = 2 * 180.156 / 342.297


@rule(
    name="sugar-to-reach",
    inputs={"litres": "L", "sg_now": "SG", "sg_target": "SG"},
    unit="kg",
    words="dry sugar that takes the must to the target, its own volume counted: "
    "mass of must x (brix target - brix now) / (100 - brix target); below 0 there is too much "
    "already",
    source=ICUMSA + ", mass balance",
    valid="SG 1.000 to 1.17, volumes to 100 000 L",
    example={"litres": 19.0, "sg_now": 1.040, "sg_target": 1.090},
)
def sugar_to_reach_kg(litres: Numbers, sg_now: Numbers, sg_target: Numbers) -> Numbers:
    """Return white sugar to add, kg; negative where the must is past the target already."""
    now = brix_from_sg(known(sg_now, 1.0, 1.17, "a must gravity of"))
    target = brix_from_sg(known(sg_target, 1.0, 1.17, "a target gravity of"))
    must_kg = volume(litres) * sg_now * WATER_20 / 1000.0
    return must_kg * (target - now) / (100.0 - target)


@rule(
    name="volume-gained",
    inputs={"sugar_kg": "kg", "litres": "L", "brix": "°Brix"},
    unit="L",
    words="volume after dissolving less the volume before",
    source=ICUMSA + "; 27 CFR 24.181 counts 13.5 lb as one gallon, 0.618 L/kg",
    valid="0 to 100 000 kg, volumes over 0 to 100 000 L, result to 85 °Brix",
    example={"sugar_kg": 2.0, "litres": 19.0, "brix": 10.0},
)
def volume_gained_l(sugar_kg: Numbers, litres: Numbers, brix: float = 0.0) -> Numbers:
    """Return how much the must grows when that sugar dissolves, L."""
    sugar_kg = _kilograms(sugar_kg)
    before_kg = (
        more_than_nothing(litres, 1e5, "a volume (L) of") * sg_from_brix(brix) * WATER_20 / 1000.0
    )
    after_kg = before_kg + sugar_kg
    after_brix = (before_kg * brix + 100.0 * sugar_kg) / after_kg
    return after_kg * 1000.0 / (_sg_of_mixture(after_brix) * WATER_20) - litres


@rule(
    name="mixed-brix",
    inputs={"litres_a": "L", "brix_a": "°Brix", "litres_b": "L", "brix_b": "°Brix"},
    unit="°Brix",
    words="sugar of both by mass over the mass of both",
    source=ICUMSA + ", mass balance",
    valid="0 to 85 °Brix, volumes to 100 000 L",
    example={"litres_a": 10.0, "brix_a": 12.0, "litres_b": 1.0, "brix_b": 60.0},
)
def mixed_brix(litres_a: Numbers, brix_a: Numbers, litres_b: Numbers, brix_b: Numbers) -> Numbers:
    """Return the °Brix of two musts together."""
    mass_a = volume(litres_a) * sg_from_brix(brix_a)
    mass_b = volume(litres_b) * sg_from_brix(brix_b)
    both = more_than_nothing(mass_a + mass_b, 1e6, "a mass (kg) mixed of")
    return (mass_a * brix_a + mass_b * brix_b) / both


@rule(
    name="mixed-volume",
    inputs={"litres_a": "L", "brix_a": "°Brix", "litres_b": "L", "brix_b": "°Brix"},
    unit="L",
    words="mass of both over the density of the mixture",
    source=ICUMSA + ", mass balance",
    valid="0 to 85 °Brix, volumes to 100 000 L",
    example={"litres_a": 10.0, "brix_a": 12.0, "litres_b": 1.0, "brix_b": 60.0},
)
def mixed_volume_l(
    litres_a: Numbers, brix_a: Numbers, litres_b: Numbers, brix_b: Numbers
) -> Numbers:
    """Return the volume of two musts together, L (a little less than the sum)."""
    mass = volume(litres_a) * sg_from_brix(brix_a) + volume(litres_b) * sg_from_brix(brix_b)
    return mass / sg_from_brix(mixed_brix(litres_a, brix_a, litres_b, brix_b))


@rule(
    name="staged-original-gravity",
    inputs={"litres": "L", "sg_first": "SG", "fed_kg": "kg"},
    unit="SG",
    words="gravity the must would have had with all the sugar in at the start; fed_kg is the sum "
    "of all that was fed",
    source=ICUMSA + ", mass balance",
    valid="SG 1.000 to 1.17 at first, volumes over 0 to 100 000 L, result to 85 °Brix",
    example={"litres": 19.0, "sg_first": 1.080, "fed_kg": 1.5},
)
def staged_original_sg(litres: Numbers, sg_first: Numbers, fed_kg: Numbers) -> Numbers:
    """Return the equivalent original gravity of a must fed with sugar later on."""
    brix = brix_from_sg(known(sg_first, 1.0, 1.17, "a must gravity of"))
    mass = more_than_nothing(litres, 1e5, "a volume (L) of") * sg_first * WATER_20 / 1000.0
    return _sg_of_mixture((mass * brix + 100.0 * _kilograms(fed_kg)) / (mass + fed_kg))


@rule(
    name="hexose-from-sucrose",
    inputs={"sucrose": "g"},
    unit="g",
    words="sucrose takes up water when yeast splits it: x 2 x 180.16 / 342.30",
    source="molar masses",
    valid="0 to 100 000 kg",
    example={"sucrose": 100.0},
)
def hexose_from_sucrose(sucrose: Numbers) -> Numbers:
    """Return the simple sugars that come of sucrose, in the same unit."""
    return known(sucrose, 0.0, 1e8, "a mass of") * HEXOSE_FROM_SUCROSE


def _sg_of_mixture(brix: Numbers) -> Numbers:
    # Nobody typed this figure: a refusal says that it was found.
    return sg_from_brix(known(brix, 0.0, 85.0, "a Brix so found of"))


def _kilograms(sugar: Numbers) -> Numbers:
    return known(sugar, 0.0, 100_000.0, "a sugar mass (kg) of")
