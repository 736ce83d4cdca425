"""The recipe as written: fruit, sugar, water and the rest, each amount as typed."""

from __future__ import annotations

from typing import Literal

from winebench.model.part import Part
from winebench.units import Amount, Gravity, Juice, Size, Temperature, Volume

FruitForm = Literal["fresh", "frozen", "puree", "juice", "dried", "canned"]
AdditiveKind = Literal[
    "acid", "tannin", "enzyme", "nutrient", "sulfite", "sorbate", "fining", "other"
]


class Measured(Part, frozen=True, kw_only=True):
    """What the maker measured on their own fruit; replaces the table's figure."""

    juice: Juice | None = None
    """Gravity of the strained juice, SG or °Brix; of a concentrate, as its label has it."""
    acid_g_per_l: float | None = None
    """Titratable acidity of the juice, g/L as tartaric."""
    ph: float | None = None
    liquid_percent: float | None = None
    """Juice that the fruit gives, % of its mass."""
    tannin_mg_per_100_g: float | None = None
    """Condensed tannin of the fruit as weighed, mg in 100 g, as publications put it: a figure of
    its sort, which stays when the fruit is another year's."""

    @property
    def is_of_this_fruit(self) -> bool:
        """Return whether anything was measured on the fruit itself."""
        own = (self.juice, self.acid_g_per_l, self.ph, self.liquid_percent)
        return any(figure is not None for figure in own)


class LinePart(Part, frozen=True, kw_only=True):
    """What all recipe lines share: a name for undo and repairs, unique in the project."""

    id: str
    note: str = ""


class FruitLine(LinePart, frozen=True, kw_only=True, tag_field="kind", tag="fruit"):
    """Some fruit in one form."""

    fruit: str
    """Catalog key, or the maker's own name for a fruit that the catalog lacks."""
    amount: Amount
    form: FruitForm = "fresh"
    prepared: bool = False
    """Weighed after stoning, peeling or taking off the stalk: nothing more is thrown away."""
    measured: Measured = Measured()


class SugarLine(LinePart, frozen=True, kw_only=True, tag_field="kind", tag="sugar"):
    """Sugar, honey or syrup."""

    sugar: str
    amount: Amount
    solids_percent: float | None = None
    """Sugar by mass as a syrup's label states it, %."""
    when: Literal["start", "feed"] = "start"


class WaterLine(LinePart, frozen=True, kw_only=True, tag_field="kind", tag="water"):
    """Water; without an amount it fills to the recipe's volume ("to the mark")."""

    amount: Volume | None = None


class AdditiveLine(LinePart, frozen=True, kw_only=True, tag_field="kind", tag="additive"):
    """Acid, tannin, enzyme, nutrient, sulfite and the like."""

    additive: str
    amount: Amount


class YeastLine(LinePart, frozen=True, kw_only=True, tag_field="kind", tag="yeast"):
    """Yeast by its packet's own numbers."""

    amount: Amount
    packet_g: float = 5.0
    tolerance_percent: float = 14.0
    """Strength that the packet says it stands, % vol."""
    coolest: Temperature = Temperature("15 °C")
    warmest: Temperature = Temperature("25 °C")
    packet_litres: float = 23.0
    """Most must that the packet says one serves, L."""


Line = FruitLine | SugarLine | WaterLine | AdditiveLine | YeastLine


class Targets(Part, frozen=True, kw_only=True):
    """What the maker wants; None leaves the style's own figure."""

    gravity_low: Gravity | None = None
    gravity_high: Gravity | None = None
    strength_percent: float | None = None
    """Wanted strength, % vol; used when no gravity is given."""
    acid_low_g_per_l: float | None = None
    acid_high_g_per_l: float | None = None
    """Wanted titratable acidity, g/L as tartaric."""
    tannin_low_g_per_l: float | None = None
    tannin_high_g_per_l: float | None = None
    """Wanted tannin in the wine, g/L."""
    drink_months: float | None = None
    """From when it is wanted to be ready to drink, months after bottling."""
    final_gravity: Gravity | None = None
    """Final sweetness as the gravity at bottling; None means dry."""


class Recipe(Part, frozen=True, kw_only=True):
    """A recipe as written for its own must volume."""

    style: str = "dark-dry"
    basis: Volume = Volume("1 gal US")
    targets: Targets = Targets()
    lines: tuple[Line, ...] = ()


class Vessel(Part, frozen=True, kw_only=True):
    """A pail or jug on the shelf."""

    id: str
    name: str
    role: Literal["primary", "secondary"]
    holds: Volume
    glass: bool = False


class Make(Part, frozen=True, kw_only=True):
    """How much to make of the recipe, and in what."""

    size: Size = Size("1 gal US")
    asked: str = ""
    """What the size was worked out from, as typed: "fill 19 L jug"; empty where it was typed
    itself."""
    by: Literal["must", "finished", "bottles"] = "must"
    bottle_ml: float = 750.0
    vessels: tuple[Vessel, ...] = ()


MOST_OF_A_KIND = 99


class Owned(Part, frozen=True, kw_only=True):
    """A kind of vessel that the household owns, and how many of it."""

    holds: Volume
    name: str
    role: Literal["primary", "secondary"]
    glass: bool = False
    count: int = 1


class SpoonWeight(Part, frozen=True, kw_only=True):
    """One level teaspoon of a powder, weighed once by the maker."""

    additive: str
    grams_per_teaspoon: float


class Kitchen(Part, frozen=True, kw_only=True):
    """What the maker measures with."""

    by: Literal["spoon", "scale"] = "spoon"
    smallest_teaspoon: float = 0.125
    """Smallest measuring spoon owned, as a share of a teaspoon; for `spoons_owned` left empty."""
    spoons_owned: tuple[float, ...] = ()
    """Measuring spoons owned, in teaspoons: a tablespoon is 3. One alone is the smallest."""
    scale_step_g: float = 1.0
    """Smallest step of the kitchen scale, g."""
    spoons: tuple[SpoonWeight, ...] = ()
    tablet_g: float = 0.44
    """Mass of one sulfite tablet, g; the label says."""
    shelf: tuple[Owned, ...] = ()
    """Pails and jugs to choose from."""


class Hydrometer(Part, frozen=True, kw_only=True):
    """The instrument the readings are taken with."""

    calibrated: Temperature = Temperature("20 °C")
    adds: float = 0.0
    """What the scale reads too high in water at its own temperature, SG."""
