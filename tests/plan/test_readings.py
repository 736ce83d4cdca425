"""What a reading means. Corrections against the water density tables (CIPM) and sucrose densities
(ICUMSA) that tests/trade checks; here one value each way and everything that looks odd."""

from datetime import datetime

import pytest

from tests.plan.damson import PITCHED, at, damson, read, ticked
from winebench.model.log import Entry
from winebench.model.recipe import Hydrometer
from winebench.plan.outlook import ReadingOutlook
from winebench.plan.readings import readings
from winebench.units import Temperature

NOW = at("2026-12-31T12:00+01:00")


def last(*log: Entry, hydrometer: Hydrometer | None = None) -> ReadingOutlook:
    project = damson(*log, hydrometer=hydrometer or Hydrometer())
    return readings(project, NOW)[-1].outlook


def test_a_warm_sample_reads_low_and_is_corrected_up() -> None:
    # Displacement balance: ICUMSA sucrose densities and glass at 25e-6 per °C give 1.09323.
    assert last(read("1.090", "2026-10-02T18:00", "30 °C")).corrected == pytest.approx(
        1.09323, abs=3e-4
    )


def test_fahrenheit_and_celsius_give_one_gravity() -> None:
    warm, same = (last(read("1.090", "2026-10-02T18:00", text)) for text in ("86 °F", "30 °C"))
    assert warm.corrected == pytest.approx(same.corrected)


def test_a_60_degree_hydrometer_shows_another_scale_than_sg_20_20() -> None:
    # A must of 21.49 Brix by ICUMSA SPS-4: 1088.94 kg/m3 at 15.56 and 1087.64 at 20 degC; water has
    # 999.02 and 998.20. So 1088.94 / 999.02 = 1.0900 in SG 60/60 degF is 1.0896 in SG 20/20 degC.
    old = Hydrometer(calibrated=Temperature("60 °F"))
    shown = last(read("1.090", "2026-10-02T18:00", "60 °F"), hydrometer=old)
    assert shown.corrected == pytest.approx(1.0896, abs=1e-4)
    water = last(read("1.000", "2026-10-02T18:00", "60 °F"), hydrometer=old)
    assert water.corrected == pytest.approx(1.0000, abs=5e-5)


def test_a_scale_that_reads_high_in_water_is_set_right() -> None:
    high = Hydrometer(adds=0.002)
    assert last(read("1.050", "2026-10-06T18:00"), hydrometer=high).corrected == pytest.approx(
        1.048
    )


def test_without_a_temperature_the_error_is_wider() -> None:
    assert (
        last(read("1.050", "2026-10-06T18:00", None)).half_width
        > last(read("1.050", "2026-10-06T18:00")).half_width
    )


def test_the_sentence_gives_correction_and_fall() -> None:
    found = last(*PITCHED, read("1.084", "2026-10-03T18:00", "24 °C"))
    assert (
        found.sentence == f"1.084 at 24 °C is {found.corrected:.4f}; 6 points down since yesterday"
    )
    assert found.doubt == ""


def test_refractometer_values_after_the_pitch_are_never_gravities() -> None:
    found = last(*PITCHED, read("8 brix", "2026-10-09T18:00", instrument="refractometer"))
    assert found.corrected is None
    assert "refractometer" in found.doubt


def test_before_the_pitch_a_refractometer_gives_the_must_s_gravity() -> None:
    # 20 °Brix is SG 1.0830 (sucrose tables, ICUMSA).
    found = last(read("20 brix", "2026-10-02T17:00", instrument="refractometer"))
    assert found.corrected == pytest.approx(1.0830, abs=2e-4)


def test_a_hot_sample_is_not_trusted() -> None:
    found = last(read("1.070", "2026-10-02T17:00", "45 °C"))
    assert found.corrected is None
    assert "45 °C" in found.doubt


@pytest.mark.parametrize(
    ("reading", "doubt"),
    [
        (read("1.095", "2026-10-03T18:00"), "It rose"),
        (read("1.010", "2026-10-03T18:00"), "faster than yeast"),
        (read("1.091", "2026-09-30T18:00"), "more than a day and a half before the yeast"),
    ],
)
def test_odd_readings_are_asked_about_and_kept(reading: Entry, doubt: str) -> None:
    found = [one.outlook for one in readings(damson(*PITCHED, reading), NOW)]
    assert any(doubt in one.doubt and one.id == reading.id for one in found)
    assert all(one.corrected is not None for one in found)


def test_a_reading_typed_twice_is_asked_about() -> None:
    twice = (read("1.080", "2026-10-04T18:00"), read("1.080", "2026-10-04T18:05"))
    assert "twice" in last(*PITCHED, *twice).doubt


def test_a_rise_after_a_feed_of_sugar_is_no_doubt() -> None:
    log = (
        read("1.018", "2026-10-09T18:00"),
        ticked("sugar-feed", "2026-10-09T19:00"),
        read("1.033", "2026-10-09T20:00"),
    )
    assert last(*PITCHED, *log).doubt == ""


def test_a_reading_dated_in_the_future_is_not_planned_with() -> None:
    project = damson(*PITCHED, read("1.000", "2026-11-30T18:00+01:00"))
    found = readings(project, datetime.fromisoformat("2026-10-05T18:00+02:00"))[-1]
    assert found.sg is None
    assert "has not come yet" in found.outlook.doubt


def test_what_a_reading_means_and_what_is_odd_about_it_are_two_sentences() -> None:
    twice = (read("1.066", "2026-10-05T18:30"), read("1.066", "2026-10-05T18:35"))
    odd = last(*PITCHED, *twice)
    assert odd.words == f"{odd.sentence}. {odd.doubt}"
    assert ". The same reading stands here twice" in odd.words
    first = last(*PITCHED, twice[0])
    assert first.words == first.sentence


def test_a_reading_after_a_doubted_one_is_held_against_those_before_that() -> None:
    # 24 °Brix stands for 1.101: from there 1.050 would be 51 points in a day, from 1.061 it is 11.
    log = (
        *PITCHED,
        read("1.061", "2026-10-05T18:30"),
        read("24 brix", "2026-10-06T18:30"),
        read("1.050", "2026-10-07T18:30"),
    )
    found = readings(damson(*log), at("2026-10-07T20:00"))
    assert [bool(one.outlook.doubt) for one in found[-3:]] == [False, True, False]
    assert "11 points down" in found[-1].outlook.sentence


def test_a_second_reading_up_there_is_no_slip_and_is_not_asked_about() -> None:
    log = (
        *PITCHED,
        read("1.020", "2026-10-08T18:30"),
        read("1.040", "2026-10-09T18:30"),
        read("1.038", "2026-10-10T08:30"),
    )
    found = readings(damson(*log), at("2026-10-10T20:00"))
    assert [bool(one.outlook.doubt) for one in found[-3:]] == [False, True, False]
