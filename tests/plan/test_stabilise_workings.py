"""What Stabilise shows of its doses: each with its rule, what went in, and its source."""

import pytest

from tests.plan.damson import STABLE, damson, planned, read
from winebench.model.edits import changed

LATE = "2026-11-22T20:00+01:00"


def doses(ph, original="1.091"):
    """Return the figures of a sweet damson by their names."""
    log = tuple(
        read(original, "2026-10-02T18:00") if getattr(one, "id", "").startswith("1.091") else one
        for one in STABLE
    )
    ph_read = () if ph is None else (read("0.993", "2026-11-22T09:00+01:00", ph=ph),)
    base = damson(*log, *ph_read)
    sweet = changed(base, recipe=changed(base.recipe, style="sweet"))
    found = planned(sweet, LATE, "stabilise")
    return {one.name: one.figure for one in found.figures}


@pytest.mark.parametrize(
    ("ph", "rule", "source"),
    [(3.4, "sorbic-dose-by-ph", "Underhill"), (None, "sorbic-dose", "Peynaud")],
)
def test_the_sorbic_acid_that_the_sorbate_brings_has_its_own_workings(ph, rule, source) -> None:
    found = doses(ph)
    wanted, sorbate = found["Sorbic acid wanted"], found["Potassium sorbate"]
    assert wanted.workings is not None
    assert wanted.workings.rule == rule
    assert source in wanted.workings.source
    assert {one.name for one in wanted.workings.inputs} >= {"abv"}
    assert sorbate.workings is not None
    into = {one.name: one.value for one in sorbate.workings.inputs}
    assert into["sorbic_mg_per_l"] == wanted.text
    # 112.13 of 150.22 g of the salt is sorbic acid (IUPAC atomic weights).
    grams = float(wanted.text) * float(into["litres"]) / 1000.0 * 150.22 / 112.13
    assert sorbate.value == pytest.approx(grams, rel=0.01)


def test_the_dose_is_the_one_of_the_table() -> None:
    # Underhill's table at 14 % vol and pH 3.4: 2.7 mL of a 3 % solution in a litre, 81 mg of the
    # salt, 60.5 mg of sorbic acid. This wine is stronger, and wants no more than that.
    strong = doses(3.4, original="1.110")["Sorbic acid wanted"]
    assert strong.text == "60"
    # Peynaud at 14 % vol (from memory): 50 mg/L.
    assert doses(None, original="1.110")["Sorbic acid wanted"].text == "50"


def test_a_wine_weaker_than_the_tables_gets_what_the_limit_allows_with_its_source() -> None:
    weak = doses(3.4, original="1.060")["Sorbic acid wanted"]
    assert weak.text == "200"  # OIV II.3.4.5
    assert weak.workings is not None
    assert "OIV II.3.4.5" in weak.workings.source


def test_a_dry_wine_shows_no_sorbate() -> None:
    names = [one.name for one in planned(damson(*STABLE), LATE, "stabilise").figures]
    assert not {"Sorbic acid wanted", "Potassium sorbate"} & set(names)
