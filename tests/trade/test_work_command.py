"""`winebench work` as a command: every rule as text and as JSON, with units on every argument."""

import argparse
import json
import subprocess
import sys

import pytest

import winebench.catalog.rules  # noqa: F401 - as the command itself does
from winebench.cli.arguments import CommandError
from winebench.cli.rules import work
from winebench.trade.rules import rules

NAMES = sorted(rules())


def typed(rule):
    """Give the example with its unit on every argument, as a person writes it."""
    pairs = []
    for key, value in rule.example.items():
        unit = rule.inputs[key]
        said = "" if unit in ("word", "1", "any") else f" {unit.split(' at ')[0].split(' as ')[0]}"
        pairs.append(f"{key}={value}{said}")
    return pairs


@pytest.mark.parametrize("name", NAMES)
def test_every_rule_answers_in_text_and_in_json_with_units_on_every_argument(name, capsys):
    rule = rules()[name]
    assert work(argparse.Namespace(name=name, pairs=typed(rule), json=True)) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["rule"] == name
    assert answer["source"]
    assert answer["words"]
    assert {given["name"] for given in answer["inputs"]} == set(rule.inputs)
    figures = len(answer["low"])
    assert figures == len(answer["high"]) == len(answer["figures"])
    for low, value, high in zip(answer["low"], answer["values"], answer["high"], strict=False):
        assert low <= value <= high
    assert work(argparse.Namespace(name=name, pairs=typed(rule), json=False)) == 0
    text = capsys.readouterr().out
    assert answer["result"] in text
    assert f"Source: {rule.source}" in text
    sign = ":" if figures > 1 else " ="
    assert all(f"{seen['name']}{sign} {seen['value']}" in text for seen in answer["figures"])


def command(*words):
    run = [sys.executable, "-m", "winebench", "work", *words]
    return subprocess.run(run, capture_output=True, text=True, timeout=60, check=False)


def test_an_uncertain_gravity_gives_a_range_as_a_command():
    run = command("abv-from-gravities", "og=1.090 +- 0.002", "fg=0.996", "--json")
    answer = json.loads(run.stdout)
    assert run.returncode == 0
    assert run.stderr == ""
    # By mass balance 0.46 g alcohol a gram for the low gravity, 0.50 for the high: a percent apart.
    assert answer["low"][0] < 12.0 < answer["values"][0] < 13.0 < answer["high"][0]
    assert answer["values"][1:] == [answer["low"][0], answer["high"][0]]
    assert answer["result"].endswith(")")


def test_the_figures_of_one_rule_go_into_the_next_at_full_precision():
    first = json.loads(command("solids-from-sg", "sg=1.0904321", "--json").stdout)
    second = command("sg-from-solids", f"g_per_l={first['values'][0]!r}", "--json")
    assert json.loads(second.stdout)["values"][0] == pytest.approx(1.0904321, abs=1e-7)


@pytest.mark.parametrize(
    ("pairs", "words"),
    [
        (["metabisulfite", "so2_mg_per_l=50", "litres=2 furlongs"], "furlongs"),
        (["metabisulfite", "so2_mg_per_l=50 furlongs", "litres=2"], "mg/L"),
        (["metabisulfite", "so2_mg_per_l=50"], "also needs litres"),
        (["metabisulfite", "so2_mg_per_l=50", "so2_mg_per_l=60", "litres=2"], "twice"),
        (["hydrometer", "sg=1.09", "at=50 C"], "0 to 40"),
        (["hydrometer", "sg=1.09", "at=30 C", "calibrated=60"], "10 to 30"),
        (["blend", "first=14", "second=11", "target=15", "litres=10"], "no blend"),
    ],
)
def test_a_slip_is_one_sentence_and_says_what_to_do(pairs, words):
    run = command(*pairs, "--json")
    assert run.returncode == 2
    assert run.stdout == ""
    assert words in run.stderr
    assert run.stderr.count("\n") == 1


@pytest.mark.parametrize(
    "pairs",
    [
        ["acid-as-tartaric", "g_per_l=6", "acid=Malic"],
        ["acid-remover", "litres=19", "drop_g_per_l=1", "agent=Potassium-Bicarbonate",
         "settles=No"],
        ["sorbic-left-to-limit", "sorbic_mg_per_l=100", "limit=eu"],
        ["so2-left-to-limit", "total=110", "limit=eu-FRUIT-wine"],
        ["metabisulfite", "so2_mg_per_l=50", "litres=19", "salt=POTASSIUM"],
        ["fruit-brix", "fruit=Raspberry"],
        ["teaspoons-of-powder", "grams=2.4", "powder=Potassium-Sorbate"],
        ["pectic-enzyme", "litres=19", "double=YES"],
        ["hydrometer", "SG=1.090", "At=30 c", "Glass=Yes"],
        ["molecular-so2", "free=30", "pH=3.4"],
        ["Bottles", "LITRES=18.4"],
    ],
)  # fmt: skip
def test_words_and_names_are_read_in_any_case(pairs, capsys):
    answers = []
    for typed_so in (pairs, [part.lower() for part in pairs]):
        given = argparse.Namespace(name=typed_so[0], pairs=typed_so[1:], json=True)
        assert work(given) == 0
        answers.append(json.loads(capsys.readouterr().out))
    assert answers[0]["values"] == answers[1]["values"]
    assert answers[0]["values"]


def test_one_argument_in_two_cases_is_given_twice():
    with pytest.raises(CommandError, match="twice"):
        work(argparse.Namespace(name="molecular-so2", pairs=["pH=3.4", "ph=3.5"], json=False))


def test_the_list_as_json_names_units_range_and_source_of_each():
    listed = json.loads(command("--json").stdout)
    assert {rule["name"] for rule in listed} == set(NAMES)
    assert all(rule["inputs"] and rule["valid"] and rule["source"] for rule in listed)
