"""What is to be said about a recipe before the yeast is in, each beside what causes it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from winebench.catalog.fruits import OWN_KEY, Fruit
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, FruitLine, SugarLine
from winebench.plan.again.last_time import measure_again
from winebench.plan.cautions.contradiction import contradiction, wants_water
from winebench.plan.cautions.drink import drink_cautions
from winebench.plan.cautions.late import late_cautions
from winebench.plan.cautions.poisons import poison_cautions, poison_of
from winebench.plan.cautions.repairs import enzyme_repair, nutrient_repair
from winebench.plan.cautions.tannin import tannin_cautions
from winebench.plan.cautions.vessels import vessel_cautions
from winebench.plan.cautions.volume import volume_cautions
from winebench.plan.cautions.yeast import yeast_cautions
from winebench.plan.figures import grams_text
from winebench.plan.lines import dose_measure
from winebench.plan.measured import doubtful_measures
from winebench.plan.must import Worked
from winebench.plan.outlook import Caution, VesselOutlook
from winebench.plan.portions import additive_of, fruit_of, is_strained, sugar_of
from winebench.plan.staged import moved_words, sugar_g, sugar_lines, to_the_start
from winebench.plan.vessels import wine_to_glass_l
from winebench.plan.wanted import (
    LEAST_NITROGEN_MG_PER_L,
    LEAST_SG,
    MOST_SG,
    STRONG_SULFITE_MG_PER_L,
)

MOST_NITROGEN = 450.0
"""More than yeast uses (from memory), mg N/L."""
_ACID_SLACK_G_PER_L = 0.3
"""What a titration in a kitchen is good to (common practice)."""
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
    if seen.worked.whole.is_heap:
        return tuple(caution for maker in (_poison, _heap, _fruit) for caution in maker(seen))
    makers = (_poison, _target, _range, _acid, _tannin, _nitrogen, _yeast, _sulfite, _fruit, _haze,
              _drink, _unread, _volume, _vessels)  # fmt: skip
    return tuple(caution for maker in makers for caution in maker(seen))


def _poison(seen: Weighed) -> Iterator[Caution]:
    yield from poison_cautions(seen.project)


def _target(seen: Weighed) -> Iterator[Caution]:
    yield from contradiction(seen.project, seen.worked, seen.factor)


def _heap(seen: Weighed) -> Iterator[Caution]:
    """Give what is said of more sugar than its water dissolves: figures of it mean nothing."""
    if wants_water(seen.project, seen.worked):
        yield from _target(seen)
    sugars = [line for when in ("start", "feed") for line in sugar_lines(seen.project, when)]
    most = max(sugars, key=lambda line: sugar_g(seen.project, line), default=None)
    what = f"{most.amount.text.strip()} of {sugar_of(most).name.lower()}" if most else "This"
    yield Caution(
        key="gravity-out-of-range",
        severity="hold",
        about=most.id if most else "must",
        sentence=f"{what} is more than the water of this must can dissolve.",
        detail="Look over the amount and its unit, and the water; until then the must's figures "
        "say nothing.",
        gates="pitch",
    )


def _range(seen: Weighed) -> Iterator[Caution]:
    sg = round(seen.worked.start.sg, 3)  # as it is shown
    if not LEAST_SG <= sg <= MOST_SG:
        weak = sg < LEAST_SG
        moved = to_the_start(seen.project, seen.worked.start) if weak else None
        yield Caution(
            key="gravity-out-of-range",
            severity="hold",
            about="must",
            sentence=f"At {sg:.3f} this must is {'too thin to keep' if weak else 'likely to stick'}"
            f"; yeast goes in between {LEAST_SG:.3f} and {MOST_SG:.3f}.",
            detail=moved_words(moved, seen.factor) if moved else _into_range(seen.worked),
            repairs=(moved.repair,) if moved else (),
            gates="pitch",
        )  # fmt: skip


def _into_range(worked: Worked) -> str:
    """Return what brings the start within the bounds, and agrees with what is wanted in all."""
    wants_more = worked.whole.sg < worked.aim.gravity
    if worked.start.sg > MOST_SG:
        return f"{'F' if wants_more else 'Use more water, or f'}eed part of the sugar later."
    if not wants_more and worked.aim.gravity < LEAST_SG:
        return f"Want at least {LEAST_SG:.3f}, then add sugar or fruit."
    if worked.whole is not worked.start:
        return "Put the sugar to be fed in at the start, and add sugar or fruit."
    return "Add sugar or fruit."


def _acid(seen: Weighed) -> Iterator[Caution]:
    now, aim, shown = seen.worked.whole.acid_g_per_l, seen.worked.aim, seen.worked.must.acidity
    low, high = shown.low or now, shown.high or now
    by = " by the table" if high - low > _MEASURED_G_PER_L else ""
    if now < aim.acid_low - _ACID_SLACK_G_PER_L:
        acid_g = seen.worked.must.acid_to_target.value or 0.0
        grams = grams_text(acid_g)
        yield Caution(
            key="too-little-acid",
            severity="note" if high >= aim.acid_low else "caution",
            about="must",
            sentence=f"Acidity {now:.1f} g/L{by} is below the {aim.acid_low:g} wanted.",
            detail=f"{grams} tartaric acid{_by_spoon(seen.project, acid_g)} raises it; measure and "
            "taste first.",
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


def _by_spoon(project: Project, acid_g: float) -> str:
    """Return how a household that measures by spoon measures so much acid, in brackets."""
    told = dose_measure(project, "tartaric-acid", acid_g).text
    return f" ({told})" if project.kitchen.by == "spoon" and "weigh" not in told else ""


def _tannin(seen: Weighed) -> Iterator[Caution]:
    yield from tannin_cautions(seen.project, seen.worked, seen.factor)


def _drink(seen: Weighed) -> Iterator[Caution]:
    if (
        LEAST_SG <= round(seen.worked.start.sg, 3) <= MOST_SG
    ):  # one that is not pitched is never drunk
        yield from drink_cautions(seen.project, seen.worked)


def _nitrogen(seen: Weighed) -> Iterator[Caution]:
    nitrogen = seen.worked.must.nitrogen.value or 0.0
    if nitrogen < LEAST_NITROGEN_MG_PER_L:
        yield Caution(
            key="little-nitrogen",
            severity="caution",
            about="must",
            sentence=f"Nitrogen about {nitrogen:.0f} mg/L: under the "
            f"{LEAST_NITROGEN_MG_PER_L:.0f} that yeast wants, and it may stick or smell.",
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
    yield from yeast_cautions(seen.project, seen.worked, seen.factor)
    yield from late_cautions(seen.project)


def _sulfite(seen: Weighed) -> Iterator[Caution]:
    total = seen.worked.must.sulfite.value or 0.0
    if total > STRONG_SULFITE_MG_PER_L:
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
        if poison_of(line) is not None:
            continue  # nobody is asked to measure its juice
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
    yield from volume_cautions(seen.project, seen.worked.start)


def _vessels(seen: Weighed) -> Iterator[Caution]:
    must_l = seen.worked.whole.litres * seen.factor
    yield from vessel_cautions(seen.vessels, wine_to_glass_l(seen.project, must_l))
