"""Cautions of the recipe go when the step that they are about is behind."""

from tests.plan.damson import IN_GLASS, LINES, PITCHED, STABLE, damson, seen, ticked
from winebench.model.log import Entry
from winebench.model.recipe import Make, Recipe, SugarLine, Vessel
from winebench.plan.outlook import Outlook
from winebench.units import Mass, Size, Volume

OVERSUGARED = Recipe(
    lines=(*(x for x in LINES if x.id != "sugar"),
           SugarLine(id="sugar", sugar="white-sugar", amount=Mass("7 kg"))),
    basis=Volume("5 gal US"),
)  # fmt: skip
JUG = Vessel(id="jug", name="Jug", role="secondary", holds=Volume("40 L"))
BOTTLED: tuple[Entry, ...] = (
    *STABLE,
    ticked("stabilise", "2026-11-22T10:00+01:00"),
    ticked("bottle", "2026-11-29T10:00+01:00"),
)


def keys(found: Outlook) -> set[str]:
    beside = {c.key for line in found.lines for c in line.cautions}
    listed = {c.key for c in found.cautions}
    assert beside <= listed, "a caution beside a line is in the list too"
    return listed


def batch(log: tuple[Entry, ...], now: str) -> set[str]:
    make = Make(size=Size("8 gal US"), vessels=(JUG,))
    return keys(seen(damson(*log, recipe=OVERSUGARED, make=make), now))


def test_cautions_about_the_must_stand_until_the_yeast_is_in() -> None:
    about_must = {"contradicts-target", "gravity-out-of-range", "yeast-too-weak"}
    before = batch((), "2026-10-01T12:00")
    assert about_must <= before
    assert {"jug-not-full", "heavy", "fruit-safety"} <= before
    after = batch(PITCHED, "2026-10-03T12:00")
    assert not about_must & after
    assert {"jug-not-full", "heavy", "fruit-safety"} <= after


def test_cautions_about_the_jug_and_the_fruit_go_when_those_are_behind() -> None:
    in_glass = batch(IN_GLASS, "2026-10-10T12:00")
    assert "jug-not-full" not in in_glass
    assert {"heavy", "fruit-safety"} <= in_glass
    assert not {"heavy", "fruit-safety"} & batch(BOTTLED, "2026-11-30T12:00+01:00")
