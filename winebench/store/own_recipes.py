"""The person's own recipes: project files in a folder of theirs, one a recipe."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from platformdirs import user_documents_dir

from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.store.atomic import write_bytes
from winebench.store.errors import StoreError
from winebench.store.file_names import file_name
from winebench.store.project_file import SUFFIX, read, to_bytes
from winebench.store.state import PLACE, state_folder


class OwnRecipe(NamedTuple):
    """One file of the folder: a recipe, or the reason why it cannot be read."""

    path: Path
    project: Project | None
    trouble: str = ""


def recipes_folder() -> Path:
    """Return the folder; it is made when a recipe is first kept."""
    if os.environ.get(PLACE):  # tests, and a program carried about with all that is its own
        return state_folder() / "recipes"
    return Path(user_documents_dir()) / "Winebench" / "recipes"


def own_recipes() -> Iterator[OwnRecipe]:
    """Give every recipe of the folder by its file's name, those that cannot be read too.

    Each is read when it is asked for.

    Raises:
        StoreError: the folder is there and cannot be looked into.

    """
    folder = recipes_folder()
    try:
        found = [path for path in folder.iterdir() if path.suffix == SUFFIX]
    except FileNotFoundError:
        return iter(())
    except OSError as problem:
        raise StoreError(f'"{folder}" cannot be looked into: {problem.strerror}.') from problem
    return map(_opened, sorted(found, key=lambda path: (path.stem.casefold(), path)))


def _opened(path: Path) -> OwnRecipe:
    try:
        return OwnRecipe(path, read(path))
    except ValueError as problem:  # StoreError, and an amount that no unit fits
        return OwnRecipe(path, None, str(problem))


def keep_recipe(project: Project) -> OwnRecipe:
    """Write the recipe into the folder; where its name is taken it gets a number, file and all.

    Raises:
        StoreError: it cannot be written; nothing was overwritten.

    """
    folder = recipes_folder()
    try:
        folder.mkdir(parents=True, exist_ok=True)
        path, name = _taken_place(folder, project.name)
    except OSError as problem:
        raise StoreError(
            f'The recipe cannot be kept in "{folder}" ({problem.strerror}); save it elsewhere.'
        ) from problem
    kept = changed(project, name=name)
    try:
        write_bytes(path, to_bytes(kept))
    except StoreError:
        with contextlib.suppress(OSError):
            path.unlink()
        raise
    return OwnRecipe(path, kept)


def _taken_place(folder: Path, name: str) -> tuple[Path, str]:
    """Return an empty file of the first free name, made so that no other program can take it."""
    number = 1
    while True:
        path = folder / file_name(name, number)
        with contextlib.suppress(FileExistsError):
            path.touch(exist_ok=False)
            return path, name if number == 1 else f"{name} {number}"
        number += 1
