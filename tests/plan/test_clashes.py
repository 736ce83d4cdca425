"""Vessels that two batches want on one day, checked against sets of days counted by hand."""

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import PITCHED, at, damson, seen, ticked
from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.model.recipe import Make, Vessel
from winebench.plan.household.clashes import clashes, stays_of
from winebench.units import Size, Volume

PAIL = Vessel(id="p", name="Blue pail", role="primary", holds=Volume("26 L"))
JUG = Vessel(id="j", name="Glass jug", role="secondary", holds=Volume("19 L"), glass=True)


def batch(name: str, start: str | None, *log, vessels=(PAIL, JUG)) -> Project:
    make = Make(size=Size("5 gal US"), vessels=vessels)
    return changed(damson(*log), id=name, name=name, make=make, start=at(start) if start else None)


def found(*projects, now="2026-09-28T10:00"):
    return clashes((project, seen(project, now)) for project in projects)


def stay(project, vessel, now="2026-09-28T10:00"):
    return next(one for one in stays_of(project, seen(project, now)) if one.vessel == vessel)


def test_a_second_batch_in_a_full_pail_is_told_with_the_day_it_is_clean():
    first, second = batch("damson", "2026-10-01T18:00"), batch("pear", "2026-10-04T18:00")
    clash = next(one for one in found(first, second) if one.vessel == "Blue pail")
    held = stay(first, "Blue pail")
    assert held.first == date(2026, 10, 1)
    assert clash.free_from == held.last + timedelta(days=2)
    assert "damson (1" in clash.sentence
    assert "pear (4" in clash.sentence
    assert "day to clean" in clash.detail.lower()


@given(st.integers(0, 30))
@settings(max_examples=31, deadline=None)
def test_a_pail_clashes_exactly_when_its_days_and_the_cleaning_day_meet(days):
    first = batch("damson", "2026-10-01T18:00")
    second = batch("pear", (at("2026-10-01T18:00") + timedelta(days=days)).isoformat())
    one, two = stay(first, "Blue pail"), stay(second, "Blue pail")
    held = {one.first + timedelta(days=n) for n in range((one.last - one.first).days + 2)}
    wanted = {two.first + timedelta(days=n) for n in range((two.last - two.first).days + 1)}
    told = [each for each in found(first, second) if each.vessel == "Blue pail"]
    assert bool(told) == bool(held & wanted)


def test_names_are_one_however_they_are_written_and_sizes_are_not():
    same = batch("pear", "2026-10-02T18:00", vessels=(changed(PAIL, name="blue  PAIL"),))
    large = batch("plum", "2026-10-02T18:00", vessels=(changed(PAIL, holds=Volume("30 L")),))
    assert len(found(batch("damson", "2026-10-01T18:00"), same)) == 1
    assert found(batch("damson", "2026-10-01T18:00"), large) == ()


def test_who_has_two_jugs_of_a_kind_may_fill_both():
    jugs = tuple(changed(JUG, id=name, holds=Volume("10 L")) for name in ("a", "b"))
    both = batch("damson", "2026-10-01T18:00", vessels=jugs)
    third = batch("pear", "2026-10-01T18:00", vessels=jugs[:1])
    assert [clash.vessel for clash in found(both, third)] == ["Glass jug"]
    half = changed(both, make=changed(both.make, size=Size("2 gal US")))
    assert [s.vessel for s in stays_of(half, seen(half, "2026-09-28T10:00"))] == ["Glass jug"]


def test_a_design_without_a_start_holds_nothing():
    assert found(batch("damson", "2026-10-01T18:00"), batch("pear", None)) == ()
    assert len(found(batch("damson", "2026-10-01T18:00"), batch("pear", None, *PITCHED))) == 2


def test_what_was_done_counts_before_what_was_planned():
    done = batch("damson", "2026-10-01T18:00", *PITCHED, ticked("lift-fruit", "2026-10-06T12:00"),
                 ticked("transfer", "2026-10-06T13:00"))  # fmt: skip
    assert stay(done, "Blue pail", "2026-10-07T10:00").last == date(2026, 10, 6)
    assert stay(done, "Glass jug", "2026-10-07T10:00").first == date(2026, 10, 6)
    clean = batch("pear", "2026-10-08T18:00", vessels=(PAIL,))
    assert found(done, clean, now="2026-10-07T10:00") == ()
    dirty = batch("pear", "2026-10-07T18:00", vessels=(PAIL,))
    assert len(found(done, dirty, now="2026-10-07T10:00")) == 1


def test_the_same_batch_twice_is_one_batch():
    first = batch("damson", "2026-10-01T18:00")
    assert found(first, changed(first, name="a copy")) == ()


@pytest.mark.parametrize("count", [0, 1])
def test_few_batches_cannot_clash(count):
    assert found(*(batch("damson", "2026-10-01T18:00") for _ in range(count))) == ()


def test_a_batch_that_runs_already_is_never_told_to_start_later():
    # Pear was made on 4 October, while the damson still held the pail: both are in one by the logs.
    first = batch("damson", "2026-10-01T18:00", *PITCHED)
    second = batch("pear", None, ticked("sugar-water", "2026-10-04T18:00"), vessels=(PAIL,))
    (clash,) = (c for c in found(first, second, now="2026-10-05T10:00") if c.vessel == "Blue pail")
    assert "start pear" not in clash.detail
    assert "tick the racking" in clash.detail
    # It comes to its jug only later: that may still be put off.
    both = batch("pear", None, *PITCHED)
    jug = next(c for c in found(first, both, now="2026-10-05T10:00") if c.vessel == "Glass jug")
    assert "start" not in jug.detail
    assert "bring pear to it on" in jug.detail


def test_a_pail_that_was_emptied_long_ago_is_no_clash_for_who_is_in_it_now():
    moved = (ticked("lift-fruit", "2026-10-06T12:00"), ticked("transfer", "2026-10-06T13:00"))
    emptied = batch("damson", "2026-10-01T18:00", *PITCHED, *moved, vessels=(PAIL,))
    running = batch("pear", None, ticked("sugar-water", "2026-10-05T18:00"), vessels=(PAIL,))
    assert len(found(emptied, running, now="2026-10-06T10:00")) == 1
    assert found(emptied, running, now="2026-10-08T10:00") == ()


def test_a_vessel_is_told_in_the_gallons_of_its_household():
    jug = changed(JUG, holds=Volume("5 gal US"))
    made = [batch(name, "2026-10-01T18:00", vessels=(PAIL, jug)) for name in ("damson", "pear")]
    assert any("Glass jug (5 gal) is wanted" in one.sentence for one in found(*made))
