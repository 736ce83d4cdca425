"""`winebench log`: readings, actions and notes from a terminal."""

import json
from datetime import UTC, datetime, timedelta

import pytest

from tests.cli.program import bad, good
from tests.cli.test_looking_back import of_2024
from tests.plan.damson import STABLE, at, stabilised, ticked
from winebench.model.edits import changed
from winebench.store.project_file import read, write


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


@pytest.mark.parametrize("typed", ["banana", "a smidge"])
def test_an_amount_that_cannot_be_read_is_refused_and_nothing_is_written(raspberry, typed):
    before = raspberry.read_bytes()
    told = bad("log", raspberry, "action", "first-nitrogen", "--record", f"grams={typed}")
    assert f'"{typed}" cannot be read as "Nutrient"' in told
    assert raspberry.read_bytes() == before


def test_an_amount_is_kept_as_typed_and_shown_with_what_it_comes_to(raspberry):
    good("log", raspberry, "action", "second-nitrogen", "--record", "grams=1/2 oz",
         "--because", "it smells of eggs")  # fmt: skip
    log = json.loads(raspberry.read_text("utf-8"))["log"]
    assert log[-1]["records"] == [{"name": "grams", "value": "1/2 oz"}]
    steps = json.loads(good("outlook", raspberry, "--json"))["steps"]
    reason = next(step["reason"] for step in steps if step["key"] == "second-nitrogen")
    # An ounce is 28.349523 g (NIST Handbook 44 App. C).
    assert "Nutrient: 1/2 oz (14.2 g)" in reason


def test_what_a_reason_does_not_open_is_said_before_it_is_taken(raspberry):
    before = raspberry.read_bytes()
    told = bad("log", raspberry, "action", "declare-stable")
    assert "stabilising and bottling still wait" in told
    assert raspberry.read_bytes() == before


def test_an_old_log_with_words_for_an_amount_still_opens(raspberry):
    data = json.loads(raspberry.read_text("utf-8"))
    pitch = next(entry for entry in data["log"] if entry.get("step") == "pitch")
    pitch["records"] = [{"name": "og", "value": "about right"}]
    raspberry.write_text(json.dumps(data), "utf-8")
    steps = json.loads(good("outlook", raspberry, "--json"))["steps"]
    reason = next(step["reason"] for step in steps if step["key"] == "pitch")
    assert "Gravity: about right" in reason


def test_a_record_that_the_step_does_not_ask_for_is_refused_with_those_it_does(damson):
    # 3 (measure the fruit): "ta=60" would have been kept and never read.
    before = damson.read_bytes()
    message = bad("log", damson, "action", "measure-fruit", "--record", "ta=60")
    assert 'no record "ta"; it asks for brix, acid, ph, temperature' in message
    assert damson.read_bytes() == before


@pytest.fixture
def stable(damson):
    """Return a project that was declared stable yesterday, by whatever clock."""
    moved = datetime.now(UTC) - at("2026-11-22T20:00+01:00")
    whole = timedelta(days=moved.days)
    log = tuple(changed(entry, at=entry.at + whole) for entry in STABLE)
    write(damson, changed(read(damson), log=log, start=None))
    return damson


def test_stabilising_goes_by_the_ph_that_is_noted_with_it(stable):
    # Common practice: stabilised with a known pH below 3.8, and the sulfite known.
    tick = ("log", stable, "action", "stabilise")
    assert "pH below 3.8 (not read yet); the sulfite noted" in bad(*tick)
    sulfite = ("--record", "mg-per-l=40")
    assert "pH below 3.8 (noted: 3.9)" in bad(*tick, *sulfite, "--record", "ph=3.9")
    good(*tick, *sulfite, "--record", "ph=3.9", "--because", "acid follows tomorrow")
    good(*tick, *sulfite, "--record", "ph=3.5")


def test_a_step_that_asks_for_a_trial_takes_it_or_a_reason(stable):
    # Common practice: sweetened after a trial in the glass, or for a reason.
    good("log", stable, "action", "stabilise", "--record", "ph=3.4", "--record", "sulfite=2 g")
    acid = ("log", stable, "action", "sweeten", "--record", "acid=17 g")
    assert "a trial in the glass noted" in bad(*acid)
    good(*acid, "--record", "trial=1 g/L: rounder")


def test_a_tick_of_a_day_past_is_held_to_what_was_known_on_that_day(stable):
    tick = ("log", stable, "action", "stabilise", "--record", "ph=3.4", "--record", "mg-per-l=40")
    declared = next(one.at for one in read(stable).actions if one.step == "declare-stable")
    before, after = (declared + timedelta(hours=hours) for hours in (-1, 1))
    assert "declared dry and stable" in bad(*tick, "--at", before.isoformat())
    good(*tick, "--at", after.isoformat())


def test_an_amount_that_can_hurt_is_refused_and_a_large_one_asks_why(stable):
    # 200 mg/L of SO2 in all is the limit in wine of other fruit.
    tick = ("log", stable, "action", "stabilise", "--record", "ph=3.4", "--record")
    before = stable.read_bytes()
    assert "can harm" in bad(*tick, "sulfite=300 tablets", "--because", "to be sure")
    assert "no more sulfite than 200 mg/L" in bad(*tick, "mg-per-l=250")
    assert stable.read_bytes() == before
    good(*tick, "mg-per-l=250", "--because", "it bound at once")


def test_sulfite_is_asked_about_with_what_was_given_before_and_nothing_is_logged(tmp_path):
    # 150 and 60 mg/L are 210: fruit wine on sale holds 200 at the most in the EU.
    path = tmp_path / "damson.winebench"
    log = (*STABLE, stabilised("2026-11-22T10:00+01:00", **{"mg-per-l": "96.4"}))
    write(path, of_2024(*log))
    before = path.read_bytes()
    tick = ("log", path, "action", "stabilise", "--at", "2024-11-23T10:00+01:00")
    tick += ("--record", "ph=3.4", "--record", "mg-per-l=60")
    message = bad(*tick)
    # 4 tablets of 0.44 g in 18.93 L of must are 53.6 mg/L, as the recipe has it; 96.4 came later.
    assert "with the 150 mg/L given until 22 November, this makes 210 mg/L added" in message
    assert "--because" in message
    assert path.read_bytes() == before
    good(*tick, "--because", "measured: 12 free")
    seen = json.loads(good("outlook", path, "--json"))
    assert any(one["key"] == "sulfite-given" for one in seen["cautions"])


def test_a_step_that_is_none_here_is_listed_by_its_own_word(tmp_path):
    path = tmp_path / "damson.winebench"
    write(path, of_2024(*STABLE, ticked("hum-to-it", "2026-11-23T10:00+01:00", tune="low")))
    assert "hum-to-it · Tune: low" in good("log", path, "list")
    good("outlook", path)
