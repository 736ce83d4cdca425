"""The must that the recipe makes: its figures with their ranges, beside what is wanted."""

from __future__ import annotations

from typing import NamedTuple

from winebench.model.project import Project
from winebench.plan import must_workings as how
from winebench.plan.balance import (
    Balance,
    balanced,
    has_feed,
    sugar_to_target_kg,
    water_to_target_l,
)
from winebench.plan.drinking import Makeup, ready
from winebench.plan.figures import figure, grams_text, litres_text, workings
from winebench.plan.must_tannin import powder_to_target, tannin_figure
from winebench.plan.must_wants import Actual, wants
from winebench.plan.outlook import Figure, Must
from winebench.plan.portions import Side
from winebench.plan.wanted import Wanted, strength, wanted
from winebench.trade.alcohol import dry_gravity
from winebench.trade.ranges import NotKnown
from winebench.trade.workings import Workings

GLYCEROL_G_PER_L = 7.0
"""What the yeast itself leaves in a dry wine, mostly glycerol, g/L (from memory)."""
LEAST_YIELD, MOST_YIELD = 0.94, 1.03
"""Strength from the same sugar by yeast and warmth: 16.3 to 17.9 g/L for one percent, against
the 16.83 of the figure (Handbook of Enology vol. 1 has 16 to 18, from memory)."""
MOST_ABV = 25.0
"""Stronger than any yeast makes: no dry gravity is told beyond it."""


class Worked(NamedTuple):
    """The must as shown, and what it was worked out of."""

    must: Must
    start: Balance
    """When the yeast goes in."""
    whole: Balance
    """With the sugar that is fed later; the same where none is."""
    aim: Wanted
    makeup: Makeup
    """What of the wine says how long it wants."""
    sugar_kg: float | None
    """White sugar that is lacking for the aim, for the recipe's own volume."""
    water_l: float | None


def extract_g_per_l(must: Balance) -> float:
    """Return what stays in the dry wine, g/L: solids that do not ferment, and glycerol."""
    return must.left_g_per_l + GLYCEROL_G_PER_L


def dry_sg(must: Balance) -> float | None:
    """Return the gravity at which the wine is dry, or None outside what is known."""
    if strength(must) > MOST_ABV:
        return None
    try:
        return dry_gravity(strength(must), extract_g_per_l(must))
    except NotKnown:
        return None


def worked_out(project: Project, factor: float) -> Worked:
    """Return the must, its balances, and what is wanted of it."""
    poor, start, rich = _at_sides(project, fed=False)
    sides = _at_sides(project, fed=True) if has_feed(project) else (poor, start, rich)
    whole = sides[1]
    aim = wanted(project, whole)
    sugar_kg = sugar_to_target_kg(project, aim.gravity, musts=(start, whole))
    water_l = water_to_target_l(project, aim.gravity, musts=(start, whole))
    # What the workings show is the batch as it stands in the pail.
    made, whole_made = start.times(factor), whole.times(factor)
    gravity = _ranged(start.sg, poor.sg, rich.sg, "SG", 3, how.gravity_work(made))
    whole_gravity = _whole_gravity(sides, whole_made, gravity)
    # Acid, tannin and nitrogen are spread through all of it, once the last feed is in.
    fed = whole is not start
    sharp = [side.acid_g_per_l for side in sides]
    acidity = _ranged(sharp[1], sharp[0], sharp[2], "g/L", 1, how.acid_work(whole_made, fed=fed))
    strong = figure(None, "% vol", 1) if whole.is_heap else _ranged(
        strength(whole), strength(sides[0]) * LEAST_YIELD, strength(sides[2]) * MOST_YIELD,
        "% vol", 1, how.strength_work(whole_made),
    )  # fmt: skip
    food = [side.per_litre(side.nitrogen_mg) for side in sides]
    nitrogen = _ranged(food[1], food[0], food[2], "mg/L", 0,
                       how.nitrogen_work(whole_made, fed=fed))  # fmt: skip
    tannin = tannin_figure(project, sides, factor)
    makeup = Makeup(strength(whole), whole.acid_g_per_l, tannin)
    drink = ready(aim.style, makeup)
    actual = Actual(whole_gravity, acidity, tannin, strong, nitrogen, drink)
    must = Must(
        liquid=figure(made.litres, "L", 1, workings=how.liquid_work(made)),
        pail=figure(made.litres + made.pulp_l, "L", 1, workings=how.pail_work(made)),
        gravity_day_0=_ranged(
            start.sg_day_0, poor.sg_day_0_ends[0], rich.sg_day_0_ends[1], "SG", 3,
            how.day_0_work(made),
        ),
        gravity=gravity,
        gravity_whole=whole_gravity,
        brix=_ranged(start.brix, poor.brix, rich.brix, "°Brix", 1, how.gravity_work(made)),
        sugar=_ranged(start.sugar_g_per_l, poor.sugar_g_per_l, rich.sugar_g_per_l, "g/L", 0,
                      how.sugar_work(made)),
        acidity=acidity,
        tannin=tannin,
        nitrogen=nitrogen,
        strength=strong,
        dry_gravity=_dry(*sides),
        sulfite=figure(start.per_litre(start.so2_mg), "mg/L", 0, workings=how.so2_work(made)),
        sugar_to_target=_sugar_needed(sugar_kg, aim, factor),
        acid_to_target=_acid_needed(whole, aim, factor),
        tannin_to_target=powder_to_target(whole, aim.tannin_low, aim.tannin_high, factor),
        water_to_target=_water_needed(water_l, aim, factor),
        ready=drink,
        wants=wants(whole, aim, actual, fed=fed),
        measured=all(line.measured.juice for line in project.fruits) and bool(project.fruits),
    )  # fmt: skip
    return Worked(must, start, whole, aim, makeup, sugar_kg, water_l)


def _at_sides(project: Project, *, fed: bool) -> tuple[Balance, Balance, Balance]:
    ends: tuple[Side, Side, Side] = (-1, 0, 1)
    poor, typical, rich = (balanced(project, at, fed=fed) for at in ends)
    return poor, typical, rich


def _ranged(
    value: float, low: float, high: float, unit: str, digits: int, work: Workings
) -> Figure:
    return figure(value, unit, digits, low=low, high=high, workings=work)


def _whole_gravity(
    sides: tuple[Balance, Balance, Balance], made: Balance, gravity: Figure
) -> Figure:
    poor, whole, rich = sides
    if whole.sg == gravity.value:
        return gravity
    return _ranged(whole.sg, poor.sg, rich.sg, "SG", 3, how.gravity_work(made))


def _dry(poor: Balance, must: Balance, rich: Balance) -> Figure:
    value = dry_sg(must)
    work = workings(
        "must-dry-gravity", "gravity of the extract that is left + that of the alcohol - 1",
        f"{value:.4f}" if value else "", "SG", "Tabarié; OIML R 22; glycerol 7 g/L from memory",
        ("strength", f"{strength(must):.1f}", "% vol"),
        ("extract", f"{extract_g_per_l(must):.0f}", "g/L"),
    )  # fmt: skip
    ends = [sg for sg in (dry_sg(poor), dry_sg(rich)) if sg is not None]
    if value is None or not ends:
        return figure(value, "SG", 3, workings=work)
    return figure(value, "SG", 3, low=min(ends) - 0.002, high=max(ends) + 0.002, workings=work)


def _sugar_needed(kilos: float | None, aim: Wanted, factor: float) -> Figure:
    if kilos is None:
        return figure(None, "g", 0)
    grams = kilos * factor * 1000.0
    return figure(grams, "g", 0, workings=_target_work("sugar-to-target", aim, grams_text(grams)))


def _water_needed(litres: float | None, aim: Wanted, factor: float) -> Figure:
    if litres is None:
        return figure(None, "L", 1)
    made = litres * factor
    return figure(made, "L", 1, workings=_target_work("water-to-target", aim, litres_text(made)))


def _target_work(rule: str, aim: Wanted, result: str) -> Workings:
    text, unit = result.split(" ")
    return workings(
        rule, "what brings the solids' share of the mass to that of the target gravity",
        text, unit, how.BALANCE, ("target", f"{aim.gravity:.3f}", "SG"),
    )  # fmt: skip


def _acid_needed(must: Balance, aim: Wanted, factor: float) -> Figure:
    now = must.acid_g_per_l
    gap = aim.acid_low - now if now < aim.acid_low else min(aim.acid_high - now, 0.0)
    grams = gap * must.litres * factor
    work = workings(
        "acid-to-target", "gap to the nearest end of the wanted range x liquid, as tartaric acid",
        f"{grams:.1f}", "g", "definition", ("now", f"{now:.1f}", "g/L"),
        ("want", f"{aim.acid_low:g}–{aim.acid_high:g}", "g/L"),
        ("liquid", f"{must.litres * factor:.2f}", "L"),
    )  # fmt: skip
    return figure(grams, "g", 1 if abs(grams) < 10 else 0, workings=work)
