"""Time to drink, against figures worked by hand from the style table (common practice)."""

import pytest

from tests.plan.recipes import WATER, project, white
from winebench.plan.compose import compose


@pytest.mark.parametrize(
    ("style", "ready", "best"),
    [("dark-dry", 12, 24), ("dark-medium", 9, 18), ("light-dry", 6, 12), ("sweet", 12, 24)],
)
def test_it_is_ready_at_half_the_best_age_of_its_style(style: str, ready: int, best: int) -> None:
    found = compose(project(white("1 kg"), WATER, style=style)).bottles.drink_from
    assert found is not None
    assert (found.value, found.low, found.high, found.unit) == (ready, ready, best, "months")
    assert found.workings is not None
    assert found.workings.source == "common practice"
    assert f"ready {ready} months after bottling" in found.workings.words
    assert f"about {best};" in found.workings.words
