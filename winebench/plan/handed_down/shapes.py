"""What reading a card gives: one row for each item of its text."""

from __future__ import annotations

from typing import Any, Literal

from winebench.model.recipe import Line
from winebench.plan.handed_down.marks import unmarked
from winebench.plan.outlook import Shape
from winebench.plan.typed.remarks import Remark
from winebench.units import GallonCountry, Volume

Hint = Literal["any", "heading", "method"]
Kind = Literal["line", "field", "title", "heading", "method", "question"]
State = Literal["read", "look", "asked", "wrong"]
"""read: as it says; look: read, with something to look at; asked: the person has to say;
wrong: it cannot be true."""
Answer = Literal["fruit", "sugar", "additive", "note"]
ANSWERS: tuple[Answer, ...] = ("fruit", "sugar", "additive", "note")
FieldName = Literal["basis", "gravity", "final gravity", "acidity", "strength"]


class Item(Shape, frozen=True):
    """A stretch of the card's text: one ingredient, one figure, or a line of words."""

    text: str
    start: int
    end: int
    """Where it stands in the card: text[start:end]."""
    hint: Hint = "any"
    per: str = ""
    """The heading that its amounts are by, such as "per gallon"; of the heading itself too."""
    fed: bool = False
    """Whether it stands under a heading of what is fed later."""
    ends: bool = False
    """Whether it stands under a heading of what the finished wine gets: "At bottling"."""
    behind: str = ""
    """The fruit in front of it on its line, where the figure that it states may be the fruit's."""

    each: str = ""
    """The amount that stands beside another item and is of this one too: "1 tsp each"."""

    @property
    def words(self) -> str:
        """Return its text without marks of emphasis and tables, behind an amount it shares."""
        plain = unmarked(self.text)
        return f"{self.each} {plain}" if self.each else plain


class Field(Shape, frozen=True):
    """A figure of the recipe as a whole."""

    name: FieldName
    basis: Volume | None = None
    targets: dict[str, Any] = {}
    """Fields of the recipe's targets."""


class Row(Shape, frozen=True):
    """How one item is read."""

    item: Item
    kind: Kind
    state: State
    read_as: str
    """In the program's words: "Plums, 3 lb"."""
    remarks: tuple[Remark, ...] = ()
    line: Line | None = None
    field: Field | None = None
    asks: str = ""
    """What an answer is filed under; empty where none is wanted."""
    options: tuple[Answer, ...] = ()
    """Which answers fit."""
    answer: Answer | None = None
    name: str = ""
    """Of a title that says how much it makes: the name without that."""

    @property
    def is_open(self) -> bool:
        """Return whether the person has to settle it before it can become a recipe."""
        return self.state in ("asked", "wrong")


class CardReading(Shape, frozen=True):
    """A whole card as read."""

    text: str
    rows: tuple[Row, ...] = ()
    remarks: tuple[Remark, ...] = ()
    """About the card as a whole."""
    gallon: GallonCountry | None = None
    """Whose gallon the card means: as told, or as the card itself gives away."""
    asks_gallon: bool = False
    """Whether the card has bare gallons (pints, cups ...): whose they are has to be told."""

    @property
    def is_open(self) -> bool:
        """Return whether anything has to be settled first."""
        return any(row.is_open for row in self.rows) or (self.asks_gallon and self.gallon is None)

    @property
    def title(self) -> str:
        """Return the card's title without how much it makes, or ""."""
        return next((row.name or row.item.words for row in self.rows if row.kind == "title"), "")

    @property
    def basis(self) -> Volume | None:
        """Return the volume that the card is for, or None where it does not say."""
        fields = (row.field for row in self.rows if row.field and not row.is_open)
        return next((field.basis for field in fields if field.basis is not None), None)

    def field(self, name: FieldName) -> Row | None:
        """Return the row that states that figure, or None."""
        rows = (row for row in self.rows if row.field and not row.is_open)
        return next((row for row in rows if row.field and row.field.name == name), None)
