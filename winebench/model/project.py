"""A whole project: the value behind the window, and the project file, no more, no less."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from typing import Literal

from winebench.model.in_order import in_order
from winebench.model.log import Action, Away, Entry, Note, Reading
from winebench.model.own_ferment import OwnFerment
from winebench.model.own_loss import OwnLosses
from winebench.model.part import Part
from winebench.model.recipe import FruitLine, Hydrometer, Kitchen, Line, Make, Recipe
from winebench.model.stock import PantryItem
from winebench.units import Amount, GallonCountry, Temperature


class Label(Part, frozen=True, kw_only=True):
    """What the bottle label says beyond what the project knows."""

    title: str = ""
    """Empty means the project's name."""
    lines: tuple[str, ...] = ()
    sheet: str = "a4-21"
    """Key of the label sheet."""
    show_strength: bool = True


class Draft(Part, frozen=True, kw_only=True):
    """Text in a field that cannot be read yet: kept, so that no keystroke is lost."""

    place: str
    text: str


class Project(Part, frozen=True, kw_only=True):
    """Everything a person typed, chose or logged about one batch."""

    id: str
    name: str
    gallon: GallonCountry | None = None
    """Whose gallon a bare "gal" is; None where the maker has not said."""
    paper: Literal["A4", "Letter"] = "A4"
    start: datetime | None = None
    """When the must is (to be) made up; None plans from now."""
    recipe: Recipe = Recipe()
    make: Make = Make()
    kitchen: Kitchen = Kitchen()
    hydrometer: Hydrometer = Hydrometer()
    room: Temperature = Temperature("20 °C")
    log: tuple[Entry, ...] = ()
    away: tuple[Away, ...] = ()
    weekends: bool = False
    """Whether steps that may wait are put on a Saturday or Sunday."""
    pantry: tuple[PantryItem, ...] = ()
    money: str = ""
    """What prices are in, as the maker writes it; empty shows bare numbers."""
    own_ferments: tuple[OwnFerment, ...] = ()
    """Finished batches that this one's forecast learns from."""
    own_losses: tuple[OwnLosses, ...] = ()
    """Finished batches whose rackings tell what this one's will cost."""
    reminders: bool = True
    label: Label = Label()
    drafts: tuple[Draft, ...] = ()

    @property
    def readings(self) -> tuple[Reading, ...]:
        """Return the readings in order of time."""
        return in_order(self.log).readings

    @property
    def actions(self) -> tuple[Action, ...]:
        """Return the actions in order of time."""
        return in_order(self.log).actions

    @property
    def notes(self) -> tuple[Note, ...]:
        """Return the notes in order of time."""
        return in_order(self.log).notes

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Return the log in order of time; entries of one time stay as logged."""
        return in_order(self.log).entries

    @property
    def fruits(self) -> tuple[FruitLine, ...]:
        """Return the recipe's fruit lines."""
        return tuple(line for line in self.recipe.lines if isinstance(line, FruitLine))

    def done(self, step: str) -> Action | None:
        """Return the latest action of that step, or None."""
        return next((a for a in reversed(self.actions) if a.step == step), None)

    def line(self, line_id: str) -> Line | None:
        """Return the recipe line of that id, or None."""
        return next((line for line in self.recipe.lines if line.id == line_id), None)

    def countryless(self) -> Iterator[tuple[str, Amount]]:
        """Give place and amount of each bare gallon (pint, cup ...) that nobody settled."""
        if self.gallon is not None:
            return
        amounts: list[tuple[str, Amount | None]] = [
            ("recipe.basis", self.recipe.basis),
            ("make.size", self.make.size),
        ]
        for index, line in enumerate(self.recipe.lines):
            amounts.append((f"recipe.lines[{index}].amount", line.amount))
        for index, vessel in enumerate(self.make.vessels):
            amounts.append((f"make.vessels[{index}].holds", vessel.holds))
        for index, owned in enumerate(self.kitchen.shelf):
            amounts.append((f"kitchen.shelf[{index}].holds", owned.holds))
        for place, amount in amounts:
            if amount is not None and amount.needs_country:
                yield place, amount
