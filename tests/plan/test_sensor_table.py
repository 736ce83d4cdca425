"""A sensor's table as readings for the log: what is read, what is left out, and why."""

from contextlib import suppress
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.damson import PITCHED, at, damson, no_forecast
from winebench.model.edits import changed
from winebench.model.log import Reading
from winebench.plan.sensor.table import TableError, TableReader, sensor_table, table_text
from winebench.plan.sensor.words import ends, said_of
from winebench.plan.work_out import outlook
from winebench.units import Gravity, Temperature

BATCH = damson(*PITCHED)
PITCH = next(entry.at for entry in BATCH.actions if entry.step == "pitch")
NOW = at("2026-10-20T18:00")


def read(text, project=BATCH, now=NOW):
    return sensor_table(project, text, now)


def one(text, **fields):
    """Return the one reading of a table that has nothing else."""
    found = read(text, **fields)
    assert (found.unread, found.outside) == ((), ())
    (reading,) = found.readings
    return reading


def why(row, head="time,gravity,temperature"):
    """Return the sentence about the one row that cannot be read."""
    found = read(f"{head}\n{row}\n")
    assert found.readings == ()
    (left,) = found.unread
    assert left.row == 2
    return left.sentence


# --- what is read ------------------------------------------------------------------------------


def test_a_row_is_a_reading_with_its_time_gravity_temperature_and_note():
    reading = one(
        "time,gravity,temperature,note\n2026-10-06T18:30+02:00,1.0643,20.5 °C,smells ripe\n"
    )
    assert reading.at == at("2026-10-06T18:30")
    assert reading.gravity == Gravity("1.0643")
    assert reading.temperature == Temperature("20.5 °C")
    assert reading.note == "smells ripe"
    assert reading.instrument == "hydrometer"


@pytest.mark.parametrize(
    "text",
    [
        "time,gravity\n2026-10-06T18:30,1.064\n",
        "\ufefftime;gravity\r\n2026-10-06 18:30;1,064\r\n",
        "time\tgravity\n2026-10-06T18:30:00\t1,064\n",
        'Time,Gravity\n\n2026-10-06T18:30,"1,064"\n',
        "gravity,time\n1.064,2026-10-06T16:30Z\n",
        "time (UTC),gravity (SG)\n2026-10-06T16:30,1.064\n",
        f"time (h),gravity\n{(at('2026-10-06T18:30') - PITCH).total_seconds() / 3600},1.064\n",
    ],
)
def test_separators_decimal_commas_offsets_and_headings_all_say_the_same(text):
    reading = one(text)
    assert reading.at == at("2026-10-06T18:30")
    assert reading.at.utcoffset() is not None
    assert reading.gravity is not None
    assert reading.gravity.value == 1.064


def test_hours_and_days_count_from_the_pitch():
    found = read('time,gravity\n30 h,1.070\n1.5 d,1.066\n"2,5 d",1.050\n')
    hours = [(reading.at - PITCH) / timedelta(hours=1) for reading in found.readings]
    assert hours == [30.0, 36.0, 60.0]


def test_hours_without_a_pitch_are_asked_about():
    found = read("time,gravity\n30 h,1.070\n2026-10-06T18:30,1.064\n", damson())
    assert len(found.readings) == 1
    assert 'tick off "Pitch the yeast" first' in found.unread[0].sentence


def test_a_unit_stands_in_the_value_or_in_the_heading_else_it_is_the_projects_own():
    warm = changed(BATCH, room=Temperature("70 °F"))
    head = "time,gravity,temperature"
    assert one(f"{head}\n30 h,1.064,68 °F\n").temperature == Temperature("68 °F")
    assert one(f"{head} (°F)\n30 h,1.064,68\n").temperature == Temperature("68 °F")
    assert one(f"{head} [deg C]\n30 h,1.064,20\n", project=warm).temperature.celsius == 20.0
    assert one(f"{head}\n30 h,1.064,68\n", project=warm).temperature == Temperature("68 °F")
    assert one(f"{head}\n30 h,1.064,20\n").temperature == Temperature("20 °C")
    assert one("time,gravity (°Brix)\n30 h,15.5\n").gravity == Gravity("15.5 brix")
    assert one("time,gravity\n30 h,15.5 °Bx\n").gravity.scale == "Brix"


def test_digits_that_no_instrument_means_are_cut():
    reading = one("time,gravity,temperature\n30 h,1.06432178,20.4375\n")
    assert reading.gravity == Gravity("1.06432")
    assert reading.temperature == Temperature("20.43 °C")


def test_local_times_follow_the_clock_change_and_the_doubled_hour_is_told_by_its_order():
    # In Berlin clocks went back on Sunday 25 October 2026 at 03:00 (EU Directive 2000/84/EC:
    # the last Sunday of October, 01:00 UTC).
    now = datetime(2026, 10, 30, 12, tzinfo=ZoneInfo("Europe/Berlin"))
    rows = ("01:30", "02:15", "02:45", "02:15", "02:45", "03:15")
    text = "time,gravity\n" + "\n".join(
        f"2026-10-25T{clock},1.0{50 - n}" for n, clock in enumerate(rows)
    )
    found = read(text, now=now)
    in_utc = [f"{reading.at.astimezone(UTC):%H:%M}" for reading in found.readings]
    assert in_utc == ["23:30", "00:15", "00:45", "01:15", "01:45", "02:15"]


def test_spreadsheets_other_encodings_are_read():
    text = "time;gravity;temperature (°F);note\n30 h;1,064;68;süß\n"
    for data in (
        text.encode(),
        text.encode("utf-8-sig"),
        text.encode("utf-16"),
        text.encode("cp1252"),
    ):
        assert one(table_text(data)).note == "süß"


# --- what is left out --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ("06/10/2026 18:30,1.064,20", "is not a time; write 2026-10-06T18:30"),
        (",1.064,20", "no time; write one"),
        ("30 h,,20", "no gravity; write one such as 1.064"),
        ("30 h,1064,20", 'Did you mean "1.064"?'),
        ("30 h,sunk,20", "is not a gravity; write one such as 1.090"),
        ("30 h,1.064,200", "not a kitchen temperature; check °F or °C"),
        ("30 h,1.064,68", 'A must is not at 68 °C. Did you mean "68 °F"?'),
        ("30 h,1.064,warm", "is not a temperature; write 68 °F or 20 °C"),
        ("30 h,1,064,20", "part the columns with semicolons"),
        ("30 h,1,020", "part the columns with semicolons"),
        ("1e9 d,1.064,20", "is not a time"),
        ("9999999 d,1.064,20", "check it"),
        ("1026-10-06T18:30,1.064,20", "is in the year 1026; check it"),
    ],
)
def test_a_row_that_cannot_be_read_says_what_and_what_to_do(row, said):
    assert said in why(row)


def test_bad_rows_are_counted_as_a_spreadsheet_counts_and_the_others_are_read():
    found = read("time,gravity\n30 h,1.07\n\n31 h,x\n32 h,1.068\n33 h,y\n")
    assert [reading.gravity.text for reading in found.readings] == ["1.07", "1.068"]
    assert [(left.row, left.text) for left in found.unread] == [(4, "31 h · x"), (6, "33 h · y")]
    assert found.rows == 4


def test_rows_outside_the_batch_are_said_and_left_out():
    found = read(
        "time,gravity\n-25 h,1.09\n-23 h,1.09\n2026-10-20T18:30,1.0\n2026-10-20T19:30,1.0\n"
    )
    assert len(found.readings) == 2
    early, coming = found.outside
    assert (early.row, coming.row) == (2, 5)
    assert "more than a day before the yeast went in" in early.sentence
    assert "is still to come; check the sensor's clock" in coming.sentence


def test_other_columns_are_named_and_not_used():
    found = read("time,gravity,battery,signal\n30 h,1.07,3.9,-60\n")
    assert found.ignored == ("battery", "signal")
    assert 'Columns not used: "battery", "signal".' in list(said_of(found))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "the table is empty"),
        ("\n\n", "the table is empty"),
        ("when,gravity\n30 h,1.07\n", 'no column is named "time"'),
        ("time,density\n30 h,1.07\n", 'no column is named "gravity"'),
        ("time,gravity,gravity\n30 h,1.07,1.07\n", 'two columns are named "gravity"'),
        ("time,gravity,temperature (K)\n30 h,1.07,293\n", 'unit "K" of temperature is not known'),
        ("time,gravity (kg/m3)\n30 h,1070\n", 'unit "kg/m3" of gravity is not known'),
        ("time (moons),gravity\n1,1.07\n", 'unit "moons" is not known'),
    ],
)
def test_what_is_no_table_of_readings_is_refused_in_one_sentence(text, said):
    with pytest.raises(TableError) as caught:
        read(text)
    assert said in str(caught.value)
    assert "\n" not in str(caught.value)


# --- twice the same ----------------------------------------------------------------------------


def test_the_same_table_twice_adds_nothing():
    text = "time,gravity\n30 h,1.07\n31 h,1.069\n31 h,1.069\n31 h,1.068\n"
    first = read(text)
    assert (len(first.readings), first.known) == (3, 1)
    after = first.edit(BATCH).apply(BATCH)
    again = read(text, after)
    assert (again.readings, again.known) == ((), 4)
    assert again.edit(after).apply(after) == after
    assert read(text) == first, "the same table and log give the same entries, ids too"


def test_a_reading_typed_by_hand_is_known_by_its_time_and_gravity():
    typed = Reading(id="mine", at=PITCH + timedelta(hours=30), gravity=Gravity("1,070"))
    found = read("time,gravity\n30 h,1.07\n30 h,1.071\n", damson(*PITCHED, typed))
    assert [reading.gravity.text for reading in found.readings] == ["1.071"]


@settings(max_examples=60, deadline=None)
@given(
    rows=st.lists(
        st.tuples(st.integers(-30, 500), st.sampled_from(["1.07", "1.064", "x", ""])), max_size=40
    )
)
def test_every_row_is_accounted_for_and_ids_are_apart(rows):
    text = "time,gravity\n" + "".join(f"{hour} h,{gravity}\n" for hour, gravity in rows)
    found = read(text)
    left = len(found.unread) + len(found.outside) + found.known
    assert len(found.readings) + left == found.rows == len(rows)
    after = found.edit(BATCH).apply(BATCH)
    ids = [entry.id for entry in after.log]
    assert len(set(ids)) == len(ids)
    assert list(found.readings) == sorted(found.readings, key=lambda reading: reading.at)
    assert read(text, after).readings == ()


@settings(max_examples=30, deadline=None)
@given(text=st.text(max_size=300))
def test_no_text_whatever_breaks_the_reader(text):
    for table in (text, f"time,gravity\n{text}"):
        with suppress(TableError):
            found = read(table)
            left = len(found.unread) + len(found.outside) + found.known
            assert len(found.readings) + left == found.rows


# --- a hundred thousand ------------------------------------------------------------------------


def long_table(count):
    rows = (
        f"{n / 240:.5f} h,{1.09 - 0.09 * n / count:.5f},{20 + n % 50 / 10}" for n in range(count)
    )
    return "time,gravity,temperature\n" + "\n".join(rows)


def test_a_hundred_thousand_rows_are_read_in_pieces_and_planned():
    reader = TableReader(BATCH, long_table(100_000), NOW)
    pieces, more, share = 0, True, 0.0
    while more:
        more = reader.read_some()
        pieces += 1
        assert reader.share >= share
        share = reader.share
    assert pieces >= 20
    found = reader.table()
    assert (len(found.readings), found.unread) == (100_000, ())
    first, last = ends(found)
    assert len(first) + len(last) == 8
    after = found.edit(BATCH).apply(BATCH)
    seen = outlook(after, NOW + timedelta(days=10), no_forecast)
    assert seen.readings[-1].id == found.readings[-1].id
