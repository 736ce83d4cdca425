"""The widths that the recipe's rows and their heading share."""

from __future__ import annotations

WRITTEN, SCALED, MEASURE = 92, 84, 112
GAP = 8
ROW_HEIGHT = 24
