"""The bundled samples: whole, tidy, each seen at its own moment."""

from datetime import datetime, timedelta, timezone

import pytest

from winebench.model.log import Action, Reading
from winebench.places import resources
from winebench.plan.balance import balanced
from winebench.plan.work_out import outlook
from winebench.store.project_file import StoreError, read, to_bytes
from winebench.store.samples import load_sample, sample_names, sample_seen_at, samples

NAMES = ("damson-design", "raspberry-day-3", "pear-under-airlock", "elder-blackberry-bottled")


def steps(project):
    return [entry.step for entry in project.log if isinstance(entry, Action)]


def test_the_samples_are_those_of_the_index_and_no_others():
    assert sample_names() == NAMES
    files = {path.stem for path in (resources() / "samples").glob("*.winebench")}
    assert files == set(NAMES)
    for sample in samples():
        assert sample.title == load_sample(sample.name).name
        assert sample.at.utcoffset() is not None


@pytest.mark.parametrize("name", NAMES)
def test_a_sample_is_written_as_a_save_would_write_it(name):
    path = resources() / "samples" / f"{name}.winebench"
    assert path.read_bytes() == to_bytes(read(path))


@pytest.mark.parametrize("name", NAMES)
def test_a_samples_log_is_in_order_and_lies_before_its_moment(name):
    project = load_sample(name)
    at = next(sample.at for sample in samples() if sample.name == name)
    assert list(project.log) == list(project.entries)
    assert all(entry.at <= at for entry in project.log)


def test_each_sample_stands_where_its_name_says():
    damson, raspberry, pear, elder = map(load_sample, NAMES)
    assert damson.log == ()
    assert "pitch" in steps(raspberry)
    assert "transfer" not in steps(raspberry)
    assert "transfer" in steps(pear)
    assert "second-rack" not in steps(pear)
    assert steps(elder)[-3:] == ["bottle", "upright", "lie-down"]


def test_no_sample_looks_neglected():
    for sample in samples():
        found = outlook(load_sample(sample.name), sample.at, lambda *_: None)
        assert [line.title for line in found.today if line.late] == [], sample.name


def test_the_design_contradicts_its_own_target_and_the_others_do_not():
    for name in NAMES:
        project = load_sample(name)
        targets, reads = project.recipe.targets, balanced(project).sg
        meets = targets.gravity_low.value <= reads <= targets.gravity_high.value
        assert meets == (name != "damson-design"), (name, reads)


def test_the_bottled_sample_was_stable_by_three_equal_readings_over_two_weeks():
    elder = load_sample("elder-blackberry-bottled")
    declared = elder.done("declare-stable")
    run = [r for r in elder.readings if r.degassed and r.at <= declared.at][-3:]
    assert len({reading.gravity.value for reading in run}) == 1
    assert run[-1].at - run[0].at >= timedelta(days=14)


def test_gravities_fall_from_the_pitch_to_the_sweetening():
    for name in NAMES:
        project = load_sample(name)
        sweet = project.done("sweeten")
        read_before = [
            reading.gravity.value
            for reading in project.readings
            if isinstance(reading, Reading) and (sweet is None or reading.at < sweet.at)
        ]
        assert read_before == sorted(read_before, reverse=True)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("hour", [0, 17, 23])
def test_a_sample_moved_to_now_keeps_its_hours_and_lies_just_before(name, hour):
    zone = timezone(timedelta(hours=5, minutes=30))
    at = datetime(2031, 3, 2, hour, 30, tzinfo=zone)
    moved, own = sample_seen_at(name, at), load_sample(name)
    natural = next(sample.at for sample in samples() if sample.name == name)
    assert len(moved.log) == len(own.log)
    for before, after in zip(own.log, moved.log, strict=True):
        assert after.at.timetz().replace(tzinfo=None) == before.at.time()
        assert after.at <= at
        assert after.at.utcoffset() == timedelta(hours=5, minutes=30)
    end = max(own.log, key=lambda e: e.at).at if own.log else own.start
    shift = (max(moved.log, key=lambda e: e.at).at if moved.log else moved.start).replace(
        tzinfo=None
    ) - end.replace(tzinfo=None)
    gap = at.replace(tzinfo=None) - (natural.replace(tzinfo=None) + shift)
    assert timedelta(0) <= gap < timedelta(days=1)
    to_bytes(moved)


def test_an_unknown_sample_is_named_with_the_known_ones():
    with pytest.raises(StoreError, match="damson-design"):
        load_sample("fizzy-lemon")
    with pytest.raises(ValueError, match="offset"):
        sample_seen_at("damson-design", datetime(2026, 10, 1))
