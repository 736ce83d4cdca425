"""What the program works out of a project: shapes only, ready for a window, a page or JSON.

Every shape is immutable and holds words for people beside its numbers, so that the window,
the printed card and the headless JSON say the same thing.
"""

from __future__ import annotations

from datetime import date, datetime
from typing import Literal

import msgspec

from winebench.model.edits import Change, ChangeRecipe, PutLine, Several
from winebench.trade.workings import Workings


class Shape(msgspec.Struct, frozen=True, kw_only=True):
    """Base of the outlook's parts."""


class Figure(Shape, frozen=True, kw_only=True):
    """One worked-out number: figure, range, unit, how to show it, and its workings.

    `value` None means "not known here"; `text` then says so.
    """

    value: float | None
    low: float | None = None
    high: float | None = None
    unit: str
    text: str
    """The number alone, with the digits it deserves: "1.078", "7.1", "18.0"."""
    shown_in: str = ""
    """Unit of `text` where that is not `unit`: 9920 g is shown as 9.92 kg."""
    workings: Workings | None = None

    @property
    def text_unit(self) -> str:
        """Return the unit that belongs behind `text`."""
        return self.shown_in or self.unit


Severity = Literal["stop", "hold", "caution", "note"]
"""stop: dangerous, no override; hold: gates a step; caution: look at it; note: good to know."""


class Repair(Shape, frozen=True, kw_only=True):
    """A way out that the person can take with one key: a verb, and the edit it makes."""

    label: str
    edit: Change | ChangeRecipe | PutLine | Several


class Caution(Shape, frozen=True, kw_only=True):
    """Something to know, beside what causes it."""

    key: str
    severity: Severity
    about: str
    """Id of the recipe line, key of the step, "must", "vessels" or "log:<entry id>"."""
    sentence: str
    detail: str = ""
    repairs: tuple[Repair, ...] = ()
    gates: str = ""
    """Key of the step that it holds, or empty."""


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

    key: Literal["gravity", "acidity", "strength", "nitrogen"]
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
    """After the fruit has given up its sugar (a day or two)."""
    brix: Figure
    sugar: Figure
    """Fermentable, g/L."""
    acidity: Figure
    nitrogen: Figure
    strength: Figure
    dry_gravity: Figure
    sulfite: Figure
    """Total SO2 added at crushing, mg/L."""
    sugar_to_target: Figure
    """White sugar to add (negative: too much) for the target, g."""
    acid_to_target: Figure
    """Tartaric acid to add for the target, g; negative: too sharp."""
    water_to_target: Figure
    """Water to add for the target gravity, L; negative: leave out."""
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
    headline: str
    """Like "19.6 L with the fruit"."""
    detail: str
    """Like "foam line 22 L · fits"."""


class ShoppingItem(Shape, frozen=True, kw_only=True):
    """One line of the shopping list: what the batch needs, less the stock, in whole packs."""

    name: str
    need: str
    """Like "9.00 kg (19 lb 13 oz)"."""
    what: str = ""
    """Name of its pantry entry."""
    unit: str = ""
    """Of the five amounts: "g", "L", or what is counted, such as "packet"."""
    needed: float = 0.0
    stock: float = 0.0
    buy: float = 0.0
    packs: int | None = None
    """Whole packs to buy; None where the shop weighs out any amount."""
    left: float = 0.0
    """What remains of stock and packs once the batch is made."""
    stock_text: str = ""
    buy_text: str = ""
    """Like "3 × 1 kg"; empty where nothing is to be bought."""
    left_text: str = ""
    price_of: str = ""
    """What the price is of: "a pack", "a kg", "a litre" or "each"."""
    cost: float | None = None
    """To spend in the shop, in the project's money; None without a price."""
    cost_used: float | None = None
    """The part of `cost` that goes into this wine."""
    stock_used: float | None = None
    """What the wine takes from the stock, at the same price."""
    cost_text: str = ""
    keeping: str = ""
    """How long it keeps once open, where that is known; else empty."""
    keeps_until: date | None = None
    """When an open pack has lost its strength, about; None where nothing is open."""
    notes: tuple[str, ...] = ()


class LaterDose(Shape, frozen=True, kw_only=True):
    """Something that goes in after the ferment; its amount follows what the wine reads by then."""

    name: str
    amount: str
    """Like "at most 1.7 g", "about 240 g"."""
    step: str
    """Key of the step that it is for."""
    when: str
    sentence: str


class Cost(Shape, frozen=True, kw_only=True):
    """What the shopping comes to and what the wine costs, in the project's money."""

    money: str
    to_spend: float | None
    """In the shop, whole packs and all; None where nothing has a price."""
    used: float | None
    """The part of `to_spend` that goes into this wine."""
    from_stock: float | None
    """What the wine takes from the stock, at the same prices."""
    a_bottle: float | None
    """(used + from_stock) / bottles; None where no bottle is filled."""
    sentence: str
    without_price: tuple[str, ...]
    """Names of what is not counted, for want of a price."""


class ReadingOutlook(Shape, frozen=True, kw_only=True):
    """A reading and what it means."""

    id: str
    at: datetime
    raw: str
    corrected: float | None
    """SG at 20 °C, or None where it is no gravity (refractometer in a ferment)."""
    half_width: float = 0.002
    temperature: str = ""
    sentence: str
    """Like "1.042 at 24 °C is 1.0429; 6 points down since yesterday"."""
    doubt: str = ""
    """What looks odd about it, to be asked; empty when nothing does."""


class CrossingOutlook(Shape, frozen=True, kw_only=True):
    """When the gravity passes a threshold."""

    below: float
    name: str
    earliest: datetime
    likely: datetime
    latest: datetime
    passed: bool
    sentence: str
    """Like "1.030 about Friday evening, between Thursday noon and Sunday · check Friday"."""


class ForecastOutlook(Shape, frozen=True, kw_only=True):
    """The gravity curve to come, with its band."""

    times: tuple[datetime, ...]
    low: tuple[float, ...]
    middle: tuple[float, ...]
    high: tuple[float, ...]
    crossings: tuple[CrossingOutlook, ...]
    not_finishing: float
    state: str
    sentence: str
    supported: bool
    """False until a reading after the pitch supports it: draw it hollow."""
    next_reading: datetime | None
    learned: str = ""
    """What the maker's own finished batches say, as a sentence; empty where none was learned from.
    """
    going_by: str = ""
    """The same in short, as `sentence` holds it; empty too where no date leans on it any more."""


StepState = Literal["done", "due", "held", "expected", "missed", "skipped", "later"]
"""due: may be done now and should be; held: a gate blocks it; expected: dated by the plan;
missed: its latest time has passed; skipped: not needed here; later: no honest date yet."""


class Condition(Shape, frozen=True, kw_only=True):
    """One thing that a step waits for."""

    text: str
    met: bool


class Moved(Shape, frozen=True, kw_only=True):
    """What the newest entry in the log did to a step's date; `was` may have passed already."""

    was: datetime
    now: datetime
    because: str
    sentence: str
    """Like "was Thursday without it · now Friday · because the last reading came in high"."""


class RecordField(Shape, frozen=True, kw_only=True):
    """One thing to write down when the step is done."""

    name: str
    label: str
    unit: str = ""


class NamedFigure(Shape, frozen=True, kw_only=True):
    """A worked-out figure that a step is about, under its name."""

    name: str
    figure: Figure


class StepOutlook(Shape, frozen=True, kw_only=True):
    """One step of the batch with its window, its gate and its reasons."""

    key: str
    name: str
    state: StepState
    override: Literal["free", "reason", "never"]
    """Whether it can be ticked now: freely, only with a typed reason, or not at all."""
    earliest: datetime | None = None
    likely: datetime | None = None
    latest: datetime | None = None
    done_at: datetime | None = None
    entry_ids: tuple[str, ...] = ()
    """Log entries that did it; several for a daily chore."""
    basis: Literal["done", "reading", "forecast", "clock", "none"] = "none"
    when: str
    """Like "likely Friday 9 October, evening"."""
    reason: str
    trigger: str
    conditions: tuple[Condition, ...] = ()
    moved: Moved | None = None
    reminder: str
    if_slips: tuple[str, ...] = ()
    """Like "1 day: fine", "3 days: air and browning"."""
    risk: str
    slip_class: Literal["fixed", "little", "later"]
    record: tuple[RecordField, ...] = ()
    figures: tuple[NamedFigure, ...] = ()
    """What was worked out for it, such as a dose."""
    repeats: bool = False
    repeat_times: tuple[datetime, ...] = ()
    """Coming times of a daily chore."""


class ClueOutlook(Shape, frozen=True, kw_only=True):
    """One thing that may explain a standstill, and what the log says of it."""

    key: str
    name: str
    """Like "Warmth"."""
    says: Literal["yes", "no", "not known"]
    """Whether the log points to it, speaks against it, or does not say: measure."""
    text: str
    step: str
    """Key of the step whose card shows it."""


class StuckOutlook(Shape, frozen=True, kw_only=True):
    """A ferment that stands still, or only drags, and why that may be."""

    state: Literal["stuck", "slow"]
    since: datetime
    sentence: str
    clues: tuple[ClueOutlook, ...]
    """In the order in which to look: doubts about the reading first, then causes."""


class TodayItem(Shape, frozen=True, kw_only=True):
    """Something for today's strip."""

    kind: Literal["do", "read", "held", "stop"]
    step: str
    title: str
    detail: str
    due: datetime | None = None
    late: bool = False


class BottleOutlook(Shape, frozen=True, kw_only=True):
    """What the batch will fill."""

    bottles: int
    corks: int
    finished: Figure
    """Wine left to bottle, L."""
    sentence: str
    cost: Cost | None = None
    """What shopping and wine come to; None where that was not asked for."""
    drink_from: Figure | None = None
    """Months after bottling: ready, and up to the style's best. None where not asked for."""


LabelFace = Literal["title", "plain", "small", "strong"]


class LabelLine(Shape, frozen=True, kw_only=True):
    """One line of a bottle's label."""

    words: str
    face: LabelFace
    keep: int
    """0 is never left out where the label is too small; larger numbers go first."""


class Outlook(Shape, frozen=True, kw_only=True):
    """All that is worked out of one project at one moment."""

    at: datetime
    name: str
    style: str
    make_text: str
    """Like "5 gal US"."""
    basis_text: str
    scale_factor: float
    must: Must
    lines: tuple[LineOutlook, ...]
    cautions: tuple[Caution, ...]
    """Every caution, those beside lines too; most severe first."""
    vessels: tuple[VesselOutlook, ...]
    bottles: BottleOutlook
    shopping: tuple[ShoppingItem, ...]
    later: tuple[LaterDose, ...] = ()
    """What goes in after the ferment, on top of the shopping."""
    readings: tuple[ReadingOutlook, ...]
    forecast: ForecastOutlook | None
    """None while it is worked out off the window's thread, and for a must without sugar."""
    steps: tuple[StepOutlook, ...]
    today: tuple[TodayItem, ...]
    strength_now: Figure
    safety: tuple[str, ...]
    """Standing reminders for the foot of the window."""
    label: tuple[LabelLine, ...] = ()
    """What a bottle's label says, from top to bottom."""
    stuck: StuckOutlook | None = None
    """None while the gravity falls as it should, or has reached its end."""
