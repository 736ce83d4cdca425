"""What is typed into the pantry: where it is kept, what of it counts, what a new entry is."""

from __future__ import annotations

import re
from collections import Counter

from winebench.model.edits import changed
from winebench.model.project import Project
from winebench.plan.shopping.needs import BOTTLES, CLEANER, CORKS
from winebench.plan.typed.names import exact
from winebench.plan.typed.offers import known
from winebench.units import Amount, UnitsError

FIELDS = ("have", "pack", "price", "opened")
"""Fields of a pantry entry that are typed."""


def place_of(what: str, nth: int, name: str) -> str:
    """Return the place of that field of the nth entry, under which a draft of it is kept."""
    return f"pantry:{what}{f'#{nth}' if nth else ''}:{name}"


_BETWEEN = re.compile(r"[,;](?!\d)|\s+(?:and|&)\s+(?=\d)")
"""Between two things; "1,5 kg" is one."""


def counted(project: Project) -> Project:
    """Return the project without the stock and prices whose fields cannot be read now.

    What such a field held before is a beginning of what is being typed, and means nothing.
    """
    drafted = {draft.place for draft in project.drafts if draft.place.startswith("pantry:")}
    if not drafted:
        return project
    numbers: Counter[str] = Counter()
    pantry = []
    for item in project.pantry:
        name = item.what.strip().casefold()
        unread = {
            field: None for field in FIELDS if place_of(item.what, numbers[name], field) in drafted
        }
        numbers[name] += 1
        pantry.append(changed(item, **unread) if unread else item)
    return changed(project, pantry=tuple(pantry))


def pantry_things(text: str) -> tuple[tuple[str, Amount | None], ...]:
    """Return each thing of "5 lb white sugar, 30 corks, oak chips" as `pantry_thing` does.

    Raises:
        UnitsError: one of them names nothing, or is an amount alone.

    """
    return tuple(pantry_thing(piece) for piece in _BETWEEN.split(text) if piece.strip()) or (
        pantry_thing(text),
    )


def pantry_thing(text: str) -> tuple[str, Amount | None]:
    """Return what a new entry is of, by the catalog's key where it knows it, and how much.

    "5 lb white sugar" is white sugar, 5 lb of it; what the catalog does not know keeps its name.

    Raises:
        UnitsError: nothing is named, or it is an amount alone.

    """
    words = text.split()
    if len(words) > 1 and words[-1].isdecimal() and not words[0][0].isdigit():
        words = [words[-1], *words[:-1]]  # "corks 30"
    for end in range(len(words) - 1, 0, -1):
        try:
            have = Amount(" ".join(words[:end]))
        except UnitsError:
            continue
        return _thing(" ".join(words[end:])), have
    for start in range(1, len(words)):  # "white sugar 5 lb", "6 sulfite tablets"
        last = words[start:] if not words[0].isdecimal() else [words[0], words[-1]]
        try:
            have = Amount(" ".join(last))
        except UnitsError:
            continue
        if len(words) < 3 and words[0].isdecimal():
            continue  # "5 lb" names nothing, and of "30 corks" the unit is the thing
        return _thing(" ".join(words[1:] if words[0].isdecimal() else words[:start])), have
    name = " ".join(words)
    try:
        alone = Amount(name)
    except UnitsError:
        alone = None
    counts = {"bottle": BOTTLES, "cork": CORKS}
    if alone is not None and alone.parts[0].unit in counts:  # "30 corks" says both
        return counts[alone.parts[0].unit], alone
    if alone is not None or not any(sign.isalpha() for sign in name):
        raise UnitsError("Write what there is, such as 5 lb white sugar.")
    return _thing(name), None


def _thing(name: str) -> str:
    name = re.sub(r"^of\s+", "", name, flags=re.IGNORECASE)
    found = exact(name, known())
    if found is not None:
        return found.key
    plain = name.casefold()
    return next((own for own in (BOTTLES, CORKS, CLEANER) if own == plain), name)
