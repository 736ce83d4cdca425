"""Numbers that nothing can have: a slip in a file written by hand is named, never reckoned with.

The bounds are wide: what is merely unlikely is a caution of the plan, not a fault of the file.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from winebench.model.log import Entry, Reading
from winebench.model.own_ferment import FARTHEST, LEARNT
from winebench.model.project import Project
from winebench.model.recipe import MOST_OF_A_KIND, FruitLine, SugarLine, YeastLine
from winebench.plan.typed.acidity import HIGHEST_PH, LOWEST_PH, MOST_ACID_OF_FRUIT


class Bound(NamedTuple):
    """One number of a project, and between what it can lie."""

    place: str
    value: float | None
    low: float
    high: float
    unit: str = ""


_TRACE = 1e-6
"""More than nothing."""
_MOST_G, _MOST_L = 1e6, 1e6
"""More than any kitchen holds."""
_ACID, _PH = (0.0, MOST_ACID_OF_FRUIT), (LOWEST_PH, HIGHEST_PH)


def impossible(project: Project, entries: Iterable[tuple[int, Entry]]) -> Iterator[str]:
    """Give each number that cannot be, as place, what and what to do.

    Of the log only those entries are looked at; each with its place.
    """
    for place, value, low, high, unit in (*_numbers(project), *_logged(entries)):
        if value is not None and not low <= value <= high:
            yield f"{place} is {value:g}, which cannot be; {_wanted(low, high, unit)}"
    yield from _miscounted(project)


def _miscounted(project: Project) -> Iterator[str]:
    """Give what was learned of a ferment with too many numbers or too few, or learned twice."""
    known: set[str] = set()
    for index, ferment in enumerate(project.own_ferments):
        place = f"own_ferments[{index}]"
        if not len(ferment.middles) == len(ferment.spreads) == LEARNT:
            yield f"{place} needs {LEARNT} middles and {LEARNT} spreads; learn from it again"
        if ferment.batch in known:
            yield f'{place} repeats the batch "{ferment.batch}"; remove one of the two'
        known.add(ferment.batch)
    lost_of: set[str] = set()
    for index, losses in enumerate(project.own_losses):
        if losses.batch in lost_of:
            yield f'own_losses[{index}] repeats the batch "{losses.batch}"; remove one of the two'
        lost_of.add(losses.batch)


def _wanted(low: float, high: float, unit: str) -> str:
    unit = f" {unit}" if unit else ""
    return f"it must lie between {0 if low == _TRACE else low:g} and {high:.10g}{unit}"


def _numbers(project: Project) -> Iterator[Bound]:
    for index, line in enumerate(project.recipe.lines):
        place = f"recipe.lines[{index}]"
        if isinstance(line, FruitLine):
            measured = line.measured
            yield Bound(f"{place}.measured.acid_g_per_l", measured.acid_g_per_l, *_ACID, "g/L")
            yield Bound(f"{place}.measured.ph", measured.ph, *_PH)
            yield Bound(f"{place}.measured.liquid_percent", measured.liquid_percent, 1, 100, "%")
            tannin = measured.tannin_mg_per_100_g
            yield Bound(f"{place}.measured.tannin_mg_per_100_g", tannin, 0, 5000, "mg/100 g")
        elif isinstance(line, SugarLine):
            yield Bound(f"{place}.solids_percent", line.solids_percent, 1, 100, "%")
        elif isinstance(line, YeastLine):
            yield Bound(f"{place}.packet_g", line.packet_g, _TRACE, _MOST_G, "g")
            yield Bound(f"{place}.tolerance_percent", line.tolerance_percent, 1, 25, "% vol")
            yield Bound(f"{place}.packet_litres", line.packet_litres, _TRACE, _MOST_L, "L")
    targets, kitchen = project.recipe.targets, project.kitchen
    yield Bound("recipe.targets.strength_percent", targets.strength_percent, 0, 25, "% vol")
    yield Bound("recipe.targets.acid_low_g_per_l", targets.acid_low_g_per_l, *_ACID, "g/L")
    yield Bound("recipe.targets.acid_high_g_per_l", targets.acid_high_g_per_l, *_ACID, "g/L")
    for end, value in (("low", targets.tannin_low_g_per_l), ("high", targets.tannin_high_g_per_l)):
        yield Bound(f"recipe.targets.tannin_{end}_g_per_l", value, 0, 10, "g/L")
    yield Bound("recipe.targets.drink_months", targets.drink_months, 0, 240, "months")
    yield Bound("make.bottle_ml", project.make.bottle_ml, _TRACE, 1e5, "mL")
    yield Bound("kitchen.smallest_teaspoon", kitchen.smallest_teaspoon, _TRACE, 1)
    for index, size in enumerate(kitchen.spoons_owned):
        yield Bound(f"kitchen.spoons_owned[{index}]", size, 0.01, 24, "teaspoons")
    yield Bound("kitchen.scale_step_g", kitchen.scale_step_g, _TRACE, _MOST_G, "g")
    yield Bound("kitchen.tablet_g", kitchen.tablet_g, _TRACE, 1000, "g")
    for index, spoon in enumerate(kitchen.spoons):
        place = f"kitchen.spoons[{index}].grams_per_teaspoon"
        yield Bound(place, spoon.grams_per_teaspoon, _TRACE, 30, "g")
    for index, owned in enumerate(kitchen.shelf):
        yield Bound(f"kitchen.shelf[{index}].count", owned.count, 1, MOST_OF_A_KIND)
    yield Bound("hydrometer.adds", project.hydrometer.adds, -0.05, 0.05, "SG")
    for index, ferment in enumerate(project.own_ferments):
        place = f"own_ferments[{index}]"
        for number, middle in enumerate(ferment.middles):
            yield Bound(f"{place}.middles[{number}]", middle, -FARTHEST, FARTHEST)
        for number, spread in enumerate(ferment.spreads):
            yield Bound(f"{place}.spreads[{number}]", spread, 0, 1)
    for index, losses in enumerate(project.own_losses):
        place = f"own_losses[{index}]"
        yield Bound(f"{place}.must_l", losses.must_l, _TRACE, _MOST_L, "L")
        for number, racking in enumerate(losses.rackings):
            yield Bound(f"{place}.rackings[{number}].lost_l", racking.lost_l, 0, _MOST_L, "L")


def _logged(entries: Iterable[tuple[int, Entry]]) -> Iterator[Bound]:
    for index, entry in entries:
        if not isinstance(entry, Reading):
            continue
        measured = (entry.ph, entry.acid_g_per_l, entry.free_so2_mg_per_l)
        if measured != (None, None, None):  # most of a sensor's readings have none of them
            yield Bound(f"log[{index}].ph", entry.ph, *_PH)
            yield Bound(f"log[{index}].acid_g_per_l", entry.acid_g_per_l, *_ACID, "g/L")
            yield Bound(f"log[{index}].free_so2_mg_per_l", entry.free_so2_mg_per_l, 0, 2000, "mg/L")
