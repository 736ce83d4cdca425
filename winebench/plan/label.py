"""What a bottle's label says, line by line, and which line matters how much."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.catalog.styles import style
from winebench.model.log import Action
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine
from winebench.plan.as_read import highest_end
from winebench.plan.days import full_day
from winebench.plan.outlook import LabelFace, LabelLine, Outlook
from winebench.plan.record_values import value_of
from winebench.plan.steps.noting import noted_with
from winebench.plan.steps.sulfite_must import SULFITES
from winebench.plan.strength_now import hardiest_yeast
from winebench.plan.stuck.keys import ACCEPTED
from winebench.plan.sugar_by_fall import LEAST_SUGAR_G_PER_L
from winebench.trade.gravity import sg_from_brix, solids_g_per_l_from_sg
from winebench.trade.sweetness import sweetness_word

DECLARED = "declare-stable"
SULFITE_STEPS = ("sulfite-must", "stabilise")
_SETTLED = ("done", "skipped")


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


def not_final(project: Project, outlook: Outlook) -> str:
    """Return why the label may still change, in one sentence; empty once it will not."""
    if project.done("bottle"):
        return ""
    if not _as_read(project, outlook):
        pitched = project.done("pitch") is not None
        since = "no gravity was read since the yeast went in" if pitched else "the yeast is not in"
        return f"Not final: {since}, so sweetness and strength are what the recipe foresees."
    if not any(project.done(key) for key in (ACCEPTED, DECLARED)):
        read = f", {_read(project, outlook)[-1]:.3f}" if _read(project, outlook) else ""
        return (
            f"Not final until the wine is stable: sweetness and strength are those of the last "
            f"reading{read}."
        )
    # A dry wine has no day for it: acid or another wine goes in only where somebody wants it.
    coming = (step for step in outlook.steps if step.likely and step.state not in _SETTLED)
    if any(step.key == "sweeten" for step in coming):
        return "Not final: it is still to be sweetened."
    return ""


def strength_words(project: Project, outlook: Outlook) -> str:
    """Return sweetness and estimated strength, such as "Dry · about 12 % vol (estimate)"."""
    parts = [sweetness(project, outlook)]
    strength = outlook.strength_now if _as_read(project, outlook) else outlook.must.strength
    text, limit = strength.text, hardiest_yeast(project)
    if not _as_read(project, outlook) and outlook.must.stops_at is not None and limit is not None:
        text = f"{limit:.1f}"  # its yeast is foreseen to make no more
    if project.label.show_strength and strength.value is not None:
        parts.append(f"about {text} % vol (estimate)")
    words = " · ".join(parts)
    return words[:1].upper() + words[1:]


def sweetness(project: Project, outlook: Outlook) -> str:
    """Return how sweet the wine is: by its last reading, before there is one as wanted.

    What lies above the gravity of the wine fermented out is sugar; the word is that of
    `winebench.trade.sweetness` for so much of it beside the wine's acid.
    """
    sugar = sugar_left_g_per_l(project, outlook)
    return sweetness_word(sugar, _acid_g_per_l(project, outlook) if sugar else 0.0)


def sugar_left_g_per_l(project: Project, outlook: Outlook) -> float:
    """Return the sugar of the wine as it was read or is wanted, g/L; 0 where it is dry."""
    known = _read(project, outlook)
    wanted = project.recipe.targets.final_gravity
    if known:
        gravity = known[-1]
    elif wanted is not None:
        gravity = wanted.value if wanted.scale == "SG" else sg_from_brix(wanted.value)
    elif (planned := style(project.recipe.style).sweet_g_per_l) or not outlook.must.stops_at:
        return planned or 0.0
    else:
        gravity = outlook.must.stops_at.value or 0.0
    highest = highest_end(outlook.must.dry_gravity)
    if gravity <= highest:
        return 0.0
    ended = min(known, default=gravity)  # where it did end says more than where it should
    if ended > highest and not _tested_dry(project):
        ended = outlook.must.dry_gravity.value or gravity
    return solids_g_per_l_from_sg(1.0 + max(gravity - ended, 0.0))


def _tested_dry(project: Project) -> bool:
    """Return whether a test showed that it had no sugar left, wherever its gravity stands."""
    declared = project.done(DECLARED)
    sugar = value_of(noted_with(declared, "sugar"), "g/L", project) if declared else None
    return sugar is not None and sugar <= LEAST_SUGAR_G_PER_L


def _acid_g_per_l(project: Project, outlook: Outlook) -> float:
    """Return the acid as last measured, else the must's by the recipe; g/L as tartaric."""
    readings = reversed(project.readings)
    measured = (seen.acid_g_per_l for seen in readings if seen.acid_g_per_l is not None)
    return next(measured, outlook.must.acidity.value or 0.0)


def _as_read(project: Project, outlook: Outlook) -> bool:
    """Return whether the wine is what its last reading says, and not only foreseen."""
    ticked = (project.done(key) for key in ("bottle", "sweeten", ACCEPTED, DECLARED))
    return bool(_read(project, outlook)) or any(ticked)


def _read(project: Project, outlook: Outlook) -> list[float]:
    """Return the gravities since the yeast went in that nothing is asked about, in order."""
    pitched = next((tick.at for tick in project.actions if tick.step == "pitch"), None)
    if pitched is None:
        return []
    since = (seen for seen in outlook.readings if seen.at > pitched and not seen.doubt)
    return [seen.corrected for seen in since if seen.corrected]


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
