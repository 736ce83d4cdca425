"""What was written down with a tick, as a number in the unit of its field."""

from __future__ import annotations

import re
from collections.abc import Callable

from winebench.catalog.additives import additives
from winebench.catalog.sugars import sugars
from winebench.model.project import Project
from winebench.model.recipe import AdditiveLine, SugarLine
from winebench.plan.outlook import RecordField
from winebench.plan.portions import additive_g, g_per_litre, mass_g
from winebench.plan.record_counts import days_written, dozens_written
from winebench.plan.typed.acidity import HIGHEST_PH, LOWEST_PH
from winebench.plan.typed.fields import Slip, read_gravity, read_temperature
from winebench.plan.typed.number_words import digits
from winebench.trade.gravity import sg_from_brix
from winebench.units import Amount, Mass, Temperature, UnitsError, Volume, parse_number

NOTHING = ("none", "no", "nothing", "not yet", "-", "–")
"""What people write down where nothing went in."""
OF_UNIT = re.compile(r"(?i)\s*(?:mg\s*/\s*l|mg/l|ppm)\s*$")
PH_BEFORE = re.compile(r"(?i)^\s*ph\s*[:=]?\s*")
BRIX_BEHIND = re.compile(r"(?i)\s*°?\s*(?:brix|bx)\s*$")
ACID_BEHIND = re.compile(r"(?i)\s*g\s*/\s*l(?:\s+as\s+tartaric)?\s*$")
_PER_LITRE_BEHIND = re.compile(r"(?i)\s*g(?:rams?)?\s*(?:/|per\s+)l(?:it(?:re|er))?\s*$")
_PERCENT_BEHIND = re.compile(r"(?i)\s*(?:%|per\s?cent)\s*$")
_AT_MOST_BEFORE = re.compile(r"(?i)^\s*(?:[<≤]|less than|under|below|at most|up to)\s*")
_COUNTED = re.compile(r"(?i)\s*(?:full\s+)?bottles?\s*$")
_EXAMPLES = {
    "g": "12 g or 1/2 oz", "kg": "2.5 kg or 5 lb", "L": "0.4 L or 1 pint", "mg/L": "50",
    "SG": "0.995", "°C": "20 °C or 68 °F", "°Brix": "12", "g/L as tartaric": "6.5",
    "g/L": "1.5 g/L or 0.15 %",
    "g or tablets": "2 g or 3 tablets",
}  # fmt: skip
_EXAMPLES_BY_NAME = {"ph": "3.4", "count": "24", "left": "24", "days": "14"}


def read_record(field: RecordField, text: str, project: Project) -> float | None:
    """Return what is written in the field's unit; None where it is words, or cannot be worked out.

    A weight of sulfite is mg/L only where the field knows how much wine it went into.

    Raises:
        UnitsError: it should be a number or an amount and cannot be read; one sentence.

    """
    read = _reader(field)
    if read is None or not text.strip():
        return None
    if text.strip().lower().rstrip(".") in NOTHING:
        return 0.0 if field.unit in ("g", "kg", "L", "mg/L", "g or tablets") else None
    dozens = dozens_written(text) if field.name in _BOTTLES else None
    if dozens is not None:
        return _whole(dozens, text)
    plain = digits(text.strip())
    try:
        return read(field, plain, project)
    except UnitsError as problem:  # say it with the words that were typed
        raise UnitsError(str(problem).replace(f'"{plain}"', f'"{text.strip()}"')) from None


def value_of(
    text: str,
    unit: str,
    project: Project,
    of: str = "",
    litres: float | None = None,
    name: str = "",
) -> float | None:
    """Return what a record's text comes to in that unit; None where it cannot be read.

    `of` is the catalog key of what is weighed, `litres` what a dose in mg/L went into; `name`
    says what a field without a unit holds, such as "ph".
    """
    try:
        return read_record(
            RecordField(name=name, label="", unit=unit, of=of, litres=litres), text, project
        )
    except UnitsError:
        return None


_Reader = Callable[[RecordField, str, Project], float | None]


def _reader(field: RecordField) -> _Reader | None:
    return _BY_UNIT.get(field.unit) if field.unit else _BY_NAME.get(field.name)


def _unread(field: RecordField, text: str) -> UnitsError:
    example = _EXAMPLES.get(field.unit) or _EXAMPLES_BY_NAME[field.name]
    label = field.label.rstrip("?:")
    return UnitsError(f'"{text}" cannot be read as "{label}"; write it such as {example}.')


def _number(field: RecordField, text: str, bare: str) -> float:
    try:
        return parse_number(bare)
    except UnitsError:
        raise _unread(field, text) from None


def _grams(field: RecordField, text: str, project: Project) -> float:
    try:
        return parse_number(text)
    except UnitsError:
        return _weighed(field, text, project)


def _weighed(field: RecordField, text: str, project: Project) -> float:
    """Return the grams of an amount with its unit: a weight, spoons, cups or tablets."""
    try:
        amount = Amount(text)
    except UnitsError:
        raise _unread(field, text) from None
    if amount.dimension == "mass":
        return amount.grams()
    if field.of in sugars() and amount.dimension == "volume":
        line = SugarLine(id="", sugar=field.of, amount=amount)
        return mass_g(amount, g_per_litre(line), project.gallon)
    grams = additive_g(
        project, AdditiveLine(id="", additive=weighed_key(field.of, project), amount=amount)
    )
    if grams is None:
        raise UnitsError(f'How much "{text}" weighs is not known here; write it in g or oz.')
    return grams


def weighed_key(of: str, project: Project) -> str:
    """Return the key of what is weighed: of several sulfites or nutrients the recipe's own."""
    weighed = additives().get(of)
    if weighed is None or weighed.kind not in ("sulfite", "nutrient"):
        return of
    keys = (line.additive for line in project.recipe.lines if isinstance(line, AdditiveLine))
    known = (additives()[key] for key in keys if key in additives())
    return next((one.key for one in known if one.kind == weighed.kind), of)


def _counted_or_weighed(field: RecordField, text: str, project: Project) -> float:
    try:
        number = parse_number(text)
    except UnitsError:
        return _weighed(field, text, project)
    if number == 0:
        return 0.0
    raise UnitsError(f'Is "{text}" grams or tablets? Write {text} g or {text} tablets.')


def _mg_per_l(field: RecordField, text: str, project: Project) -> float | None:
    try:
        return parse_number(OF_UNIT.sub("", text))
    except UnitsError:
        if not field.of:
            raise _unread(field, text) from None
    grams = _weighed(field, text, project)
    if not field.litres:
        return None
    counted = Amount(text).dimension == "count"
    share = additives()["sulfite-tablet" if counted else weighed_key(field.of, project)].so2_share
    return grams * 1000.0 * share / field.litres


def _kilos(field: RecordField, text: str, _project: Project) -> float:
    try:
        return parse_number(text)
    except UnitsError:
        pass
    try:
        return Mass(text).grams() / 1000.0
    except UnitsError:
        raise _unread(field, text) from None


def _litres(field: RecordField, text: str, project: Project) -> float:
    try:
        return parse_number(text)
    except UnitsError:
        pass
    try:
        volume = Volume(text)
    except UnitsError:
        raise _unread(field, text) from None
    return volume.litres(project.gallon)


def _gravity(_field: RecordField, text: str, _project: Project) -> float:
    found = read_gravity(text)
    if isinstance(found, Slip):
        raise UnitsError(found.sentence)
    return found.value if found.scale == "SG" else float(sg_from_brix(found.value))


def _celsius(_field: RecordField, text: str, _project: Project) -> float:
    try:
        parse_number(text)
    except UnitsError:
        return Temperature(text).celsius  # a cold room may be colder than any must
    found = read_temperature(text, "C")
    if isinstance(found, Slip):
        raise UnitsError(found.sentence)
    return found.celsius


def _ph(field: RecordField, text: str, _project: Project) -> float:
    ph = _number(field, text, PH_BEFORE.sub("", text))
    if not LOWEST_PH <= ph <= HIGHEST_PH:
        raise UnitsError(f"No must or wine has a pH of {text}; measure it again.")
    return ph


def _brix(field: RecordField, text: str, _project: Project) -> float:
    return _number(field, text, BRIX_BEHIND.sub("", text))


def _acid(field: RecordField, text: str, _project: Project) -> float:
    return _number(field, text, ACID_BEHIND.sub("", text))


def sugar_written(text: str) -> float | None:
    """Return what "1.5", "<2 g/L" or "0.15 %" comes to in g/L, or None.

    One percent is 1 g in 100 mL, so 10 g/L; of "less than 2" the 2 counts.
    """
    bare = _PER_LITRE_BEHIND.sub("", _AT_MOST_BEFORE.sub("", text))
    number = _PERCENT_BEHIND.sub("", bare)
    try:
        return parse_number(number) * (1.0 if number == bare else 10.0)
    except UnitsError:
        return None


def _sugar(field: RecordField, text: str, _project: Project) -> float:
    sugar = sugar_written(text)
    if sugar is None:
        raise _unread(field, text)
    return sugar


def _count(field: RecordField, text: str, _project: Project) -> float:
    return _whole(_number(field, text, _COUNTED.sub("", text)), text)


def _whole(count: float, text: str) -> float:
    if count != int(count):
        raise UnitsError(f'"{text.strip()}": bottles are counted whole; write it such as 24.')
    return count


def _day_count(field: RecordField, text: str, _project: Project) -> float:
    days = days_written(text)
    if days is None:
        raise _unread(field, text)
    return days


_BY_UNIT: dict[str, _Reader] = {
    "g": _grams, "kg": _kilos, "L": _litres, "mg/L": _mg_per_l, "SG": _gravity, "°C": _celsius,
    "°Brix": _brix, "g/L as tartaric": _acid, "g or tablets": _counted_or_weighed,
    "g/L": _sugar,
}  # fmt: skip
_BOTTLES = ("count", "left")
_BY_NAME: dict[str, _Reader] = {"ph": _ph, "count": _count, "left": _count, "days": _day_count}
