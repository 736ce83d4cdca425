"""What was measured of the fruit counts, wherever it was written down."""

import pytest

from tests.plan.damson import at, damson, ticked
from winebench.model.edits import changed
from winebench.model.log import Record
from winebench.model.recipe import Measured
from winebench.plan.measured import measured_from
from winebench.plan.typed.own_figures import split_off_figures
from winebench.plan.work_out import outlook
from winebench.units import Juice, UnitsError

NOW = at("2026-10-01T20:00")


def seen(**records):
    return outlook(damson(ticked("measure-fruit", "2026-10-01T18:30", **records)), NOW)


def test_a_measurement_in_the_log_replaces_the_tables_figure_and_narrows_the_range():
    table, measured = outlook(damson(), NOW).must, seen(brix="13,5", acid="12").must
    assert measured.measured
    assert not table.measured
    assert measured.gravity.value < table.gravity.value
    width = [must.gravity.high - must.gravity.low for must in (table, measured)]
    assert width[1] < width[0]


def test_a_juice_read_as_gravity_is_the_same_as_its_brix():
    # 13.5 °Brix is SG 1.0547 by the ICUMSA sucrose table.
    assert seen(brix="1.0547").must.gravity.value == pytest.approx(
        seen(brix="13.5").must.gravity.value, abs=0.0002
    )


def test_nonsense_changes_nothing_and_is_said():
    odd = seen(brix="2 furlongs")
    assert odd.must.gravity.value == outlook(damson(), NOW).must.gravity.value
    assert any(c.key == "unused-measure" and "furlongs" in c.sentence for c in odd.cautions)


@pytest.mark.parametrize("pair", [("brix", "48"), ("acid", "-5"), ("acid", "200"), ("ph", "9")])
def test_what_no_fruit_can_have_is_asked_to_be_measured_again(pair):
    with pytest.raises(UnitsError):
        measured_from([Record(name=pair[0], value=pair[1])])


def test_what_the_sharpest_juice_can_have_is_kept_wherever_it_is_written() -> None:
    # Lemon juice has 48 g/L of citric acid (Penniston et al. 2008, J. Endourol. 22:567, from
    # memory), x 75.04 / 64.04 = 56 as tartaric; a sort may be sharper. A log and a line agree.
    noted = measured_from([Record(name="acid", value="70"), Record(name="ph", value="5.8")])
    assert (noted.acid_g_per_l, noted.ph) == (70.0, 5.8)
    typed = split_off_figures("5 lb lemons, TA 70 g/L, pH 5.8")[1]
    assert (typed.acid_g_per_l, typed.ph) == (70.0, 5.8)
    with pytest.raises(UnitsError):
        measured_from([Record(name="acid", value="81")])


def test_an_empty_recipe_is_told_no_future():
    empty = outlook(damson(drop=("fruit", "sugar", "enzyme", "nutrient", "sulfite", "yeast")), NOW)
    assert empty.forecast is None
    assert outlook(damson(), NOW).forecast is not None


def test_a_measurement_that_the_line_contradicts_is_told_and_can_be_taken():
    line = changed(damson().fruits[0], measured=Measured(juice=Juice("11 brix"), ph=3.2))
    lines = (line, *damson().recipe.lines[1:])
    tick = ticked("measure-fruit", "2026-10-01T18:30", brix="12.5", acid="14", ph="3.2")
    project = damson(tick, recipe=changed(damson().recipe, lines=lines))
    found = outlook(project, NOW)
    (told,) = [one for one in found.cautions if one.key == "measured-twice"]
    assert told.sentence == (
        "The log measured 12.5 °Brix where the line has 11: the line's figures count."
    )
    taken = told.repairs[0].edit.apply(project)
    measured = taken.fruits[0].measured
    assert (measured.juice.text, measured.acid_g_per_l, measured.ph) == ("12.5 brix", 14.0, 3.2)
    assert [one for one in outlook(taken, NOW).cautions if one.key == "measured-twice"] == []
