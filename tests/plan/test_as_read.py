"""Once the must was read, what is shown of the batch goes by the reading and says so."""

import re

import pytest

from tests.plan.damson import PITCHED, STABLE, at, damson, read, seen, step, ticked
from winebench.model.log import Entry
from winebench.plan.outlook import Outlook, Want
from winebench.plan.work_out import outlook
from winebench.trade.gravity import brix_from_sg

BEFORE = PITCHED[:4]


def with_must(sg: str, *, pitched: bool = True) -> tuple[Entry, ...]:
    return (*BEFORE, read(sg, "2026-10-02T18:00"), *(PITCHED[5:] if pitched else ()))


def want(found: Outlook, key: str) -> Want:
    return next(one for one in found.must.wants if one.key == key)


def said(found: Outlook) -> list[str]:
    return [one.sentence for one in found.cautions if one.key == "must-as-read"]


def test_until_the_yeast_is_in_the_gauges_are_the_recipes_and_what_lacks_is_said() -> None:
    now = "2026-10-02T18:45"
    recipe = seen(damson(*BEFORE), now).must
    found = seen(damson(*with_must("1.079", pitched=False)), now)
    assert found.must == recipe
    (caution,) = [one for one in found.cautions if one.key == "must-as-read"]
    assert caution.sentence == (
        f"The recipe reckons {recipe.gravity.text}; you measured 1.079 on Friday 2 October."
    )
    # 46 points for a pound in a gallon (common practice); 13.5 lb fill a gallon (27 CFR 24.181).
    wanted, has = (recipe.gravity.value - 1.0) / 0.046, 79.0 / 46.0  # lb in a gallon
    pounds = (wanted - has) * recipe.liquid.value / 3.785 / (1.0 - wanted / 13.5)
    told = re.search(r"([\d.]+) (kg|g)\b", caution.detail)
    grams = float(told[1]) * (1000.0 if told[2] == "kg" else 1.0)
    assert grams == pytest.approx(pounds * 453.6, rel=0.03)


def test_strength_gauges_and_end_lean_on_the_reading_of_the_must() -> None:
    recipe = seen(damson(*BEFORE), "2026-10-02T18:45").must
    now = "2026-10-02T18:45"
    found = seen(damson(*with_must("1.079")), now)
    must = found.must
    assert must.gravity.value == pytest.approx(1.079, abs=1e-4)
    assert must.gravity.text == want(found, "gravity").actual.text == "1.079"
    assert must.brix.value == pytest.approx(brix_from_sg(1.079), abs=0.01)
    # OIV-MA-AS2-02 Table II: 1.0773 is 10.73 % and 1.0954 is 13.44 %, 0.150 % for a point; white
    # sugar, which inverts to 5 % more, makes a little more of one.
    points = (recipe.gravity.value - 1.079) * 1000
    assert points > 10
    fewer = recipe.strength.value - must.strength.value
    assert fewer / points == pytest.approx((13.44 - 10.73) / (95.4 - 77.3), rel=0.05)
    assert want(found, "strength").actual == must.strength
    # Less alcohol ends higher: OIML R 22 has SG 0.984125 at 12 % vol and 0.980735 at 15 %.
    higher = must.dry_gravity.value - recipe.dry_gravity.value
    assert higher == pytest.approx((0.984125 - 0.980735) / 3.0 * fewer, rel=0.03)
    assert must.gravity.low < 1.079 < must.gravity.high
    assert must.strength.low < must.strength.value < must.strength.high
    assert must.strength.workings is not None
    assert must.strength.workings.rule == "must-as-read"
    # What no hydrometer shows stays the recipe's.
    assert (must.acidity, must.nitrogen) == (recipe.acidity, recipe.nitrogen)
    assert said(found) == [
        f"The recipe reckoned {recipe.gravity.text}; you measured 1.079 on Friday 2 October. "
        "Gravity, strength and ending go by what you measured."
    ]


def test_a_must_as_reckoned_says_nothing_and_shows_the_same() -> None:
    recipe = seen(damson(*BEFORE), "2026-10-02T18:45").must
    found = seen(damson(*with_must(f"{recipe.gravity.value:.4f}")), "2026-10-02T18:45")
    assert said(found) == []
    assert found.must.strength.value == pytest.approx(recipe.strength.value, abs=0.02)
    assert found.must.dry_gravity.value == pytest.approx(recipe.dry_gravity.value, abs=1e-4)


def test_no_reading_leaves_the_recipe_and_a_reading_of_the_ferment_changes_no_must() -> None:
    bare = seen(damson(*BEFORE, *PITCHED[5:]), "2026-10-02T18:45")
    later = seen(damson(*BEFORE, *PITCHED[5:], read("1.060", "2026-10-05T18:30")),
                 "2026-10-05T19:00")  # fmt: skip
    assert later.must == bare.must
    assert said(later) == []


def test_what_hangs_on_the_end_hangs_on_the_end_of_what_was_read() -> None:
    # A third of the sugar of 1.079 is gone at 1.079 - (1.079 - dry) / 3.
    found = seen(damson(*with_must("1.079")), "2026-10-02T18:45")
    third = 1.079 - (1.079 - found.must.dry_gravity.value) / 3
    assert f"{third:.3f}" in step(found, "second-nitrogen").reason
    figures = step(seen(damson(*STABLE[:-1]), "2026-11-21T19:00+01:00"), "declare-stable").figures
    shown = seen(damson(*STABLE[:-1]), "2026-11-21T19:00+01:00").must.dry_gravity
    assert figures[0].figure == shown


def test_a_must_read_stronger_than_its_packet_stands_says_so_though_its_recipe_does_not() -> None:
    found = outlook(damson(*with_must("1.109")), at("2026-10-02T18:45"))
    assert found.must.strength.value > 14.0
    weak = [one for one in found.cautions if one.key == "yeast-too-weak"]
    assert [one.sentence.split(",")[0] for one in weak] == [
        f"The sugar makes {found.must.strength.text} %"
    ]
    assert "packet stands 14 %" in found.forecast.sentence


def test_a_reading_in_range_outweighs_a_recipe_out_of_it() -> None:
    thin = damson(*with_must("1.092", pitched=False), drop=("sugar",))
    assert "gravity-out-of-range" not in [
        one.key for one in seen(thin, "2026-10-02T18:45").cautions
    ]
    unread = damson(*BEFORE, drop=("sugar",))
    assert "gravity-out-of-range" in [one.key for one in seen(unread, "2026-10-02T18:45").cautions]


def test_a_strong_wine_at_rest_where_dry_wines_end_is_not_stuck() -> None:
    # At 15 % the reckoned end is near 0.987; dry wines read 0.990 and more (common practice).
    days = ("2026-10-20T18:30", "2026-10-27T18:30", "2026-11-08T18:30")
    rest = [read("0.998", day) for day in days]
    found = seen(damson(*with_must("1.110"), *rest), "2026-11-08T19:00")
    assert found.must.dry_gravity.value < 0.9875
    assert found.stuck is None
    high = [read("1.004", day) for day in days]
    assert seen(damson(*with_must("1.110"), *high), "2026-11-08T19:00").stuck is not None


@pytest.mark.parametrize(
    ("when", "counts"),
    [
        # The yeast goes in on 2 October at 18:30: 35.5 h and 36.5 h before it.
        ("2026-10-01T07:00", True),
        ("2026-10-01T06:00", False),
    ],
)
def test_a_must_read_a_day_and_a_half_before_its_yeast_sets_the_start(when, counts) -> None:
    must = (
        ticked("sugar-water", "2026-10-01T05:00"),
        read("1.084", when),
        ticked("pitch", "2026-10-02T18:30"),
    )
    found = seen(damson(*must), "2026-10-02T19:00")
    assert (found.must.gravity.text == "1.084") is counts
    assert bool(found.readings[0].doubt) is not counts


def test_a_juice_read_before_sugar_and_water_went_in_is_not_the_start() -> None:
    juice = read("1.050", "2026-10-02T10:00")
    sugared = (ticked("sugar-water", "2026-10-02T11:00"), ticked("pitch", "2026-10-02T18:30"))
    found = seen(damson(juice, *sugared), "2026-10-02T19:00")
    assert found.must.gravity.value > 1.080
    (one,) = found.readings
    assert one.sentence.endswith("before sugar and water went in: not the starting gravity")
    again = (juice, sugared[0], read("1.088", "2026-10-02T12:00"), sugared[1])
    assert seen(damson(*again), "2026-10-02T19:00").must.gravity.text == "1.088"


def test_sugar_that_the_log_has_besides_is_in_the_strength_and_the_yeast_s_limit():
    # 2 lb (907 g) in the damson must's litres; sucrose takes up 5.26 % of water as it splits
    # (360.32 / 342.30), and 16.83 g/L make one percent.
    plain = damson(*PITCHED)
    sweet = damson(*PITCHED, ticked("sugar-added", "2026-10-04T18:00", grams="2 lb"))
    now = at("2026-10-05T20:00")
    before, after = (outlook(one, now) for one in (plain, sweet))
    litres = before.must.liquid.value
    more = 907.18 / litres * 360.32 / 342.30 / 16.83
    assert after.must.strength.value - before.must.strength.value == pytest.approx(more, abs=0.01)
    assert after.must.dry_gravity.value < before.must.dry_gravity.value
    assert before.must.stops_at is None
    assert after.must.stops_at is not None
