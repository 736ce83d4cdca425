"""Tannin of the must: what its fruit and powder bring, with where each figure comes from."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.catalog.tannins import MUCH
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, FruitLine
from winebench.plan.balance import Balance, has_feed
from winebench.plan.figures import figure, workings
from winebench.plan.must_workings import over_liquid
from winebench.plan.outlook import Figure
from winebench.plan.portions import (
    TANNIN_OF_POWDER,
    additive_g,
    additive_of,
    fruit_of,
    in_form,
    portion,
    tannin_kept,
    tannin_of,
)
from winebench.trade.tannin import powder_for_rise_g
from winebench.trade.workings import Workings

_WORDS = (
    "condensed tannin of the fruit x what a wine keeps of it (0.4, 0.2 to 0.7; of pressed juice "
    "0.2, 0.05 to 0.5), and 0.7 (0.5 to 0.9) of tannin powder, / liquid. Rough: sorts differ "
    "twofold, laboratories' methods fivefold; taste"
)
_SHARE_SOURCE = "shares kept and purity: from memory of grapes and the OIV codex"


def tannin_figure(
    project: Project, sides: tuple[Balance, Balance, Balance], factor: float
) -> Figure:
    """Return the tannin that the wine keeps, g/L; not known where some fruit's is not."""
    poor, must, rich = (side.tannin_g_per_l for side in sides)
    work = _tannin_work(project, sides[1].times(factor), factor)
    return figure(must, "g/L", 2, low=poor, high=rich, workings=work)


def powder_to_target(must: Balance, low: float, high: float, factor: float) -> Figure:
    """Return grape tannin powder for the least tannin wanted, g; negative: more than is wanted.

    Not known where the fruit's tannin is not.
    """
    now = must.tannin_g_per_l
    if now is None or must.litres <= 0:
        return figure(None, "g", 1)
    litres = must.litres * factor
    if now >= low:
        grams = min(high - now, 0.0) * litres / TANNIN_OF_POWDER.figure
        return figure(grams, "g", 1, workings=_target_work(now, low, high, litres, grams))
    grams, least, most = powder_for_rise_g(min(low - now, 1.0), min(litres, 100_000.0))
    work = _target_work(now, low, high, litres, grams)
    return figure(grams, "g", 1, low=least, high=most, workings=work)


def unknown_fruit(project: Project) -> tuple[str, ...]:
    """Return the names of the fruit whose tannin no figure is known of here."""
    lines = (line for line in project.fruits if tannin_of(line) is None)
    return tuple(dict.fromkeys(fruit_of(line).name for line in lines))


def rich_fruit(project: Project) -> tuple[str, ...]:
    """Return the names of the fruit that wine makers count rich in tannin, but its juice."""
    found = (fruit_of(line) for line in project.fruits if line.form != "juice")
    return tuple(dict.fromkeys(x.name for x in found if x.tannin.amount == MUCH))


def listed(names: tuple[str, ...]) -> str:
    """Return the names in a sentence: "elderberries and blackberries"."""
    *first, last = (name.lower() for name in names)
    return f"{', '.join(first)} and {last}" if first else last


def _target_work(now: float, low: float, high: float, litres: float, grams: float) -> Workings:
    return workings(
        "tannin-to-target", "gap to the nearest end of the wanted range x liquid / 0.7, the "
        "powder's tannin (0.5 to 0.9)", f"{grams:.1f}", "g", _SHARE_SOURCE,
        ("now", f"{now:.2f}", "g/L"), ("want", f"{low:g}–{high:g}", "g/L"),
        ("liquid", f"{litres:.2f}", "L"),
    )  # fmt: skip


def _tannin_work(project: Project, made: Balance, factor: float) -> Workings:
    now = made.tannin_g_per_l
    rich, unknown = rich_fruit(project), unknown_fruit(project)
    words = _WORDS
    if unknown:
        words += f". Of {listed(unknown)} no published figure is known here: write one on its line"
    if rich:
        words += f". Common practice counts {listed(rich)} rich, and adds no tannin to them"
    sources = [_source(line) for line in project.fruits]
    return workings(
        "must-tannin", words, "" if now is None else f"{now:.2f}", "g/L",
        "; ".join(dict.fromkeys(filter(None, (*sources, _SHARE_SOURCE)))),
        *_brought(project, factor), over_liquid(made, fed=has_feed(project)),
    )  # fmt: skip


def _source(line: FruitLine) -> str:
    own = line.measured.tannin_mg_per_100_g is not None
    return "the maker's own figure" if own else in_form(line).tannin.source


def _brought(project: Project, factor: float) -> Iterator[tuple[str, str, str]]:
    """Give what each line brings, as an input of the workings."""
    for line in project.recipe.lines:
        if isinstance(line, FruitLine):
            yield _of_fruit(project, line, factor)
        elif isinstance(line, AdditiveLine):
            additive, grams = additive_of(line), additive_g(project, line)
            if additive is not None and additive.kind == "tannin" and grams is not None:
                share = TANNIN_OF_POWDER.figure
                made = grams * factor
                yield additive.name, f"{share * made:.2f}", f"g: {made:.2f} g x {share:g}"


def _of_fruit(project: Project, line: FruitLine, factor: float) -> tuple[str, str, str]:
    fruit, kept, known = fruit_of(line), tannin_kept(line).figure, tannin_of(line)
    if known is None:
        return fruit.name, "not known", ""
    grams = portion(project, line, 0).tannin_g * factor
    low, rate, high = (100.0 * end for end in known)
    span = f"({low:.0f}–{high:.0f})" if low < high else "(your own figure)"
    of = f"{rate:.0f} mg/100 g {span}"
    return fruit.name, f"{grams:.2f}", f"g: {kept:g} of {of}"
