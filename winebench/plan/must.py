"""The must that the recipe makes: its figures with their ranges, beside what is wanted."""

from __future__ import annotations

from typing import NamedTuple

from winebench.catalog.styles import Style, style
from winebench.model.project import Project
from winebench.plan import must_workings as how
from winebench.plan.balance import (
    Balance,
    balanced,
    has_feed,
    sugar_to_target_kg,
    water_to_target_l,
)
from winebench.plan.figures import figure, grams_text, litres_text, workings
from winebench.plan.outlook import Figure, Must, Want
from winebench.plan.portions import Side
from winebench.trade.alcohol import EU_SUGAR_PER_PERCENT, dry_gravity
from winebench.trade.gravity import (
    sg_from_brix,
    sg_from_solids_g_per_l,
    solids_g_per_l_from_sg,
)
from winebench.trade.nutrient import nitrogen_need_mg_per_l
from winebench.trade.ranges import NotKnown
from winebench.trade.sugar import HEXOSE_FROM_SUCROSE
from winebench.trade.workings import Workings
from winebench.units import Gravity

GLYCEROL_G_PER_L = 7.0
"""What the yeast itself leaves in a dry wine, mostly glycerol, g/L (from memory)."""
LEAST_YIELD, MOST_YIELD = 0.94, 1.03
"""Strength from the same sugar by yeast and warmth: 16.3 to 17.9 g/L for one percent, against
the 16.83 of the figure (Handbook of Enology vol. 1 has 16 to 18, from memory)."""
MOST_ABV = 25.0
"""Stronger than any yeast makes: no dry gravity is told beyond it."""


class Wanted(NamedTuple):
    """What the maker, else the style, wants of the must."""

    style: Style
    gravity_low: float
    gravity_high: float
    acid_low: float
    acid_high: float
    own_gravity: bool
    """Whether the maker wrote the gravity themselves."""

    @property
    def gravity(self) -> float:
        """Return the middle of the wanted gravities."""
        return (self.gravity_low + self.gravity_high) / 2.0


class Worked(NamedTuple):
    """The must as shown, and what it was worked out of."""

    must: Must
    start: Balance
    """When the yeast goes in."""
    whole: Balance
    """With the sugar that is fed later; the same where none is."""
    aim: Wanted
    sugar_kg: float | None
    """White sugar that is lacking for the aim, for the recipe's own volume."""
    water_l: float | None


def wanted(project: Project, must: Balance) -> Wanted:
    """Return the targets: the maker's own, a strength turned to a gravity, else the style's."""
    targets, by_style = project.recipe.targets, style(project.recipe.style)
    own = [_sg(gravity) for gravity in (targets.gravity_low, targets.gravity_high) if gravity]
    if own:
        low, high = min(own), max(own)
    elif targets.strength_percent is not None:
        aim = _gravity_for_strength(must, targets.strength_percent)
        low, high = aim - 0.002, aim + 0.002
    else:
        low, high = by_style.gravity_low, by_style.gravity_high
    acids = (
        by_style.acid_low if targets.acid_low_g_per_l is None else targets.acid_low_g_per_l,
        by_style.acid_high if targets.acid_high_g_per_l is None else targets.acid_high_g_per_l,
    )
    return Wanted(
        style=by_style,
        gravity_low=low,
        gravity_high=high,
        acid_low=min(acids),
        acid_high=max(acids),
        own_gravity=bool(own) or targets.strength_percent is not None,
    )


def _sg(gravity: Gravity) -> float:
    return gravity.value if gravity.scale == "SG" else sg_from_brix(gravity.value)


def _gravity_for_strength(must: Balance, percent: float) -> float:
    """Return the gravity of this must with its white sugar changed to make that strength."""
    lacking = percent * EU_SUGAR_PER_PERCENT - must.sugar_g_per_l
    solids = _solids_g_per_l(must) + lacking / HEXOSE_FROM_SUCROSE
    return sg_from_solids_g_per_l(min(max(solids, 0.0), 1000.0))


def strength_at(must: Balance, sg: float) -> float:
    """Return the strength of this must with its white sugar changed to read that gravity."""
    if sg < 1.0:
        return 0.0
    lacking = solids_g_per_l_from_sg(sg) - _solids_g_per_l(must)
    sugar = must.sugar_g_per_l + lacking * HEXOSE_FROM_SUCROSE
    return max(sugar, 0.0) / EU_SUGAR_PER_PERCENT


def _solids_g_per_l(must: Balance) -> float:
    return must.per_litre(must.solids_kg * 1000.0)


def strength(must: Balance) -> float:
    """Return the strength that all of the must's sugar makes, % vol."""
    return must.sugar_g_per_l / EU_SUGAR_PER_PERCENT


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
    acidity = _ranged(
        start.acid_g_per_l, poor.acid_g_per_l, rich.acid_g_per_l, "g/L", 1, how.acid_work(made)
    )
    strong = _ranged(
        strength(whole), strength(sides[0]) * LEAST_YIELD, strength(sides[2]) * MOST_YIELD,
        "% vol", 1, how.strength_work(whole_made),
    )  # fmt: skip
    typical, lean, full = (side.per_litre(side.nitrogen_mg) for side in (start, poor, rich))
    nitrogen = _ranged(typical, lean, full, "mg/L", 0, how.nitrogen_work(made))
    must = Must(
        liquid=figure(made.litres, "L", 1, workings=how.liquid_work(made)),
        pail=figure(made.litres + made.pulp_l, "L", 1, workings=how.pail_work(made)),
        gravity_day_0=_ranged(
            start.sg_day_0, poor.sg_day_0_ends[0], rich.sg_day_0_ends[1], "SG", 3,
            how.day_0_work(made),
        ),
        gravity=gravity,
        brix=_ranged(start.brix, poor.brix, rich.brix, "°Brix", 1, how.gravity_work(made)),
        sugar=_ranged(start.sugar_g_per_l, poor.sugar_g_per_l, rich.sugar_g_per_l, "g/L", 0,
                      how.sugar_work(made)),
        acidity=acidity,
        nitrogen=nitrogen,
        strength=strong,
        dry_gravity=_dry(*sides),
        sulfite=figure(start.per_litre(start.so2_mg), "mg/L", 0, workings=how.so2_work(made)),
        sugar_to_target=_sugar_needed(sugar_kg, aim, factor),
        acid_to_target=_acid_needed(start, aim, factor),
        water_to_target=_water_needed(water_l, aim, factor),
        wants=_wants(whole, aim, _whole_gravity(sides, whole_made, gravity), acidity, strong,
                     nitrogen),
        measured=all(line.measured.juice for line in project.fruits) and bool(project.fruits),
    )  # fmt: skip
    return Worked(must, start, whole, aim, sugar_kg, water_l)


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


def _wants(
    must: Balance, aim: Wanted, gravity: Figure, acidity: Figure, strong: Figure, nitrogen: Figure
) -> tuple[Want, ...]:
    low, high = (round(strength_at(must, sg), 1) for sg in (aim.gravity_low, aim.gravity_high))
    need = max(nitrogen_need_mg_per_l(min(max(must.brix, 10.0), 30.0)), 200.0)
    return (
        Want(key="gravity", name="Gravity", actual=gravity, want_low=aim.gravity_low,
             want_high=aim.gravity_high, scale_low=1.050, scale_high=1.130,
             want_text=_wanted_text(f"{aim.gravity_low:.3f}", f"{aim.gravity_high:.3f}")),
        Want(key="acidity", name="Acidity g/L", actual=acidity, want_low=aim.acid_low,
             want_high=aim.acid_high, scale_low=0.0, scale_high=15.0,
             want_text=_wanted_text(f"{aim.acid_low:g}", f"{aim.acid_high:g}")),
        Want(key="strength", name="Strength %", actual=strong, want_low=low, want_high=high,
             scale_low=5.0, scale_high=18.0, want_text=_wanted_text(f"{low:.1f}", f"{high:.1f}")),
        Want(key="nitrogen", name="Nitrogen mg/L", actual=nitrogen, want_low=150.0,
             want_high=need, scale_low=0.0, scale_high=400.0, want_text=f"want 150–{need:.0f}"),
    )  # fmt: skip


def _wanted_text(low: str, high: str) -> str:
    return f"want {low}" if low == high else f"want {low}–{high}"
