"""The readings as a table that any spreadsheet opens."""

from __future__ import annotations

import csv
import io

from winebench.model.project import Project
from winebench.plan.outlook import Outlook
from winebench.plan.typed.numbers import number_text

COLUMNS = (
    "time",
    "gravity_as_read",
    "instrument",
    "temperature",
    "temperature_celsius",
    "sg_20_celsius",
    "ph",
    "acidity_g_per_l_as_tartaric",
    "free_so2_mg_per_l",
    "clearness_0_to_4",
    "note",
    "doubt",
)


def readings_csv(project: Project, outlook: Outlook) -> bytes:
    """Return every reading in order of time as UTF-8 CSV with a header (RFC 4180).

    Numbers have a decimal point; what was typed stands as typed. Times are ISO 8601 with
    their offset.
    """
    meant = {reading.id: reading for reading in outlook.readings}
    text = io.StringIO(newline="")
    table = csv.writer(text)
    table.writerow(COLUMNS)
    for reading in project.readings:
        seen = meant.get(reading.id)
        warmth = reading.temperature
        table.writerow(
            (
                reading.at.isoformat(),
                _literal(reading.gravity.text.strip()) if reading.gravity else "",
                reading.instrument,
                _literal(warmth.text.strip()) if warmth else "",
                f"{warmth.celsius:.2f}" if warmth else "",
                f"{seen.corrected:.4f}" if seen and seen.corrected is not None else "",
                number_text(reading.ph),
                number_text(reading.acid_g_per_l),
                number_text(reading.free_so2_mg_per_l),
                number_text(reading.clear),
                _literal(reading.note),
                seen.doubt if seen else "",
            )
        )
    return text.getvalue().encode("utf-8")


def _literal(words: str) -> str:
    """Return typed words so that a spreadsheet takes them for words, never for a formula."""
    return f"'{words}" if words[:1] in ("=", "+", "-", "@", "\t", "\r") else words
