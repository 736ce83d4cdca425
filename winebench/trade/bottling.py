"""Bottling: counts, and the pressure and gas that sugar left behind would make."""

from __future__ import annotations

import math

import numpy as np

from winebench.trade.gravity import WATER_20
from winebench.trade.ranges import Numbers, known, plain, volume
from winebench.trade.rules import rule

CO2_PER_HEXOSE = 2 * 44.010 / 180.156
CO2_G_PER_L = 1.83
"""Density of the gas at 20 °C and one atmosphere, g/L (ideal gas, 44.01 g in 24.06 L)."""


_IN_WINE = (0.86 - 0.01 * 12.0) / 0.86
"""How much less gas wine of 12 % vol dissolves than water does."""


@rule(
    name="bottle-pressure",
    inputs={"sugar_g_per_l": "g/L", "celsius": "°C"},
    unit="bar",
    words="gas of the sugar, dissolved: g/L x 0.4886 / (44.01 x Henry's constant), over the air's "
    "own pressure. About 1 bar for each 4 g/L at 10 °C, a third more at 20 °C. Bottles for still "
    "wine are made for none: they burst, so never cork what can ferment again",
    source="stoichiometry; Henry's constant of CO2 in water 0.034 mol/(L atm) at 25 °C, 2400 K "
    "(Sander, Atmos. Chem. Phys. 23:10901, 2023: 3.3 to 3.4e-4 mol/(m³ Pa), 2300 to 2600 K); in 12 "
    "% wine 14 % less, (0.86 - 0.01 x strength) / 0.86 (Reg (EEC) 2676/90, carbon dioxide)",
    valid="0 to 60 g/L, 0 to 40 °C",
    example={"sugar_g_per_l": 20.0, "celsius": 20.0},
)
def pressure_bar(sugar_g_per_l: Numbers, celsius: float = 20.0) -> Numbers:
    """Return the overpressure if that sugar ferments in a corked bottle, bar."""
    sugar = known(sugar_g_per_l, 0.0, 60.0, "a sugar content (g/L) of")
    kelvin = known(celsius, 0.0, 40.0, "a cellar temperature (°C) of") + 273.15
    henry = 0.034 * np.exp(2400.0 * (1.0 / kelvin - 1.0 / 298.15)) * _IN_WINE
    dissolved = sugar * CO2_PER_HEXOSE / 44.01
    # Reckoned for a still wine, which holds no gas before; one never degassed adds up to 1 bar.
    overpressure: Numbers = plain(dissolved / henry * 1.01325)
    return overpressure


MAY_LACK = 0.02
"""Share by which a bottle may be short and still be one: a finger more of air under the cork."""


@rule(
    name="bottles",
    inputs={"litres": "L", "bottle_ml": "mL", "lees_l": "L"},
    unit="bottles",
    words="whole bottles in (volume - lees); one that lacks no more than 2 % is full",
    source="definition; 15 mL of 750 is what a filled bottle may lack (Directive 76/211/EEC, annex "
    "I, tolerable negative error from 500 to 1000 mL; from memory)",
    valid="bottles of 100 mL to 30 L, volumes to 100 000 L",
    example={"litres": 18.4, "bottle_ml": 750.0, "lees_l": 0.3},
)
def bottles(litres: float, bottle_ml: float = 750.0, lees_l: float = 0.0) -> int:
    """Return how many bottles the wine fills."""
    size = known(bottle_ml, 100.0, 30_000.0, "a bottle (mL) of")
    clear = volume(litres) - volume(lees_l)
    return max(0, int(clear * 1000.0 / size + MAY_LACK + 1e-9))


@rule(
    name="corks",
    inputs={"bottles": "bottles"},
    unit="corks",
    words="one a bottle and three spare",
    source="common practice",
    valid="0 to 1 000 000 bottles",
    example={"bottles": 24},
)
def corks(bottles: float) -> int:
    """Return how many corks to have at hand."""
    whole = math.ceil(known(bottles, 0, 1_000_000, "a number of bottles of"))
    return whole + 3 if whole else 0


@rule(
    name="gas-mass",
    inputs={"sugar_g": "g"},
    unit="g",
    words="2 carbon dioxide from each simple sugar: x 2 x 44.01 / 180.16, nothing for the yeast "
    "itself",
    source="molar masses",
    valid="0 to 100 000 000 g of simple sugar (white sugar counts 1.0526)",
    example={"sugar_g": 220.0},
)
def gas_g(sugar_g: Numbers) -> Numbers:
    """Return the most carbon dioxide that so much simple sugar can give off, g."""
    return known(sugar_g, 0.0, 1e8, "a sugar mass (g) of") * CO2_PER_HEXOSE


@rule(
    name="gas-released",
    inputs={"sugar_kg": "kg"},
    unit="L",
    words="sugar x 0.4886 x 0.95 / 1.83 g/L, the rest goes to the yeast. Simple sugar: white sugar "
    "counts 1.0526 of it and gives 5 % more gas",
    source="stoichiometry; 95 % of the sugar makes gas and alcohol",
    valid="0 to 100 kg of simple sugar",
    example={"sugar_kg": 4.4},
)
def gas_released_l(sugar_kg: Numbers) -> Numbers:
    """Return the carbon dioxide that fermenting so much simple sugar gives off, L at 20 °C."""
    sugar = known(sugar_kg, 0.0, 100.0, "a sugar mass (kg) of")
    return sugar * 1000.0 * CO2_PER_HEXOSE * 0.95 / CO2_G_PER_L


@rule(
    name="gas-share-of-room",
    inputs={"sugar_kg": "kg", "room_m3": "m³"},
    unit="%",
    words="100 x (1 - e^(-gas / room)) with the gas of the peak day (a quarter of all, "
    "gas-released), mixed through a shut room and pushing its air out; heavier than air, it lies "
    "thicker on the floor. Simple sugar: white sugar gives 5 % more. Work limits: 0.5 % over 8 h "
    "(OSHA), 3 % for 15 min (ACGIH and NIOSH, short term); 4 % is immediately dangerous",
    source="stoichiometry; a quarter on the peak day is an assumption; all limits: NIOSH, "
    "documentation for immediately dangerous concentrations, carbon dioxide, May 1994",
    valid="0 to 100 kg of simple sugar, rooms of 1 to 10 000 m³",
    example={"sugar_kg": 4.4, "room_m3": 10.0},
)
def gas_share_of_room_percent(sugar_kg: Numbers, room_m3: Numbers) -> Numbers:
    """Return the carbon dioxide in a shut room after the busiest day, %."""
    room_l = known(room_m3, 1.0, 10_000.0, "a room (m³) of") * 1000.0
    share: Numbers = plain(-np.expm1(-gas_released_l(sugar_kg) / 4.0 / room_l) * 100.0)
    return share


@rule(
    name="full-vessel-weight",
    inputs={"litres": "L", "sg": "SG", "empty_kg": "kg"},
    unit="kg",
    words="litres x 0.998 x gravity + the empty vessel (a 19 L glass jug weighs about 6 kg)",
    source="definition; jug common practice",
    valid="0 to 1000 L, SG 0.97 to 1.45, 0 to 1000 kg empty",
    example={"litres": 19.0, "sg": 1.09, "empty_kg": 6.0},
)
def full_weight_kg(litres: Numbers, sg: Numbers, empty_kg: Numbers) -> Numbers:
    """Return what a full vessel weighs, kg."""
    liquid = known(litres, 0.0, 1000.0, "a volume (L) of") * known(sg, 0.97, 1.45, "a gravity of")
    return liquid * WATER_20 / 1000.0 + known(empty_kg, 0.0, 1000.0, "an empty vessel (kg) of")


@rule(
    name="neck-air",
    inputs={"gap_mm": "mm", "bore_mm": "mm"},
    unit="mL",
    words="cylinder of air between wine and cork; a bottle's neck is about 18.5 mm wide, a gap of "
    "15 to 40 mm usual. A brimful bottle that warms pushes its cork out",
    source="geometry; bore and gaps common practice",
    valid="gaps to 100 mm, bores of 10 to 60 mm",
    example={"gap_mm": 20.0, "bore_mm": 18.5},
)
def neck_air_ml(gap_mm: Numbers, bore_mm: float = 18.5) -> Numbers:
    """Return the air left in a bottle's neck, mL."""
    across = known(bore_mm, 10.0, 60.0, "a bore (mm) of") / 10.0
    return known(gap_mm, 0.0, 100.0, "a gap (mm) of") / 10.0 * np.pi / 4.0 * across**2


@rule(
    name="headspace",
    inputs={"capacity_l": "L", "litres": "L"},
    unit="L",
    words="what the vessel holds - what is in it; negative: it runs over",
    source="definition",
    valid="0 to 100 000 L",
    example={"capacity_l": 19.5, "litres": 18.9},
)
def headspace_l(capacity_l: Numbers, litres: Numbers) -> Numbers:
    """Return the room left in a vessel, L."""
    return volume(capacity_l) - volume(litres)
