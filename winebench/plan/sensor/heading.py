"""The first row of a sensor's table: which column is what, and in which unit."""

from __future__ import annotations

import re
from dataclasses import dataclass

from winebench.forecast.cells import HOURS_IN, TableError

COLUMNS = ("time", "gravity", "temperature", "note")
_NEEDED = ("time", "gravity")
_CELL = re.compile(r"(?P<name>.*?)\s*(?:[(\[]\s*(?P<unit>[^)\]]*?)\s*[)\]])?")
_DEGREES = {"c": "°C", "celsius": "°C", "f": "°F", "fahrenheit": "°F"}
_GRAVITIES = {"sg": "", "brix": "brix", "bx": "brix"}
_BARE = re.compile(r"\s*[-+−]?\d*[.,]?\d+\s*°?\s*", re.ASCII)
_WHOLE_ONE = re.compile(r"0*1", re.ASCII)


@dataclass(frozen=True, slots=True)
class Heading:
    """Where each column stands (None where there is none), and what bare numbers in it are."""

    time: int
    gravity: int
    temperature: int | None
    note: int | None
    width: int
    ignored: tuple[str, ...]
    time_unit: str = ""
    gravity_unit: str = ""
    temperature_unit: str = ""
    utc: bool = False
    """Whether times without an offset are UTC."""

    def pick(self, cells: list[str]) -> tuple[str, str, str, str]:
        """Return time, gravity, temperature and note of a row, bare numbers with their unit.

        Raises TableError where the cells cannot be told apart.
        """
        if len(cells) > self.width and any(cell.strip() for cell in cells[self.width :]):
            raise TableError(
                "more cells than columns; if a comma stands for the decimal point, part the "
                "columns with semicolons"
            )
        gravity = _cell(cells, self.gravity)
        if _WHOLE_ONE.fullmatch(gravity):
            raise TableError(
                f'gravity "{gravity}" has nothing after its point; write it as 1.000, or, if a '
                "comma stands for the decimal point, part the columns with semicolons"
            )
        return (
            _with_unit(_cell(cells, self.time), self.time_unit),
            _with_unit(gravity, self.gravity_unit),
            _with_unit(_cell(cells, self.temperature), self.temperature_unit),
            _cell(cells, self.note),
        )


def heading(cells: list[str]) -> Heading:
    """Return what the first row says. Raises TableError, one sentence."""
    places: dict[str, int] = {}
    units: dict[str, str] = {}
    ignored: list[str] = []
    for place, cell in enumerate(cells):
        found = _CELL.fullmatch(cell.strip())
        name = found["name"].lower() if found else ""
        if name not in COLUMNS:
            ignored += [cell.strip()] if cell.strip() else []
        elif name in places:
            raise TableError(f'two columns are named "{name}"; name one of them otherwise')
        else:
            places[name], units[name] = place, (found and found["unit"]) or ""
    for name in _NEEDED:
        if name not in places:
            raise TableError(
                f'no column is named "{name}"; name the columns in the first row: '
                f"{', '.join(COLUMNS)} (the last two if wanted)"
            )
    time = _time_unit(units["time"])
    return Heading(
        time=places["time"],
        gravity=places["gravity"],
        temperature=places.get("temperature"),
        note=places.get("note"),
        width=len(cells),
        ignored=tuple(ignored),
        time_unit="" if time == "UTC" else time,
        gravity_unit=_unit("gravity", units["gravity"], _GRAVITIES, "SG or °Brix"),
        temperature_unit=_unit("temperature", units.get("temperature", ""), _DEGREES, "°C or °F"),
        utc=time == "UTC",
    )


def _time_unit(text: str) -> str:
    if text.upper() in ("UTC", "GMT"):
        return "UTC"
    plain = text.lower()
    if plain and plain not in HOURS_IN and plain != "local":
        raise TableError(
            f'the times\' unit "{text}" is not known; write "time" for local time, "time (UTC)", '
            '"time (h)" or "time (d)"'
        )
    return "" if plain == "local" else plain


def _unit(name: str, text: str, known: dict[str, str], wanted: str) -> str:
    plain = re.sub(r"[°º˚\s.]|deg(?:rees?)?", "", text.lower())
    if plain and plain not in known:
        raise TableError(f'the unit "{text}" of {name} is not known; write {wanted}')
    return known.get(plain, "")


def _cell(cells: list[str], place: int | None) -> str:
    return cells[place].strip() if place is not None and place < len(cells) else ""


def _with_unit(text: str, unit: str) -> str:
    if not unit or not _BARE.fullmatch(text):
        return text
    return f"{text.strip(' °')} {unit}"
