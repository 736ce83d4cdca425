"""An empty project, in the measures of its kitchen."""

from __future__ import annotations

from winebench.model.edits import new_id
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
