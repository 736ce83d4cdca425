"""A heap of sugar that no yeast ferments dry is dated no further than its yeast goes."""

from datetime import datetime

import pytest

from tests.plan.recipes import WATER, YEAST, fruit, project, white
from winebench.plan.work_out import outlook

NOW = datetime.fromisoformat("2026-11-25T10:00:00+00:00")
AFTER = ("transfer", "second-rack", "declare-stable", "bottle")


@pytest.mark.parametrize("with_yeast", [True, False])
@pytest.mark.parametrize("sugar", ["4 lb", "10 lb", "20 lb", "60 lb"])
def test_no_date_is_likely_beyond_what_yeast_stands(sugar, with_yeast):
    # 4 lb (1.81 kg) in a gallon is 480 g/L, 505 once split: 30 % at 16.83 g/L for each (EU),
    # and no packet stands more than about 18 (common practice). 20 lb do not dissolve at all: sugar
    # in water ends at 66.7 % at 20 °C (CRC Handbook: 2.0 kg in a litre of water).
    lines = (fruit("plum", "4 lb"), white(sugar), WATER, *([YEAST] if with_yeast else []))
    found = outlook(project(*lines), NOW)
    assert found.forecast.crossings == ()
    assert found.forecast.not_finishing > 0.95
    assert "so it will probably stop sweet" in found.forecast.sentence
    told = (
        "the yeast's packet stands 14 %" if with_yeast else "hardly any yeast stands more than 18 %"
    )
    assert told in found.forecast.sentence
    steps = {step.key: step for step in found.steps}
    assert [steps[key].when for key in AFTER] == ["no date yet"] * len(AFTER)


def test_a_usual_must_without_its_yeast_yet_keeps_its_dates():
    found = outlook(project(fruit("plum", "4 lb"), white("1.8 lb"), WATER), NOW)
    assert [each.below for each in found.forecast.crossings][:1] == [1.03]
