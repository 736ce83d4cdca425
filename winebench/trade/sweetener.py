"""What stands in for white sugar: syrup, honey, dextrose, concentrate; and water to thin a must."""

from __future__ import annotations

from typing import Generic, NamedTuple

from winebench.trade.gravity import ICUMSA, WATER_20, brix_from_sg, sg_from_brix
from winebench.trade.ranges import Numbers, known, volume
from winebench.trade.rules import rule


class Sweetener(NamedTuple, Generic[Numbers]):
    """How much to add, and the volume of must after it."""

    sweetener_kg: Numbers
    litres_after: Numbers


@rule(
    name="sweetener-to-reach",
    inputs={"litres": "L", "sg_now": "SG", "sg_target": "SG", "solids_percent": "%"},
    unit="kg, L",
    words="mass of must x (brix target - brix now) / (sugar share - brix target): the water that a "
    "syrup carries is counted. Shares by mass: honey about 82, dextrose monohydrate 90.9, juice "
    "concentrate about 68, a syrup by its label, dry sugar 100",
    source=ICUMSA
    + ", mass balance; molar masses; USDA SR28 for honey; concentrate common practice",
    valid="SG 1.000 to 1.17, 40 to 100 %, volumes to 100 000 L",
    example={"litres": 19.0, "sg_now": 1.040, "sg_target": 1.090, "solids_percent": 82.0},
)
def sweetener_to_reach(
    litres: Numbers, sg_now: Numbers, sg_target: Numbers, solids_percent: Numbers
) -> Sweetener[Numbers]:
    """Return how much honey, syrup, dextrose or concentrate brings the must to the target."""
    now = brix_from_sg(known(sg_now, 1.0, 1.17, "a must gravity of"))
    target = brix_from_sg(known(sg_target, sg_now, 1.17, "a target gravity of"))
    share = known(solids_percent, 40.0, 100.0, "a sugar share (%) of")
    must_kg = volume(litres) * sg_now * WATER_20 / 1000.0
    wanted_kg = must_kg * (target - now) / (share - target)
    return Sweetener(wanted_kg, (must_kg + wanted_kg) / (sg_target * WATER_20 / 1000.0))


@rule(
    name="sugar-equivalent",
    inputs={"white_sugar_kg": "kg", "solids_percent": "%"},
    unit="kg",
    words="white sugar / share of sugar by mass (dextrose monohydrate 90.9 %, honey about 82 %, "
    "a syrup by its label)",
    source="definition; molar masses; USDA SR28 for honey",
    valid="20 to 100 %, sugar to 100 000 kg",
    example={"white_sugar_kg": 1.0, "solids_percent": 82.0},
)
def sugar_equivalent_kg(white_sugar_kg: Numbers, solids_percent: Numbers) -> Numbers:
    """Return how much honey, syrup or dextrose brings the same sugar, kg."""
    sugar = known(white_sugar_kg, 0.0, 100_000.0, "a sugar mass (kg) of")
    return sugar * 100.0 / known(solids_percent, 20.0, 100.0, "a sugar share (%) of")


@rule(
    name="water-to-lower-gravity",
    inputs={"litres": "L", "sg_now": "SG", "sg_target": "SG"},
    unit="L",
    words="mass of must x (brix now / brix target - 1), as water. Acid, nitrogen and flavour are "
    "thinned alike",
    source=ICUMSA + ", mass balance",
    valid="SG 1.005 to 1.2, volumes to 100 000 L",
    example={"litres": 19.0, "sg_now": 1.110, "sg_target": 1.095},
)
def water_to_lower_gravity_l(litres: Numbers, sg_now: Numbers, sg_target: Numbers) -> Numbers:
    """Return the water that brings a must down to the target, L."""
    now = brix_from_sg(known(sg_now, 1.005, 1.2, "a must gravity of"))
    target = brix_from_sg(known(sg_target, 1.005, sg_now, "a target gravity of"))
    return volume(litres) * sg_now * (now / target - 1.0)


@rule(
    name="volume-of-sweetener",
    inputs={"kilograms": "kg", "solids_percent": "%"},
    unit="L",
    words="kilograms / density of the sucrose solution with that share of sugar",
    source=ICUMSA,
    valid="0 to 85 % by mass, 0 to 100 000 kg",
    example={"kilograms": 1.0, "solids_percent": 66.7},
)
def sweetener_l(kilograms: Numbers, solids_percent: Numbers) -> Numbers:
    """Return the volume of so much syrup, honey or concentrate, L at 20 °C."""
    mass = known(kilograms, 0.0, 1e5, "a mass (kg) of")
    return mass * 1000.0 / (sg_from_brix(solids_percent) * WATER_20)
