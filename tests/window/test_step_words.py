"""What a step's card says of its state."""

import msgspec
import pytest

from tests.plan.damson import IN_GLASS, damson, planned
from winebench.window.timeline.step_words import basis_words, headline, refusal, state_words


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


def test_what_is_at_stake_goes_on_in_the_sentence():
    transfer = planned(damson(*IN_GLASS[:-1]), "2026-10-10T10:00", "transfer")
    stake = "at stake: too early it foams through the lock; too late, air and vinegar"
    assert basis_words(transfer).endswith(f" · {stake}")
    bottle = planned(damson(*IN_GLASS), "2026-10-10T10:00", "bottle")
    assert refusal(bottle).endswith(
        " At stake: too early, bottles burst; far too late, tired wine."
    )


def test_what_is_known_of_its_day_is_said_once():
    undated = planned(damson(), "2026-09-01T10:00", "third-rack")
    clean = msgspec.structs.replace(undated, when="no date yet", state="later")
    assert headline(clean) == "no date yet"
    assert headline(planned(damson(*IN_GLASS), "2026-10-10T10:00", "stir")) == (
        "not ticked; passed"
    )
    due = planned(damson(*IN_GLASS[:-1]), "2026-10-09T18:30", "transfer")
    assert headline(due).endswith(" · yours to do")
