"""Version 2 adds `weekends`, `pantry`, `money` and the `pictures` of entries, with defaults."""

from __future__ import annotations

from typing import Any


def upgrade(fields: dict[str, Any]) -> dict[str, Any]:
    """Return the fields of a file of version 1 as version 2 has them: nothing moved."""
    return dict(fields)
