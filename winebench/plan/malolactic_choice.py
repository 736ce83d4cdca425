"""Whether the maker lets malolactic bacteria work, by the log, and what they do to sorbate."""

from __future__ import annotations

import re

from winebench.model.project import Project

KEY = "malolactic"
GERANIUMS = "malolactic bacteria turn it into a smell of geraniums"
"""What they make of sorbate, with no cure: see `trade/sorbate`."""
_NO = re.compile(r"\W*(?:no|not|don't|stop|stopped|sulfite|sulfited)\b", re.IGNORECASE)


def softening(project: Project) -> bool:
    """Return whether the maker chose to let malolactic bacteria work.

    Whatever was written that is not plainly a no counts as a yes: sorbate beside these bacteria
    spoils the wine, going without it spoils nothing.
    """
    tick = project.done(KEY)
    records = tick.records if tick else ()
    choice = next((one.value.strip() for one in records if one.name == "choice"), "")
    return bool(choice) and not plainly_no(choice)


def plainly_no(text: str) -> bool:
    """Return whether that answer is plainly a no."""
    return _NO.match(text) is not None
