"""Vessels as one line of text: "26 L pail, 19 L glass jug", on the shelf "2 x 1 gal jug"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from difflib import get_close_matches
from typing import Literal

from winebench.model.edits import changed, new_id
from winebench.model.project import Project
from winebench.model.recipe import MOST_OF_A_KIND, Owned, Vessel
from winebench.units import Amount, GallonCountry, UnitsError, Volume

Role = Literal["primary", "secondary"]
_PRIMARY = ("pail", "bucket", "bin", "tub", "crock", "fermenter", "vat", "pot")
_SECONDARY = ("jug", "carboy", "demijohn", "keg", "cask", "barrel", "bottle", "flask")
_GLASS = ("glass", "jug", "carboy", "demijohn", "flask")
_COUNTS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
           "eleven", "twelve")  # fmt: skip
_COUNT_WORDS = {"a": 1, "an": 1, **{word: count for count, word in enumerate(_COUNTS, 1)}}
_MANY = re.compile(
    rf"(?:(?P<count>\d{{1,4}})\s*[x×]|(?P<word>{'|'.join(_COUNT_WORDS)})\b)\s*(?P<rest>\d.*)",
    re.ASCII | re.IGNORECASE,
)
MOST_ON_SHELF = 60
_KINDS = "|".join((*_PRIMARY, *_SECONDARY))
_NEXT = rf"(?=\d|(?:{'|'.join(_COUNT_WORDS)})\b|[^,;]*?(?:\d|\b(?:{_KINDS})s?\b))"
"""What begins another vessel: a number, or words with a volume or a kind of vessel in them."""
_APART = re.compile(
    rf"\s*;\s*|(?:\s*,\s+|(?<=[^\W\d]),){_NEXT}|\s+and\s+(?=\d|(?:{'|'.join(_COUNT_WORDS)})\s)",
    re.IGNORECASE,
)
_LIKE = 0.72
"""Words as like as this are taken for a slip: pale, buckit, demijon."""


def vessels_text(vessels: Sequence[Vessel]) -> str:
    """Return the vessels as they can be typed."""
    return ", ".join(_one(vessel) for vessel in vessels)


def _one(vessel: Vessel) -> str:
    holds, name = vessel.holds.text.strip(), vessel.name.strip()
    return name if name.lower().startswith(holds.lower()) else f"{holds} {name}".strip()


def read_vessels(
    text: str, before: Sequence[Vessel], gallon: GallonCountry | None
) -> tuple[Vessel, ...]:
    """Return the vessels meant; one that was there already keeps its id, role and glass.

    The first vessel of no telling name takes the must with the fruit, later ones the wine.

    Raises:
        UnitsError: a vessel has no volume, or one that cannot be read.

    """
    known = list(before)
    vessels: list[Vessel] = []
    for piece in _APART.split(text.strip().rstrip(",;")):
        if not piece.strip():
            continue
        count, one = _counted(piece.strip())
        for _ in range(count):
            vessels.append(_read_one(one, known, gallon, first=not vessels))
    if len(vessels) > MOST_ON_SHELF:
        raise UnitsError(f"A batch has room for {MOST_ON_SHELF} vessels here; leave some out.")
    return tuple(vessels)


def _counted(piece: str) -> tuple[int, str]:
    """Return how many are meant and one of them: "two 1 gal jugs" are 2 of "1 gal jug".

    Raises:
        UnitsError: none or too many.

    """
    many = _MANY.fullmatch(piece)
    if many is None:
        return 1, piece
    count = int(many["count"]) if many["count"] else _COUNT_WORDS[many["word"].lower()]
    if not 1 <= count <= MOST_OF_A_KIND:
        raise UnitsError(f'"{piece}": write 1 to {MOST_OF_A_KIND} of a kind, as in 2 x 1 gal jug.')
    return count, _single(many["rest"]) if count > 1 else many["rest"]


def _read_one(
    piece: str, known: list[Vessel], gallon: GallonCountry | None, *, first: bool
) -> Vessel:
    for vessel in known:
        if _one(vessel) == piece.strip():
            known.remove(vessel)
            return vessel
    holds, name = _split(piece, gallon)
    role = _role(name, first)
    named = name or ("pail" if role == "primary" else "jug")
    for vessel in known:
        if vessel.name == named or vessel.holds == holds:
            known.remove(vessel)
            kept = role if role != vessel.role and _tells(name) else vessel.role
            glass = vessel.glass if vessel.name == named else _is_glass(named)
            return changed(vessel, name=named, holds=holds, role=kept, glass=glass)
    return Vessel(id=new_id(), name=named, role=role, holds=holds, glass=_is_glass(named))


def _split(piece: str, gallon: GallonCountry | None) -> tuple[Volume, str]:
    """Return what the vessel holds, and its name.

    Raises:
        UnitsError: no volume, one of nothing, or a kind of vessel that is most likely a slip.

    """
    such = f"such as {'6 gal' if gallon else '26 L'} pail"
    words = re.sub(r"(?<=\d)-?(?=[a-zA-Z])", " ", piece).split()
    for end in range(len(words), 0, -1):
        try:
            amount = Amount(" ".join(words[:end]))
        except UnitsError:
            continue
        holds, name = Volume(amount.text), " ".join(words[end:])
        break
    else:
        raise UnitsError(f'"{piece.strip()}" has no volume; write what it holds, {such}.')
    if holds.litres(gallon) <= 0:
        raise UnitsError(f'"{piece.strip()}" holds nothing; write one {such}.')
    meant = _meant(name)
    if meant:
        raise UnitsError(
            f'"{meant[0]}" in "{piece.strip()}" is no vessel known here; did you mean {meant[1]}?'
        )
    return holds, name


def _meant(name: str) -> tuple[str, str] | None:
    """Return the word that looks like a slip of a kind of vessel, and that kind."""
    if _tells(name):
        return None
    for word in name.lower().split():
        like = get_close_matches(word, (*_PRIMARY, *_SECONDARY), n=1, cutoff=_LIKE)
        if like:
            return word, like[0]
    return None


def shelf_text(shelf: Sequence[Owned]) -> str:
    """Return the vessels on the shelf as they can be typed."""
    return ", ".join(_owned_text(owned) for owned in shelf)


def _owned_text(owned: Owned) -> str:
    many = f"{owned.count} x " if owned.count > 1 else ""
    return f"{many}{owned.holds.text.strip()} {owned.name.strip()}".strip()


def read_shelf(text: str, gallon: GallonCountry | None) -> tuple[Owned, ...]:
    """Return the vessels owned; those of no telling name hold wine, not must with fruit.

    Raises:
        UnitsError: a vessel has no volume or one that cannot be read, or there are too many.

    """
    shelf: list[Owned] = []
    for piece in _APART.split(text.strip().rstrip(",;")):
        if piece.strip():
            shelf.append(_read_owned(piece.strip(), gallon))
    if sum(owned.count for owned in shelf) > MOST_ON_SHELF:
        raise UnitsError(f"A shelf has room for {MOST_ON_SHELF} vessels here; leave some out.")
    return tuple(shelf)


def _read_owned(piece: str, gallon: GallonCountry | None) -> Owned:
    count, one = _counted(piece)
    holds, named = _split(one, gallon)
    return Owned(
        holds=holds,
        name=named or "jug",
        role=_role(named, first=False),
        glass=_is_glass(named or "jug"),
        count=count,
    )


def _single(name: str) -> str:
    """Return "jug" of "jugs": two of them are written so."""
    return re.sub(r"(?<=[a-rt-z])s$", "", name)


def _tells(name: str) -> bool:
    return any(word in name.lower() for word in (*_PRIMARY, *_SECONDARY))


def _role(name: str, first: bool) -> Role:
    plain = name.lower()
    if any(word in plain for word in _SECONDARY):
        return "secondary"
    if first or any(word in plain for word in _PRIMARY):
        return "primary"
    return "secondary"


def vessels_example(project: Project) -> str:
    """Return vessels of a batch in the project's own measure, for an empty field."""
    return _example(project, "6 gal pail, 5 gal jug", "26 L pail, 19 L jug")


def shelf_example(project: Project) -> str:
    """Return a shelf in the project's own measure, for an empty field."""
    return _example(project, "6 gal pail, 2 x 1 gal jug", "26 L pail, 2 x 5 L jug")


def _example(project: Project, gallons: str, litres: str) -> str:
    """Return the one in gallons where size or recipe is, of a country where nobody said whose."""
    size, basis = project.make.size, project.recipe.basis
    part = (size if size.dimension == "volume" else basis).parts[0]
    if part.unit not in ("gal", "qt", "pt"):
        return litres
    return gallons if project.gallon else gallons.replace("gal", f"gal {part.country}")


def _is_glass(name: str) -> bool:
    plain = name.lower()
    return any(word in plain for word in _GLASS) and "plastic" not in plain
