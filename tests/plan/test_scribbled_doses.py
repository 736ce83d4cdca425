"""Sulfite and sorbate in scribbled lines: records of the deed beside them, summed, or asked about.

The damson batch has 16.09 L of wine. A tablet of 0.44 g potassium metabisulfite is 57.6 % SO2 by
molar masses: 15.8 mg/L there.
"""

from __future__ import annotations

import pytest

from tests.plan.damson import IN_GLASS, PITCHED, STABLE, at, damson, ticked
from tests.plan.scribbling import entries, one, records
from winebench.model.log import Action
from winebench.plan.compose import compose
from winebench.plan.doses_given import sulfite_given

IN_THE_CELLAR = at("2026-11-23T20:00+01:00")
IN_THE_JUG = at("2026-10-20T20:00")


def tick(text: str) -> Action:
    found = entries(f"yesterday 8pm {text}", *STABLE, now=IN_THE_CELLAR)
    return next(entry for entry in found if isinstance(entry, Action))


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("stabilised, 3 tablets, pH 3.4", {"sulfite": "3 tablets"}),
        ("stabilised, added 3 tablets, pH 3.4", {"sulfite": "3 tablets"}),
        ("stabilised, 3 campden tablets, pH 3.4", {"sulfite": "3 tablets"}),
        ("stabilised, 1.5 g potassium metabisulfite, pH 3.4", {"sulfite": "1.5 g"}),
        ("stabilised, sulfite 1.5 g, pH 3.4", {"sulfite": "1.5 g"}),
        ("stabilised, 1 g sodium metabisulfite, pH 3.4", {"sodium-metabisulfite": "1 g"}),
        ("stabilised, 40 ppm, pH 3.4", {"mg-per-l": "40 ppm"}),
        ("3 tablets, stabilised, pH 3.4", {"sulfite": "3 tablets"}),
        ("stabilised with 1½ tablets, pH 3.4", {"sulfite": "1 1/2 tablets"}),
        (
            "stabilised, added 2 g sorbate, added 1.3 g sulfite, pH 3.4",
            {"sorbate": "2 g", "sulfite": "1.3 g"},
        ),
    ],
)
def test_what_went_in_behind_a_comma_is_noted_with_the_stabilising(text, kept) -> None:
    found = tick(text)
    assert (found.step, records(found)) == ("stabilise", kept)


@pytest.mark.parametrize(
    ("text", "kept", "mg_per_l"),
    [
        ("third racking, lost 0.3 L, added 1 tablet", {"sulfite-tablet": "1 tablet"}, 15.8),
        ("third racking with 2 sulfite tablets", {"sulfite-tablet": "2 tablets"}, 31.5),
        # 1 g x 0.5763 / 16.09 L
        ("third racking, 1 g sulfite", {"potassium-metabisulfite": "1 g"}, 35.8),
        ("third racking, 1 g sodium metabisulfite", {"sodium-metabisulfite": "1 g"}, 41.9),
    ],
)
def test_sulfite_beside_a_racking_is_its_record_and_in_the_sum(text, kept, mg_per_l) -> None:
    found = tick(f"{text} because it was time")
    assert kept.items() <= records(found).items()
    project = damson(*STABLE, found)
    given = sulfite_given(project, compose(project))
    assert given[-1].mg_per_l == pytest.approx(mg_per_l, rel=0.04)  # the noted loss moves it


def test_tablets_that_nobody_named_say_what_they_are_taken_for() -> None:
    line = one("yesterday third racking, 1 tablet because it was time", *STABLE, now=IN_THE_CELLAR)
    assert line.what[0].startswith("Third racking · Sulfite tablets: 1 tablet · ")
    assert line.doubts == (
        "The tablets are taken for sulfite; if they were something else, write that with them.",
    )


@pytest.mark.parametrize("text", ["added 2 tablets", "2 tablets", "Added two tablets"])
def test_tablets_alone_are_asked_about(text) -> None:
    line = one(f"yesterday {text}", *IN_GLASS, now=IN_THE_JUG)
    assert line.trouble == f'"{text}": was that sulfite?'
    offered = [offer.line for offer in line.offers[:2]]
    count = "two" if "two" in text else "2"
    assert offered == [
        f"yesterday stabilised with {count} sulfite tablets",
        f"yesterday racked with {count} sulfite tablets",
    ]


def test_tablets_alone_before_the_yeast_went_into_the_must() -> None:
    line = one("today 7pm added 4 tablets", PITCHED[0])
    assert line.trouble == '"added 4 tablets": was that sulfite?'
    (found,) = entries(line.offers[0].line, PITCHED[0])
    assert (found.step, records(found)) == ("sulfite-must", {"grams": "4 tablets"})


def test_tablets_by_their_usual_name_are_no_gravity() -> None:
    line = one("yesterday 2 campden tablets", *IN_GLASS, now=IN_THE_JUG)
    assert line.trouble.startswith('"2 campden tablets": after the yeast sulfite counts with')


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("stabilised with 3 tablets, 1 tablet", "Two amounts stand here for one thing"),
        ("third racking, 50 mg/l sulfite", "only as grams or tablets here"),
        ("third racking, one and a half tablets", "Write halves of tablets as 1.5 tablets."),
        ("third racking, 1 tablet per gallon", "Write how much of it went in altogether"),
        ("stabilised with 2 g sorbate a gallon", "Write how much of it went in altogether"),
        ("third racking, sulfite 1 g/l", "Write how much of it went in altogether"),
        ("third racking, added tablets", "How many tablets went in?"),
    ],
)
def test_a_dose_that_cannot_be_told_is_asked_about(text, says) -> None:
    line = one(f"yesterday {text} because it was time", *STABLE, now=IN_THE_CELLAR)
    assert says in line.trouble
    assert line.entries == ()


def test_an_amount_that_no_record_takes_says_so() -> None:
    line = one(
        "yesterday third racking, added 3 g tannin because it was time", *STABLE, now=IN_THE_CELLAR
    )
    assert line.doubts == (
        '"added 3 g tannin" is kept in words: no amount in it is reckoned with.',
    )


@pytest.mark.parametrize(
    "text",
    [
        "racked, half a tablet left",
        "racked, free sulfite 30 mg/l",
        "racked, rinsed the jug with 2 g sulfite",
        "racked, 2 tablets nutrient",
    ],
)
def test_what_did_not_go_in_is_no_dose(text) -> None:
    line = one(f"yesterday {text} because it was time", *STABLE, now=IN_THE_CELLAR)
    assert line.trouble == ""
    assert [records(found) for found in line.entries] == [{}] * len(line.entries)


@pytest.mark.parametrize(
    ("text", "step", "kept"),
    [
        ("first nutrient, 7 g", "first-nitrogen", {"grams": "7 g"}),
        ("first nutrient, 1 1/2 tsp", "first-nitrogen", {"grams": "1 1/2 tsp"}),
        ("pectic enzyme, about 2 1/2 tsp", "enzyme", {"grams": "2 1/2 tsp"}),
        ("added sugar, 1 lb", "sugar-added", {"grams": "1 lb"}),
        ("added 1.200 g sugar", "sugar-added", {"grams": "1200 g"}),
    ],
)
def test_an_amount_alone_behind_a_comma_is_of_the_deed_before_it(text, step, kept) -> None:
    alive = (*PITCHED, ticked("sign-of-life", "2026-10-03T18:00"))
    found = entries(f"yesterday 8pm {text}", *alive, now=at("2026-10-05T20:00"))
    (action,) = [entry for entry in found if isinstance(entry, Action)]
    assert (action.step, records(action)) == (step, kept)


def test_an_amount_of_nobody_knows_what_stays_in_words() -> None:
    found = entries("yesterday 8pm stirred, 7 g", *PITCHED, now=at("2026-10-05T20:00"))
    (action,) = [entry for entry in found if isinstance(entry, Action)]
    assert records(action) == {}


def test_honey_behind_a_comma_counts_as_honey_in_one_piece_does() -> None:
    now = at("2026-10-05T20:00")
    apart, whole = (
        entries(f"yesterday 8pm {text}", *PITCHED, now=now)[0]
        for text in ("added honey, 100 g", "added 100 g honey")
    )
    assert records(apart) == records(whole)
    assert float(records(apart)["grams"].removesuffix(" g")) < 100.0
