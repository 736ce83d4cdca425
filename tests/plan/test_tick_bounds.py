"""What is noted with a tick and contradicts the step, or is more than the batch can take."""

import pytest

from tests.plan.damson import STABLE, at, damson, planned, stabilised, ticked
from tests.plan.test_staged_feed import LOW, staged
from winebench.model.log import Record
from winebench.plan.records import refused
from winebench.plan.steps.noting import needs_reason
from winebench.plan.work_out import outlook

LATE = "2026-11-22T20:00+01:00"
READY = (*STABLE, stabilised("2026-11-22T10:00+01:00"))


def judged(project, when, step, **records) -> str:
    """Return "never", "reason" or "free" for a tick with those records."""
    found = planned(project, when, step)
    made = tuple(Record(name=n.replace("_", "-"), value=v) for n, v in records.items())
    if refused(made, found.record, project) is not None:
        return "never"
    return "reason" if needs_reason(found, made, project) else "free"


@pytest.mark.parametrize(
    ("records", "said"),
    [
        ({}, "free"),
        ({"gravity": "0.993"}, "free"),
        ({"gravity": "1.010"}, "never"),
        ({"gravity": "0.990"}, "never"),
        ({"sugar": "1 g/L"}, "free"),
        ({"sugar": "25 g/L"}, "never"),
    ],
)
def test_a_wine_is_not_declared_stable_by_its_own_disproof(records, said) -> None:
    # Up to 2 g/L of sugar is dry; a move of 0.003 is more than an eye misreads: common practice.
    assert judged(damson(*STABLE[:-1]), LATE, "declare-stable", **records) == said


@pytest.mark.parametrize(
    ("records", "said"),
    [
        ({"gravity": "1.010"}, "never"),
        ({"gravity": "0.993", "count": "20", "litres": "16"}, "free"),
        ({"count": "400"}, "reason"),
        ({"litres": "300 L"}, "reason"),
    ],
)
def test_bottles_hold_no_more_than_the_batch_and_nothing_that_ferments(records, said) -> None:
    assert judged(damson(*READY), "2026-12-02T11:00+01:00", "bottle", **records) == said


@pytest.mark.parametrize(
    ("records", "said"),
    [
        ({"mg_per_l": "40"}, "free"),
        ({"mg_per_l": "250"}, "reason"),
        ({"mg_per_l": "400"}, "never"),
        ({"sulfite": "300 tablets"}, "never"),
        # In about 17 L: 200 mg/L of sorbic acid are 4.6 g of the salt (112.13 / 150.22 of it).
        ({"mg_per_l": "40", "sorbate": "4 g"}, "free"),
        ({"mg_per_l": "40", "sorbate": "6 g"}, "reason"),
        ({"mg_per_l": "40", "sorbate": "1/2 lb"}, "never"),
    ],
)
def test_too_much_sulfite_or_sorbate_is_asked_about_or_refused(records, said) -> None:
    # Sorbic acid: 200 mg/L (OIV II.3.4.5). SO2: 200 mg/L in all, for wine of other fruit.
    assert judged(damson(*STABLE), LATE, "stabilise", ph="3.4", **records) == said


@pytest.mark.parametrize(
    ("grams", "said"), [("1 kg", "free"), ("0", "reason"), ("0 g", "reason"), ("5 kg", "reason")]
)
def test_a_feed_of_nothing_or_of_far_more_than_is_due_asks_for_a_reason(grams, said) -> None:
    assert judged(staged(*LOW), "2026-10-08T19:00", "sugar-feed", grams=grams) == said


@pytest.mark.parametrize(
    ("words", "unknown"),
    [
        ("dunno", True),
        ("the internet says so", True),
        ("not quite sure, maybe elder", True),
        ("I don't know", True),
        ("Aunt Mabel, a botanist", False),
    ],
)
def test_words_of_doubt_are_no_knowledge_of_the_fruit(words, unknown) -> None:
    made = damson(ticked("fruit-accepted", "2026-10-01T17:00", identified=words))
    cautions = outlook(made, at("2026-10-01T18:00"), lambda *_: None).cautions
    assert any(one.key == "unknown-fruit" for one in cautions) is unknown
