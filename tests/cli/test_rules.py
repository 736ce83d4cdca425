"""The commands without a project: a trade rule by itself, a forecast from readings alone."""

import json

import pytest

from tests.cli.program import bad, good


def test_work_runs_a_rule_with_units():
    text = good("work", "hydrometer", "sg=1.090", "at=30 degC", "calibrated=20 degC")
    # Water alone (998.20 and 995.65 kg/m3, handbook) gives 1.0928, the glass takes 0.0003 off, and
    # a must swells more than water: ICUMSA densities at 20 and 30 °C give 1.0932.
    assert "1.0932" in text
    assert "Source" in text


def test_work_lists_its_rules_and_refuses_an_unknown_one():
    assert "hydrometer" in good("work")
    bad("work", "alchemy")


def test_forecast_reads_a_csv_of_readings(tmp_path):
    path = tmp_path / "readings.csv"
    path.write_text("time,gravity,temperature\n0 h,1.090,20\n1 d,1.082,21\n2 d,1.064,22\n", "utf-8")
    answers = json.loads(good("forecast", path, path, "--json"))
    assert [answer["file"] for answer in answers] == [str(path)] * 2
    crossing = answers[0]["crossings"][0]
    assert crossing["below"] == 1.03
    assert 48 < crossing["q10_h"] <= crossing["q50_h"] <= crossing["q90_h"]
    assert set(answers[0]) >= {"not_finishing", "state", "next_reading_h", "curve"}


def test_forecast_leans_towards_own_finished_batches_and_says_so(tmp_path):
    new, old = tmp_path / "new.csv", tmp_path / "old.csv"
    new.write_text("time,gravity\n0 h,1.090\n1 d,1.082\n", "utf-8")
    days = (1.090, 1.088, 1.080, 1.070, 1.060, 1.050, 1.042, 1.034, 1.027, 1.021, 1.015, 1.010,
            1.006, 1.003, 1.000, 0.998, 0.996)  # fmt: skip
    rows = "".join(f"{day} d,{sg:.3f}\n" for day, sg in enumerate(days))
    old.write_text(f"time,gravity\n{rows}", "utf-8")
    (plain,) = json.loads(good("forecast", new, "--json"))
    (taught,) = json.loads(good("forecast", new, "--learn-from", old, "--json"))
    assert taught["crossings"][1]["q50_h"] > plain["crossings"][1]["q50_h"]
    assert "slower than the usual" in taught["learned"]
    assert "learned" not in plain
    assert good("forecast", new, "--learn-from", old, old).startswith("Going by 2 finished batches")
    refused = bad("forecast", new, "--learn-from", new)
    assert "new.csv cannot be learned from" in refused


def test_forecast_takes_brix_for_what_it_is_and_says_when_a_line_may_never_be_passed(tmp_path):
    path = tmp_path / "readings.csv"
    path.write_text("time,gravity\n0 h,1.090\n", "utf-8")
    said = good("forecast", path, "--below", "10 brix", "0.970")
    # 10 g/100 g of sucrose is 1.0400 (ICUMSA SPS-4 density over water at 20 °C).
    assert "below 1.040 after" in said
    assert "below 0.970 perhaps never" in said


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"\xff\xfe", "not UTF-8 text"),
        (b"", "is empty"),
        (b"time,gravity\n99999999 h,1.09\n", "check the time"),
        (b"time,gravity\n0001-01-01T00:00:00+10:00,1.09\n", "in the year 1"),
    ],
)
def test_forecast_refuses_a_table_of_nonsense_in_one_line(tmp_path, content, words):
    path = tmp_path / "readings.csv"
    path.write_bytes(content)
    assert words in bad("forecast", path, "--og", "1.090")
    assert "cannot be read" in bad("forecast", tmp_path)


def test_forecast_refuses_a_gravity_that_cannot_be(tmp_path):
    path = tmp_path / "readings.csv"
    path.write_text("time,gravity\n0 h,1.090\n1 d,1082\n", "utf-8")
    message = bad("forecast", path, "--json")
    assert "1.082" in message
