"""A batch made again, a variant of it, and a recipe kept of it: new projects out of old ones.

Nothing here is random: the same project at the same `now` gives the same new project.
"""

from __future__ import annotations

import hashlib
import re
from datetime import datetime

from winebench.model.edits import Change, changed
from winebench.model.project import Project
from winebench.plan.again.done_amounts import as_done
from winebench.plan.again.last_time import all_forgotten
from winebench.plan.learning.learn_from import NotLearnedError, learn_from
from winebench.plan.learning.own_ferments import learned_words, told
from winebench.plan.learning.own_losses import pooled_words, told_losses
from winebench.plan.measured import as_measured

_YEAR = re.compile(r"\b(?:19|20|21)\d\d\b")


def make_again(project: Project, now: datetime) -> Project:
    """Return a new batch of the same wine, with the recipe as the log says that it was made.

    Kitchen, instruments, vessels, pantry and label are kept. The fruit's measured figures are
    forgotten and asked for anew; there is no log and no start yet. Its forecast and
    expected losses learn from the batches that this one learned from. Where there are such, the
    maker lets finished batches teach, and it learns from this one too; else see `lesson_again`.
    """
    made = _emptied(all_forgotten(as_measured(as_done(project).project)), _again(project.name, now),
                    project, now, "again")  # fmt: skip
    lets = bool(project.own_ferments or project.own_losses)
    teaches = lesson_again(project, made, now) if lets else None
    return teaches.apply(made) if teaches else made


def lesson_again(project: Project, new: Project, now: datetime) -> Change | None:
    """Return the edit by which `new`, made of the project again, learns from it.

    None where the project teaches nothing, or has done so.
    """
    try:
        edit = learn_from(new, project, now)
    except NotLearnedError:
        return None
    return None if edit.apply(new) == new else edit


def taken_from_log(project: Project) -> tuple[str, ...]:
    """Return a sentence for each thing that `make_again` takes from the log, not the recipe."""
    return as_done(project).sentences


def learned_again(project: Project, new: Project) -> tuple[str, ...]:
    """Return what `new`, made of the project again, learned from its ferment and rackings."""
    said: list[str] = []
    mine = next((one for one in new.own_ferments if one.batch == project.id), None)
    if mine is not None:
        said += [f"The forecast learns from it: its ferment {told(mine)}.", learned_words(new)]
    lost = next((one for one in new.own_losses if one.batch == project.id), None)
    if lost is not None:
        said += [f"Expected losses learn from it: it {told_losses(lost)}.", pooled_words(new)]
    return tuple(said)


def variant(project: Project, now: datetime) -> Project:
    """Return another batch of the same recipe as written and the same fruit, to be changed."""
    return _emptied(as_measured(project), _numbered(project.name, "variant"), project, now,
                    "variant")  # fmt: skip


def as_recipe(project: Project, now: datetime) -> Project:
    """Return the recipe as written, without log, start and drafts, to be kept for other batches.

    The fruit's measured figures become words, as the next fruit is another.
    """
    return _emptied(all_forgotten(as_measured(project)), project.name, project, now, "recipe")


def from_recipe(project: Project, now: datetime) -> Project:
    """Return a new batch of a kept recipe."""
    return _emptied(all_forgotten(project), project.name, project, now, "batch")


def _emptied(made: Project, name: str, of: Project, now: datetime, how: str) -> Project:
    """Return the project as a new one: nothing done yet, no date, nothing half typed.

    Days away that are past are dropped, those to come hold for this batch too.
    """
    away = tuple(days for days in of.away if days.last >= now.date())
    mark = hashlib.sha256(f"{how}\n{of.id}\n{of.name}\n{now.isoformat()}".encode()).hexdigest()
    return changed(made, id=mark[:8], name=name, start=None, log=(), drafts=(), away=away)


def _again(name: str, now: datetime) -> str:
    """Return the name with its year brought up to now, else with "again" behind it."""
    years = list(_YEAR.finditer(name))
    if years and years[-1][0] != str(now.year):
        start, end = years[-1].span()
        return f"{name[:start]}{now.year}{name[end:]}"
    return _numbered(name, "again")


def _numbered(name: str, word: str) -> str:
    """Return "Plum, again" of "Plum", and "Plum, again 2" of that."""
    found = re.fullmatch(rf"(?P<stem>.*), {word}(?: (?P<number>\d{{1,4}}))?", name, re.DOTALL)
    if found is None:
        return f"{name.strip() or 'Batch'}, {word}"
    return f"{found['stem']}, {word} {int(found['number'] or 1) + 1}"
