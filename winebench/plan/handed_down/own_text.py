"""A line's own figures in words: what its fruit reads, what its syrup's label says."""

from __future__ import annotations

from winebench.model.recipe import FruitLine, Line, SugarLine


def own_text(line: Line) -> str:
    """Return like "juice 15.5 brix, acidity 18 g/L, pH 3.4", or "" where nothing is measured."""
    if isinstance(line, SugarLine):
        return f"{line.solids_percent:g} % sugar" if line.solids_percent is not None else ""
    if not isinstance(line, FruitLine):
        return ""
    measured = line.measured
    pieces = (
        f"juice {measured.juice.text}" if measured.juice is not None else "",
        f"acidity {measured.acid_g_per_l:g} g/L" if measured.acid_g_per_l is not None else "",
        f"pH {measured.ph:g}" if measured.ph is not None else "",
    )
    return ", ".join(filter(None, pieces))
