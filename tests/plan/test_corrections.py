"""A correction in the log is bounded as the tick was: by its step then, and by the other doses.

The stable damson batch has 16.09 L of wine and 53.6 mg/L in its must. Limits as in
test_doses_given: 200 mg/L total SO2 for fruit wine, 350 at the loosest.
"""

import pytest

from tests.plan.damson import STABLE, damson, stabilised, ticked
from winebench.model.edits import changed
from winebench.model.log import Record
from winebench.plan.corrections import judged

TICK = stabilised("2026-11-22T10:00+01:00", sorbate="1 g")


def judgement(entry, *log, **records):
    """Return what is said of the entry once those of its records are corrected."""
    written = {one.name: one.value for one in entry.records} | records
    made = tuple(Record(name=name, value=value) for name, value in written.items())
    return judged(entry, changed(entry, records=made), damson(*STABLE, *log))


@pytest.mark.parametrize(
    ("records", "says", "opens"),
    [
        ({"mg-per-l": "45"}, "", False),
        ({"mg-per-l": "4000"}, "can harm who drinks it", False),
        ({"sorbate": "30 g"}, "over twice the limit", False),
        ({"mg-per-l": "160"}, "this makes 214 mg/L added", True),  # 53.6 in the must
        ({"ph": "3.9"}, "It would be held: pH below 3.8", True),
        ({"sulfite": "2"}, 'Is "2" grams or tablets?', False),
    ],
)
def test_a_corrected_dose_is_bounded_as_the_first_was(records, says, opens) -> None:
    found = judgement(TICK, TICK, **records)
    if not says:
        assert found is None
        return
    assert found is not None
    assert says in found.sentence
    assert found.name in records
    assert found.reason_opens is opens
    assert ('behind "because"' in found.sentence) is opens


def test_other_doses_count_and_the_entry_itself_does_not_count_twice() -> None:
    # 53.6 in the must and 100 with another tick: 40 more are under 200, 60 more are not.
    other = ticked("stabilise", "2026-11-21T20:00+01:00", **{"mg-per-l": "100", "ph": "3.4"})
    assert judgement(TICK, other, TICK, **{"mg-per-l": "44"}) is None
    found = judgement(TICK, other, TICK, **{"mg-per-l": "60"})
    assert found is not None
    assert "this makes 214 mg/L added" in found.sentence


def test_a_bottling_is_not_corrected_into_a_wine_that_ferments() -> None:
    bottled = ticked("bottle", "2026-12-02T11:00+01:00", gravity="0.993", count="20")
    found = judgement(bottled, TICK, bottled, gravity="1.030")
    assert found is not None
    assert (found.name, found.reason_opens) == ("gravity", False)
    assert judgement(bottled, TICK, bottled, count="19") is None
