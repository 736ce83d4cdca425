"""What to know, and the way out of it."""

from __future__ import annotations

from typing import Literal

from winebench.model.edits import Change, ChangeRecipe, DropLine, PutLine, Several
from winebench.plan.outlook.figure import Shape

Severity = Literal["stop", "hold", "caution", "note"]
"""stop: dangerous, no override; hold: gates a step; caution: look at it; note: good to know."""


class Repair(Shape, frozen=True, kw_only=True):
    """A way out that the person can take with one key: a verb, and the edit it makes."""

    label: str
    edit: Change | ChangeRecipe | PutLine | DropLine | Several


class Caution(Shape, frozen=True, kw_only=True):
    """Something to know, beside what causes it."""

    key: str
    severity: Severity
    about: str
    """Id of the recipe line, key of the step, "must", "vessels" or "log:<entry id>"."""
    sentence: str
    detail: str = ""
    repairs: tuple[Repair, ...] = ()
    gates: str = ""
    """Key of the step that it holds, or empty."""
