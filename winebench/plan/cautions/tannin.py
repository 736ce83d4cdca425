"""What is to be said of a recipe's tannin: too little, too much, or added to fruit rich in it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from winebench.model.edits import DropLine, PutLine, Several, changed
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine
from winebench.plan.cautions.contradiction import free_id
from winebench.plan.cautions.repairs import dose_amount
from winebench.plan.figures import grams_text
from winebench.plan.lines import dose_measure
from winebench.plan.must import Worked
from winebench.plan.must_tannin import listed, rich_fruit
from winebench.plan.outlook import Caution, Repair
from winebench.plan.portions import TANNIN_OF_POWDER, additive_g, additive_of, g_per_teaspoon
from winebench.plan.written_like import mass_like
from winebench.trade.fining import tannin_tsp
from winebench.units import Amount

_POWDER = "grape-tannin"
_SLACK_G_PER_L = 0.02
"""Less than the finest scale of a kitchen tells in a gallon."""
_ROUNDING_ROOM = 1.01
_LARGER = (1.0, 1.05, 1.1, 1.15, 1.2, 1.25, 1.3)
"""Times the dose within which a spoon is looked for: 30 % is the coarsest for any powder (common
practice)."""
_LARGEST_L = 1000.0
"""Where the rule of spoons ends."""


def tannin_cautions(project: Project, worked: Worked, factor: float) -> Iterator[Caution]:
    """Give each caution about tannin."""
    yield from _of_powder(project, worked)
    now = worked.whole.tannin_g_per_l
    if now is None or worked.whole.litres <= 0.0:
        return
    aim = worked.aim
    if now < aim.tannin_low - _SLACK_G_PER_L:
        rich = rich_fruit(project)
        yield _by_practice(rich, now) if rich else _too_little(project, worked, now, factor)
    elif now > aim.tannin_high + _SLACK_G_PER_L:
        yield _too_much(worked, now)


def _too_little(project: Project, worked: Worked, now: float, factor: float) -> Caution:
    shown, low = worked.must.tannin, worked.aim.tannin_low
    certain = shown.high is not None and shown.high < low
    lacking = (low - now) * worked.whole.litres / TANNIN_OF_POWDER.figure * _ROUNDING_ROOM
    grams = min(lacking, _room_g(project, worked))
    made = dose_measure(project, _POWDER, grams * factor)
    ways = f"{grams_text(grams * factor)} grape tannin to the batch ({made.text})"
    return Caution(
        key="little-tannin",
        severity="caution" if certain else "note",
        about="must",
        sentence=f"Tannin about {now:.2f} g/L is below the {low:g} wanted: it may taste thin.",
        detail=f"{ways} {'raises it' if grams >= lacking else 'is the usual most'}; half of it, "
        "then taste. Half a day after pectic enzyme, which it binds."
        if grams > 0.0
        else "It has the usual most of tannin powder: take more fruit, or want less.",
        repairs=_powder_repair(project, worked, grams),
    )


def _by_practice(rich: tuple[str, ...], now: float) -> Caution:
    """Return what is said where practice counts a fruit rich and laboratories do not."""
    return Caution(
        key="tannin-by-practice",
        severity="note",
        about="must",
        sentence=f"Tannin about {now:.2f} g/L by published figures, yet practice counts "
        f"{listed(rich)} rich: taste before you add any.",
    )


def _too_much(worked: Worked, now: float) -> Caution:
    shown, high = worked.must.tannin, worked.aim.tannin_high
    certain = shown.low is not None and shown.low > high
    return Caution(
        key="much-tannin",
        severity="caution" if certain else "note",
        about="must",
        sentence=f"Tannin about {now:.2f} g/L is above the {high:g} wanted.",
        detail="Lift the fruit out sooner, use less of it, or keep the wine longer; gelatine "
        "softens it at the end.",
    )


def _of_powder(project: Project, worked: Worked) -> Iterator[Caution]:
    rich, most = rich_fruit(project), _most_g(project, worked)
    for line, grams in _powders(project):
        if grams <= 0.0:
            continue
        if rich:
            yield Caution(
                key="tannin-on-rich-fruit",
                severity="caution",
                about=line.id,
                sentence=f"{listed(rich).capitalize()} bring their own tannin: more may turn "
                "bitter.",
                detail="Common practice adds none to them. Taste the young wine first.",
                repairs=(_leave_out(line),),
            )
        elif most is not None and grams > most * _ROUNDING_ROOM:
            yield Caution(
                key="much-tannin-powder",
                severity="caution",
                about=line.id,
                sentence=f"More than the usual most of tannin powder, {grams_text(most)} for the "
                "recipe.",
                detail="Usual is up to 1/2 tsp in a US gallon; the packet's own dose goes before "
                "it.",
                repairs=(_put(project, line, most, most, "set the tannin"),),
            )


def _powders(project: Project) -> list[tuple[AdditiveLine, float]]:
    """Return the lines of tannin powder whose grams are known, for the recipe's own volume."""
    return [
        (line, grams)
        for line in project.recipe.lines
        if isinstance(line, AdditiveLine)
        and (found := additive_of(line)) is not None
        and found.kind == "tannin"
        and (grams := additive_g(project, line)) is not None
    ]


def _most_g(project: Project, worked: Worked) -> float | None:
    """Return the usual most of tannin powder, g; None where no spoon tells it."""
    spoon_g = g_per_teaspoon(project, _POWDER)
    if spoon_g is None or not 0.0 < worked.start.litres <= _LARGEST_L:
        return None
    return tannin_tsp(worked.start.litres).high * spoon_g


def _room_g(project: Project, worked: Worked) -> float:
    most = _most_g(project, worked)
    if most is None:
        return math.inf
    return max(most - sum(grams for _, grams in _powders(project)), 0.0)


def _powder_repair(project: Project, worked: Worked, grams: float) -> tuple[Repair, ...]:
    if grams <= 0.0:
        return ()
    room = _room_g(project, worked)
    written = _powders(project)
    if written:
        line, has = written[0]
        return (_put(project, line, has + grams, has + room, "set the tannin"),)
    line = AdditiveLine(id=free_id(project), additive=_POWDER, amount=Amount("0 g"))
    return (_put(project, line, grams, room, "add the tannin"),)


def _put(project: Project, line: AdditiveLine, grams: float, most: float, label: str) -> Repair:
    """Return the repair in the household's own measure, unless that takes it over the most, g.

    Where no spoon is near, the next larger that is still usual will do: a trial in the glass
    decides anyway.
    """
    for share in _LARGER:
        made = changed(line, amount=dose_amount(project, line, share * grams))
        by_spoon = made.amount.dimension == "volume" and project.kitchen.by == "spoon"
        over = (additive_g(project, made) or 0.0) > most * _ROUNDING_ROOM
        if by_spoon and not over:
            break
    else:
        like = line.amount if line.amount.dimension == "mass" else None
        made = changed(line, amount=Amount(mass_like(grams, like)))
    return Repair(label=label.capitalize(), edit=PutLine(label=label, line=made))


def _leave_out(line: AdditiveLine) -> Repair:
    label = "leave out the tannin"
    edit = Several(label=label, edits=(DropLine(label=label, id=line.id),))
    return Repair(label="Leave it out", edit=edit)
