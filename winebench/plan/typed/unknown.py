"""A line whose thing the catalog does not know: the person says what it is."""

from __future__ import annotations

from typing import Literal, NamedTuple

from winebench.model.edits import new_id
from winebench.model.recipe import AdditiveLine, FruitForm, FruitLine, SugarLine
from winebench.plan.typed.own_figures import NONE, OwnFigures
from winebench.units import Amount


class Unknown(NamedTuple):
    """What was typed, and the line that it becomes as each kind of thing."""

    amount: Amount
    name: str
    form: FruitForm
    prepared: bool
    note: str = ""
    own: OwnFigures = NONE
    when: Literal["start", "feed"] = "start"
    """When it goes in, where it is a sugar."""

    def as_fruit(self) -> FruitLine:
        """Return it as a fruit of the maker's own."""
        return FruitLine(
            id=new_id(),
            fruit=self.name,
            amount=self.amount,
            form=self.form,
            prepared=self.prepared,
            measured=self.own.measured,
            note=self.note,
        )

    def as_additive(self) -> AdditiveLine:
        """Return it as an additive of the maker's own."""
        return AdditiveLine(id=new_id(), additive=self.name, amount=self.amount, note=self.note)

    def as_sugar(self) -> SugarLine:
        """Return it as a sugar or syrup of the maker's own."""
        return SugarLine(
            id=new_id(),
            sugar=self.name,
            amount=self.amount,
            solids_percent=self.own.solids_percent,
            when=self.when,
            note=self.note,
        )
