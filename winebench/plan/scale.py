"""Scaling: from the recipe's own volume to the must that is made, and what is lost on the way."""

from __future__ import annotations

import math
import re

from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.model.recipe import FruitLine
from winebench.plan.balance import both_musts
from winebench.plan.customary import size_of
from winebench.plan.learning.own_losses import other_losses
from winebench.plan.losses import (
    LEAVING,
    SAMPLES_L,
    USUAL,
    Losses,
    expected_loss_l,
    has_puree,
)
from winebench.units import Amount, Mass, Size, UnitsError

_OF_FRUIT = re.compile(r"\s+(?:of\s+)?(?:the\s+)?fruit$", re.IGNORECASE)
_ALIKE = 0.002
_MOST_ROUNDS = 400
_LEAST_L = 0.05
"""Less must than a glass is a slip of the pen."""


def finished_l(must_l: float, *, puree: bool = False, losses: Losses = USUAL) -> float:
    """Return the wine left to bottle of a must, L."""
    lost = sum(expected_loss_l(step, must_l, puree=puree, losses=losses) for step in LEAVING)
    samples = min(SAMPLES_L, 0.03 * must_l)
    return max(must_l - lost - samples, 0.0)


def must_for_finished_l(wanted_l: float, *, puree: bool = False, losses: Losses = USUAL) -> float:
    """Return the must that leaves so much wine to bottle, L."""
    must = wanted_l * 1.1
    for _ in range(_MOST_ROUNDS):  # the losses grow more slowly than the must
        short = wanted_l - finished_l(must, puree=puree, losses=losses)
        must += short
        if abs(short) <= 1e-12 * wanted_l:
            break
    return must


def must_l(project: Project) -> float:
    """Return the must to make, L, whichever way its size is given.

    Raises:
        UnitsError: a bare gallon where nobody said whose.

    """
    make, size = project.make, project.make.size
    if size.dimension == "count":
        wanted = size.count() * make.bottle_ml / 1000.0
        return _must_for(project, wanted)
    litres = size.litres(project.gallon)
    if make.by == "finished":
        return _must_for(project, litres)
    return litres


def _must_for(project: Project, wanted_l: float) -> float:
    """Return the must for so much wine, by the batches learned from.

    This one's own rackings do not count: its must was made before they were known.
    """
    return must_for_finished_l(wanted_l, puree=has_puree(project), losses=other_losses(project))


def made_l(project: Project, lines_l: float) -> float:
    """Return the must that is really made, L: what the lines come to, where that is another volume.

    A hair's breadth beside the size that is wanted is that size: 24 bottles stay 24.
    """
    wanted = must_l(project)
    alike = lines_l <= 0.0 or abs(lines_l / wanted - 1.0) < _ALIKE if wanted > 0.0 else True
    return wanted if alike else lines_l


def scale_factor(project: Project) -> float:
    """Return must to make / the recipe's own volume, at full precision.

    Raises:
        UnitsError: a bare gallon where nobody said whose, or a recipe for no volume at all.

    """
    basis = project.recipe.basis
    own_l = basis.litres(project.gallon)
    if own_l <= 0:
        raise UnitsError(
            f'The recipe is written for "{basis.text.strip()}", which is nothing; '
            "write the must it makes, such as 1 gal or 4.5 L."
        )
    wanted_l = must_l(project)
    if wanted_l <= 0:
        raise UnitsError(
            f'The batch is to be "{project.make.size.text.strip()}", which is nothing; '
            "write how much to make, such as 5 gal, 19 L or 24 bottles."
        )
    if _asks_for_wine(project):
        own_l = max(own_l, _lines_l(project, own_l))
    # Five times the recipe is 5, not 4.999999999999999: half tablets round on exact ties.
    return round(wanted_l / own_l, 12)


def _asks_for_wine(project: Project) -> bool:
    return project.make.size.dimension == "count" or project.make.by == "finished"


def _lines_l(project: Project, own_l: float) -> float:
    """Return what the lines make, L: sugar that is fed later comes on top of the mark.

    Who asks for 24 bottles wants 24, however large the recipe says it is. Less than it says is a
    recipe that is still being written, and no reason for more fruit.
    """
    litres = both_musts(project)[1].litres
    return litres if litres > own_l * (1.0 + _ALIKE) else own_l


def size_typed(project: Project, text: str) -> Size:
    """Return how much to make as it is typed: "5 gal", "19 L" of must, or "24 bottles".

    Raises:
        UnitsError: it cannot be read, is nothing, a part of a bottle, or a bare gallon of no
            country.

    """
    size = Size(text)
    if size.dimension == "volume":
        amount = size.litres(project.gallon)
    elif {part.unit for part in size.parts} == {"bottle"}:
        amount = size.count()
    else:
        raise UnitsError(f'"{text.strip()}" is not a size to make; write {Size.example}.')
    if amount <= 0.0:
        raise UnitsError(f'"{text.strip()}" is nothing; write {Size.example}.')
    if size.dimension == "count" and amount % 1.0:
        whole = math.ceil(amount)
        ways = f"{whole - 1} or {whole} bottles" if whole > 1 else "1 bottle"
        raise UnitsError(f'"{text.strip()}": bottles are whole ones; write {ways}.')
    return size


def scaled_project(project: Project, to: str) -> Project:
    """Return the project made to another size: "5 gal", "19 L" of must, or "24 bottles".

    Raises:
        UnitsError: the size cannot be read, is nothing, or is a bare gallon of no country.

    """
    size = size_typed(project, to)
    by = "bottles" if size.dimension == "count" else "must"
    scaled = changed(project, make=changed(project.make, size=size, by=by, asked=""))
    if must_l(scaled) < _LEAST_L:
        raise UnitsError(f'"{to}" is next to nothing; write 5 gal, 19 L or 24 bottles.')
    return scaled


def scaled_to_fruit(project: Project, have: str, fruit: str | None = None) -> Project:
    """Return the project made as large as the fruit on hand allows.

    Raises:
        UnitsError: the amount cannot be read, or it is not clear which fruit is meant.

    """
    names = ", ".join(line.fruit for line in project.fruits)
    lines = [line for line in project.fruits if fruit in (None, line.fruit, line.id)]
    if not names:
        raise UnitsError(f'The recipe has no fruit to set "{have}" against; write a volume.')
    if not lines:
        raise UnitsError(f'"{fruit}" is not on the recipe; its fruit: {names}.')
    if len(lines) > 1:
        raise UnitsError(f"Say which fruit you have that much of; the recipe's fruit: {names}.")
    factor = _ratio(Amount(have), lines[0], project)
    litres = factor * project.recipe.basis.litres(project.gallon)
    return scaled_project(project, size_of(litres, project).text)


def fruit_on_hand(text: str) -> Mass | None:
    """Return the fruit that a size is the weight of, as "9 lb fruit" or "4 kg of fruit"; or None.

    The word is asked for: on the way to "3 gal" somebody types "3 g".
    """
    plain, found = _OF_FRUIT.subn("", text.strip())
    try:
        return Mass(plain) if found else None
    except UnitsError:
        return None


def size_for_fruit(project: Project, have: Mass) -> Size:
    """Return the must that so much fruit in all is enough for, each fruit in its proportion.

    Raises:
        UnitsError: the recipe has no fruit by weight to set that against, or that is nothing.

    """
    wants = sum(f.amount.grams() for f in project.fruits if f.amount.dimension == "mass")
    if wants <= 0:
        raise UnitsError("The recipe has no fruit by weight to set that against.")
    litres = project.recipe.basis.litres(project.gallon) * have.grams() / wants
    if litres < 0.01:
        raise UnitsError(f"{have.text.strip()} of fruit is enough for nothing.")
    return size_of(litres, project)


def _ratio(have: Amount, line: FruitLine, project: Project) -> float:
    if have.dimension != line.amount.dimension or have.dimension == "count":
        raise UnitsError(
            f'"{have.text}" cannot be set against "{line.amount.text}" {line.fruit}; '
            "write both by weight or both by volume."
        )
    if have.dimension == "mass":
        got, wants = have.grams(), line.amount.grams()
    else:
        got, wants = have.litres(project.gallon), line.amount.litres(project.gallon)
    if wants <= 0:
        raise UnitsError(f"The recipe has no {line.fruit} to set that against.")
    return got / wants
