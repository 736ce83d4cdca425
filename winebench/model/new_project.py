"""An empty project, in the measures of its kitchen."""

from __future__ import annotations

from winebench.model.edits import changed, new_id
from winebench.model.project import Project
from winebench.model.recipe import Make, Recipe
from winebench.units import GallonCountry, Size, Temperature, Volume


def new_project(gallon: GallonCountry | None, name: str = "New batch") -> Project:
    """Return an empty project of one gallon, or of 5 L where a kitchen means no gallon.

    Where the gallon is the US one, paper is Letter and the room is in Fahrenheit.
    """
    one = f"1 gal {gallon}" if gallon else "5 L"
    return Project(
        id=new_id(),
        name=name,
        gallon=gallon,
        paper="Letter" if gallon == "US" else "A4",
        recipe=Recipe(basis=Volume(one)),
        make=Make(size=Size(one)),
        room=Temperature("68 °F" if gallon == "US" else "20 °C"),
    )


def in_the_kitchen_of(new: Project, other: Project) -> Project:
    """Return the new project with what the household of the other owns, measures with and has.

    Kitchen, shelf, instruments, room, paper, pantry with its prices, and what its forecast learns
    from; recipe, vessels, log and days away belong to one batch.
    """
    return changed(
        new,
        kitchen=other.kitchen,
        hydrometer=other.hydrometer,
        room=other.room,
        paper=other.paper,
        weekends=other.weekends,
        pantry=other.pantry,
        money=other.money,
        own_ferments=other.own_ferments,
        own_losses=other.own_losses,
        reminders=other.reminders,
    )
