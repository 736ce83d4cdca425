"""From fruit to yeast. Waits are those of common practice: enzyme 12 h and yeast 24 h after
sulfite, yeast 8 h after enzyme, must at 1.070-1.110."""

from tests.plan.damson import PITCHED, at, damson, planned, read, seen, step, ticked, waiting

FRUIT = ticked("fruit-accepted", "2026-10-01T17:00")
MUST = ticked("sugar-water", "2026-10-01T18:00")
SULFITE = ticked("sulfite-must", "2026-10-01T18:00")
ENZYME = ticked("enzyme", "2026-10-02T08:00")
READING = read("1.091", "2026-10-02T17:00")


def test_without_a_log_the_plan_starts_at_the_project_s_start() -> None:
    project = damson()
    assert planned(project, "2026-09-28T10:00", "sugar-water").likely == at("2026-10-01T18:00")
    # 18:00 + 24 h.
    assert planned(project, "2026-09-28T10:00", "pitch").earliest == at("2026-10-02T18:00")


def test_without_a_start_the_plan_starts_now() -> None:
    assert planned(damson(start=None), "2026-09-28T10:00", "sugar-water").likely == at(
        "2026-09-28T10:00"
    )


def test_enzyme_comes_twelve_hours_after_sulfite_out_of_the_night() -> None:
    enzyme = planned(damson(FRUIT, MUST, SULFITE), "2026-10-01T19:00", "enzyme")
    # 18:00 + 8 h = 02:00; + 12 h = 06:00, and nobody is up before 08:00; + 24 h = 18:00.
    assert enzyme.earliest == at("2026-10-02T02:00")
    assert enzyme.likely == at("2026-10-02T08:00")
    assert enzyme.latest == at("2026-10-02T18:00")


def test_yeast_waits_for_sulfite_enzyme_and_a_reading() -> None:
    early = planned(damson(FRUIT, MUST, SULFITE, ENZYME), "2026-10-02T15:00", "pitch")
    assert early.override == "reason"
    assert early.state == "held"
    # Sulfite 18:00 + 24 h = 18:00, later than enzyme 08:00 + 8 h = 16:00.
    assert early.earliest == at("2026-10-02T18:00")
    # The two waits, and what nobody has read yet: its gravity and its warmth.
    assert len(waiting(early)) == 4
    ready = planned(damson(FRUIT, MUST, SULFITE, ENZYME, READING), "2026-10-02T18:00", "pitch")
    assert waiting(ready) == []
    assert (ready.state, ready.override) == ("due", "free")


def test_a_late_enzyme_holds_the_yeast_eight_hours() -> None:
    late = ticked("enzyme", "2026-10-02T16:00")
    pitch = planned(damson(FRUIT, MUST, SULFITE, late), "2026-10-02T17:00", "pitch")
    assert pitch.earliest == at("2026-10-03T00:00")


def test_a_must_outside_the_range_holds_the_yeast() -> None:
    thin = read("1.050", "2026-10-02T17:00")
    pitch = planned(damson(FRUIT, MUST, SULFITE, ENZYME, thin), "2026-10-02T18:30", "pitch")
    assert waiting(pitch) == ["a gravity of the must between 1.070 and 1.110 (read: 1.050)"]
    assert pitch.override == "reason"


def test_a_cold_must_holds_the_yeast() -> None:
    cold = read("1.091", "2026-10-02T17:00", "14 °C")
    pitch = planned(damson(FRUIT, MUST, SULFITE, ENZYME, cold), "2026-10-02T18:30", "pitch")
    assert waiting(pitch) == ["must at 18–27 °C (read: 14 °C)"]


def test_without_sulfite_there_is_no_sulfite_wait() -> None:
    project = damson(FRUIT, MUST, drop=("sulfite",))
    assert planned(project, "2026-10-01T18:30", "sulfite-must").state == "skipped"
    assert planned(project, "2026-10-01T18:30", "enzyme").earliest == at("2026-10-01T18:00")


def test_fruit_that_nobody_knows_can_never_be_pitched() -> None:
    unsure = ticked("fruit-accepted", "2026-10-01T17:00", identified="unsure")
    project = damson(unsure, MUST, SULFITE, ENZYME, READING)
    assert planned(project, "2026-10-02T19:00", "pitch").override == "never"
    assert planned(project, "2026-10-02T19:00", "sulfite-must").state == "done"


def test_steps_left_behind_are_not_asked_for_again() -> None:
    project = damson(ticked("pitch", "2026-10-02T18:30"))
    for key in ("fruit-accepted", "sugar-water", "sulfite-must", "enzyme", "measure-fruit"):
        assert planned(project, "2026-10-03T10:00", key).state == "skipped"


def test_bottles_leave_every_step_before_them_behind() -> None:
    found = seen(damson(ticked("bottle", "2026-12-02T18:30+01:00")), "2026-12-03T10:00+01:00")
    before = [one for one in found.steps if one.key != "bottle"]
    assert {one.state for one in before[: before.index(step(found, "upright"))]} == {"skipped"}


def test_a_done_step_keeps_its_time() -> None:
    pitch = planned(damson(*PITCHED), "2026-12-24T10:00+01:00", "pitch")
    assert pitch.state == "done"
    assert pitch.done_at == pitch.earliest == pitch.likely == pitch.latest == at("2026-10-02T18:30")
