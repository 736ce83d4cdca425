"""What could still ferment in a bottle agrees with what counts as fermented out.

The pressure is checked against a rule of the trade of sparkling wine: 4 g/L of sugar give about 1
bar at 10 °C, a third more at 20 °C (common practice, from memory).
"""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import (
    IN_GLASS,
    STABLE,
    damson,
    planned,
    read,
    seen,
    stabilised,
    step,
    ticked,
)
from winebench.model.log import Entry
from winebench.model.recipe import Recipe
from winebench.plan.outlook import LaterDose, StepOutlook

CLEAR = {"degassed": True, "clear": 3}
BAR_PER_G_PER_L = 1.33 / 4.0


def still(sg: str, *, last: str = "2026-11-21T18:00+01:00") -> tuple[Entry, ...]:
    """Return the log of a wine that reads the same on three days."""
    return (
        *IN_GLASS,
        read(sg, "2026-11-06T18:00+01:00"),
        read(sg, "2026-11-15T18:00+01:00"),
        read(sg, last, **CLEAR),
    )


def bottle(*log: Entry, now: str = "2026-11-21T19:00+01:00", **fields: object) -> StepOutlook:
    return planned(damson(*log, **fields), now, "bottle")


def pressures(found: StepOutlook) -> list[float]:
    return [figure.figure.value for figure in found.figures if "Pressure" in figure.name]


def told(found: StepOutlook) -> tuple[list[float], list[float]]:
    """Return the figures of sugar and of pressure that the sentence has."""
    grams = re.search(r"([\d.]+)(?: to ([\d.]+))? g/L of sugar", found.reason)
    bar = re.search(r"reach (?:up to )?([\d.]+)(?: to ([\d.]+))? bar", found.reason)
    assert grams is not None
    assert bar is not None
    return tuple([float(one) for one in hit.groups() if one] for hit in (grams, bar))


def sweet(*log: Entry) -> dict[str, Recipe]:
    base = damson(*log)
    return {"recipe": Recipe(lines=base.recipe.lines, basis=base.recipe.basis, style="sweet")}


@pytest.mark.parametrize("sg", ["0.995", "0.993", "0.990"])
def test_a_wine_that_is_stable_at_its_end_threatens_with_no_bar(sg) -> None:
    # 0.995 is the highest that dry wines read (common practice), whatever the must reckons.
    log = still(sg)
    assert step(seen(damson(*log), "2026-11-21T19:00+01:00"), "declare-stable").override == "free"
    declared = (*log, ticked("declare-stable", "2026-11-21T19:00+01:00"))
    protected = (*declared, stabilised("2026-11-22T10:00+01:00"))
    for one in (log, declared, protected):
        found = bottle(*one, now="2026-11-22T11:00+01:00")
        assert ("bar" in found.reason, pressures(found)) == (False, [])
    assert bottle(*protected, now="2026-11-29T11:00+01:00").override == "free"


def test_one_reading_at_its_end_says_honestly_how_much_there_may_be() -> None:
    found = bottle(*IN_GLASS, read("0.995", "2026-11-06T18:00+01:00"))
    assert "up to" in found.reason
    grams, bar = told(found)
    assert bar == [pytest.approx(grams[0] * BAR_PER_G_PER_L, rel=0.15)]


def test_above_its_end_sugar_and_pressure_are_ranges_that_agree() -> None:
    found = bottle(*IN_GLASS, read("1.004", "2026-11-06T18:00+01:00"))
    grams, bar = told(found)
    assert len(grams) == len(bar) == 2
    # 1.091 to 0.995 or lower has 9 points to go: 2.3 to 2.6 g/L a point (16.83 g/L of sugar make a
    # % vol, and 7.4 points of fall a % vol, Handbook of Enology).
    assert 9 * 2.2 < grams[0] < 9 * 2.7
    assert grams[1] > grams[0]
    for sugar, pressure in zip(grams, bar, strict=True):
        assert pressure == pytest.approx(sugar * BAR_PER_G_PER_L, rel=0.15)


def test_stabilising_alone_takes_no_warning_away() -> None:
    unmet = (*IN_GLASS, read("1.002", "2026-11-06T18:00+01:00"))
    before = bottle(*unmet)
    after = bottle(*unmet, stabilised("2026-11-07T10:00+01:00", sorbate="4"))
    assert "bar" in before.reason
    assert told(before) == told(after)


def test_sugar_that_went_in_counts_as_logged_until_it_is_read() -> None:
    ready = (*STABLE, stabilised("2026-11-22T10:00+01:00", sorbate="none"))
    log = (*ready, ticked("sweeten", "2026-11-24T10:00+01:00", grams="500 g", gravity="1.005"))
    now = "2026-11-24T11:00+01:00"
    litres = seen(damson(*log), now).bottles.finished.value
    assert litres is not None
    grams, bar = told(bottle(*log, now=now, **sweet()))
    assert grams == [pytest.approx(500 / litres, abs=0.6)]
    assert bar == [pytest.approx(500 / litres * BAR_PER_G_PER_L, rel=0.15)]
    # 20 L were noted: what was noted counts.
    noted = ticked("sweeten", "2026-11-24T10:00+01:00", grams="1 kg", litres="20")
    assert told(bottle(*ready, noted, now=now, **sweet()))[0] == [50.0]
    # Read at 1.010, 17 points above the 0.993 of before: 1.017 is 4.33 °Brix, 44 g/L (ICUMSA).
    grams, _ = told(bottle(*log, read("1.010", "2026-11-24T12:00+01:00"), now=now, **sweet()))
    assert grams == [pytest.approx(44, abs=1)]


def test_sugar_noted_by_its_gravity_alone_counts_as_well() -> None:
    ready = (*STABLE, stabilised("2026-11-22T10:00+01:00", sorbate="none"))
    log = (*ready, ticked("sweeten", "2026-11-24T10:00+01:00", gravity="1.010"))
    assert told(bottle(*log, now="2026-11-24T11:00+01:00", **sweet()))[0] == [
        pytest.approx(44, abs=1)
    ]


def test_much_sugar_in_a_finished_wine_is_never_left_unsaid() -> None:
    ready = (*STABLE, stabilised("2026-11-22T10:00+01:00", sorbate="none"))
    log = (*ready, ticked("sweeten", "2026-11-24T10:00+01:00", grams="3 kg"))
    assert "more than" in bottle(*log, now="2026-11-24T11:00+01:00", **sweet()).reason


def test_a_wine_sweetened_by_no_tick_is_warned_of_by_its_reading() -> None:
    risen = (*STABLE, read("1.008", "2026-11-25T18:00+01:00"))
    found = bottle(*risen, now="2026-11-25T19:00+01:00")
    assert found.override == "never"
    # 15 points above the 0.993 that was stable: 1.015 is 3.83 °Brix, 38.8 g/L (ICUMSA).
    assert told(found)[0] == [pytest.approx(39, abs=1)]


@given(st.integers(990, 1009), st.integers(0, 1))
@settings(max_examples=40, deadline=None)
def test_a_bottle_is_free_only_where_nothing_threatens_it(points, declared) -> None:
    log = still(f"{points / 1000:.3f}")
    log += (ticked("declare-stable", "2026-11-21T19:00+01:00"),) if declared else ()
    log += (stabilised("2026-11-22T10:00+01:00"),)
    found = bottle(*log, now="2026-11-29T11:00+01:00")
    if found.override == "free":
        assert (declared, pressures(found)) == (1, [])
    elif points > 995:
        assert pressures(found)


def test_the_sugar_to_sweeten_with_is_reckoned_from_what_was_read() -> None:
    # 0.995 three times: rho V + m = rho' (V + 0.617 m), water at 20 degC has 0.9982 kg/L. The style
    # wants so much sugar in a litre, so the same grams as of a wine that had ended lower.
    litres, before = sweetening(*IN_GLASS)
    _, after = sweetening(*still("0.995"))
    start, end = (float(one) for one in re.findall(r"\d\.\d{3}", after.why)[:2])
    assert start == pytest.approx(0.995)
    grams = 1000 * 0.9982 * litres * (end - start) / (1 - 0.617 * 0.9982 * end)
    assert after.needed == pytest.approx(grams, rel=0.03)
    assert after.needed == pytest.approx(before.needed, rel=0.03)


def sweetening(*log: Entry) -> tuple[float, LaterDose]:
    """Return the wine to bottle, L, and the sugar that goes into it."""
    found = seen(damson(*log, **sweet()), "2026-11-21T19:00+01:00")
    litres = found.bottles.finished.value
    assert litres is not None
    return litres, next(dose for dose in found.later if dose.step == "sweeten")
