"""Expected losses: common practice, drawn away from it by the maker's own logged rackings."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.recipes import WATER, fruit, project, white
from winebench.model.edits import changed
from winebench.model.log import Action, Record
from winebench.model.own_loss import OwnLosses, RackedOff
from winebench.plan.compose import compose
from winebench.plan.learning.own_losses import (
    NO_LOSSES,
    forget_losses,
    learn_losses,
    other_losses,
    own_losses,
    pooled_words,
    told_losses,
)
from winebench.plan.losses import USUAL, usual_loss_l
from winebench.plan.scale import finished_l, must_l

START = datetime(2026, 10, 1, tzinfo=UTC)
FIVE = 18.927
"""Five US gallons, L: lees 1.136 L and 0.5 L a racking, so 1.636, 0.5 and 0.5 L (practice)."""
LINES = (fruit("damson", "9 kg", prepared=True), white("3.2 kg"), WATER)


def batch(*lost, name="Plum", must=FIVE):
    """Return what a batch lost at its first, second and third racking, L."""
    steps = ("transfer", "second-rack", "third-rack")
    pairs = zip(steps, lost, strict=False)
    rackings = tuple(RackedOff(step=step, lost_l=litres) for step, litres in pairs)
    return OwnLosses(name=name, batch=name, must_l=must, rackings=rackings)


def logged(*steps, **fields):
    log = tuple(
        Action(
            id=f"a{number}", at=START + timedelta(days=10 * number), step=step,
            records=tuple(Record(name=n, value=v) for n, v in records.items()),
        )
        for number, (step, records) in enumerate(steps)
    )  # fmt: skip
    return project(*LINES, basis=f"{FIVE} L", log=log, **fields)


def test_without_a_log_the_losses_are_those_of_practice():
    assert own_losses(logged(), FIVE) == other_losses(logged()) == USUAL
    # by hand: 18.927 - 0.06 x 18.927 - 3 x 0.5 - 0.2 = 16.09 L, 21 bottles
    assert finished_l(FIVE) == pytest.approx(16.091, abs=0.001)
    assert compose(logged()).bottles.bottles == 21
    assert pooled_words(logged()) == NO_LOSSES


def test_three_rackings_of_one_batch_draw_the_mean_half_the_way():
    # By hand: each racking 1.6 times the usual. A batch of three is worth 1 / (1/36 + 1/12) = 9,
    # practice 1 / (1/9) = 9 as well: (9 x 1 + 9 x 1.6) / 18 = 1.3.
    told = batch(*(1.6 * usual_loss_l(s, FIVE) for s in ("transfer", "second-rack", "third-rack")))
    made = learn_losses(logged(), told).apply(logged())
    assert other_losses(made).times == pytest.approx(1.3)
    assert (other_losses(made).rackings, other_losses(made).batches) == (3, 1)
    # 18.927 - 1.3 x (1.13562 + 1.5) - 0.2 = 15.30 L: 20 bottles of 0.75 L, three corks more
    seen = compose(made).bottles
    assert seen.finished.value == pytest.approx(15.301, abs=0.002)
    assert (seen.bottles, seen.corks) == (20, 23)
    assert "your 3 rackings of 1 batch: about 1.3 times the usual" in seen.finished.workings.source
    assert pooled_words(made) == (
        "Going by 3 rackings of 1 batch, yours leave about 1.3 times the usual behind."
    )


def test_the_batchs_own_rackings_tell_most_of_those_to_come():
    # By hand, after the batch above (mean 1.3, variance 1/18): a new batch has 1 / (1/18 + 1/36)
    # = 12; two own rackings of twice the usual 2 / (1/4) = 8: (12 x 1.3 + 8 x 2) / 20 = 1.58.
    told = batch(*(1.6 * usual_loss_l(s, FIVE) for s in ("transfer", "second-rack", "third-rack")))
    first = 2 * usual_loss_l("transfer", FIVE)
    made = logged(
        ("transfer", {"lost": f"{first:.4f} L"}),
        ("second-rack", {"before": "16 L", "after": "15"}),
        own_losses=(told,),
    )
    found = own_losses(made, FIVE)
    assert pooled_words(made).endswith(" 2 rackings in this batch's own log count too.")
    assert found.times == pytest.approx(1.58, abs=1e-4)
    assert (found.rackings, found.batches) == (5, 2)
    # what is over counts as logged: 18.927 - 3.27124 - 1.0 - 1.58 x 0.5 - 0.2 = 13.666 L
    assert compose(made).bottles.finished.value == pytest.approx(13.666, abs=0.003)
    assert compose(made).bottles.bottles == 18


def test_a_racking_of_which_nothing_was_written_teaches_nothing():
    made = logged(("transfer", {"litres": "17 L"}), ("bottle", {"lost": "2 L"}))
    assert own_losses(made, FIVE) == USUAL


def test_wine_wanted_finished_goes_by_other_batches_and_not_by_the_log_of_its_own():
    finished = logged(("transfer", {"lost": "6 L"}))
    finished = changed(finished, make=changed(finished.make, by="finished"))
    plain = changed(finished, log=())
    assert must_l(finished) == must_l(plain)
    taught = changed(plain, own_losses=(batch(3.0, 1.0, 1.0),))
    assert must_l(taught) > must_l(plain)
    assert compose(taught).bottles.finished.value == pytest.approx(FIVE, rel=1e-6)
    fewer = changed(taught, own_losses=(batch(0.1, 0.0, 0.0),))
    assert must_l(fewer) < must_l(plain)


def test_taken_out_again_it_is_as_before_and_learned_again_it_is_there_once():
    before = logged()
    once = learn_losses(before, batch(2.0)).apply(before)
    twice = learn_losses(once, batch(3.0)).apply(once)
    assert [one.rackings[0].lost_l for one in twice.own_losses] == [3.0]
    assert forget_losses(twice, twice.own_losses).apply(twice) == before
    assert told_losses(batch(2.0, 0.6)) == (
        "lost 2.6 L in 2 rackings of 18.9 L, about 1.2 times the usual"
    )


@given(st.lists(st.lists(st.floats(0, 50), min_size=1, max_size=3), min_size=1, max_size=6))
def test_the_mean_lies_between_practice_and_what_was_logged_in_any_order(batches):
    told = tuple(batch(*lost, name=str(number)) for number, lost in enumerate(batches))
    found = other_losses(changed(logged(), own_losses=told))
    backwards = other_losses(changed(logged(), own_losses=told[::-1]))
    assert found.times == pytest.approx(backwards.times)
    assert 0.0 <= found.times <= 4.0
    assert 0.0 <= finished_l(FIVE, losses=found) <= FIVE


@settings(max_examples=60, deadline=None)
@given(
    st.integers(1, 200),
    st.lists(st.lists(st.floats(0, 9), min_size=1, max_size=3), max_size=9),
    st.sampled_from(["fresh", "puree"]),
)
def test_so_many_bottles_wanted_are_so_many_filled_whatever_was_learned(count, batches, form):
    told = tuple(batch(*lost, name=str(number)) for number, lost in enumerate(batches))
    lines = (fruit("damson", "9 kg", form=form), white("3.2 kg"), WATER)
    made = project(*lines, basis=f"{FIVE} L", make=f"{count} bottles", own_losses=told)
    seen = compose(changed(made, make=changed(made.make, by="bottles"))).bottles
    assert (seen.bottles, seen.corks) == (count, count + 3)
