"""The headless commands, as processes, on real files."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.program import bad, good, run

SAMPLES = ("damson-design", "raspberry-day-3", "pear-under-airlock", "elder-blackberry-bottled")


def test_new_refuses_to_write_over_a_file(damson):
    before = damson.read_bytes()
    assert "exists already" in bad("new", damson)
    assert damson.read_bytes() == before


def test_a_new_project_can_be_in_the_kitchen_of_another(damson, tmp_path):
    fig = tmp_path / "fig.winebench"
    good("new", fig, "--kitchen-of", damson)
    made, other = (json.loads(path.read_bytes()) for path in (fig, damson))
    for what in ("kitchen", "room", "pantry", "money"):
        assert made.get(what) == other.get(what)
    assert not made["recipe"].get("lines")


def test_a_new_project_is_sound_enough_to_plan(tmp_path):
    path = tmp_path / "plum.winebench"
    good("new", path, "--gallon", "US")
    assert "STEPS" in good("outlook", path)


@pytest.mark.parametrize("sample", SAMPLES)
def test_outlook_json_is_one_document_with_what_the_window_shows(sample, tmp_path):
    path = tmp_path / "wine.winebench"
    good("new", path, "--like", sample)
    seen = json.loads(good("outlook", path, "--json"))
    assert {"must", "lines", "steps", "today", "cautions", "forecast", "readings", "vessels",
            "bottles", "shopping", "safety"} <= set(seen)  # fmt: skip
    assert seen["must"]["gravity"]["workings"]["source"]


def test_outlook_shows_tannin_and_the_time_to_drink_beside_what_is_wanted():
    # Damsons as plums, 197 mg/100 g (USDA 2015), 0.4 of it kept: 3 lb in a US gallon are 1361 g x
    # 0.00197 x 0.4 / 3.785 L = 0.28 g/L.
    said = good("outlook", "--like", "damson-design")
    assert "Tannin g/L       0.28 g/L (0.08–0.94)     want 0.25–0.85" in said
    assert "want by 12 months" in said
    must = json.loads(good("outlook", "--like", "damson-design", "--json"))["must"]
    assert must["tannin"]["text"] == "0.28"
    assert "USDA proanthocyanidin database" in must["tannin"]["workings"]["source"]
    assert must["ready"]["unit"] == "months"
    by_key = {want["key"]: want for want in must["wants"]}
    assert by_key["drink"]["want_high"] == 12
    assert by_key["drink"]["actual"] == must["ready"]


@pytest.mark.parametrize("sample", SAMPLES)
def test_outlook_text_fits_a_terminal(sample):
    for line in good("outlook", "--like", sample).splitlines():
        assert len(line) <= 100, line


def test_check_tells_of_a_recipe_that_contradicts_its_target(damson):
    said = " ".join(good("check", damson).split())
    assert "This must will read 1.07" in said
    assert "not the 1.088–1.094 you wrote" in said
    assert re.search(r"Add 1 lb \d.* oz \(\d+ g\) white sugar", said)


def test_check_ends_with_1_when_something_holds_a_step(damson):
    thin = damson.read_text("utf-8").replace('"1 1/4 lb"', '"1 oz"')
    damson.write_text(thin, "utf-8")
    result = run("check", damson)
    assert result.returncode == 1
    assert "too thin to keep" in result.stdout


def test_check_stops_at_a_poison_on_the_recipe(damson):
    data = json.loads(damson.read_text("utf-8"))
    next(x for x in data["recipe"]["lines"] if x["kind"] == "fruit")["fruit"] = "yew berries"
    damson.write_text(json.dumps(data), "utf-8")
    result = run("check", damson)
    assert result.returncode == 1
    assert "stop: Yew: a poison that must never go in" in result.stdout


def test_check_says_what_where_and_what_to_do_about_a_bad_amount(damson):
    text = damson.read_text("utf-8").replace('"1 1/4 lb"', '"2 furlongs"')
    damson.write_text(text, "utf-8")
    message = bad("check", damson)
    assert "furlongs" in message
    assert "recipe.lines[" in message
    assert damson.read_text("utf-8") == text


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b'{"format": "winebench", "vers', "truncated"),
        (b'{"hello": 1}', "not a project file"),
        (b"\xff\xfe\x00", "not utf-8 text"),
        (b'{"format": "winebench", "version": 99}', "newer"),
    ],
)
def test_a_foreign_truncated_or_newer_file_is_refused_and_left_alone(tmp_path, content, words):
    path = tmp_path / "odd.winebench"
    path.write_bytes(content)
    for command in (("check", path), ("outlook", path), ("log", path, "note", "hello")):
        assert words in bad(*command).lower()
    assert path.read_bytes() == content


def test_a_missing_file_is_one_sentence(tmp_path):
    assert "no such file" in bad("outlook", tmp_path / "none.winebench")


def test_a_time_outside_the_years_of_a_project_is_refused(damson):
    assert "in the year 9999" in bad("outlook", damson, "--at", "9999-12-31T23:59")
    assert "in the year 1;" in bad("outlook", damson, "--at", "0001-01-01")


@pytest.mark.parametrize("options", [(), ("--json",)])
def test_an_answer_that_cannot_be_written_is_one_line(damson, options):
    if not Path("/dev/full").is_char_device():
        pytest.skip("no always-full device here")
    with open("/dev/full", "wb", 0) as full:
        command = [sys.executable, "-m", "winebench", "outlook", str(damson), *options]
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert done.returncode == 2
    assert done.stderr.startswith("winebench: the answer cannot be written (No space left")
    assert done.stderr.count("\n") == 1


def test_a_terminal_without_our_letters_gets_the_plan_and_json_stays_utf_8(damson):
    def shown(*options: str) -> bytes:
        command = [sys.executable, "-W", "error", "-m", "winebench", "outlook", str(damson)]
        plain = {**os.environ, "PYTHONIOENCODING": "ascii"}
        return subprocess.run(
            [*command, *options], capture_output=True, check=True, env=plain
        ).stdout

    assert b"STEPS" in shown()
    assert "°C" in shown("--json").decode("utf-8")
    assert json.loads(shown("--json").decode("utf-8"))["steps"]


@pytest.mark.parametrize("command", ["check", "outlook", "card"])
def test_a_recipe_for_nothing_is_one_line(damson, tmp_path, command):
    fields = json.loads(damson.read_text("utf-8"))
    fields["recipe"]["basis"] = "0 L"
    damson.write_text(json.dumps(fields), "utf-8")
    out = ("-o", tmp_path / "card.pdf") if command == "card" else ()
    assert "which is nothing" in bad(command, damson, *out)
    fields["recipe"]["basis"], fields["make"]["size"] = "1 gal US", "0 L"
    damson.write_text(json.dumps(fields), "utf-8")
    assert 'The batch is to be "0 L", which is nothing' in bad(command, damson, *out)


def test_scaling_to_five_gallons_is_five_times_the_fruit(damson, tmp_path):
    one = json.loads(good("scale", damson, "--to", "1 gal US", "--json"))
    five = json.loads(good("scale", damson, "--to", "5 gal US", "--json"))
    for before, after in zip(one["lines"], five["lines"], strict=True):
        if before["kind"] in ("fruit", "sugar", "water"):
            assert after["scaled"]["value"] == pytest.approx(5 * before["scaled"]["value"])
    out = tmp_path / "five.winebench"
    good("scale", damson, "--to", "5 gal US", "-o", out)
    assert json.loads(out.read_text("utf-8"))["make"]["size"] == "5 gal US"


def test_scaling_to_nonsense_is_refused(damson):
    before = damson.read_bytes()
    assert "furlongs" in bad("scale", damson, "--to", "2 furlongs")
    assert damson.read_bytes() == before


@pytest.mark.parametrize(("command", "head"), [("card", b"%PDF"), ("labels", b"%PDF"),
                                               ("calendar", b"BEGIN:VCALENDAR\r\n")])  # fmt: skip
def test_pages_are_written(raspberry, tmp_path, command, head):
    out = tmp_path / "page.out"
    good(command, raspberry, "-o", out)
    assert out.read_bytes().startswith(head)


@pytest.mark.parametrize("command", ["card", "labels", "calendar"])
def test_a_page_that_cannot_be_written_is_one_sentence(raspberry, tmp_path, command):
    assert "nowhere" in bad(command, raspberry, "-o", tmp_path / "nowhere" / "page.out")


@pytest.mark.parametrize(
    "arguments", [("work", "hydrometer", "sg=1.09"), ("check", "x.winebench"), ("samples",)]
)
def test_commands_without_pages_never_load_qt(arguments):
    code = (
        "import sys; from winebench.cli import main\n"
        f"main({list(arguments)!r})\n"
        "sys.exit('PySide6' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=False)
    assert done.returncode == 0


def test_an_unknown_command_or_option_is_one_line():
    bad("outlook", "--sideways")
    bad("log", "x.winebench", "dance")


@pytest.mark.skipif(sys.platform == "win32", reason="TZ does not set the zone there")
def test_steps_beyond_a_clock_change_carry_the_offset_of_their_own_day(damson):
    command = [sys.executable, "-m", "winebench", "outlook", str(damson), "--json"]
    done = subprocess.run(
        [*command, "--at", "2026-10-20T12:00"],
        env={**os.environ, "TZ": "Europe/Berlin"}, capture_output=True, check=True,
    )  # fmt: skip
    seen = json.loads(done.stdout)
    assert seen["at"] == "2026-10-20T12:00:00+02:00"
    # Summer time ends there on 25 October 2026 (EU directive 2000/84/EC).
    for step in seen["steps"]:
        if step["likely"] and "2026-10-26" < step["likely"] < "2027-03-28":
            assert step["likely"].endswith("+01:00"), step["key"]


def test_a_word_that_is_neither_command_nor_file_is_one_line():
    assert "no file" in bad("frobnicate")


@pytest.mark.parametrize("command", ["card", "labels", "stand-in", "calendar", "shopping"])
def test_a_page_is_never_written_over_a_project(tmp_path, command):
    mine = tmp_path / "mine.winebench"
    good("new", mine, "--like", "damson-design")
    before = mine.read_bytes()
    said = bad(command, mine, "-o", mine)
    assert "is the name of a project" in said
    assert mine.read_bytes() == before


def test_a_scaled_or_solved_recipe_is_never_written_over_another_project(tmp_path):
    mine, other = tmp_path / "mine.winebench", tmp_path / "other.winebench"
    good("new", mine, "--like", "damson-design")
    good("new", other, "--like", "raspberry-day-3")
    before = other.read_bytes()
    assert "exists already" in bad("scale", mine, "--to", "3 gal", "-o", other)
    assert "exists already" in bad("solve", mine, "--for", "sugar", "-o", other)
    assert other.read_bytes() == before
    good("scale", mine, "--to", "3 gal", "-o", mine)  # its own file is what was asked for


def test_a_new_project_takes_its_gallon_in_any_letters_and_wants_a_name(tmp_path):
    path = tmp_path / "plum.winebench"
    good("new", path, "--gallon", "us")
    assert json.loads(path.read_text("utf-8"))["gallon"] == "US"
    assert "needs a name" in bad("new", "")


def test_no_vessel_at_all_is_refused(damson):
    assert "--in names no vessel" in bad("scale", damson, "--in", "")
