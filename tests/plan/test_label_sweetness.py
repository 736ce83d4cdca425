"""The word for sweetness on the label follows what was read last, as long as nothing doubts it.

Words of the OIV International Standard for the Labelling of Wines, 3.1.6: sweet above 45 g/L.
"""

import pytest

from tests.plan.damson import (
    IN_GLASS,
    NEARLY_STABLE,
    PITCHED,
    STABLE,
    damson,
    read,
    seen,
    ticked,
)
from tests.plan.stuck_batch import STUCK
from winebench.model.edits import changed
from winebench.plan.label import not_final, strength_words, sugar_left_g_per_l, sweetness
from winebench.units import Gravity, Mass


def word(project, now):
    return sweetness(project, seen(project, now))


def test_a_stuck_wine_is_as_sweet_as_it_reads():
    # 1.021 is 32 points above the 0.989 of the dry wine: about 75 g/L of sugar.
    assert word(damson(*STUCK), "2026-10-18T19:00") == "sweet"
    strength = next(line.words for line in seen(damson(*STUCK), "2026-10-18T19:00").label
                    if "% vol" in line.words)  # fmt: skip
    # 131.25 x (1.091 - 1.021) is 9.2: not the 14 % of the wine that it was to be.
    assert strength.startswith("Sweet · about 9.")


@pytest.mark.parametrize("style", ["dark-dry", "sweet"])
def test_a_wine_at_work_is_what_it_reads_whatever_it_is_to_be(style):
    base = damson(*IN_GLASS)
    made = changed(base, recipe=changed(base.recipe, style=style))
    # 1.024 is 35 points above the 0.989 of the dry wine: over 80 g/L of sugar, sweet from 45 on.
    assert word(made, "2026-10-10T19:00") == "sweet"
    # 131.25 x (1.091 - 1.024) is 8.8.
    found = seen(made, "2026-10-10T19:00")
    assert strength_words(made, found).startswith("Sweet · about 8.")
    assert not_final(made, found) == (
        "Not final until the wine is stable: sweetness and strength are those of the last reading, "
        "1.024."
    )


def test_a_reading_that_is_asked_about_is_no_word_on_the_label():
    typed_wrong = read("1.093", "2026-11-16T18:00+01:00")  # for 0.993
    made = damson(*NEARLY_STABLE, typed_wrong)
    assert word(made, "2026-11-16T19:00+01:00") == "dry"


def test_the_label_says_until_when_it_is_not_final():
    def said(now, *log, **recipe):
        base = damson(*log)
        made = changed(base, recipe=changed(base.recipe, **recipe))
        return not_final(made, seen(made, now))

    foreseen = said("2026-10-03T19:00", *PITCHED)
    assert foreseen.startswith("Not final: no gravity was read since the yeast went in")
    late = "2026-11-22T10:00+01:00"
    assert said("2026-10-18T19:00", *STUCK).startswith("Not final until the wine is stable")
    assert said("2026-11-16T19:00+01:00", *NEARLY_STABLE).endswith("0.993.")
    assert said(late, *STABLE) == ""
    assert said(late, *STABLE, style="sweet") == "Not final: it is still to be sweetened."
    assert said(late, *STABLE, ticked("bottle", late), style="sweet") == ""


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


@pytest.mark.parametrize(
    ("style", "expected"),
    [("dark-dry", "dry"), ("light-dry", "dry"), ("dark-medium", "medium"),
     ("light-medium", "medium"), ("sweet", "sweet")],
)  # fmt: skip
@pytest.mark.parametrize("sugar", ["2.9 kg", "3.4 kg", "3.9 kg"])
def test_a_style_is_called_on_the_label_what_it_is_called_by_name(style, expected, sugar):
    # Words of the OIV labelling standard, 3.1.6: medium over 18 and up to 45 g/L, sweet above.
    base = damson(*PITCHED)
    lines = tuple(
        changed(x, amount=Mass(sugar)) if x.id == "sugar" else x for x in base.recipe.lines
    )
    made = changed(base, recipe=changed(base.recipe, style=style, lines=lines))
    assert word(made, "2026-10-30T19:00") == expected


def wanting(gravity, *log):
    base = damson(*(log or PITCHED))
    targets = changed(base.recipe.targets, final_gravity=Gravity(gravity))
    return changed(base, recipe=changed(base.recipe, targets=targets))


def test_an_own_gravity_is_sugar_above_the_gravity_of_the_dry_wine():
    # Sucrose tables: 0.000384 for each g/L. The dry wine is at 0.989 or so: 20 g/L more is 0.9967,
    # 40 g/L 1.0044, 60 g/L 1.012.
    dry = seen(wanting("1.000"), "2026-10-30T19:00").must.dry_gravity.value
    for sugar, expected in ((0.0, "dry"), (28.0, "medium"), (40.0, "medium"), (60.0, "sweet")):
        gravity = f"{dry + 0.000384 * sugar:.4f}"
        assert word(wanting(gravity), "2026-10-30T19:00") == expected
    # 2.0 °Brix of a refractometer's scale is 1.0078 (ICUMSA): some 49 g/L above 0.989.
    assert word(wanting("2.0 brix"), "2026-10-30T19:00") == "sweet"


def test_acid_that_was_measured_makes_a_wine_drier_by_its_word():
    # OIV 3.1.6: up to 18 g/L is medium dry where it is no more than 10 above the acid.
    base = wanting("0.9955")
    sugar = sugar_left_g_per_l(base, seen(base, "2026-10-30T19:00"))
    assert 12.0 < sugar < 18.0
    for acid, expected in ((sugar - 10.1, "medium"), (sugar - 9.9, "medium dry")):
        reading = changed(
            read("0.996", "2026-10-30T18:00+01:00"), gravity=None, acid_g_per_l=round(acid, 2)
        )
        assert word(wanting("0.9955", *PITCHED, reading), "2026-10-30T19:00") == expected
