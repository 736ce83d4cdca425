"""The targets of a recipe: which values can be held, and what they are unless something is said."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import combinations

from winebench.model.project import Project
from winebench.plan.balance import both_musts
from winebench.plan.figures import litres_text
from winebench.plan.measured import as_measured
from winebench.plan.must import MOST_ABV
from winebench.plan.solve.parts import chosen, fruit_kg
from winebench.plan.solve.search import matched
from winebench.plan.solve.shapes import NAMES, TARGETS, UNITS, SolveError, Target
from winebench.plan.typed.numbers import number, wanted_gravity
from winebench.plan.wanted import strength, strength_at, wanted
from winebench.plan.written_like import size_like
from winebench.trade.ageing import LIGHT_MONTHS
from winebench.trade.gravity import sg_from_brix
from winebench.units import NUMBER, UnitsError, Volume, trimmed

RANGES: dict[Target, tuple[float, float]] = {
    "gravity": (1.000, 1.200),
    "acidity": (0.0, 30.0),
    "tannin": (0.0, 5.0),
    "strength": (0.0, MOST_ABV),
    "drink": (LIGHT_MONTHS, 120.0),
    "volume": (0.05, 100_000.0),
    "fruit": (0.0, 5.0),
}
"""What can be asked for; beyond it no must is made or no table reaches."""
_BARE = re.compile(NUMBER, re.ASCII)
_DIGITS: dict[Target, int] = {"acidity": 1, "tannin": 2, "strength": 1}


def usual_values(project: Project) -> dict[Target, float]:
    """Return what each target is held at where nothing is said.

    The middle of the wanted gravities; acidity and tannin as they are, or the nearest end of what
    is wanted; ready by when it is wanted, but never before any wine is; the volume that the recipe
    is written for; the fruit as rich as it is.
    """
    project = as_measured(project)
    lines, _ = chosen(project, ())
    start, whole = both_musts(project)
    aim = wanted(project, whole)
    own = project.recipe.targets.strength_percent
    aimed = strength_at(whole, aim.gravity) if whole.litres else strength(whole)
    litres = start.litres
    return {
        "gravity": aim.gravity,
        "acidity": min(max(whole.acid_g_per_l, aim.acid_low), aim.acid_high),
        "tannin": min(max(whole.tannin_g_per_l or 0.0, aim.tannin_low), aim.tannin_high),
        "strength": own if own is not None else round(aimed, 1),
        "drink": max(aim.drink_months, LIGHT_MONTHS),
        "volume": project.recipe.basis.litres(project.gallon),
        "fruit": fruit_kg(project, lines) / litres if litres else 0.0,
    }


def usual_hold(project: Project, change: Sequence[str]) -> tuple[Target, ...]:
    """Return the targets that those amounts are for where nothing is said.

    Raises:
        SolveError: a name that means nothing that can change.

    """
    _, kinds = chosen(project, change)
    free = tuple(dict.fromkeys("water" if kind == "volume" else kind for kind in kinds))
    order: tuple[Target, ...] = ("gravity", "acidity", "tannin", "fruit", "volume")
    for count in range(min(len(free), len(order)), 0, -1):
        for some in combinations(order, count):
            if matched(some, free):
                return some
    return ()


def checked(held: Mapping[Target, float]) -> None:
    """Refuse a value that no must can have.

    Raises:
        SolveError: names the target, the value and what can be asked for.

    """
    for target, value in held.items():
        low, high = RANGES[target]
        if not low <= value <= high:
            name, ends = NAMES[target], [value_text(target, end) for end in (low, high)]
            sooner = target == "drink" and value < low
            raise SolveError(
                f"{name[0].upper()}{name[1:]} {value_text(target, value)} cannot be asked for: "
                f"{ends[0]} to {ends[1]} can.{' Even a light wine wants its six.' * sooner}"
            )


def value_text(target: Target, value: float) -> str:
    """Return the value as people say it: "1.090", "7.0 g/L", "12.5 %", "5.0 L"."""
    if target == "gravity":
        return f"{value:.3f}"
    if target in ("acidity", "tannin"):
        return f"{value:.{_DIGITS[target]}f} g/L"
    if target == "strength":
        return f"{value:.1f} %"
    if target == "drink":
        return f"{trimmed(value, 1)} months"
    if target == "volume":
        return litres_text(value)
    return f"{value * 1000:.0f} g/L"


def read_value(project: Project, target: Target, text: str) -> float:
    """Return the value typed for a target: "1.090", "22 brix", "6.5", "5 L", "300".

    Raises:
        UnitsError: it cannot be read, or no must can have it; one sentence.

    """
    if target == "gravity":
        gravity = wanted_gravity(text)
        return gravity.value if gravity.scale == "SG" else sg_from_brix(gravity.value)
    if target == "volume":
        if _BARE.fullmatch(text.strip()):
            raise UnitsError(f'"{text.strip()}" has no unit; write a volume such as 5 gal or 19 L.')
        return Volume(text).litres(project.gallon)
    low, high = RANGES[target]
    if target == "drink":  # sooner than any wine is ready is told so where it is asked for
        low = 0.0
    if target == "fruit":
        return number(low * 1000.0, high * 1000.0, UNITS[target])(text) / 1000.0
    return number(low, high, UNITS[target])(text)


def typed_text(project: Project, target: Target, value: float) -> str:
    """Return the value as it would be typed, to be read back by `read_value`."""
    if target == "gravity":
        return f"{value:.3f}"
    if target == "volume":
        basis = project.recipe.basis
        same = abs(value - basis.litres(project.gallon)) < 1e-6 * value
        return basis.text.strip() if same else size_like(value, basis, project.gallon)
    if target == "drink":
        return trimmed(value, 1)
    return f"{value * 1000:.0f}" if target == "fruit" else f"{value:.{_DIGITS[target]}f}"


def known_target(name: str) -> Target:
    """Return the target of that name.

    Raises:
        SolveError: there is none of that name.

    """
    for target in TARGETS:
        if name == target or name == NAMES[target]:
            return target
    raise SolveError(f'"{name}" cannot be held; hold {", ".join(TARGETS)}.')
