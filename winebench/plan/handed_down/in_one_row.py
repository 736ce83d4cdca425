"""Several lines of a recipe in one row: "3 lb plums, 2 lb sugar, water to 1 gal"."""

from __future__ import annotations

from winebench.model.edits import Change, ChangeRecipe, Edit, PutLine, Several, changed, new_id
from winebench.model.project import Project
from winebench.model.recipe import WaterLine
from winebench.plan.figures import with_country
from winebench.plan.handed_down.into_project import card_lines, card_targets
from winebench.plan.handed_down.per_volume import split_off_per
from winebench.plan.handed_down.read_card import read_card
from winebench.plan.handed_down.shapes import CardReading, Row
from winebench.plan.typed.lines import typed_line
from winebench.plan.typed.offers import known
from winebench.plan.typed.unknown import Unknown
from winebench.units import GallonCountry, Size, UnitsError, Volume

LABEL = "add lines"


def lines_in_row(text: str, gallon: GallonCountry | None) -> CardReading | None:
    """Return how a row is read that holds more than one line or says how far the water goes.

    None where it is one line, or none at all: that is read by `typed_line`.
    """
    reading = read_card(text, gallon=gallon)
    told = sum(row.kind in ("line", "field") for row in reading.rows)
    water = told == 1 and len(reading.rows) == 1 and _mark(reading) is not None
    return reading if told > 1 or (told and len(reading.rows) > 1) or water else None


def is_whole(text: str, gallon: GallonCountry | None) -> bool:
    """Return whether the row can be added as it stands, nothing being asked first."""
    several = lines_in_row(text, gallon)
    if several is not None:
        return not asked_of_row(several)
    try:
        return not isinstance(typed_line(text, known()).line, Unknown)
    except UnitsError:
        return False


def asked_of_row(reading: CardReading) -> str:
    """Return what has to be told before the row's lines can be added; "" where nothing has."""
    if reading.asks_gallon and reading.gallon is None:
        return "Whose gallon is it, US or imperial?"
    question = next((row for row in reading.rows if row.is_open), None)
    if question is not None:
        said = " ".join(remark.sentence for remark in question.remarks)
        return said or f'"{question.item.words}" cannot be read.'
    method = next((row for row in reading.rows if row.kind not in ("line", "field")), None)
    if method is not None:
        return f'"{method.item.words}" is no ingredient.'
    by = next((row for row in reading.rows if split_off_per(row.item.words)[1]), None)
    return f'"{by.item.words}" is for each gallon or litre.' if by else ""


def row_edit(reading: CardReading, project: Project) -> tuple[Several, str]:
    """Return the one edit that adds what the row holds, and what is to be said of it.

    "Water to 3 gal" says how much the recipe is written for. So much is made then too, where as
    much was to be made as the recipe was for.
    """
    targets = card_targets(reading, project.recipe.targets)
    edits: list[Edit] = []
    if targets != project.recipe.targets:
        edits.append(ChangeRecipe(label=LABEL, fields={"targets": targets}))
    filled, said = _filled(project, _mark(reading))
    edits += filled
    has_mark = any(isinstance(w, WaterLine) and not w.amount for w in project.recipe.lines)
    for line in card_lines(reading):
        if not (has_mark and isinstance(line, WaterLine) and line.amount is None):
            edits.append(PutLine(label=LABEL, line=changed(line, id=new_id())))
    remarks = [remark.sentence for row in reading.rows for remark in row.remarks]
    return Several(label=LABEL, edits=tuple(edits)), " ".join(filter(None, (*remarks, said)))


def _mark(reading: CardReading) -> Volume | None:
    """Return the volume that the row itself states for the whole."""
    return next((row.field.basis for row in reading.rows if row.field and _of_whole(row)), None)


def _of_whole(row: Row) -> bool:
    return row.field is not None and row.field.basis is not None and not row.item.per


def _filled(project: Project, mark: Volume | None) -> tuple[list[Edit], str]:
    """Return the edits that write the recipe for that volume, and the sentence about it."""
    if mark is None:
        return [], ""
    gallon, old, make = project.gallon, project.recipe.basis, project.make
    litres, before = mark.litres(gallon), old.litres(gallon)
    if abs(litres / before - 1.0) < 1e-6:
        return [], ""
    edits: list[Edit] = [ChangeRecipe(label=LABEL, fields={"basis": mark})]
    said = f"The recipe is for {with_country(mark, gallon)} now, not {with_country(old, gallon)}"
    size = make.size
    if size.dimension == "volume" and abs(size.litres(gallon) / before - 1.0) < 1e-6:
        fields = {"make": changed(make, size=Size(mark.text))}
        edits.append(Change(label=LABEL, fields=fields))
        return edits, f"{said}, and so much is made."
    return edits, f"{said}; {with_country(size, gallon)} is made of it as before."
