"""What is to be said about a recipe before the yeast is in, each beside what causes it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from winebench.catalog.fruits import OWN_KEY, Fruit
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, FruitLine, SugarLine, YeastLine
from winebench.plan.again.last_time import measure_again
from winebench.plan.balance import has_mark
from winebench.plan.contradiction import contradiction
from winebench.plan.figures import grams_text, litres_text
from winebench.plan.measured import doubtful_measures
from winebench.plan.must import Worked, strength
from winebench.plan.outlook import Caution, VesselOutlook
from winebench.plan.portions import additive_of, fruit_of, is_strained, sugar_of
from winebench.plan.recipe_repairs import LEAST_NITROGEN, enzyme_repair, nutrient_repair
from winebench.plan.vessel_cautions import vessel_cautions
from winebench.plan.vessels import wine_to_glass_l

LEAST_SG, MOST_SG = 1.070, 1.110
"""Gravities between which a must is pitched (common practice): below keeps poorly, above sticks."""
YEAST_MARGIN = 1.0
USUAL_SO2_MG_PER_L = 75.0
MOST_NITROGEN = 450.0
"""More than yeast uses (from memory), mg N/L."""
_ACID_SLACK_G_PER_L = 0.3
_MEASURED_G_PER_L = 0.1
"""A narrower range than this was measured."""


class Weighed(NamedTuple):
    """What the cautions look at."""

    project: Project
    worked: Worked
    factor: float
    vessels: tuple[VesselOutlook, ...]


def recipe_cautions(seen: Weighed) -> tuple[Caution, ...]:
    """Return every caution of the recipe, its must and its vessels."""
    if not seen.project.recipe.lines:
        return ()
    makers = (_target, _range, _acid, _nitrogen, _yeast, _sulfite, _fruit, _haze, _unread, _volume,
              _vessels)  # fmt: skip
    return tuple(caution for maker in makers for caution in maker(seen))


def _target(seen: Weighed) -> Iterator[Caution]:
    yield from contradiction(seen.project, seen.worked, seen.factor)


def _range(seen: Weighed) -> Iterator[Caution]:
    sg = seen.worked.start.sg
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
    now, aim, shown = seen.worked.start.acid_g_per_l, seen.worked.aim, seen.worked.must.acidity
    low, high = shown.low or now, shown.high or now
    by = " by the table" if high - low > _MEASURED_G_PER_L else ""
    if now < aim.acid_low - _ACID_SLACK_G_PER_L:
        grams = grams_text(seen.worked.must.acid_to_target.value or 0.0)
        yield Caution(
            key="too-little-acid",
            severity="note" if high >= aim.acid_low else "caution",
            about="must",
            sentence=f"Acidity {now:.1f} g/L{by} is below the {aim.acid_low:g} wanted.",
            detail=f"{grams} tartaric acid raises it; measure and taste first.",
        )
    elif now > aim.acid_high + _ACID_SLACK_G_PER_L:
        yield Caution(
            key="too-sharp",
            severity="note" if low <= aim.acid_high else "caution",
            about="must",
            sentence=f"Acidity {now:.1f} g/L{by} is above the {aim.acid_high:g} wanted.",
            detail="Measure first. More water, with sugar to match, softens it; or keep it and "
            "sweeten at the end.",
        )


def _nitrogen(seen: Weighed) -> Iterator[Caution]:
    nitrogen = seen.worked.must.nitrogen.value or 0.0
    if nitrogen < LEAST_NITROGEN:
        yield Caution(
            key="little-nitrogen",
            severity="caution",
            about="must",
            sentence=f"Nitrogen about {nitrogen:.0f} mg/L: under the {LEAST_NITROGEN:.0f} that "
            "yeast wants, and it may stick or smell.",
            detail="Add yeast nutrient, in two doses.",
            repairs=nutrient_repair(seen.project, seen.worked),
        )
    elif nitrogen > MOST_NITROGEN:
        yield Caution(
            key="much-nitrogen",
            severity="caution",
            about="must",
            sentence=f"Nitrogen about {nitrogen:.0f} mg/L is more than yeast uses; what it leaves "
            "feeds spoilage.",
            detail="Is the nutrient on the recipe twice, under two names?",
        )


def _yeast(seen: Weighed) -> Iterator[Caution]:
    lines = [line for line in seen.project.recipe.lines if isinstance(line, YeastLine)]
    if not lines:
        yield Caution(key="no-yeast", severity="caution", about="must",
                      sentence="There is no yeast on the recipe.",
                      detail="Add a packet; its own numbers decide what it can do.")  # fmt: skip
    room, strong = seen.project.room, round(strength(seen.worked.whole), 1)  # as it is shown
    for line in lines:
        if strong > line.tolerance_percent - YEAST_MARGIN:
            yield Caution(
                key="yeast-too-weak",
                severity="caution" if strong > line.tolerance_percent else "note",
                about=line.id,
                sentence=f"The sugar makes {strong:.1f} %, and the packet stands "
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
    total = seen.worked.must.sulfite.value or 0.0
    if total > USUAL_SO2_MG_PER_L:
        lines = (x for x in seen.project.recipe.lines if isinstance(x, AdditiveLine))
        line = next((x for x in lines if (a := additive_of(x)) and a.so2_share), None)
        yield Caution(
            key="much-sulfite",
            severity="caution",
            about=line.id if line else "must",
            sentence=f"{total:.0f} mg/L sulfite is more than the usual 30 to 75.",
            detail="Wait 36 to 48 hours before the yeast; people with asthma may react to it.",
        )


def _fruit(seen: Weighed) -> Iterator[Caution]:
    for line in seen.project.fruits:
        fruit = fruit_of(line)
        if fruit.safety:
            yield Caution(
                key="fruit-safety",
                severity="caution" if _poisonous(fruit.safety) else "note",
                about=line.id,
                sentence=f"{fruit.name}: {fruit.safety.rstrip('.')}.",
            )
        yield from _not_measured(line, fruit)
        yield from filter(None, (doubtful_measures(line), measure_again(line)))
        yield from _carton(line)


def _haze(seen: Weighed) -> Iterator[Caution]:
    lines = seen.project.recipe.lines
    added = any(isinstance(x, AdditiveLine) and x.additive == "pectic-enzyme" for x in lines)
    pulp = [line for line in seen.project.fruits if line.form in ("fresh", "frozen")]
    if pulp and not added:
        yield Caution(
            key="no-pectic-enzyme",
            severity="note",
            about="must",
            sentence="No pectic enzyme is on the recipe: fruit gives less juice without it, and "
            "its wine may stay hazy.",
            detail="Usual is 1/2 tsp in a US gallon, twice that for plums, apricots and apple "
            "pulp; the packet's own dose goes before it.",
            repairs=enzyme_repair(seen.project, seen.worked),
        )


def _poisonous(text: str) -> bool:
    return any(word in text for word in ("cyanogenic", "poisonous", "EFSA", "be sure what"))


def _not_measured(line: FruitLine, fruit: Fruit) -> Iterator[Caution]:
    measured = line.measured
    if fruit.key != OWN_KEY or (measured.juice and measured.acid_g_per_l is not None):
        return
    missing = " and ".join(
        word
        for word, known in (("gravity", measured.juice), ("acidity", measured.acid_g_per_l))
        if known is None
    )
    yield Caution(
        key="measure-own-fruit",
        severity="caution",
        about=line.id,
        sentence=f"{fruit.name}: not in the catalog, so its {missing} are guessed until you "
        "measure." if " and " in missing else
        f"{fruit.name}: not in the catalog, so its {missing} is guessed until you measure.",
        detail="Strain a spoonful of juice at 20 °C, read it, and enter it beside the fruit.",
    )  # fmt: skip


def _carton(line: FruitLine) -> Iterator[Caution]:
    if (is_strained(line) or line.form == "canned") and not line.measured.juice:
        yield Caution(
            key="preservative",
            severity="note",
            about=line.id,
            sentence="Read the carton: benzoate or sorbate in it stops yeast, and syrup counts as "
            "sugar.",
        )


def _unread(seen: Weighed) -> Iterator[Caution]:
    """Give the lines whose sugar or dose cannot be counted as they are written."""
    for line in seen.project.recipe.lines:
        if isinstance(line, SugarLine) and sugar_of(line).needs_label and not line.solids_percent:
            share = sugar_of(line).solids_percent.figure
            yield Caution(
                key="needs-label", severity="caution", about=line.id,
                sentence=f"{sugar_of(line).name}: {share:g} % sugar is a guess.",
                detail="Read it off the label (grams of sugar in 100 grams) and enter it.",
            )  # fmt: skip
        if isinstance(line, FruitLine | SugarLine) and line.amount.dimension == "count":
            yield Caution(
                key="not-counted", severity="caution", about=line.id,
                sentence=f'"{line.amount.text.strip()}" says no weight, so it is left out of the '
                "must.",
                detail="Write it by weight or volume, such as 1 lb or 500 mL.",
            )  # fmt: skip


def _volume(seen: Weighed) -> Iterator[Caution]:
    own, litres = seen.project.recipe.basis, seen.worked.start.litres
    basis = own.litres(seen.project.gallon)
    if litres <= 0 or abs(litres / basis - 1.0) <= 0.05:
        return
    over = "more" if litres > basis else "less"
    yield Caution(
        key="volume-off",
        severity="caution",
        about="must",
        sentence=f"These lines make {litres_text(litres)}, {over} than the recipe's "
        f"{own.text.strip()} ({litres_text(basis)}).",
        detail="Fruit and sugar fill it past the mark without water: use less, or change the "
        "volume." if has_mark(seen.project)
        else "Write the water as “to the mark”, or change the volume.",
    )  # fmt: skip


def _vessels(seen: Weighed) -> Iterator[Caution]:
    must_l = seen.worked.whole.litres * seen.factor
    yield from vessel_cautions(seen.vessels, wine_to_glass_l(seen.project, must_l))
