"""Sulfite and sorbate given tick by tick are judged by what they make together.

The damson batch has 18.93 L of must and 16.09 L of wine. A tablet of 0.44 g potassium
metabisulfite is 57.6 % SO2 (molar masses): 0.2536 g, so 13.4 mg/L in the must and 15.8 in the wine.
Limits: total SO2 200 mg/L for fruit wine (EU; French order of 2 Oct 1997, annex III C), 350 (US,
27 CFR 4.22); sorbic acid 200 mg/L (OIV II.3.4.5), 74.64 % of the salt by molar masses.
"""

import pytest

from tests.plan.damson import (
    PITCHED,
    STABLE,
    damson,
    planned,
    read,
    seen,
    ticked,
)
from winebench.model.edits import changed
from winebench.model.log import Record
from winebench.model.recipe import AdditiveLine
from winebench.plan.compose import compose
from winebench.plan.dose_bounds import harm_in_all
from winebench.plan.doses_given import sorbate_given, sulfite_given
from winebench.plan.records import refused
from winebench.plan.steps.noting import needs_reason, still_held
from winebench.units import Amount

LATE = "2026-11-22T20:00+01:00"
FIRST, SECOND = "2026-11-22T10:00+01:00", "2026-11-23T10:00+01:00"


def must_sulfited(**records):
    """Return the stable batch whose must was sulfited with that note."""
    return tuple(
        ticked("sulfite-must", "2026-10-01T18:00", **records)
        if getattr(entry, "step", "") == "sulfite-must"
        else entry
        for entry in STABLE
    )


def given(project, of=sulfite_given):
    return [round(one.mg_per_l, 1) for one in of(project, compose(project))]


@pytest.mark.parametrize(
    ("records", "mg_per_l"),
    [
        ({}, 53.6),  # as on the recipe: 4 tablets
        ({"mg-per-l": "50"}, 50.0),
        ({"grams": "3 g"}, 91.3),  # 3 x 0.5763 / 18.93
        ({"grams": "3"}, 91.3),
        ({"grams": "6 tablets"}, 80.4),
        ({"mg-per-l": "50", "grams": "1.64 g"}, 50.0),  # one dose said twice
        ({"sulfite-tablet": "3"}, 91.3),  # of an old file: grams, the larger of the two it can be
        ({"sodium-metabisulfite": "3 g"}, 106.8),  # 67.4 % of it
    ],
)
def test_each_way_of_noting_sulfite_counts_once(records, mg_per_l) -> None:
    assert given(damson(*must_sulfited(**records)))[0] == pytest.approx(mg_per_l, abs=0.15)


def judged(project, when, step, **records):
    found = planned(project, when, step)
    made = tuple(Record(name=n.replace("_", "-"), value=v) for n, v in records.items())
    no = refused(made, found.record, project)
    if no is not None:
        return "never", no.sentence
    held = still_held(found, made, project)
    said = "; ".join(one.text for one in held)
    return ("reason" if needs_reason(found, made, project) else "free"), said


@pytest.mark.parametrize(
    ("records", "way", "total"),
    [
        ({"mg_per_l": "90"}, "free", None),  # 100 + 90
        ({"mg_per_l": "110"}, "reason", "210"),
        ({"sulfite": "3.1 g"}, "reason", "211"),  # 3.1 x 576.3 / 16.09 = 111
        ({"sulfite": "7 tablets"}, "reason", "210"),  # 7 x 15.76 = 110.3
        ({"sulfite": "6 tablets"}, "free", None),  # 94.6
        ({"potassium_metabisulfite": "3.1 g"}, "reason", "211"),
        ({"mg_per_l": "260"}, "reason", "360"),
    ],
)
def test_sulfite_is_judged_with_what_was_given_before(records, way, total) -> None:
    project = damson(*must_sulfited(**{"mg-per-l": "100"}))
    if not {"mg_per_l", "sulfite"} & set(records):
        records = {"mg_per_l": "40", **records}
    found, said = judged(project, LATE, "stabilise", ph="3.4", **records)
    assert found == way, said
    if total:
        sums = f"with the 100 mg/L given on 1 October, this makes {total} mg/L added"
        assert f"no more sulfite than 200 mg/L in all: {sums} (noted: " in said
    assert ("350" in said) == (total == "360")


@pytest.mark.parametrize(
    ("grams", "way"),
    [
        # 67.4 % of sodium metabisulfite is SO2 by molar masses: 3 g x 674 / 16.09 L = 125.7, with
        # the 71.2 before under 200; 3.6 g make 150.8, so 222; 8.5 g alone make 356, over 350.
        ("3 g", "free"),
        ("3.6 g", "reason"),
        ("8.5 g", "never"),
    ],
)
def test_sulfite_in_grams_is_the_recipe_s_own_salt_in_bounds_and_sums(grams, way) -> None:
    sodium = AdditiveLine(id="sulfite", additive="sodium-metabisulfite", amount=Amount("2 g"))
    plain = damson(drop=("sulfite",)).recipe
    recipe = changed(plain, lines=(*plain.lines, sodium))
    project = damson(*STABLE, recipe=recipe)
    assert given(project) == [pytest.approx(71.2, abs=0.1)]  # 2 x 674 / 18.93 L of must
    found, said = judged(project, LATE, "stabilise", ph="3.4", sulfite=grams)
    assert found == way
    if way == "reason":
        assert "this makes 222 mg/L added" in said


@pytest.mark.parametrize(
    ("other", "way"), [("0.2 g", "free"), ("3.0 g", "reason"), ("7.0 g", "never")]
)
def test_two_sulfites_of_one_tick_are_judged_together(other, way) -> None:
    # With 4 tablets in the must (53.6 mg/L): 3.5 g x 576.3 / 16.09 = 125.4 and 0.2 g of the sodium
    # salt 8.4 make 187; 3 g 125.7, so 305; and 7 g 293 more than 350 with the 125.4.
    both = {"potassium_metabisulfite": "3.5 g", "sodium_metabisulfite": other}
    found, said = judged(damson(*STABLE), LATE, "stabilise", ph="3.4", mg_per_l="40", **both)
    assert found == way
    if way == "reason":
        assert "this makes 305 mg/L added" in said


def test_a_bare_number_of_tablets_is_asked_about() -> None:
    found, said = judged(damson(*STABLE), LATE, "stabilise", ph="3.4", sulfite_tablet="3")
    assert (found, said) == ("never", 'Is "3" grams or tablets? Write 3 g or 3 tablets.')


def test_nothing_more_given_does_not_take_back_what_was() -> None:
    first = ticked("stabilise", FIRST, **{"mg-per-l": "40", "ph": "3.4"})
    none = ticked("stabilise", SECOND, **{"mg-per-l": "0", "sorbate": "2.2"})
    found = planned(damson(*STABLE, first, none), "2026-12-10T10:00+01:00", "bottle")
    assert all(one.met for one in found.conditions if one.text.startswith("the sulfite known"))


def test_far_more_sulfite_than_wine_on_sale_may_hold_has_to_be_measured_first() -> None:
    # The US limit of 350 mg/L (27 CFR 4.22) is the loosest for wine on sale.
    log = must_sulfited(**{"mg-per-l": "200"})
    more = ticked("stabilise", FIRST, **{"mg-per-l": "200", "ph": "3.4"})
    project = damson(*log, more)
    assert "makes 400, which can harm" in harm_in_all(sulfite_given(project, compose(project)))
    held = planned(project, "2026-12-10T10:00+01:00", "bottle")
    assert held.state == "held"
    assert any("makes 400, which can harm" in one.text and not one.met for one in held.conditions)
    assert held.override == "reason"
    said = {one.key: one for one in seen(project, SECOND).cautions}["sulfite-given"]
    assert (said.severity, said.gates) == ("hold", "bottle")
    project = damson(*log)
    assert harm_in_all(sulfite_given(project, compose(project))) == ""


def test_two_doses_before_are_summed_and_a_third_is_asked_about() -> None:
    log = (
        *must_sulfited(**{"mg-per-l": "80"}),
        ticked("stabilise", FIRST, **{"mg-per-l": "60", "ph": "3.4"}),
    )
    assert given(damson(*log)) == [80.0, 60.0]
    found, said = judged(damson(*log), SECOND, "stabilise", ph="3.4", mg_per_l="70")
    assert found == "reason"
    assert "with the 140 mg/L given until 22 November, this makes 210 mg/L added" in said


def test_free_sulfite_that_was_read_counts_until_more_is_given() -> None:
    # 40 % of an addition binds (common practice): 30 free and 0.6 x 40 make 54, over the 50 tasted.
    free = read("0.993", "2026-11-21T20:00+01:00", free_so2_mg_per_l=30.0)
    project = damson(*must_sulfited(**{"mg-per-l": "50"}), free)
    assert judged(project, LATE, "stabilise", ph="3.4", mg_per_l="30")[0] == "free"
    found, said = judged(project, LATE, "stabilise", ph="3.4", mg_per_l="40")
    assert found == "reason"
    assert "with the 30 mg/L free read on 21 November, this leaves about 54 mg/L free" in said
    old = read("1.024", "2026-10-09T18:00", free_so2_mg_per_l=30.0)
    more = ticked("transfer", "2026-10-09T19:00", **{"potassium-metabisulfite": "1 g"})
    log = {one.id: one for one in (*STABLE, old, more)}
    project = damson(*log.values())
    assert judged(project, LATE, "stabilise", ph="3.4", mg_per_l="40")[0] == "free"


def test_sorbate_is_judged_with_what_was_given_before() -> None:
    # 2 g x 746.4 / 16.09 = 92.8 mg/L of sorbic acid; 2.5 g more make 208.7.
    first = ticked("stabilise", FIRST, **{"mg-per-l": "40", "ph": "3.4", "sorbate": "2 g"})
    project = damson(*STABLE, first)
    assert given(project, sorbate_given) == [92.8]
    assert judged(project, SECOND, "stabilise", ph="3.4", mg_per_l="10", sorbate="2.2 g")[0] == (
        "free"
    )
    found, said = judged(project, SECOND, "stabilise", ph="3.4", mg_per_l="10", sorbate="2.5 g")
    assert found == "reason"
    assert "with the 93 mg/L of sorbic acid given on 22 November, this makes 209 mg/L" in said


def test_what_was_given_all_the_same_is_said_of_the_batch() -> None:
    log = (
        *must_sulfited(**{"mg-per-l": "100"}),
        ticked("stabilise", FIRST, **{"mg-per-l": "120", "ph": "3.4", "sorbate": "6 g"}),
    )
    said = {one.key: one.sentence for one in seen(damson(*log), SECOND).cautions}
    assert "makes 220 mg/L in all: more than the 200" in said["sulfite-given"]
    assert "makes 278 mg/L of sorbic acid" in said["sorbate-given"]  # 6 x 746.4 / 16.09
    well = seen(damson(*STABLE), LATE).cautions
    assert not {"sulfite-given", "sorbate-given"} & {one.key for one in well}


@pytest.mark.parametrize(
    ("step", "records", "way", "meant"),
    [
        # One teaspoon, 4.5 g, a US gallon is usual: 1.2 g/L, 22.7 g in 18.93 L; five times is 114.
        ("first-nitrogen", {"grams": "20 g"}, "free", ""),
        ("first-nitrogen", {"grams": "500 g"}, "reason", "did you mean 5?"),
        ("first-nitrogen", {"yeast-nutrient": "500 g"}, "reason", "did you mean 5?"),
        ("first-nitrogen", {"bentonite": "1 kg"}, "reason", "did you mean 10?"),
        ("first-nitrogen", {"tartaric-acid": "20 g"}, "free", ""),
        ("first-nitrogen", {"tartaric-acid": "2 kg"}, "reason", "did you mean 20?"),
        ("first-nitrogen", {"potassium-metabisulfite": "400 g"}, "never", ""),
        ("enzyme", {"grams": "300 g"}, "reason", "did you mean 3?"),
    ],
)
def test_a_dose_far_beyond_the_usual_is_asked_about(step, records, way, meant) -> None:
    log = PITCHED[:3] if step == "enzyme" else PITCHED
    when = "2026-10-02T09:00" if step == "enzyme" else "2026-10-03T08:00"
    project = damson(*log, read("1.085", when) if step != "enzyme" else read("1.091", when))
    found = planned(project, when, step)
    made = tuple(Record(name=n, value=v) for n, v in records.items())
    no = refused(made, found.record, project)
    if way == "never":
        assert no is not None
        assert "can harm who drinks it" in no.sentence
        return
    assert no is None
    held = [one.text for one in still_held(found, made, project)]
    plain = [one.text for one in still_held(found, (), project)]
    more = [text for text in held if text not in plain]
    assert bool(more) == (way == "reason"), held
    assert meant in "; ".join(more)
