"""`winebench log`: readings, actions and notes from a terminal."""

import json

import pytest

from tests.cli.program import bad, good


def test_an_empty_note_or_gravity_is_refused(raspberry):
    before = raspberry.read_bytes()
    assert "some words" in bad("log", raspberry, "note", "  ")
    assert "not a gravity" in bad("log", raspberry, "reading", "--sg", "")
    assert raspberry.read_bytes() == before


def test_a_logged_reading_is_corrected_for_temperature(raspberry):
    text = good("log", raspberry, "reading", "--sg", "1.042", "--temp", "77 degF")
    assert "1.043" in text
    readings = json.loads(good("outlook", raspberry, "--json"))["readings"]
    # 25 °C on a 20 °C hydrometer: water alone is 0.0012 lighter (handbook densities 998.20
    # and 997.05 kg/m3), and the glass gives 0.00013 back.
    assert readings[-1]["corrected"] == pytest.approx(1.0431, abs=0.0003)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("1096", "1.096"), ("0.0998", "0.998"), ("24", "24 brix"), ("1.96", "1.096")],
)
def test_a_slip_of_the_gravity_is_asked_about_not_logged(raspberry, typed, meant):
    before = raspberry.read_bytes()
    assert f'Did you mean "{meant}"' in bad("log", raspberry, "reading", "--sg", typed)
    assert raspberry.read_bytes() == before


def test_a_reading_long_before_the_pitch_is_refused(raspberry):
    before = raspberry.read_bytes()
    message = bad("log", raspberry, "reading", "--sg", "1.090", "--at", "2020-01-01T12:00")
    assert "before the yeast" in message
    assert raspberry.read_bytes() == before


def test_bottling_what_can_ferment_again_is_refused_whatever_the_reason(raspberry):
    before = raspberry.read_bytes()
    bad("log", raspberry, "action", "bottle", "--because", "the card says week six")
    assert raspberry.read_bytes() == before


def test_a_done_step_is_logged_with_what_was_recorded(raspberry):
    good("log", raspberry, "action", "stir", "--record", "smell=fresh")
    good("log", raspberry, "note", "quiet today")
    log = json.loads(raspberry.read_text("utf-8"))["log"]
    assert log[-2]["records"] == [{"name": "smell", "value": "fresh"}]
    assert log[-1]["text"] == "quiet today"


def test_a_reading_that_is_still_to_come_is_refused(raspberry):
    before = raspberry.read_bytes()
    message = bad("log", raspberry, "reading", "--sg", "1.020", "--at", "2099-01-01T12:00")
    assert "still to come" in message
    assert raspberry.read_bytes() == before


def test_a_measurement_that_is_no_number_is_refused(damson):
    before = damson.read_bytes()
    bad("log", damson, "action", "measure-fruit", "--record", "brix=2 furlongs")
    assert damson.read_bytes() == before
