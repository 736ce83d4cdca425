"""What is said of a style that the catalog does not have."""

from __future__ import annotations

from collections.abc import Iterator

from winebench.catalog.styles import PLAIN, styles
from winebench.model.project import Project
from winebench.plan.outlook import Caution


def style_cautions(project: Project) -> Iterator[Caution]:
    """Give that a style not known here is planned as the plain dry one; its word is kept."""
    word, known = project.recipe.style, styles()
    if word in known or not project.recipe.lines:
        return
    stands = known[PLAIN].name
    said = f'"{word.strip()}" is no style known here' if word.strip() else "No style is chosen"
    names = ", ".join(one.name for one in known.values() if one.key != PLAIN)
    yield Caution(
        key="unknown-style",
        severity="note",
        about="must",
        sentence=f"{said}: what you do not want otherwise is planned as for {stands}.",
        detail=f"Choose a style ({stands}; {names}), or say yourself what gravity, acidity and "
        "sweetness you want. Your word for it is kept.",
    )
