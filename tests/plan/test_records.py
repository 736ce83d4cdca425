"""What is written down with a tick: read in its field's unit, asked about, shown with its label."""

from __future__ import annotations

import math
from time import perf_counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.plan.damson import IN_GLASS, PITCHED, STABLE, damson, step, ticked
from winebench.model.edits import changed
from winebench.model.log import Record
from winebench.model.recipe import Kitchen, SpoonWeight
from winebench.plan.measured import measured_from
from winebench.plan.outlook import Condition, RecordField, StepOutlook
from winebench.plan.record_counts import days_written, dozens_written
from winebench.plan.record_values import read_record
from winebench.plan.records import noted_words, refused
from winebench.plan.steps import rules
from winebench.plan.steps.noting import still_held
from winebench.plan.work_out import outlook

SO2_SHARE = 2 * 64.066 / 222.326
"""Of potassium metabisulfite, by molar masses (K2S2O5 holds two SO2)."""
WINE = 9.5
FIELDS = {(rule.key, field.name): field for rule in rules().values() for field in rule.record}


def value(step_key: str, name: str, text: str, **kitchen: object) -> float | None:
    field = changed(FIELDS[step_key, name], litres=WINE)
    return read_record(field, text, damson(kitchen=Kitchen(**kitchen)))


@pytest.mark.parametrize(
    ("step_key", "name", "text", "expected"),
    [
        ("sweeten", "grams", "1 lb", 453.59237),  # NIST Handbook 44 App. C
        ("sweeten", "grams", "12", 12.0),
        ("sweeten", "grams", "1 cup", 200.0),  # USDA SR28 food 19335: 1 cup 200 g
        ("bottle", "litres", "2.5 gal", 2.5 * 3.785411784),  # NIST Handbook 44 App. C
        ("transfer", "lost", "0,4", 0.4),
        ("transfer", "lost", "half a pint", 0.2365882365),
        ("pitch", "temperature", "62F", (62 - 32) / 1.8),
        ("pitch", "og", "1,091", 1.091),
        ("bottle", "count", "24", 24.0),
        ("bottle", "count", "two dozen", 24.0),
        ("bottle", "count", "half a dozen", 6.0),
        ("bottle", "count", "5 dozen bottles", 60.0),
        ("bottle", "count", "2 1/2 dozen", 30.0),
        ("bottle", "count", "1/2 dozen", 6.0),
        ("bottle", "count", "a dozen and a half", 18.0),
        ("cold-hold", "days", "2 weeks", 14.0),
        ("cold-hold", "days", "a week", 7.0),
        ("cold-hold", "days", "a fortnight", 14.0),
        ("cold-hold", "days", "1 year", 365.0),
        ("cold-hold", "days", "half a year", 182.5),
        ("cold-hold", "days", "2 weeks and 3 days", 17.0),
        ("cold-hold", "days", "a day and a half", 1.5),
        ("cold-hold", "days", "48 hours", 2.0),
        ("stabilise", "ph", "pH 3,4", 3.4),
        ("stabilise", "mg-per-l", "50 mg/L", 50.0),
        ("stabilise", "mg-per-l", "none", 0.0),
        ("lift-fruit", "bag", "10 lb", 4.5359237),
        ("declare-stable", "sugar", "1,5 g/L", 1.5),
        ("declare-stable", "sugar", "1 %", 10.0),  # a gram in 100 mL, as tests for sugar say it
        ("declare-stable", "sugar", "1/4 %", 2.5),
        ("declare-stable", "sugar", "less than 2 g/L", 2.0),
    ],
)
def test_amounts_are_read_in_the_field_s_own_unit(step_key, name, text, expected):
    assert value(step_key, name, text) == pytest.approx(expected, rel=1e-9)


def test_tablets_weigh_what_the_kitchen_says_and_come_to_mg_per_litre():
    # Three tablets of 0.55 g: the sulfite in them by molar masses, over the wine.
    expected = 3 * 0.55 * SO2_SHARE * 1000 / WINE
    assert value("stabilise", "mg-per-l", "3 tablets", tablet_g=0.55) == pytest.approx(
        expected, rel=1e-3
    )
    assert value("stabilise", "sulfite", "3 tablets", tablet_g=0.55) == pytest.approx(1.65)


def test_a_spoon_holds_what_was_weighed_in_this_kitchen():
    weighed = SpoonWeight(additive="potassium-sorbate", grams_per_teaspoon=2.8)
    assert value("stabilise", "sorbate", "1/2 tsp", spoons=(weighed,)) == pytest.approx(1.4)


@pytest.mark.parametrize(
    ("step_key", "name", "text", "said"),
    [
        ("stabilise", "mg-per-l", "banana", '"banana" cannot be read as "Sulfite"'),
        ("stabilise", "sorbate", "a smidge", '"a smidge" cannot be read as "Sorbate"'),
        ("stabilise", "sulfite", "2", "grams or tablets"),
        ("bottle", "count", "12 and a half", '"12 and a half": bottles are counted whole'),
        ("bottle", "mg-per-l", "3 tablets", "cannot be read"),
        ("pitch", "temperature", "62", 'Did you mean "62 °F"?'),
        ("pitch", "og", "1096", 'Did you mean "1.096"?'),
        ("stabilise", "ph", "34", "measure it again"),
        ("sweeten", "grams", "3 tsp of 2", "cannot be read"),
        ("declare-stable", "sugar", "1 to 3 g/L", "cannot be read"),
        ("declare-stable", "sugar", "sweetish", "write it such as 1.5 g/L or 0.15 %"),
    ],
)
def test_what_cannot_be_read_is_refused_in_one_sentence(step_key, name, text, said):
    records = (Record(name=name, value=text),)
    problem = refused(records, rules()[step_key].record, damson())
    assert problem is not None
    assert problem.name == name
    assert said in problem.sentence
    assert "\n" not in problem.sentence


def test_a_fruit_s_measures_are_read_with_their_units_or_without():
    typed = {"brix": "12 °Bx", "acid": "9,5 g/L", "ph": "pH 3.3"}
    records = tuple(Record(name=name, value=text) for name, text in typed.items())
    assert refused(records, rules()["measure-fruit"].record, damson()) is None
    found = measured_from(records)
    assert (found.juice.value, found.acid_g_per_l, found.ph) == (12.0, 9.5, 3.3)


def test_words_stay_words():
    assert value("stir", "smell", "of plums 2 days") is None
    assert value("bottle", "place", "under the stairs") is None


@given(st.text(max_size=20), st.sampled_from(sorted(FIELDS)))
def test_whatever_is_typed_is_a_number_or_words_or_one_refusal(text, key):
    record, field = Record(name=key[1], value=text), FIELDS[key]
    problem = refused((record,), (field,), damson())
    if problem is None:
        found = read_record(field, text, damson())
        assert found is None or math.isfinite(found)
    else:
        assert len(problem.sentence.split()) > 3


@given(st.integers(1, 9999), st.sampled_from(["g", "kg", "L", "mg/L"]))
def test_a_bare_number_is_in_the_field_s_unit(number, unit):
    field = RecordField(name="x", label="X", unit=unit)
    assert read_record(field, f"{number / 10:g}", damson()) == pytest.approx(number / 10)


@pytest.mark.parametrize(
    ("sugar", "held"), [("1 %", True), ("1/4 %", True), ("0.5%", True), ("0.1 %", False)]
)
def test_a_test_for_sugar_in_percent_is_ten_times_as_many_g_per_l(sugar, held):
    gate = Condition(text="", met=False, notes=("sugar",), least=0.0, below=2.0)
    assert bool(still_held(gated(gate), (Record(name="sugar", value=sugar),))) is held


# --- what the rules make of it, and how it is shown -------------------------------------------


def gated(gate: Condition) -> StepOutlook:
    declared = step(outlook(damson(*IN_GLASS), IN_GLASS[-1].at), "declare-stable")
    return changed(declared, conditions=(gate,))


def stabilised(**records: str):
    log = (*IN_GLASS, ticked("stabilise", "2026-11-22T10:00", **records))
    return damson(*log)


def test_the_step_and_the_card_say_the_label_and_what_it_comes_to():
    project = stabilised(**{"mg-per-l": "3 tablets", "sorbate": "1/2 tsp", "ph": "3.3"})
    shown = step(outlook(project, project.log[-1].at), "stabilise")
    assert "mg-per-l" not in shown.reason
    wine = next(f.litres for f in shown.record if f.name == "mg-per-l")
    assert wine == pytest.approx(outlook(project, project.log[-1].at).bottles.finished.value)
    # Three tablets of the usual 0.44 g.
    mg = 3 * 0.44 * SO2_SHARE * 1000 / wine
    words = noted_words(project.log[-1], shown.record, project)
    assert words[0] == f"Sulfite: 3 tablets ({mg:.0f} mg/L)"
    assert words[1] == "Sorbate: 1/2 tsp (1.6 g)"  # 3.2 g a teaspoon, additives.csv
    assert words[2] == "pH: 3.3"
    assert all(one in shown.reason for one in words)


def test_sulfite_of_the_must_in_tablets_counts_for_the_wait_of_the_yeast():
    crushed, enzyme = PITCHED[1], PITCHED[3]
    few = damson(crushed, ticked("sulfite-must", "2026-10-01T18:00", **{"mg-per-l": "2 tablets"}))
    many = damson(crushed, ticked("sulfite-must", "2026-10-01T18:00", **{"mg-per-l": "8 tablets"}))
    # 8 of 0.44 g in about 25 L: 81 mg/L, above the 75 from which the yeast waits 12 h longer.
    pitch = [step(outlook(p, enzyme.at), "pitch").earliest for p in (few, many)]
    assert pitch[1] - pitch[0] == (pitch[1] - crushed.at) / 3  # 36 h against 24 h


@pytest.mark.parametrize("text", ["3.9 or 3.4", "-3.4", "3.4 °C"])
def test_a_ph_of_an_old_log_that_is_none_is_not_taken_for_one(text):
    project = damson(*STABLE, ticked("malolactic", "2026-11-22T10:00", ph=text))
    gate = step(outlook(project, project.log[-1].at), "stabilise").conditions
    (asked,) = [one for one in gate if one.text.startswith("pH below")]
    assert asked.text == "pH below 3.8 (not read yet)"
    assert not asked.met


@pytest.mark.parametrize(
    ("name", "text", "known"),
    [
        ("mg-per-l", "40", True),
        ("mg-per-l", "1/4 tsp", True),
        ("mg-per-l", "-40", False),
        ("mg-per-l", "30 or 40", False),
        ("sulfite", "2 g", True),
        ("sulfite", "2", False),  # grams or tablets: a tablet is half a gram
    ],
)
def test_sulfite_of_an_old_log_is_known_only_where_it_can_be_read_in_its_unit(name, text, known):
    project = stabilised(**{name: text})
    bottles = step(outlook(project, project.log[-1].at), "bottle")
    (gate,) = [one for one in bottles.conditions if "the sulfite known" in one.text]
    assert gate.met == known


def test_an_old_log_with_unreadable_words_keeps_them_and_counts_them_as_not_known():
    project = stabilised(**{"mg-per-l": "banana", "sorbate": "a smidge"})
    words = noted_words(project.log[-1], rules()["stabilise"].record, project)
    assert words == ("Sulfite: banana", "Sorbate: a smidge")
    bottles = step(outlook(project, project.log[-1].at), "bottle")
    assert any("the sulfite known" in one.text and not one.met for one in bottles.conditions)


def test_a_long_gap_in_what_is_noted_costs_no_time() -> None:
    # Two thousand spaces took 49 s; a pattern without overlap takes none of it.
    gap = " " * 20_000
    began = perf_counter()
    assert (dozens_written(f"{gap}2{gap}dozen{gap}"), dozens_written(gap)) == (24.0, None)
    assert (days_written(f"1{gap}week"), days_written(f"1{gap}x")) == (7.0, None)
    assert perf_counter() - began < 2.0
