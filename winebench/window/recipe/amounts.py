"""How the amount of each kind of line is read and put back."""

from __future__ import annotations

from collections.abc import Callable

from winebench.model.edits import PutLine, changed
from winebench.model.recipe import Line, WaterLine
from winebench.plan.lines import TO_THE_MARK
from winebench.units import Amount, GallonCountry, UnitsError, Volume
from winebench.window.parts.field import Binding


def amount_binding(
    line: Line, current: Callable[[], Line | None], gallon: Callable[[], GallonCountry | None]
) -> Binding[Amount | None]:
    """Return how the amount of the line is read; `current` gives the line as it is now."""
    place = f"line:{line.id}:amount"
    label = f"change how much {_word(line)}"

    def read(text: str) -> Amount | None:
        if isinstance(line, WaterLine) and text.strip().lower() == TO_THE_MARK:
            return None
        amount = Volume(text) if isinstance(line, WaterLine) else Amount(text)
        if amount.dimension == "volume":
            amount.litres(gallon())  # a bare gallon of no known country is refused here
        if _is_nothing(amount):
            raise UnitsError(f'"{text.strip()}" is nothing; take the line out with Ctrl+Delete.')
        return amount

    def edit(value: Amount | None) -> PutLine:
        now = current() or line
        return PutLine(label=label, line=changed(now, amount=value))

    return Binding(place, label, read, edit, empty=isinstance(line, WaterLine))


def _is_nothing(amount: Amount) -> bool:
    return all(part.number == 0 for part in amount.parts)


def _word(line: Line) -> str:
    kind = str(line.__struct_config__.tag)
    return str(getattr(line, kind, kind))


def amount_text(line: Line) -> str:
    """Return the amount as typed; nothing for water to the mark."""
    return "" if line.amount is None else line.amount.text
