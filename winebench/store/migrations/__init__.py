"""Upgrades of older project files, one version at a time, on plain dicts.

To change the file: raise NEWEST, write `to<N>.py` with `upgrade(fields) -> fields` (standard
library only, frozen once released), enter it below, give it its own test, and add a project
saved by the previous release to tests/old_files/.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from winebench.store.migrations import to2

Fields = dict[str, Any]
Upgrade = Callable[[Fields], Fields]

NEWEST = 2
"""Version of the project file that this program writes."""
UPGRADES: Mapping[int, Upgrade] = {2: to2.upgrade}
"""For each version after 1, what makes it of the version before."""


def upgraded(
    fields: Fields,
    version: int,
    newest: int = NEWEST,
    upgrades: Mapping[int, Upgrade] = UPGRADES,
) -> Fields:
    """Return the fields of a file of that version as the newest version has them."""
    for step in range(version + 1, newest + 1):
        fields = upgrades[step](fields)
    return fields
