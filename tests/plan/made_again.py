"""The damson batch with all sorts of amounts in its log, for tests of making it again."""

from hypothesis import strategies as st

from tests.plan.damson import LINES, at, damson, read, ticked
from winebench.model.edits import changed
from winebench.model.log import Record
from winebench.model.recipe import Measured, Recipe
from winebench.units import Volume

NOW = at("2027-09-20T10:00")
LATER = at("2028-09-20T10:00")


def amount(project, line_id):
    line = project.line(line_id)
    return None if line is None else line.amount.text


def logged(step, **records):
    made = tuple(Record(name=name.replace("_", "-"), value=value)
                 for name, value in records.items())  # fmt: skip
    return changed(ticked(step, "2026-10-01T18:00"), records=made)


def measured_damson(*log, note="", **measured):
    fruit = changed(LINES[0], measured=Measured(**measured), note=note)
    return damson(*log, recipe=Recipe(lines=(fruit, *LINES[1:]), basis=Volume("5 gal US")))


amounts = st.sampled_from(["0", "none", "3", "12 g", "0,9", "1 1/2 oz", "2 tablets", "1/2 tsp",
                           "3900", "9 kg", "a lot", "52 mg/L", "1.008"])  # fmt: skip
named = st.sampled_from([
    ("sugar-water", "sugar"), ("sugar-water", "tartaric-acid"), ("sulfite-must", "grams"),
    ("sulfite-must", "mg-per-l"), ("enzyme", "grams"), ("first-nitrogen", "grams"),
    ("second-nitrogen", "grams"), ("sugar-feed", "grams"), ("fine", "grams"), ("fine", "what"),
    ("stabilise", "sorbate"), ("stabilise", "mg-per-l"), ("sweeten", "gravity"),
    ("fruit-accepted", "weight"), ("transfer", "bentonite"), ("measure-fruit", "brix"),
])  # fmt: skip


@st.composite
def batches(draw):
    """Return the damson batch with made-up amounts in its log."""
    log = []
    for number, ((step, name), value) in enumerate(draw(st.lists(st.tuples(named, amounts),
                                                                 max_size=8))):  # fmt: skip
        made = changed(logged(step), records=(Record(name=name, value=value),), id=f"log-{number}")
        log.append(made)
    readings = (read("1.091", "2026-10-02T18:00"),) if draw(st.booleans()) else ()
    return damson(*log, *readings)
