"""A card that was read, as a project or as an edit of one."""

from __future__ import annotations

from datetime import datetime

from winebench.catalog.never_food import never_food_in
from winebench.catalog.poisons import poisons_in
from winebench.model.edits import (
    Change,
    ChangeRecipe,
    Edit,
    PutEntry,
    PutLine,
    Several,
    changed,
    new_id,
)
from winebench.model.log import Note
from winebench.model.project import Project
from winebench.model.recipe import Line, Make, Recipe, Targets, WaterLine
from winebench.plan.cautions.poisons import poison_words
from winebench.plan.figures import with_country
from winebench.plan.handed_down.shapes import CardReading
from winebench.plan.handed_down.style import usual_style
from winebench.plan.typed.not_in_wine import never_food_words
from winebench.plan.work_out import recipe_outlook
from winebench.units import GallonCountry, Size, Volume

_LEAST_L = 0.1
THICKEST_SG = 1.15
"""Lines without water that read more are no must yet: their water is lacking (common practice)."""
LABEL = "read a recipe card"
_USUAL: dict[GallonCountry | None, str] = {
    "US": "1 gal US", "imperial": "1 gal imperial", None: "4.5 L",
}  # fmt: skip


def card_project(reading: CardReading) -> Project:
    """Return the project that the card alone makes, to be judged; open rows are left out."""
    return _project_of(reading, card_basis(reading) or usual_basis(reading))


def usual_basis(reading: CardReading) -> Volume:
    """Return the volume that is taken where the card gives no hint: a gallon of its country."""
    return Volume(_USUAL[reading.gallon])


def card_basis(reading: CardReading) -> Volume | None:
    """Return the volume that the card is for: as stated, else what lines without water to the
    mark make; None where it gives neither.
    """
    if reading.basis is not None:
        return reading.basis
    lines = card_lines(reading)
    if reading.is_open or any(
        isinstance(line, WaterLine) and line.amount is None for line in lines
    ):
        return None
    try:
        must = recipe_outlook(_project_of(reading, usual_basis(reading))).must
    except (ValueError, ArithmeticError):
        return None
    litres, sg = must.liquid.value, must.gravity.value
    poured = any(isinstance(line, WaterLine) for line in lines)
    if not litres or litres < _LEAST_L or (not poured and (sg is None or sg > THICKEST_SG)):
        return None
    return Volume(f"{litres:.1f} L")


def _project_of(reading: CardReading, basis: Volume) -> Project:
    lines = card_lines(reading)
    style = usual_style(lines)
    return Project(
        id="card",
        name=reading.title or "Card",
        gallon=reading.gallon,
        recipe=Recipe(style=style, basis=basis, lines=lines, targets=card_targets(reading)),
        make=Make(size=Size(basis.text)),
    )


def card_lines(reading: CardReading) -> tuple[Line, ...]:
    """Return the card's lines in its order, without those that are open."""
    return tuple(row.line for row in reading.rows if row.line is not None and not row.is_open)


def card_targets(reading: CardReading, onto: Targets | None = None) -> Targets:
    """Return the targets that the card states, over those of a recipe that is there."""
    targets = onto or Targets()
    for row in reading.rows:
        if row.field is not None and not row.is_open:
            targets = changed(targets, **row.field.targets)
    return targets


def card_note(reading: CardReading, *, with_title: bool) -> str:
    """Return the card's method, and what was left unread, in its own words; or "".

    Behind what must never go in stands why, so that nobody reads it as an order.
    """
    kept = ("method", "title") if with_title else ("method",)
    method = [_with_refusal(row.item.words) for row in reading.rows if row.kind in kept]
    unread = [f"? {_with_refusal(row.item.words)}" for row in reading.rows if row.is_open]
    return "\n".join([*method, *unread])


def _with_refusal(words: str) -> str:
    found = never_food_in(words)
    why = [poison_words(poison) for poison in poisons_in(words)]
    why += [never_food_words(found)] if found is not None else []
    return f"{words} ({' '.join(why)})" if why else words


def card_edit(reading: CardReading, project: Project, at: datetime) -> Several:
    """Return the one edit that puts the card into the project.

    A recipe without lines becomes the card's: its name, volume and size too. To one with lines
    the card's lines and targets are added. Method, and what is open still, become a note at
    `at`. A bare gallon keeps the card's country where the project means the other.
    """
    fresh = not project.recipe.lines
    edits: list[Edit] = []
    gallon = project.gallon or reading.gallon
    fields: dict[str, object] = {"targets": card_targets(reading, project.recipe.targets)}
    if project.gallon is None and gallon is not None:
        edits.append(Change(label=LABEL, fields={"gallon": gallon}))
    if fresh and reading.title:
        edits.append(Change(label=LABEL, fields={"name": reading.title}))
    basis = card_basis(reading) or usual_basis(reading)
    if gallon != reading.gallon:
        basis = Volume(with_country(basis, reading.gallon))
    if fresh:
        fields["basis"] = basis
        if project.recipe.style == Recipe().style:  # else it was chosen
            fields["style"] = usual_style(card_lines(reading))
        size = Size(basis.text)
        edits.append(Change(label=LABEL, fields={"make": changed(project.make, size=size)}))
    edits.append(ChangeRecipe(label=LABEL, fields=fields))
    lines = [changed(line, id=new_id()) for line in card_lines(reading)]
    if gallon != reading.gallon:
        lines = [_of_its_country(line, reading.gallon) for line in lines]
    edits += [PutLine(label=LABEL, line=line) for line in lines]
    note = card_note(reading, with_title=not fresh)
    if note:
        entry = Note(id=new_id(), at=at, text=note)
        edits.append(PutEntry(label=LABEL, entry=entry))
    return Several(label=LABEL, edits=tuple(edits))


def _of_its_country(line: Line, country: GallonCountry | None) -> Line:
    """Return the line with the card's country beside a bare gallon."""
    amount = line.amount
    if amount is None or not amount.needs_country:
        return line
    return changed(line, amount=type(amount)(with_country(amount, country)))
