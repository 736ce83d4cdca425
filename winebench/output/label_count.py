"""How many labels a batch wants, and how many sheets of them."""

from __future__ import annotations

import math

from winebench.model.project import Project
from winebench.output.label_sheets import SHEETS, sheet_of


def labels_sentence(project: Project, bottles: int) -> str:
    """Return like "Labels: 20, one a bottle: 1 sheet (A4, …), 1 left over."; empty without any."""
    if bottles <= 0 or project.label.sheet not in SHEETS:
        return ""
    sheet = sheet_of(project)
    sheets = math.ceil(bottles / sheet.per_page)
    over = sheets * sheet.per_page - bottles
    kind = f"{sheets} {'sheet' if sheets == 1 else 'sheets'} ({sheet.name})"
    words = f"Labels: {bottles}, one a bottle: {kind}"
    return f"{words}, {over} left over." if over else f"{words}."
