"""Where the program's own read-only files lie, from a checkout or an installed wheel."""

from functools import cache
from pathlib import Path


@cache
def resources() -> Path:
    """Return the folder of bundled data (samples, schema, catalog, fonts)."""
    inside = Path(__file__).parent / "resources"
    return inside if inside.is_dir() else Path(__file__).parent.parent / "resources"
