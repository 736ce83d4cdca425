"""Cautions of the recipe go when the step that they are about is behind."""

from tests.plan.damson import IN_GLASS, LINES, PITCHED, STABLE, damson, planned, read, seen, ticked
from winebench.model.edits import changed
from winebench.model.log import Entry
from winebench.model.project import Project
from winebench.model.recipe import FruitLine, Make, Recipe, SugarLine, Vessel, YeastLine
from winebench.plan.outlook import Caution, Outlook
from winebench.units import Amount, Mass, Size, Temperature, Volume

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
    assert not (about_must - {"yeast-too-weak"}) & after
    assert {"jug-not-full", "heavy", "fruit-safety"} <= after


def test_cautions_about_the_jug_and_the_fruit_go_when_those_are_behind() -> None:
    in_glass = batch(IN_GLASS, "2026-10-10T12:00")
    assert "jug-not-full" not in in_glass
    assert {"heavy", "fruit-safety"} <= in_glass
    assert not {"heavy", "fruit-safety"} & batch(BOTTLED, "2026-11-30T12:00+01:00")


# --- what still says something once the yeast is in -------------------------------------------


def poor(*log: Entry, stands: float = 14.0) -> Project:
    """Return the batch without nutrient, in which yeast finds too little nitrogen."""
    lines = tuple(
        YeastLine(id="yeast", amount=Amount("1 packet"), tolerance_percent=stands)
        if line.id == "yeast"
        else changed(line, amount=Mass("3 kg"))
        if isinstance(line, FruitLine)
        else line
        for line in LINES
        if line.id != "nutrient"
    )
    base = damson(*log)
    return changed(base, recipe=changed(base.recipe, lines=lines))


def told(project: Project, now: str, key: str) -> Caution | None:
    return next((one for one in seen(project, now).cautions if one.key == key), None)


def test_too_little_nitrogen_stays_a_note_with_its_repair_while_half_of_the_sugar_is_left() -> None:
    before = told(poor(*PITCHED[:5]), "2026-10-02T18:15", "little-nitrogen")
    assert before is not None
    assert before.severity == "caution"
    early = (*PITCHED, read("1.066", "2026-10-05T18:30"))
    after = told(poor(*early), "2026-10-05T19:00", "little-nitrogen")
    assert after is not None
    assert (after.severity, after.sentence) == ("note", before.sentence)
    assert "nutrient may still go in" in after.detail
    # The repair is possible still: it asks for the first half of the nutrient.
    mended = after.repairs[0].edit.apply(poor(*early))
    assert planned(mended, "2026-10-05T19:00", "first-nitrogen").state in ("held", "missed")
    given = (*early, ticked("first-nitrogen", "2026-10-05T18:45"))
    assert told(poor(*given), "2026-10-05T19:00", "little-nitrogen").repairs == ()
    # Below half of the sugar (1.040) nothing can be done with it.
    late = (*early, read("1.036", "2026-10-08T18:30"))
    assert told(poor(*late), "2026-10-08T19:00", "little-nitrogen") is None


def test_when_it_sticks_the_clues_say_what_the_note_said() -> None:
    still = (*PITCHED, read("1.036", "2026-10-08T18:30"), read("1.036", "2026-10-13T18:30"))
    found = seen(poor(*still, stands=9.0), "2026-10-13T19:00")
    clues = {one.key: one for one in found.stuck.clues}
    assert clues["nutrient"].says == "yes"
    weak = next(one for one in found.cautions if one.key == "yeast-too-weak")
    assert (weak.severity, weak.repairs) == ("note", ())
    assert "No sugar comes out again" in weak.detail
    assert [one.key for line in found.lines for one in line.cautions if line.id == "yeast"] == [
        "yeast-too-weak"
    ]


def test_a_yeast_close_to_its_limit_is_told_of_again_only_where_it_drags() -> None:
    strong = round(seen(damson(*PITCHED), "2026-10-03T12:00").must.strength.value, 1)
    brisk = (*PITCHED, read("1.066", "2026-10-05T18:30"))
    full = damson(*brisk)
    lines = tuple(
        changed(line, tolerance_percent=strong + 0.3) if isinstance(line, YeastLine) else line
        for line in full.recipe.lines
    )
    close = changed(full, recipe=changed(full.recipe, lines=lines))
    assert told(close, "2026-10-05T19:00", "yeast-too-weak") is None
    still = (read("1.036", "2026-10-08T18:30"), read("1.036", "2026-10-13T18:30"))
    stuck = changed(close, log=(*close.log, *still))
    found = told(stuck, "2026-10-13T19:00", "yeast-too-weak")
    assert found is not None
    assert (found.severity, "close to the" in found.sentence) == ("note", True)


def test_a_cold_room_is_told_of_until_it_is_dry_and_much_sulfite_until_it_works() -> None:
    cold = {"room": Temperature("8 °C")}
    young = damson(*PITCHED, **cold)
    note = told(young, "2026-10-03T12:00", "room-for-yeast")
    assert note is not None
    assert (note.severity, "choose" in note.detail) == ("note", False)
    assert told(damson(*STABLE, **cold), "2026-11-22T12:00+01:00", "room-for-yeast") is None
    lines = tuple(
        changed(line, amount=Amount("8 tablets")) if line.id == "sulfite" else line
        for line in LINES
    )
    recipe = changed(young.recipe, lines=lines)
    sulfited = told(damson(*PITCHED, recipe=recipe), "2026-10-03T12:00", "much-sulfite")
    assert sulfited is not None
    assert "Wait" not in sulfited.detail
    works = damson(*PITCHED, read("1.080", "2026-10-04T12:00"), recipe=recipe)
    assert told(works, "2026-10-04T13:00", "much-sulfite") is None
