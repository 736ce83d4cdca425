"""The recipe's lines: as written, scaled at full precision, and how to measure them."""

from __future__ import annotations

import math
from typing import Literal

from winebench.catalog.additives import additives
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, FruitLine, Line, SugarLine, WaterLine, YeastLine
from winebench.plan import kitchen
from winebench.plan.balance import Balance
from winebench.plan.figures import figure, grams_text, litres_text, workings
from winebench.plan.kitchen import Measure
from winebench.plan.outlook import Caution, Figure, LineOutlook
from winebench.plan.portions import (
    additive_g,
    additive_of,
    fruit_of,
    g_per_teaspoon,
    in_tablets,
    mass_g,
    portion,
    sugar_of,
)
from winebench.plan.scale import made_l
from winebench.trade.workings import Workings
from winebench.units import Amount

TO_THE_MARK = "to the mark"
_TEASPOON_L = Amount("1 tsp").litres(None)
_FORMS = {"fresh": "", "frozen": "frozen", "puree": "strained puree", "juice": "juice",
          "dried": "dried", "canned": "canned"}  # fmt: skip


def line_name(line: Line) -> str:
    """Return what a line is, as people say it: "Damsons, prepared, frozen"."""
    if isinstance(line, FruitLine):
        fruit = fruit_of(line)
        form = "" if fruit.group in ("juice", "dried") else _FORMS[line.form]
        words = [fruit.name, "prepared" if line.prepared else "", form]
        return ", ".join(filter(None, words))
    if isinstance(line, SugarLine):
        return sugar_of(line).name + (", fed later" if line.when == "feed" else "")
    if isinstance(line, AdditiveLine):
        additive = additive_of(line)
        name = additive.name if additive else line.additive.strip() or "Unnamed additive"
        return f"{name}, in two doses" if additive and additive.two_doses else name
    if isinstance(line, YeastLine):
        return f"Yeast, to {line.tolerance_percent:g} %, {_warmth(line)}"
    return "Water"


def _warmth(line: YeastLine) -> str:
    """Return the warmth that the yeast likes, in the scale in which it was typed."""
    ends = (line.coolest.celsius, line.warmest.celsius)
    if line.coolest.fahrenheit and line.warmest.fahrenheit:
        return "{:.0f}–{:.0f} °F".format(*(celsius * 1.8 + 32.0 for celsius in ends))
    return "{:.0f}–{:.0f} °C".format(*ends)


def line_outlook(
    project: Project, line: Line, factor: float, must: Balance, cautions: tuple[Caution, ...]
) -> LineOutlook:
    """Return one line as written, scaled and measured."""
    scaled, measure = _scaled(project, line, factor, must)
    brings = portion(project, line, 0)
    return LineOutlook(
        id=line.id,
        kind=_kind(line),
        name=line_name(line),
        as_written=_as_written(line),
        scaled=scaled,
        measure=measure.text,
        measure_error_percent=measure.error_percent,
        cautions=cautions,
        share_of_sugar=brings.sugar_kg / must.sugar_kg if must.sugar_kg else None,
        share_of_acid=brings.acid_g / must.acid_g if must.acid_g else None,
    )


def _kind(line: Line) -> Literal["fruit", "sugar", "water", "additive", "yeast"]:
    if isinstance(line, FruitLine):
        return "fruit"
    if isinstance(line, SugarLine):
        return "sugar"
    if isinstance(line, YeastLine):
        return "yeast"
    return "water" if isinstance(line, WaterLine) else "additive"


def _as_written(line: Line) -> str:
    return line.amount.text.strip() if line.amount is not None else TO_THE_MARK


def _scaled(project: Project, line: Line, factor: float, must: Balance) -> tuple[Figure, Measure]:
    if isinstance(line, WaterLine):
        return _water(project, line, factor, must)
    if isinstance(line, YeastLine):
        return _yeast(project, line, factor, must)
    if isinstance(line, AdditiveLine):
        return _additive(project, line, factor)
    return _by_weight(project, line, factor)


def _work(line: Line, factor: float, result: str, unit: str) -> Workings:
    return workings(
        "scaling", "amount as written x must to make / the recipe's own volume", result, unit,
        "definition", ("as written", _as_written(line), ""), ("factor", f"{factor:.4f}", ""),
    )  # fmt: skip


def _by_weight(
    project: Project, line: FruitLine | SugarLine, factor: float
) -> tuple[Figure, Measure]:
    if line.amount.dimension == "count":
        return _counted(line, line.amount, factor)
    if line.amount.dimension == "volume":
        litres = line.amount.litres(project.gallon) * factor
        measure = _by_volume(project, line.amount, litres)
        if isinstance(line, SugarLine) and line.amount.parts[0].unit in ("cup", "tbsp", "tsp"):
            brings = portion(project, line, 0)  # "0.35 L" of sugar says little in a kitchen
            grams = (brings.water_kg + brings.solids_kg) * 1000.0 * factor
            return _grams(line, factor, grams), measure
        return _litres(line, factor, litres), measure
    grams = mass_g(line.amount, 0.0, project.gallon) * factor
    scaled = _grams(line, factor, grams)
    if _metric(line.amount) or project.kitchen.by == "scale":
        return scaled, kitchen.weighed(grams, project.kitchen)
    return scaled, kitchen.in_pounds(grams)


def _by_volume(project: Project, amount: Amount, litres: float) -> Measure:
    """Return the measure in what it was written in: cups, spoons, gallons or litres."""
    unit = amount.parts[0].unit
    if unit == "cup":
        country = amount.parts[0].country or project.gallon
        return kitchen.cups(litres, Amount("1 cup").litres(country), project.kitchen)
    if unit in ("tsp", "tbsp"):
        return kitchen.spoons(litres / _TEASPOON_L, project.kitchen)
    if kitchen.is_little(litres, project.gallon) and not _metric(amount):
        return kitchen.spoons(litres / _TEASPOON_L, project.kitchen)
    return kitchen.poured(litres, project.gallon, metric=_metric(amount))


def _counted(line: Line, amount: Amount, factor: float) -> tuple[Figure, Measure]:
    """Return packets and the like, whole: what is in them nobody has said."""
    measure = kitchen.counted(amount.count() * factor, amount.parts[0].unit)
    count, unit = measure.text.split(" ")
    scaled = figure(amount.count() * factor, unit, 1, workings=_work(line, factor, count, unit))
    return _as(scaled, count, unit), measure


def _grams(line: Line, factor: float, grams: float) -> Figure:
    text, unit = grams_text(grams).split(" ")
    made = figure(grams, "g", 0, workings=_work(line, factor, text, unit))
    return _as(made, text, unit)


def _litres(line: Line, factor: float, litres: float) -> Figure:
    text, unit = litres_text(litres).split(" ")
    return _as(figure(litres, "L", 1, workings=_work(line, factor, text, unit)), text, unit)


def _as(made: Figure, text: str, unit: str) -> Figure:
    """Return the figure shown as text in a unit fit for its size; `value` stays in its own."""
    shown_in = "" if unit == made.unit else unit
    return Figure(
        value=made.value, unit=made.unit, text=text, shown_in=shown_in, workings=made.workings
    )


def _metric(amount: Amount) -> bool:
    return amount.parts[0].unit in ("g", "kg", "mg", "L", "mL", "cL", "dL")


def _water(
    project: Project, line: WaterLine, factor: float, must: Balance
) -> tuple[Figure, Measure]:
    if line.amount is not None:
        bare = line.amount.litres(project.gallon)
    else:  # the mark is reached once, by the first line that asks for it
        bare = must.to_mark_l if line is _mark_line(project) else 0.0
    basis = line.amount if line.amount is not None else project.recipe.basis
    measure = kitchen.poured(bare * factor, project.gallon, metric=_metric(basis))
    return _litres(line, factor, bare * factor), measure


def _mark_line(project: Project) -> WaterLine | None:
    waters = (line for line in project.recipe.lines if isinstance(line, WaterLine))
    return next((line for line in waters if line.amount is None), None)


def _yeast(
    project: Project, line: YeastLine, factor: float, must: Balance
) -> tuple[Figure, Measure]:
    litres = made_l(project, must.litres * factor)
    measure = kitchen.counted(packets_of(project, line, litres), "packet")
    count, unit = measure.text.split(" ")
    work = workings(
        "yeast-packets", "must / the most that one packet serves, whole packets; as many times "
        "more as the recipe writes", count, "packets", "the packet's own numbers",
        ("must", f"{litres:.1f}", "L"), ("one packet serves", f"{line.packet_litres:g}", "L"),
        ("as written", _as_written(line), ""),
    )  # fmt: skip
    shown = Figure(value=float(count), unit=unit, text=count, workings=work)
    return shown, Measure(f"{float(count) * line.packet_g:g} g", None)


def usual_packets(line: YeastLine, litres: float) -> int:
    """Return the packets that so much must, L, wants by what one of them serves."""
    serves = line.packet_litres if line.packet_litres > 0 else max(litres, 1.0)
    return max(1, math.ceil(litres / serves - 1e-6))


def packets_of(project: Project, line: YeastLine, litres: float) -> int:
    """Return the packets that the recipe's yeast comes to in so much must, L."""
    usual = usual_packets(line, project.recipe.basis.litres(project.gallon))
    more = max(1.0, _written_packets(line) / usual)  # two for one gallon: a hard must
    return math.ceil(usual_packets(line, litres) * more - 1e-6)


def _written_packets(line: YeastLine) -> float:
    if line.amount.dimension == "count":
        return line.amount.count()
    if line.amount.dimension == "mass" and line.packet_g > 0:
        return line.amount.grams() / line.packet_g
    return 1.0


def _additive(project: Project, line: AdditiveLine, factor: float) -> tuple[Figure, Measure]:
    additive, grams = additive_of(line), additive_g(project, line)
    if grams is None:
        if line.amount.dimension == "count":
            return _counted(line, line.amount, factor)
        litres = line.amount.litres(project.gallon) * factor
        return _litres(line, factor, litres), _by_volume(project, line.amount, litres)
    scaled = _grams(line, factor, grams * factor)
    if in_tablets(line):
        tablet_g = project.kitchen.tablet_g
        return scaled, kitchen.tablets(line.amount.count() * factor, tablet_g)
    if additive and additive.two_doses:
        half = dose_measure(project, line.additive, grams * factor / 2.0)
        if half.text.startswith("weigh"):
            return scaled, Measure(f"twice: {half.text}", half.error_percent)
        each = f"({half.text})" if " + " in half.text else half.text
        return scaled, Measure(f"2 × {each}", half.error_percent)
    return scaled, dose_measure(project, line.additive, grams * factor)


def dose_measure(project: Project, key: str, grams: float) -> Measure:
    """Return how to measure grams of that additive: by spoon, scale or stock solution."""
    additive, spoon = additives().get(key), g_per_teaspoon(project, key)
    precise = bool(additive and additive.precise)
    if project.kitchen.by == "scale" or spoon is None:
        return kitchen.weighed(grams, project.kitchen, precise=precise)
    return kitchen.spooned(grams, spoon, project.kitchen, precise=precise)
