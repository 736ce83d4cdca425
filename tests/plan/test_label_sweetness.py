"""The word for sweetness on the label follows what was read, once that tells.

Bounds of the EU's words as in winebench.plan.label: dry up to 9 g/L, sweet above 45 g/L.
"""

import pytest

from tests.plan.damson import IN_GLASS, STABLE, damson, read, seen, ticked
from tests.plan.stuck_batch import FALLING, STUCK
from winebench.model.edits import changed
from winebench.plan.label import sweetness


def word(project, now):
    return sweetness(project, seen(project, now))


def test_a_stuck_wine_is_as_sweet_as_it_reads():
    # 1.021 is 32 points above the 0.989 of the dry wine: about 75 g/L of sugar.
    assert word(damson(*STUCK), "2026-10-18T19:00") == "sweet"
    strength = next(line.words for line in seen(damson(*STUCK), "2026-10-18T19:00").label
                    if "% vol" in line.words)  # fmt: skip
    # 131.25 x (1.091 - 1.021) is 9.2: not the 14 % of the wine that it was to be.
    assert strength.startswith("Sweet · about 9.")


@pytest.mark.parametrize("log", [IN_GLASS, FALLING])
def test_a_wine_at_work_is_what_it_is_to_be(log):
    assert word(damson(*log), "2026-10-30T19:00") == "dry"
    base = damson(*log)
    sweet = changed(base, recipe=changed(base.recipe, style="sweet"))
    assert word(sweet, "2026-10-30T19:00") != "dry"


def test_a_stable_wine_is_what_it_reads_whatever_its_style():
    assert word(damson(*STABLE), "2026-11-22T10:00+01:00") == "dry"
    base = damson(*STABLE)
    sweet = changed(base, recipe=changed(base.recipe, style="sweet"))
    assert word(sweet, "2026-11-22T10:00+01:00") == "dry"
    log = (
        *STABLE,
        ticked("sweeten", "2026-11-24T10:00+01:00"),
        read("1.020", "2026-11-24T11:00+01:00"),
    )
    assert word(damson(*log), "2026-11-24T12:00+01:00") == "sweet"
