"""What the Project menu does with the open batch as the beginning of another."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from winebench.model.project import Project
from winebench.plan.again.last_time import asked_again
from winebench.plan.again.make import (
    as_recipe,
    from_recipe,
    learned_again,
    lesson_again,
    make_again,
    taken_from_log,
    variant,
)
from winebench.store.errors import StoreError
from winebench.store.own_recipes import keep_recipe
from winebench.window.variants.compare_dialog import CompareDialog
from winebench.window.variants.recipes_dialog import RecipesDialog

if TYPE_CHECKING:
    from winebench.window.main_window import MainWindow

_MAY_TEACH = "Its forecast does not learn from the batch that it was made from, unless you let it."


class Variants:
    """Makes new batches of the open one, and sets it beside others."""

    def __init__(self, window: MainWindow) -> None:
        self._window = window
        self._document = window.document

    def make_again(self) -> None:
        """Open a new batch of the same wine as it was made, and say what the log changed."""
        old, now = self._document.project, self._document.now()
        new = make_again(old, now)
        if not self._window.files.start(new):
            return
        taken, asked = taken_from_log(old), asked_again(new)
        from_log = f"From the log: {' '.join(taken)}" if taken else ""
        parts = [from_log, *asked, *learned_again(old, new)]
        may_teach = lesson_again(old, new, now) is not None
        if may_teach:
            parts.append(_MAY_TEACH)
        said = " ".join(filter(None, parts))
        if may_teach:
            self._window.banner.say(said, ("Learn from it", partial(self._learn_again, old)))
        elif said:
            self._window.banner.say(said)
        else:
            self._window.banner.tell("A new batch of the same recipe; nothing in it is done yet.")

    def _learn_again(self, old: Project) -> None:
        """Let the open batch learn from the one that it was made from, and say what it learned."""
        lesson = lesson_again(old, self._document.project, self._document.now())
        if lesson is not None:
            self._document.edit(lesson)
        self._window.banner.say(" ".join(learned_again(old, self._document.project)))

    def copy_as_variant(self) -> None:
        """Open another batch of the recipe as written, to be changed."""
        new = variant(self._document.project, self._document.now())
        if self._window.files.start(new):
            self._window.banner.tell(
                "This is a variant: change what you like, the batch that it was copied from stays."
            )

    def compare(self) -> None:
        """Open the comparison with another batch."""
        CompareDialog(self._document, self._window.files.aside, self._window).open()

    def keep_as_recipe(self) -> None:
        """Keep the recipe as written among the person's own; no file is ever overwritten."""
        project = self._document.project
        try:
            kept = keep_recipe(as_recipe(project, self._document.now()))
        except StoreError as problem:
            self._window.banner.say(str(problem), ("Save as…", self._window.files.save_as))
            return
        name = kept.path.stem
        taken = name != project.name and name.startswith(project.name)
        why = f" as there is a {project.name} already" if taken else ""
        self._window.banner.tell(
            f"The recipe as written is kept as {name}{why}: Project, New from my recipes opens it."
        )

    def new_from_recipes(self) -> None:
        """Show the person's own recipes; the chosen one becomes a new batch."""
        RecipesDialog(self._start, self._window).open()

    def _start(self, recipe: Project) -> bool:
        return self._window.files.start(from_recipe(recipe, self._document.now()))
