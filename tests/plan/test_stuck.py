"""What is stuck, slow or neither, and the clues to it. Common practice, worked by hand: stuck is a
point or less in four days, ten points above the end."""

from datetime import timedelta

import pytest

from tests.plan.damson import LINES, PITCHED, at, damson, read, seen, step, ticked
from tests.plan.stuck_batch import DRY, FALLING, GOING, KEYS, STUCK, weak
from winebench.model.edits import changed
from winebench.model.log import Note
from winebench.model.recipe import Recipe
from winebench.plan.work_out import outlook
from winebench.units import Amount, Gravity, Temperature


def clue(found, key):
    return next(one for one in found.stuck.clues if one.key == key)


# --- stuck, slow, neither ---------------------------------------------------------------------


def test_four_days_unmoved_are_stuck_and_three_are_not():
    # 1.022 on the 14th and the 18th at 18:00 are four days; on the 17th they are three.
    stands = (*GOING, read("1.022", "2026-10-17T18:00", "14 °C"))
    assert seen(damson(*stands), "2026-10-17T19:00").stuck.state == "slow"
    found = seen(damson(*STUCK), "2026-10-18T19:00").stuck
    assert (found.state, found.since) == ("stuck", at("2026-10-14T18:00"))
    # 14 C takes half a point off: 1.022 is 1.0214.
    assert found.sentence.startswith("Stuck: a point or less in 4 days, at 1.021 since Wednesday")


def test_what_falls_two_points_in_four_days_is_slow_not_stuck():
    falls = (*GOING, read("1.020", "2026-10-18T18:00", "14 °C"))
    found = seen(damson(*falls), "2026-10-18T19:00")
    assert found.stuck.state == "slow"
    assert found.stuck.sentence.startswith("Slow, not stuck: 2 points down in 4 days, at 1.019.")
    assert all(step(found, key).state == "skipped" for key in KEYS)
    assert {one.step for one in found.stuck.clues} == {"read-gravity"}


def test_a_ferment_that_falls_briskly_or_is_at_its_end_is_neither():
    assert seen(damson(*GOING), "2026-10-14T19:00").stuck is None
    assert seen(damson(*DRY), "2026-11-24T19:00").stuck is None
    near = (*PITCHED, read("1.066", "2026-10-05T18:30"), read("0.998", "2026-10-19T18:30"),
            read("0.998", "2026-10-24T18:30"))  # fmt: skip
    # 0.998 is less than ten points above the 0.989 at which this must should end.
    assert seen(damson(*near), "2026-10-24T19:00").stuck is None


def test_a_yeast_that_has_hardly_started_is_not_called_slow():
    lag = (*PITCHED, read("1.090", "2026-10-03T08:00"), read("1.090", "2026-10-05T10:00"))
    assert seen(damson(*lag), "2026-10-05T11:00").stuck is None


@pytest.mark.parametrize("log", [STUCK, FALLING])
def test_the_forecast_s_sentence_and_the_standstill_agree(log):
    found = outlook(damson(*log), log[-1].at + timedelta(hours=1))
    is_stuck = found.stuck is not None and found.stuck.state == "stuck"
    assert found.forecast.sentence.startswith("It is stuck") == is_stuck


# --- the clues --------------------------------------------------------------------------------


def test_doubts_come_first_and_causes_in_the_order_in_which_to_look():
    found = seen(damson(*STUCK), "2026-10-18T19:00").stuck
    assert [(one.key, one.step) for one in found.clues] == [
        ("instrument", "doubt-reading"),
        ("sample-warmth", "doubt-reading"),
        ("sample-gas", "doubt-reading"),
        ("extract", "doubt-reading"),
        ("floor-sugar", "doubt-reading"),
        ("warmth", "warm-and-rouse"),
        ("rousing", "warm-and-rouse"),
        ("nutrient", "warm-and-rouse"),
        ("strength", "warm-and-rouse"),
        ("sulfite", "warm-and-rouse"),
        ("ph", "warm-and-rouse"),
        ("volatile", "warm-and-rouse"),
    ]


def test_each_clue_says_what_the_log_says_of_it():
    found = seen(damson(*STUCK), "2026-10-18T19:00")
    says = {one.key: one.says for one in found.stuck.clues}
    assert says == {
        "instrument": "no", "sample-warmth": "no", "sample-gas": "no", "extract": "no",
        "floor-sugar": "no", "warmth": "yes", "rousing": "yes", "nutrient": "no",
        "strength": "no", "sulfite": "no", "ph": "not known", "volatile": "not known",
    }  # fmt: skip
    assert clue(found, "warmth").text.startswith("it stood at 14 °C, and this yeast wants 15 °C")
    # Racked to glass on Friday 9 October, and left alone since.
    assert "since Friday 9 October" in clue(found, "rousing").text


def test_a_reading_without_temperature_is_asked_about():
    bare = (*GOING, read("1.022", "2026-10-18T18:00", None))
    found = seen(damson(*bare), "2026-10-18T19:00")
    assert clue(found, "sample-warmth").says == "not known"
    assert "1.022 of today" in clue(found, "sample-warmth").text


def test_a_reading_of_today_with_its_temperature_is_not_answered_by_an_older_one_without():
    # What the sample of the 14th was read at is gone; that of today was noted.
    older = (*GOING[:-1], read("1.022", "2026-10-14T18:00", None))
    today = (*older, read("1.022", "2026-10-18T18:00", "20 °C"))
    found = clue(seen(damson(*today), "2026-10-18T19:00"), "sample-warmth")
    assert (found.says, found.text) == ("no", "corrected; the last, today, was read at 20 °C.")
    cold = (*older, read("1.022", "2026-10-18T18:00", "6 °C"))
    found = clue(seen(damson(*cold), "2026-10-18T19:00"), "sample-warmth")
    assert (found.says, "6 °C cannot be trusted" in found.text) == ("yes", True)


def test_nutrient_that_went_in_and_is_too_little_all_the_same_is_a_clue():
    base = damson(*STUCK)
    little = tuple(
        changed(line, amount=Amount("1/4 tsp")) if line.id == "nutrient" else line
        for line in base.recipe.lines
    )
    found = seen(changed(base, recipe=changed(base.recipe, lines=little)), "2026-10-18T19:00")
    nitrogen = round(found.must.nitrogen.value)
    assert nitrogen < 150  # what yeast needs at the least: AWRI note on assimilable nitrogen
    told = clue(found, "nutrient")
    assert told.says == "yes"
    assert f"about {nitrogen} mg/L of nitrogen, where yeast needs 150" in told.text


def test_degrees_brix_in_a_ferment_look_like_a_refractometer():
    # 6.0 Brix by "hydrometer" is SG 1.0237.
    odd = read("1.022", "2026-10-18T18:00", "20 °C")
    odd = changed(odd, gravity=Gravity("5.6 °Brix"))
    found = seen(damson(*GOING, odd), "2026-10-18T19:00")
    assert found.stuck.state == "stuck"
    assert clue(found, "instrument").says == "yes"


def test_gas_can_only_explain_what_is_within_its_five_points():
    # 1.002 is 13 points above 0.989: five of gas would bring it under the ten.
    near = (*PITCHED, read("1.066", "2026-10-05T18:30"), read("1.002", "2026-10-19T18:30"),
            read("1.002", "2026-10-24T18:30"))  # fmt: skip
    found = seen(damson(*near), "2026-10-24T19:00")
    assert clue(found, "sample-gas").says == "not known"
    assert clue(found, "extract").says == "yes"
    flat = (*near[:-1], read("1.002", "2026-10-24T18:30", degassed=True))
    assert clue(seen(damson(*flat), "2026-10-24T19:00"), "sample-gas").says == "no"


def test_a_must_that_read_low_may_have_had_sugar_on_its_floor():
    low = tuple(
        changed(e, gravity=Gravity("1.080")) if e.id.startswith("1.091") else e for e in STUCK
    )
    assert clue(seen(damson(*low), "2026-10-18T19:00"), "floor-sugar").says == "yes"
    unread = tuple(e for e in STUCK if not e.id.startswith("1.091"))
    assert clue(seen(damson(*unread), "2026-10-18T19:00"), "floor-sugar").says == "not known"
    dry = damson(*STUCK, drop=("sugar",))
    assert clue(seen(dry, "2026-10-18T19:00"), "floor-sugar").says == "no"


def test_warmth_strength_nutrient_ph_and_vinegar_as_logged():
    hot = tuple(
        changed(e, temperature=Temperature("33 °C")) if e.id.startswith("1.066") else e
        for e in STUCK[:-2]
    )
    warm = (*hot, read("1.021", "2026-10-18T18:00", "21 °C", ph=2.9),
            Note(id="n", at=at("2026-10-18T18:10"), text="A whiff of vinegar"))  # fmt: skip
    warm = tuple(e for e in warm if e.id != ticked("second-nitrogen", "2026-10-05T19:00").id)
    found = seen(weak(*warm), "2026-10-18T19:00")
    assert clue(found, "warmth").says == "yes"
    assert "33 °C" in clue(found, "warmth").text
    assert clue(found, "nutrient").says == "yes"
    assert "to the starter" in clue(found, "nutrient").text
    # 1.091 to 1.021 is 131.25 x 0.070 = 9.2 % vol, within a percent of the yeast's 10.
    assert clue(found, "strength").says == "yes"
    assert clue(found, "ph").says == "yes"
    assert clue(found, "volatile").says == "yes"
    none = changed(weak(*warm[:-1]), log=(*warm[:-1], changed(warm[-1], text="no vinegar at all")))
    assert clue(seen(none, "2026-10-18T19:00"), "volatile").says == "no"


def test_sulfite_that_was_not_ticked_is_not_known():
    bare = tuple(e for e in STUCK if not e.id.startswith("sulfite-must"))
    assert clue(seen(damson(*bare), "2026-10-18T19:00"), "sulfite").says == "not known"
    # 9 tablets of 0.44 g: 9 x 0.44 x 0.576 g in about 19 L is 120 mg/L, over 75.
    lines = tuple(
        changed(line, amount=Amount("9 tablets")) if line.id == "sulfite" else line
        for line in LINES
    )
    much = changed(damson(*STUCK), recipe=Recipe(lines=lines, basis=damson().recipe.basis))
    assert clue(seen(much, "2026-10-18T19:00"), "sulfite").says == "yes"
