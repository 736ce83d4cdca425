"""Edits: the only way a project changes, each a value with a label for undo."""

from __future__ import annotations

import secrets
from typing import Any, Protocol, TypeVar

import msgspec

from winebench.model.log import Entry
from winebench.model.part import Part
from winebench.model.project import Draft, Project
from winebench.model.recipe import Line

P = TypeVar("P", bound=Part)


class Edit(Protocol):
    """Something that turns one project into the next."""

    @property
    def label(self) -> str:
        """Say what is done, for the undo menu: "change the sugar"."""
        ...

    @property
    def merges_as(self) -> str:
        """Name the field; edits of one field in a row undo as one. Empty: never merged."""
        ...

    @property
    def settles(self) -> str:
        """Begin of the places whose drafts are no steps of undo any more. Empty: none.

        A form that is shut shows nothing of what was typed in it: undo goes past that.
        """
        ...

    @property
    def takes_back(self) -> str:
        """Begin of the fields whose last steps are taken back first. Empty: none.

        What can no longer be read leaves nothing of its own beginning in force.
        """
        ...

    def apply(self, project: Project) -> Project:
        """Return the project after the edit."""
        ...


def new_id() -> str:
    """Return a fresh id for a line, vessel or entry."""
    return secrets.token_hex(4)


def changed(part: P, **fields: Any) -> P:
    """Return the part with those fields replaced; unknown names raise TypeError."""
    return msgspec.structs.replace(part, **fields)


class EditPart(msgspec.Struct, frozen=True, kw_only=True):
    """What every edit has: a label for undo, and the field it belongs to."""

    label: str
    merges_as: str = ""
    settles: str = ""
    takes_back: str = ""


class Change(EditPart, frozen=True, kw_only=True):
    """Replace fields of the project itself, such as name, room or kitchen."""

    fields: dict[str, Any]

    def apply(self, project: Project) -> Project:
        """Return the project with the fields replaced."""
        return changed(project, **self.fields)


class ChangeRecipe(EditPart, frozen=True, kw_only=True):
    """Replace fields of the recipe, such as basis, style or targets."""

    fields: dict[str, Any]

    def apply(self, project: Project) -> Project:
        """Return the project with the recipe's fields replaced."""
        return changed(project, recipe=changed(project.recipe, **self.fields))


class PutLine(EditPart, frozen=True, kw_only=True):
    """Replace the recipe line of the same id, or add it (before `before`, or last)."""

    line: Line
    before: str | None = None

    def apply(self, project: Project) -> Project:
        """Return the project with the line in place."""
        lines = list(project.recipe.lines)
        ids = [line.id for line in lines]
        if self.line.id in ids and self.before is None:
            lines[ids.index(self.line.id)] = self.line
        else:
            lines = [line for line in lines if line.id != self.line.id]
            ids = [line.id for line in lines]
            lines.insert(ids.index(self.before) if self.before in ids else len(lines), self.line)
        return changed(project, recipe=changed(project.recipe, lines=tuple(lines)))


class DropLine(EditPart, frozen=True, kw_only=True):
    """Take a line off the recipe."""

    id: str

    def apply(self, project: Project) -> Project:
        """Return the project without the line."""
        kept = tuple(line for line in project.recipe.lines if line.id != self.id)
        return changed(project, recipe=changed(project.recipe, lines=kept))


class PutEntry(EditPart, frozen=True, kw_only=True):
    """Add an entry to the log, or correct the one of the same id."""

    entry: Entry

    def apply(self, project: Project) -> Project:
        """Return the project with the entry in place."""
        log = list(project.log)
        ids = [entry.id for entry in log]
        if self.entry.id in ids:
            log[ids.index(self.entry.id)] = self.entry
        else:
            log.append(self.entry)
        return changed(project, log=tuple(log))


class DropEntry(EditPart, frozen=True, kw_only=True):
    """Take an entry out of the log; undo brings it back."""

    id: str

    def apply(self, project: Project) -> Project:
        """Return the project without the entry."""
        return changed(project, log=tuple(e for e in project.log if e.id != self.id))


class KeepDraft(EditPart, frozen=True, kw_only=True):
    """Keep text that cannot be read yet beside its field; empty text forgets it."""

    place: str
    text: str

    def apply(self, project: Project) -> Project:
        """Return the project with the draft kept or forgotten."""
        others = tuple(d for d in project.drafts if d.place != self.place)
        mine = (Draft(place=self.place, text=self.text),) if self.text else ()
        return changed(project, drafts=others + mine)


class Several(EditPart, frozen=True, kw_only=True):
    """Some edits as one step of undo."""

    edits: tuple[Edit, ...]

    def apply(self, project: Project) -> Project:
        """Return the project after all of them, in order."""
        for edit in self.edits:
            project = edit.apply(project)
        return project


def settle(place: str) -> Several:
    """Return the edit that changes nothing but undo: typing into drafts there is no step more."""
    return Several(label="", settles=place, edits=())
