"""What a batch uses up, each thing once and in the unit it is bought by: g, L or a count."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from typing import NamedTuple

from winebench.catalog.additives import additives
from winebench.model.project import Project
from winebench.model.recipe import (
    AdditiveKind,
    AdditiveLine,
    FruitLine,
    Line,
    SugarLine,
    WaterLine,
    YeastLine,
)
from winebench.plan import kitchen
from winebench.plan.figures import grams_text, litres_text
from winebench.plan.lines import line_name
from winebench.plan.outlook import BottleOutlook, LineOutlook
from winebench.plan.portions import (
    fruit_of,
    g_per_litre,
    g_per_teaspoon,
    in_tablets,
    is_strained,
    sugar_of,
)
from winebench.plan.scale import must_l
from winebench.units import Amount, GallonCountry

YEAST, BOTTLES, CORKS, CLEANER = "yeast", "bottles", "corks", "cleaner"
SWEETENS_WITH = "white-sugar"
CLEANER_G_PER_L = Amount("1 oz").grams() / Amount("1 gal US").litres(None)
"""An ounce of oxygen-type cleaner in a US gallon of warm water. Common practice."""
_CLEANER_DOSES = {True: "An ounce in each gallon US", False: "7.5 g in each litre"}
"""By whether the household thinks in ounces."""
_CLEANER_NOTE = (
    " of warm water, for one filling of a vessel as large as the batch "
    "(common practice); each more takes as much again. Leave it out if you clean with "
    "something else, and never mix two cleaners."
)
_TEASPOON_L = Amount("1 tsp").litres(None)
_METRIC = ("kg", "g", "L", "mL")
_CUSTOMARY = ("lb", "oz", "gal", "qt", "pt", "cup", "fl oz")


class Need(NamedTuple):
    """One thing that the batch uses up."""

    what: str
    """Name of its pantry entry."""
    name: str
    text: str
    value: float
    unit: str
    """Like "g", "L", or what is counted: "packet", "tablet", "bottle", "cork", "piece"."""
    g_per_litre: float | None = None
    g_per_one: float | None = None
    """Mass of one tablet or packet, where that is known."""
    one: str = ""
    """What `g_per_one` is of."""
    kind: AdditiveKind | None = None
    """Kind of additive; tells how long it keeps."""
    gallon: GallonCountry | None = None
    customary: bool = False
    """Whether it is written in pounds or gallons, and so shown in them too."""
    note: str = ""
    suggested: bool = False
    """Whether the batch can do without it."""


def needs(
    project: Project, lines: Iterable[LineOutlook], bottles: BottleOutlook
) -> tuple[Need, ...]:
    """Return all that the scaled recipe and its bottling use up; tap water is left out."""
    found: dict[tuple[str, str], Need] = {}
    for line, seen in zip(project.recipe.lines, lines, strict=True):
        if not isinstance(line, WaterLine):
            need = _of_line(project, line, seen)
            sort = _sort(line, need)
            same = found.get((need.what, sort))
            found[need.what, sort] = _both(same, need) if same else need
    return (
        *_told_apart(found),
        *_of_bottling(project, bottles),
        *_cleaner(project, found.values()),
    )


def _sort(line: Line, need: Need) -> str:
    """Return what parts two things of one name, as the shop sees it."""
    if isinstance(line, YeastLine):
        return need.name
    if isinstance(line, FruitLine) and line.form not in ("fresh", "frozen"):
        return f"{line.form} {need.unit}"
    return need.unit


def _told_apart(found: dict[tuple[str, str], Need]) -> Iterator[Need]:
    """Give the needs; a second sort of one thing has a pantry entry of its own."""
    taken: set[str] = set()
    for (what, sort), need in found.items():
        yield need._replace(what=f"{what}, {sort}" if what in taken else what)
        taken.add(what)


def _both(first: Need, more: Need) -> Need:
    """Return both as one: sugar for the start and for a later feed."""
    value = first.value + more.value
    name = first.name if first.name == more.name else f"{first.name}; {more.name}"
    note = " ".join(filter(None, (first.note, more.note)))
    both = first._replace(name=name, value=value, note=note)
    return both._replace(text=amount_text(both, value))


def _of_line(project: Project, line: Line, seen: LineOutlook) -> Need:
    value = seen.scaled.value or 0.0
    if isinstance(line, YeastLine):
        made = Need(YEAST, line_name(line), "", value, "packet")
        made = made._replace(g_per_one=line.packet_g, one="packet")
    elif isinstance(line, AdditiveLine):
        made = _of_additive(project, line, value)
    elif isinstance(line, FruitLine | SugarLine):
        made = _of_weight(line, value, seen.scaled.unit)
    else:
        raise TypeError(f"{type(line).__name__} is not bought")
    customary = line.amount.parts[0].unit in _CUSTOMARY and made.unit in ("g", "L")
    made = made._replace(gallon=project.gallon, customary=customary)
    text = amount_text(made._replace(customary=False), made.value)
    return made._replace(text=_with_measure(text, made.unit, seen.measure))


def _with_measure(text: str, unit: str, measure: str) -> str:
    """Return the amount with its kitchen measure, where that says more than the amount does."""
    same = unit in ("g", "L") and measure.rpartition(" ")[2] in _METRIC
    if same or measure == text or "weigh" in measure or "too little" in measure:
        return text
    return f"{text} ({measure})"


def _of_weight(line: FruitLine | SugarLine, value: float, unit: str) -> Need:
    what, name = (
        (line.fruit, line_name(line))
        if isinstance(line, FruitLine)
        else (line.sugar, sugar_of(line).name)
    )
    if line.amount.dimension == "count":
        return Need(what, name, "", value, line.amount.parts[0].unit)
    heavy = g_per_litre(line)
    poured = isinstance(line, FruitLine) and is_strained(line)  # juice is sold by the litre
    if unit == "L" and not poured:
        value, unit = value * heavy, "g"
    note = _as_picked(line, value) if isinstance(line, FruitLine) and unit == "g" else ""
    return Need(what, name, "", value, unit, g_per_litre=heavy, note=note)


def _as_picked(line: FruitLine, grams: float) -> str:
    """Return what fruit that is weighed stoned or peeled comes to with its stones and peel."""
    fruit = fruit_of(line)
    share = 1.0 - fruit.refuse_percent / 100.0
    if not line.prepared or line.form not in ("fresh", "frozen") or not 0.0 < share < 1.0:
        return ""
    return f"Weighed prepared: about {grams_text(grams / share)} as picked."


def _of_additive(project: Project, line: AdditiveLine, value: float) -> Need:
    made = powder_need(project, line.additive, value)
    if in_tablets(line) and made.g_per_one:
        return in_whole_tablets(made, value / made.g_per_one)
    if line.amount.dimension == "count" and not in_tablets(line):
        return made._replace(unit=line.amount.parts[0].unit)
    spoon = made.g_per_litre
    return made._replace(unit="L") if line.amount.dimension == "volume" and spoon is None else made


def in_whole_tablets(need: Need, count: float) -> Need:
    """Return the need of so many tablets of a known mass, as they are taken out of their tub."""
    each = need.g_per_one or 0.0
    return need._replace(value=kitchen.tablets_used_up(count, each), unit="tablet")


def powder_need(project: Project, key: str, grams: float) -> Need:
    """Return the need of so many grams of an additive."""
    additive, tablet_g = additives().get(key), project.kitchen.tablet_g
    made = Need(key, additive.name if additive else key, grams_text(grams), grams, "g")
    made = made._replace(kind=additive.kind if additive else None)
    if additive and additive.so2_share > 0 and tablet_g > 0:
        made = made._replace(g_per_one=tablet_g, one="tablet")
    spoon = g_per_teaspoon(project, key)
    return made if spoon is None else made._replace(g_per_litre=spoon / _TEASPOON_L)


def sugar_need(project: Project, grams: float) -> Need:
    """Return the need of so many grams of white sugar, in pounds too where the recipe is."""
    made = _of_weight(
        SugarLine(id="sweeten", sugar=SWEETENS_WITH, amount=Amount("1 g")), grams, "g"
    )
    lines = (line for line in project.recipe.lines if isinstance(line, SugarLine))
    made = made._replace(customary=any(line.amount.parts[0].unit in _CUSTOMARY for line in lines))
    return made._replace(text=amount_text(made, grams))


def _of_bottling(project: Project, bottles: BottleOutlook) -> Iterator[Need]:
    size = f"{project.make.bottle_ml:g} mL"
    for what, name, count, unit, note in (
        (BOTTLES, f"Bottles of {size}", bottles.bottles, "bottle", _why_bottles(project, bottles)),
        (CORKS, "Corks", bottles.corks, "cork", _why_corks(bottles)),
    ):
        if count:
            need = Need(what, name, "", float(count), unit, note=note)
            yield need._replace(text=amount_text(need, need.value))


def _why_bottles(project: Project, bottles: BottleOutlook) -> str:
    """Return like "2.9 L are left to bottle: 3 full ones, and 0.65 L over."."""
    litres, size = bottles.finished.value or 0.0, project.make.bottle_ml / 1000.0
    over = litres - bottles.bottles * size
    words = f"{bottles.finished.text} L of wine are left to bottle: {bottles.bottles} full"
    if over < -1e-6:
        return f"{words}, the last {-1000.0 * over:.0f} mL short."
    if over < 0.1 * size:
        return f"{words}."
    return f"{words}, and {litres_text(over)} over for a smaller one or the first taste."


def _why_corks(bottles: BottleOutlook) -> str:
    spare = bottles.corks - bottles.bottles
    return f"One a bottle and {spare} to spare: one may tear or go in askew (common practice)."


def _cleaner(project: Project, others: Collection[Need]) -> Iterator[Need]:
    """Give the cleaner of a batch that there is something to buy for."""
    litres = must_l(project)
    if others and litres > 0.0:
        customary = any(need.customary for need in others)
        need = Need(
            CLEANER, "Oxygen-type cleaner", "", CLEANER_G_PER_L * litres, "g",
            customary=customary, note=_CLEANER_DOSES[customary] + _CLEANER_NOTE, suggested=True,
        )  # fmt: skip
        yield need._replace(text=amount_text(need, need.value))


def amount_text(need: Need, value: float) -> str:
    """Return so much of it for people: "3.40 kg (7 lb 8 oz)", "0.25 L", "17 1/2 tablets"."""
    if need.unit == "g":
        text = grams_text(value)
        return f"{text} ({kitchen.in_pounds(value).text})" if need.customary else text
    if need.unit == "L":
        text = litres_text(value)
        if not need.customary or need.gallon is None:
            return text
        poured = kitchen.poured(value, need.gallon, metric=False).text
        return text if poured == text else f"{text} ({poured})"
    if need.unit == "tablet":
        told = kitchen.fraction_text(kitchen.whole_halves(value))
        return f"{told} {'tablet' if told in ('1/2', '1') else 'tablets'}"
    return f"{kitchen.fraction_text(value)} {need.unit}{'' if 0 < value <= 1 else 's'}"
