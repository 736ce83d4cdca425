"""What a bottle's label says, line by line, and which line matters how much."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.catalog.styles import style
from winebench.model.log import Action
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine
from winebench.plan.batch import highest_end
from winebench.plan.days import full_day
from winebench.plan.outlook import LabelFace, LabelLine, Outlook
from winebench.plan.steps.sulfite_must import SULFITES
from winebench.plan.stuck.keys import ACCEPTED
from winebench.trade.gravity import solids_g_per_l_from_sg

DECLARED = "declare-stable"
SULFITE_STEPS = ("sulfite-must", "stabilise")
_SWEETNESS = ((9.0, "dry"), (18.0, "medium dry"), (45.0, "medium"))
"""Most residual sugar in g/L for each word, as EU labels use them for wine of lively acidity
(Regulation (EU) 2019/33, annex III B, from memory)."""


def _line(words: str, face: LabelFace, keep: int) -> LabelLine:
    return LabelLine(words=words, face=face, keep=keep)


def label_lines(project: Project, outlook: Outlook) -> tuple[LabelLine, ...]:
    """Return the label's lines from top to bottom."""
    title = project.label.title.strip() or project.name.strip() or "Fruit wine"
    lines = [_line(title, "title", 0)]
    lines += (_line(words, "plain", 3) for words in _origin(project, outlook))
    own = [words.strip() for words in project.label.lines if words.strip()]
    lines += (_line(words, "plain", 5 + number) for number, words in enumerate(own))
    lines.append(_line(strength_words(project, outlook), "plain", 2))
    lines.append(_line(_bottled(project), "plain", 4))
    lines += (_line(words, "strong", 0) for words in _allergens(project))
    lines.append(_line("Home made, not for sale", "small", 0))
    return tuple(lines)


def _origin(project: Project, outlook: Outlook) -> Iterator[str]:
    names = [line.name.partition(",")[0].strip() for line in outlook.lines if line.kind == "fruit"]
    fruits = list(dict.fromkeys(name for name in names if name))
    made = project.done("pitch")
    year = (made.at if made else project.start or outlook.at).year
    if len(fruits) > 1:
        said = ", ".join(fruits[:-1]) + " and " + fruits[-1][:1].lower() + fruits[-1][1:]
    else:
        said = "".join(fruits)
    yield f"{said} · {year}" if said else str(year)


def strength_words(project: Project, outlook: Outlook) -> str:
    """Return sweetness and estimated strength, such as "Dry · about 12 % vol (estimate)"."""
    parts = [sweetness(project, outlook)]
    strength = outlook.strength_now if _as_read(project, outlook) else outlook.must.strength
    if project.label.show_strength and strength.value is not None:
        parts.append(f"about {strength.text} % vol (estimate)")
    words = " · ".join(parts)
    return words[:1].upper() + words[1:]


def sweetness(project: Project, outlook: Outlook) -> str:
    """Return how sweet the wine is: by its last reading once that tells, before as wanted.

    What lies above the gravity of the wine fermented out is sugar.
    """
    known = [reading.corrected for reading in outlook.readings if reading.corrected]
    wanted = project.recipe.targets.final_gravity
    planned = style(project.recipe.style).final_sweet
    if _as_read(project, outlook) and known:
        gravity = known[-1]
    elif wanted is not None and wanted.scale == "SG":
        gravity = wanted.value
    elif planned is not None:
        gravity = planned
    else:
        return "dry"
    if gravity <= highest_end(outlook.must.dry_gravity):
        return "dry"
    fermented_out = min([outlook.must.dry_gravity.value or gravity, *known])
    sugar = solids_g_per_l_from_sg(1.0 + max(gravity - fermented_out, 0.0))
    return next((word for most, word in _SWEETNESS if sugar <= most), "sweet")


def _as_read(project: Project, outlook: Outlook) -> bool:
    """Return whether the wine is what its last reading says: at its end, or stuck on the way."""
    stands = outlook.stuck is not None and outlook.stuck.state == "stuck"
    return stands or any(project.done(key) for key in ("bottle", "sweeten", ACCEPTED, DECLARED))


def _bottle(project: Project) -> Action | None:
    return project.done("bottle")


def _bottled(project: Project) -> str:
    bottle = _bottle(project)
    when = full_day(bottle.at) if bottle else "_" * 14
    return f"{project.make.bottle_ml:.0f} mL · bottled {when}"


def _allergens(project: Project) -> Iterator[str]:
    if has_sulfite(project):
        yield "Contains sulfites"
    fined = project.done("fine")
    what = next((r.value.strip() for r in fined.records if r.name == "what"), "") if fined else ""
    if what:
        yield f"Fined with {what}"


def has_sulfite(project: Project) -> bool:
    """Return whether sulfite was added, or the recipe has some to add."""
    written = any(
        isinstance(line, AdditiveLine) and line.additive in SULFITES
        for line in project.recipe.lines
    )
    return written or any(action.step in SULFITE_STEPS for action in project.actions)
