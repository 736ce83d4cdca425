"""The must as its hydrometer shows it: what was read takes the place of what the recipe reckons."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from winebench.plan.days import short_date
from winebench.plan.figures import figure, grams_text, workings
from winebench.plan.must import LEAST_YIELD, MOST_YIELD
from winebench.plan.outlook import Caution, Figure, Must, Want
from winebench.plan.readings import Seen
from winebench.trade.alcohol import EU_SUGAR_PER_PERCENT
from winebench.trade.ethanol import sg_of_alcohol
from winebench.trade.gravity import (
    brix_from_sg,
    sg_from_solids_g_per_l,
    solids_g_per_l_from_sg,
)
from winebench.trade.ranges import NotKnown
from winebench.trade.sugar import HEXOSE_FROM_SUCROSE, sugar_to_reach_kg

_DIFFERS = 0.0005
"""From here on the two gravities are written with other digits."""
_LEAST_SUGAR = 1.0
"""Less sugar than this in a litre, g, changes no figure that is shown."""
_LOW = 0.002
"""Less than this a hydrometer in a must does not tell."""
LOWEST_END, HIGHEST_END = 0.995, 1.000
"""Between these lies the highest gravity that counts as a dry end (common practice: 1.000 is the
last that anybody calls dry)."""
_IN_PROPORTION = "the must as it was read, its sugar in proportion"
_BESIDES = "the must, and the sugar that went in besides"
_SOURCE = "the reading; ICUMSA SPS-4; 16.83 g/L for one percent; OIML R 22"


def must_as_read(must: Must, seen: Seen | None) -> Must:
    """Return the must with the gravity that was read, and its sugar, strength and end by that.

    A must that reads more or less than its recipe has more or less sugar, in proportion; acid,
    nitrogen and what does not ferment, which no hydrometer tells apart, stay the recipe's. Without
    a reading it is the recipe's must.
    """
    reckoned, sugar, strong = must.gravity.value, must.sugar.value, must.strength.value
    if seen is None or seen.sg is None or reckoned is None or sugar is None or strong is None:
        return must
    sgs = (seen.sg, seen.sg - seen.outlook.half_width, seen.sg + seen.outlook.half_width)
    try:
        solids = float(solids_g_per_l_from_sg(reckoned))
        shares = [max(float(solids_g_per_l_from_sg(sg)), 0.0) / solids for sg in sgs]
        brix = [float(brix_from_sg(sg)) for sg in sgs]
        # Sugar that is fed later is in the strength, and does not hang on what was read.
        percents = [max(strong + (s - 1.0) * sugar / EU_SUGAR_PER_PERCENT, 0.0) for s in shares]
        # Tabarié: the alcohol's gravity adds to that of the extract, which stays as it is.
        end = float(sg_of_alcohol(percents[0])) - float(sg_of_alcohol(strong))
    except (NotKnown, ZeroDivisionError):
        return must
    read = sgs[0]
    given = (("read", f"{read:.4f}", "SG"), ("the recipe reckoned", must.gravity.text, "SG"))
    gravity = _as_read(must.gravity, *sgs, 3, given)
    whole = _whole(must, read - reckoned, gravity)
    strength = _as_read(
        must.strength, percents[0], percents[1] * LEAST_YIELD, percents[2] * MOST_YIELD, 1,
        (*given, ("strength by the recipe", must.strength.text, "% vol")),
    )  # fmt: skip
    return replace(
        must,
        gravity=gravity,
        gravity_whole=whole,
        brix=_as_read(must.brix, brix[0], brix[1], brix[2], 1, given),
        sugar=_as_read(
            must.sugar, sugar * shares[0], sugar * shares[1], sugar * shares[2], 0, given
        ),
        strength=strength,
        dry_gravity=_shifted(must.dry_gravity, end, given),
        wants=tuple(_want(want, whole, strength) for want in must.wants),
    )


def must_with_sugar(must: Must, grams_per_l: float) -> Must:
    """Return the must with sugar that the log says went in and the recipe does not have.

    It is in the whole gravity, the strength and the end; what was read before it stays.
    """
    strong, dry, whole = must.strength, must.dry_gravity, must.gravity_whole
    if grams_per_l < _LEAST_SUGAR or strong.value is None or whole.value is None:
        return must
    more = grams_per_l * HEXOSE_FROM_SUCROSE / EU_SUGAR_PER_PERCENT
    given = (
        ("strength without it", strong.text, "% vol"),
        ("sugar that went in besides", f"{grams_per_l:.0f}", "g/L"),
    )
    try:
        end = float(sg_of_alcohol(strong.value + more)) - float(sg_of_alcohol(strong.value))
        rise = float(sg_from_solids_g_per_l(grams_per_l)) - 1.0
    except NotKnown:
        return must
    strength = _moved(strong, more, 1, given, _BESIDES)
    raised = _moved(whole, rise, 3, given, _BESIDES)
    return replace(
        must,
        gravity_whole=raised,
        strength=strength,
        dry_gravity=_shifted(dry, end, given, _BESIDES),
        wants=tuple(_want(want, raised, strength) for want in must.wants),
    )


def _moved(
    was: Figure,
    by: float,
    digits: int,
    given: tuple[tuple[str, str, str], ...],
    how: str,
) -> Figure:
    """Return the figure and its range, moved by so much."""
    value = was.value or 0.0
    low, high = (value if end is None else end for end in (was.low, was.high))
    return _as_read(was, value + by, low + by, high + by, digits, given, how)


def _as_read(
    was: Figure,
    value: float,
    low: float,
    high: float,
    digits: int,
    given: tuple[tuple[str, str, str], ...],
    how: str = _IN_PROPORTION,
) -> Figure:
    work = workings(
        "must-as-read", how,
        f"{value:.{digits + 1}f}", was.unit, _SOURCE, *given,
    )  # fmt: skip
    return figure(value, was.unit, digits, low=low, high=high, workings=work)


def _shifted(
    dry: Figure, by: float, given: tuple[tuple[str, str, str], ...], how: str = _IN_PROPORTION
) -> Figure:
    """Return the dry gravity with what more or less alcohol changes of it."""
    return dry if dry.value is None else _moved(dry, by, 3, given, how)


def _whole(must: Must, by: float, gravity: Figure) -> Figure:
    """Return the gravity with the sugar that is fed later: it adds to what was read alike."""
    reckoned = must.gravity_whole.value
    if reckoned is None or reckoned == must.gravity.value:
        return gravity
    low, high = gravity.low, gravity.high
    whole = reckoned + by
    spread = 0.0 if low is None or high is None else (high - low) / 2.0
    return figure(whole, "SG", 3, low=whole - spread, high=whole + spread,
                  workings=gravity.workings)  # fmt: skip


def _want(want: Want, gravity: Figure, strength: Figure) -> Want:
    if want.key not in ("gravity", "strength"):
        return want
    return replace(want, actual=gravity if want.key == "gravity" else strength)


def as_read_caution(recipe: Must, seen: Seen | None, *, pitched: bool) -> Iterator[Caution]:
    """Give which of the two gravities is used, where the recipe reckoned another than was read."""
    reckoned = recipe.gravity.value
    if seen is None or seen.sg is None or reckoned is None:
        return
    if abs(seen.sg - reckoned) < _DIFFERS:
        return
    yield Caution(
        key="must-as-read",
        severity="note",
        about="must",
        sentence=f"The recipe reckon{'ed' if pitched else 's'} {reckoned:.3f}; you measured "
        f"{seen.sg:.3f} on {short_date(seen.at)}."
        + (" Gravity, strength and ending go by what you measured." if pitched else ""),
        detail="" if pitched else _what_to_add(recipe, seen.sg, reckoned),
    )


def _what_to_add(recipe: Must, sg: float, reckoned: float) -> str:
    """Return what a must wants that reads off its recipe while the yeast is not in yet."""
    again = "Once the yeast is in, strength and ending go by the last reading before it."
    litres = recipe.liquid.value or 0.0
    if litres <= 0.0 or not sg < reckoned - _LOW:
        return again
    try:
        grams = float(sugar_to_reach_kg(litres, sg, reckoned)) * 1000.0
    except NotKnown:
        return again
    return (
        "Sugar on the floor and fruit that still gives its own make it read low: stir, wait, read "
        f"again. If it stays, {grams_text(grams)} of sugar lifts it to {reckoned:.3f}. {again}"
    )


def highest_end(dry: Figure) -> float:
    """Return the highest gravity that counts as fermented out where the must should end at `dry`.

    The upper end of what the recipe's own extract gives, within 0.995 and 1.000: dry wines read
    0.990 to 0.995 whatever the estimate says (common practice).
    """
    high = dry.high or (dry.value or 0.996) + 0.002
    return min(max(high, LOWEST_END), HIGHEST_END)


def end_words(dry: Figure) -> str:
    """Return like "0.990 to 0.995": where a must ends, up to what counts as fermented out."""
    low, high = f"{dry.value or 0.996:.3f}", f"{highest_end(dry):.3f}"
    return f"{low} to {high}" if low < high else high
