"""How much to make, from a recipe written for how much, and in which vessels."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from winebench.model.edits import Change, ChangeRecipe, changed
from winebench.model.project import Project
from winebench.model.recipe import Make, Vessel
from winebench.plan.choose import choose, choose_edit, size_to_fill
from winebench.plan.customary import size_of
from winebench.plan.outlook import Outlook
from winebench.plan.scale import fruit_on_hand, size_for_fruit, size_typed
from winebench.plan.typed.vessels import read_vessels, vessels_example, vessels_text
from winebench.units import Size, UnitsError, Volume
from winebench.window.parts.choice import Choice
from winebench.window.parts.field import Binding, Field
from winebench.window.parts.sunken import Sunken
from winebench.window.parts.words import button, label
from winebench.window.recipe.row import draft

_BY = (("must", "must"), ("finished", "wine"), ("bottles", "bottles"))
SIZE, BASIS, VESSELS = "make:size", "recipe:basis", "make:vessels"


class MakeRow(Sunken):
    """Three fields and a choice; each edits as it is typed in."""

    edit_wanted = Signal(object)

    def __init__(self, project: Project, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project = project
        self._outlook: Outlook | None = None
        self._vessels_before = project.make.vessels
        """As they were when the typing began: a half-typed list must not lose who is who."""
        self._vessels_typed: tuple[str, tuple[Vessel, ...]] = ("", ())
        """The text last read and what it meant; it stays as typed while they are these."""
        self.size_field = Field(
            "How much to make, such as 5 gal, 24 bottles, 9 lb of fruit, or fill 5 gal jug"
        )
        self.by = Choice("Counted as must, as finished wine, or in bottles", _BY)
        self.basis = Field("Volume that the recipe is written for")
        self.vessels = Field("Vessels")
        self.choose = button(
            "From the shelf", "Choose vessels from the shelf", self.choose_from_shelf, "quiet"
        )
        self.refusal = label(wraps=True, small=True)
        self.said = label(role="muted", wraps=True, small=True)
        """What choosing from the shelf came to, until something that matters to it is changed."""
        self._said_of: Project | None = None
        self._bind()
        self._arrange()

    def _bind(self) -> None:
        self.size_field.bind(Binding(SIZE, "change how much to make", self._size, self._put_size))
        self.basis.bind(Binding(BASIS, "change the recipe's volume", self._volume, self._put_basis))
        self.vessels.bind(
            Binding(VESSELS, "change the vessels", self._vessels, self._put_vessels, empty=True)
        )
        for field in (self.size_field, self.basis, self.vessels):
            field.edit_wanted.connect(self.edit_wanted)
            field.refused.connect(self._show_refusal)
            field.setMinimumHeight(28)
        self.by.setMinimumHeight(28)
        self.by.chosen.connect(self._choose_by)

    def _arrange(self) -> None:
        self.size_field.setMinimumWidth(86)
        self.size_field.setMaximumWidth(124)  # "fill 5 gal jug", where there is room
        self.by.setFixedWidth(78)
        self.basis.setMinimumWidth(72)
        self.basis.setMaximumWidth(108)  # "1.436 gal US", where there is room
        size, kept = QHBoxLayout(), QHBoxLayout()
        for row in (size, kept):
            row.setSpacing(6)
        for row, words, role, widget in (
            (size, "Make", "strong", self.size_field),
            (size, "", "", self.by),
            (size, "of a recipe for", "muted", self.basis),
            (kept, "in", "muted", self.vessels),
        ):
            if words:
                caption = label(words, role)
                caption.setBuddy(widget)
                row.addWidget(caption)
            row.addWidget(widget, 1 if isinstance(widget, Field) else 0)
        size.addStretch(0)
        kept.addWidget(self.choose)
        self.choose.setToolTip("Choose vessels from the shelf in the kitchen's sheet (Ctrl+K)")
        self.refusal.hide()
        self.said.hide()
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 6, 8, 6)
        column.setSpacing(2)
        column.addLayout(size)
        column.addLayout(kept)
        column.addWidget(self.refusal)
        column.addWidget(self.said)
        self.basis.setToolTip("The volume that the recipe is written for")

    def show_outlook(self, project: Project, outlook: Outlook) -> None:
        """Show what is to be made as it is now."""
        self._project, self._outlook = project, outlook
        if self._said_of is not None and _bears_on_vessels(self._said_of, project):
            self._say("")
        if not self.vessels.hasFocus():
            self._vessels_before = project.make.vessels
        self.size_field.show_text(self._size_text(project.make), draft(project, SIZE))
        self.by.show_key(project.make.by)
        self.basis.show_text(project.recipe.basis.text, draft(project, BASIS))
        example = vessels_example(project)
        self.vessels.setPlaceholderText(example)
        self.vessels.setToolTip(f"Vessels, such as {example}")
        vessels = project.make.vessels
        as_typed = (self.vessels.text(), vessels) == self._vessels_typed
        text = self.vessels.text() if as_typed else vessels_text(vessels)
        self.vessels.show_text(text, draft(project, VESSELS))

    def _size(self, text: str) -> Size:
        fruit = fruit_on_hand(text)
        if fruit is not None:  # as much as that fruit allows
            return size_for_fruit(self._project, fruit)
        filling = size_to_fill(self._project, text)
        if filling is not None:  # as much as that vessel holds
            return filling
        return size_typed(self._project, text)

    def _size_text(self, make: Make) -> str:
        """Return the size in the words that it was asked for in, while they still mean it."""
        try:
            return (
                make.asked
                if make.asked and self._size(make.asked) == make.size
                else (make.size.text)
            )
        except UnitsError:
            return make.size.text

    def _volume(self, text: str) -> Volume:
        volume = Volume(text)
        if volume.litres(self._project.gallon) <= 0.0:
            raise UnitsError(f'"{text.strip()}" is nothing; write more than that.')
        return volume

    def _vessels(self, text: str) -> tuple[Vessel, ...]:
        return read_vessels(text, self._vessels_before, self._project.gallon)

    def _make(self, label_: str, **fields: Any) -> Change:
        return Change(label=label_, fields={"make": changed(self._project.make, **fields)})

    def _put_size(self, size: Size | None) -> Change:
        assert size is not None
        by, typed = self._project.make.by, self.size_field.text().strip()
        asked = "" if _is_size(typed) else typed
        if size.dimension == "count":
            by = "bottles"
        elif by == "bottles" or asked:  # worked out as must
            by = "must"
        return self._make("change how much to make", size=size, by=by, asked=asked)

    def _put_basis(self, basis: Volume | None) -> ChangeRecipe:
        return ChangeRecipe(label="change the recipe's volume", fields={"basis": basis})

    def _put_vessels(self, vessels: tuple[Vessel, ...] | None) -> Change:
        self._vessels_typed = (self.vessels.text(), vessels or ())
        return self._make("change the vessels", vessels=vessels or ())

    def _choose_by(self, by: str) -> None:
        """Count the size anew: bottles and volume are each put into the other's words."""
        size, outlook = self._project.make.size, self._outlook
        if outlook is not None and by == "bottles" and size.dimension == "volume":
            size = Size(f"{max(outlook.bottles.bottles, 1)} bottles")
        elif outlook is not None and by != "bottles" and size.dimension == "count":
            figure = outlook.bottles.finished if by == "finished" else outlook.must.liquid
            size = size_of(figure.value or 4.5, self._project)
        self.edit_wanted.emit(self._make("change what is counted", size=size, by=by))

    def choose_from_shelf(self) -> None:
        """Put the batch into the vessels of the shelf that suit it, or say why none does."""
        try:
            chosen = choose(self._project)
        except UnitsError as problem:
            self._say(str(problem))
            return
        edit = choose_edit(self._project, chosen)
        self.edit_wanted.emit(edit)
        self._say(" ".join(chosen.sentences))

    def _say(self, words: str) -> None:
        self._said_of = self._project if words else None
        self.said.setText(words)
        self.said.setVisible(bool(words))

    def _show_refusal(self, _sentence: str) -> None:
        fields = (self.size_field, self.basis, self.vessels)
        refusals = [field.refusal for field in fields if field.refusal]
        self.refusal.setText("\n".join(refusals))
        self.refusal.setVisible(bool(refusals))


def _is_size(text: str) -> bool:
    try:
        return bool(Size(text))
    except UnitsError:
        return False


def _bears_on_vessels(before: Project, now: Project) -> bool:
    """Return whether anything was changed that vessels are chosen by, or the vessels."""
    parts = ("make", "recipe", "kitchen", "own_losses", "log", "gallon")
    return any(getattr(before, part) != getattr(now, part) for part in parts)
