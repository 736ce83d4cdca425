"""The must that the recipe makes: its figures with their ranges, beside what is wanted."""

from __future__ import annotations

from typing import NamedTuple

from winebench.catalog.styles import Style, style
from winebench.model.project import Project
from winebench.plan.balance import Balance, balanced, sugar_to_target_kg, water_to_target_l
from winebench.plan.figures import figure, grams_text, workings
from winebench.plan.outlook import Figure, Must, Want
from winebench.plan.portions import brix_of
from winebench.trade.acid import acid_to_raise_g
from winebench.trade.alcohol import EU_SUGAR_PER_PERCENT, dry_gravity
from winebench.trade.gravity import ICUMSA, sg_from_brix
from winebench.trade.nutrient import nitrogen_need_mg_per_l
from winebench.trade.ranges import NotKnown
from winebench.trade.workings import Workings
from winebench.units import Gravity

BALANCE = f"mass balance; {ICUMSA}"
GLYCEROL_G_PER_L = 7.0
"""What the yeast itself leaves in a dry wine, mostly glycerol, g/L (from memory)."""
YIELD_SPREAD = 0.03
"""Strength from the same sugar differs by so much either way with yeast and warmth."""


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
    acid_low, acid_high = targets.acid_low_g_per_l, targets.acid_high_g_per_l
    return Wanted(
        style=by_style,
        gravity_low=low,
        gravity_high=high,
        acid_low=by_style.acid_low if acid_low is None else acid_low,
        acid_high=by_style.acid_high if acid_high is None else acid_high,
        own_gravity=bool(own) or targets.strength_percent is not None,
    )


def _sg(gravity: Gravity) -> float:
    return sg_from_brix(brix_of(gravity))


def _gravity_for_strength(must: Balance, percent: float) -> float:
    """Return the gravity of this must with its sugar changed to make that strength."""
    sugar = percent * EU_SUGAR_PER_PERCENT
    other = (must.solids_kg - must.sugar_kg / 1.0526) * 1000.0 / must.litres if must.litres else 0
    solids = sugar / 1.0526 + max(other, 0.0)
    brix = solids / 10.0
    for _ in range(20):
        brix = solids / (sg_from_brix(brix) * 998.2036) * 100.0
    return sg_from_brix(brix)


def strength(must: Balance) -> float:
    """Return the strength that all of the must's sugar makes, % vol."""
    return must.sugar_g_per_l / EU_SUGAR_PER_PERCENT


def extract_g_per_l(must: Balance) -> float:
    """Return what stays in the dry wine, g/L: solids that do not ferment, and glycerol."""
    if not must.litres:
        return GLYCEROL_G_PER_L
    # Sucrose weighs more once split; only its weight as it went in was part of the solids.
    kept = must.solids_kg - min(must.sugar_kg / 1.03, must.solids_kg)
    return kept * 1000.0 / must.litres + GLYCEROL_G_PER_L


def dry_sg(must: Balance) -> float | None:
    """Return the gravity at which the wine is dry, or None outside what is known."""
    try:
        return dry_gravity(strength(must), extract_g_per_l(must))
    except NotKnown:
        return None


def worked_out(project: Project, factor: float) -> tuple[Must, Balance, Wanted]:
    """Return the must, its typical balance, and what is wanted of it."""
    poor, must, rich = (balanced(project, at) for at in (-1, 0, 1))
    aim = wanted(project, must)
    gravity = _ranged(must.sg, poor.sg, rich.sg, "SG", 3, _gravity_work(must))
    acidity = _ranged(
        must.acid_g_per_l, poor.acid_g_per_l, rich.acid_g_per_l, "g/L", 1, _acid_work(must)
    )
    spread = (strength(poor) * (1 - YIELD_SPREAD), strength(rich) * (1 + YIELD_SPREAD))
    strong = _ranged(strength(must), *spread, "% vol", 1, _strength_work(must))
    nitrogen = _ranged(
        _per_litre(must.nitrogen_mg, must), _per_litre(poor.nitrogen_mg, poor),
        _per_litre(rich.nitrogen_mg, rich), "mg/L", 0, _nitrogen_work(must),
    )  # fmt: skip
    return (
        Must(
            liquid=figure(must.litres * factor, "L", 1, workings=_liquid_work(must, factor)),
            pail=figure((must.litres + must.pulp_l) * factor, "L", 1,
                        workings=_pail_work(must, factor)),
            gravity_day_0=_ranged(must.sg_day_0, poor.sg_day_0, rich.sg_day_0, "SG", 3,
                                  _day_0_work(must)),
            gravity=gravity,
            brix=_ranged(must.brix, poor.brix, rich.brix, "°Brix", 1, _gravity_work(must)),
            sugar=_ranged(must.sugar_g_per_l, poor.sugar_g_per_l, rich.sugar_g_per_l, "g/L", 0,
                          _strength_work(must)),
            acidity=acidity,
            nitrogen=nitrogen,
            strength=strong,
            dry_gravity=_dry(must, poor, rich),
            sulfite=figure(_per_litre(must.so2_mg, must), "mg/L", 0, workings=_so2_work(must)),
            sugar_to_target=_sugar_needed(project, aim, factor),
            acid_to_target=_acid_needed(must, aim, factor),
            water_to_target=_water_needed(project, aim, factor),
            wants=_wants(must, aim, gravity, acidity, strong, nitrogen),
            measured=all(line.measured.juice for line in project.fruits) and bool(project.fruits),
        ),
        must,
        aim,
    )  # fmt: skip


def _per_litre(amount: float, must: Balance) -> float:
    return amount / must.litres if must.litres else 0.0


def _ranged(
    value: float, low: float, high: float, unit: str, digits: int, work: Workings
) -> Figure:
    return figure(value, unit, digits, low=low, high=high, workings=work)


def _masses(must: Balance) -> tuple[tuple[str, str, str], ...]:
    return (
        ("water", f"{must.water_kg:.3f}", "kg"),
        ("dissolved solids", f"{must.solids_kg:.3f}", "kg"),
    )


def _gravity_work(must: Balance) -> Workings:
    return workings(
        "must-gravity", "solids / (water + solids) by mass is °Brix; its gravity is the table's",
        f"{must.sg:.4f}", "SG", BALANCE, *_masses(must), ("°Brix", f"{must.brix:.2f}", ""),
    )  # fmt: skip


def _day_0_work(must: Balance) -> Workings:
    return workings(
        "must-gravity-day-0",
        "the same with only the juice that is free at once: half of fresh fruit's, three quarters "
        "of thawed fruit's. Read again after a day or two before adding more",
        f"{must.sg_day_0:.4f}", "SG", f"{BALANCE}; free share common practice",
        ("free water", f"{must.free_water_kg:.3f}", "kg"),
        ("free solids", f"{must.free_solids_kg:.3f}", "kg"),
    )  # fmt: skip


def _liquid_work(must: Balance, factor: float) -> Workings:
    return workings(
        "must-volume", "(water + solids) / density, x the scaling factor",
        f"{must.litres * factor:.2f}", "L", BALANCE, *_masses(must),
        ("factor", f"{factor:.4f}", ""),
    )  # fmt: skip


def _pail_work(must: Balance, factor: float) -> Workings:
    return workings(
        "pail-volume", "liquid + pulp: what the pail's marks show with the fruit in",
        f"{(must.litres + must.pulp_l) * factor:.2f}", "L", "definition",
        ("liquid", f"{must.litres * factor:.2f}", "L"),
        ("pulp", f"{must.pulp_l * factor:.2f}", "L"),
    )  # fmt: skip


def _acid_work(must: Balance) -> Workings:
    return workings(
        "must-acidity", "acid of all lines as tartaric / liquid. pH cannot be worked out: measure",
        f"{must.acid_g_per_l:.2f}", "g/L as tartaric", "mass balance; molar masses",
        ("acid", f"{must.acid_g:.2f}", "g"), ("liquid", f"{must.litres:.2f}", "L"),
    )  # fmt: skip


def _strength_work(must: Balance) -> Workings:
    return workings(
        "must-strength", "fermentable sugar (as simple sugars) / 16.83 g/L per % vol",
        f"{strength(must):.2f}", "% vol", "EU usage, French order of 14 Sept 2011, Annex IV",
        ("fermentable sugar", f"{must.sugar_g_per_l:.1f}", "g/L"),
    )  # fmt: skip


def _nitrogen_work(must: Balance) -> Workings:
    return workings(
        "must-nitrogen", "nitrogen of fruit and nutrient / liquid",
        f"{_per_litre(must.nitrogen_mg, must):.0f}", "mg N/L",
        "mass balance; fruit from memory, nutrient by molar masses",
        ("nitrogen", f"{must.nitrogen_mg:.0f}", "mg"), ("liquid", f"{must.litres:.2f}", "L"),
    )  # fmt: skip


def _so2_work(must: Balance) -> Workings:
    return workings(
        "must-sulfite", "SO2 of sulfite and tablets / liquid",
        f"{_per_litre(must.so2_mg, must):.0f}", "mg/L", "molar masses",
        ("SO2", f"{must.so2_mg:.0f}", "mg"), ("liquid", f"{must.litres:.2f}", "L"),
    )  # fmt: skip


def _dry(must: Balance, poor: Balance, rich: Balance) -> Figure:
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


def _sugar_needed(project: Project, aim: Wanted, factor: float) -> Figure:
    kilos = sugar_to_target_kg(project, aim.gravity)
    made = figure(kilos * factor * 1000.0 if kilos is not None else None, "g", 0)
    return made if kilos is None else _worked(made, "sugar-to-target", aim, grams_text(
        kilos * factor * 1000.0))  # fmt: skip


def _water_needed(project: Project, aim: Wanted, factor: float) -> Figure:
    litres = water_to_target_l(project, aim.gravity)
    made = figure(litres * factor if litres is not None else None, "L", 1)
    return made if litres is None else _worked(made, "water-to-target", aim, made.text)


def _worked(made: Figure, rule: str, aim: Wanted, result: str) -> Figure:
    work = workings(
        rule, "tried on the same balance until the must reads the target", result, made.unit,
        BALANCE, ("target", f"{aim.gravity:.3f}", "SG"),
    )  # fmt: skip
    return figure(made.value, made.unit, 0 if made.unit == "g" else 1, workings=work)


def _acid_needed(must: Balance, aim: Wanted, factor: float) -> Figure:
    now = must.acid_g_per_l
    gap = aim.acid_low - now if now < aim.acid_low else min(aim.acid_high - now, 0.0)
    grams = acid_to_raise_g(must.litres * factor, min(abs(gap), 20.0)) * (1 if gap >= 0 else -1)
    work = workings(
        "acid-to-target", "gap to the nearest end of the wanted range x liquid, as tartaric acid",
        f"{grams:.1f}", "g", "molar masses", ("now", f"{now:.1f}", "g/L"),
        ("want", f"{aim.acid_low:g}–{aim.acid_high:g}", "g/L"),
    )  # fmt: skip
    return figure(grams, "g", 1 if abs(grams) < 10 else 0, workings=work)


def _wants(
    must: Balance, aim: Wanted, gravity: Figure, acidity: Figure, strong: Figure, nitrogen: Figure
) -> tuple[Want, ...]:
    ratio = strength(must) / (must.sg - 1.0) if must.sg > 1.001 else 131.0
    low, high = (round((sg - 1.0) * ratio, 1) for sg in (aim.gravity_low, aim.gravity_high))
    brix = min(max(must.brix, 10.0), 30.0)
    need = nitrogen_need_mg_per_l(brix)
    return (
        Want(key="gravity", name="Gravity", actual=gravity, want_low=aim.gravity_low,
             want_high=aim.gravity_high, scale_low=1.050, scale_high=1.130,
             want_text=f"want {aim.gravity_low:.3f}–{aim.gravity_high:.3f}"),
        Want(key="acidity", name="Acidity g/L", actual=acidity, want_low=aim.acid_low,
             want_high=aim.acid_high, scale_low=0.0, scale_high=15.0,
             want_text=f"want {aim.acid_low:g}–{aim.acid_high:g}"),
        Want(key="strength", name="Strength %", actual=strong, want_low=low, want_high=high,
             scale_low=5.0, scale_high=18.0, want_text=f"want {low:.1f}–{high:.1f}"),
        Want(key="nitrogen", name="Nitrogen mg/L", actual=nitrogen, want_low=150.0,
             want_high=max(need, 200.0), scale_low=0.0, scale_high=400.0,
             want_text=f"want 150–{max(need, 200.0):.0f}"),
    )  # fmt: skip
