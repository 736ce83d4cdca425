from __future__ import annotations

import json

import pytest

from winebench.forecast import Event, Observation, learn
from winebench.forecast.table import (
    TableError,
    as_json,
    evidence_from_csv,
    finished_from_csv,
    forecast_from_csv,
)

PLAIN = "time,gravity,temperature\n0 h,1.090,\n30 h,1.078,22\n2.5 d,1.052,23.5 °C\n"


def test_hours_and_days_from_the_pitch_are_the_same_unit():
    evidence = evidence_from_csv(PLAIN, "a.csv")
    assert evidence.observations == (
        Observation(0.0, 1.090),
        Observation(30.0, 1.078, 22.0),
        Observation(60.0, 1.052, 23.5),
    )
    assert evidence.setup.og == 1.090


def test_iso_times_count_from_the_first_of_them():
    text = "time,gravity\n2026-10-07T08:00,1.080\n2026-10-06T08:00,1.091\n"
    evidence = evidence_from_csv(text, "a.csv")
    assert [o.hours for o in evidence.observations] == [24.0, 0.0]
    assert evidence.setup.og == 1.091


def test_iso_times_count_from_a_pitch_event_and_across_a_change_of_the_clocks():
    text = (
        "time,gravity,event\n2026-10-24T08:00+02:00,1.091,\n2026-10-24T20:00+02:00,,pitch\n"
        "2026-10-25T20:00+01:00,1.080,\n"
    )
    evidence = evidence_from_csv(text, "a.csv")
    assert [o.hours for o in evidence.observations] == [-12.0, 25.0]


def test_a_table_with_semicolons_may_use_decimal_commas():
    text = "\ufefftime;gravity;room\n0 h;1,090;18\n1,5 d;1,070;18\n"
    evidence = evidence_from_csv(text, "a.csv")
    assert evidence.observations[1] == Observation(36.0, 1.070)
    assert evidence.setup.room_celsius == 18.0


def test_events_and_rooms_are_read_with_their_units():
    text = (
        "time,gravity,temperature,room,event\n0 h,1.080,,21,\n24 h,1.070,72 °F,,sugar 20 g/L\n"
        "30 h,,,,dilution 1.10\n36 h,,,,rack\n40 h,,,16,\n50 h,,,,nutrient\n60 h,,,,repitch\n"
    )
    evidence = evidence_from_csv(text, "a.csv")
    assert evidence.observations[1].celsius == pytest.approx(22.222, abs=0.001)
    assert set(evidence.events) == {
        Event(24.0, "sugar", 20.0),
        Event(30.0, "dilution", 1.10),
        Event(36.0, "rack"),
        Event(40.0, "temperature", 16.0),
        Event(50.0, "nutrient"),
        Event(60.0, "repitch"),
    }


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "a.csv is empty; give it"),
        ("time,sg\n0 h,1.09\n", 'line 1: no column "gravity"'),
        ("time,gravity\n0 h,1096\n", 'line 2: gravity "1096" is out of range; write it as 1.096'),
        ("time,gravity\n0 h,24\n", 'line 2: gravity "24" looks like Brix'),
        ("time,gravity\n0 h,1.09\n24 h,18.5 Brix\n", "line 3: gravity"),
        ("time,gravity\n0 h,18.5 Brix\n", "a refractometer does not show gravity"),
        ("time,gravity\n0 h,soon\n", 'gravity "soon" is not a number'),
        ("time,gravity\n0 h,1500\n", "between 0.980 and 1.200"),
        ("time,gravity\nTuesday,1.09\n", 'line 2: time "Tuesday" is not a time; write'),
        ("time,gravity\n30,1.09\n", 'time "30" is not a time'),
        ("time,gravity\n,1.09\n", "line 2: no time"),
        ("time,gravity,temperature\n0 h,1.09,72\n", 'if it is °F, write "72 °F"'),
        ("time,gravity,event\n0 h,1.09,prayed\n", 'event "prayed" is not known; write'),
        ("time,gravity,event\n0 h,1.09,sugar 2 lb\n", "sugar 20 g/L"),
        ("time,gravity\n5 d,1.02\n", "the first reading is 120 h after the pitch"),
        ("time,gravity\n", "has no gravity"),
        ("time,gravity\n0 h,1,090\n", "part the columns with semicolons"),
        (
            "time,gravity\n2026-10-06T08:00,1.09\n2026-10-07T08:00Z,1.08\n",
            "write all of them alike",
        ),
    ],
)
def test_a_bad_table_is_refused_in_one_clear_line(text, says):
    with pytest.raises(TableError) as caught:
        evidence_from_csv(text, "a.csv")
    assert says in str(caught.value)
    assert str(caught.value).startswith("a.csv")
    assert "\n" not in str(caught.value)


def test_a_late_first_reading_is_welcome_once_the_original_gravity_is_given():
    evidence = evidence_from_csv("time,gravity\n5 d,1.02\n", "a.csv", og=1.085)
    assert evidence.setup.og == 1.085


OLD = "time,gravity\n0 d,1.090\n2 d,1.060\n4 d,1.025\n6 d,1.004\n9 d,0.996\n12 d,0.994\n"


def test_a_finished_table_teaches_and_an_unfinished_one_is_refused_by_name():
    learned = learn([finished_from_csv(OLD, "old.csv")])
    plain, taught = (forecast_from_csv(PLAIN, "a.csv", learned=one) for one in (None, learned))
    assert plain.crossings != taught.crossings
    with pytest.raises(TableError) as caught:
        finished_from_csv(PLAIN, "new.csv")
    assert str(caught.value).startswith("new.csv cannot be learned from: it has 2 readings after")


def test_json_has_the_promised_keys_and_no_infinity():
    given = forecast_from_csv(PLAIN, "a.csv", below=(1.030, 1.000, 0.990))
    document = as_json("a.csv", given)
    assert set(document) == {
        "file", "crossings", "not_finishing", "state", "next_reading_h", "curve",
    }  # fmt: skip
    assert set(document["curve"]) == {"h", "q10", "q50", "q90"}
    assert set(document["crossings"][0]) == {"below", "q10_h", "q50_h", "q90_h"}
    json.dumps(document, allow_nan=False)
