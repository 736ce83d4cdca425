"""A feed that no must could take is asked about and not reckoned with: the curve stays readable."""

import pytest

from tests.plan.damson import PITCHED, at, damson, read, step, ticked
from winebench.model.log import Action
from winebench.plan.outlook import Outlook
from winebench.plan.work_out import outlook

NOW = "2026-10-08T20:00"
FALL = (read("1.052", "2026-10-05T18:00"), read("1.019", "2026-10-08T18:00"))
READABLE = 1.200


def fed(grams: str, step: str = "sugar-added") -> Outlook:
    feed = ticked(step, "2026-10-08T19:30", grams=grams)
    return outlook(damson(*PITCHED, *FALL, feed), at(NOW))


@pytest.mark.parametrize("grams", ["20 kg", "200 kg", "9000000 kg"])
def test_sugar_that_would_pass_what_can_be_read_is_asked_about_and_not_counted(grams) -> None:
    found = fed(grams)
    (asked,) = [one for one in found.cautions if one.key == "doubtful-feed"]
    assert asked.about == "log:sugar-added@2026-10-08T19:30"
    assert asked.sentence.startswith(f"{grams} of sugar on Thursday 8 October")
    assert "1.200" in asked.sentence
    # As though it were not in the log.
    plain = outlook(damson(*PITCHED, *FALL), at(NOW))
    assert max(found.forecast.high) <= READABLE
    assert found.forecast.middle == plain.forecast.middle
    assert found.strength_now == plain.strength_now
    assert step(found, "bottle").likely == step(plain, "bottle").likely


def test_a_feed_that_a_must_can_take_counts_and_is_not_asked_about() -> None:
    # By hand: 0.3836 in gravity for a kilogram in a litre (13.5 lb in a gallon, 27 CFR 24.181).
    found = fed("2 kg")
    assert not [one for one in found.cautions if one.key == "doubtful-feed"]
    after = [
        middle
        for when, middle in zip(found.forecast.times, found.forecast.middle, strict=True)
        if when > at("2026-10-08T19:30")
    ]
    litres = found.must.liquid.value
    assert after[0] == pytest.approx(1.019 + 0.3836 * 2.0 / litres, abs=0.004)


def test_of_two_feeds_the_one_that_passes_it_is_asked_about() -> None:
    feeds: tuple[Action, ...] = (
        ticked("sugar-added", "2026-10-08T19:00", grams="2 kg"),
        ticked("sugar-added", "2026-10-08T19:30", grams="8 kg"),
    )
    found = outlook(damson(*PITCHED, *FALL, *feeds), at(NOW))
    asked = [one.about for one in found.cautions if one.key == "doubtful-feed"]
    assert asked == ["log:sugar-added@2026-10-08T19:30"]


def test_such_a_feed_is_asked_about_before_it_is_ticked() -> None:
    project = damson(*PITCHED, *FALL)
    asked = step(outlook(project, at(NOW)), "sugar-added")
    (record,) = [one for one in asked.record if one.name == "grams"]
    (bound,) = [one for one in record.bounds if one.never]
    assert bound.most is not None
    # By hand: 181 points in the litres of the must, 0.3836 for a kilogram in a litre.
    litres = outlook(project, at(NOW)).must.liquid.value
    assert bound.most == pytest.approx(0.181 / 0.3836 * litres * 1000.0, rel=0.02)
    assert bound.passed_by(20_000.0)
    assert not bound.passed_by(2_000.0)
