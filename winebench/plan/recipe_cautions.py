"""What is to be said about a recipe before the yeast is in, each beside what causes it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from winebench.model.edits import PutLine, changed
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, FruitLine, SugarLine, WaterLine, YeastLine
from winebench.plan.balance import Balance, sugar_to_target_kg, water_to_target_l
from winebench.plan.figures import grams_text, litres_text
from winebench.plan.kitchen import in_pounds
from winebench.plan.must import Wanted, strength
from winebench.plan.outlook import Caution, Must, Repair, VesselOutlook
from winebench.plan.portions import additive_of, fruit_of, sugar_of
from winebench.units import Amount

LEAST_SG, MOST_SG = 1.070, 1.110
"""Gravities between which a must is pitched (common practice): below keeps poorly, above sticks."""
YEAST_MARGIN = 1.0
USUAL_SO2_MG_PER_L = 75.0
LEAST_NITROGEN = 150.0
HEAVY_L = 20.0
_SLACK_SG = 0.002
"""What a hydrometer cannot tell apart; within it a recipe keeps its word."""


class Weighed(NamedTuple):
    """What the cautions look at."""

    project: Project
    must: Must
    balance: Balance
    aim: Wanted
    factor: float
    vessels: tuple[VesselOutlook, ...]


def recipe_cautions(seen: Weighed) -> tuple[Caution, ...]:
    """Return every caution of the recipe, its must and its vessels."""
    if not seen.project.recipe.lines:
        return ()
    makers = (_target, _range, _acid, _nitrogen, _yeast, _sulfite, _fruit, _volume, _vessels)
    return tuple(caution for maker in makers for caution in maker(seen))


def _target(seen: Weighed) -> Iterator[Caution]:
    aim, sg = seen.aim, seen.balance.sg
    if aim.gravity_low - _SLACK_SG <= sg <= aim.gravity_high + _SLACK_SG:
        return
    kilos = sugar_to_target_kg(seen.project, aim.gravity)
    sugar = _white_sugar(seen.project)
    said = "you wrote" if aim.own_gravity else "the style wants"
    yield Caution(
        key="contradicts-target",
        severity="caution",
        about=sugar.id if sugar else "must",
        sentence=f"This must will read {sg:.3f}, not the {aim.gravity_low:.3f}–"
        f"{aim.gravity_high:.3f} {said}.",
        detail=_way_out(seen, kilos, sugar),
        repairs=_sugar_repair(seen.project, kilos, sugar),
    )


def _white_sugar(project: Project) -> SugarLine | None:
    lines = [x for x in project.recipe.lines if isinstance(x, SugarLine) and x.when == "start"]
    return next((x for x in lines if x.amount.dimension == "mass"), None)


def _way_out(seen: Weighed, kilos: float | None, sugar: SugarLine | None) -> str:
    ways = []
    target = f"for {seen.aim.gravity:.3f}"
    if kilos is not None:
        grams = kilos * 1000.0 * seen.factor
        per_white = 100.0 / sugar_of(sugar).solids_percent.figure if sugar else 1.0
        both = f"{grams_text(abs(grams * per_white))} ({in_pounds(abs(grams * per_white)).text})"
        name = sugar_of(sugar).name.lower() if sugar else "white sugar"
        ways.append(f"{'Add' if grams > 0 else 'Leave out'} {both} {name} in all {target}")
    litres = water_to_target_l(seen.project, seen.aim.gravity)
    if litres is not None and abs(litres) < seen.balance.litres:
        more = "more" if litres > 0 else "less"
        ways.append(f"use {litres_text(abs(litres) * seen.factor)} {more} water")
    return (", or ".join(ways) or "No amount of sugar or water reaches it") + "."


def _sugar_repair(
    project: Project, kilos: float | None, sugar: SugarLine | None
) -> tuple[Repair, ...]:
    if kilos is None:
        return ()
    if sugar is None:
        if kilos <= 0:
            return ()
        made = SugarLine(id=_free_id(project), sugar="white-sugar", amount=_typed(kilos * 1000))
        return (Repair(label="Add the sugar", edit=PutLine(label="add the sugar", line=made)),)
    grams = sugar.amount.grams() + kilos * 1000.0 * _white_for(sugar)
    if grams <= 0:
        return ()
    line = changed(sugar, amount=_typed(grams, like=sugar.amount))
    label = "Add the sugar" if kilos > 0 else "Leave it out"
    return (Repair(label=label, edit=PutLine(label="change the sugar", line=line)),)


def _white_for(sugar: SugarLine) -> float:
    percent = sugar.solids_percent or sugar_of(sugar).solids_percent.figure
    return 100.0 / percent


def _free_id(project: Project) -> str:
    """Return an id that no line has; the same project gives the same one."""
    taken = {line.id for line in project.recipe.lines}
    number = len(taken) + 1
    while f"line-{number}" in taken:
        number += 1
    return f"line-{number}"


def _typed(grams: float, like: Amount | None = None) -> Amount:
    """Return an amount written as the line was: pounds and ounces, or grams."""
    if like is not None and like.parts[0].unit in ("lb", "oz"):
        ounces = round(grams / Amount("1 oz").grams(), 1)
        pounds, rest = divmod(ounces, 16)
        small = f"{rest:.1f}".removesuffix(".0") + " oz" if rest else ""
        whole = f"{pounds:.0f} lb" if pounds else ""
        return Amount(f"{whole} {small}".strip() or "0.1 oz")
    return Amount(f"{grams:.0f} g")


def _range(seen: Weighed) -> Iterator[Caution]:
    sg = seen.balance.sg
    if not LEAST_SG <= sg <= MOST_SG:
        weak = sg < LEAST_SG
        yield Caution(
            key="gravity-out-of-range",
            severity="hold",
            about="must",
            sentence=f"At {sg:.3f} this must is {'too thin to keep' if weak else 'likely to stick'}"
            f"; yeast goes in between {LEAST_SG:.3f} and {MOST_SG:.3f}.",
            detail="Add sugar or fruit." if weak else "Use more water, or feed part of the sugar "
            "later.",
            gates="pitch",
        )  # fmt: skip


def _acid(seen: Weighed) -> Iterator[Caution]:
    now, aim = seen.balance.acid_g_per_l, seen.aim
    grams = seen.must.acid_to_target.value or 0.0
    if grams > 0.3 * seen.balance.litres * seen.factor:
        yield Caution(
            key="too-little-acid",
            severity="caution",
            about="must",
            sentence=f"Acidity {now:.1f} g/L is below the {aim.acid_low:g} wanted.",
            detail=f"{grams_text(grams)} tartaric acid raises it; measure and taste first.",
        )
    elif grams < -0.3 * seen.balance.litres * seen.factor:
        yield Caution(
            key="too-sharp",
            severity="caution",
            about="must",
            sentence=f"Acidity {now:.1f} g/L is above the {aim.acid_high:g} wanted.",
            detail="More water (and sugar to match) softens it; or keep it and sweeten at the end.",
        )


def _nitrogen(seen: Weighed) -> Iterator[Caution]:
    nitrogen = seen.must.nitrogen.value or 0.0
    if nitrogen < LEAST_NITROGEN:
        yield Caution(
            key="little-nitrogen",
            severity="caution",
            about="must",
            sentence=f"Nitrogen about {nitrogen:.0f} mg/L: under the {LEAST_NITROGEN:.0f} that "
            "yeast wants, and it may stick or smell.",
            detail="Add yeast nutrient, in two doses.",
        )


def _yeast(seen: Weighed) -> Iterator[Caution]:
    lines = [line for line in seen.project.recipe.lines if isinstance(line, YeastLine)]
    if not lines:
        yield Caution(key="no-yeast", severity="caution", about="must",
                      sentence="There is no yeast on the recipe.",
                      detail="Add a packet; its own numbers decide what it can do.")  # fmt: skip
    room = seen.project.room
    for line in lines:
        if strength(seen.balance) > line.tolerance_percent - YEAST_MARGIN:
            yield Caution(
                key="yeast-too-weak",
                severity="caution",
                about=line.id,
                sentence=f"The sugar makes {strength(seen.balance):.1f} %, and the packet stands "
                f"{line.tolerance_percent:g} %: it may stop sweet.",
                detail=f"Keep {YEAST_MARGIN:g} % in hand: less sugar, or a stronger yeast.",
            )
        if not line.coolest.celsius <= room.celsius <= line.warmest.celsius:
            yield Caution(
                key="room-for-yeast",
                severity="caution",
                about=line.id,
                sentence=f"The room is {room.text}; this yeast likes {line.coolest.text} to "
                f"{line.warmest.text}.",
                detail="Cold is slow, warm is hasty; move it or choose another.",
            )


def _sulfite(seen: Weighed) -> Iterator[Caution]:
    total = seen.must.sulfite.value or 0.0
    if total > USUAL_SO2_MG_PER_L:
        lines = (x for x in seen.project.recipe.lines if isinstance(x, AdditiveLine))
        line = next((x for x in lines if (a := additive_of(x)) and a.so2_share), None)
        yield Caution(
            key="much-sulfite",
            severity="caution",
            about=line.id if line else "must",
            sentence=f"{total:.0f} mg/L sulfite is more than the usual 30 to 75.",
            detail="Wait longer before the yeast; keep it from people with asthma.",
        )


def _fruit(seen: Weighed) -> Iterator[Caution]:
    for line in seen.project.fruits:
        fruit = fruit_of(line)
        if fruit.safety:
            yield Caution(
                key="fruit-safety",
                severity="caution" if _poisonous(fruit.safety) else "note",
                about=line.id,
                sentence=f"{fruit.name}: {fruit.safety}.".replace("..", "."),
            )
        yield from _form(line, fruit.group)


def _poisonous(text: str) -> bool:
    return any(word in text for word in ("cyanogenic", "poisonous", "EFSA", "be sure what"))


def _form(line: FruitLine, group: str) -> Iterator[Caution]:
    if (line.form in ("juice", "puree", "canned") or group == "juice") and not line.measured.juice:
        yield Caution(
            key="preservative",
            severity="note",
            about=line.id,
            sentence="Read the carton: benzoate or sorbate in it stops yeast, and syrup counts as "
            "sugar.",
        )


def _volume(seen: Weighed) -> Iterator[Caution]:
    basis = seen.project.recipe.basis.litres(seen.project.gallon)
    litres = seen.balance.litres
    to_mark = any(isinstance(x, WaterLine) and x.amount is None for x in seen.project.recipe.lines)
    if litres <= 0 or abs(litres / basis - 1.0) <= 0.05:
        return
    over = "more" if litres > basis else "less"
    yield Caution(
        key="volume-off",
        severity="caution",
        about="must",
        sentence=f"These lines make {litres_text(litres)}, {over} than the recipe's "
        f"{seen.project.recipe.basis.text}.",
        detail="Sugar takes up room too: 0.62 L a kilogram." if to_mark
        else "Write the water as “to the mark”, or change the volume.",
    )  # fmt: skip


def _vessels(seen: Weighed) -> Iterator[Caution]:
    for vessel in seen.vessels:
        if not vessel.fits and vessel.role == "primary":
            yield Caution(
                key="pail-too-small", severity="hold", about="vessels", gates="sugar-water",
                sentence=f"{vessel.name} is too small: {vessel.headline}, {vessel.detail}.",
                detail="Use a bigger pail, or two, or make less.",
            )  # fmt: skip
        elif not vessel.fits:
            yield Caution(
                key="jug-not-full", severity="caution", about="vessels",
                sentence=f"{vessel.name} will not be full: {vessel.headline}, {vessel.detail}.",
                detail="Air over the wine browns it.",
            )  # fmt: skip
        if vessel.role == "secondary" and vessel.fill_l >= 0.9 * HEAVY_L:
            yield Caution(
                key="heavy", severity="note", about="vessels",
                sentence=f"{vessel.name} full weighs about {vessel.fill_l + 6.5:.0f} kg: two "
                "people, and never by the neck.",
            )  # fmt: skip
