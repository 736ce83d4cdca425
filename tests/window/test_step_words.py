"""What a step's card says of its state."""

import pytest

from tests.plan.damson import IN_GLASS, damson, planned
from winebench.window.timeline.step_words import state_words


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("stir", "not ticked; passed"),
        ("first-nitrogen", "not ticked; passed"),
        ("cold-hold", "not needed here"),
        ("transfer", "done"),
    ],
)
def test_a_step_that_was_not_ticked_is_not_called_needless(key, words):
    assert state_words(planned(damson(*IN_GLASS), "2026-10-10T10:00", key)) == words
