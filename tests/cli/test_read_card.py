"""`winebench read-card`, as a process, on real cards."""

import json
import subprocess
import sys

import pytest

from tests.cli.program import bad, good, run
from winebench.store import project_file

CARD = """\
Grandmother's plum wine
3 lb plums, 2 lb sugar
1 1/2 tsp acid blend
water to 1 gallon
SG 1.085
1 packet yeast
Stir daily for 5 days.
"""


@pytest.fixture
def card(tmp_path):
    path = tmp_path / "card.txt"
    path.write_text(CARD, "utf-8")
    return path


def asked(*arguments):
    result = run("read-card", *arguments)
    assert result.returncode == 1, result.stderr
    assert result.stderr == ""
    return result.stdout


def test_a_card_with_a_bare_gallon_asks_whose_and_writes_nothing(card, tmp_path):
    out = tmp_path / "plum.winebench"
    said = asked(card, "-o", out)
    assert "? water to 1 gallon" in said
    assert "--gallon us or --gallon imperial" in said
    assert not out.exists()


def test_a_settled_card_becomes_a_project_that_can_be_planned(card, tmp_path):
    out = tmp_path / "plum.winebench"
    said = " ".join(good("read-card", card, "-o", out, "--gallon", "us").split())
    assert "not the 1.085 you wrote" in said
    made = project_file.read(out)
    assert (made.name, made.gallon, made.recipe.basis.text) == (
        "Grandmother's plum wine", "US", "1 gallon",
    )  # fmt: skip
    assert len(made.recipe.lines) == 5
    assert made.notes[0].text == "Stir daily for 5 days."
    assert "STEPS" in good("outlook", out)
    assert "exists already" in bad("read-card", card, "-o", out, "--gallon", "us")


def test_an_unknown_ingredient_is_answered_or_kept_as_a_question(card, tmp_path):
    card.write_text("2 lb sugar, water to 5 L\n3 lb moonberries\n", "utf-8")
    out = tmp_path / "moon.winebench"
    assert "--is" in asked(card, "-o", out)
    good("read-card", card, "-o", out, "--keep-questions")
    made = project_file.read(out)
    assert made.notes[0].text == "? 3 lb moonberries"
    assert made.fruits == ()
    other = tmp_path / "other.winebench"
    good("read-card", card, "-o", other, "--is", "moonberries=fruit")
    assert project_file.read(other).fruits[0].fruit == "moonberries"


def test_json_is_one_document_with_every_item(card):
    seen = json.loads(asked(card, "--json"))
    assert [row["text"] for row in seen["rows"]] == [
        "Grandmother's plum wine", "3 lb plums", "2 lb sugar", "1 1/2 tsp acid blend",
        "water to 1 gallon", "SG 1.085", "1 packet yeast", "Stir daily for 5 days.",
    ]  # fmt: skip
    assert seen["open"]
    assert not seen["wrote"]
    text = CARD.encode()
    assert all(text[r["start"] : r["end"]].decode() == r["text"] for r in seen["rows"])
    assert seen["rows"][5]["field"]["targets"]["gravity_low"] == "1.085"


def test_a_card_comes_from_standard_input_too():
    command = [sys.executable, "-W", "error", "-m", "winebench", "read-card", "-"]
    done = subprocess.run(
        command, input="2 lb sugar\nwater to 5 L\n1 packet yeast\n", capture_output=True, text=True,
        check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    assert "White sugar: 2 lb" in done.stdout


def test_a_repair_of_two_lines_is_printed_on_two(card):
    card.write_text("1 lb sugar, half now and half later\n", "utf-8")
    lines = asked(card).splitlines()
    place = lines.index('    > write "1/2 lb sugar"')
    assert lines[place + 1] == '      and on a line below it "1/2 lb sugar, fed later"'


def test_text_fits_a_terminal(card):
    card.write_text(CARD + "2 furlongs honey\njuice of 2 lemons\n" + "stir " * 60, "utf-8")
    for line in asked(card).splitlines():
        assert len(line) <= 80, line


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"\xff\xfe\x00", "not UTF-8 text"),
        (b"\n \n", "has no words"),
        (b"x" * 1_000_001, "too long"),
    ],
)
def test_what_is_no_card_is_refused_in_one_line(tmp_path, content, words):
    path = tmp_path / "card.txt"
    path.write_bytes(content)
    assert words in bad("read-card", path)


def test_bad_arguments_are_one_line(card, tmp_path):
    assert "cannot be read" in bad("read-card", tmp_path / "none.txt")
    assert "neither US nor imperial" in bad("read-card", card, "--gallon", "french")
    assert "NAME=WHAT" in bad("read-card", card, "--is", "moonberries")


@pytest.mark.parametrize(
    ("answer", "words"),
    [
        ("sloes=fruit", 'asks about "moonberries", "juice of 2 lemons"'),
        ("juice of 2 lemons=fruit", "can only be kept as note"),
    ],
)
def test_an_answer_to_what_the_card_does_not_ask_is_refused(card, answer, words):
    card.write_text("3 lb moonberries\njuice of 2 lemons\nwater to 5 L\n", "utf-8")
    assert words in bad("read-card", card, "--is", answer)


def test_marks_of_plain_text_writing_are_not_read_as_words(card, tmp_path):
    out = tmp_path / "damson.winebench"
    card.write_text(
        "# Damson\n\n**Ingredients**\n- **3 lb** damsons\n1. water to 5 L\n**Method**\n"
        "1. *Stir* daily.\n", "utf-8",
    )  # fmt: skip
    said = good("read-card", card, "-o", out)
    assert "Damsons: 3 lb" in said
    made = project_file.read(out)
    assert (made.name, made.notes[0].text) == ("Damson", "Stir daily.")


def test_reading_a_card_never_loads_qt(card):
    code = (
        "import sys; from winebench.cli import main\n"
        f"main(['read-card', {str(card)!r}])\n"
        "sys.exit('PySide6' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=False)
    assert done.returncode == 0
