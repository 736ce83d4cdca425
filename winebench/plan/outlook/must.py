"""The recipe as it is made: its lines, the must, and the vessels that hold it."""

from __future__ import annotations

from typing import Literal

from winebench.plan.outlook.caution import Caution
from winebench.plan.outlook.figure import Figure, Shape


class LineOutlook(Shape, frozen=True, kw_only=True):
    """One line of the recipe: as written, scaled, and how to measure it."""

    id: str
    kind: Literal["fruit", "sugar", "water", "additive", "yeast"]
    name: str
    """Like "Damsons, stoned, frozen"."""
    as_written: str
    scaled: Figure
    """Grams, litres or a count for the size to make, at full precision in `value`."""
    measure: str
    """Like "7 lb 8 oz", "2 3/8 tsp", "2 × 2 1/2 tsp", "weigh it"."""
    measure_error_percent: float | None = None
    """What the kitchen measure is off by; None where nothing is rounded."""
    cautions: tuple[Caution, ...] = ()
    share_of_sugar: float | None = None
    share_of_acid: float | None = None


class Want(Shape, frozen=True, kw_only=True):
    """A figure of the must beside what is wanted of it."""

    key: Literal["gravity", "acidity", "tannin", "strength", "nitrogen", "drink"]
    name: str
    actual: Figure
    want_low: float | None
    want_high: float | None
    want_text: str
    """Like "want 1.088–1.094"."""
    scale_low: float
    scale_high: float
    """The ends of the bar that both are drawn on."""


class Must(Shape, frozen=True, kw_only=True):
    """The must that the scaled recipe makes."""

    liquid: Figure
    """Liquid without pulp, L, after the fruit has given up its juice."""
    pail: Figure
    """What the pail shows with the pulp in it, L."""
    gravity_day_0: Figure
    gravity: Figure
    """At pitching: after the fruit has given up its sugar (a day or two), before any is fed."""
    gravity_whole: Figure
    """With all sugar that is fed later, as the bar shows it; the same where none is."""
    brix: Figure
    sugar: Figure
    """Fermentable, g/L."""
    acidity: Figure
    """g/L as tartaric; this, tannin and nitrogen once all sugar that is fed later is in."""
    tannin: Figure
    """Condensed tannin that the wine keeps, g/L; not known where some fruit's is not."""
    nitrogen: Figure
    strength: Figure
    dry_gravity: Figure
    stops_at: Figure | None = None
    """Where the yeast reaches what its packet stands with sugar left; None where it stands it."""
    sulfite: Figure
    """Total SO2 added at crushing, mg/L."""
    sugar_to_target: Figure
    """White sugar to add (negative: too much) for the target, g."""
    acid_to_target: Figure
    """Tartaric acid to add for the target, g; negative: too sharp."""
    tannin_to_target: Figure
    """Grape tannin powder to add for the target, g; negative: more tannin than is wanted."""
    water_to_target: Figure
    """Water to add for the target gravity, L; negative: leave out."""
    ready: Figure
    """From when this wine is ready to drink, months after bottling."""
    wants: tuple[Want, ...]
    measured: bool
    """Whether the fruit was measured; else the table stands in."""


class VesselOutlook(Shape, frozen=True, kw_only=True):
    """How full a vessel will be."""

    id: str
    name: str
    role: Literal["primary", "secondary"]
    capacity_l: float
    fill_l: float
    fill: Figure | None = None
    """The same with its workings."""
    weight: Figure | None = None
    """Of the vessel with what is in it, kg."""
    foam_line_l: float | None
    fits: bool
    stage: Literal["to come", "now", "over"] = "to come"
    """Whether the must or wine is to go into it, is in it, or has left it."""
    headline: str
    """Like "19.6 L with the fruit"."""
    detail: str
    """Like "foam line 22 L · fits"."""
