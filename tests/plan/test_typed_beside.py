"""What stands beside amount and name on a line: packs, figures, forms, and when it goes in."""

import pytest

from winebench.plan.typed.feeds import split_off_feed
from winebench.plan.typed.forms import split_off_forms
from winebench.plan.typed.lines import typed_line
from winebench.plan.typed.number_words import digits
from winebench.plan.typed.offers import known
from winebench.plan.typed.own_figures import only_figures, split_off_figures
from winebench.plan.typed.packs import unpacked
from winebench.plan.typed.remarks import Asked, Unread


@pytest.mark.parametrize(
    ("text", "rest", "juice", "acid", "ph"),
    [
        ("3 kg plums 12 °Brix", "3 kg plums", "12 brix", None, None),
        ("2 lb figs (19-21 Brix)", "2 lb figs", "20 brix", None, None),
        ("2 L juice (SG 1.048; TA 5)", "2 L juice", "1.048", 5.0, None),
        # One percent is 1 g in 100 mL, so 10 g/L; as malic 1.119 times that (molar masses).
        ("4 lb pears (0.3 % acid)", "4 lb pears", None, 3.0, None),
        ("4 lb apples, TA 0.6 % as malic", "4 lb apples", None, 6.71, None),
        ("2 kg cherries, pH 3.4, 16 Brix", "2 kg cherries", "16 brix", None, 3.4),
        ("5 g citric acid", "5 g citric acid", None, None, None),
        ("1 g/L acid blend", "1 g/L acid blend", None, None, None),
        ("2 lb damsons, target gravity 1.090", "2 lb damsons, target gravity 1.090",
         None, None, None),
        # 60 % sucrose is 1.2889 at 20/20 (CRC: density 1.2865).
        ("500 ml concentrate (SG 1.289)", "500 ml concentrate", "60.0 brix", None, None),
    ],
)  # fmt: skip
def test_figures_of_a_fruit_are_taken_off_its_line(text, rest, juice, acid, ph):
    found, own = split_off_figures(text)
    assert found == rest
    assert (own.juice and own.juice.text) == juice
    assert own.acid_g_per_l == (pytest.approx(acid, abs=0.01) if acid else None)
    assert own.ph == ph


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("3 lb plums, 12-15 Brix", ["12-15 Brix is a range; 13.5 of it is read."]),
        ("3 lb plums (SG 1.050 to 1.060)", ["SG 1.050 to 1.060 is a range; 1.055 of it is read."]),
        ("3 lb plums (TA 6-8, pH 3.2-3.4)",
         ["TA 6-8 is a range; 7 of it is read.", "pH 3.2-3.4 is a range; 3.3 of it is read."]),
        ("3 lb plums, 12 Brix, pH 3.3", []),
    ],
)  # fmt: skip
def test_a_figure_given_as_a_range_is_read_at_its_middle_and_says_so(text, said):
    assert [remark.sentence for remark in typed_line(text, known()).remarks] == said


def test_a_line_of_figures_alone_is_told_from_words():
    assert only_figures("TA 18 g/L, pH 3.2")
    assert not only_figures("3 lb plums, TA 18 g/L")
    assert not only_figures("12 % abv")


@pytest.mark.parametrize(
    ("text", "repair"),
    [("2 kg quinces, TA 180", "2 kg quinces, TA 18 g/L"),
     ("2 L apple juice, SG 1048", "2 L apple juice, SG 1.048"),
     ("3 lb plums, pH 34", None)],
)  # fmt: skip
def test_a_figure_that_cannot_be_is_repaired_in_its_line(text, repair):
    with pytest.raises(Unread) as refused:
        typed_line(text, known())
    assert [way.text for way in refused.value.ways] == ([repair] if repair else [])


@pytest.mark.parametrize(
    ("text", "whole"),
    [
        ("2 x 29 oz cans peaches", "58 oz canned peaches"),
        ("two 29-oz cans of peaches", "58 oz canned peaches"),
        ("1 tin (820 g) prunes", "820 g canned prunes"),
        ("2 cans peaches, 29 oz each", "58 oz canned peaches"),
        ("3 × 500 g packs frozen raspberries", "1500 g frozen raspberries"),
        ("2 x 1 L cartons apple juice", "2 L apple juice"),
        ("a 12 fl oz can of grape juice", "12 fl oz grape juice"),
        ("1 1/2 lb bag of sugar", "1 1/2 lb sugar"),
        ("1 packet (500 g) raisins", "500 g raisins"),
        ("1 packet (5 g) yeast", "1 packet (5 g) yeast"),
        ("1 pack wine yeast", "1 packet wine yeast"),
        ("15 lb damsons", "15 lb damsons"),
    ],
)
def test_packs_are_what_they_hold_altogether(text, whole):
    assert unpacked(text).text == whole


@pytest.mark.parametrize("text", ["1 can peaches", "half a bag of sugar", "2 vials yeast"])
def test_packs_that_say_no_weight_are_asked_about(text):
    with pytest.raises(Asked):
        unpacked(text)


@pytest.mark.parametrize(
    ("text", "rest", "when"),
    [
        ("8 oz sugar (day 4)", "8 oz sugar", "feed"),
        ("1 1/2 lb sugar, to be fed later", "1 1/2 lb sugar", "feed"),
        ("8 oz sugar on the fourth day", "8 oz sugar", "feed"),
        ("1 lb honey, held back", "1 lb honey", "feed"),
        ("1 lb sugar added gradually", "1 lb sugar", "feed"),
        ("1 lb sugar at 1.020", "1 lb sugar", "feed"),
        ("1 lb sugar at the start", "1 lb sugar", "start"),
        ("2 lb sugar, half now and half later", "2 lb sugar", "half"),
        ("2 lb sugar (hold back 8 oz)", "2 lb sugar", "half"),
        ("4 oz sugar for priming", "4 oz sugar", "sweeten"),
        ("2 lb light brown sugar", "2 lb light brown sugar", None),
    ],
)
def test_words_say_when_sugar_goes_in(text, rest, when):
    found, fed = split_off_feed(text)
    assert found == rest
    assert (fed and fed.when) == when


def test_half_now_and_half_later_is_asked_with_two_lines_that_read():
    with pytest.raises(Asked) as refused:
        typed_line("3 lb sugar, of which 1 lb on day 4", known())
    (way,) = refused.value.ways
    lines = [typed_line(line, known()).line for line in way.text.splitlines()]
    assert [(line.amount.text, line.when) for line in lines] == [
        ("2 lb", "start"),
        ("1 lb", "feed"),
    ]


@pytest.mark.parametrize(
    ("text", "rest", "prepared", "syrup"),
    [
        ("4 lb elderberries, off the stalk", "4 lb elderberries", True, None),
        ("2 lb gooseberries, topped and tailed, frozen", "2 lb gooseberries, frozen", True, None),
        ("5 lb apricots (weighed after stoning)", "5 lb apricots", True, None),
        ("2 lb plums with stones in", "2 lb plums", False, None),
        ("58 oz peaches in extra heavy syrup", "58 oz peaches", False, "extra heavy"),
        ("2 lb pears in syrup", "2 lb pears", False, ""),
        ("24 fl oz apple concentrate", "24 fl oz apple juice", False, None),
        ("3 L apple juice from concentrate", "3 L apple juice from concentrate", False, None),
    ],
)
def test_phrases_say_how_the_fruit_is(text, rest, prepared, syrup):
    found, forms = split_off_forms(text)
    assert (found, forms.prepared, forms.syrup) == (rest, prepared, syrup)


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("makes one US gallon", "makes 1 US gallon"),
        ("2 lbs 8 ozs pears", "2 lbs 8 oz pears"),
        ("half a dessertspoonful of tannin", "1 tsp of tannin"),  # 10 mL are two of 5 mL
        ("two galls water", "2 gals water"),
        ("a good tablespoon of honey", "1 tablespoon good of honey"),
    ],
)
def test_old_spellings_of_units_are_read(text, plain):
    assert digits(text) == plain


def test_a_country_in_front_of_a_name_is_part_of_it():
    line = typed_line("5 kg American grapes", known()).line
    assert (line.fruit, line.amount.text) == ("grape-american-type", "5 kg")
