"""`winebench solve FILE`, as a process."""

import json

import pytest

from tests.cli.program import bad, good, run
from winebench.plan.balance import balanced
from winebench.store.project_file import read


def test_it_says_what_to_change_and_writes_nothing(damson):
    before = damson.read_bytes()
    said = good("solve", damson, "--for", "sugar")
    assert "1 1/4 lb → 1 lb 8 1/2 oz" in said
    assert "1.091 SG (1.087–1.095)" in said
    assert "Nothing was written" in said
    assert all(len(line) <= 80 for line in said.splitlines())
    assert damson.read_bytes() == before


def test_it_writes_when_asked(damson, tmp_path):
    before, other = damson.read_bytes(), tmp_path / "other.winebench"
    hold = "gravity=1.085,acidity=7.0"
    good("solve", damson, "--for", "sugar,volume", "--hold", hold, "-o", other)
    assert damson.read_bytes() == before
    must = balanced(read(other))
    assert must.sg == pytest.approx(1.085, abs=0.0005)
    assert must.acid_g_per_l == pytest.approx(7.0, abs=0.05)
    good("solve", damson, "--for", "sugar", "--hold", "gravity=22 brix", "--write")
    assert balanced(read(damson)).brix == pytest.approx(22.0, abs=0.1)


def test_json_is_one_document(damson):
    seen = json.loads(good("solve", damson, "--for", "sugar,fruit", "--json"))
    assert seen["met"] is True
    assert set(seen["held"]) == {"gravity", "acidity"}
    assert {each["what"] for each in seen["changes"]} == {"sugar", "fruit", "water"}
    assert next(f for f in seen["figures"] if f["key"] == "gravity")["after"]["text"] == "1.091"


def test_what_fights_is_told_and_nothing_is_written(damson):
    before = damson.read_bytes()
    result = run("solve", damson, "--for", "sugar,acid", "--write")
    assert (result.returncode, result.stderr) == (1, "")
    said = " ".join(result.stdout.split())
    assert "acidity cannot go under 9.4 g/L in 1 gal US, and 7.5 g/L is wanted" in said
    assert "Nothing was written." in said
    assert damson.read_bytes() == before
    told = run("solve", damson, "--for", "sugar,acid", "--json")
    assert json.loads(told.stdout)["met"] is False


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--for", "salt"), '"salt" is nothing that can change here'),
        (("--for", "sugar", "--hold", "colour"), '"colour" cannot be held; hold gravity'),
        (("--for", "sugar", "--hold", "gravity=9"), "9 brix"),
        (("--for", "sugar", "--hold", "acidity=much"), "much"),
        (("--for", "volume", "--hold", "volume"), "both held and found"),
        (("--for", "sugar", "--hold", "volume=20"), "write a volume such as 5 gal or 19 L"),
        (("--for", "sugar", "--hold", "gravity=1.09,gravity=1.1"), "gravity is held twice"),
    ],
)
def test_a_slip_is_one_sentence(damson, arguments, said):
    assert said in bad("solve", damson, *arguments)


def test_a_decimal_comma_is_no_new_target(damson):
    said = good("solve", damson, "--for", "sugar,fruit", "--hold", "gravity=1,085,acidity=7,5")
    assert said.startswith("HOLD gravity 1.085, acidity 7.5 g/L")


def test_what_is_told_is_in_the_words_of_the_household(damson):
    # The damson recipe is in gallons and pounds: so is what would do.
    result = run("solve", damson, "--for", "sugar,acid")
    said = " ".join(result.stdout.split())
    assert "hold the" not in said  # nobody asked for the volume
    assert "let the volume change. It can be met in 1.247 gal US" in said
    assert "oz of fruit" in said
    assert " kg" not in said


def test_each_figure_has_its_own_unit_in_a_batch_of_gallons(damson):
    # A gallon and a half of it: the liquid is told in gallons, before and after.
    told = good("solve", damson, "--for", "sugar,fruit", "--hold", "gravity=1.09,volume=1.5 gal")
    line = next(line for line in told.splitlines() if line.strip().startswith("Liquid"))
    assert line.split()[1:] == ["1", "gal", "→", "1.5", "gal"]
