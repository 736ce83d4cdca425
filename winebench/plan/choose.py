"""Which vessels of the shelf a batch takes, and how much to make to fill a vessel."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

from winebench.model.edits import Change, changed, new_id
from winebench.model.project import Project
from winebench.model.recipe import Owned, Vessel
from winebench.plan.customary import gallons_of, size_of, volume_text
from winebench.plan.learning.own_losses import losses_words, own_losses
from winebench.plan.losses import LEAVING, expected_loss_l, has_puree
from winebench.plan.must import worked_out
from winebench.plan.scale import scale_factor
from winebench.plan.typed.vessels import read_shelf, shelf_example
from winebench.plan.vessels import (
    BRIM_L_SHARE,
    FULLEST_PRIMARY,
    TOO_LITTLE_L,
    foam_line_l,
    most_for_top_up_l,
    of_text,
    pail_fits,
    wine_to_glass_l,
)
from winebench.units import Size, UnitsError

FULL, NEARLY = 0.95, 0.85
"""Share of a jug that is full to the neck, and that is short but can be topped up (practice)."""
_LEAST_FULL = 0.4
_WORTH_A_TOP_UP = 2
"""So many vessels less to clean, shift and rack are worth topping up one that is a little short."""
_STEPS = 4000
"""Sums of jugs are told apart to this part of the wine."""
_FILL = re.compile(r"fill(?:\s+(?:a|an|the|my))?\s+(?P<vessel>.+)", re.IGNORECASE)


class Chosen(NamedTuple):
    """Vessels of a batch, and what is to be said of them."""

    vessels: tuple[Vessel, ...]
    sentences: tuple[str, ...]


class _Set(NamedTuple):
    """Some vessels of the shelf: how many of each kind."""

    holds: float
    """All of them together, L."""
    number: int
    counts: tuple[int, ...]


def choose(project: Project) -> Chosen:
    """Return pails with room for foam and pulp, and jugs full to the neck, from the shelf.

    Raises:
        UnitsError: nothing is on the shelf, or none of it fits: what is short, in one sentence.

    """
    shelf = project.kitchen.shelf
    if not shelf:
        raise UnitsError(
            "Nothing is on the shelf: write the vessels you own in the kitchen's sheet, such as "
            f"{shelf_example(project)}."
        )
    factor = scale_factor(project)
    whole = worked_out(project, factor).whole
    litres, pulp = whole.litres * factor, whole.pulp_l * factor
    if litres < TOO_LITTLE_L:
        raise UnitsError("The recipe makes nothing yet that vessels of the shelf could be for.")
    pails = _pails(project, litres + pulp, fruity=pulp > 0.0)
    jugs, said = _jugs(project, litres)
    return Chosen(_made(project, (*pails, *jugs)), said)


def choose_edit(project: Project, chosen: Chosen) -> Change:
    """Return the edit that puts the batch into those vessels."""
    make = changed(project.make, vessels=chosen.vessels)
    return Change(label="choose vessels from the shelf", fields={"make": make})


def _kinds(project: Project, role: str) -> tuple[list[Owned], list[float]]:
    """Return the shelf's vessels of that role, largest first, and what each holds, L."""
    kinds = [owned for owned in project.kitchen.shelf if owned.role == role]
    kinds.sort(key=lambda owned: -owned.holds.litres(project.gallon))
    return kinds, [owned.holds.litres(project.gallon) for owned in kinds]


def _pails(project: Project, fill: float, *, fruity: bool) -> list[tuple[Owned, str]]:
    """Return the fewest and then the smallest pails that leave the foam its room."""
    kinds, holds = _kinds(project, "primary")
    for owned, one in reversed(list(zip(kinds, holds, strict=True))):
        if pail_fits(fill, one):
            return [(owned, owned.name)]
    wanted = foam_line_l(fill)
    sets = [one for one in _sets(kinds, holds, wanted + max(holds, default=0.0))
            if one.holds >= wanted]  # fmt: skip
    if not sets:
        have = sum(one * owned.count for one, owned in zip(holds, kinds, strict=True))
        with_fruit = " with the fruit" if fruity else ""
        told = partial(volume_text, gallon=gallons_of(project))
        if not holds:
            raise UnitsError(
                f"No pail is on the shelf for the {told(fill)}{with_fruit}: with room for foam "
                f"it wants {told(wanted)} of pail."
            )
        raise UnitsError(
            f"No pail of the shelf is large enough: {told(fill)}{with_fruit} and room for foam "
            f"want {told(wanted)} of pail, and the shelf has {told(have)}, "
            f"{told(wanted - have)} too little."
        )
    best = min(sets, key=lambda one: (one.number, one.holds))
    return [(owned, owned.name) for owned in _members(kinds, best)]


def _jugs(project: Project, must_l: float) -> tuple[list[tuple[Owned, str]], tuple[str, ...]]:
    """Return jugs full to the neck with the least left over, else one of them a little short."""
    wine, gallon = wine_to_glass_l(project, must_l), gallons_of(project)
    told = partial(volume_text, gallon=gallon)
    kinds, holds = _kinds(project, "secondary")
    have = sum(one * owned.count for one, owned in zip(holds, kinds, strict=True))
    best = _best(kinds, holds, wine)
    if best is None:
        raise UnitsError(_no_jugs(wine, have, holds, told))
    jugs = [(owned, owned.name) for owned in _members(kinds, best)]
    left = wine - best.holds
    last = min(owned.holds.litres(project.gallon) for owned, _name in jugs)
    if -left > (1.0 - FULL) * last:
        short = BRIM_L_SHARE * last - (last + left)
        return jugs, (f"The last jug will be {told(short)} short: top up with a like wine.",)
    if left < TOO_LITTLE_L:
        return jugs, ("Full to the neck, with nothing left over for topping up.",)
    spare = _spare(kinds, holds, best, left)
    if spare is None:
        count = math.floor(left * 1000.0 / project.make.bottle_ml)
        bottles = "1 bottle" if count == 1 else f"{count} bottles"
        kept = f"enough for {bottles}" if count else "less than a bottle"
        over = f"{told(left)} stay over, {kept}"
        return jugs, (f"{over}: no jug of the shelf would be full enough of them.",)
    of = of_text(left, spare.holds.litres(project.gallon), gallon)
    said = f"The top-up jug will hold {of}: use it first, for the air in it."
    return [*jugs, (spare, f"top-up {spare.name}")], (said, _later(project, must_l, left))


def _later(project: Project, must_l: float, left: float) -> str:
    """Return whether the top-up jug makes good what the later rackings leave behind."""
    losses, puree = own_losses(project, must_l), has_puree(project)
    over = dict(losses.known)
    wants = sum(
        expected_loss_l(step, must_l, puree=puree, losses=losses)
        for step in LEAVING[1:] if step not in over
    )  # fmt: skip
    told = partial(volume_text, gallon=gallons_of(project))
    enough = "it will do" if left >= wants else f"{told(wants - left)} will be short"
    return f"Later rackings take about {told(wants)}, {losses_words(losses)}: {enough}."


def _best(kinds: Sequence[Owned], holds: Sequence[float], wine: float) -> _Set | None:
    """Return the set that leaves least over with every jug full; else the one least short.

    A short one goes first where it spares a good many vessels. Jugs are filled one after the
    other, largest first, so the smallest bears what is missing.
    """
    sets = _sets(kinds, holds, wine * 1.2)

    def bears(one: _Set, share: float) -> bool:
        smallest = min(holds[kind] for kind, count in enumerate(one.counts) if count)
        return one.holds - wine <= (1.0 - share) * smallest

    most_over = most_for_top_up_l(wine)
    filled = [one for one in sets if bears(one, FULL) and wine - one.holds <= most_over]
    full = min(
        filled, key=lambda one: (round(max(wine - one.holds, 0.0), 1), one.number), default=None
    )
    nearly = [one for one in sets if one.holds >= wine and bears(one, NEARLY)]
    if full is None:
        return min(nearly, key=lambda one: (one.holds, one.number), default=None)
    few = min(nearly, key=lambda one: (one.number, one.holds), default=full)
    spare = _spare(kinds, holds, full, wine - full.holds) is not None
    return few if few.number + _WORTH_A_TOP_UP < full.number + spare else full


def _no_jugs(wine: float, have: float, holds: Sequence[float], told: Callable[[float], str]) -> str:
    if not holds:
        return f"No jug is on the shelf for the {told(wine)} of wine."
    if have < wine:
        return (
            f"The jugs of the shelf are too small: {told(wine)} of wine, and together they hold "
            f"{told(have)}, {told(wine - have)} too little."
        )
    least = min(holds)
    if least > wine:
        return (
            f"No jug of the shelf is small enough: {told(wine)} of wine, and the smallest holds "
            f"{told(least)}, {told(least - wine)} of it air."
        )
    return (
        f"No jugs of the shelf come out full: {told(wine)} of wine leave one with too much air, "
        f"or more than {told(most_for_top_up_l(wine))} over; add a smaller jug."
    )


def _sets(kinds: Sequence[Owned], holds: Sequence[float], most: float) -> list[_Set]:
    """Return sets of those vessels that hold `most` L at the most, one for each sum."""
    step = max(most / _STEPS, 1e-6)
    found = {0: _Set(0.0, 0, (0,) * len(kinds))}
    for kind, owned in enumerate(kinds):
        for one in list(found.values()):
            for more in range(1, owned.count + 1):
                total = one.holds + more * holds[kind]
                if total > most:
                    break
                counts = (*one.counts[:kind], more, *one.counts[kind + 1 :])
                new = _Set(total, one.number + more, counts)
                known = found.get(round(total / step))
                if known is None or new.number < known.number:
                    found[round(total / step)] = new
    return [one for one in found.values() if one.number]


def _members(kinds: Sequence[Owned], chosen: _Set) -> list[Owned]:
    return [owned for owned, count in zip(kinds, chosen.counts, strict=True) for _ in range(count)]


def _spare(
    kinds: Sequence[Owned], holds: Sequence[float], chosen: _Set, left: float
) -> Owned | None:
    """Return the smallest jug not taken that what is left will fill to two fifths or more."""
    spare = [
        owned
        for owned, one, taken in zip(kinds, holds, chosen.counts, strict=True)
        if owned.count > taken and one * _LEAST_FULL <= left <= one
    ]
    return spare[-1] if spare else None


def _made(project: Project, wanted: Sequence[tuple[Owned, str]]) -> tuple[Vessel, ...]:
    """Return them as the batch's vessels; one that it has already keeps its id."""
    known = list(project.make.vessels)
    vessels = []
    for owned, name in wanted:
        same = [v for v in known if (v.name, v.holds, v.role) == (name, owned.holds, owned.role)]
        if same:
            known.remove(same[0])
        identity = same[0].id if same else new_id()
        vessels.append(
            Vessel(id=identity, name=name, role=owned.role, holds=owned.holds, glass=owned.glass)
        )
    return tuple(vessels)


def size_to_fill(project: Project, text: str) -> Size | None:
    """Return the must that "fill 19 L jug" or "fill my 6 gal pail" asks for; None for other text.

    A pail is filled to three quarters with must and pulp, a jug to the neck with what the first
    racking leaves of the must.

    Raises:
        UnitsError: what is to be filled is no vessel, or more than one.

    """
    found = _FILL.fullmatch(text.strip())
    if found is None:
        return None
    vessels = read_shelf(found["vessel"], project.gallon)
    if len(vessels) != 1 or vessels[0].count != 1:
        raise UnitsError(f'"{text.strip()}" names {len(vessels)} vessels; fill one at a time.')
    holds = vessels[0].holds.litres(project.gallon)
    whole = worked_out(project, scale_factor(project)).whole
    if whole.litres <= 0.0:
        raise UnitsError(f'"{text.strip()}": the recipe has nothing to fill it with yet.')
    if vessels[0].role == "primary":
        times = FULLEST_PRIMARY * holds / (whole.litres + whole.pulp_l)
    else:
        times = _must_for_glass_l(project, holds) / whole.litres
    litres = times * project.recipe.basis.litres(project.gallon)
    return size_of(litres, project, None if gallons_of(project) else vessels[0].holds)


def _must_for_glass_l(project: Project, wine: float) -> float:
    """Return the must of which so much goes into the jugs, L."""
    must = wine
    for _ in range(60):  # the loss grows much more slowly than the must
        must += wine - wine_to_glass_l(project, must)
    return must
