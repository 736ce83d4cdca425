"""A line that tells of measuring the fruit: its figures are the juice's, not the must's."""

from __future__ import annotations

from winebench.model.log import Reading, Record
from winebench.plan.measured import measured_from
from winebench.plan.scribbles.deeds import Deed
from winebench.plan.typed.numbers import number_text

NO_FIGURES = (
    "It says no figure; the tables stand for the fruit. Write it such as: measured the fruit, "
    "11 brix, ph 3.3, acid 9."
)


def fruit_measured(deed: Deed, reading: Reading | None) -> str:
    """Write the line's figures down with the deed; return what is odd about it, or "".

    Raises:
        UnitsError: a figure that no fruit can have; one sentence.

    """
    if reading is None:
        return NO_FIGURES
    said = {
        "brix": reading.gravity.text.strip() if reading.gravity else "",
        "acid": number_text(reading.acid_g_per_l),
        "ph": number_text(reading.ph),
        "temperature": reading.temperature.text.strip() if reading.temperature else "",
    }
    records = [Record(name=name, value=value) for name, value in said.items() if value]
    measured_from(records)
    deed.records.extend(records)
    return ""
