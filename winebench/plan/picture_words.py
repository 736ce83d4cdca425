"""How many pictures an entry has, in words."""

from __future__ import annotations

from winebench.model.log import Entry

_NAMED = 3


def picture_words(entry: Entry) -> str:
    """Return like "picture cap.jpg" or "2 pictures: cap.jpg, lees.jpg"; "" where it has none.

    Of many only the first are named.
    """
    names = [name.rpartition("/")[2] for name in entry.pictures]
    if len(names) <= 1:
        return f"picture {names[0]}" if names else ""
    more = f" and {len(names) - _NAMED} more" if len(names) > _NAMED else ""
    return f"{len(names)} pictures: {', '.join(names[:_NAMED])}{more}"
