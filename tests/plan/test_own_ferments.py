"""A batch's forecast learns from the maker's finished batches, and forgets them without a trace."""

import itertools
import re
from datetime import timedelta

import pytest

from tests.plan.damson import PITCHED, damson, read, ticked
from tests.plan.finished_batch import NEW_YEAR, OVER, PITCH, run_at
from winebench.forecast.learned import FARTHEST, LEARNT
from winebench.model import own_ferment as model
from winebench.model.edits import changed
from winebench.model.own_ferment import OwnFerment
from winebench.plan.again.make import as_recipe, learned_again, make_again, taken_from_log, variant
from winebench.plan.learning.learn_from import NotLearnedError, learn_from, own_ferment
from winebench.plan.learning.own_ferments import forget, learned_words, told
from winebench.plan.work_out import outlook
from winebench.store.project_file import from_bytes, to_bytes
from winebench.store.samples import load_sample, samples

NOW = PITCH + timedelta(hours=30)
NEW = damson(*PITCHED, id="new", name="This year's damson")


def taught(*others, project=NEW):
    for other in others:
        project = learn_from(project, other, OVER).apply(project)
    return project


def nearly_dry(project):
    return outlook(project, NOW).forecast.crossings[-1].likely


def percent(words, way):
    return int(re.search(rf"about (\d+) % {way}", words)[1])


# --- what a batch says ------------------------------------------------------------------------


def test_a_batch_at_half_the_usual_pace_is_told_as_about_half_as_fast():
    # Half is 50 %; the middle of a fan, which the readings are, is itself told as a fifth slower.
    assert percent(told(own_ferment(run_at(0.5), OVER)), "slower") in range(40, 66)


def test_a_batch_at_twice_the_usual_pace_is_told_as_about_twice_as_fast():
    # 100 % with what half-day readings leave open: the fit gives ln 2 a spread of about 0.2.
    assert percent(told(own_ferment(run_at(2.0), OVER)), "quicker") in range(60, 161)


def test_a_batch_that_runs_as_is_usual_is_told_so_within_a_fifth():
    # The middle line of a fan is flatter than any curve in it, and so is fitted as a slower one.
    ferment = own_ferment(run_at(1.0), OVER)
    usual = "usual pace" in told(ferment)
    assert usual or int(re.search(r"about (\d+) %", told(ferment))[1]) <= 20


def test_what_is_kept_is_numbers_within_their_bounds_and_the_batchs_name_and_id():
    batch = run_at(0.5)
    ferment = own_ferment(batch, OVER)
    assert (ferment.name, ferment.batch) == (batch.name, batch.id)
    assert len(ferment.middles) == len(ferment.spreads) == len(LEARNT) == model.LEARNT
    assert all(abs(middle) <= FARTHEST for middle in ferment.middles)
    assert all(0 <= spread <= 1 for spread in ferment.spreads)
    assert all(round(n, 4) == n for n in (*ferment.middles, *ferment.spreads))


def test_what_the_readings_do_not_tell_is_not_said():
    silent = OwnFerment(name="x", batch="x", middles=(2.0,) * 5, spreads=(1.0,) * 5)
    assert told(silent) == "ran at about the usual pace"


@pytest.mark.parametrize(
    ("batch", "why"),
    [
        (damson(), "the yeast is not ticked off"),
        (damson(*PITCHED), "it has 0 readings after the pitch; it takes 4 to learn from"),
        (damson(*PITCHED, *(read("1.060", f"2026-10-0{d}T18:30") for d in range(3, 9))),
         "its lowest reading is 1.060; learn from it once it is below 1.005"),
        (changed(run_at(1.0), log=(*run_at(1.0).log, ticked("restart", "2026-10-12T08:00"))),
         "it was pitched afresh"),
    ],
)  # fmt: skip
def test_what_cannot_be_learned_from_is_said_in_one_sentence(batch, why):
    with pytest.raises(NotLearnedError) as told_why:
        own_ferment(batch, OVER)
    said = str(told_why.value)
    assert said.startswith('"Hedge damson" teaches nothing: ')
    assert why in said
    assert said.endswith(".")
    assert said.count(". ") == 0


def test_a_batch_does_not_learn_from_itself():
    batch = run_at(1.0)
    with pytest.raises(NotLearnedError, match="this very batch, or a copy of its file"):
        learn_from(batch, batch, OVER)


# --- what the forecast makes of it ------------------------------------------------------------


def test_a_slow_batch_makes_the_next_forecast_later_and_a_quick_one_sooner():
    usual = nearly_dry(NEW)
    slow, quick = nearly_dry(taught(run_at(0.5))), nearly_dry(taught(run_at(2.0)))
    assert quick < usual - timedelta(hours=12)
    assert usual + timedelta(days=1) < slow
    # Partly, never wholly: half as fast is no more than twice as long.
    assert slow - PITCH < 2 * (usual - PITCH)


def test_taking_it_out_restores_the_former_outlook_exactly():
    slow, quick = run_at(0.5, "slow"), run_at(2.0, "quick")
    both = taught(slow, quick)
    assert outlook(both, NOW) != outlook(NEW, NOW)
    one = forget(both, both.own_ferments[1:]).apply(both)
    assert one == taught(slow)
    none = forget(both, both.own_ferments).apply(both)
    assert none == NEW
    assert outlook(none, NOW) == outlook(NEW, NOW)


def test_the_order_of_the_batches_does_not_matter():
    batches = (run_at(0.5, "a"), run_at(1.0, "b"), run_at(2.0, "c"))
    seen = [outlook(taught(*order), NOW) for order in itertools.permutations(batches)]
    assert all(each == seen[0] for each in seen)


def test_a_batch_learned_from_again_counts_once_with_what_it_says_now():
    early = run_at(0.5, days=14)
    late = changed(run_at(0.5, days=20), id=early.id)
    twice = taught(early, late)
    assert [one.batch for one in twice.own_ferments] == [early.id]
    assert twice == taught(late)


def test_the_outlook_is_the_same_after_the_file_and_needs_none_of_the_batches():
    project = taught(run_at(0.5), run_at(2.0), project=load_sample("raspberry-day-3"))
    again = from_bytes(to_bytes(project), "x")
    assert again == project
    assert len(again.own_ferments) == 2
    now = next(each.at for each in samples() if each.name == "raspberry-day-3")
    assert outlook(again, now) == outlook(project, now)


def test_the_forecast_says_what_it_goes_by():
    seen = outlook(taught(run_at(0.5)), NOW).forecast
    assert seen.learned.startswith("Going by 1 finished batch, your ferments run about ")
    assert percent(seen.learned, "slower") in range(15, 41)
    assert seen.going_by.startswith("by your 1 batch, about ")
    assert percent(seen.going_by, "slower") == percent(seen.learned, "slower")
    assert seen.sentence.endswith(f"; {seen.going_by}.")
    usual = outlook(NEW, NOW).forecast
    assert (usual.learned, usual.going_by) == ("", "")
    assert "by your" not in usual.sentence


def test_a_batch_that_is_over_has_no_more_use_for_it_in_its_sentence():
    seen = outlook(taught(run_at(0.5, "slow"), project=run_at(1.0)), OVER).forecast
    assert seen.learned
    assert seen.going_by == ""
    assert "by your" not in seen.sentence


# --- batches made of batches ------------------------------------------------------------------


def test_made_again_it_keeps_what_it_learned_and_learns_from_itself():
    old = taught(run_at(0.5, "older"), project=run_at(2.0, "old"))
    new = make_again(old, NEW_YEAR)
    assert [one.name for one in new.own_ferments] == ["older", "old"]
    assert new.own_ferments[1] == own_ferment(old, NEW_YEAR)
    said = learned_again(old, new)
    assert said[0].startswith("The forecast learns from it: its ferment ran about ")
    assert "quicker" in said[0]
    assert said[1] == learned_words(new)
    assert taken_from_log(old) == taken_from_log(run_at(2.0, "old"))


def test_made_again_of_a_batch_that_is_not_over_it_learns_nothing_from_it():
    old = taught(run_at(0.5, "older"))
    new = make_again(old, NEW_YEAR)
    assert new.own_ferments == old.own_ferments
    assert learned_again(old, new) == ()


def test_variants_and_recipes_keep_what_was_learned():
    old = taught(run_at(0.5))
    assert variant(old, NEW_YEAR).own_ferments == old.own_ferments
    assert as_recipe(old, NEW_YEAR).own_ferments == old.own_ferments
