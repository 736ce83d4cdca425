"""A wine that is sweetened, or ends sweet: sorbate before the sugar, a week's hold, then bottles.
Common practice of home wine makers."""

import pytest

from tests.plan.damson import (
    STABLE,
    at,
    damson,
    planned,
    read,
    seen,
    stabilised,
    step,
    ticked,
    waiting,
)
from winebench.model.log import Entry
from winebench.model.recipe import AdditiveLine, Recipe
from winebench.plan.outlook import StepOutlook
from winebench.plan.work_out import outlook
from winebench.units import Amount


def test_a_sweetened_wine_holds_a_week_and_wants_sorbate() -> None:
    base = damson()
    sweet = Recipe(lines=base.recipe.lines, basis=base.recipe.basis, style="sweet")
    log = (
        *STABLE,
        stabilised("2026-11-22T10:00+01:00", sorbate="4 g"),
        ticked("sweeten", "2026-11-24T10:00+01:00"),
        read("1.010", "2026-11-24T11:00+01:00"),
    )
    early = planned(damson(*log, recipe=sweet), "2026-11-28T10:00+01:00", "bottle")
    assert early.override == "never"
    # 24 November + 7 d.
    assert early.earliest == at("2026-12-01T10:00+01:00")
    quiet = (*log, read("1.010", "2026-12-01T10:00+01:00"))
    hold = planned(damson(*quiet, recipe=sweet), "2026-12-01T11:00+01:00", "hold")
    assert waiting(hold) == []
    held = ticked("hold", "2026-12-01T11:00+01:00")
    assert (
        planned(damson(*quiet, held, recipe=sweet), "2026-12-02T11:00+01:00", "bottle").override
        == "free"
    )
    unsorbated = tuple(
        stabilised("2026-11-22T10:00+01:00") if "stabilise" in e.id else e for e in quiet
    )
    assert (
        planned(damson(*unsorbated, recipe=sweet), "2026-12-02T11:00+01:00", "bottle").override
        == "never"
    )


def test_sorbate_is_locked_after_malolactic() -> None:
    base = damson()
    sweet = Recipe(lines=base.recipe.lines, basis=base.recipe.basis, style="sweet")
    soft = ticked("malolactic", "2026-10-30T10:00+01:00", choice="yes")
    found = planned(damson(*STABLE, soft, recipe=sweet), "2026-11-22T10:00+01:00", "stabilise")
    assert "no malolactic fermentation, since sorbate follows" in waiting(found)


SWEETENED: tuple[Entry, ...] = (
    *STABLE,
    stabilised("2026-11-22T10:00+01:00", sorbate="4 g"),
    ticked("sweeten", "2026-11-24T10:00+01:00"),
    read("1.012", "2026-11-24T11:00+01:00"),
)


def sweet_bottle(log: tuple[Entry, ...], now: str) -> StepOutlook:
    base = damson()
    sweet = Recipe(lines=base.recipe.lines, basis=base.recipe.basis, style="sweet")
    return planned(damson(*log, recipe=sweet), now, "bottle")


def test_a_fall_in_the_week_after_sweetening_starts_the_week_again() -> None:
    fallen = (*SWEETENED, read("1.009", "2026-11-28T10:00+01:00"))
    soon = (*fallen, read("1.009", "2026-12-02T10:00+01:00"))
    assert sweet_bottle(soon, "2026-12-02T11:00+01:00").override == "never"
    # A week of rest from 28 November, the first reading after the fall.
    rested = (*fallen, read("1.009", "2026-12-05T10:00+01:00"))
    assert sweet_bottle(rested, "2026-12-05T11:00+01:00").override == "free"


def test_two_readings_on_the_seventh_day_are_no_week_of_rest() -> None:
    late = (
        *SWEETENED[:-1],
        read("1.012", "2026-12-01T10:00+01:00"),
        read("1.012", "2026-12-01T18:00+01:00"),
    )
    assert sweet_bottle(late, "2026-12-01T19:00+01:00").override == "never"


@pytest.mark.parametrize("written", ["0", "0 g", "0.0", "none", "No", "-", "not yet"])
def test_sorbate_that_did_not_go_in_holds_the_bottles_whatever_the_recipe_says(written) -> None:
    sorbate = AdditiveLine(id="sorbate", additive="potassium-sorbate", amount=Amount("4 g"))
    base = damson()
    recipe = Recipe(lines=(*base.recipe.lines, sorbate), basis=base.recipe.basis, style="sweet")
    quiet = (*SWEETENED, read("1.012", "2026-12-01T10:00+01:00"))
    left_out = tuple(
        stabilised("2026-11-22T10:00+01:00", sorbate=written) if "stabilise" in entry.id else entry
        for entry in quiet
    )
    now = "2026-12-02T11:00+01:00"
    assert planned(damson(*quiet, recipe=recipe), now, "bottle").override == "free"
    assert planned(damson(*left_out, recipe=recipe), now, "bottle").override == "never"


def test_a_rise_that_nobody_ticked_holds_the_bottles() -> None:
    log = (*STABLE, stabilised("2026-11-22T10:00+01:00"))
    risen = damson(*log, read("1.008", "2026-11-28T10:00+01:00"))
    found = planned(risen, "2026-11-29T11:00+01:00", "bottle")
    assert found.override == "never"
    assert "the sweetening ticked, since the gravity has risen" in waiting(found)


@pytest.mark.parametrize(
    ("choice", "locked"),
    [
        ("yes", True),
        ("Yes, let it soften", True),
        ("y", True),
        ("no", False),
        ("No - sulfite", False),
    ],
)
def test_what_is_not_plainly_a_no_to_malolactic_locks_the_sorbate(choice, locked) -> None:
    soft = ticked("malolactic", "2026-10-30T10:00+01:00", choice=choice)
    log = (*SWEETENED, soft, read("1.012", "2026-12-01T10:00+01:00"))
    found = sweet_bottle(log, "2026-12-02T11:00+01:00")
    assert (found.override == "never") is locked


def test_a_sweetened_wine_is_expected_to_stand_still_and_never_to_fall_below_1_000() -> None:
    base = damson()
    sweet = Recipe(lines=base.recipe.lines, basis=base.recipe.basis, style="sweet")
    unracked = tuple(entry for entry in STABLE if not entry.id.startswith("second-rack"))
    log = (*unracked, stabilised("2026-11-22T10:00+01:00", sorbate="4 g"),
           ticked("sweeten", "2026-11-24T10:00+01:00", gravity="1.012"))  # fmt: skip
    at_once = outlook(damson(*log, recipe=sweet), at("2026-11-24T11:00+01:00"))
    assert "I expect about 1.012" in step(at_once, "read-gravity").reminder
    log = (*log, read("1.010", "2026-11-24T12:00+01:00"))
    found = outlook(damson(*log, recipe=sweet), at("2026-11-25T11:00+01:00"))
    assert "I expect about 1.010" in step(found, "read-gravity").reminder
    assert (step(found, "second-rack").state, step(found, "second-rack").passed) == (
        "skipped",
        True,
    )


def test_a_softened_sweet_wine_is_told_of_no_sorbate_and_of_the_way_out() -> None:
    base = damson()
    sweet = Recipe(lines=base.recipe.lines, basis=base.recipe.basis, style="sweet")
    soft = ticked("malolactic", "2026-10-30T10:00+01:00", choice="yes", ph="3.4")
    found = seen(damson(*STABLE, soft, recipe=sweet), "2026-11-22T10:00+01:00")
    assert not any("sorbate" in figure.name for figure in step(found, "stabilise").figures)
    assert "goes in with it" not in step(found, "stabilise").reminder
    assert not {"Potassium sorbate", "White sugar"} & {dose.name for dose in found.later}
    for key in ("sweeten", "bottle"):
        one = step(found, key)
        assert (one.override, one.likely) == ("never", None)
        assert "choose a dry style" in one.reason
    dry = damson(*STABLE, soft, stabilised("2026-11-22T10:00+01:00"))
    assert planned(dry, "2026-11-29T11:00+01:00", "bottle").override == "free"


@pytest.mark.parametrize(("sorbate", "free"), [("0", False), ("4 g", True), ("none", False)])
def test_sugar_waits_for_sorbate_and_not_for_a_tick(sorbate, free) -> None:
    base = damson()
    sweet = Recipe(lines=base.recipe.lines, basis=base.recipe.basis, style="sweet")
    log = (*STABLE, stabilised("2026-11-22T10:00+01:00", sorbate=sorbate))
    found = planned(damson(*log, recipe=sweet), "2026-11-24T10:00+01:00", "sweeten")
    assert (found.override != "never") is free
