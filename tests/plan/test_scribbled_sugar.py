"""Sugar under other names, bottles under other words, and losses in fractions."""

from __future__ import annotations

import pytest

from tests.plan.damson import PITCHED, STABLE, at, stabilised
from tests.plan.scribbling import entries, one, records
from winebench.model.log import Note

IN_THE_CELLAR = at("2026-11-27T20:00+01:00")
DONE = (*STABLE, stabilised("2026-11-24T10:00+01:00"))


@pytest.mark.parametrize("verb", ["stirred in", "put in", "poured in", "mixed in", "added", "fed"])
def test_honey_that_went_in_counts_as_the_white_sugar_it_is_worth(verb):
    (found,) = entries(f"yesterday {verb} 500 g honey")
    assert found.step == "sugar-added"
    assert found.note == f"{verb} 500 g honey"
    # Honey has 82.4 % solids (USDA SR28, food 19296), 97 % of them ferment (from memory); 1 g of
    # sucrose gives 1.0526 g of simple sugars (360.31/342.30 g/mol).
    grams = float(records(found)["grams"].removesuffix(" g"))
    assert grams == pytest.approx(500 * 0.824 * 0.97 / 1.0526, rel=0.005)


def test_honey_after_the_stabilising_is_a_sweetening():
    (found,) = entries("yesterday put in 500 g honey because tried", *DONE, now=IN_THE_CELLAR)
    assert (found.step, records(found)) == ("sweeten", {"grams": "380 g"})


@pytest.mark.parametrize(
    "text",
    [
        "added a litre of apple juice",
        "a litre of apple juice went in",
        "poured in 200 ml syrup",
        "put in 2 kg of raisins",
        "added a jar of jam",
        "mixed in grape concentrate",
        "added 3 lb of fruit",
        "honey added",
        "put 500 g of honey in",
        "topped up with 1 L apple juice",
        "added 1 lb sugar and 2 L apple juice",
        "added 1 lb sugar and apple juice",
    ],
)
def test_something_sweet_after_the_yeast_is_asked_about(text):
    line = one(f"yesterday {text}")
    assert "does it bring sugar?" in line.trouble
    assert line.entries == ()
    again = one(line.offers[0].line)
    assert again.trouble == ""
    assert "sugar-added" in [getattr(entry, "step", "") for entry in again.entries]
    (note,) = one(line.offers[-1].line).entries
    assert isinstance(note, Note)


def test_the_weight_of_raisins_is_no_weight_of_sugar():
    line = one("yesterday put in 2 kg of raisins")
    (found,) = one(line.offers[0].line).entries
    assert records(found) == {}


@pytest.mark.parametrize(
    "text",
    [
        "drained juice off",
        "forgot to add the juice",
        "smells of fruit",
        "fruit floats",
        "fruit still in",
        "more foam on the fruit",
        "put the fruit bag back in",
        "added water, fruit floats",
    ],
)
def test_sweet_things_that_did_not_go_in_are_words(text):
    (found,) = entries(f"yesterday {text}")
    assert isinstance(found, Note)


BOTTLED = ["bottled", "corked it all", "corked them", "into the bottles with it",
           "filled the bottles", "in bottles now", "siphoned into bottles"]  # fmt: skip


@pytest.mark.parametrize("text", BOTTLED)
def test_bottling_in_other_words_is_held_as_bottling(text):
    line = one(f"yesterday {text} because friends came")
    assert "no reason opens it" in line.trouble
    assert line.entries == ()


@pytest.mark.parametrize("text", BOTTLED)
def test_bottling_in_other_words_is_the_bottling_once_it_may_be(text):
    (found,) = entries(f"yesterday {text}", *DONE, now=IN_THE_CELLAR)
    assert found.step == "bottle"


@pytest.mark.parametrize(
    ("text", "lost"),
    [
        ("lost 1/2 pint", "1/2 pint"),
        ("lost 1/2 gal", "1/2 gal"),
        ("lost 1 1/2 pints", "1 1/2 pints"),
        ("lost ½ L", "1/2 L"),
        ("lost 1½ L", "1 1/2 L"),
        ("lost 1.5 L", "1.5 L"),
    ],
)
def test_a_loss_in_fractions_is_counted(text, lost):
    (found,) = entries(f"Thu lifted the bag, {text}", *PITCHED)
    assert (found.step, records(found)) == ("lift-fruit", {"lost": lost})
