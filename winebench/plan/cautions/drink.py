"""What is to be said of when a wine is ready: later than wanted, or too weak to wait so long."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.model.edits import ChangeRecipe, changed
from winebench.model.project import Project
from winebench.plan.drinking import asks
from winebench.plan.must import Worked
from winebench.plan.outlook import Caution, Repair
from winebench.trade.ageing import KEEPS_FROM_PERCENT, LIGHT_MONTHS

_STYLE_SLACK = 1.5
"""A style's months are rough: only half as many again are later than it."""
_WORTH_TELLING_MONTHS = 1.0
_YEAR_MONTHS = 12.0


def drink_cautions(project: Project, worked: Worked) -> Iterator[Caution]:
    """Give the cautions about the time to drink."""
    if worked.start.litres <= 0.0 or worked.makeup.abv <= 0.0:
        return
    yield from _late(project, worked)
    yield from _weak(worked)


def _late(project: Project, worked: Worked) -> Iterator[Caution]:
    aim, ready = worked.aim, worked.must.ready
    if ready.value is None:
        return
    months = round(ready.value)
    if months <= aim.drink_months * (1.0 if aim.own_drink else _STYLE_SLACK):
        return
    certain = ready.low is not None and ready.low > aim.drink_months
    said = "You want" if aim.own_drink else "The style wants"
    yield Caution(
        key="ready-late",
        severity="caution" if certain and aim.own_drink else "note",
        about="must",
        sentence=f"{said} to drink from {aim.drink_months:g} months after bottling; this must "
        f"suggests about {months}.",
        detail=_ways(worked),
        repairs=(_wait(project, months),),
    )


def _ways(worked: Worked) -> str:
    """Return what makes it so late, the most first, and the ways out."""
    found = asks(worked.makeup)
    causes = [
        (found.tannin, "its tannin", "less of the fruit, or of tannin powder"),
        (found.strength, "its strength", "less sugar"),
        (found.acid, "its acid", "more water"),
    ]
    told = sorted((c for c in causes if c[0] >= _WORTH_TELLING_MONTHS), reverse=True)
    if not told:
        return f"Even a light wine wants about {LIGHT_MONTHS:g} months: wait."
    asked = " and ".join(f"{months:.0f} for {what}" for months, what, _ in told)
    ways = ", ".join(way for _, _, way in told)
    return f"{asked.capitalize()}, beyond a light wine's {LIGHT_MONTHS:g}: {ways}; or wait."


def _wait(project: Project, months: int) -> Repair:
    targets = changed(project.recipe.targets, drink_months=float(months))
    label = f"Wait {months} months"
    return Repair(label=label, edit=ChangeRecipe(label=label.lower(), fields={"targets": targets}))


def _weak(worked: Worked) -> Iterator[Caution]:
    strong = round(worked.makeup.abv, 1)
    if strong >= KEEPS_FROM_PERCENT or worked.aim.drink_months < LIGHT_MONTHS:
        return
    waits = worked.aim.drink_months >= _YEAR_MONTHS
    yield Caution(
        key="keeps-poorly",
        severity="caution" if waits else "note",
        about="must",
        sentence=f"At {strong:.1f} % it keeps poorly: drink it within the year.",
        detail=f"About {KEEPS_FROM_PERCENT:g} % and more keeps (common practice): more sugar, or "
        "want it sooner.",
    )
