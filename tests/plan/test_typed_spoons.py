"""A maker's own teaspoons: typed as a line, weighed against in every dose."""

import pytest

from tests.plan.recipes import WATER, additive, composed_line, project
from winebench.model.recipe import Kitchen, SpoonWeight
from winebench.plan.typed.spoons import read_spoons, spoons_text
from winebench.units import UnitsError


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("tartaric acid 4.7 g", {"tartaric-acid": 4.7}),
        ("Potassium sorbate 2,4 g, yeast nutrient 3.9",
         {"potassium-sorbate": 2.4, "yeast-nutrient": 3.9}),
        ("pectic enzyme 2.9 g; pectic enzyme 3 g", {"pectic-enzyme": 3.0}),
        ("", {}),
    ],
)  # fmt: skip
def test_weighed_spoons_are_read_as_written_and_written_as_read(text, found):
    spoons = read_spoons(text)
    assert {each.additive: each.grams_per_teaspoon for each in spoons} == found
    assert read_spoons(spoons_text(spoons)) == spoons


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("tartaric acid", "is no weighed spoon"),
        ("4.7 g", "is no weighed spoon"),
        ("moondust 4 g", "no additive of the catalog"),
        ("tartaric acid 47 g", "does not weigh 47 g"),
    ],
)
def test_what_is_no_weighed_spoon_says_so(text, said):
    with pytest.raises(UnitsError, match=said):
        read_spoons(text)


def test_a_dose_is_spooned_by_the_makers_own_spoon():
    # 10 g of an acid whose level teaspoon weighs 5 g are two teaspoons: arithmetic.
    own = Kitchen(spoons=(SpoonWeight(additive="tartaric-acid", grams_per_teaspoon=5.0),))
    line = additive("tartaric-acid", "10 g")
    assert composed_line(project(WATER, line, kitchen=own), line.id).measure == "2 tsp"
