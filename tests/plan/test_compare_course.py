"""Two batches side by side: how each fermented and what became of it, by hand."""

import pytest

from tests.plan.damson import PITCHED, STABLE, at, damson, read, ticked
from tests.plan.test_compare import NOW, rows
from winebench.model.edits import changed
from winebench.plan.compare import compare
from winebench.plan.compare.effects import EFFECTS

FERMENT = (
    ticked("pitch", "2026-10-02T18:00"),
    read("1.066", "2026-10-05T18:00", "24 °C"),
    read("1.024", "2026-10-09T18:00", "19 °C"),
    read("0.996", "2026-10-30T18:00+01:00"),
)


def fermented(*log, og="1.091"):
    return damson(read(og, "2026-10-02T17:00"), *log)


def test_days_to_a_gravity_lie_between_the_readings_round_it():
    # By hand: 1.066 on day 3, 1.024 on day 7; 1.030 is 36/42 of the way, so on day 6.4.
    # 1.000 is 24/28 of the way from day 7 to 28 October, 1 hour more than 21 days on: day 25.
    quick = fermented(
        ticked("pitch", "2026-10-02T18:00"),
        read("1.028", "2026-10-04T18:00", "24 °C"),
        read("0.996", "2026-10-06T18:00", "24 °C"),
    )
    found = rows(fermented(*FERMENT), quick)
    assert found["Days from the pitch to 1.030"].this == "6.4 (3.0–7.0)"
    assert found["Days from the pitch to 1.000"].this == "25.0 (7.0–28.0)"
    assert found["Days from the pitch to 1.030"].does.startswith("Slower")
    assert found["Days from the pitch to 1.000"].that == "3.8 (2.0–4.0)"


def test_a_reading_just_at_the_line_is_the_day_that_it_was_passed():
    # 1.030 read on day 4 after 1.080 on day 1.
    first, second = read("1.080", "2026-10-03T18:00"), read("1.030", "2026-10-06T18:00")
    last = read("1.010", "2026-10-08T18:00")
    quick = fermented(ticked("pitch", "2026-10-02T18:00"), first, second, last)
    late = fermented(
        ticked("pitch", "2026-10-02T18:00"),
        read("1.060", "2026-10-09T18:00"),
        read("1.010", "2026-10-14T18:00"),
    )
    row = rows(quick, late)["Days from the pitch to 1.030"]
    assert (row.this, row.that) == ("4.0 (1.0–4.0)", "10.0 (7.0–12.0)")


def test_crossings_that_the_readings_cannot_tell_apart_are_alike():
    later = tuple(changed(e, at=at("2026-10-05T06:00")) if e.id.startswith("1.066") else e
                  for e in FERMENT)  # fmt: skip
    found = compare(fermented(*FERMENT), fermented(*later), NOW)
    assert "Days from the pitch to 1.030" in found.alike
    assert found.differences == ()


@pytest.mark.parametrize(
    ("other", "differs"), [("1.091", False), ("1.094", False), ("1.096", True)]
)
def test_gravities_read_within_their_error_are_one_gravity(other, differs):
    # Each is read to two points (common practice): four points apart can be one must.
    found = rows(fermented(*FERMENT), fermented(*FERMENT, og=other))
    assert ("Original gravity, read" in found) is differs


def test_the_warmest_and_the_coolest_are_those_of_the_ferment():
    warm = tuple(changed(e, temperature=read("1.066", "2026-10-05T18:00", "30 °C").temperature)
                 if e.id.startswith("1.066") else e for e in FERMENT)  # fmt: skip
    cellar = read("0.996", "2027-01-30T18:00+01:00", "8 °C")
    found = rows(fermented(*warm, cellar), fermented(*FERMENT))
    assert (found["Warmest that was read"].this, found["Warmest that was read"].that) == (
        "30 °C", "24 °C")  # fmt: skip
    assert "Coolest that was read" not in found


def finished(score="4 of 5", stabilised="40", lost="0.5", bottled="0.993"):
    return damson(
        *STABLE,
        ticked("stabilise", "2026-11-22T10:00+01:00", **{"mg-per-l": stabilised}),
        changed(ticked("second-rack", "2026-11-22T11:00+01:00", before="17", after="16.6")),
        ticked("third-rack", "2026-12-22T11:00+01:00", lost=lost),
        ticked("bottle", "2027-01-10T11:00+01:00", gravity=bottled),
        ticked("first-taste", "2027-03-10T11:00+01:00", score=score, notes="plum skin"),
    )


def test_sulfite_is_added_up_over_the_life_of_the_wine():
    # Four tablets of 0.44 g, 57.6 % SO2 (molar masses), in 18.927 L: 53.6 mg/L; with 40 and 90
    # at the end 94 and 144.
    row = rows(finished(), finished(stabilised="90 mg/L"))["Sulfite added in all"]
    assert (row.this, row.that) == ("94 mg/L", "144 mg/L")


def test_losses_are_added_up_and_set_against_the_must():
    # 0.4 L and 0.5 L, or 2.5 L, of 18.9 L.
    row = rows(finished(lost="2.5 L"), finished())["Lost in racking"]
    assert (row.this, row.that) == ("2.9 L of 18.9 L", "0.9 L of 18.9 L")


def test_the_bottles_gravity_and_the_score_are_compared():
    found = rows(finished(score="2/5", bottled="1.008"), finished())
    assert found["Score at the first taste"].this == "2/5 – plum skin"
    assert found["Gravity in the bottle"].does == EFFECTS["sweetness"].more
    assert rows(finished(score="16 of 20"), finished(score="4/5")) == {}
    assert rows(finished(score="3.5/5"), finished(score="4/5")) == {}
    assert list(rows(finished(score="good"), finished(score="poor"))) == [
        "Score at the first taste"]  # fmt: skip


def test_what_only_one_batch_has_come_to_is_left_out():
    found = compare(finished(), damson(*PITCHED), NOW)
    assert {each.key for each in found.differences} == set()
    assert "Sulfite added in all" not in found.alike
